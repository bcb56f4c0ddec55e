#include "number.hpp"

#include <stdexcept>

namespace second {

Rational decimal(std::string_view text) {
    const std::string all(text);
    bool negative = false;
    bool after_point = false;
    bool any_digit = false;
    Rational value = 0;
    Rational place = 1;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const char c = all[i];
        if (c == '-' && i == 0) {
            negative = true;
        } else if (c == '.' && any_digit && !after_point) {
            after_point = true;
        } else if (c >= '0' && c <= '9') {
            any_digit = true;
            if (after_point) {
                place = place / Rational(10);
                value = value + Rational(c - '0') * place;
            } else {
                value = value * Rational(10) + Rational(c - '0');
            }
        } else {
            throw std::invalid_argument("not a decimal: " + all);
        }
    }
    if (!any_digit) throw std::invalid_argument("not a decimal: " + all);
    return negative ? Rational(-value) : value;
}

std::string text(const Rational& x) {
    const auto n = boost::multiprecision::numerator(x);
    const auto d = boost::multiprecision::denominator(x);
    if (d == 1) return n.str();
    return n.str() + "/" + d.str();
}

Rational celsius(const Rational& temperature, Scale scale) {
    if (scale == Scale::C) return temperature;
    return (temperature - Rational(32)) * Rational(5) / Rational(9);
}

Rational celsius_degrees(const Rational& difference, Scale scale) {
    if (scale == Scale::C) return difference;
    return difference * Rational(5) / Rational(9);
}

Rational limit_in(const Limit& limit, Scale scale) {
    if (!limit.C && !limit.F) throw std::invalid_argument("a limit without a number");
    if (scale == Scale::C) {
        if (limit.C) return *limit.C;
        return (*limit.F - Rational(32)) * Rational(5) / Rational(9);
    }
    if (limit.F) return *limit.F;
    return *limit.C * Rational(9) / Rational(5) + Rational(32);
}

Rational round_to_thousandth(const Rational& x) {
    if (x < Rational(0)) return -round_to_thousandth(-x);
    const Rational shifted = x * Rational(1000) + Rational(1) / Rational(2);
    // Division of positive whole numbers drops the remainder, so a half has gone up, away from zero.
    const boost::multiprecision::cpp_int whole(boost::multiprecision::numerator(shifted) /
                                               boost::multiprecision::denominator(shifted));
    return Rational(whole) / Rational(1000);
}

}  // namespace second
