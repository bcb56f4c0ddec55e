// Readiness: doses that must not be on the shelf, doses that wait for an answer, and counts.
#include <algorithm>
#include <map>
#include <set>

#include "question/said.hpp"
#include "stock/lists.hpp"
#include "stock/reasons.hpp"
#include "stock/review.hpp"
#include "upkeep/readiness.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

namespace {

using Urgency = ReadinessAnswer::Urgency;
using Matter = ReadinessAnswer::Matter;
using LotId = std::pair<std::string, std::string>;  // product, number

const ledger::Store::LotRow& row_of(const std::vector<ledger::Store::LotRow>& lots, const LotId& id) {
    return *std::find_if(lots.begin(), lots.end(),
                         [&](const auto& l) { return l.product == id.first && l.number == id.second; });
}

/// Since when there have been doses of a lot that wait, without an instant at which there were none: at `w.at` there
/// are some. Between two instants of `breaks` doses can only come to wait; at one of them all may have stopped.
Instant waiting_since(const Inspection& in, const ledger::Store::LotRow& lot) {
    const World& w = in.w;
    const auto wait = [&](std::int64_t t) {
        AnswerHead head = w.head;
        head.at = Instant(t);
        World then(w.store, head, w.known);
        then.engine.expect_back_to(w.store.first_movement(lot.lot).value_or(t));
        timeline::LotTimeline timeline(then.store, then.known, then.engine, lot);
        timeline.run(t, true);
        return std::any_of(timeline.holdings().begin(), timeline.holdings().end(), [&](const auto& h) {
            const History& history = h.second.history;
            return h.second.doses > 0 && history.condemned_by.empty() &&
                   !quarantine_reasons(history, timeline.product(), w.known.unmonitored_limit()).empty();
        });
    };
    std::set<std::int64_t> breaks;  // guidance, and doses of a holding that are all gone
    for (const auto& g : w.known.guidance)
        if (g.fact.product == lot.product && g.fact.lot == lot.number && g.at <= w.at) breaks.insert(g.at);
    ledger::StockWalk walk;
    bool any = false;
    for (const auto& m : w.store.movements(lot.lot)) {
        if (m.at > w.at || !w.known.is_known(m.entry)) continue;
        if (!any) breaks.insert(m.at - 1);
        any = true;
        walk.apply(m);
        for (const std::int64_t holding : {m.source, m.target})
            if (holding && walk.doses(holding) == 0) breaks.insert(m.at);
    }
    std::int64_t waits = w.at;
    for (auto b = breaks.rbegin(); b != breaks.rend(); ++b) {
        if (*b > waits) continue;
        if (!wait(*b)) {
            std::int64_t before = *b;
            while (waits - before > 1) {
                const std::int64_t middle = before + (waits - before) / 2;
                (wait(middle) ? waits : before) = middle;
            }
            break;
        }
        waits = *b;
        if (!wait(*b - 1)) break;
        waits = *b - 1;
    }
    return Instant(waits);
}

void inspect_doses_to_discard(Inspection& in, const ListsAnswer& lists) {
    World& w = in.w;
    const auto lots = w.lots();
    in.topic(Matter::doses_to_discard, words::rule_doses_to_discard, words::things_holdings);
    for (const auto& r : lists.holdings) {
        const HoldingKey& k = r.holding;
        in.looked(r.list != List::discard);
        if (r.list != List::discard) continue;
        std::optional<Instant> since;
        const auto earlier = [&](Instant t) {
            if (t <= w.head.at && (!since || t < *since)) since = t;
        };
        earlier(w.expired_from(row_of(lots, {k.product, k.lot})));
        if (r.history.use_by) earlier(*r.history.use_by);
        for (const auto& g : w.known.guidance)
            if (r.history.condemned_by.contains(g.entry)) earlier(Instant(g.at));
        const bool expired = std::find(r.reasons.begin(), r.reasons.end(), Reason::expired) != r.reasons.end();
        const Remark doses = words::doses(r.doses.count());
        in.find(Urgency::act, said::holding_words(k),
                expired ? words::expired_on_shelf(doses) : words::condemned_on_shelf(doses), since)
            .details = {words::expiry_of_lot(r.expiry.text())};
    }
}

/// Doses of a lot that are here and wait.
void find_waiting(Inspection& in, const LotId& id, const std::vector<const ListsAnswer::Row*>& rows, Instant since) {
    std::int64_t doses = 0;
    std::vector<Remark> details;
    for (const auto* r : rows) {
        doses += r->doses.count();
        details.push_back(
            words::colon(said::place_words(r->holding),
                         words::comma(words::doses(r->doses.count()), said::reasons_words(r->reasons))));
    }
    in.find(Urgency::act, words::lot_of(id.first, id.second), words::doses_wait(doses), since).details =
        std::move(details);
}

/// Doses of a lot that were given and wait.
void find_given(Inspection& in, const LotId& id, const std::vector<ReviewAnswer::Row>& rows) {
    std::int64_t doses = 0;
    std::vector<Remark> details;
    Instant since = rows.front().at;
    for (const auto& r : rows) {
        doses += r.doses.count();
        since = std::min(since, r.at);
        details.push_back(words::entry_given(r.entry, in.local(r.at)));
    }
    in.find(Urgency::act, words::lot_of(id.first, id.second), words::doses_given_wait(doses), since).details =
        std::move(details);
}

void inspect_guidance(Inspection& in, const ListsAnswer& lists) {
    World& w = in.w;
    const auto lots = w.lots();
    in.topic(Matter::guidance, words::rule_guidance, words::things_lots);
    std::set<LotId> all;
    std::map<LotId, std::vector<const ListsAnswer::Row*>> waiting;
    for (const auto& r : lists.holdings) {
        const LotId id{r.holding.product, r.holding.lot};
        all.insert(id);
        if (r.list == List::quarantine) waiting[id].push_back(&r);
    }
    std::map<LotId, std::vector<ReviewAnswer::Row>> given;
    for (auto& r : answers::review(w, false).doses)
        if (r.finding == Finding::pending_guidance) {
            const LotId id{r.holding.product, r.holding.lot};
            all.insert(id);
            given[id].push_back(std::move(r));
        }
    for (const LotId& id : all) {
        const auto here = waiting.find(id);
        const auto gone = given.find(id);
        in.looked(here == waiting.end() && gone == given.end());
        if (here != waiting.end()) find_waiting(in, id, here->second, waiting_since(in, row_of(lots, id)));
        if (gone != given.end()) find_given(in, id, gone->second);
    }
}

/// When the doses of a holding came, or were counted last.
struct Clock {
    std::int64_t came;
    std::optional<std::int64_t> counted;
    std::int64_t last() const { return counted.value_or(came); }
};

/// Of a holding with doses. `here`: those of its place and fund: a new mark is no delivery.
Clock count_clock(const World& w, const std::vector<ledger::Movement>& movements, std::int64_t holding,
                  const std::set<std::int64_t>& here) {
    std::map<std::int64_t, Clock> clocks;  // of those that have doses
    ledger::StockWalk walk;
    for (const auto& m : movements) {
        if (m.at > w.at || !w.known.is_known(m.entry)) continue;
        walk.apply(m);
        const auto from = clocks.find(m.source);
        if (m.op == ledger::MovementOp::count && from != clocks.end()) from->second.counted = m.at;
        if (here.contains(m.target) && walk.doses(m.target) > 0) {
            const Clock theirs = from == clocks.end() ? Clock{m.at, {}} : from->second;
            const auto [at, fresh] = clocks.emplace(m.target, theirs);
            if (!fresh && from != clocks.end() && theirs.last() < at->second.last()) at->second = theirs;
        }
        for (const std::int64_t id : {m.source, m.target})
            if (walk.doses(id) <= 0) clocks.erase(id);
    }
    const auto found = clocks.find(holding);
    return found == clocks.end() ? Clock{w.at, {}} : found->second;
}

}  // namespace

void inspect_stock(Inspection& in) {
    const auto lists = answers::lists(in.w);
    inspect_doses_to_discard(in, lists);
    inspect_guidance(in, lists);
}

void inspect_counts(Inspection& in) {
    World& w = in.w;
    const auto days = in.every_days("count");
    if (!days) return in.not_judged(Matter::counts, words::no_rule_counts);
    in.topic(Matter::counts, in.every_words(*days), words::things_holdings);
    struct Late {
        Instant since;
        std::vector<Remark> details;
    };
    std::map<std::string, Late> places;
    for (const auto& lot : w.lots_with_doses()) {
        const auto stock = w.stock(lot);
        const auto movements = w.store.movements(lot.lot);
        const auto holdings = w.store.holdings(lot.lot);
        for (const auto& h : holdings) {
            if (stock.doses(h.holding) <= 0) continue;
            std::set<std::int64_t> here;
            for (const auto& other : holdings)
                if (other.place == h.place && other.fund == h.fund) here.insert(other.holding);
            const Clock clock = count_clock(w, movements, h.holding, here);
            const Instant last(clock.last());
            const Instant due = in.due(last, *days);
            in.looked(w.head.at < due);
            if (w.head.at < due) continue;
            auto [it, is_new] = places.try_emplace(h.place, Late{due, {}});
            it->second.since = std::min(it->second.since, due);
            it->second.details.push_back(
                words::colon(said::holding_words({h.place, lot.product, lot.number, h.fund, h.mark}),
                             (clock.counted ? words::last_counted : words::never_counted)(in.local(last))));
        }
    }
    for (auto& [place, late] : places) {
        const auto n = late.details.size();
        in.find(Urgency::overdue, place, words::count_overdue(words::holdings(n)), late.since).details =
            std::move(late.details);
    }
}

}  // namespace coldtally::answers
