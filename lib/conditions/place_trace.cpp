#include "conditions/place_trace.hpp"

#include <algorithm>

namespace coldtally::answers {

namespace {

std::optional<Temperature> maybe(Scale scale, const std::optional<std::int32_t>& thousandths) {
    if (!thousandths) return std::nullopt;
    return Temperature(scale, *thousandths);
}

}  // namespace

TraceAnswer place_trace(World& w, const std::string& place, Instant from, Instant until) {
    TraceAnswer out;
    out.head = w.head;
    out.place = place;
    out.from = from;
    out.until = until;
    out.head.window = window_words(from, until, w.head.at, w.known.zone());
    out.range = w.place(place).range;
    const Window window = window_of(w, from, until);
    if (window.empty) return out;
    const std::int64_t a = window.from, b = window.until;
    const auto inside = [&](std::int64_t t) { return t >= a && (t < b || (window.with_end && t == b)); };

    w.engine.expect_back_to(place, a);
    const trace::Trace& trace = w.engine.trace_of(place, a);
    const auto& spans = trace.spans();
    std::vector<trace::Point> rows;
    for (std::size_t i = trace.span_at(a); i < spans.size() && spans[i].first_at <= b; ++i) {
        rows.clear();
        spans[i].read(rows);
        for (std::size_t k = 0; k < rows.size(); ++k) {
            if (!inside(rows[k].at)) continue;
            out.readings.push_back({Instant(rows[k].at), Temperature(rows[k].scale, rows[k].value),
                                    TemperatureDifference(rows[k].tolerance), k + 1 < rows.size() || spans[i].joined});
        }
    }
    if (!out.readings.empty()) out.readings.back().joined = false;  // what follows is outside the window
    const auto& checks = trace.checks();
    for (std::size_t i = trace.check_at(a); i < checks.size() && inside(checks[i].point.at); ++i) {
        const auto& c = checks[i];
        out.checks.push_back({c.entry, Instant(c.point.at), Temperature(c.point.scale, c.point.value),
                              maybe(c.point.scale, c.lowest), maybe(c.point.scale, c.highest),
                              TemperatureDifference(c.point.tolerance)});
    }
    const auto& parts = trace.parts();
    for (std::size_t i = trace.part_at(a); i < parts.size() && parts[i].from < b; ++i)
        out.parts.push_back({parts[i].kind, Instant(std::max(parts[i].from, a)), Instant(std::min(parts[i].until, b))});
    return out;
}

}  // namespace coldtally::answers
