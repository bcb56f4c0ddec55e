// Second implementation, for tests only: the timeline of one lot, and what its holdings have been through.
#pragma once

#include "exposure.hpp"

#include <map>
#include <set>
#include <variant>

namespace second {

/// Totals since receipt, and what of them is open: has come since guidance last cleared it.
struct History {
    struct OpenSide {
        Side total;
        Rational open;  // of the estimate
    };
    struct Used {
        Rational used, open;
    };
    OpenSide warm, cold, frozen;
    std::vector<Used> allowances;
    Rational beyond_warm, beyond_warm_open, beyond_cold, beyond_cold_open;
    std::int64_t points = 0, points_open = 0;
    Coverage coverage;
    Rational unmonitored_open;
    std::optional<Rational> lowest, highest;  // °C
    std::set<std::string> places;
    std::set<std::int64_t> condemned_by, held_by;  // entry numbers
    std::optional<Instant> use_by;                 // the first instant at which the doses may not be used
};

/// What doses have been through that can no longer be told apart.
History join(const History& a, const History& b);

/// A holding of the lot.
struct Key {
    std::string place, fund, mark;
    auto operator<=>(const Key&) const = default;
};

struct Receive {
    Key to;
    std::int64_t doses = 0;
    std::optional<History> handover;  // its places as site/place
};
struct Move {
    Key from, to;
    std::int64_t doses = 0;
};
struct Give {
    Key from;
    std::int64_t doses = 1;
    bool certain = true;
};
/// Waste, return or transfer.
struct TakeOut {
    Key from;
    std::int64_t doses = 0;
};
struct Count {
    Key of;
    std::int64_t doses = 0;
};
/// The instant is the caller's to work out; an event its product no longer names makes none of these.
struct BeyondUse {
    Key of;
    Instant use_by = 0;
};
/// Of the lot or of all lots of its product.
struct Hold {
    std::optional<std::string> place, mark;
};
enum class Verdict { use, use_by, discard };
struct Told {
    std::optional<std::int64_t> out_of_range_s, unmonitored_s, points;  // what is not stated is not compared
};
struct Guidance {
    std::optional<std::string> place, mark;
    std::optional<Instant> since;
    Verdict verdict = Verdict::use;
    std::optional<Instant> use_by;  // with Verdict::use_by
    std::optional<Told> told;
};

struct Event {
    std::int64_t entry = 0;
    Instant at = 0;  // guidance: its `through`
    std::variant<Receive, Move, Give, TakeOut, Count, BeyondUse, Hold, Guidance> what;
};

/// What is known of one lot; entries that are voided or not yet known are not among the events.
struct Lot {
    Product product;
    Instant expires = 0;  // the first instant after its last day
    std::vector<Event> events;
};

struct Holding {
    Key key;
    std::int64_t doses = 0;
    History history;
    std::vector<std::string> discard, quarantine;  // reasons
};

/// A give, and the history review judges: of the holding, or of all the lot's doses where it is not certain.
struct Given {
    std::int64_t entry = 0;
    Instant at = 0;
    History history;
    std::vector<std::string> discard, quarantine;  // reasons, at the give
    Key from;
    bool certain = true;
    std::string finding;  // of review
};

struct State {
    std::vector<Holding> holdings;  // with doses, ascending
    std::vector<Given> gives;       // in the order of the timeline
};

/// At A. The guidance of a lot is taken to have come in the order of its numbers. std::invalid_argument: a place that
/// is not defined, doses below 0, a count above 0 of nothing.
State histories(const Records& records, const std::vector<Place>& places, const Lot& lot,
                std::int64_t unmonitored_limit_s, Instant A);

}  // namespace second
