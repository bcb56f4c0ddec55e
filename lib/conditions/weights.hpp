// Weights: seconds by temperature of the lines of a trace, for its means.
#pragma once

#include <map>
#include <unordered_map>

#include "exposure/engine.hpp"

namespace coldtally::answers {

/// Each end of a line stands for its length; half of it would do, and is the same for all.
class Weights {
public:
    /// [a, b) of a line.
    void line(const trace::Point& p, const trace::Point& q, std::int64_t a, std::int64_t b);
    /// By °C, exactly; empty where there was no line.
    std::map<Rational, Rational> by_celsius() const;

private:
    void end(const exposure::TraceLine& l, const trace::Point& p, std::int64_t at, std::int64_t seconds);

    std::unordered_map<std::int32_t, std::int64_t> whole_[2];  // by thousandths, of C and F
    std::map<Rational, Rational> cut_;                         // by °C, where the window cuts a line
};

/// The mean weighted by time, exact. `weights`: not empty.
Rational mean_C(const std::map<Rational, Rational>& weights);

}  // namespace coldtally::answers
