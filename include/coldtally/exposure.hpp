// Exposure: what a stretch of a place's trace did to a product, and the history a holding's doses carry.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "coldtally/quantities.hpp"

namespace coldtally {

/// What is known of a place's temperature over a stretch of time; the order is that of precedence.
enum class Class { logged, bounded, checked, near, awaiting, unmonitored };
inline constexpr int class_count = 6;
std::string_view class_name(Class c) noexcept;

/// Time on one side of a limit, in seconds; at_least <= estimate <= at_most. degree_s in °C·s.
struct SideExposure {
    Rational at_least, estimate, at_most, degree_s;
    friend bool operator==(const SideExposure&, const SideExposure&) = default;
};

/// The exposure of one product over some time in one place. Additive over adjoining times.
struct Exposure {
    SideExposure warm, cold, frozen;
    std::vector<Rational> allowances;  ///< seconds in each of the product's allowances, in their order
    Rational beyond_warm, beyond_cold; ///< out-of-range seconds of that side in no allowance
    std::int64_t points = 0;  ///< readings and checks out of range and in no band, or at or below the freeze limit
    std::array<Rational, class_count> seconds;  ///< of each Class
    std::optional<Rational> lowest_C, highest_C;  ///< °C; none where nothing is known

    /// Adds what followed (or went before) this. The two are of one product.
    void add(const Exposure& other);
    friend bool operator==(const Exposure&, const Exposure&) = default;
};

/// What has accrued since guidance last cleared it, beside the totals of an Exposure.
struct OpenExposure {
    Rational warm, cold, frozen;  ///< of the estimates
    std::vector<Rational> allowances;
    Rational beyond_warm, beyond_cold, unmonitored;
    std::int64_t points = 0;
    friend bool operator==(const OpenExposure&, const OpenExposure&) = default;
};

/// What one dose of a holding has been through since receipt.
struct History {
    Exposure total;
    OpenExposure open;
    std::set<std::string> places;             ///< ids; those of another site as "site/place"
    std::set<std::int64_t> condemned_by;      ///< numbers of guidance entries
    std::set<std::int64_t> held_by;           ///< numbers of hold entries
    std::optional<Instant> use_by;            ///< the first instant at which the doses may no longer be used

    /// Time in the place goes into totals and open parts.
    void accrue(const Exposure& exposure);
    /// Doses that cannot be told apart any more: the worse of the two, quantity by quantity.
    void join(const History& other);
    void shorten(Instant use_by);
    friend bool operator==(const History&, const History&) = default;
};

}  // namespace coldtally
