#include "stock/cleared.hpp"

#include <algorithm>

#include "conditions/display_memory.hpp"
#include "conditions/fit.hpp"
#include "exposure/limits.hpp"
#include "question/said.hpp"
#include "stock/how_far.hpp"
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

/// What the doses had been through by then, as it was known before an entry was posted.
History known_then(World& w, const ledger::Store::LotRow& lot, const HoldingKey& holding, std::int64_t at,
                   EntryNumber entry) {
    World& then = known_before(w, entry);
    const Product* product = then.known.product(lot.product);
    if (!product) return {};
    timeline::LotTimeline timeline(then.store, then.known, then.engine, lot);
    timeline.run(at, false);
    for (const auto& [id, h] : timeline.holdings()) {
        if (h.key != holding || h.history.places.empty()) continue;
        History out = h.history;
        if (h.since < at) out.accrue(then.engine.over(*product, h.key.place, h.since, at, false));
        return out;
    }
    return {};
}

/// What is worse than it was known to be, part by part.
class Worse {
public:
    Worse(const Range& range, const History& then, const Exposure& now, const std::optional<Guidance::Told>& told)
        : then_(then.total), now_(now), times_(!told || !told->out_of_range),
          elsewhere_(!times_ && is_unexposed(then.total)) {
        if (!times_)  // what its issuer allowed for beyond what was known
            leeway_ = std::max(Rational(0), Rational(told->out_of_range->seconds()) - then.open.warm - then.open.cold);
        side(now.warm, then_.warm, words::too_warm, true, goes_further(range, then_, now, true));
        side(now.cold, then_.cold, words::too_cold, false, goes_further(range, then_, now, false));
        side(now.frozen, then_.frozen, words::at_freeze_limit, false,
             !range.low && now.frozen.at_most.sign() > 0 && is_lower());
        by_sides_ = !what.empty();
        if (!by_time_ && (!told || !told->points) && now.points > then_.points)
            what.emplace_back(words::points_uncovered(words::readings_or_checks(now.points - then_.points)));
    }
    std::vector<Field> what;

    Remark told_words(bool any) const {
        return !any ? words::no_figures() : by_sides_ && !times_ ? words::sums_alone() : words::no_figures_of_it();
    }

private:
    bool is_lower() const { return now_.lowest_C && then_.lowest_C && *now_.lowest_C < *then_.lowest_C; }

    static bool is_unexposed(const Exposure& e) {
        return e.warm.at_most.sign() == 0 && e.cold.at_most.sign() == 0 && e.frozen.at_most.sign() == 0 &&
               e.points == 0;
    }

    void side(const SideExposure& is, const SideExposure& was, const Remark& name, bool warm, bool further) {
        if (warm && elsewhere_) return;
        const Rational estimate = is.estimate - was.estimate, most = is.at_most - was.at_most;
        const bool another = was.at_most.sign() == 0 && is.at_most.sign() > 0;
        const bool more = times_ ? estimate.sign() > 0 || most.sign() > 0 : another || estimate > leeway_;
        if (!more && !further) return;
        by_time_ = by_time_ || more;
        const auto &is_end = warm ? now_.highest_C : now_.lowest_C, &was_end = warm ? then_.highest_C : then_.lowest_C;
        if (!more) {
            const std::string now = degrees_words(*is_end, warm);
            what.emplace_back(!was_end ? (warm ? words::up_to_degrees : words::down_to_degrees)(name, now)
                                       : (warm ? words::up_to_not : words::down_to_not)(
                                             name, now, degrees_words(*was_end, warm)));
            return;
        }
        Remark one = estimate.sign() > 0 ? words::time_of_side(duration_words(estimate, true), name)
                                         : words::at_most_of_side(duration_words(most, true), name);
        if (is_end && (!was_end || (warm ? *is_end > *was_end : *is_end < *was_end)))
            one = (warm ? words::up_to_degrees : words::down_to_degrees)(one, degrees_words(*is_end, warm));
        what.emplace_back(std::move(one));
    }

    const Exposure then_;
    const Exposure& now_;
    bool times_;
    bool elsewhere_;  ///< its figures are of what the ledger did not know then: told by other ways, and not as cold
    bool by_sides_ = false, by_time_ = false;
    Rational leeway_;
};

bool is_exposed(const Range& range, const Exposure& e) {
    return e.warm.at_most.sign() > 0 || e.cold.at_most.sign() > 0 || e.frozen.at_most.sign() > 0 || e.points > 0 ||
           !further_out(range, none, e).empty();
}

std::optional<Remark> learnt(World& w, const ledger::Store::LotRow& lot, const Clearing& c) {
    const Range& range = w.known.product(lot.product)->range;
    if (!is_exposed(range, c.history.total) || !may_be_learnt(w, lot, c)) return std::nullopt;
    const auto& told = c.guidance->fact.told;
    const Worse worse(range, known_then(w, lot, c.holding, c.at, c.guidance->entry), c.history.total, told);
    if (worse.what.empty()) return std::nullopt;
    return words::learnt_after_guidance(words::listed(worse.what), guidance_words(*c.guidance),
                                        worse.told_words(told.has_value()));
}

}  // namespace

void Clearings::receives(const timeline::Holding& target) {
    if (target.doses == 0) of_.erase(target.key), parts_.erase(target.key);
    std::set<Part> all = parts(target.key);
    all.insert(Part());
    parts_[target.key] = std::move(all);
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
    std::set<Part> all = parts(source.key);
    if (target.doses > 0) all.insert(parts(target.key).begin(), parts(target.key).end());
    parts_[target.key] = std::move(all);
}

void Clearings::guides(const ledger::Dated<Guidance>& g, const timeline::Holding& h, bool clears) {
    if (!clears) return;
    of_[h.key].push_back({&g, h.key, g.fact.through.seconds_since_1970(), h.history});
    std::set<Part> all;
    for (Part part : parts(h.key)) {
        part.push_back(&g);
        all.insert(std::move(part));
    }
    parts_[h.key] = std::move(all);
}

const std::vector<Clearing>& Clearings::of(const HoldingKey& holding) const {
    static const std::vector<Clearing> nothing;
    const auto it = of_.find(holding);
    return it == of_.end() ? nothing : it->second;
}

const std::set<Clearings::Part>& Clearings::parts(const HoldingKey& holding) const {
    static const std::set<Part> uncleared{Part()};
    const auto it = parts_.find(holding);
    return it == parts_.end() ? uncleared : it->second;
}

std::optional<std::int64_t> Clearings::all_through(const HoldingKey& holding) const {
    std::optional<std::int64_t> out;
    for (const Part& part : parts(holding)) {
        if (part.empty()) return std::nullopt;
        std::int64_t last = INT64_MIN;
        for (const auto* g : part) last = std::max(last, g->fact.through.seconds_since_1970());
        out = std::min(out.value_or(last), last);
    }
    return out;
}

bool Clearings::answer(const HoldingKey& holding, std::int64_t until, EntryNumber after) const {
    return std::ranges::all_of(parts(holding), [&](const Part& part) {
        return std::ranges::any_of(part, [&](const auto* g) {
            return g->entry > after && g->fact.through.seconds_since_1970() >= until;
        });
    });
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

std::optional<Field> not_known_before(World& w, const ledger::Store::LotRow& lot, const HoldingKey& holding,
                                       std::int64_t at, const History& now, EntryNumber entry) {
    const Range& range = w.known.product(lot.product)->range;
    if (!is_exposed(range, now.total)) return std::nullopt;
    constexpr Duration any(INT32_MAX);
    const Guidance::Told sums{any, any, INT32_MAX};  // what is more of these is told of elsewhere
    const Worse worse(range, known_then(w, lot, holding, at, entry), now.total, sums);
    if (worse.what.empty()) return std::nullopt;
    return words::listed(worse.what);
}

std::vector<HeldAfter> held_after(const World& w, const History& now, const std::vector<Clearing>& all) {
    std::vector<HeldAfter> out;
    if (!now.held_by.empty()) return out;
    std::set<EntryNumber> said;
    for (const Clearing& c : all)
        for (const EntryNumber entry : c.history.held_by) {
            const auto hold = std::ranges::find(w.known.holds, entry, &ledger::Dated<Hold>::entry);
            if (entry < c.guidance->entry || hold == w.known.holds.end() ||
                hold->fact.product != c.holding.product || !said.insert(entry).second)
                continue;
            if (std::ranges::any_of(all, [&](const Clearing& d) {
                    return d.guidance->entry > entry && d.at >= hold->at;
                }))
                continue;
            out.push_back({&*hold, words::held_after_guidance(entry, hold->fact.reason, guidance_words(*c.guidance),
                                                              w.known.zone().local_text(c.guidance->fact.through))});
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
