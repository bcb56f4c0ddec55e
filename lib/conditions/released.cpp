#include "conditions/released.hpp"

#include <algorithm>
#include <tuple>

#include "conditions/disagreements.hpp"
#include "conditions/incidents.hpp"
#include "conditions/rule_times.hpp"
#include "exposure/limits.hpp"
#include "question/said.hpp"
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
    default: return words::release_near(time);
    }
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
        displays(held_at);
        devices(held_at);
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
        for (const auto& row : incidents(w_, place_, std::nullopt, Instant(0), Instant(0)).incidents)
            if (row.incident != incident_ && row.closed && row.closed->seconds_since_1970() < held_at &&
                std::ranges::find(row.places, place_) != row.places.end())
                out = std::max(out, row.closed->seconds_since_1970());
        return out;
    }

    /// A display may have seen what the logger did not.
    void displays(std::int64_t held_at) {
        const exposure::LimitsOf limits(w_.place(place_).range);
        const std::int64_t from = looked_back(held_at);
        for (const auto& c : w_.engine.trace_of(place_).checks()) {
            if (c.point.at < from || c.point.at > w_.at || !c.lowest || !c.highest) continue;
            const auto& in = limits.in(c.point.scale);
            if (in.is_warm(exposure::ticks(*c.highest)) || in.is_cold(exposure::ticks(*c.lowest)))
                against(words::release_extremes(c.entry));
        }
    }

    /// Two devices that cannot both be right, one of them out of range.
    void devices(std::int64_t held_at) {
        const Window window{false, looked_back(held_at), w_.at, true};
        for (const auto& d : disagreements(w_, place_, window))
            if (at_stake(d, w_.place(place_).range))
                against(words::devices_disagree(disagreement_words(d, place_, w_.known.zone())));
    }

    World& w_;
    ReleaseJudged& out_;
    const std::string &incident_, &place_;
};

/// Has anything of the place been posted after an entry that may touch what was known of the time before `closed`?
bool may_have_lapsed(World& w, const Release& of, const std::string& place, const HeldInPlace& held,
                     std::int64_t closed) {
    const auto later = [&](const auto& all) {
        return std::ranges::any_of(all, [&](const auto& one) { return one.entry > of.closing; });
    };
    const auto defined = w.known.places.find(place);
    if (w.known.last_void > of.closing || later(w.known.assigns) ||
        (defined != w.known.places.end() && later(defined->second)))
        return true;
    for (const auto& [probe, certificates] : w.known.certificates)
        if (later(certificates)) return true;
    for (const auto& id : held.products)
        if (const auto product = w.known.products.find(id); product != w.known.products.end() && later(product->second))
            return true;
    const auto is_late = [&](EntryNumber entry) { return entry > of.closing && w.known.is_known(entry); };
    for (const auto& a : w.engine.assignments()) {
        const auto probe = a.place == place && a.from < closed ? w.store.probe(a.probe) : std::nullopt;
        if (!probe) continue;
        for (const auto& block : w.store.blocks(*probe, a.from))
            if (is_late(block.entry) && block.summary.first_at < closed) return true;
    }
    // a display stands for the time before it, so the first after the closing may reach back
    for (const auto& check : w.store.checks(place, held.at - joined_within.seconds()))
        if (check.at <= closed && is_late(check.entry)) return true;
    return false;
}

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
std::vector<Doubt> lapsed(World& w, const IncidentSpan& span, const Release& of) {
    std::vector<Doubt> out;
    for (const auto& [place, held] : by_place(w, of)) {
        if (!may_have_lapsed(w, of, place, held, *span.closed)) continue;
        AnswerHead head = w.head;
        head.at = Instant(*span.closed);
        World then(w.store, head, w.known);
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
                                             of.closing, *against)});
    }
    return out;
}

std::vector<IncidentSpan> closed_incidents(const World& w) {
    auto out = incident_spans(incident_steps(w));
    std::erase_if(out, [](const IncidentSpan& s) { return s.is_open(); });
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

std::vector<Doubt> lapsed_releases(World& w) {
    std::vector<Doubt> out;
    for (const IncidentSpan& span : closed_incidents(w))
        if (const auto of = release_of(w, span))
            for (Doubt& d : lapsed(w, span, *of)) out.push_back(std::move(d));
    return out;
}

std::vector<Doubt> closed_doubts(World& w) {
    auto closed = closed_incidents(w);
    std::erase_if(closed, [&](const IncidentSpan& span) {
        const auto of = release_of(w, span);
        return of && lapsed(w, span, *of).empty();
    });
    std::vector<Doubt> out;
    if (closed.empty()) return out;
    World fresh(w.store, w.head, w.known);  // the traces of the question itself may be read from a later instant on
    for (const auto& [place, definitions] : w.known.places) {
        const auto is_of = [&, &place = place](const IncidentSpan& s) { return s.of(place); };
        if (definitions.empty() || std::ranges::none_of(closed, is_of)) continue;
        const auto all = incidents(fresh, place, std::nullopt, Instant(0), fresh.head.at);
        for (const IncidentSpan& span : closed) {
            if (!span.of(place)) continue;
            const auto row = std::ranges::find(all.incidents, span.incident, &IncidentsAnswer::Row::incident);
            for (const Stretch& s : time_in_doubt(fresh, place, row->excursions, span.noticed_in(place)))
                if (s.window.from <= *span.closed)
                    out.push_back({span.incident, place, s.window.from, std::min(s.window.until, *span.closed),
                                   s.back_in_range.has_value(), span.closed, std::nullopt});
        }
    }
    std::ranges::sort(out, {}, [](const Doubt& d) { return std::tie(d.incident, d.place, d.from); });
    return out;
}

}  // namespace coldtally::answers
