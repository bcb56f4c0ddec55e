// Engine: the exposure of a product over a time in a place; keeps the traces and what it has added up of whole spans.
// No answer depends on what was asked before it: each states how far back it looks, and is given a trace that reaches
// there.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <unordered_map>
#include <vector>

#include "coldtally/exposure.hpp"
#include "exposure/limits.hpp"
#include "exposure/part.hpp"
#include "trace/trace.hpp"

namespace coldtally::exposure {

/// A line of a trace between two readings or checks, in one scale's ticks (in C where the two differ in scale).
struct TraceLine {
    std::int64_t from = 0, until = 0;
    End p, q;
    Scale scale = Scale::C;
    trace::Point first, second;  ///< as recorded

    TraceLine(const trace::Point& a, const trace::Point& b);
    /// Ticks at an instant of [from, until].
    Rational at(const Rational& t) const;
    Rational celsius_at(const Rational& t) const;
};

class Engine {
public:
    /// Both must outlive this.
    Engine(const ledger::Store& store, const ledger::Known& known, std::int64_t asked_at);

    const std::vector<trace::Assignment>& assignments() const { return assignments_; }
    /// Nothing before t is likely to be asked: the first trace of a place need not be read further back. A guess that
    /// saves work and decides nothing: what is asked of an earlier time all the same is answered from a trace that
    /// reaches there.
    void expect_back_to(std::int64_t t) { expected_ = t; }
    /// The same of one place.
    void expect_back_to(const std::string& place, std::int64_t t) { expected_in_[place] = t; }
    /// Each block of readings will be looked into several times: none is to be decoded twice. Before the first
    /// question.
    void keep_readings() { keep_readings_ = true; }
    /// A trace of a place that holds from `from` on, and stays as it is while this lives. Whoever looks at spans,
    /// checks or parts that lie before `from` must ask from there.
    const trace::Trace& trace_of(const std::string& place, std::int64_t from) { return reaching(place, from).trace; }
    /// The whole trace of a place.
    const trace::Trace& trace_of(const std::string& place) { return trace_of(place, -trace::forever); }
    /// The last instant u, t or later, up to which nothing but time and extremes is added to a history: over [t, u) no
    /// exposure, not even within the tolerance, no point, no unmonitored time. A block of readings is judged as a
    /// whole.
    std::int64_t quiet_until(const Product& product, const std::string& place, std::int64_t t);

    /// [a, b) of a place; `with_end`: and the readings and checks at b, where b is the instant of the question.
    /// Nothing where a > b; where a = b, what stands at the instant, if with_end.
    Exposure over(const Product& product, const std::string& place, std::int64_t a, std::int64_t b, bool with_end);
    /// The same between instants that need not be whole, a < b.
    Exposure over(const Product& product, const std::string& place, const Rational& a, const Rational& b,
                  bool with_end);
    /// Of a place's own range.
    Exposure over_range(const Range& range, const std::string& place, std::int64_t a, std::int64_t b, bool with_end);
    /// Points, lowest and highest of the readings and checks at one instant; everything else 0.
    Exposure at_instant(const Product& product, const std::string& place, std::int64_t t);

private:
    using WholeSpans = std::unordered_map<std::size_t, OutOfRange>;  // by index in one trace
    /// A trace, and what was added up of its spans: the two belong together, since an index means nothing in another
    /// trace.
    struct Kept {
        std::int64_t from;  // what it says of the time before means nothing
        trace::Trace trace;
        std::map<std::string, WholeSpans> whole_spans;  // by product
    };
    Kept& reaching(const std::string& place, std::int64_t from);

    struct Judge {
        const LimitsOf& limits;
        const trace::Trace& trace;
        WholeSpans& whole_spans;
    };
    /// For what is asked of a time from `from` on.
    Judge judge(const Product& product, const std::string& place, std::int64_t from);
    static void sweep(Sums& sums, const Judge& judge, std::int64_t a, std::int64_t b, bool with_end);
    static void slice(Sums& sums, const Judge& judge, const Rational& a, const Rational& b);
    static void add_points(Sums& sums, const Judge& judge, std::int64_t t);

    const ledger::Store& store_;
    const ledger::Known& known_;
    std::int64_t asked_at_;
    std::vector<trace::Assignment> assignments_;
    std::int64_t expected_ = -trace::forever;
    std::map<std::string, std::int64_t> expected_in_;  // by place; expected_ stands where it is not named
    bool keep_readings_ = false;
    std::map<std::string, std::vector<std::unique_ptr<Kept>>> kept_;  // by place; the last reaches furthest back
    std::map<std::string, LimitsOf> limits_;                          // by product
};

}  // namespace coldtally::exposure
