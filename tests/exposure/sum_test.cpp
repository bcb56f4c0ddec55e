// Sums of many fractions, against Boost's rational numbers of any size.
#include <catch2/catch.hpp>

#include <boost/multiprecision/cpp_int.hpp>

#include "exposure/sum.hpp"

using namespace coldtally;
using exposure::Sum;

TEST_CASE("fractions of any size add up exactly, one by one and sum by sum", "[exposure]") {
    using Exact = boost::multiprecision::cpp_rational;
    std::uint64_t state = 11;  // numbers of our own, the same everywhere (the generator of POSIX's rand48 family)
    const auto bits = [&](int n) {
        Wide out = 0;
        for (int have = 0; have < n; have += 24) {
            state = (state * 0x5DEECE66D + 11) & 0xFFFFFFFFFFFF;
            out = (out << std::min(24, n - have)) |
                  static_cast<Wide>((state >> 20) & ((1u << std::min(24, n - have)) - 1));
        }
        return out;
    };
    const auto check = [](const Sum& sum, const Exact& exact) {
        const Rational total = sum.total();
        CHECK(RationalAccess::numerator(total) == numerator(exact));
        CHECK(RationalAccess::denominator(total) == denominator(exact));
        CHECK(sum.total(45000) == total / Rational(45000));
    };
    for (const int numerator_bits : {3, 20, 62, 90, 126})
        for (const int denominator_bits : {0, 2, 9, 17, 40, 62, 80})
            for (const int count : {1, 3, 4, 5, 60}) {
                Sum whole, half;
                Exact exact = 0, exact_half = 0;
                for (int i = 0; i < count; ++i) {
                    const Wide n = bits(1) ? bits(numerator_bits) : -bits(numerator_bits),
                               d = 1 + bits(denominator_bits);
                    Sum& to = i % 2 ? half : whole;
                    to.add(n, d);
                    if (i % 5 == 0) to.add(n, d);  // the same denominator again
                    const Exact once{BigInt(n), BigInt(d)}, fraction = i % 5 == 0 ? Exact(once + once) : once;
                    exact += fraction;
                    if (i % 2) exact_half += fraction;
                }
                check(half, exact_half);
                whole.add(half);
                check(whole, exact);
                whole.add(half);
                check(whole, exact + exact_half);
            }
}
