// Sums: the quantities of an Exposure while they are being added up.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

#include "coldtally/exposure.hpp"
#include "exposure/limits.hpp"
#include "exposure/sum.hpp"

namespace coldtally::exposure {

/// One side of the range, or the freeze limit. Times in seconds, degrees in tick-seconds.
struct SideSums {
    Sum at_least, estimate, at_most;
    Sum degrees_C, degrees_F;  ///< ticks of that scale
    void add(const SideSums& other);
    SideExposure total() const;
};

/// What lies out of range, or is frozen.
struct OutOfRange {
    explicit OutOfRange(std::size_t allowance_count) : allowances(allowance_count) {}

    SideSums warm, cold, frozen;
    std::vector<Sum> allowances;
    Sum beyond_warm, beyond_cold;
    std::int64_t points = 0;

    /// Both of the same product.
    void add(const OutOfRange& other);
    /// Where out-of-range time of a side is booked: allowance i, or beyond where there is none of that index.
    Sum& booked(bool is_warm, std::size_t allowance) {
        return allowance < allowances.size() ? allowances[allowance] : is_warm ? beyond_warm : beyond_cold;
    }
};

struct Sums : OutOfRange {
    explicit Sums(std::size_t allowance_count = 0) : OutOfRange(allowance_count) {}

    std::array<Sum, class_count> seconds;

    /// A temperature known: thousandths of a degree of a scale, or exact °C.
    void seen(std::int32_t thousandths, Scale scale) {
        Extremes& e = scale == Scale::C ? in_C_ : in_F_;
        e.lowest = std::min(e.lowest, thousandths);
        e.highest = std::max(e.highest, thousandths);
    }
    void seen(const Rational& celsius);
    Exposure total() const;

    Sum& of(Class c) { return seconds[static_cast<std::size_t>(c)]; }

private:
    struct Extremes {
        std::int32_t lowest = std::numeric_limits<std::int32_t>::max(),
                     highest = std::numeric_limits<std::int32_t>::min();
        bool any() const { return lowest <= highest; }
    };
    Extremes in_C_, in_F_;
    std::optional<Rational> lowest_C_, highest_C_;
};

}  // namespace coldtally::exposure
