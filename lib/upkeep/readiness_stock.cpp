// Readiness: doses that must not be on the shelf, doses that wait for an answer, and counts.
#include <algorithm>
#include <map>
#include <set>

#include "stock/lists.hpp"
#include "stock/reasons.hpp"
#include "stock/review.hpp"
#include "upkeep/readiness.hpp"

namespace coldtally::answers {

namespace {

using Urgency = ReadinessAnswer::Urgency;
using LotId = std::pair<std::string, std::string>;  // product, number

std::string lot_words(const std::string& product, const std::string& lot) { return product + " lot " + lot; }

std::string holding_words(const HoldingKey& k) {
    return lot_words(k.product, k.lot) + " in " + k.place + (k.fund.empty() ? "" : ", fund " + k.fund) +
           (k.mark.empty() ? "" : ", mark " + k.mark);
}

std::string doses_words(std::int64_t n) { return std::to_string(n) + (n == 1 ? " dose" : " doses"); }

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

}  // namespace

void inspect_stock(Inspection& in) {
    World& w = in.w;
    const auto lists = answers::lists(in.w);
    const auto lots = w.lots();

    in.topic("doses to discard", "expired or condemned doses must not stand with those that may be used", "holdings");
    std::map<LotId, std::vector<const ListsAnswer::Row*>> waiting;
    for (const auto& r : lists.holdings) {
        const HoldingKey& k = r.holding;
        in.looked(r.list != List::discard);
        if (r.list == List::quarantine) waiting[{k.product, k.lot}].push_back(&r);
        if (r.list != List::discard) continue;
        std::optional<Instant> since;
        const auto earlier = [&](Instant t) {
            if (t <= w.head.at && (!since || t < *since)) since = t;
        };
        earlier(w.expired_from(row_of(lots, {k.product, k.lot})));
        if (r.history.use_by) earlier(*r.history.use_by);
        for (const auto& g : w.known.guidance)
            if (r.history.condemned_by.contains(g.entry)) earlier(Instant(g.at));
        const bool expired = std::find(r.reasons.begin(), r.reasons.end(), "expired") != r.reasons.end();
        in.find(Urgency::act, holding_words(k),
                doses_words(r.doses.count()) +
                    (expired ? " past the expiry or use-by date" : " that guidance said to discard") +
                    " still on the shelf",
                since)
            .details = {"expiry of the lot " + r.expiry.text()};
    }

    in.topic("guidance",
             "doses with exposure that no allowance covers wait, apart and marked, for the manufacturer's or health "
             "department's answer",
             "lots");
    std::set<LotId> all;
    for (const auto& r : lists.holdings) all.insert({r.holding.product, r.holding.lot});
    std::map<LotId, std::vector<ReviewAnswer::Row>> given;
    for (auto& r : answers::review(in.w, false).doses)
        if (r.finding == "pending guidance")
            all.insert({r.holding.product, r.holding.lot}),
                given[{r.holding.product, r.holding.lot}].push_back(std::move(r));
    for (const LotId& id : all) {
        const auto here = waiting.find(id);
        const auto gone = given.find(id);
        in.looked(here == waiting.end() && gone == given.end());
        if (here != waiting.end()) {
            std::int64_t doses = 0;
            std::vector<std::string> details;
            for (const auto* r : here->second) {
                doses += r->doses.count();
                std::string reasons;
                for (const auto& reason : r->reasons) reasons += (reasons.empty() ? "" : ", ") + reason;
                details.push_back(r->holding.place + (r->holding.fund.empty() ? "" : ", fund " + r->holding.fund) +
                                  (r->holding.mark.empty() ? "" : ", mark " + r->holding.mark) + ": " +
                                  doses_words(r->doses.count()) + ", " + reasons);
            }
            in.find(Urgency::act, lot_words(id.first, id.second),
                    doses_words(doses) + (doses == 1 ? " waits" : " wait") + " for guidance",
                    waiting_since(in, row_of(lots, id)))
                .details = std::move(details);
        }
        if (gone != given.end()) {
            std::int64_t doses = 0;
            std::vector<std::string> details;
            Instant since = gone->second.front().at;
            for (const auto& r : gone->second) {
                doses += r.doses.count();
                since = std::min(since, r.at);
                details.push_back("entry " + std::to_string(r.entry) + ", given " + in.local(r.at));
            }
            in.find(Urgency::act, lot_words(id.first, id.second),
                    doses_words(doses) + " given " + (doses == 1 ? "waits" : "wait") + " for guidance", since)
                .details = std::move(details);
        }
    }
}

void inspect_counts(Inspection& in) {
    World& w = in.w;
    const auto days = in.every_days("count");
    if (!days) return in.not_judged("counts", "no rule is known that says how often to count");
    in.topic("counts", in.every_words(*days), "holdings");
    struct Late {
        Instant since;
        std::vector<std::string> details;
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
            struct Clock {
                std::int64_t came;
                std::optional<std::int64_t> counted;
                std::int64_t last() const { return counted.value_or(came); }
            };
            std::map<std::int64_t, Clock>
                clocks;  // of the holdings of the place and fund that have doses: a new mark is no delivery
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
            const auto found = clocks.find(h.holding);
            const Clock clock = found == clocks.end() ? Clock{w.at, {}} : found->second;
            const bool after = clock.counted.has_value();
            const Instant last(clock.last());
            const Instant due = in.due(last, *days);
            in.looked(w.head.at < due);
            if (w.head.at < due) continue;
            auto [it, is_new] = places.try_emplace(h.place, Late{due, {}});
            it->second.since = std::min(it->second.since, due);
            it->second.details.push_back(holding_words({h.place, lot.product, lot.number, h.fund, h.mark}) + ": " +
                                         (after ? "last counted " : "never counted since it came ") + in.local(last));
        }
    }
    for (auto& [place, late] : places) {
        const auto n = late.details.size();
        in.find(Urgency::overdue, place, "count overdue of " + std::to_string(n) + (n == 1 ? " holding" : " holdings"),
                late.since)
            .details = std::move(late.details);
    }
}

}  // namespace coldtally::answers
