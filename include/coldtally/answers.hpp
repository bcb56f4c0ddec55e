// Answers: what a ledger says of an instant, as plain data in the order in which it is printed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coldtally/entries.hpp"
#include "coldtally/exposure.hpp"
#include "coldtally/gs1.hpp"
#include "coldtally/verification.hpp"

namespace coldtally {

/// The instant A asked about, and the instant K on which it is asked from: entries recorded after K are not seen.
/// Where one is not given, Ledger uses the instant passed as now, or that of the last entry where that is later.
struct Question {
    std::optional<Instant> at, known_on;
};

/// What every answer begins with.
struct AnswerHead {
    std::string ledger;  ///< the site's name
    Instant at, known_on;
    EntryNumber last_entry = 0;  ///< the highest entry number known
    std::string window;          ///< of an answer about a window: the window in words, by the site's clock; else empty
};

/// The last day on which doses may be used: the earliest of the lot's expiry and of all that has shortened their use.
struct LastUse {
    Instant until;          ///< the first instant at which they may no longer be used
    Date day;               ///< of the site's calendar: the last on which they may be used, if for a part of it alone
    bool whole_day = true;  ///< to the end of that day; else until the instant
    std::string set_by;     ///< "expiry", "beyond-use", "guidance" or "handover"
    std::optional<EntryNumber> entry;  ///< which set it; none for the expiry
};
/// "from 2026-03-01 00:00 through the end of 2026-03-07"; "until 2026-03-07 12:00" where it does not end with a day;
/// and that it is seen up to `at` only, where it ends later.
std::string window_words(Instant from, Instant until, Instant at, const Zone& zone);

enum class List { discard, quarantine, keep };
/// "discard", "quarantine-pending-guidance", "keep"
std::string_view list_name(List list) noexcept;

/// Doses on this list, in doubt of these open incidents, are not to be given as things stand: of all rows below.
bool do_not_use(List list, const std::vector<std::string>& in_doubt);

struct StockAnswer {
    AnswerHead head;
    struct Row {
        HoldingKey holding;
        Doses doses;
        Date expiry;
        LastUse last_use;
        List list = List::keep;             ///< as in ListsAnswer, with what puts them on it
        std::vector<std::string> in_doubt;  ///< as in ListsAnswer
        std::vector<std::string> beside;    ///< as in ListsAnswer, and that no opening of a vial in use is noted
    };
    std::vector<Row> holdings;
    struct Accounts {
        std::int64_t supplier = 0, patient = 0, wasted = 0, returned = 0, transferred = 0, variance = 0, on_hand = 0;
    } accounts;  ///< doses; they add up to 0
};

struct ListsAnswer {
    AnswerHead head;
    struct Row {
        HoldingKey holding;
        Doses doses;
        Date expiry;
        LastUse last_use;
        List list = List::keep;
        std::vector<std::string> reasons;
        std::vector<std::string> notes;  ///< what a careful person wants to know beside the reasons
        History history;
        std::vector<Duration> allowance_seconds;  ///< of the product's allowances
        /// Open incidents in whose time in doubt doses of this lot stood where these have been, and that no guidance
        /// has answered since; whatever the list. Shown wherever the list is.
        std::vector<std::string> in_doubt;
        /// Those of the notes that must be known before doses are used though the list does not say it.
        std::vector<std::string> beside = {};
    };
    std::vector<Row> holdings;
};

/// What the code on a box says, and what the ledger knows of such boxes.
struct ScanAnswer {
    AnswerHead head;
    Gs1Scan scan;
    std::optional<std::string>
        product;  ///< the one with this GTIN; where none has it, the only one with a lot of this number
    std::optional<Date> expiry;          ///< of the lot, as the ledger knows it
    std::vector<std::string> remarks;    ///< where code and ledger do not agree, or one of them does not know
    std::vector<ListsAnswer::Row> holdings;  ///< the lot's, as in lists
};

struct ReviewAnswer {
    AnswerHead head;
    struct Row {
        EntryNumber entry = 0;
        Instant at;
        std::string patient;
        HoldingKey holding;
        Doses doses;
        bool certain = true;
        std::string finding;
        std::vector<std::string> reasons;  ///< the quarantine reasons at the give
        std::optional<EntryNumber> guidance;  ///< the last that covers the give
        History history;                   ///< just before the doses left
        std::vector<Duration> allowance_seconds;
        /// What must be known though the finding does not say it: "MAY HAVE BEEN OUT OF RANGE", "MAY HAVE FROZEN",
        /// "LEARNT AFTER GUIDANCE", "IN DOUBT".
        std::vector<std::string> beside = {};
    };
    std::vector<Row> doses;
    /// Doses given at which nothing was found, in words, since they must not be read as "nothing happened": those given
    /// in the time in doubt of an open incident; those that by the at-most sums may have been out of range for longer
    /// than the strictest of the side's allowances permits, or may have frozen. And those, whatever was found, that
    /// guidance cleared of what was learnt after it was posted.
    std::vector<std::string> not_listed = {};
};

enum class Side { cold, warm };
std::string_view side_name(Side side) noexcept;
enum class ExcursionKind { bounded, line, point };
std::string_view excursion_kind_name(ExcursionKind kind) noexcept;

struct ExcursionsAnswer {
    AnswerHead head;
    std::string place;
    Instant from, until;  ///< the window, as asked
    std::array<Rational, class_count>
        seconds;  ///< of each Class in it: between checks, and where nothing is known, excursions may hide
    struct Inside {
        HoldingKey holding;
        Doses doses;
        Exposure exposure;  ///< of its product, over the overlap
        std::vector<Duration> allowance_seconds;
    };
    struct Row {
        Side side = Side::warm;
        ExcursionKind kind = ExcursionKind::line;
        Rational from_s, until_s;  ///< seconds since 1970-01-01T00:00:00Z
        Rational duration_s, degree_s, peak_C;
        Rational
            checked_s;  ///< of the duration, what rests on a line between plain checks: of that time nothing is known
        bool open = false;
        std::vector<std::string>
            marks;  ///< what its readings lack: a valid certificate, a distance from the limit beyond the tolerance
        std::vector<Inside> holdings;
    };
    std::vector<Row> excursions;
    std::vector<std::string> beside = {};  ///< what no figure of these counts: what a display showed at the first check
};

struct ConditionsAnswer {
    AnswerHead head;
    std::string place;
    Instant from, until;
    std::array<Rational, class_count> seconds;
    std::optional<Rational> lowest_C, highest_C, mean_C;
    std::optional<std::string> mean_kinetic_C;  ///< decimal, 6 places, correctly rounded
    std::int64_t excursions = 0;
    std::vector<std::string> marks;  ///< when the probe had no valid certificate
    std::vector<std::string> beside = {};  ///< as ExcursionsAnswer
};

/// Why a holding is on its list, in the order of time.
struct Explanation {
    AnswerHead head;
    HoldingKey holding;
    std::vector<std::string> lines;
};

}  // namespace coldtally
