// Lines: the logged and checked parts of a trace, one by one.
#pragma once

#include <algorithm>

#include "trace/trace.hpp"

namespace coldtally::trace {

/// Calls take(p, q, from, until) for each logged part that meets [a, b), cut to it, ascending. Spans for which
/// skip(span) holds are left out, the time between two spans never.
template <class Skip, class Take>
void for_each_logged_line(const Trace& trace, std::int64_t a, std::int64_t b, Skip skip, Take take) {
    const auto cut = [&](const Point& p, const Point& q, std::int64_t from, std::int64_t until) {
        from = std::max(a, from);
        until = std::min(b, until);
        if (from < until) take(p, q, from, until);
    };
    const auto& spans = trace.spans();
    std::size_t i = trace.span_at(a);
    if (i > 0) --i;  // the time after it may be joined
    std::vector<Point> rows;
    for (; i < spans.size() && spans[i].first_at < b; ++i) {
        if (!skip(spans[i])) {
            rows.clear();
            spans[i].read(rows);
            for (std::size_t k = 0; k + 1 < rows.size(); ++k) cut(rows[k], rows[k + 1], rows[k].at, rows[k + 1].at);
        }
        if (spans[i].joined)
            cut(spans[i].last_point(), spans[i + 1].first_point(), spans[i].last_at, spans[i + 1].first_at);
    }
}

/// Those of loggers, then those between checks, each ascending.
template <class Skip, class Take>
void for_each_line(const Trace& trace, std::int64_t a, std::int64_t b, Skip skip, Take take) {
    for_each_logged_line(trace, a, b, skip, take);
    const auto& parts = trace.parts();
    for (std::size_t k = trace.part_at(a); k < parts.size() && parts[k].from < b; ++k) {
        const auto from = std::max(a, parts[k].from), until = std::min(b, parts[k].until);
        if (parts[k].kind == Class::checked && from < until)
            take(parts[k].earlier->point, parts[k].later->point, from, until);
    }
}

}  // namespace coldtally::trace
