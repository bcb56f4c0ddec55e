#include "exposure/part.hpp"

#include <algorithm>

namespace coldtally::exposure {

namespace {

Sum& degrees(SideSums& side, Scale scale) { return scale == Scale::C ? side.degrees_C : side.degrees_F; }

/// Time above c, and the integral of what is above it, on a line; false where nothing is. For what is below: the line
/// and c mirrored.
template <class N>
bool add_above(Sum& time, Sum& degree, const Line<N>& l, const N& c) {
    const N low = std::min(l.v0, l.v1), high = std::max(l.v0, l.v1);
    if (high <= c) return false;
    if (low >= c) {
        time.add(l.seconds, l.divisor);
        degree.add(N(l.seconds * (l.v0 + l.v1 - 2 * c)), N(2 * l.unit * l.divisor));
        return true;
    }
    const N above = high - c;
    const N rise = high - low;
    time.add(N(l.seconds * above), N(rise * l.divisor));
    degree.add(N(l.seconds * above * above), N(2 * rise * l.unit * l.divisor));
    return true;
}

template <class N>
Line<N> mirrored(const Line<N>& l) {
    return {N(-l.v0), N(-l.v1), l.unit, l.seconds, l.divisor};
}

/// Out-of-range time by the band it is spent in: the line is cut at every limit, so that a piece lies on one side of
/// each.
template <class N>
void add_bands(OutOfRange& sums, const Limits& limits, const Line<N>& l) {
    const N low = std::min(l.v0, l.v1), high = std::max(l.v0, l.v1);
    const auto at = [&](Ticks t) { return N(l.unit * t); };

    /// Books the share of the time that is spent from temperature a to b; no limit lies between the two.
    const auto book = [&](const N& a, const N& b, const N& share, const N& divisor) {
        // its middle says on which side of a limit it lies; that of a level line may be a limit itself, which is in
        // range
        const bool warm = limits.high && a + b > 2 * at(*limits.high);
        const bool cold = limits.low && a + b < 2 * at(*limits.low);
        if (!warm && !cold) return;
        const auto band =
            std::ranges::find_if(limits.bands, [&](const auto& t) { return at(t.first) <= a && b <= at(t.second); });
        sums.booked(warm, static_cast<std::size_t>(band - limits.bands.begin())).add(share, divisor);
    };

    if (low == high) {
        book(low, high, l.seconds, l.divisor);
        return;
    }
    std::vector<N> cuts;
    cuts.reserve(4 + 2 * limits.bands.size());
    cuts.push_back(low);
    cuts.push_back(high);
    const auto cut = [&](Ticks t) { cuts.push_back(std::clamp(at(t), low, high)); };
    if (limits.low) cut(*limits.low);
    if (limits.high) cut(*limits.high);
    for (const auto& [from, until] : limits.bands) cut(from), cut(until);
    std::sort(cuts.begin(), cuts.end());
    cuts.erase(std::unique(cuts.begin(), cuts.end()), cuts.end());
    const N rise = high - low;
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i)
        book(cuts[i], cuts[i + 1], N(l.seconds * (cuts[i + 1] - cuts[i])), N(rise * l.divisor));
}

template <class Seconds>
void add_bounded_part(OutOfRange& sums, const Limits& limits, Scale scale, Ticks m, Ticks M, Ticks U, const Seconds& n,
                      const Seconds& d) {
    const auto all_if = [&](bool condition, Sum& sum) {
        if (condition) sum.add(n, d);
    };
    const auto degrees_if = [&](Ticks distance, SideSums& side) {
        degrees(side, scale).add(Seconds(n * std::max(distance, Ticks{0})), d);
    };
    if (limits.high) {
        const Ticks hi = *limits.high;
        all_if(M > hi, sums.warm.estimate);
        all_if(m > hi + U, sums.warm.at_least);
        all_if(M > hi - U, sums.warm.at_most);
        degrees_if(M - hi, sums.warm);
        if (M > hi) sums.booked(true, limits.allowance(M)).add(n, d);
    }
    if (limits.low) {
        const Ticks lo = *limits.low;
        all_if(m < lo, sums.cold.estimate);
        all_if(M < lo - U, sums.cold.at_least);
        all_if(m < lo + U, sums.cold.at_most);
        degrees_if(lo - m, sums.cold);
        if (m < lo) sums.booked(false, limits.allowance(m)).add(n, d);
    }
    if (limits.freeze) {
        const Ticks f = *limits.freeze;
        all_if(m <= f, sums.frozen.estimate);
        all_if(M <= f - U, sums.frozen.at_least);
        all_if(m <= f + U, sums.frozen.at_most);
        degrees_if(f - m, sums.frozen);
    }
}

}  // namespace

template <class N>
void add_line(OutOfRange& sums, const Limits& limits, Scale scale, const End& p, const End& q, const Line<N>& l) {
    bool is_out = false;
    if (limits.high) {
        const Ticks hi = *limits.high;
        is_out |= add_above(sums.warm.estimate, degrees(sums.warm, scale), l, N(l.unit * hi));
        if (p.value > hi + p.tolerance && q.value > hi + q.tolerance) sums.warm.at_least.add(l.seconds, l.divisor);
        if (p.value > hi - p.tolerance || q.value > hi - q.tolerance) sums.warm.at_most.add(l.seconds, l.divisor);
    }
    if (limits.low) {
        const Ticks lo = *limits.low;
        is_out |= add_above(sums.cold.estimate, degrees(sums.cold, scale), mirrored(l), N(-l.unit * lo));
        if (p.value < lo - p.tolerance && q.value < lo - q.tolerance) sums.cold.at_least.add(l.seconds, l.divisor);
        if (p.value < lo + p.tolerance || q.value < lo + q.tolerance) sums.cold.at_most.add(l.seconds, l.divisor);
    }
    if (limits.freeze) {
        const Ticks f = *limits.freeze;
        const N level = N(l.unit * f);
        // the limit itself is frozen; only on a line that is level there does that make a time
        if (l.v0 == level && l.v1 == level)
            sums.frozen.estimate.add(l.seconds, l.divisor);
        else
            add_above(sums.frozen.estimate, degrees(sums.frozen, scale), mirrored(l), N(-level));
        if (p.value <= f - p.tolerance && q.value <= f - q.tolerance) sums.frozen.at_least.add(l.seconds, l.divisor);
        if (p.value <= f + p.tolerance || q.value <= f + q.tolerance) sums.frozen.at_most.add(l.seconds, l.divisor);
    }
    if (is_out) add_bands(sums, limits, l);
}

template void add_line<Wide>(OutOfRange&, const Limits&, Scale, const End&, const End&, const Line<Wide>&);
template void add_line<BigInt>(OutOfRange&, const Limits&, Scale, const End&, const End&, const Line<BigInt>&);

void add_bounded(OutOfRange& sums, const Limits& limits, Scale scale, Ticks m, Ticks M, Ticks U, std::int64_t seconds) {
    add_bounded_part<Wide>(sums, limits, scale, m, M, U, seconds, 1);
}

void add_bounded(OutOfRange& sums, const Limits& limits, Scale scale, Ticks m, Ticks M, Ticks U,
                 const Rational& seconds) {
    add_bounded_part<BigInt>(sums, limits, scale, m, M, U, RationalAccess::numerator(seconds),
                             RationalAccess::denominator(seconds));
}

}  // namespace coldtally::exposure
