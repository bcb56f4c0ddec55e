// The big side of Rational, for code that sums or splits numbers beyond 64 bits.
#pragma once

#include <boost/multiprecision/cpp_int.hpp>

#include "coldtally/quantities.hpp"

namespace coldtally {

__extension__ using Wide = __int128;
using BigInt = boost::multiprecision::cpp_int;

struct Rational::Big {
    BigInt numerator, denominator;  // lowest terms, denominator > 0, at least one of them beyond 64 bits
};

struct RationalAccess {
    static BigInt numerator(const Rational& r) { return r.big_ ? r.big_->numerator : BigInt(r.numerator_); }
    static BigInt denominator(const Rational& r) { return r.big_ ? r.big_->denominator : BigInt(r.denominator_); }
    /// numerator/denominator, denominator not 0, brought to lowest terms.
    static Rational make(BigInt numerator, BigInt denominator);
    /// The same for numbers of up to 128 bits; takes no heap where the result is small.
    static Rational make(Wide numerator, Wide denominator);
};

}  // namespace coldtally
