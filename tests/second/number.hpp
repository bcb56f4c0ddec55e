// Second implementation, for tests only: exact numbers, scales and limits.
//
// Everything in this directory is written to be compared with the library on random input. It shares no code
// with it, keeps no sums, skips nothing and remembers nothing: where the library is quick, this is plain.
#pragma once

#include <boost/multiprecision/cpp_int.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace second {

/// cpp_rational without expression templates, so that `auto` and ?: mean what they say.
using Rational = boost::multiprecision::number<boost::multiprecision::cpp_rational_backend,
                                               boost::multiprecision::et_off>;
/// Whole seconds since 1970-01-01T00:00:00Z.
using Instant = std::int64_t;

enum class Scale { C, F };

/// At least one of the two is there.
struct Limit {
    std::optional<Rational> C, F;
};

/// Closed; a side that is not there does not bound.
struct Range {
    std::optional<Limit> low, high;
};

/// "-4.25" -> -17/4. std::invalid_argument for anything but digits with at most one point.
Rational decimal(std::string_view text);
/// "n" or "n/d", lowest terms.
std::string text(const Rational& x);

/// A temperature of the scale, in °C.
Rational celsius(const Rational& temperature, Scale scale);
/// A difference of temperatures (or degrees times seconds) of the scale, in Celsius degrees.
Rational celsius_degrees(const Rational& difference, Scale scale);
/// The limit as it stands in the scale; converted only where it is not stated in it.
Rational limit_in(const Limit& limit, Scale scale);
/// To 0.001, halves away from zero.
Rational round_to_thousandth(const Rational& x);

}  // namespace second
