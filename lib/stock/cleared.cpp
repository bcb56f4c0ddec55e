#include "stock/cleared.hpp"

#include <algorithm>

#include "conditions/display_memory.hpp"
#include "conditions/fit.hpp"
#include "exposure/limits.hpp"
#include "question/said.hpp"
#include "words/general.hpp"
#include "words/lists.hpp"
#include "words/stock.hpp"

namespace coldtally::answers {

namespace {

using trace::Point;

const Exposure none;

/// Has any of it been read, or been set up, later than an entry, that is or may be out of range by `until`? True where
/// it is not worth finding out without what was known then.
bool may_be_learnt(World& w, const ledger::Store::LotRow& lot, const Clearing& c) {
    const EntryNumber after = c.guidance->entry;
    const auto later = [&](const auto& all) {
        return std::ranges::any_of(all, [&](const auto& one) { return one.entry > after; });
    };
    if (w.known.last_void_but_of_holds > after || later(w.known.assigns)) return true;
    const auto product = w.known.products.find(lot.product);
    if (product != w.known.products.end() && later(product->second)) return true;
    if (std::ranges::any_of(w.known.certificates, [&](const auto& of) { return later(of.second); })) return true;
    for (const auto& m : w.store.movements(lot.lot))
        if (m.entry > after && m.at <= c.at && m.target != 0) return true;

    const exposure::LimitsOf limits(*w.known.product(lot.product));
    const auto in = [&](Scale scale, std::int32_t lowest, std::int32_t highest, std::int32_t tolerance) {
        return limits.in(scale).well_inside(exposure::ticks(lowest), exposure::ticks(highest),
                                            exposure::ticks(tolerance));
    };
    const auto point_in = [&](const Point& p) { return in(p.scale, p.value, p.value, p.tolerance); };
    const std::int64_t since = w.store.first_movement(lot.lot).value_or(0);
    for (const auto& place : c.history.places) {
        const auto defined = w.known.places.find(place);
        if (defined == w.known.places.end()) continue;  // of another site
        if (later(defined->second)) return true;
        const trace::Trace& trace = w.engine.trace_of(place, since);
        const auto& spans = trace.spans();
        for (std::size_t i = trace.span_at(since); i < spans.size() && spans[i].first_at <= c.at; ++i) {
            const trace::Span& s = spans[i];
            const bool is_late = s.source->blocks()[s.block].entry > after;
            if (is_late && !in(s.scale, s.lowest, s.highest, s.tolerance)) return true;
            // a line to a reading that was known may be new
            if (!s.joined || i + 1 == spans.size()) continue;
            const trace::Span& next = spans[i + 1];
            if ((is_late || next.source->blocks()[next.block].entry > after) &&
                !(point_in(s.last_point()) && point_in(next.first_point())))
                return true;
        }
        const auto& checks = trace.checks();
        for (std::size_t k = trace.check_at(since); k < checks.size(); ++k) {
            const auto out = [&](const trace::CheckPoint& one) {
                return !point_in(one.point) ||
                       (one.lowest && !in(one.point.scale, *one.lowest, *one.highest, one.point.tolerance));
            };
            const bool before = k > 0 && (checks[k - 1].entry > after || checks[k].entry > after);
            if ((before && (out(checks[k - 1]) || out(checks[k]))) || (checks[k].entry > after && out(checks[k])))
                return true;
            if (checks[k].point.at > c.at) break;  // a line, or bounds, reach back from it
        }
    }
    return false;
}

/// What the doses had been through by then, as it was known when the guidance was posted.
Exposure known_then(World& w, const ledger::Store::LotRow& lot, const Clearing& c) {
    World& then = known_before(w, c.guidance->entry);
    const Product* product = then.known.product(lot.product);
    if (!product) return none;
    timeline::LotTimeline timeline(then.store, then.known, then.engine, lot);
    timeline.run(c.at, false);
    for (const auto& [id, h] : timeline.holdings()) {
        if (h.key != c.holding || h.history.places.empty()) continue;
        Exposure out = h.history.total;
        if (h.since < c.at) out.add(then.engine.over(*product, h.key.place, h.since, c.at, false));
        return out;
    }
    return none;
}

/// To the tenth of a degree, away from the range, in both scales: "11 °C (51.8 °F)".
std::string degrees(const Rational& celsius, bool warm) {
    const auto text = [&](const Rational& degrees, Scale scale) {
        const Rational tenths = degrees * Rational(10);
        const std::int64_t n = warm ? tenths.ceil() : tenths.floor();
        return Temperature(scale, static_cast<std::int32_t>(n * 100)).text() + " °" + scale_letter(scale);
    };
    return text(celsius, Scale::C) + " (" + text(celsius * Rational(9, 5) + Rational(32), Scale::F) + ")";
}

std::optional<Remark> learnt(World& w, const ledger::Store::LotRow& lot, const Clearing& c) {
    const Exposure& now = c.history.total;
    if (now.warm.at_most.sign() == 0 && now.cold.at_most.sign() == 0 && now.frozen.at_most.sign() == 0 &&
        now.points == 0)
        return std::nullopt;
    const auto& told = c.guidance->fact.told;
    const bool times = !told || !told->out_of_range, points = !told || !told->points;
    if ((!times && !points) || !may_be_learnt(w, lot, c)) return std::nullopt;
    const Exposure then = known_then(w, lot, c);
    std::vector<Field> what;
    const auto side = [&](const SideExposure& is, const SideExposure& was, const Remark& name, bool warm) {
        const Rational estimate = is.estimate - was.estimate, most = is.at_most - was.at_most;
        if (estimate.sign() <= 0 && most.sign() <= 0) return;
        Remark one = estimate.sign() > 0 ? words::time_of_side(duration_words(estimate, true), name)
                                         : words::at_most_of_side(duration_words(most, true), name);
        const auto &is_end = warm ? now.highest_C : now.lowest_C, &was_end = warm ? then.highest_C : then.lowest_C;
        if (is_end && (!was_end || (warm ? *is_end > *was_end : *is_end < *was_end)))
            one = (warm ? words::up_to_degrees : words::down_to_degrees)(one, degrees(*is_end, warm));
        what.emplace_back(std::move(one));
    };
    if (times) {
        side(now.warm, then.warm, words::too_warm, true);
        side(now.cold, then.cold, words::too_cold, false);
        side(now.frozen, then.frozen, words::at_freeze_limit, false);
    }
    if (what.empty() && points && now.points > then.points)
        what.emplace_back(words::points_uncovered(words::readings_or_checks(now.points - then.points)));
    if (what.empty()) return std::nullopt;
    return words::learnt_after_guidance(words::listed(what), guidance_words(*c.guidance),
                                        told ? words::no_figures_of_it() : words::no_figures());
}

}  // namespace

void Clearings::receives(const timeline::Holding& target) {
    if (target.doses == 0) of_.erase(target.key);
}

void Clearings::moves(const timeline::Holding& source, const timeline::Holding& target) {
    const std::vector<Clearing> taken = of(source.key);
    auto& there = of_[target.key];
    if (target.doses == 0) there.clear();
    for (const Clearing& c : taken)
        if (std::ranges::none_of(there, [&](const Clearing& d) {
                return d.guidance == c.guidance && d.holding == c.holding;
            }))
            there.push_back(c);
}

void Clearings::guides(const ledger::Dated<Guidance>& g, const timeline::Holding& h, bool clears) {
    if (clears) of_[h.key].push_back({&g, h.key, g.fact.through.seconds_since_1970(), h.history});
}

const std::vector<Clearing>& Clearings::of(const HoldingKey& holding) const {
    static const std::vector<Clearing> nothing;
    const auto it = of_.find(holding);
    return it == of_.end() ? nothing : it->second;
}

Remark guidance_words(const ledger::Dated<Guidance>& g) {
    return words::guidance_named(g.entry, said::verdict_words(g.fact.verdict), g.fact.issuer, g.fact.reference);
}

std::vector<Remark> learnt_after(World& w, const ledger::Store::LotRow& lot, const std::vector<Clearing>& all) {
    std::vector<Remark> out;
    for (const Clearing& c : all) {
        const bool answered_later = std::ranges::any_of(all, [&](const Clearing& d) {
            return d.guidance->entry > c.guidance->entry && d.at >= c.at;
        });
        if (answered_later) continue;
        if (auto what = learnt(w, lot, c)) out.push_back(std::move(*what));
    }
    return out;
}

std::vector<Remark> displays_shown(World& w, const ledger::Store::LotRow& lot,
                                   const std::set<std::string>& places, std::int64_t at,
                                   const std::vector<Clearing>& clearings) {
    std::vector<Remark> out;
    const Product* product = w.known.product(lot.product);
    for (const auto& place : places) {
        const Place* known = w.known.place(place);
        const FirstDisplay* d = known && product ? first_display(w, place) : nullptr;
        if (!d || d->at > at) continue;
        const bool suited = fit(known->range, *product).fit == Fit::suited;
        const auto said =
            shown_out(w, *d, place, suited ? product->range : known->range, product->freeze_limit);
        if (!said || std::ranges::any_of(clearings, [&](const Clearing& c) {
                return c.guidance->entry > d->entry && c.at >= d->at;
            }))
            continue;
        std::set<std::int64_t> here;
        for (const auto& h : w.store.holdings(lot.lot))
            if (h.place == place) here.insert(h.holding);
        if (std::ranges::any_of(w.store.movements(lot.lot), [&](const auto& m) {
                return m.at < d->at && w.known.is_known(m.entry) && here.contains(m.target);
            }))
            out.push_back(*said);
    }
    return out;
}

}  // namespace coldtally::answers
