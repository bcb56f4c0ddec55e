// Drafts: everyday entries as a person states them in a hurry, what they become, and what a posting would change.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/answers.hpp"
#include "coldtally/entries.hpp"

namespace coldtally {

/// As people type it: "08:05" is today in the zone, "2026-03-02 08:05" and "2026-03-02T08:05" are local; all that
/// parse_instant takes, too, with its errors.
Instant typed_instant(std::string_view text, const Zone& zone, Instant now);
/// The same for an end of a window, where a date alone is the first instant of that day.
Instant typed_bound(std::string_view text, const Zone& zone, Instant now);

/// A draft made whole. Nothing of it has been posted.
struct Drafted {
    std::vector<Entry> entries;         ///< to be posted together, in this order; most drafts make one
    std::vector<std::string> filled;    ///< what was not stated and had one meaning only
    std::vector<std::string> warnings;  ///< what a careful person wants to know before posting
    std::vector<std::string> next_steps;  ///< what to do at once; empty where nothing is
};

/// What was posted, or with `dry_run` would be; its entries carry their numbers.
struct Posted {
    Drafted what;
    bool dry_run = false;
};

/// What entries would change on stock, lists and review, everything else left as it is. Only what differs is listed.
struct Changes {
    AnswerHead head;  ///< as it is without them
    struct State {
        Doses doses;
        List list = List::keep;
        std::vector<std::string> reasons;
        History history;
        friend bool operator==(const State&, const State&) = default;
    };
    struct Holding {
        HoldingKey holding;
        std::optional<State> before, after;  ///< none: no doses there
    };
    std::vector<Holding> holdings;
    struct Dose {
        EntryNumber entry = 0;  ///< of the give
        Instant at;
        std::string patient;
        HoldingKey holding;
        std::optional<std::string> before, after;  ///< findings; none: no such give
    };
    std::vector<Dose> doses;
};

}  // namespace coldtally
