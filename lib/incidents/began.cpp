#include "incidents/began.hpp"

#include <algorithm>

namespace coldtally::answers {

namespace {

using trace::Point;

bool read_beyond(const exposure::LimitsOf& limits, exposure::Ticks low, exposure::Ticks high, Scale s) {
    const auto& in = limits.in(s);
    return in.is_warm(high) || in.is_cold(low) || (in.freeze && low <= *in.freeze);
}

/// Between two points it may have been out of range, and neither was read beyond it.
bool in_doubt(const exposure::LimitsOf& limits, const Point& a, const Point& b) {
    const exposure::TraceLine l(a, b);
    const auto& in = limits.in(l.scale);
    const bool inside =
        in.well_inside(l.p.value, l.p.value, l.p.tolerance) && in.well_inside(l.q.value, l.q.value, l.q.tolerance);
    return !inside &&
           !read_beyond(limits, std::min(l.p.value, l.q.value), std::max(l.p.value, l.q.value), l.scale);
}

/// The same of a minimum and a maximum.
bool in_doubt(const exposure::LimitsOf& limits, const trace::Part& part) {
    if (part.kind == Class::checked) return in_doubt(limits, part.earlier->point, part.later->point);
    if (part.kind != Class::bounded) return false;
    const auto& later = *part.later;
    const auto low = exposure::ticks(*later.lowest), high = exposure::ticks(*later.highest);
    const Scale s = later.point.scale;
    return !limits.in(s).well_inside(low, high, exposure::ticks(later.point.tolerance)) &&
           !read_beyond(limits, low, high, s);
}

}  // namespace

std::int64_t may_have_begun(World& w, const exposure::LimitsOf& limits, const std::string& place, std::int64_t t) {
    const auto& trace = w.engine.trace_of(place);
    const auto& spans = trace.spans();
    std::vector<Point> rows;
    for (;;) {
        const std::int64_t end = t;
        const std::size_t i = trace.span_at(t);
        if (i < spans.size() && spans[i].first_at < t) {
            rows.clear();
            spans[i].read(rows);
            for (std::size_t r = rows.size() - 1;
                 r > 0 && (rows[r - 1].at >= t || in_doubt(limits, rows[r - 1], rows[r])); --r)
                t = std::min(t, rows[r - 1].at);
        } else if (i > 0 && spans[i - 1].joined) {
            if (i < spans.size() && in_doubt(limits, spans[i - 1].last_point(), spans[i].first_point()))
                t = spans[i - 1].last_at;
        } else {
            const auto& part = trace.parts()[trace.part_at(t - 1)];
            if (part.from >= t) return t;
            if (in_doubt(limits, part)) t = part.from;
        }
        if (t == end) return t;
    }
}

}  // namespace coldtally::answers
