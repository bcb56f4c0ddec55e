#include "timeline/lot_timeline.hpp"

#include <algorithm>
#include <variant>

namespace coldtally::timeline {

using ledger::Dated;
using ledger::Movement;
using ledger::MovementOp;

bool shows_more_than_told(const History& h, const Guidance& g) {
    if (!g.told) return false;
    const auto more = [](const Rational& open, const std::optional<Duration>& told) {
        return told && open > Rational(told->seconds());
    };
    return more(h.open.warm + h.open.cold, g.told->out_of_range) || more(h.open.unmonitored, g.told->unmonitored) ||
           (g.told->points && h.open.points > *g.told->points);
}

LotTimeline::LotTimeline(const ledger::Store& store, const ledger::Known& known, exposure::Engine* engine,
                         const ledger::Store::LotRow& lot)
    : store_(store), known_(known), engine_(engine), lot_(lot), product_(known.product(lot.product)) {
    for (const auto& h : store.holdings(lot.lot)) {
        Holding& holding = holdings_[h.holding];
        holding.key = {h.place, lot.product, lot.number, h.fund, h.mark};
    }
}

void LotTimeline::run(std::int64_t at, bool to_the_end, Observer* observer) {
    struct Event {
        std::int64_t at;
        EntryNumber entry;
        std::variant<const Movement*, const Dated<Hold>*, const Dated<Guidance>*> what;
    };
    const auto movements = store_.movements(lot_.lot);
    std::vector<Event> events;
    for (const Movement& m : movements)
        if (m.at <= at && known_.is_known(m.entry)) events.push_back({m.at, m.entry, &m});
    for (const auto& h : known_.holds)
        if (h.at <= at && h.fact.product == lot_.product && (!h.fact.lot || *h.fact.lot == lot_.number))
            events.push_back({h.at, h.entry, &h});
    for (const auto& g : known_.guidance)
        if (g.fact.through.seconds_since_1970() <= at && g.fact.product == lot_.product && g.fact.lot == lot_.number)
            events.push_back({g.fact.through.seconds_since_1970(), g.entry, &g});
    std::ranges::sort(events, {}, [](const Event& e) { return std::pair(e.at, e.entry); });
    for (const Event& e : events) std::visit([&](const auto* what) { apply(*what, observer); }, e.what);
    if (!to_the_end) return;
    for (auto& [id, holding] : holdings_) bring(holding, at, true, observer);
}

void LotTimeline::bring(Holding& h, std::int64_t at, bool with_end, Observer* observer) {
    if (engine_ && h.doses > 0 && (h.since < at || with_end)) {
        const Exposure e = engine_->over(*product_, h.key.place, h.since, at, with_end);
        if (observer) observer->stayed(h, h.since, at, e);
        h.history.accrue(e);
    }
    h.since = at;
    h.quiet_until.reset();
}

/// Into a holding that was brought to the instant.
void LotTimeline::put_in(Holding& target, std::int64_t doses, History history) {
    history.places.insert(target.key.place);
    if (target.doses > 0)
        target.history.join(history);
    else
        target.history = std::move(history);
    target.doses += doses;
}

void LotTimeline::apply(const Movement& m, Observer* observer) {
    if (m.op == MovementOp::receive) {
        Holding& target = holdings_.at(m.target);
        History incoming;
        if (m.flag) incoming = store_.fact<Receive>(m.entry).handover.value().history;
        for (const auto* h : standing_) incoming.held_by.insert(h->entry);
        bring(target, m.at, false, observer);
        if (observer) observer->receives(m, target, incoming);
        put_in(target, m.doses, std::move(incoming));
        return;
    }
    Holding& source = holdings_.at(m.source);
    if (m.op == MovementOp::beyond_use) {
        if (source.doses == 0) return;
        const auto use = store_.fact<BeyondUse>(m.entry);
        std::optional<Instant> use_by;
        if (use.event) {
            if (product_->beyond_use)
                if (const auto it = product_->beyond_use->find(*use.event); it != product_->beyond_use->end())
                    use_by = Instant(m.at) + it->second;
        } else if (const auto* date = std::get_if<Date>(&*use.use_by)) {
            use_by = known_.zone().end_of_day(*date);
        } else {
            use_by = std::get<Instant>(*use.use_by);
        }
        if (!use_by) return;
        if (observer) observer->shortens(m, source, *use_by);
        source.history.shorten(*use_by);
        return;
    }
    if (m.op == MovementOp::move) {
        bring(source, m.at, false, observer);
        Holding& target = holdings_.at(m.target);
        bring(target, m.at, false, observer);
        if (observer) observer->moves(m, source, target);
        History taken = source.history;
        source.doses -= m.doses;
        put_in(target, m.doses, std::move(taken));
        return;
    }
    leave(m, source, observer);
}

/// What leaves takes its history along; of those that stay it is added up only when somebody asks for it.
void LotTimeline::leave(const Movement& m, Holding& source, Observer* observer) {
    const std::int64_t left = m.op == MovementOp::count ? m.doses : source.doses - m.doses;
    if (observer && m.op == MovementOp::give && observer->judges()) {
        if (!m.flag && !source.quiet_until)
            source.quiet_until = engine_->quiet_until(*product_, source.key.place, source.since);
        if (m.flag || m.at > *source.quiet_until || !observer->leaves_quietly(m, source)) {
            bring(source, m.at, false, observer);
            const History history = judged(m, source, observer);
            observer->leaves(m, source, &history);
        }
    } else if (observer) {
        if (left == 0) bring(source, m.at, false, observer);
        observer->leaves(m, source, nullptr);
    }
    source.doses = left;
}

/// That of the holding; where the chart names the lot, not the box, the join of all of the lot that have doses then.
History LotTimeline::judged(const Movement& give, const Holding& source, Observer* observer) {
    History out = source.history;
    if (!give.flag) return out;
    for (auto& [id, other] : holdings_) {
        if (other.doses == 0) continue;
        bring(other, give.at, false, observer);
        out.join(other.history);
    }
    return out;
}

void LotTimeline::apply(const Dated<Hold>& hold, Observer* observer) {
    for (auto& [id, h] : holdings_) {
        if (h.doses == 0 || (hold.fact.place && *hold.fact.place != h.key.place) ||
            (hold.fact.mark && *hold.fact.mark != h.key.mark))
            continue;
        bring(h, hold.at, false, observer);
        if (observer) observer->holds(hold, h);
        h.history.held_by.insert(hold.entry);
    }
    if (!hold.fact.place && !hold.fact.mark) standing_.push_back(&hold);
}

void LotTimeline::apply(const Dated<Guidance>& g, Observer* observer) {
    for (auto& [id, h] : holdings_) {
        if (h.doses == 0 || (g.fact.place && *g.fact.place != h.key.place) ||
            (g.fact.mark && *g.fact.mark != h.key.mark))
            continue;
        bring(h, g.fact.through.seconds_since_1970(), false, observer);
        const bool clears = g.fact.verdict != Verdict::discard && !shows_more_than_told(h.history, g.fact);
        if (observer) observer->guides(g, h, clears);
        if (g.fact.verdict == Verdict::discard) {
            h.history.condemned_by.insert(g.entry);
            continue;
        }
        if (g.fact.verdict == Verdict::use_by) h.history.shorten(known_.zone().end_of_day(*g.fact.use_by));
        if (clears) {
            h.history.open = OpenExposure();
            h.history.held_by.clear();
        }
    }
}

}  // namespace coldtally::timeline
