#include "conditions/out_of_range.hpp"

#include <algorithm>

#include "coldtally/quantities.hpp"
#include "exposure/limits.hpp"
#include "exposure/part.hpp"
#include "trace/lines.hpp"
#include "words/conditions.hpp"
#include "words/general.hpp"

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
        const Remark what = beyond(e, until - from);
        lines_.emplace_back(
            from, words::between_readings(when(p.at), degrees(p), when(q.at), degrees(q),
                                          whole ? what : words::part_of_it(when(from), when(until), what)));
    }

    void bounded(const trace::Part& part, std::int64_t from, std::int64_t until) {
        const auto& later = *part.later;
        const Scale s = later.point.scale;
        const Limits& in = limits_.in(s);
        const bool warm = in.is_warm(exposure::ticks(*later.highest)),
                   cold = in.is_cold(exposure::ticks(*later.lowest));
        if (!warm && !cold) return;
        lines_.emplace_back(
            from, words::extremes_alone(when(from), when(until), Temperature(s, *later.lowest).text(),
                                        Temperature(s, *later.highest).text() + " °" + scale_letter(s),
                                        when(later.point.at), later.entry, until - from,
                                        warm && cold ? words::warm_and_as_cold
                                        : warm       ? words::name_warm
                                                     : words::name_cold));
    }

    std::vector<Remark> take() {
        flush();
        std::stable_sort(lines_.begin(), lines_.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
        std::vector<Remark> out;
        for (auto& [at, line] : lines_) out.push_back(std::move(line));
        return out;
    }

private:
    std::string when(std::int64_t t) const { return zone_.local_text(Instant(t)); }

    /// Of so many seconds.
    static Remark beyond(const Exposure& e, std::int64_t all) {
        const bool warm = e.warm.estimate.sign() > 0, cold = e.cold.estimate.sign() > 0;
        if (!warm && !cold) return words::in_range_between;
        const Remark above = words::above_range_for(e.warm.estimate.text(), all),
                     below = words::below_range_for(e.cold.estimate.text(), all);
        return warm && cold ? words::comma(above, below) : warm ? above : below;
    }

    void flush() {
        if (run_.count)
            lines_.emplace_back(run_.from,
                                (run_.state > 0 ? words::readings_above : words::readings_below)(
                                    when(run_.from), when(run_.until), run_.count + 1, degrees(run_.peak),
                                    run_.until - run_.from, duration_words(Rational(run_.until - run_.from), true)));
        run_.count = 0;
    }

    const Zone& zone_;
    LimitsOf limits_;
    struct Run {
        std::int64_t from = 0, until = 0;
        int state = 0, count = 0;
        Point peak, last;
    } run_;
    std::vector<std::pair<std::int64_t, Remark>> lines_;
};

}  // namespace

std::vector<Remark> out_of_range_lines(World& w, const Product& product, const std::string& place, std::int64_t from,
                                       std::int64_t until) {
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
