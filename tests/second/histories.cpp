#include "histories.hpp"

#include <algorithm>
#include <stdexcept>

namespace second {

namespace {

Side larger(const Side& a, const Side& b) {
    return {std::max(a.at_least, b.at_least), std::max(a.estimate, b.estimate), std::max(a.at_most, b.at_most),
            std::max(a.degree_seconds, b.degree_seconds)};
}

History::OpenSide larger(const History::OpenSide& a, const History::OpenSide& b) {
    return {larger(a.total, b.total), std::max(a.open, b.open)};
}

template <class Set>
Set united(const Set& a, const Set& b) {
    Set both = a;
    both.insert(b.begin(), b.end());
    return both;
}

void shorten(std::optional<Instant>& use_by, Instant until) {
    if (!use_by || until < *use_by) use_by = until;
}

void add(History::OpenSide& side, const Side& more) {
    side.total.at_least += more.at_least;
    side.total.estimate += more.estimate;
    side.total.at_most += more.at_most;
    side.total.degree_seconds += more.degree_seconds;
    side.open += more.estimate;
}

void add(History& history, const Exposure& more) {
    add(history.warm, more.warm);
    add(history.cold, more.cold);
    add(history.frozen, more.frozen);
    for (std::size_t i = 0; i < history.allowances.size(); ++i) {
        history.allowances[i].used += more.allowances[i];
        history.allowances[i].open += more.allowances[i];
    }
    history.beyond_warm += more.beyond_warm;
    history.beyond_warm_open += more.beyond_warm;
    history.beyond_cold += more.beyond_cold;
    history.beyond_cold_open += more.beyond_cold;
    history.points += more.points;
    history.points_open += more.points;
    history.coverage.logged += more.coverage.logged;
    history.coverage.bounded += more.coverage.bounded;
    history.coverage.checked += more.coverage.checked;
    history.coverage.near += more.coverage.near;
    history.coverage.awaiting += more.coverage.awaiting;
    history.coverage.unmonitored += more.coverage.unmonitored;
    history.unmonitored_open += more.coverage.unmonitored;
    if (more.lowest) widen(history.lowest, history.highest, *more.lowest);
    if (more.highest) widen(history.lowest, history.highest, *more.highest);
}

void clear_open(History& history) {
    history.warm.open = 0;
    history.cold.open = 0;
    history.frozen.open = 0;
    for (History::Used& used : history.allowances) used.open = 0;
    history.beyond_warm_open = 0;
    history.beyond_cold_open = 0;
    history.points_open = 0;
    history.unmonitored_open = 0;
    history.held_by.clear();
}

bool more_than_told(const History& history, const Told& told) {
    if (told.out_of_range_s && history.warm.open + history.cold.open > Rational(*told.out_of_range_s)) return true;
    if (told.unmonitored_s && history.unmonitored_open > Rational(*told.unmonitored_s)) return true;
    return told.points && history.points_open > *told.points;
}

std::vector<std::string> discard_reasons(const History& history, Instant expires, Instant at) {
    std::vector<std::string> reasons;
    if (at >= expires || (history.use_by && at >= *history.use_by)) reasons.push_back("expired");
    if (!history.condemned_by.empty()) reasons.push_back("condemned");
    return reasons;
}

std::vector<std::string> quarantine_reasons(const History& history, const Product& product,
                                            std::int64_t unmonitored_limit_s) {
    std::vector<std::string> reasons;
    if (history.beyond_warm_open > Rational(0)) reasons.push_back("warm");
    if (history.beyond_cold_open > Rational(0)) reasons.push_back("cold");
    if (history.frozen.open > Rational(0)) reasons.push_back("frozen");
    bool over = false;
    for (std::size_t i = 0; i < product.allowances.size(); ++i)
        if (history.allowances[i].used > Rational(product.allowances[i].seconds) &&
            history.allowances[i].open > Rational(0))
            over = true;
    if (over) reasons.push_back("over-allowance");
    if (history.points_open > 0) reasons.push_back("point");
    if (history.unmonitored_open > Rational(unmonitored_limit_s)) reasons.push_back("unmonitored");
    if (!history.held_by.empty()) reasons.push_back("held");
    return reasons;
}

bool covers(const Guidance& guidance, Instant through, const Given& given) {
    if (through < given.at) return false;
    if (guidance.since && *guidance.since > given.at) return false;
    if ((guidance.place || guidance.mark) && !given.certain) return false;
    if (guidance.mark && *guidance.mark != given.from.mark) return false;
    if (guidance.place && given.history.places.count(*guidance.place) == 0) return false;
    if (guidance.verdict == Verdict::discard) return true;
    if (guidance.told && more_than_told(given.history, *guidance.told)) return false;
    return guidance.verdict != Verdict::use_by || given.at < guidance.use_by.value();
}

/// Would anything have been found on it, had no guidance cleared it?
bool shows_exposure(History history, const Product& product, std::int64_t unmonitored_limit_s) {
    history.frozen.open = history.frozen.total.estimate;
    for (History::Used& used : history.allowances) used.open = used.used;
    history.beyond_warm_open = history.beyond_warm;
    history.beyond_cold_open = history.beyond_cold;
    history.points_open = history.points;
    history.unmonitored_open = history.coverage.unmonitored;
    return !quarantine_reasons(history, product, unmonitored_limit_s).empty();
}

std::string finding(const Given& given, const Lot& lot, std::int64_t unmonitored_limit_s) {
    const auto has = [&](const char* reason) {
        return std::count(given.discard.begin(), given.discard.end(), reason) > 0;
    };
    if (has("expired")) return "expired";
    bool covered = false, discarded = false;
    for (const Event& event : lot.events)
        if (const auto* guidance = std::get_if<Guidance>(&event.what);
            guidance != nullptr && covers(*guidance, event.at, given)) {
            covered = true;
            discarded = discarded || guidance->verdict == Verdict::discard;
        }
    if (has("condemned")) return "not viable";
    if (discarded && shows_exposure(given.history, lot.product, unmonitored_limit_s)) return "not viable";
    if (!given.quarantine.empty()) return covered ? "cleared" : "pending guidance";
    return discarded ? "condemned later" : "clear";
}

/// The lot while its timeline is walked.
struct Walk {
    struct Stock {
        std::int64_t doses = 0;
        History history;
        Instant since = 0;  // the history is told up to here
    };
    const Lot& lot;
    std::int64_t unmonitored_limit_s;
    std::map<std::string, Trace> traces;
    std::map<Key, Stock> stock;
    std::vector<std::int64_t> recalls;  // holds that stand, by number
    std::vector<Given> gives;

    /// Tells every history of doses on hand up to the instant; with_it: what is read at the instant too.
    void tell(Instant until, bool with_it) {
        for (auto& [key, s] : stock) {
            if (s.doses == 0) continue;
            const auto trace = traces.find(key.place);
            if (trace == traces.end()) throw std::invalid_argument("unknown place " + key.place);
            add(s.history, exposure(trace->second, lot.product, Rational(s.since), Rational(until), with_it));
            s.since = until;
        }
    }

    void put(const Key& key, std::int64_t doses, const History& incoming, Instant at) {
        Stock& s = stock[key];
        s.history = s.doses > 0 ? join(s.history, incoming) : incoming;
        s.doses += doses;
        s.since = at;
    }

    void take(const Key& key, std::int64_t doses) {
        Stock& s = stock[key];
        if (s.doses < doses) throw std::invalid_argument("doses below 0 in " + key.place);
        s.doses -= doses;
    }

    void act(const Event& event, const Receive& receive) {
        History incoming;
        incoming.allowances.resize(lot.product.allowances.size());
        if (receive.handover) {
            if (receive.handover->allowances.size() != incoming.allowances.size())
                throw std::invalid_argument("a handover with other allowances than the product");
            incoming = *receive.handover;
        }
        incoming.places.insert(receive.to.place);
        for (const std::int64_t hold : recalls) incoming.held_by.insert(hold);
        put(receive.to, receive.doses, incoming, event.at);
    }

    void act(const Event& event, const Move& move) {
        if (move.from == move.to) throw std::invalid_argument("a move from a holding to itself");
        take(move.from, move.doses);
        History copy = stock[move.from].history;
        copy.places.insert(move.to.place);
        put(move.to, move.doses, copy, event.at);
    }

    void act(const Event& event, const Give& give) {
        Given given;
        given.entry = event.entry;
        given.at = event.at;
        given.history = stock[give.from].history;
        if (!give.certain)
            for (const auto& [key, s] : stock)
                if (s.doses > 0) given.history = join(given.history, s.history);
        given.discard = discard_reasons(given.history, lot.expires, event.at);
        given.quarantine = quarantine_reasons(given.history, lot.product, unmonitored_limit_s);
        given.from = give.from;
        given.certain = give.certain;
        take(give.from, give.doses);
        gives.push_back(given);
    }

    void act(const Event&, const TakeOut& out) { take(out.from, out.doses); }

    void act(const Event&, const Count& count) {
        Stock& s = stock[count.of];
        if (s.doses == 0 && count.doses > 0) throw std::invalid_argument("a count of a holding without doses");
        s.doses = count.doses;
    }

    void act(const Event&, const BeyondUse& beyond_use) {
        Stock& s = stock[beyond_use.of];
        if (s.doses > 0) shorten(s.history.use_by, beyond_use.use_by);
    }

    void act(const Event& event, const Hold& hold) {
        for (auto& [key, s] : stock) {
            if (s.doses == 0) continue;
            if (hold.place && *hold.place != key.place) continue;
            if (hold.mark && *hold.mark != key.mark) continue;
            s.history.held_by.insert(event.entry);
        }
        if (!hold.place && !hold.mark) recalls.push_back(event.entry);
    }

    void act(const Event& event, const Guidance& guidance) {
        for (auto& [key, s] : stock) {
            if (s.doses == 0) continue;
            if (guidance.place && *guidance.place != key.place) continue;
            if (guidance.mark && *guidance.mark != key.mark) continue;
            if (guidance.verdict == Verdict::discard) {
                s.history.condemned_by.insert(event.entry);
                continue;
            }
            if (!guidance.told || !more_than_told(s.history, *guidance.told)) clear_open(s.history);
            if (guidance.verdict == Verdict::use_by) shorten(s.history.use_by, guidance.use_by.value());
        }
    }
};

}  // namespace

History join(const History& a, const History& b) {
    if (a.allowances.size() != b.allowances.size()) throw std::invalid_argument("histories of two products");
    History both;
    both.warm = larger(a.warm, b.warm);
    both.cold = larger(a.cold, b.cold);
    both.frozen = larger(a.frozen, b.frozen);
    for (std::size_t i = 0; i < a.allowances.size(); ++i)
        both.allowances.push_back({std::max(a.allowances[i].used, b.allowances[i].used),
                                   std::max(a.allowances[i].open, b.allowances[i].open)});
    both.beyond_warm = std::max(a.beyond_warm, b.beyond_warm);
    both.beyond_warm_open = std::max(a.beyond_warm_open, b.beyond_warm_open);
    both.beyond_cold = std::max(a.beyond_cold, b.beyond_cold);
    both.beyond_cold_open = std::max(a.beyond_cold_open, b.beyond_cold_open);
    both.points = std::max(a.points, b.points);
    both.points_open = std::max(a.points_open, b.points_open);
    both.coverage.logged = std::max(a.coverage.logged, b.coverage.logged);
    both.coverage.bounded = std::max(a.coverage.bounded, b.coverage.bounded);
    both.coverage.checked = std::max(a.coverage.checked, b.coverage.checked);
    both.coverage.near = std::max(a.coverage.near, b.coverage.near);
    both.coverage.awaiting = std::max(a.coverage.awaiting, b.coverage.awaiting);
    both.coverage.unmonitored = std::max(a.coverage.unmonitored, b.coverage.unmonitored);
    both.unmonitored_open = std::max(a.unmonitored_open, b.unmonitored_open);
    for (const History* h : {&a, &b}) {
        if (h->lowest) widen(both.lowest, both.highest, *h->lowest);
        if (h->highest) widen(both.lowest, both.highest, *h->highest);
        if (h->use_by) shorten(both.use_by, *h->use_by);
    }
    both.places = united(a.places, b.places);
    both.condemned_by = united(a.condemned_by, b.condemned_by);
    both.held_by = united(a.held_by, b.held_by);
    return both;
}

State histories(const Records& records, const std::vector<Place>& places, const Lot& lot,
                std::int64_t unmonitored_limit_s, Instant A) {
    Walk walk{lot, unmonitored_limit_s, {}, {}, {}, {}};
    for (const Place& place : places) walk.traces[place.place] = trace_of(records, place, A);

    std::vector<Event> timeline;
    for (const Event& event : lot.events)
        if (event.at <= A) timeline.push_back(event);
    std::sort(timeline.begin(), timeline.end(), [](const Event& a, const Event& b) {
        return a.at != b.at ? a.at < b.at : a.entry < b.entry;
    });
    for (const Event& event : timeline) {
        walk.tell(event.at, false);
        std::visit([&](const auto& what) { walk.act(event, what); }, event.what);
    }
    walk.tell(A, true);

    State state;
    state.gives = walk.gives;
    for (Given& given : state.gives) given.finding = finding(given, lot, unmonitored_limit_s);
    for (const auto& [key, s] : walk.stock) {
        if (s.doses == 0) continue;
        Holding holding;
        holding.key = key;
        holding.doses = s.doses;
        holding.history = s.history;
        holding.discard = discard_reasons(s.history, lot.expires, A);
        holding.quarantine = quarantine_reasons(s.history, lot.product, unmonitored_limit_s);
        state.holdings.push_back(holding);
    }
    return state;
}

}  // namespace second
