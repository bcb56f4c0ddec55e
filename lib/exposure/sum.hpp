// Sum: an exact sum of many fractions, one integer numerator per denominator, joined once at the end.
#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "coldtally/quantities.hpp"
#include "quantities/rational_big.hpp"

namespace coldtally::exposure {

class Sum {
public:
    void add(Wide numerator, Wide denominator = 1);
    void add(const BigInt& numerator, const BigInt& denominator) {
        rest_ += RationalAccess::make(numerator, denominator);
    }
    void add(const Sum& other);
    bool is_zero() const { return whole_ == 0 && fractions_.empty() && rest_.sign() == 0; }
    /// Divided by `divisor`, > 0.
    Rational total(std::int64_t divisor = 1) const;

private:
    void add_whole(Wide n);
    void add_fraction(Wide n, std::int64_t d);
    Wide whole_ = 0;
    std::vector<std::pair<std::int64_t, Wide>> fractions_;  // by denominator, neither 0 nor 1; any numerators
    Rational rest_;                                         // what does not fit the two
};

}  // namespace coldtally::exposure
