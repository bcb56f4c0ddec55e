#include "conditions/weights.hpp"

namespace coldtally::answers {

using exposure::TraceLine;
using trace::Point;

void Weights::line(const Point& p, const Point& q, std::int64_t a, std::int64_t b) {
    const TraceLine l(p, q);
    end(l, p, a, b - a);
    end(l, q, b, b - a);
}

std::map<Rational, Rational> Weights::by_celsius() const {
    auto out = cut_;
    for (const auto scale : {Scale::C, Scale::F})
        for (const auto& [t, seconds] : whole_[scale == Scale::C ? 0 : 1])
            out[Temperature(scale, t).celsius()] += Rational(seconds);
    return out;
}

void Weights::end(const TraceLine& l, const Point& p, std::int64_t at, std::int64_t seconds) {
    if (p.at == at)
        whole_[p.scale == Scale::C ? 0 : 1][p.value] += seconds;
    else
        cut_[l.celsius_at(Rational(at))] += Rational(seconds);
}

Rational mean_C(const std::map<Rational, Rational>& weights) {
    Rational sum, total;
    for (const auto& [celsius, seconds] : weights) {
        sum += celsius * seconds;
        total += seconds;
    }
    return sum / total;
}

}  // namespace coldtally::answers
