#include "conditions/kinetic.hpp"

#include <boost/multiprecision/cpp_dec_float.hpp>
#include <optional>

#include "quantities/rational_big.hpp"

namespace coldtally::answers {

namespace {

/// Millionths of a degree as text.
std::string decimal6(BigInt millionths) {
    const bool negative = millionths < 0;
    if (negative) millionths = -millionths;
    std::string digits = millionths.str();
    if (digits.size() < 7) digits.insert(0, 7 - digits.size(), '0');
    digits.insert(digits.size() - 6, ".");
    return (negative ? "-" : "") + digits;
}

/// The value in millionths, with `digits` decimal digits of working precision; none where they do not settle the
/// rounding.
template <unsigned digits>
std::optional<BigInt> millionths(const std::map<Rational, Rational>& weights, std::int64_t a) {
    using Float =
        boost::multiprecision::number<boost::multiprecision::cpp_dec_float<digits>, boost::multiprecision::et_off>;
    const auto to_float = [](const Rational& r) {
        return Float(RationalAccess::numerator(r)) / Float(RationalAccess::denominator(r));
    };
    const Rational zero_K(27315, 100);
    const Float energy(a);

    // relative to the hottest, so that no power is too small to be held: those that vanish beside it do not count
    Rational hottest_K;
    Rational total;
    for (const auto& [celsius, weight] : weights) {
        hottest_K = celsius + zero_K;  // ascending: the last is the hottest
        total += weight;
    }
    if (hottest_K.sign() <= 0) return BigInt(-273150000);
    const Float hottest = to_float(hottest_K);
    Float sum = 0;
    for (const auto& [celsius, weight] : weights) {
        const Rational kelvin = celsius + zero_K;
        if (kelvin.sign() <= 0) continue;
        const Float power = energy / hottest - energy / to_float(kelvin);  // <= 0
        if (power < -4 * static_cast<int>(digits)) continue;
        sum += to_float(weight) * exp(power);
    }
    const Float minus_log = energy / hottest - log(sum / to_float(total));
    const Float value = (energy / minus_log - to_float(zero_K)) * 1000000;
    const Float half(0.5);
    const Float low = value - half, nearest = ceil(low);  // ties cannot be told from near-ties: refuse both
    const Float margin = abs(abs(value - nearest) - half);
    const Float resolution = pow(Float(10), Float(16 - static_cast<int>(digits)));
    if (margin < resolution) return std::nullopt;
    return static_cast<BigInt>(nearest);
}

/// Nearest whole number of millionths, halves to even.
BigInt rounded(const Rational& celsius) {
    const Rational n = celsius * Rational(1000000);
    const BigInt twice = RationalAccess::numerator(n) * 2 + RationalAccess::denominator(n);  // of n + 1/2
    const BigInt d = RationalAccess::denominator(n) * 2;
    BigInt q, r;
    boost::multiprecision::divide_qr(twice, d, q, r);
    if (r < 0) q -= 1, r += d;
    if (r == 0 && q % 2 != 0) q -= 1;
    return q;
}

}  // namespace

std::string mean_kinetic_C(const std::map<Rational, Rational>& weights, std::int64_t activation_K) {
    const Rational& hottest = weights.rbegin()->first;
    if (weights.size() == 1 && hottest + Rational(27315, 100) > Rational(0)) return decimal6(rounded(hottest));
    if (const auto n = millionths<50>(weights, activation_K)) return decimal6(*n);
    if (const auto n = millionths<150>(weights, activation_K)) return decimal6(*n);
    // different temperatures never mean a half exactly; this many digits tell the two sides apart
    return decimal6(millionths<1000>(weights, activation_K).value());
}

}  // namespace coldtally::answers
