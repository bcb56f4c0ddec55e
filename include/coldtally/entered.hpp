// Entered: what was entered, by whom, and what took it back; and definitions as they hold, with how they came to be so.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/entries.hpp"
#include "coldtally/question.hpp"
#include "coldtally/words.hpp"

namespace coldtally {

/// Which entries are asked for: those for which all holds that is stated.
struct EnteredRequest {
    /// Happened or entered in [from, until); of readings any of them.
    std::optional<Instant> from, until;
    /// What they name; of a taking back, a step with a patient, a loan and its repayment what the entry names that they
    /// are about. Readings are of the places in which their probe was.
    std::optional<std::string> place, product, lot, patient;
    std::optional<std::string> kind;  ///< "give"; "takeback" is a void
    std::optional<std::string> by;    ///< initials, in capital letters or small ones
    std::optional<std::string> text;  ///< a part of what was typed, other than tokens, in capital letters or small ones
    static constexpr std::int64_t usual_most = 40;  ///< what a person looks through; a choice of ours
    std::int64_t most = usual_most;                 ///< the last so many; 0: all
    bool patients = false;                          ///< with the tokens of those that doses were given to
};

/// The entries, in the order of posting, the last last. What was entered for another day than that of the entry says
/// both.
struct EnteredAnswer {
    AnswerHead head;
    struct TakenBack {
        EntryNumber entry = 0;  ///< the taking back
        Instant at;
        std::string by, reason;
    };
    struct Row {
        Entry entry;  ///< readings without their rows, a give without its token unless that was asked for
        std::int64_t readings = 0;               ///< of readings, how many
        std::optional<Instant> first, last;      ///< of them
        std::optional<TakenBack> taken_back;     ///< by the entries known
        std::optional<Entry> takes_back;         ///< of a taking back: what it takes back, without token and rows
        std::int64_t takes_back_readings = 0;
        /// What would take it back; none where it is taken back already, or cannot be.
        std::optional<Suggestion> takeback;
    };
    std::vector<Row> entries;
    std::int64_t earlier = 0;  ///< more that are as asked for, before these
    bool filtered = false;     ///< something was stated that not every entry is
};

/// What is defined, or stated like a definition: the last that is known holds.
enum class Defined { site, product, lot, place, probe, certificate, assign, maker, rules, person };
std::string_view defined_name(Defined what) noexcept;

/// What is shown: all that goes by a name: an id, a lot's number, a person who was trained, "site" or the site's name,
/// "rules"; `kind`: of that kind alone, as defined_name has it (a probe comes with its certificates and where it is).
/// Neither: the names that there are.
struct ShowRequest {
    std::optional<std::string> name, kind;
};

struct ShownAnswer {
    AnswerHead head;
    /// One thing that a definition says, or a certificate, or a training: its name in words, and what it says.
    struct Line {
        Remark name;
        Field value;
        friend bool operator==(const Line&, const Line&) = default;
    };
    /// A line that differs from the version before; none where it was not there.
    struct Change {
        Remark name;
        std::optional<Field> before, after;
    };
    struct Version {
        EntryNumber entry = 0;
        Instant recorded;
        std::optional<Instant> at;
        std::string by;
        std::optional<std::string> note;
        std::vector<Change> changes;  ///< from the one that held before it; of the first none
        std::optional<EnteredAnswer::TakenBack> taken_back;
        bool holds = false;
    };
    struct Thing {
        Defined what = Defined::site;
        std::string name;                    ///< of a certificate and of where a probe is, the probe's
        std::optional<std::string> product;  ///< of a lot
        std::vector<Line> lines;             ///< as it holds; none where all of it was taken back, or is of later
        std::vector<Version> history;        ///< in the order of posting
    };
    std::vector<Thing> things;
    struct Known {
        Defined what = Defined::site;
        std::vector<std::string> ids;
    };
    std::vector<Known> known;  ///< by kind, where no name was asked for
};

}  // namespace coldtally
