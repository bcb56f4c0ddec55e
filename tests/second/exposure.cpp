#include "exposure.hpp"

#include <algorithm>
#include <stdexcept>

namespace second {

namespace {

/// The product's limits in one scale.
struct Limits {
    std::optional<Rational> low, high, freeze;
    std::vector<std::pair<Rational, Rational>> bands;
};

Limits limits_in(const Product& product, Scale scale) {
    Limits limits;
    if (product.range.low) limits.low = limit_in(*product.range.low, scale);
    if (product.range.high) limits.high = limit_in(*product.range.high, scale);
    if (product.freeze_limit) limits.freeze = limit_in(*product.freeze_limit, scale);
    for (const Allowance& a : product.allowances)
        limits.bands.push_back({limit_in(a.low, scale), limit_in(a.high, scale)});
    return limits;
}

bool too_warm(const Limits& limits, const Rational& t) { return limits.high && t > *limits.high; }
bool too_cold(const Limits& limits, const Rational& t) { return limits.low && t < *limits.low; }

/// The first allowance whose band holds the temperature.
std::optional<std::size_t> allowance_for(const Limits& limits, const Rational& t) {
    for (std::size_t i = 0; i < limits.bands.size(); ++i)
        if (limits.bands[i].first <= t && t <= limits.bands[i].second) return i;
    return std::nullopt;
}

void add_line(Exposure& sum, const Piece& piece, const Product& product) {
    const Line& line = piece.line;
    const Limits limits = limits_in(product, line.scale);
    const Rational length = piece.until - piece.from;

    // At least and at most: by the two samples, wherever the piece is cut.
    if (limits.high) {
        const Rational& hi = *limits.high;
        if (line.v0 > hi + line.tolerance0 && line.v1 > hi + line.tolerance1) sum.warm.at_least += length;
        if (line.v0 > hi - line.tolerance0 || line.v1 > hi - line.tolerance1) sum.warm.at_most += length;
    }
    if (limits.low) {
        const Rational& lo = *limits.low;
        if (line.v0 < lo - line.tolerance0 && line.v1 < lo - line.tolerance1) sum.cold.at_least += length;
        if (line.v0 < lo + line.tolerance0 || line.v1 < lo + line.tolerance1) sum.cold.at_most += length;
    }
    if (limits.freeze) {
        const Rational& f = *limits.freeze;
        if (line.v0 <= f - line.tolerance0 && line.v1 <= f - line.tolerance1) sum.frozen.at_least += length;
        if (line.v0 <= f + line.tolerance0 || line.v1 <= f + line.tolerance1) sum.frozen.at_most += length;
    }

    // Cut wherever the line meets any limit; in between nothing changes, so the middle tells for all of it,
    // and the mean height of a straight line is the one in its middle.
    std::vector<Rational> levels;
    if (limits.high) levels.push_back(*limits.high);
    if (limits.low) levels.push_back(*limits.low);
    if (limits.freeze) levels.push_back(*limits.freeze);
    for (const auto& [low, high] : limits.bands) {
        levels.push_back(low);
        levels.push_back(high);
    }
    std::vector<Rational> cuts = {piece.from, piece.until};
    for (const Rational& level : levels)
        if (const auto t = crossing(line, piece.from, piece.until, level)) cuts.push_back(*t);
    std::sort(cuts.begin(), cuts.end());

    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
        const Rational part = cuts[i + 1] - cuts[i];
        if (part == Rational(0)) continue;
        const Rational middle = value_at(line, (cuts[i] + cuts[i + 1]) / Rational(2));
        const bool warm = too_warm(limits, middle);
        const bool cold = too_cold(limits, middle);
        if (warm) {
            sum.warm.estimate += part;
            sum.warm.degree_seconds += celsius_degrees((middle - *limits.high) * part, line.scale);
        }
        if (cold) {
            sum.cold.estimate += part;
            sum.cold.degree_seconds += celsius_degrees((*limits.low - middle) * part, line.scale);
        }
        if (limits.freeze && middle <= *limits.freeze) {
            sum.frozen.estimate += part;
            sum.frozen.degree_seconds += celsius_degrees((*limits.freeze - middle) * part, line.scale);
        }
        if (warm || cold) {
            if (const auto i_allowance = allowance_for(limits, middle)) {
                sum.allowances[*i_allowance] += part;
            } else {
                if (warm) sum.beyond_warm += part;
                if (cold) sum.beyond_cold += part;
            }
        }
    }

    widen(sum.lowest, sum.highest, celsius(value_at(line, piece.from), line.scale));
    widen(sum.lowest, sum.highest, celsius(value_at(line, piece.until), line.scale));
}

void add_bounded(Exposure& sum, const Piece& piece, const Product& product) {
    const Scale scale = piece.later.scale;
    const Limits limits = limits_in(product, scale);
    const Rational length = piece.until - piece.from;
    const Rational m = *piece.later.min;
    const Rational M = *piece.later.max;
    const Rational U = piece.later.tolerance;

    if (limits.high) {
        const Rational& hi = *limits.high;
        if (M > hi) sum.warm.estimate += length;
        if (m > hi + U) sum.warm.at_least += length;
        if (M > hi - U) sum.warm.at_most += length;
        if (M > hi) sum.warm.degree_seconds += celsius_degrees((M - hi) * length, scale);
        if (M > hi) {
            if (const auto i = allowance_for(limits, M)) sum.allowances[*i] += length;
            else sum.beyond_warm += length;
        }
    }
    if (limits.low) {
        const Rational& lo = *limits.low;
        if (m < lo) sum.cold.estimate += length;
        if (M < lo - U) sum.cold.at_least += length;
        if (m < lo + U) sum.cold.at_most += length;
        if (m < lo) sum.cold.degree_seconds += celsius_degrees((lo - m) * length, scale);
        if (m < lo) {
            if (const auto i = allowance_for(limits, m)) sum.allowances[*i] += length;
            else sum.beyond_cold += length;
        }
    }
    if (limits.freeze) {
        const Rational& f = *limits.freeze;
        if (m <= f) sum.frozen.estimate += length;
        if (M <= f - U) sum.frozen.at_least += length;
        if (m <= f + U) sum.frozen.at_most += length;
        if (m < f) sum.frozen.degree_seconds += celsius_degrees((f - m) * length, scale);
    }
    widen(sum.lowest, sum.highest, celsius(m, scale));
    widen(sum.lowest, sum.highest, celsius(M, scale));
}

void add_sample(Exposure& sum, const Sample& sample, const Product& product) {
    const Limits limits = limits_in(product, sample.scale);
    const Rational& t = sample.temperature;
    const bool outside = too_warm(limits, t) || too_cold(limits, t);
    const bool in_a_band = allowance_for(limits, t).has_value();
    const bool freezing = limits.freeze && t <= *limits.freeze;
    if ((outside && !in_a_band) || freezing) sum.points += 1;
    widen(sum.lowest, sum.highest, celsius(t, sample.scale));
}

}  // namespace

void widen(std::optional<Rational>& lowest, std::optional<Rational>& highest, const Rational& celsius) {
    if (!lowest || celsius < *lowest) lowest = celsius;
    if (!highest || celsius > *highest) highest = celsius;
}

Exposure exposure(const Trace& trace, const Product& product, const Rational& a, const Rational& b, bool with_b) {
    if (a > b) throw std::invalid_argument("a stretch that ends before it begins");
    if (b > Rational(trace.A)) throw std::invalid_argument("a stretch that ends after the instant asked about");

    Exposure sum;
    sum.allowances.resize(product.allowances.size());
    for (const Piece& piece : pieces(trace, a, b)) {
        const Rational length = piece.until - piece.from;
        switch (piece.cls) {
        case Class::logged:
            sum.coverage.logged += length;
            add_line(sum, piece, product);
            break;
        case Class::bounded:
            sum.coverage.bounded += length;
            add_bounded(sum, piece, product);
            break;
        case Class::checked:
            sum.coverage.checked += length;
            add_line(sum, piece, product);
            break;
        case Class::near: sum.coverage.near += length; break;
        case Class::awaiting: sum.coverage.awaiting += length; break;
        case Class::unmonitored: sum.coverage.unmonitored += length; break;
        }
    }
    const auto inside = [&](Instant at) {
        const Rational t(at);
        return t >= a && (t < b || (with_b && t == b));
    };
    for (const ReadingSample& r : trace.readings)
        if (inside(r.at)) add_sample(sum, r, product);
    for (const CheckSample& c : trace.checks)
        if (inside(c.at)) add_sample(sum, c, product);
    return sum;
}

}  // namespace second
