// Limits: a product's (or a place's) bounds in the numbers that a part of a trace is judged in.
#pragma once

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "coldtally/entries.hpp"

namespace coldtally::exposure {

/// 1/45000 degree of a scale: the smallest unit in which every temperature of three digits, and every limit converted
/// from the other scale, is a whole number (C to F multiplies by 9/5, F to C by 5/9).
using Ticks = std::int64_t;
inline constexpr Ticks ticks_per_thousandth = 45;
inline constexpr std::int64_t ticks_per_degree = 45000;

/// A temperature of a scale in ticks of it.
constexpr Ticks ticks(std::int32_t thousandths) { return Ticks{thousandths} * ticks_per_thousandth; }
/// A temperature of F in ticks of C: (F - 32) * 5/9.
constexpr Ticks celsius_ticks(std::int32_t thousandths_F) { return (Ticks{thousandths_F} - 32000) * 25; }
/// The same for a difference.
constexpr Ticks celsius_difference(std::int32_t thousandths_F) { return Ticks{thousandths_F} * 25; }
Ticks ticks(const Limit& limit, Scale scale);

/// The bounds in one scale.
struct Limits {
    std::optional<Ticks> low, high, freeze;
    std::vector<std::pair<Ticks, Ticks>> bands;  ///< of the allowances, in their order

    Limits() = default;
    Limits(const Range& range, const std::optional<Limit>& freeze_limit, const std::vector<Allowance>* allowances,
           Scale scale);

    bool is_warm(Ticks t) const { return high && t > *high; }
    bool is_cold(Ticks t) const { return low && t < *low; }
    /// Index of the first allowance whose band holds t; their number where there is none.
    std::size_t allowance(Ticks t) const;
    /// Is a reading or check of t a point?
    bool is_point(Ticks t) const {
        return (freeze && t <= *freeze) || ((is_warm(t) || is_cold(t)) && allowance(t) == bands.size());
    }
    /// In range and not frozen for every temperature from `lowest` to `highest`, even with the tolerance against it.
    bool well_inside(Ticks lowest, Ticks highest, Ticks tolerance) const {
        return (!high || highest <= *high - tolerance) && (!low || lowest >= *low + tolerance) &&
               (!freeze || lowest > *freeze + tolerance);
    }
};

/// The bounds in both scales.
struct LimitsOf {
    Limits C, F;
    std::size_t allowances = 0;
    explicit LimitsOf(const Product& product);
    /// A place's range alone.
    explicit LimitsOf(const Range& range);
    const Limits& in(Scale scale) const { return scale == Scale::C ? C : F; }
};

}  // namespace coldtally::exposure
