#include "conditions/time_in_doubt.hpp"

#include <algorithm>

#include "conditions/incidents.hpp"
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

const std::vector<Doubt>& open_doubts(World& w) {
    if (w.doubts) return *w.doubts;
    auto out = std::make_shared<std::vector<Doubt>>();
    const auto open = open_incidents(w);
    if (!open.empty()) {
        World fresh(w.store, w.head, w.known);  // the traces of the question itself may be read from a later instant on
        for (const auto& [place, definitions] : w.known.places) {
            if (definitions.empty() ||
                std::none_of(open.begin(), open.end(), [&place = place](const auto& o) { return o.of(place); }))
                continue;
            const auto all = incidents(fresh, place, std::nullopt, Instant(0), fresh.head.at);
            for (const auto& o : open) {
                if (!o.of(place)) continue;
                const auto row = std::find_if(all.incidents.begin(), all.incidents.end(),
                                              [&](const auto& r) { return r.incident == o.incident; });
                const TimeInDoubt time = time_in_doubt(fresh, place, row->excursions, o.since());
                out->push_back(
                    {o.incident, place, time.window.from, time.window.until, time.back_in_range.has_value()});
            }
        }
        std::sort(out->begin(), out->end(), [](const auto& a, const auto& b) {
            return std::pair(a.incident, a.place) < std::pair(b.incident, b.place);
        });
    }
    w.doubts = out;
    return *w.doubts;
}

TimeInDoubt time_in_doubt(World& w, const std::string& place, const std::vector<IncidentExcursion>& excursions,
                          std::int64_t noticed) {
    TimeInDoubt out;
    // what is read as it is noticed says nothing of the time before
    const std::int64_t first = excursions.empty() ? noticed : excursions.front().from_s.floor();
    std::int64_t last = noticed;
    if (!excursions.empty()) last = first;
    for (const auto& e : excursions) last = std::max(last, e.until_s.ceil());
    out.last_good = good_reading(w, place, excursions.empty() ? noticed - 1 : first, false);
    out.back_in_range = good_reading(w, place, last, true);
    const std::int64_t from = out.last_good ? out.last_good->at : first;
    std::int64_t until = w.at;
    if (out.back_in_range)
        until = out.back_in_range->at;
    else  // what an empty place was afterwards is of no account
        for (const auto& stay : times_with(w, place, {}))
            if (stay.second > from) until = excursions.empty() ? stay.second : std::max(stay.second, last);
    until = std::min(until, w.at);
    out.window = {false, std::min(from, until), until, until == w.at};
    return out;
}

std::vector<std::string> doubted_now(World& w, const std::string& place) {
    std::vector<std::string> out;
    for (const Doubt& d : open_doubts(w))
        if (d.place == place && !d.over) out.push_back(d.incident);
    return out;
}

}  // namespace coldtally::answers
