#include "answers/conditions.hpp"

#include <algorithm>
#include <map>
#include <unordered_map>

#include "answers/excursions.hpp"
#include "answers/kinetic.hpp"
#include "answers/validity.hpp"
#include "trace/lines.hpp"

namespace coldtally::answers {

namespace {

using exposure::TraceLine;
using trace::Point;

/// Seconds by temperature: each end of a line stands for its length; half of it would do, and is the same for all.
class Weights {
public:
    /// [a, b) of a line.
    void line(const Point& p, const Point& q, std::int64_t a, std::int64_t b) {
        const TraceLine l(p, q);
        end(l, p, a, b - a);
        end(l, q, b, b - a);
    }

    std::map<Rational, Rational> by_celsius() const {
        auto out = cut_;
        for (const auto scale : {Scale::C, Scale::F})
            for (const auto& [t, seconds] : whole_[scale == Scale::C ? 0 : 1]) out[Temperature(scale, t).celsius()] += Rational(seconds);
        return out;
    }

private:
    void end(const TraceLine& l, const Point& p, std::int64_t at, std::int64_t seconds) {
        if (p.at == at)
            whole_[p.scale == Scale::C ? 0 : 1][p.value] += seconds;
        else
            cut_[l.celsius_at(Rational(at))] += Rational(seconds);
    }

    std::unordered_map<std::int32_t, std::int64_t> whole_[2];  // by thousandths, of C and F
    std::map<Rational, Rational> cut_;                         // by °C, where the window cuts a line
};

}  // namespace

ConditionsAnswer conditions(World& w, const std::string& place, Instant from, Instant until, std::int64_t activation_K) {
    ConditionsAnswer out;
    out.head = w.head;
    out.place = place;
    out.from = from;
    out.until = until;
    const Place& definition = w.place(place);
    const Window window = window_of(w, from, until);
    if (window.empty) return out;
    const Exposure e = w.engine.over_range(definition.range, place, window.from, window.until, window.with_end);
    out.seconds = e.seconds;
    out.lowest_C = e.lowest_C;
    out.highest_C = e.highest_C;
    Weights ends;
    trace::for_each_line(
        w.engine.trace_of(place), window.from, window.until, [](const trace::Span&) { return false; },
        [&](const Point& p, const Point& q, std::int64_t a, std::int64_t b) { ends.line(p, q, a, b); });
    const auto weights = ends.by_celsius();
    if (!weights.empty()) {
        Rational sum, total;
        for (const auto& [celsius, seconds] : weights) {
            sum += celsius * seconds;
            total += seconds;
        }
        out.mean_C = sum / total;
        out.mean_kinetic_C = mean_kinetic_C(weights, activation_K);
    }
    out.excursions = static_cast<std::int64_t>(find_excursions(w, place, window).size());
    for (const Lapse& l : lapses(w, place, window.from, window.until)) out.marks.push_back(words(l, w.known.zone()));
    return out;
}

}  // namespace coldtally::answers
