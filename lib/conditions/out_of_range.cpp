#include "conditions/out_of_range.hpp"

#include <algorithm>

#include "coldtally/quantities.hpp"
#include "exposure/limits.hpp"
#include "exposure/part.hpp"
#include "trace/lines.hpp"

namespace coldtally::answers {

namespace {

using exposure::Limits;
using exposure::LimitsOf;
using exposure::Ticks;
using exposure::TraceLine;
using trace::Point;

std::string degrees(const Point& p) { return Temperature(p.scale, p.value).text() + " °" + scale_letter(p.scale); }

class Teller {
public:
    Teller(World& w, const Product& product) : zone_(w.known.zone()), limits_(product) {}

    void line(const Point& p, const Point& q, std::int64_t from, std::int64_t until) {
        const TraceLine l(p, q);
        const Limits& in = limits_.in(l.scale);
        const auto state = [&](Ticks t) { return in.is_warm(t) ? 1 : in.is_cold(t) ? -1 : 0; };
        const int first = state(l.p.value), second = state(l.q.value);
        const bool whole = from == p.at && until == q.at;
        if (first == second && first != 0 && whole) {
            if (!run_.count || run_.state != first || run_.until != from) flush(), run_ = {from, until, first, 0, p, p};
            ++run_.count;
            run_.until = until;
            for (const Point* x : {&p, &q})
                if (first * exposure::ticks(x->value) > first * exposure::ticks(run_.peak.value)) run_.peak = *x;
            run_.last = q;
            return;
        }
        if (first == 0 && second == 0) return;
        flush();
        exposure::Sums sums(limits_.allowances);
        const Rational v0 = l.at(Rational(from)), v1 = l.at(Rational(until));
        const BigInt d0 = RationalAccess::denominator(v0), d1 = RationalAccess::denominator(v1);
        exposure::add_line<BigInt>(
            sums, in, l.scale, l.p, l.q,
            {BigInt(RationalAccess::numerator(v0) * d1), BigInt(RationalAccess::numerator(v1) * d0), BigInt(d0 * d1),
             BigInt(until - from), BigInt(1)});
        const Exposure e = sums.total();
        std::string text = when(p.at) + " " + degrees(p) + ", " + when(q.at) + " " + degrees(q) + ":";
        if (!whole) text += " of it " + when(from) + " to " + when(until) + ":";
        if (e.warm.estimate.sign() > 0)
            text += " above the range for " + e.warm.estimate.text() + " s of " + std::to_string(until - from) + " s";
        if (e.cold.estimate.sign() > 0)
            text += std::string(e.warm.estimate.sign() > 0 ? "," : "") + " below the range for " +
                    e.cold.estimate.text() + " s of " + std::to_string(until - from) + " s";
        if (e.warm.estimate.sign() == 0 && e.cold.estimate.sign() == 0) text += " in range between";
        lines_.emplace_back(from, text);
    }

    void bounded(const trace::Part& part, std::int64_t from, std::int64_t until) {
        const auto& later = *part.later;
        const Scale s = later.point.scale;
        const Limits& in = limits_.in(s);
        const bool warm = in.is_warm(exposure::ticks(*later.highest)),
                   cold = in.is_cold(exposure::ticks(*later.lowest));
        if (!warm && !cold) return;
        lines_.emplace_back(
            from, when(from) + " to " + when(until) + ": only minimum " + Temperature(s, *later.lowest).text() +
                      " and maximum " + Temperature(s, *later.highest).text() + " °" + scale_letter(s) +
                      " of the check of " + when(later.point.at) + " (entry " + std::to_string(later.entry) +
                      ") are known: all " + std::to_string(until - from) + " s count as " +
                      (warm && cold ? "warm and as cold"
                       : warm       ? "warm"
                                    : "cold"));
    }

    std::vector<std::string> take() {
        flush();
        std::stable_sort(lines_.begin(), lines_.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
        std::vector<std::string> out;
        for (auto& [at, text] : lines_) out.push_back(std::move(text));
        return out;
    }

private:
    std::string when(std::int64_t t) const { return zone_.local_text(Instant(t)); }

    void flush() {
        if (run_.count)
            lines_.emplace_back(run_.from,
                                when(run_.from) + " to " + when(run_.until) + ": " + std::to_string(run_.count + 1) +
                                    " readings, all " +
                                    (run_.state > 0 ? "above the range, highest " : "below the range, lowest ") +
                                    degrees(run_.peak) + ": " + std::to_string(run_.until - run_.from) + " s (" +
                                    duration_words(Rational(run_.until - run_.from), true) + ")");
        run_.count = 0;
    }

    const Zone& zone_;
    LimitsOf limits_;
    struct Run {
        std::int64_t from = 0, until = 0;
        int state = 0, count = 0;
        Point peak, last;
    } run_;
    std::vector<std::pair<std::int64_t, std::string>> lines_;
};

}  // namespace

std::vector<std::string> out_of_range_lines(World& w, const Product& product, const std::string& place,
                                            std::int64_t from, std::int64_t until) {
    const trace::Trace& trace = w.engine.trace_of(place, from);
    const LimitsOf limits(product);
    Teller teller(w, product);
    trace::for_each_line(
        trace, from, until,
        [&](const trace::Span& s) {
            const Limits& in = limits.in(s.scale);
            return !in.is_warm(exposure::ticks(s.highest)) && !in.is_cold(exposure::ticks(s.lowest));
        },
        [&](const Point& p, const Point& q, std::int64_t a, std::int64_t b) { teller.line(p, q, a, b); });
    const auto& parts = trace.parts();
    for (std::size_t k = trace.part_at(from); k < parts.size() && parts[k].from < until; ++k)
        if (parts[k].kind == Class::bounded)
            teller.bounded(parts[k], std::max(from, parts[k].from), std::min(until, parts[k].until));
    return teller.take();
}

}  // namespace coldtally::answers
