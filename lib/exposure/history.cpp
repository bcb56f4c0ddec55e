#include <algorithm>

#include "coldtally/exposure.hpp"

namespace coldtally {

namespace {

void take_lower(std::optional<Rational>& a, const std::optional<Rational>& b) {
    if (b) a = a ? std::min(*a, *b) : *b;
}

void take_higher(std::optional<Rational>& a, const std::optional<Rational>& b) {
    if (b) a = a ? std::max(*a, *b) : *b;
}

void take_larger(Rational& a, const Rational& b) { a = std::max(a, b); }

void add_all(std::vector<Rational>& a, const std::vector<Rational>& b) {
    a.resize(std::max(a.size(), b.size()));
    for (std::size_t i = 0; i < b.size(); ++i) a[i] += b[i];
}

void take_larger(std::vector<Rational>& a, const std::vector<Rational>& b) {
    a.resize(std::max(a.size(), b.size()));
    for (std::size_t i = 0; i < b.size(); ++i) take_larger(a[i], b[i]);
}

void add(SideExposure& a, const SideExposure& b) {
    a.at_least += b.at_least;
    a.estimate += b.estimate;
    a.at_most += b.at_most;
    a.degree_s += b.degree_s;
}

void take_larger(SideExposure& a, const SideExposure& b) {
    take_larger(a.at_least, b.at_least);
    take_larger(a.estimate, b.estimate);
    take_larger(a.at_most, b.at_most);
    take_larger(a.degree_s, b.degree_s);
}

}  // namespace

void Exposure::add(const Exposure& o) {
    coldtally::add(warm, o.warm);
    coldtally::add(cold, o.cold);
    coldtally::add(frozen, o.frozen);
    add_all(allowances, o.allowances);
    beyond_warm += o.beyond_warm;
    beyond_cold += o.beyond_cold;
    points += o.points;
    for (std::size_t i = 0; i < seconds.size(); ++i) seconds[i] += o.seconds[i];
    take_lower(lowest_C, o.lowest_C);
    take_higher(highest_C, o.highest_C);
}

void History::accrue(const Exposure& e) {
    total.add(e);
    open.warm += e.warm.estimate;
    open.cold += e.cold.estimate;
    open.frozen += e.frozen.estimate;
    add_all(open.allowances, e.allowances);
    open.beyond_warm += e.beyond_warm;
    open.beyond_cold += e.beyond_cold;
    open.unmonitored += e.seconds[static_cast<std::size_t>(Class::unmonitored)];
    open.points += e.points;
}

void History::join(const History& o) {
    take_larger(total.warm, o.total.warm);
    take_larger(total.cold, o.total.cold);
    take_larger(total.frozen, o.total.frozen);
    take_larger(total.allowances, o.total.allowances);
    take_larger(total.beyond_warm, o.total.beyond_warm);
    take_larger(total.beyond_cold, o.total.beyond_cold);
    total.points = std::max(total.points, o.total.points);
    for (std::size_t i = 0; i < total.seconds.size(); ++i) take_larger(total.seconds[i], o.total.seconds[i]);
    take_lower(total.lowest_C, o.total.lowest_C);
    take_higher(total.highest_C, o.total.highest_C);
    take_larger(open.warm, o.open.warm);
    take_larger(open.cold, o.open.cold);
    take_larger(open.frozen, o.open.frozen);
    take_larger(open.allowances, o.open.allowances);
    take_larger(open.beyond_warm, o.open.beyond_warm);
    take_larger(open.beyond_cold, o.open.beyond_cold);
    take_larger(open.unmonitored, o.open.unmonitored);
    open.points = std::max(open.points, o.open.points);
    places.insert(o.places.begin(), o.places.end());
    condemned_by.insert(o.condemned_by.begin(), o.condemned_by.end());
    held_by.insert(o.held_by.begin(), o.held_by.end());
    if (o.use_by) shorten(*o.use_by);
}

void History::shorten(Instant t) {
    use_by = use_by ? std::min(*use_by, t) : t;
}

}  // namespace coldtally
