#include <algorithm>
#include <tuple>

#include "conditions/excursions.hpp"
#include "exposure/limits.hpp"

namespace coldtally::answers {

namespace {

using exposure::Ticks;
using exposure::TraceLine;
using trace::Point;
using trace::Span;
using trace::Trace;

/// One side of the range; `sign` mirrors the cold side, so that out of range is always above.
struct Edge {
    Side side;
    Ticks C, F;
    int sign() const { return side == Side::warm ? 1 : -1; }
    Ticks in(Scale s) const { return s == Scale::C ? C : F; }
    bool beyond(Ticks t, Scale s) const { return sign() * t > sign() * in(s); }
    bool beyond(std::int32_t thousandths, Scale s) const { return beyond(exposure::ticks(thousandths), s); }
    bool beyond(const Point& p) const { return beyond(p.value, p.scale); }
};

Rational celsius_difference(const Rational& ticks, Scale scale) {
    return scale == Scale::C ? ticks / Rational(exposure::ticks_per_degree)
                             : ticks * Rational(5, 9 * exposure::ticks_per_degree);
}

/// What lies beyond the edge of a line from `from` to `until`; none where nothing does.
std::optional<Found::Piece> piece_of(const TraceLine& l, const Edge& edge, const Rational& from,
                                     const Rational& until) {
    const Rational sign(edge.sign()), c(edge.sign() * edge.in(l.scale));
    const Rational v0 = sign * l.at(from), v1 = sign * l.at(until);
    if (std::max(v0, v1) <= c) return std::nullopt;
    Rational a = from, b = until;
    if (v0 < c || v1 < c) (v0 < c ? a : b) = from + (until - from) * (c - v0) / (v1 - v0);
    const Rational above =
        (sign * (l.at(a) + l.at(b))) / Rational(2) - c;  // the mean: all of it lies at or beyond the edge
    return Found::Piece{a, b, l.celsius_at(a), l.celsius_at(b), celsius_difference((b - a) * above, l.scale)};
}

/// The excursions of one side: their whole spans, and the pieces that lie in the window.
class Finder {
public:
    Finder(const Edge& edge, const Window& window) : edge_(edge), from_(window.from), until_(window.until) {}

    /// [from, until) of a line; `goes_on`: a logged or checked part begins at its end.
    void line(const TraceLine& l, std::int64_t from, std::int64_t until, bool goes_on) {
        if (!edge_.beyond(l.p.value, l.scale) && !edge_.beyond(l.q.value, l.scale)) return;
        const auto piece = piece_of(l, edge_, Rational(from), Rational(until));
        if (!piece) return;
        if (runs_.empty() || runs_.back().until != piece->from) begin(runs_, ExcursionKind::line, piece->from);
        Found& run = runs_.back();
        run.until = piece->until;
        run.open = !goes_on && edge_.sign() * l.at(Rational(until)) > Rational(edge_.sign() * edge_.in(l.scale));
        const Rational a = std::max(piece->from, from_), b = std::min(piece->until, until_);
        if (a >= b) return;
        run.pieces.push_back(a == piece->from && b == piece->until ? *piece : *piece_of(l, edge_, a, b));
    }

    void bounded(const trace::Part& part) {
        const auto& later = *part.later;
        const Scale scale = later.point.scale;
        const std::int32_t worst = edge_.side == Side::warm ? *later.highest : *later.lowest;
        if (!edge_.beyond(worst, scale)) return;
        if (pair_ != &later) begin(pairs_, ExcursionKind::bounded, Rational(part.from));
        pair_ = &later;
        Found& run = pairs_.back();
        run.until = Rational(part.until);
        const Rational a = std::max(Rational(part.from), from_), b = std::min(run.until, until_);
        if (a >= b) return;
        const Rational peak = Temperature(scale, worst).celsius();
        const Rational beyond =
            celsius_difference(Rational(edge_.sign() * (exposure::ticks(worst) - edge_.in(scale))), scale);
        run.pieces.push_back({a, b, peak, peak, beyond * (b - a)});
    }

    /// Does t lie in the closure of an excursion found so far? All of them must have been found.
    bool covers(std::int64_t t) const { return covers(runs_, t) || covers(pairs_, t); }

    const std::vector<Found>& runs() const { return runs_; }
    const std::vector<Found>& pairs() const { return pairs_; }

private:
    void begin(std::vector<Found>& all, ExcursionKind kind, const Rational& from) {
        Found f;
        f.side = edge_.side;
        f.kind = kind;
        f.from = from;
        all.push_back(std::move(f));
    }
    static bool covers(const std::vector<Found>& all, std::int64_t t) {
        const Rational at(t);
        const auto it = std::partition_point(all.begin(), all.end(), [&](const Found& f) { return f.until < at; });
        return it != all.end() && it->from <= at;
    }

    const Edge& edge_;
    Rational from_, until_;
    std::vector<Found> runs_, pairs_;  // each ascending
    const trace::CheckPoint* pair_ = nullptr;
};

bool touches(const Span& s, const Edge& e) { return e.beyond(e.side == Side::warm ? s.highest : s.lowest, s.scale); }

/// Every part of the trace that ends after `back`, in the order of time; of a pair of checks all that stands for it.
void walk(const Trace& trace, const Edge& edge, Finder& finder, std::int64_t back) {
    const auto& spans = trace.spans();
    const auto& parts = trace.parts();
    std::size_t k = trace.part_at(back), first = trace.span_at(back);
    while (k > 0 && k < parts.size() && parts[k].later && parts[k - 1].later == parts[k].later) --k;
    if (first > 0 && spans[first - 1].joined) --first;
    const auto parts_before = [&](std::int64_t t) {
        for (; k < parts.size() && parts[k].from < t; ++k) {
            if (parts[k].kind == Class::bounded) finder.bounded(parts[k]);
            if (parts[k].kind == Class::checked)
                finder.line(TraceLine(parts[k].earlier->point, parts[k].later->point), parts[k].from, parts[k].until,
                            trace.line_begins(parts[k].until));
        }
    };
    std::vector<Point> rows;
    for (std::size_t i = first; i < spans.size(); ++i) {
        const Span& s = spans[i];
        parts_before(s.last_at);
        if (touches(s, edge)) {
            rows.clear();
            s.read(rows);
            for (std::size_t r = 0; r + 1 < rows.size(); ++r)
                finder.line(TraceLine(rows[r], rows[r + 1]), rows[r].at, rows[r + 1].at,
                            r + 2 < rows.size() || trace.line_begins(rows[r + 1].at));
        }
        if (s.joined)
            finder.line(TraceLine(s.last_point(), spans[i + 1].first_point()), s.last_at, spans[i + 1].first_at,
                        trace.line_begins(spans[i + 1].first_at));
    }
    parts_before(trace::forever);
}

void add_cut(const std::vector<Found>& all, const Window& window, std::vector<Found>& out) {
    for (const Found& f : all) {
        if (f.pieces.empty()) continue;
        Found cut = f;
        cut.open = f.open && f.until <= Rational(window.until);
        cut.from = f.pieces.front().from;
        cut.until = f.pieces.back().until;
        cut.cut_before = f.from < cut.from;
        cut.cut_after = cut.until < f.until;
        cut.peak_C = f.pieces.front().first_C;
        for (const auto& p : f.pieces)
            for (const Rational* t : {&p.first_C, &p.last_C})
                cut.peak_C = f.side == Side::warm ? std::max(cut.peak_C, *t) : std::min(cut.peak_C, *t);
        out.push_back(std::move(cut));
    }
}

void add_points(const Trace& trace, const Edge& edge, const Window& window, const Finder& finder,
                std::vector<Found>& out) {
    const auto take = [&](const Point& p) {
        if (p.at < window.from || p.at > window.until || (p.at == window.until && !window.with_end)) return;
        if (!edge.beyond(p) || finder.covers(p.at)) return;
        Found f;
        f.side = edge.side;
        f.kind = ExcursionKind::point;
        f.from = f.until = Rational(p.at);
        f.peak_C = Temperature(p.scale, p.value).celsius();
        out.push_back(std::move(f));
    };
    std::vector<Point> rows;
    const auto& spans = trace.spans();
    for (std::size_t i = trace.span_at(window.from); i < spans.size() && spans[i].first_at <= window.until; ++i) {
        if (!touches(spans[i], edge)) continue;
        rows.clear();
        spans[i].read(rows);
        for (const Point& p : rows) take(p);
    }
    for (const auto& c : trace.checks()) take(c.point);
}

/// Of what ends after `back`; one that seems to begin there or before may be cut.
std::vector<Found> found_after(World& w, const std::string& place, const Window& window, std::int64_t back) {
    std::vector<Found> out;
    const Range& range = w.place(place).range;
    const Trace& trace = w.engine.trace_of(place, back);
    const Window points{false, std::max(window.from, back), window.until, window.with_end};
    for (const Side side : {Side::cold, Side::warm}) {
        const auto& limit = side == Side::cold ? range.low : range.high;
        if (!limit) continue;
        const Edge edge{side, exposure::ticks(*limit, Scale::C), exposure::ticks(*limit, Scale::F)};
        Finder finder(edge, window);
        walk(trace, edge, finder, back);
        add_cut(finder.runs(), window, out);
        add_cut(finder.pairs(), window, out);
        add_points(trace, edge, points, finder, out);
    }
    std::ranges::stable_sort(out, {}, [](const Found& f) { return std::tie(f.from, f.side, f.kind); });
    return out;
}

}  // namespace

std::vector<Found> find_excursions(World& w, const std::string& place, const Window& window) {
    return window.empty ? std::vector<Found>() : found_after(w, place, window, -trace::forever);
}

std::vector<Found> excursions_since(World& w, const std::string& place, std::int64_t since) {
    const Window whole{false, -trace::forever, w.at, true};
    const Rational at(since);
    auto out = found_after(w, place, whole, since - 1);  // so that one which ends there is met
    if (std::ranges::any_of(out, [&](const Found& f) { return f.from <= at && at <= f.until; }))
        out = found_after(w, place, whole, -trace::forever);
    std::erase_if(out, [&](const Found& f) { return f.until < at; });
    return out;
}

}  // namespace coldtally::answers
