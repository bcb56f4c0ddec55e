#include "conditions/released.hpp"

#include <algorithm>
#include <iterator>
#include <stdexcept>

#include "conditions/disagreements.hpp"
#include "conditions/incidents.hpp"
#include "conditions/rule_times.hpp"
#include "exposure/limits.hpp"
#include "question/said.hpp"
#include "trace/calibration.hpp"
#include "words/conditions.hpp"
#include "words/history.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

namespace {

/// What of a stretch may have been out of range; none: none of it.
std::optional<Field> perhaps_out(const Exposure& e) {
    std::vector<Field> out;
    const auto add = [&](const Remark& side, const SideExposure& s) {
        if (s.at_most.sign() > 0) out.push_back(words::side_at_most(side, duration_words(s.at_most, true)));
    };
    add(words::too_warm, e.warm);
    add(words::too_cold, e.cold);
    add(words::at_freeze_limit, e.frozen);
    if (e.points > 0) out.push_back(words::things_out_of_range(words::readings(e.points)));
    if (out.empty()) return std::nullopt;
    return words::listed(out);
}

Remark unknown_words(Class c, const Rational& seconds) {
    const std::string time = duration_words(seconds, true);
    switch (c) {
    case Class::checked: return words::release_checked(time);
    case Class::awaiting: return words::release_awaiting(time);
    case Class::unmonitored: return words::release_not_known(time);
    case Class::near: return words::release_near(time);
    case Class::logged:
    case Class::bounded: break;  // by which the temperature is known
    }
    throw std::logic_error("a class of which the temperature is known stands against no release");
}

/// Whether the record of one place lets its holds go.
class Releaser {
public:
    Releaser(World& w, const std::string& incident, const std::string& place, ReleaseJudged& out)
        : w_(w), out_(out), incident_(incident), place_(place) {}

    void judge(const HeldInPlace& held, bool excursions, bool now) {
        const std::int64_t held_at = held.at;
        if (excursions) against(words::release_excursions());
        // what takes holds back acts for all time, so nothing that is known may lie after the instant it is judged at
        if (const auto last = w_.engine.trace_of(place_).last(); now && last && *last > w_.at)
            against(words::release_read_later(local(*last)));
        const auto before = good_reading(w_, place_, held_at - 1, false);
        if (!before) return against(words::release_none_before());
        // a check made on arriving in the morning does not answer for the night before it
        const Exposure just_before =
            w_.engine.over_range(w_.place(place_).range, place_, before->at - 1, before->at, false);
        if (just_before.seconds[static_cast<int>(Class::logged)] +
                just_before.seconds[static_cast<int>(Class::bounded)] !=
            Rational(1))
            against(words::release_before_unmeasured(local(before->at)));
        const auto until = end(held_at);
        if (!until) return;
        out_.from = std::min(out_.from.value_or(before->at), before->at);
        out_.until = std::max(out_.until.value_or(*until), *until);
        const Exposure e = w_.engine.over_range(w_.place(place_).range, place_, before->at, *until, false);
        for (int c = 0; c < class_count; ++c) {
            const auto& seconds = e.seconds[static_cast<std::size_t>(c)];
            if (Class(c) != Class::logged && Class(c) != Class::bounded && seconds.sign() > 0)
                against(unknown_words(Class(c), seconds));
        }
        if (const auto out = perhaps_out(e)) against(*out);
        for (const auto& id : held.products) {
            const Product& product = *w_.known.product(id);
            Exposure of = w_.engine.over(product, place_, before->at, *until, false);
            of.points =
                std::max(of.points, w_.engine.over_range(product.range, place_, before->at, *until, false).points);
            if (const auto out = perhaps_out(of)) against(words::release_of_product(id, *out));
        }
        const std::int64_t from = looked_back(held_at);
        displays(from);
        devices(from);
    }

private:
    void against(const Field& what) { out_.against.push_back(words::colon(place_, what)); }
    std::string local(std::int64_t t) const { return w_.known.zone().local_text(Instant(t)); }

    /// Until when all must be known: when the last doses left the place, else its last reading in range, which must not
    /// be old.
    std::optional<std::int64_t> end(std::int64_t held_at) {
        const auto times = times_with(w_, place_, {});
        if (!times.empty() && times.back().second < w_.at && times.back().second >= held_at) return times.back().second;
        const auto last = good_reading(w_, place_, w_.at, false);
        if (!last || last->at <= held_at) {
            against(words::release_none_since());
            return std::nullopt;
        }
        if (w_.at - last->at > w_.place(place_).max_gap.value_or(Place::usual_max_gap).seconds()) {
            against(words::release_old_reading(local(last->at)));
            return std::nullopt;
        }
        return last->at;
    }

    /// As long before the notice as an excursion belongs to it, and not before another incident of the place was closed
    /// (a choice of ours): what the display or a check said then may be what was noticed, whatever is read of the
    /// logger afterwards.
    std::int64_t looked_back(std::int64_t held_at) const {
        std::int64_t out = held_at - joined_within.seconds();
        for (const IncidentSpan& span : incident_spans(incident_steps(w_)))
            if (span.incident != incident_ && span.closed && *span.closed < held_at && span.places.contains(place_))
                out = std::max(out, *span.closed);
        return out;
    }

    /// A display may have seen what the logger did not.
    void displays(std::int64_t from) {
        const exposure::LimitsOf limits(w_.place(place_).range);
        for (const auto& c : w_.engine.trace_of(place_).checks()) {
            if (c.point.at < from || c.point.at > w_.at || !c.lowest || !c.highest) continue;
            const auto& in = limits.in(c.point.scale);
            if (in.is_warm(exposure::ticks(*c.highest)) || in.is_cold(exposure::ticks(*c.lowest)))
                against(words::release_extremes(c.entry));
        }
    }

    /// Two devices that cannot both be right, one of them out of range.
    void devices(std::int64_t from) {
        const Window window{false, from, w_.at, true};
        for (const auto& d : disagreements(w_, place_, window))
            if (at_stake(d, w_.place(place_).range))
                against(words::devices_disagree(disagreement_words(d, place_, w_.known.zone())));
    }

    World& w_;
    ReleaseJudged& out_;
    const std::string &incident_, &place_;
};

/// Whether anything was posted after a closing that may touch what was known when it let holds go.
class Later {
public:
    explicit Later(World& w) : w_(w) {}

    /// What a judgement rests on: definitions, its trace up to the closing, the doses that were there, the incidents.
    bool may_touch(const Release& of, const std::string& place, const HeldInPlace& held, std::int64_t closed) {
        after_ = of.closing, closed_ = closed;
        const ledger::Known& known = w_.known;
        if (known.last_void_but_of_holds > after_ || any_of(known.sites) || any_of(known.places.at(place)) ||
            any_by_then(known.assigns) || any_by_then(steps()))
            return true;
        if (std::ranges::any_of(known.probes, [&](const auto& probe) { return any_of(probe.second); }) ||
            std::ranges::any_of(known.certificates, [&](const auto& probe) { return any_by_then(probe.second); }) ||
            std::ranges::any_of(held.products, [&](const auto& id) { return any_of(known.products.at(id)); }))
            return true;
        const auto moved = w_.store.moved_since(place, after_, closed_);
        if (std::ranges::any_of(moved, [&](EntryNumber n) { return known.is_known(n); })) return true;
        const exposure::LimitsOf limits(w_.place(place).range);
        return checks(place, limits) || readings(place, limits);
    }

private:
    template <class All>
    bool any_of(const All& all) const {
        return std::ranges::any_of(all, [&](const auto& one) { return one.entry > after_; });
    }
    template <class All>
    bool any_by_then(const All& all) const {
        return std::ranges::any_of(all, [&](const auto& one) { return one.entry > after_ && one.at <= closed_; });
    }
    bool is_late(EntryNumber entry) const { return entry > after_ && w_.known.is_known(entry); }
    static bool is_out(const exposure::LimitsOf& limits, Scale scale, std::int32_t lowest, std::int32_t highest) {
        return limits.in(scale).is_warm(exposure::ticks(highest)) || limits.in(scale).is_cold(exposure::ticks(lowest));
    }

    const std::vector<ledger::Dated<Incident>>& steps() {
        if (!steps_) steps_ = incident_steps(w_);
        return *steps_;
    }
    const std::vector<ledger::CheckRow>& checks_of(const std::string& place) {
        const auto [it, fresh] = checks_.try_emplace(place);
        if (fresh) it->second = w_.store.checks(place, 0);
        return it->second;
    }

    bool checks(const std::string& place, const exposure::LimitsOf& limits) {
        for (const auto& row : checks_of(place)) {
            if (!w_.known.is_known(row.entry)) continue;
            if (row.at <= closed_) {
                if (row.entry > after_) return true;
                continue;
            }
            // the first after it stands for the time before it, too
            const Certificate* by = row.probe ? trace::Calibration(w_.known, *row.probe).at(row.at) : nullptr;
            return is_out(limits, row.scale, trace::corrected(by, row.lowest.value_or(row.temperature)),
                          trace::corrected(by, row.highest.value_or(row.temperature))) ||
                   is_out(limits, row.scale, trace::corrected(by, row.temperature),
                          trace::corrected(by, row.temperature));
        }
        return false;
    }

    bool readings(const std::string& place, const exposure::LimitsOf& limits) {
        const std::int64_t gap = w_.place(place).max_gap.value_or(Place::usual_max_gap).seconds();
        const bool checked = std::ranges::any_of(checks_of(place), [&](const auto& row) {
            return row.at > closed_ - gap && row.at <= closed_ && w_.known.is_known(row.entry);
        });
        for (const auto& a : w_.engine.assignments()) {
            const auto probe = a.place == place && a.from < closed_ ? w_.store.probe(a.probe) : std::nullopt;
            if (!probe) continue;
            const trace::Calibration calibration(w_.known, a.probe);
            for (const auto& block : w_.store.blocks(*probe, a.from)) {
                const auto& s = block.summary;
                if (s.first_at > closed_ + gap) break;
                if (!is_late(block.entry)) continue;
                if (s.first_at < closed_ || checked) return true;  // a check is held against the line to it
                const std::int32_t first = trace::corrected(calibration.at(s.first_at), s.first);
                if (is_out(limits, w_.known.probe(a.probe)->scale, first, first)) return true;  // a line leads to it
            }
        }
        return false;
    }

    World& w_;
    EntryNumber after_ = 0;
    std::int64_t closed_ = 0;
    std::optional<std::vector<ledger::Dated<Incident>>> steps_;
    std::map<std::string, std::vector<ledger::CheckRow>> checks_;
};

std::map<std::string, HeldInPlace> by_place(const World& w, const Release& of) {
    std::map<std::string, HeldInPlace> out;
    for (const auto& h : of.holds) {
        if (!w.known.place(*h.fact.place) || !w.known.product(h.fact.product)) continue;
        auto& held = out[*h.fact.place];
        held.at = std::min(held.at, h.at);
        held.products.insert(h.fact.product);
    }
    return out;
}

/// What stands against a release now, place by place.
std::vector<Doubt> lapsed(World& w, Later& later, const IncidentSpan& span, const Release& of) {
    std::vector<Doubt> out;
    AnswerHead head = w.head;
    head.at = Instant(*span.closed);
    std::optional<World> at_closing;
    for (const auto& [place, held] : by_place(w, of)) {
        if (!later.may_touch(of, place, held, *span.closed)) continue;
        if (!at_closing) at_closing.emplace(w.store, head, w.known);
        World& then = *at_closing;
        bool excursions = false;
        for (const auto& row : incidents(then, place, std::nullopt, Instant(0), then.head.at).incidents)
            if (row.incident == span.incident) excursions = !row.excursions.empty();
        ReleaseJudged judged;
        judge_release(then, span.incident, place, held, excursions, false, judged);
        const auto against = words::semicolons(judged.against);
        if (!against) continue;
        const auto before = good_reading(then, place, held.at - 1, false);
        out.push_back({span.incident, place, before ? before->at : held.at, *span.closed, true, span.closed,
                       words::release_lapsed(span.incident, w.known.zone().local_text(Instant(*span.closed)),
                                             of.closing, *against),
                       span.notice});
    }
    return out;
}

}  // namespace

std::string hold_reason(const std::string& incident, const std::string& place) {
    return "incident " + incident + ", noticed in " + place;
}

void judge_release(World& w, const std::string& incident, const std::string& place, const HeldInPlace& held,
                   bool excursions, bool now, ReleaseJudged& out) {
    Releaser(w, incident, place, out).judge(held, excursions, now);
}

std::optional<Release> release_of(const World& w, const IncidentSpan& span) {
    if (span.is_open()) return std::nullopt;
    Release out{span.closing, {}};
    for (EntryNumber n = span.closing - 1; n > 0 && w.known.is_known(n); --n) {
        const auto entry = w.store.entry(n, false);
        const auto* taken = entry ? std::get_if<Void>(&entry->fact) : nullptr;
        if (!taken) break;
        const auto other = w.store.entry(taken->voids, false);
        const auto* hold = other ? std::get_if<Hold>(&other->fact) : nullptr;
        if (!hold || !hold->place || hold->reason != hold_reason(span.incident, *hold->place)) break;
        out.holds.push_back({other->at->seconds_since_1970(), taken->voids, *hold});
    }
    if (out.holds.empty()) return std::nullopt;
    return out;
}

const Closings& closings(World& w) {
    if (w.closings) return *w.closings;
    auto out = std::make_shared<Closings>();
    Later later(w);
    for (IncidentSpan& span : incident_spans(incident_steps(w))) {
        if (span.is_open()) continue;
        const auto of = release_of(w, span);
        auto against = of ? lapsed(w, later, span, *of) : std::vector<Doubt>();
        if (of && against.empty()) continue;
        std::ranges::move(against, std::back_inserter(out->lapsed));
        out->unreleased.push_back(std::move(span));
    }
    w.closings = out;
    return *w.closings;
}

std::vector<Doubt> closed_doubts(World& w) { return doubts_over(w, closings(w).unreleased); }

}  // namespace coldtally::answers
