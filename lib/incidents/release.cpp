#include "incidents/release.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "conditions/disagreements.hpp"
#include "conditions/incidents.hpp"
#include "conditions/rule_times.hpp"
#include "conditions/time_in_doubt.hpp"
#include "exposure/limits.hpp"
#include "stock/lists.hpp"

namespace coldtally::answers {

namespace {

std::string at_most(const char* what, const SideExposure& s) {
    return s.at_most.sign() > 0 ? std::string(what) + " for at most " + duration_words(s.at_most, true) : std::string();
}

/// What of a stretch may have been out of range, in words; empty: none of it.
std::string perhaps_out(const Exposure& e) {
    std::string out;
    for (const auto& part :
         {at_most("too warm", e.warm), at_most("too cold", e.cold), at_most("at or below the freeze limit", e.frozen),
          e.points > 0 ? std::to_string(e.points) + (e.points == 1 ? " reading" : " readings") + " out of range"
                       : std::string()})
        if (!part.empty()) out += (out.empty() ? "" : ", ") + part;
    return out;
}

std::string unknown_words(Class c) {
    switch (c) {
    case Class::checked: return "known between plain checks only, which is not known for this";
    case Class::awaiting: return "awaiting data";
    case Class::unmonitored: return "not known";
    default: return "near a reading in range, itself not known";
    }
}

/// Whether the record of one place lets its holds go.
class Releaser {
public:
    Releaser(World& w, IncidentAnswer& out, const std::string& place) : w_(w), out_(out), place_(place) {}

    void judge(std::int64_t held_at, const std::set<std::string>& products) {
        for (const auto& u : out_.units)
            if (u.place == place_ && !u.excursions.empty())
                against("it was out of range, as the excursions of this incident say");
        // what takes holds back acts for all time, so nothing that is known may lie after the instant it is judged at
        if (const auto last = w_.engine.trace_of(place_).last(); last && *last > w_.at)
            against("readings or checks of after the closing are known, up to " +
                    w_.known.zone().local_text(Instant(*last)) + ": date it after them");
        const auto before = good_reading(w_, place_, held_at - 1, false);
        if (!before) return against("no reading in range is known from before it was noticed");
        // a check made on arriving in the morning does not answer for the night before it
        const Exposure just_before =
            w_.engine.over_range(w_.place(place_).range, place_, before->at - 1, before->at, false);
        if (just_before.seconds[static_cast<int>(Class::logged)] +
                just_before.seconds[static_cast<int>(Class::bounded)] !=
            Rational(1))
            against("the time before its last reading in range before it was noticed, that of " +
                    w_.known.zone().local_text(Instant(before->at)) + ", was not measured");
        const auto until = end(held_at);
        if (!until) return;
        out_.release_from = std::min(out_.release_from.value_or(Instant(before->at)), Instant(before->at));
        out_.release_until = std::max(out_.release_until.value_or(Instant(*until)), Instant(*until));
        const Exposure e = w_.engine.over_range(w_.place(place_).range, place_, before->at, *until, false);
        for (int c = 0; c < class_count; ++c) {
            const auto& seconds = e.seconds[static_cast<std::size_t>(c)];
            if (Class(c) != Class::logged && Class(c) != Class::bounded && seconds.sign() > 0)
                against(duration_words(seconds, true) + " of it " + unknown_words(Class(c)));
        }
        if (const auto out = perhaps_out(e); !out.empty()) against(out);
        for (const auto& id : products) {
            const Product& product = *w_.known.product(id);
            Exposure of = w_.engine.over(product, place_, before->at, *until, false);
            of.points =
                std::max(of.points, w_.engine.over_range(product.range, place_, before->at, *until, false).points);
            if (const auto out = perhaps_out(of); !out.empty()) against("for " + id + ": " + out);
        }
        displays(held_at);
        devices(held_at);
    }

private:
    void against(const std::string& what) { out_.against_release.push_back(place_ + ": " + what); }

    /// Until when all must be known: when the last doses left the place, else its last reading in range, which must not
    /// be old.
    std::optional<std::int64_t> end(std::int64_t held_at) {
        const auto times = times_with(w_, place_, {});
        if (!times.empty() && times.back().second < w_.at && times.back().second >= held_at) return times.back().second;
        const auto last = good_reading(w_, place_, w_.at, false);
        const auto said = [&](std::int64_t t) { return w_.known.zone().local_text(Instant(t)); };
        if (!last || last->at <= held_at) {
            against("no reading in range is known since it was noticed: read its logger first");
            return std::nullopt;
        }
        if (w_.at - last->at > w_.place(place_).max_gap.value_or(Place::usual_max_gap).seconds()) {
            against("its last reading in range is of " + said(last->at) + ": read its logger first");
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
            if (row.incident != out_.incident && row.closed && row.closed->seconds_since_1970() < held_at &&
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
                against("the minimum or maximum of the check of entry " + std::to_string(c.entry) + " is out of range");
        }
    }

    /// Two devices that cannot both be right, one of them out of range.
    void devices(std::int64_t held_at) {
        const Window window{false, looked_back(held_at), w_.at, true};
        for (const auto& d : disagreements(w_, place_, window))
            if (at_stake(d, w_.place(place_).range))
                against("DISAGREE: " + disagreement_words(d, place_, w_.known.zone()));
    }

    World& w_;
    IncidentAnswer& out_;
    const std::string& place_;
};

}  // namespace

std::string hold_reason(const std::string& incident, const std::string& place) {
    return "incident " + incident + ", noticed in " + place;
}

void add_release(World& w, IncidentAnswer& a) {
    if (a.maker) return;
    struct OfPlace {
        std::int64_t at = INT64_MAX;
        std::set<std::string> products;
    };
    std::map<std::string, OfPlace> places;
    std::optional<ListsAnswer> all;  // also of doses that came after what was out of range, and were held with the rest
    for (const auto& h : w.known.holds) {
        if (h.at > w.at || !h.fact.place || !h.fact.lot || h.fact.reason != hold_reason(a.incident, *h.fact.place))
            continue;
        IncidentAnswer::Held held{h.entry,     *h.fact.place, h.fact.product,
                                  *h.fact.lot, Doses(),       w.place(*h.fact.place).range};
        if (!all) all = lists(w);
        for (const auto& row : all->holdings)
            if (row.history.held_by.contains(h.entry)) held.doses = held.doses + row.doses;
        a.holds.push_back(std::move(held));
        auto& of = places[*h.fact.place];
        of.at = std::min(of.at, h.at);
        of.products.insert(h.fact.product);
    }
    for (const auto& [place, of] : places) Releaser(w, a, place).judge(of.at, of.products);
}

}  // namespace coldtally::answers
