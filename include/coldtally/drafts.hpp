// Drafts: everyday entries as a person states them in a hurry, what they become, and what a posting would change.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/departures.hpp"
#include "coldtally/entries.hpp"
#include "coldtally/stock.hpp"
#include "coldtally/words.hpp"

namespace coldtally {

/// A vial of several doses, opened: its doses get a mark of their own, and a use-by from when it was opened on.
struct Opening {
    HoldingKey from;      ///< the doses that were not opened
    std::string mark;     ///< of the vial
    Doses doses;          ///< in it when it was opened; 0 of an offer where the stock is in no whole vials
    Instant at;           ///< when it was opened
    std::string event;    ///< one of the product's: "first puncture"
    Duration period;      ///< from then on
    LastUse last_use;     ///< of what is in it
    bool noted = false;   ///< by the draft's entries; else it is an offer, and nothing says that the vial was opened
};

/// A draft made whole. Nothing of it has been posted.
struct Drafted {
    std::vector<Entry> entries;         ///< to be posted together, in this order; most drafts make one
    std::vector<Remark> filled;      ///< what was not stated and had one meaning only
    std::vector<Remark> warnings;    ///< what a careful person wants to know before posting
    std::vector<Remark> next_steps;  ///< what to do at once, in this order; empty where nothing is
    std::vector<Remark> read_back;   ///< of definitions: all that they then say, in both scales, durations in words
    /// Of definitions, in which way each is looser than the one that holds, "high 8 °C (46 °F) -> 10 °C (50 °F)",
    /// whatever the lists show now: it may hide what was, and what comes later.
    std::vector<Remark> looser;
    bool may_change_answers = false;      ///< another definition of a known thing, a certificate, or where a probe is
    std::optional<Opening> opening;     ///< of a give or waste out of vials that nothing says were opened
};

/// How an entry that later movements contradict can be posted all the same: they are taken back, the last first, it is
/// posted, and they are posted again in their order, a move of all that was there as a move of all that is there then.
struct LateCorrection {
    std::vector<Entry> entries;  ///< to be posted together, in this order
    Remark asks;                 ///< what is taken back and posted again; to be asked before it is posted
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
        std::vector<Reason> reasons;
        History history;
        std::vector<std::string> in_doubt;  ///< as in ListsAnswer
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
        std::optional<Finding> before, after;  ///< none: no such give
    };
    std::vector<Dose> doses;
    /// Gives that lose a reason of quarantine, whatever their finding.
    struct LostReasons {
        EntryNumber entry = 0;
        std::vector<Reason> reasons;
    };
    std::vector<LostReasons> gives;
    /// Doses that left and are in no list: of both states, without `news`.
    struct Left {
        DepartedDoses before, after;
    };
    std::vector<Left> left;
    /// Of each known place that the entries define anew: what becomes of its excursions, of all that is recorded.
    struct OfPlace {
        std::string place;
        std::int64_t excursions = 0, vanish = 0, shortened = 0;  ///< `excursions`: as they are without the entries
        struct OfIncident {
            std::string incident;
            std::int64_t before = 0, after = 0;  ///< its excursions there
        };
        std::vector<OfIncident> open_incidents;  ///< that had noticed there
    };
    std::vector<OfPlace> places;
};

}  // namespace coldtally
