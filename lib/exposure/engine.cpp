#include "exposure/engine.hpp"

#include <algorithm>
#include <iterator>

#include "exposure/part.hpp"

namespace coldtally::exposure {

using trace::Part;
using trace::Point;
using trace::Span;
using trace::Trace;

namespace {

/// A part of this length or less, cut anywhere, keeps add_line's products within 128 bits: its temperatures at the cuts
/// have 16 bits more than the 28 of a tick, the square of a difference 90, and 32 more for two lengths of time.
constexpr std::int64_t longest_in_wide = 1 << 16;

End end_of(const Point& p, bool in_celsius) {
    if (in_celsius && p.scale == Scale::F) return {celsius_ticks(p.value), celsius_difference(p.tolerance)};
    return {ticks(p.value), ticks(p.tolerance)};
}

void add_class(Sums& sums, Class c, std::int64_t seconds) { sums.of(c).add(Wide(seconds)); }

bool well_inside(const Limits& limits, const End& p, const End& q) {
    return limits.well_inside(p.value, p.value, p.tolerance) && limits.well_inside(q.value, q.value, q.tolerance);
}

/// [from, until) of a line, whole seconds, but for its class and its extremes.
void add_part_of(OutOfRange& sums, const LimitsOf& limits, const TraceLine& l, std::int64_t from, std::int64_t until) {
    const Limits& in = limits.in(l.scale);
    if (well_inside(in, l.p, l.q)) return;
    if (from == l.from && until == l.until) {
        add_line<Wide>(sums, in, l.scale, l.p, l.q, {l.p.value, l.q.value, 1, until - from, 1});
        return;
    }
    const std::int64_t n = l.until - l.from;
    const auto cut = [&]<class N>(N) {
        const auto value = [&](std::int64_t t) {
            return N(N(l.p.value) * n + N(l.q.value - l.p.value) * (t - l.from));
        };
        add_line<N>(sums, in, l.scale, l.p, l.q, {value(from), value(until), N(n), N(until - from), N(1)});
    };
    if (n <= longest_in_wide)
        cut(Wide());
    else
        cut(BigInt());
}

/// The same with its extremes.
void add_cut(Sums& sums, const LimitsOf& limits, const TraceLine& l, std::int64_t from, std::int64_t until) {
    if (from != l.from) sums.seen(l.celsius_at(from));  // the reading or check at its begin is in the stay, too
    if (until == l.until)
        sums.seen(l.second.value, l.second.scale);
    else
        sums.seen(l.celsius_at(until));
    add_part_of(sums, limits, l, from, until);
}

void add_bounded_cut(Sums& sums, const LimitsOf& limits, const Part& part, const auto& seconds) {
    const Point& q = part.later->point;
    sums.seen(*part.later->lowest, q.scale);
    sums.seen(*part.later->highest, q.scale);
    add_bounded(sums, limits.in(q.scale), q.scale, ticks(*part.later->lowest), ticks(*part.later->highest),
                ticks(q.tolerance), seconds);
}

void add_point(Sums& sums, const LimitsOf& limits, const Point& p) {
    sums.seen(p.value, p.scale);
    if (limits.in(p.scale).is_point(ticks(p.value))) ++sums.points;
}

/// The lines between a span's readings [from, until), and those before `points_until` as points. No class, no extremes.
void add_lines(OutOfRange& sums, const Limits& in, const Span& s, const Reading* from, const Reading* until,
               const Reading* points_until) {
    const Ticks u = ticks(s.tolerance);
    // of a temperature that is well inside: so is a line between two of them, and none is a point
    Ticks before = 0;
    bool was_calm = true;
    for (const Reading* r = from; r != until; ++r) {
        const Ticks v = ticks(trace::corrected(s.certificate, r->thousandths));
        const bool is_calm = in.well_inside(v, v, u);
        if (!is_calm && r < points_until && in.is_point(v)) ++sums.points;
        if (r != from && !(is_calm && was_calm))
            add_line<Wide>(sums, in, s.scale, {before, u}, {v, u}, {before, v, 1, (r->at - (r - 1)->at).seconds(), 1});
        before = v;
        was_calm = is_calm;
    }
}

bool is_quiet(const LimitsOf& limits, const Span& s) {
    return limits.in(s.scale).well_inside(ticks(s.lowest), ticks(s.highest), ticks(s.tolerance));
}

/// All of a span but for its class and its extremes.
void add_inside(OutOfRange& sums, const LimitsOf& limits, const Span& s) {
    const trace::Rows rows = s.source->rows(s.block);
    add_lines(sums, limits.in(s.scale), s, rows->data() + s.from, rows->data() + s.until, rows->data() + s.until);
}

/// What lies in [a, b] of a span that meets it; a < b.
void add_piece(Sums& sums, const LimitsOf& limits, const Span& s, std::int64_t a, std::int64_t b, bool with_end) {
    const trace::Rows rows = s.source->rows(s.block);
    const Reading* const first = rows->data() + s.from;
    const Reading* const last = rows->data() + s.until;
    const Reading* const from = std::ranges::lower_bound(first, last, Instant(a), {}, &Reading::at);
    const Reading* const until = std::ranges::upper_bound(from, last, Instant(b), {}, &Reading::at);
    add_class(sums, Class::logged, std::min(b, s.last_at) - std::max(a, s.first_at));
    // a reading at b ends the line before it; without a line, it counts only if b is inside
    const Reading* const before_end = until != from && (until - 1)->at == Instant(b) && !with_end ? until - 1 : until;
    const Reading* const end = b > s.first_at ? until : before_end;
    if (from != end) {
        std::int32_t lowest = from->thousandths, highest = from->thousandths;
        for (const Reading* r = from; r != end; ++r) {
            lowest = std::min(lowest, r->thousandths);
            highest = std::max(highest, r->thousandths);
        }
        sums.seen(trace::corrected(s.certificate, lowest), s.scale);
        sums.seen(trace::corrected(s.certificate, highest), s.scale);
    }
    const bool quiet = is_quiet(limits, s);
    if (!quiet) add_lines(sums, limits.in(s.scale), s, from, until, before_end);
    // where a cut lies between two readings, the line's value there, and what the line is up to there
    const auto point = [&](const Reading& r) {
        return Point{r.at.seconds_since_1970(), trace::corrected(s.certificate, r.thousandths), s.tolerance, s.scale};
    };
    if (from != first && from->at != Instant(a)) {
        const TraceLine line(point(*(from - 1)), point(*from));
        sums.seen(line.celsius_at(a));
        if (!quiet) add_part_of(sums, limits, line, a, std::min(b, line.until));
    }
    if (until != last && (until - 1)->at != Instant(b)) {
        const TraceLine line(point(*(until - 1)), point(*until));
        sums.seen(line.celsius_at(b));
        if (!quiet && line.from >= a) add_part_of(sums, limits, line, line.from, b);  // else it was cut at a and at b
    }
}

}  // namespace

TraceLine::TraceLine(const Point& a, const Point& b) : from(a.at), until(b.at), first(a), second(b) {
    const bool in_celsius = a.scale != b.scale;
    p = end_of(a, in_celsius);
    q = end_of(b, in_celsius);
    scale = in_celsius ? Scale::C : a.scale;
}

Rational TraceLine::at(const Rational& t) const {
    return Rational(p.value) + Rational(q.value - p.value) * (t - Rational(from)) / Rational(until - from);
}

Rational TraceLine::celsius_at(const Rational& t) const {
    const Rational degrees = at(t) / Rational(ticks_per_degree);
    return scale == Scale::C ? degrees : (degrees - Rational(32)) * Rational(5, 9);
}

Engine::Engine(const ledger::Store& store, const ledger::Known& known, std::int64_t asked_at)
    : store_(store), known_(known), asked_at_(asked_at), assignments_(trace::assignments(known)) {}

Engine::Kept& Engine::reaching(const std::string& place, std::int64_t from) {
    auto& all = kept_[place];
    if (!all.empty() && all.back()->from <= from) return *all.back();
    // a guess that was wrong once is not made again; what was handed out of the shorter trace stands as long as this
    // does
    std::int64_t back = -trace::forever;
    if (all.empty()) {
        const auto own = expected_in_.find(place);
        back = std::min(from, own == expected_in_.end() ? expected_ : own->second);
    }
    all.push_back(std::unique_ptr<Kept>(
        new Kept{back, Trace(store_, known_, place, back, asked_at_, assignments_, keep_readings_), {}}));
    return *all.back();
}

Engine::Judge Engine::judge(const Product& product, const std::string& place, std::int64_t from) {
    const auto it = limits_.try_emplace(product.product, product).first;
    Kept& kept = reaching(place, from);
    return {it->second, kept.trace, kept.whole_spans[product.product]};
}

Exposure Engine::over(const Product& product, const std::string& place, std::int64_t a, std::int64_t b, bool with_end) {
    const Judge j = judge(product, place, a);
    Sums sums(j.limits.allowances);
    sweep(sums, j, a, b, with_end);
    return sums.total();
}

Exposure Engine::over_range(const Range& range, const std::string& place, std::int64_t a, std::int64_t b,
                            bool with_end) {
    const LimitsOf limits(range);
    WholeSpans whole_spans;
    Sums sums;
    sweep(sums, {limits, reaching(place, a).trace, whole_spans}, a, b, with_end);
    return sums.total();
}

Exposure Engine::over(const Product& product, const std::string& place, const Rational& a, const Rational& b,
                      bool with_end) {
    const Judge j = judge(product, place, a.floor());
    Sums sums(j.limits.allowances);
    const Rational first = a.ceil(), last = b.floor();
    if (first > last) {  // both within one second
        slice(sums, j, a, b);
        return sums.total();
    }
    slice(sums, j, a, first);
    // what stands at the last whole second before b is inside
    sweep(sums, j, first.floor(), last.floor(), with_end || last < b);
    slice(sums, j, last, b);
    return sums.total();
}

std::int64_t Engine::quiet_until(const Product& product, const std::string& place, std::int64_t t) {
    const Judge j = judge(product, place, t);
    const LimitsOf& limits = j.limits;
    const Trace& trace = j.trace;
    const auto quiet_point = [&](const Point& p) {
        const End e = end_of(p, false);
        return limits.in(p.scale).well_inside(e.value, e.value, e.tolerance);
    };
    const auto quiet_line = [&](const Point& p, const Point& q) {
        const TraceLine l(p, q);
        return well_inside(limits.in(l.scale), l.p, l.q);
    };
    const auto quiet_part = [&](const Part& p) {
        if (p.kind == Class::checked) return quiet_line(p.earlier->point, p.later->point);
        if (p.kind != Class::bounded) return p.kind == Class::awaiting || p.kind == Class::near;
        return limits.in(p.later->point.scale)
            .well_inside(ticks(*p.later->lowest), ticks(*p.later->highest), ticks(p.later->point.tolerance));
    };
    const auto& parts = trace.parts();
    const auto& checks = trace.checks();
    const auto& spans = trace.spans();
    const auto quiet_after = [&](const Span& s) {
        return !s.joined || quiet_line(s.last_point(), std::next(&s)->first_point());
    };
    std::int64_t u = trace::forever;
    // up to the first of some that is not quiet, as far as u, which what was asked before has brought down
    const auto look = [&](const auto& all, std::size_t first, auto begin, auto quiet) {
        for (auto it = all.begin() + static_cast<std::ptrdiff_t>(first); it != all.end() && begin(*it) < u; ++it)
            if (!quiet(*it)) u = std::max(t, begin(*it));
    };
    const std::size_t i = trace.span_at(t);
    look(parts, trace.part_at(t), [](const Part& p) { return p.from; }, quiet_part);
    look(spans, i, [](const Span& s) { return s.first_at; }, [&](const Span& s) { return is_quiet(limits, s); });
    look(spans, std::max(i, std::size_t{1}) - 1, [](const Span& s) { return s.last_at; }, quiet_after);
    look(
        checks, trace.check_at(t), [](const trace::CheckPoint& c) { return c.point.at; },
        [&](const trace::CheckPoint& c) { return quiet_point(c.point); });
    return u;
}

Exposure Engine::at_instant(const Product& product, const std::string& place, std::int64_t t) {
    const Judge j = judge(product, place, t);
    Sums sums(j.limits.allowances);
    add_points(sums, j, t);
    return sums.total();
}

void Engine::sweep(Sums& sums, const Judge& j, std::int64_t a, std::int64_t b, bool with_end) {
    if (a == b && with_end) add_points(sums, j, a);
    if (a >= b) return;
    const Trace& trace = j.trace;
    const auto& spans = trace.spans();
    std::size_t i = trace.span_at(a);
    const auto bridge = [&](std::size_t k) {
        if (!spans[k].joined) return;
        const auto from = std::max(a, spans[k].last_at), until = std::min(b, spans[k + 1].first_at);
        if (from >= until) return;
        add_class(sums, Class::logged, until - from);
        add_cut(sums, j.limits, TraceLine(spans[k].last_point(), spans[k + 1].first_point()), from, until);
    };
    if (i > 0) bridge(i - 1);
    for (; i < spans.size() && spans[i].first_at <= b; ++i) {
        const Span& s = spans[i];
        if (s.first_at >= a && s.last_at < b) {
            add_class(sums, Class::logged, s.last_at - s.first_at);
            sums.seen(s.lowest, s.scale);
            sums.seen(s.highest, s.scale);
            if (!is_quiet(j.limits, s)) {
                auto [it, is_new] = j.whole_spans.try_emplace(i, j.limits.allowances);
                if (is_new) add_inside(it->second, j.limits, s);
                sums.add(it->second);
            }
        } else {
            add_piece(sums, j.limits, s, a, b, with_end);
        }
        bridge(i);
    }
    const auto& parts = trace.parts();
    for (std::size_t k = trace.part_at(a); k < parts.size() && parts[k].from < b; ++k) {
        const Part& part = parts[k];
        const auto from = std::max(a, part.from), until = std::min(b, part.until);
        add_class(sums, part.kind, until - from);
        if (part.kind == Class::checked)
            add_cut(sums, j.limits, TraceLine(part.earlier->point, part.later->point), from, until);
        if (part.kind == Class::bounded) add_bounded_cut(sums, j.limits, part, until - from);
    }
    const auto& checks = trace.checks();
    for (std::size_t k = trace.check_at(a);
         k < checks.size() && (checks[k].point.at < b || (checks[k].point.at == b && with_end)); ++k)
        add_point(sums, j.limits, checks[k].point);
}

/// [a, b) that lies within one second: one part holds it, and no reading but one at a. Nothing where a = b.
void Engine::slice(Sums& sums, const Judge& j, const Rational& a, const Rational& b) {
    if (a == b) return;
    const Trace& trace = j.trace;
    const Rational length = b - a;
    const std::int64_t second = a.floor();
    const auto add_line_slice = [&](const TraceLine& l) {
        sums.seen(l.celsius_at(a));
        sums.seen(l.celsius_at(b));
        // one unit for the temperatures at both cuts: the product of the two denominators
        const Rational v0 = l.at(a), v1 = l.at(b);
        const BigInt d0 = RationalAccess::denominator(v0), d1 = RationalAccess::denominator(v1);
        add_line<BigInt>(sums, j.limits.in(l.scale), l.scale, l.p, l.q,
                         {BigInt(RationalAccess::numerator(v0) * d1), BigInt(RationalAccess::numerator(v1) * d0),
                          BigInt(d0 * d1), RationalAccess::numerator(length), RationalAccess::denominator(length)});
    };
    const auto book = [&](Class c) {
        sums.of(c).add(RationalAccess::numerator(length), RationalAccess::denominator(length));
    };

    const auto& spans = trace.spans();
    const std::size_t i = trace.span_at(second + 1);  // the first that ends after a
    if (i < spans.size() && spans[i].first_at <= second) {
        std::vector<Point> rows;
        spans[i].read(rows);
        const auto after = std::ranges::upper_bound(rows, second, {}, &Point::at);
        book(Class::logged);
        add_line_slice(TraceLine(*(after - 1), *after));
        return;
    }
    if (i > 0 && spans[i - 1].joined) {
        book(Class::logged);
        add_line_slice(TraceLine(spans[i - 1].last_point(), spans[i].first_point()));
        return;
    }
    const Part& part = trace.parts()[trace.part_at(second)];
    book(part.kind);
    if (part.kind == Class::checked) add_line_slice(TraceLine(part.earlier->point, part.later->point));
    if (part.kind == Class::bounded) add_bounded_cut(sums, j.limits, part, length);
}

void Engine::add_points(Sums& sums, const Judge& j, std::int64_t t) {
    const Trace& trace = j.trace;
    const auto& spans = trace.spans();
    if (const std::size_t i = trace.span_at(t); i < spans.size()) {
        std::vector<Point> rows;
        spans[i].read(rows);
        for (const Point& p : rows)
            if (p.at == t) add_point(sums, j.limits, p);
    }
    const auto& checks = trace.checks();
    if (const std::size_t k = trace.check_at(t); k < checks.size() && checks[k].point.at == t)
        add_point(sums, j.limits, checks[k].point);
}

}  // namespace coldtally::exposure
