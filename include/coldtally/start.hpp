// Start: a clinic that describes itself in one plain file, which is taken in as one batch.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "coldtally/drafts.hpp"
#include "coldtally/words.hpp"

namespace coldtally {

/// What a template is for: each holds the tables of its part, with every column explained.
enum class StartTemplate {
    clinic,  ///< site, places, probes, products, lots, people: all that a new ledger begins with
    lots,    ///< opening stock alone
    plan,    ///< the contingency plan
    rules,   ///< what the programme asks
};
/// "clinic", "lots", "plan", "rules"
std::string_view start_template_name(StartTemplate which) noexcept;
/// Code::bad_value for what is none.
StartTemplate start_template_of(std::string_view name);
/// The text of a template: UTF-8, a line of cells with commas, comments where a line begins with "# ". With nothing
/// filled in it states nothing.
std::string start_template(StartTemplate which, const Phrasebook& book = english());

struct StartRequest {
    std::string name;               ///< of the file, for messages
    std::string text;               ///< its bytes: UTF-8, UTF-16 or Latin-1; commas, semicolons or tabs
    std::string by;                 ///< initials
    std::optional<std::string> at;  ///< of what states no time of its own, as people type it; none: now
};

/// Something in the file that cannot be taken.
struct StartMistake {
    std::int64_t line = 0;   ///< of the file, from 1; 0: of the file as a whole
    std::string table;       ///< "places"
    std::string column;      ///< "type"; empty: of the row as a whole
    std::string value;       ///< as it stands there; may be empty
    Code code = Code::bad_value;
    std::string text;        ///< what is wrong, and what would be right
};

/// What is said of rows.
struct StartRemark {
    std::vector<std::int64_t> lines;  ///< all that it is said of, ascending
    Remark text;
};

/// Doses of a fund that the file brings into a place.
struct StartStock {
    std::string place, fund;
    std::int64_t lots = 0;
    Doses doses;
    Date first_expiry;
};

/// What a file says, made whole. Nothing of it has been posted.
struct StartDraft {
    Drafted drafted;                      ///< one batch; filled, warnings and read_back are below, by line
    std::vector<std::int64_t> lines;      ///< of each entry, where it stands
    std::vector<StartMistake> mistakes;   ///< all of them, by line; with any of them nothing can be posted
    std::int64_t not_looked_at = 0;       ///< rows that name what a refused row was to define
    std::int64_t unchanged = 0;           ///< definitions that hold so already, and are left out
    std::vector<StartRemark> filled;      ///< what was not stated and had one meaning only
    std::vector<StartRemark> warnings;    ///< those of the single entries
    std::vector<Remark> asks;             ///< what must be meant, and is of no single entry
    std::vector<StartStock> stock;        ///< by place, fund
    std::vector<Remark> missing;          ///< what is still missing with it, in the order in which to do it
    std::string site, zone;               ///< as they are then; empty where not known
    bool is_new = false;                  ///< there is no ledger yet
};

}  // namespace coldtally
