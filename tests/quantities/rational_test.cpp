// Exact numbers: in place, beyond 64 bits, and back.
#include <catch2/catch.hpp>

#include <boost/multiprecision/cpp_int.hpp>
#include <limits>

#include "coldtally/error.hpp"
#include "coldtally/quantities.hpp"
#include "exposure/sum.hpp"

using namespace coldtally;
using Reference = boost::multiprecision::cpp_rational;

namespace {

Reference reference(const Rational& r) {
    const std::string s = r.text();
    const auto slash = s.find('/');
    return slash == std::string::npos ? Reference(s) : Reference(s.substr(0, slash)) / Reference(s.substr(slash + 1));
}

constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max(),
                       least = std::numeric_limits<std::int64_t>::min();
const std::vector<Rational> numbers{Rational(0),
                                    Rational(1),
                                    Rational(-1),
                                    Rational(1, 3),
                                    Rational(-16200, 7),
                                    Rational(most),
                                    Rational(least),
                                    Rational(most, most - 1),
                                    Rational(least, most),
                                    Rational(1, most),
                                    Rational(most) * Rational(most),
                                    Rational(1) / (Rational(least) * Rational(3)),
                                    Rational::parse("123456789012345678901234567891/1000000007")};

}  // namespace

TEST_CASE("rational numbers agree with cpp_rational of Boost.Multiprecision, in place and beyond 64 bits") {
    for (const auto& a : numbers)
        for (const auto& b : numbers) {
            INFO(a.text() << " and " << b.text());
            CHECK(reference(a + b) == reference(a) + reference(b));
            CHECK(reference(a - b) == reference(a) - reference(b));
            CHECK(reference(a * b) == reference(a) * reference(b));
            if (b.sign() != 0) CHECK(reference(a / b) == reference(a) / reference(b));
            CHECK((a < b) == (reference(a) < reference(b)));
            CHECK((a == b) == (reference(a) == reference(b)));
            CHECK(a + b - b == a);
        }
}

TEST_CASE("rational numbers are written in lowest terms and read back alone so") {
    CHECK(Rational(6, -4).text() == "-3/2");
    CHECK(Rational(8, 4).text() == "2");
    for (const auto& a : numbers) CHECK(Rational::parse(a.text()) == a);
    for (const char* text : {"", "-", "1/", "/2", "2/4", "3/1", "1/0", "1/-2", "+1", "01", "-0", "1.5", " 1", "1e3"}) {
        INFO(text);
        CHECK_THROWS_AS(Rational::parse(text), Error);
    }
    CHECK_THROWS_AS(Rational(1) / Rational(0), std::domain_error);
    CHECK_THROWS_AS(Rational(1, 0), std::domain_error);
}

TEST_CASE("the whole numbers beside a rational") {
    CHECK(Rational(7, 2).floor() == 3);
    CHECK(Rational(7, 2).ceil() == 4);
    CHECK(Rational(-7, 2).floor() == -4);
    CHECK(Rational(-7, 2).ceil() == -3);
    CHECK(Rational(-4).floor() == -4);
    CHECK(Rational(-4).ceil() == -4);
    CHECK(Rational::parse("-100000000000000000001/100000000000000000000").floor() == -2);
    CHECK_THROWS_AS((Rational(most) * Rational(2)).floor(), std::overflow_error);
}

TEST_CASE("a sum of fractions is exact, of many denominators and beyond 128 bits") {
    exposure::Sum sum;
    Reference wanted = 0;
    for (std::int64_t d = 1; d <= 300; ++d) {
        sum.add(Wide(1000 + d), Wide(d));
        wanted += Reference(1000 + d, d);
    }
    CHECK(reference(sum.total()) == wanted);
    const Wide huge = Wide(most) * most;  // 126 bits
    for (int i = 0; i < 9; ++i) {
        sum.add(huge, Wide(1));
        sum.add(huge, Wide(7));
        sum.add(Wide(1), huge);
        wanted += Reference(most) * most + Reference(most) * most / 7 + 1 / (Reference(most) * most);
    }
    CHECK(reference(sum.total()) == wanted);
    exposure::Sum twice;
    twice.add(sum);
    twice.add(sum);
    CHECK(reference(twice.total()) == 2 * wanted);
    CHECK(exposure::Sum().is_zero());
}
