#include "conditions/time_in_doubt.hpp"

#include <algorithm>
#include <tuple>

#include "conditions/incidents.hpp"
#include "conditions/released.hpp"
#include "conditions/rule_times.hpp"
#include "exposure/limits.hpp"

namespace coldtally::answers {

using trace::Point;

std::optional<Good> good_reading(World& w, const std::string& place, std::int64_t t, bool after) {
    const exposure::LimitsOf limits(w.place(place).range);
    std::optional<Good> out;
    const auto take = [&](const Point& p) {
        if (p.at > w.at || (after ? p.at < t : p.at > t)) return;
        const auto v = exposure::ticks(p.value);
        if (limits.in(p.scale).is_warm(v) || limits.in(p.scale).is_cold(v)) return;
        if (!out || (after ? p.at < out->at : p.at > out->at))
            out = Good{p.at, Temperature(p.scale, p.value).celsius()};
    };
    const auto& trace = w.engine.trace_of(place);
    const auto& spans = trace.spans();
    std::vector<Point> rows;
    const auto take_span = [&](const trace::Span& s) {
        rows.clear();
        s.read(rows);
        for (const Point& p : rows) take(p);
    };
    const std::size_t here = trace.span_at(t);
    if (after)
        for (std::size_t i = here; i < spans.size() && !out; ++i) take_span(spans[i]);
    else
        for (std::size_t i = std::min(here + 1, spans.size()); i-- > 0 && !out;) take_span(spans[i]);
    for (const auto& c : trace.checks()) take(c.point);
    return out;
}

std::vector<Doubt> doubts_over(World& w, const std::vector<IncidentSpan>& spans) {
    std::vector<Doubt> out;
    if (spans.empty()) return out;
    World fresh(w.store, w.head, w.known);  // the traces of the question itself may be read from a later instant on
    for (const auto& [place, definitions] : w.known.places) {
        const auto is_of = [&place = place](const IncidentSpan& s) { return s.of(place); };
        if (definitions.empty() || std::ranges::none_of(spans, is_of)) continue;
        const auto all = incidents(fresh, place, std::nullopt, Instant(0), fresh.head.at);
        for (const IncidentSpan& span : spans) {
            if (!span.of(place)) continue;
            const auto row = std::ranges::find(all.incidents, span.incident, &IncidentsAnswer::Row::incident);
            const auto all_of_it = time_in_doubt(fresh, place, row->excursions, span.noticed_in(place));
            for (std::size_t i = 0; i < all_of_it.size(); ++i) {
                const Stretch& s = all_of_it[i];
                const std::int64_t next = i + 1 < all_of_it.size() ? all_of_it[i + 1].window.from : INT64_MAX;
                const std::int64_t until = span.closed ? std::min(s.window.until, *span.closed) : s.window.until;
                if (!span.closed || s.window.from <= *span.closed)
                    out.push_back({span.incident, place, s.window.from, until, s.back_in_range.has_value(),
                                   span.closed, std::nullopt, span.noticed_by(place, s.window.from, next)});
            }
        }
    }
    std::ranges::sort(out, {}, [](const Doubt& d) { return std::tie(d.incident, d.place, d.from); });
    return out;
}

const std::vector<Doubt>& open_doubts(World& w) {
    if (w.doubts) return *w.doubts;
    auto out = std::make_shared<std::vector<Doubt>>(doubts_over(w, open_incidents(w)));
    const auto& lapsed = closings(w).lapsed;
    out->insert(out->end(), lapsed.begin(), lapsed.end());
    w.doubts = out;
    return *w.doubts;
}

namespace {

/// From the last good reading at or before `before` until a good one at or after `last`; what began, began at `first`.
Stretch stretch(World& w, const std::string& place, std::int64_t before, std::int64_t first, std::int64_t last,
                bool of_excursions) {
    Stretch out;
    out.last_good = good_reading(w, place, before, false);
    out.back_in_range = good_reading(w, place, last, true);
    const std::int64_t from = out.last_good ? out.last_good->at : first;
    std::int64_t until = w.at;
    if (out.back_in_range)
        until = out.back_in_range->at;
    else  // what an empty place was afterwards is of no account
        for (const auto& stay : times_with(w, place, {}))
            if (stay.second > from) until = of_excursions ? std::max(stay.second, last) : stay.second;
    until = std::min(until, w.at);
    out.window = {false, std::min(from, until), until, until == w.at};
    if (of_excursions) out.after_excursions = out.back_in_range;
    return out;
}

/// One that meets the one before it is the same time.
void join(Stretch& into, const Stretch& next) {
    if (!into.back_in_range || !next.back_in_range)
        into.back_in_range.reset();
    else if (next.back_in_range->at > into.back_in_range->at)
        into.back_in_range = next.back_in_range;
    if (next.after_excursions) into.after_excursions = next.after_excursions;
    into.window.until = std::max(into.window.until, next.window.until);
    into.window.with_end = into.window.with_end || next.window.with_end;
}

}  // namespace

std::vector<Stretch> time_in_doubt(World& w, const std::string& place, const std::vector<IncidentExcursion>& excursions,
                                   const std::vector<std::int64_t>& noticed) {
    std::vector<Stretch> all;
    if (!excursions.empty()) {
        const std::int64_t first = excursions.front().from_s.floor();
        std::int64_t last = first;
        for (const auto& e : excursions) last = std::max(last, e.until_s.ceil());
        all.push_back(stretch(w, place, first, first, last, true));
    }
    for (const std::int64_t t : noticed) {
        const Rational at(t);
        if (std::ranges::any_of(excursions, [&](const auto& e) { return e.from_s <= at && at <= e.until_s; })) continue;
        // what is read as it is noticed says nothing of the time before
        all.push_back(stretch(w, place, t - 1, t, t, false));
    }
    std::ranges::stable_sort(all, {}, [](const Stretch& s) { return s.window.from; });
    std::vector<Stretch> out;
    for (Stretch& s : all) {
        if (!out.empty() && s.window.from <= out.back().window.until)
            join(out.back(), s);
        else
            out.push_back(std::move(s));
    }
    return out;
}

std::vector<std::string> doubted_now(World& w, const std::string& place) {
    std::vector<std::string> out;
    for (const Doubt& d : open_doubts(w))
        if (d.place == place && !d.over && !d.lapsed && (out.empty() || out.back() != d.incident))
            out.push_back(d.incident);
    return out;
}

}  // namespace coldtally::answers
