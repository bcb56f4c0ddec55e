// Second implementation, for tests only: what one product has been exposed to over one stretch of time.
#pragma once

#include "trace.hpp"

namespace second {

struct Allowance {
    Limit low, high;
    std::int64_t seconds = 0;
};

struct Product {
    Range range;
    std::optional<Limit> freeze_limit;
    std::vector<Allowance> allowances;
};

/// Seconds, and °C·s.
struct Side {
    Rational at_least, estimate, at_most, degree_seconds;
};

/// Seconds of each class of trace.
struct Coverage {
    Rational logged, bounded, checked, near, awaiting, unmonitored;
};

struct Exposure {
    Side warm, cold, frozen;
    std::vector<Rational> allowances;  // seconds, in the product's order
    Rational beyond_warm, beyond_cold;
    std::int64_t points = 0;
    Coverage coverage;
    std::optional<Rational> lowest, highest;  // °C
};

/// Over [a, b); with_b: the readings and checks at the instant b are seen too. a <= b <= the trace's A, else
/// std::invalid_argument.
Exposure exposure(const Trace& trace, const Product& product, const Rational& a, const Rational& b, bool with_b);

/// The lower and the higher of what is known already and one more temperature.
void widen(std::optional<Rational>& lowest, std::optional<Rational>& highest, const Rational& celsius);

}  // namespace second
