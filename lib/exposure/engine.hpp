// Engine: the exposure of a product over a time in a place; keeps the traces and what it has added up of whole spans.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <unordered_map>

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
    /// No question will go back behind t: traces need not be read further back.
    void look_back_to(std::int64_t t) { look_back_ = t; }
    /// The same of one place.
    void look_back_to(const std::string& place, std::int64_t t) { look_back_in_[place] = t; }
    /// Each block of readings will be looked into several times: none is to be decoded twice. Before the first question.
    void keep_readings() { keep_readings_ = true; }
    /// The trace of a place from the instant of look_back_to on; its whole trace where that was not said.
    const trace::Trace& trace_of(const std::string& place);
    /// The last instant u, t or later, up to which nothing but time and extremes is added to a history: over [t, u) no
    /// exposure, not even within the tolerance, no point, no unmonitored time. A block of readings is judged as a whole.
    std::int64_t quiet_until(const Product& product, const std::string& place, std::int64_t t);

    /// [a, b) of a place; `with_end`: and the readings and checks at b, where b is the instant of the question.
    /// Nothing where a > b; where a = b, what stands at the instant, if with_end.
    Exposure over(const Product& product, const std::string& place, std::int64_t a, std::int64_t b, bool with_end);
    /// The same between instants that need not be whole, a < b.
    Exposure over(const Product& product, const std::string& place, const Rational& a, const Rational& b, bool with_end);
    /// Of a place's own range.
    Exposure over_range(const Range& range, const std::string& place, std::int64_t a, std::int64_t b, bool with_end);
    /// Points, lowest and highest of the readings and checks at one instant; everything else 0.
    Exposure at_instant(const Product& product, const std::string& place, std::int64_t t);

private:
    struct Judge {
        const LimitsOf& limits;
        std::unordered_map<std::size_t, OutOfRange>& whole_spans;  // in this place, by index
    };
    Judge judge(const Product& product, const std::string& place);
    void sweep(Sums& sums, const Judge& judge, const trace::Trace& trace, std::int64_t a, std::int64_t b, bool with_end);
    void slice(Sums& sums, const Judge& judge, const trace::Trace& trace, const Rational& a, const Rational& b);
    void add_points(Sums& sums, const Judge& judge, const trace::Trace& trace, std::int64_t t);

    const ledger::Store& store_;
    const ledger::Known& known_;
    std::int64_t asked_at_;
    std::vector<trace::Assignment> assignments_;
    std::int64_t look_back_ = -trace::forever;
    std::map<std::string, std::int64_t> look_back_in_;  // by place; look_back_ holds where it is not named
    bool keep_readings_ = false;
    std::map<std::string, std::unique_ptr<trace::Trace>> traces_;
    std::map<std::string, LimitsOf> limits_;  // by product
    std::map<std::string, std::map<std::string, std::unordered_map<std::size_t, OutOfRange>>> whole_spans_;  // by product and place
};

}  // namespace coldtally::exposure
