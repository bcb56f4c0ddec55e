#include "exposure/sums.hpp"

#include <algorithm>

namespace coldtally::exposure {

void SideSums::add(const SideSums& o) {
    at_least.add(o.at_least);
    estimate.add(o.estimate);
    at_most.add(o.at_most);
    degrees_C.add(o.degrees_C);
    degrees_F.add(o.degrees_F);
}

SideExposure SideSums::total() const {
    Rational degree;
    if (!degrees_C.is_zero()) degree = degrees_C.total(ticks_per_degree);
    if (!degrees_F.is_zero()) degree += degrees_F.total() * Rational(5, 9 * ticks_per_degree);
    return {at_least.total(), estimate.total(), at_most.total(), degree};
}

void OutOfRange::add(const OutOfRange& o) {
    warm.add(o.warm);
    cold.add(o.cold);
    frozen.add(o.frozen);
    for (std::size_t i = 0; i < allowances.size(); ++i) allowances[i].add(o.allowances[i]);
    beyond_warm.add(o.beyond_warm);
    beyond_cold.add(o.beyond_cold);
    points += o.points;
}

void Sums::seen(const Rational& celsius) {
    lowest_C_ = lowest_C_ ? std::min(*lowest_C_, celsius) : celsius;
    highest_C_ = highest_C_ ? std::max(*highest_C_, celsius) : celsius;
}

Exposure Sums::total() const {
    Exposure e;
    e.warm = warm.total();
    e.cold = cold.total();
    e.frozen = frozen.total();
    for (const Sum& s : allowances) e.allowances.push_back(s.total());
    e.beyond_warm = beyond_warm.total();
    e.beyond_cold = beyond_cold.total();
    for (std::size_t i = 0; i < seconds.size(); ++i) e.seconds[i] = seconds[i].total();
    e.points = points;
    Sums all;
    all.lowest_C_ = lowest_C_;
    all.highest_C_ = highest_C_;
    const auto take = [&](const Extremes& of, Scale scale) {
        if (!of.any()) return;
        all.seen(Temperature(scale, of.lowest).celsius());
        all.seen(Temperature(scale, of.highest).celsius());
    };
    take(in_C_, Scale::C);
    take(in_F_, Scale::F);
    e.lowest_C = all.lowest_C_;
    e.highest_C = all.highest_C_;
    return e;
}

}  // namespace coldtally::exposure
