#include <charconv>
#include <limits>
#include <stdexcept>

#include "coldtally/error.hpp"
#include "quantities/rational_big.hpp"
#include "text/json_text.hpp"
#include "text/limits.hpp"

namespace coldtally {

namespace {

Wide magnitude(Wide a) { return a < 0 ? -a : a; }

Wide gcd(Wide a, Wide b) {
    while (b != 0) {
        if (a <= std::numeric_limits<std::int64_t>::max() && b <= std::numeric_limits<std::int64_t>::max()) {
            auto x = static_cast<std::uint64_t>(a), y = static_cast<std::uint64_t>(b);
            while (y != 0) {
                const auto r = x % y;
                x = y;
                y = r;
            }
            return static_cast<Wide>(x);
        }
        const Wide r = a % b;
        a = b;
        b = r;
    }
    return a;
}

bool fits(Wide a) {
    return a >= std::numeric_limits<std::int64_t>::min() && a <= std::numeric_limits<std::int64_t>::max();
}
bool fits(const BigInt& a) {
    return a >= std::numeric_limits<std::int64_t>::min() && a <= std::numeric_limits<std::int64_t>::max();
}

BigInt to_big(Wide a) {
    const Wide m = magnitude(a);
    BigInt b = static_cast<std::uint64_t>(m >> 64);
    b <<= 64;
    b += static_cast<std::uint64_t>(m);
    return a < 0 ? BigInt(-b) : b;
}

}  // namespace

Rational RationalAccess::make(BigInt n, BigInt d) {
    if (d == 0) throw std::domain_error("a rational number has no denominator 0");
    if (d < 0) {
        n = -n;
        d = -d;
    }
    const BigInt g = boost::multiprecision::gcd(n, d);
    if (g != 1) {
        n /= g;
        d /= g;
    }
    Rational r;
    if (fits(n) && fits(d)) {
        r.numerator_ = static_cast<std::int64_t>(n);
        r.denominator_ = static_cast<std::int64_t>(d);
    } else {
        r.big_ = std::make_shared<const Rational::Big>(Rational::Big{std::move(n), std::move(d)});
    }
    return r;
}

Rational RationalAccess::make(Wide n, Wide d) {
    if (d == 0) throw std::domain_error("a rational number has no denominator 0");
    if (d < 0) {
        n = -n;
        d = -d;
    }
    if (const Wide g = d == 1 ? 1 : gcd(magnitude(n), d); g > 1) {
        n /= g;
        d /= g;
    }
    if (!fits(n) || !fits(d)) return make(to_big(n), to_big(d));
    Rational r;
    r.numerator_ = static_cast<std::int64_t>(n);
    r.denominator_ = static_cast<std::int64_t>(d);
    return r;
}

Rational::Rational(std::int64_t n, std::int64_t d) : Rational(RationalAccess::make(Wide(n), Wide(d))) {}

Rational operator+(const Rational& a, const Rational& b) {
    if (!a.big_ && !b.big_) {
        if (a.denominator_ == 1 && b.denominator_ == 1) {
            std::int64_t sum;
            if (!__builtin_add_overflow(a.numerator_, b.numerator_, &sum)) return Rational(sum);
        }
        // each product is below 2^126, so the sum of two stays within 128 bits
        return RationalAccess::make(Wide(a.numerator_) * b.denominator_ + Wide(b.numerator_) * a.denominator_,
                                    Wide(a.denominator_) * b.denominator_);
    }
    using A = RationalAccess;
    return A::make(BigInt(A::numerator(a) * A::denominator(b) + A::numerator(b) * A::denominator(a)),
                   BigInt(A::denominator(a) * A::denominator(b)));
}

Rational operator-(const Rational& a, const Rational& b) {
    if (!a.big_ && !b.big_)
        return RationalAccess::make(Wide(a.numerator_) * b.denominator_ - Wide(b.numerator_) * a.denominator_,
                                    Wide(a.denominator_) * b.denominator_);
    using A = RationalAccess;
    return A::make(BigInt(A::numerator(a) * A::denominator(b) - A::numerator(b) * A::denominator(a)),
                   BigInt(A::denominator(a) * A::denominator(b)));
}

Rational operator*(const Rational& a, const Rational& b) {
    if (!a.big_ && !b.big_)
        return RationalAccess::make(Wide(a.numerator_) * b.numerator_, Wide(a.denominator_) * b.denominator_);
    using A = RationalAccess;
    return A::make(BigInt(A::numerator(a) * A::numerator(b)), BigInt(A::denominator(a) * A::denominator(b)));
}

Rational operator/(const Rational& a, const Rational& b) {
    if (b.sign() == 0) throw std::domain_error("division of a rational number by 0");
    if (!a.big_ && !b.big_)
        return RationalAccess::make(Wide(a.numerator_) * b.denominator_, Wide(a.denominator_) * b.numerator_);
    using A = RationalAccess;
    return A::make(BigInt(A::numerator(a) * A::denominator(b)), BigInt(A::denominator(a) * A::numerator(b)));
}

bool operator==(const Rational& a, const Rational& b) {
    if (!a.big_ && !b.big_) return a.numerator_ == b.numerator_ && a.denominator_ == b.denominator_;
    if (!a.big_ || !b.big_) return false;  // lowest terms: a small number is never stored big
    return a.big_->numerator == b.big_->numerator && a.big_->denominator == b.big_->denominator;
}

std::strong_ordering operator<=>(const Rational& a, const Rational& b) {
    if (!a.big_ && !b.big_) return Wide(a.numerator_) * b.denominator_ <=> Wide(b.numerator_) * a.denominator_;
    using A = RationalAccess;
    const BigInt left = A::numerator(a) * A::denominator(b), right = A::numerator(b) * A::denominator(a);
    const int c = left.compare(right);
    return c <=> 0;
}

bool Rational::is_whole() const noexcept { return big_ ? big_->denominator == 1 : denominator_ == 1; }

int Rational::sign() const noexcept {
    if (big_) return big_->numerator.sign();
    return numerator_ > 0 ? 1 : numerator_ < 0 ? -1 : 0;
}

std::int64_t Rational::floor() const {
    if (!big_) {
        const std::int64_t q = numerator_ / denominator_;
        return numerator_ % denominator_ < 0 ? q - 1 : q;
    }
    BigInt q, r;
    boost::multiprecision::divide_qr(big_->numerator, big_->denominator, q, r);
    if (r < 0) --q;
    if (!fits(q)) throw std::overflow_error("a rational number beyond 64 bits has no whole part here");
    return static_cast<std::int64_t>(q);
}

std::int64_t Rational::ceil() const { return is_whole() ? floor() : floor() + 1; }

double Rational::to_double() const {
    if (!big_)
        return static_cast<double>(static_cast<long double>(numerator_) / static_cast<long double>(denominator_));
    return static_cast<double>(boost::multiprecision::cpp_rational(big_->numerator, big_->denominator));
}

std::string Rational::text() const {
    if (!big_)
        return denominator_ == 1 ? std::to_string(numerator_)
                                 : std::to_string(numerator_) + '/' + std::to_string(denominator_);
    std::string s = big_->numerator.str();
    if (big_->denominator != 1) s += '/' + big_->denominator.str();
    return s;
}

Rational Rational::parse(std::string_view text) {
    const auto refuse = [&] {
        return Error(Code::bad_value, text::quoted(text) + ": must be \"n\" or \"n/d\" in lowest terms with d > 1");
    };
    const auto digits = [&](std::string_view s, bool sign) -> BigInt {
        const bool negative = sign && !s.empty() && s[0] == '-';
        const std::string_view d = negative ? s.substr(1) : s;
        if (d.empty() || d.size() > limits::rational_digits || (d[0] == '0' && (d.size() > 1 || negative)))
            throw refuse();
        for (const char c : d)
            if (c < '0' || c > '9') throw refuse();
        return BigInt(std::string(s));
    };
    const auto slash = text.find('/');
    if (slash == std::string_view::npos) return RationalAccess::make(digits(text, true), BigInt(1));
    BigInt n = digits(text.substr(0, slash), true), d = digits(text.substr(slash + 1), false);
    if (d <= 1 || boost::multiprecision::gcd(n, d) != 1) throw refuse();
    return RationalAccess::make(std::move(n), std::move(d));
}

}  // namespace coldtally
