// Kinetic: the mean kinetic temperature of a trace, correctly rounded.
#pragma once

#include <cstdint>
#include <map>
#include <string>

#include "coldtally/quantities.hpp"

namespace coldtally::answers {

/// -273.15 + a / (-ln(sum of w * e / sum of w)) °C, e = exp(-a / T), T in kelvin (°C + 273.15), e = 0 at or below 0 K;
/// -273.15 where the sum is 0. `weights`: seconds (or any multiple of them) by °C, at least one above 0.
/// Decimal with 6 places, correctly rounded (halves to even), without a sign where it is 0.
/// Source of the formula: USP 29 <1160>; a is the activation energy over the gas constant, in kelvin.
std::string mean_kinetic_C(const std::map<Rational, Rational>& weights, std::int64_t activation_K);

}  // namespace coldtally::answers
