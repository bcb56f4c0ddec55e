#include "excursions.hpp"

#include <algorithm>
#include <tuple>

namespace second {

namespace {

/// The window that is left once it is cut to A.
struct Cut {
    bool empty = true;
    Rational from, until;
    bool with_until = false;  // the instant A itself is seen
};

Cut cut_to_A(const Trace& trace, const Window& window) {
    const Rational A(trace.A);
    Cut cut;
    cut.from = window.from;
    cut.until = window.until;
    if (window.from > window.until) return cut;
    if (window.from > A) return cut;
    if (window.until >= A) {
        cut.until = A;
        cut.with_until = true;
        cut.empty = false;
        return cut;
    }
    if (window.from == window.until) return cut;
    cut.empty = false;
    return cut;
}

bool belongs(const Cut& cut, Instant at) {
    const Rational t(at);
    return !cut.empty && t >= cut.from && (t < cut.until || (cut.with_until && t == cut.until));
}

/// One stretch of one line (or of one bounded part) that is out of range on one side.
struct Stretch {
    Rational from, until;
    Line line;       // kind line
    Rational limit;  // kind line: in the line's scale
};

/// An excursion on the whole trace, before any window.
struct Whole {
    ExcursionSide side = ExcursionSide::warm;
    ExcursionKind kind = ExcursionKind::line;
    std::vector<Stretch> stretches;
    CheckSample later;  // kind bounded
    bool open = false;

    Rational from() const { return stretches.front().from; }
    Rational until() const { return stretches.back().until; }
};

std::optional<Rational> limit_of(const Range& range, ExcursionSide side, Scale scale) {
    const std::optional<Limit>& limit = side == ExcursionSide::warm ? range.high : range.low;
    if (!limit) return std::nullopt;
    return limit_in(*limit, scale);
}

bool is_out(ExcursionSide side, const Rational& temperature, const Rational& limit) {
    return side == ExcursionSide::warm ? temperature > limit : temperature < limit;
}

std::vector<Piece> whole_trace(const Trace& trace) {
    std::vector<Instant> instants;
    for (const ReadingSample& r : trace.readings) instants.push_back(r.at);
    for (const CheckSample& c : trace.checks) instants.push_back(c.at);
    if (instants.empty()) return {};
    std::sort(instants.begin(), instants.end());
    return pieces(trace, Rational(instants.front()), Rational(instants.back()));
}

bool is_line(const Piece& piece) { return piece.cls == Class::logged || piece.cls == Class::checked; }

std::vector<Whole> line_excursions(const std::vector<Piece>& all, const Range& range, ExcursionSide side) {
    std::vector<Whole> found;
    for (const Piece& piece : all) {
        if (!is_line(piece)) continue;
        const auto limit = limit_of(range, side, piece.line.scale);
        if (!limit) continue;
        std::vector<Rational> cuts = {piece.from, piece.until};
        if (const auto t = crossing(piece.line, piece.from, piece.until, *limit)) cuts.insert(cuts.begin() + 1, *t);
        for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
            const Rational middle = (cuts[i] + cuts[i + 1]) / Rational(2);
            if (!is_out(side, value_at(piece.line, middle), *limit)) continue;
            const Stretch stretch{cuts[i], cuts[i + 1], piece.line, *limit};
            if (!found.empty() && found.back().until() == stretch.from) {
                found.back().stretches.push_back(stretch);
            } else {
                Whole whole;
                whole.side = side;
                whole.kind = ExcursionKind::line;
                whole.stretches = {stretch};
                found.push_back(whole);
            }
        }
    }
    for (Whole& whole : found) {
        const Stretch& last = whole.stretches.back();
        bool followed = false;
        for (const Piece& piece : all)
            if (is_line(piece) && piece.from == last.until) followed = true;
        whole.open = !followed && is_out(side, value_at(last.line, last.until), last.limit);
    }
    return found;
}

std::vector<Whole> bounded_excursions(const std::vector<Piece>& all, const Range& range, ExcursionSide side) {
    std::vector<Whole> found;
    for (const Piece& piece : all) {
        if (piece.cls != Class::bounded) continue;
        const auto limit = limit_of(range, side, piece.later.scale);
        if (!limit) continue;
        const Rational extreme = side == ExcursionSide::warm ? *piece.later.max : *piece.later.min;
        if (!is_out(side, extreme, *limit)) continue;
        const Stretch stretch{piece.from, piece.until, Line{}, *limit};
        // The later check of a pair is of no other pair, so its instant tells the pairs apart.
        if (!found.empty() && found.back().later.at == piece.later.at) {
            found.back().stretches.push_back(stretch);
        } else {
            Whole whole;
            whole.side = side;
            whole.kind = ExcursionKind::bounded;
            whole.stretches = {stretch};
            whole.later = piece.later;
            found.push_back(whole);
        }
    }
    return found;
}

/// What the window leaves; none where that is nothing.
std::optional<Excursion> cut_to_window(const Whole& whole, const Cut& cut) {
    Excursion left;
    left.side = whole.side;
    left.kind = whole.kind;
    std::optional<Rational> lowest, highest;
    for (const Stretch& s : whole.stretches) {
        const Rational from = std::max(s.from, cut.from);
        const Rational until = std::min(s.until, cut.until);
        if (from >= until) continue;
        const Rational length = until - from;
        Rational degrees;  // beyond the limit, on average, in the scale of the stretch
        Scale scale = Scale::C;
        if (whole.kind == ExcursionKind::line) {
            scale = s.line.scale;
            degrees = value_at(s.line, (from + until) / Rational(2)) - s.limit;
            widen(lowest, highest, celsius(value_at(s.line, from), scale));
            widen(lowest, highest, celsius(value_at(s.line, until), scale));
        } else {
            scale = whole.later.scale;
            const Rational extreme = whole.side == ExcursionSide::warm ? *whole.later.max : *whole.later.min;
            degrees = extreme - s.limit;
            widen(lowest, highest, celsius(extreme, scale));
        }
        if (whole.side == ExcursionSide::cold) degrees = -degrees;
        left.duration += length;
        left.degree_seconds += celsius_degrees(degrees * length, scale);
        left.stretches.push_back({from, until});
    }
    if (left.stretches.empty()) return std::nullopt;
    left.from = left.stretches.front().first;
    left.until = left.stretches.back().second;
    left.peak = whole.side == ExcursionSide::warm ? *highest : *lowest;
    left.open = whole.open && left.until == whole.until();
    return left;
}

void add_points(std::vector<Excursion>& out, const std::vector<Whole>& wholes, const Sample& sample, bool of_check,
                const Range& range, ExcursionSide side, const Cut& cut) {
    if (!belongs(cut, sample.at)) return;
    const auto limit = limit_of(range, side, sample.scale);
    if (!limit || !is_out(side, sample.temperature, *limit)) return;
    const Rational t(sample.at);
    for (const Whole& whole : wholes)
        if (whole.side == side && whole.from() <= t && t <= whole.until()) return;
    Excursion point;
    point.side = side;
    point.kind = ExcursionKind::point;
    point.from = t;
    point.until = t;
    point.peak = celsius(sample.temperature, sample.scale);
    point.of_check = of_check;
    out.push_back(point);
}

}  // namespace

std::vector<Excursion> excursions(const Trace& trace, const Range& range, const Window& window) {
    const Cut cut = cut_to_A(trace, window);
    if (cut.empty) return {};

    const std::vector<Piece> all = whole_trace(trace);
    std::vector<Whole> wholes;
    for (const ExcursionSide side : {ExcursionSide::cold, ExcursionSide::warm}) {
        for (const Whole& w : line_excursions(all, range, side)) wholes.push_back(w);
        for (const Whole& w : bounded_excursions(all, range, side)) wholes.push_back(w);
    }

    std::vector<Excursion> out;
    for (const Whole& whole : wholes)
        if (const auto left = cut_to_window(whole, cut)) out.push_back(*left);
    for (const ExcursionSide side : {ExcursionSide::cold, ExcursionSide::warm}) {
        for (const ReadingSample& r : trace.readings) add_points(out, wholes, r, false, range, side, cut);
        for (const CheckSample& c : trace.checks) add_points(out, wholes, c, true, range, side, cut);
    }
    // The enumerators of side and kind stand in the order of their names.
    std::stable_sort(out.begin(), out.end(), [](const Excursion& a, const Excursion& b) {
        if (a.from != b.from) return a.from < b.from;
        return std::tuple(a.side, a.kind, a.of_check) < std::tuple(b.side, b.kind, b.of_check);
    });
    return out;
}

Conditions conditions(const Trace& trace, const Range& range, const Window& window) {
    Conditions answer;
    const Cut cut = cut_to_A(trace, window);
    if (cut.empty) return answer;

    // A product without limits is exposed to nothing; what is left is what is known of the place.
    const Exposure known = exposure(trace, Product{}, cut.from, cut.until, cut.with_until);
    answer.coverage = known.coverage;
    answer.lowest = known.lowest;
    answer.highest = known.highest;

    Rational seconds = 0;
    Rational degree_seconds = 0;
    for (const Piece& piece : pieces(trace, cut.from, cut.until)) {
        if (!is_line(piece)) continue;
        const Rational length = piece.until - piece.from;
        const Rational middle = (piece.from + piece.until) / Rational(2);
        seconds += length;
        degree_seconds += celsius(value_at(piece.line, middle), piece.line.scale) * length;
    }
    if (seconds > Rational(0)) answer.mean = degree_seconds / seconds;
    answer.excursions = excursions(trace, range, window).size();
    return answer;
}

}  // namespace second
