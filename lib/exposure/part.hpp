// Part: the exact exposure of one part of a trace. Everything else of this folder only finds the parts and adds them
// up.
//
// A part is judged by the readings at its two ends, p and q, each with its own tolerance U. It may be cut to a stay:
// then the straight line between p and q is followed between the cuts, while at least and at most keep looking at p and
// q. A bounded part has a minimum m and a maximum M, and the tolerance U of the later check.
//
//   quantity           logged and checked                      bounded
//   warm, estimate     time with T > hi                        all of it if M > hi
//   warm, at least     all of it if p > hi + U and q > hi + U  all of it if m > hi + U
//   warm, at most      all of it if p > hi - U or q > hi - U   all of it if M > hi - U
//   warm, degrees      integral of max(T - hi, 0)              max(M - hi, 0) x length
//   cold               the same below lo                       m < lo; M < lo - U; m < lo + U; max(lo - m, 0) x length
//   frozen             T <= f; both <= f - U; one <= f + U     m <= f; M <= f - U; m <= f + U; max(f - m, 0) x length
//   allowance, beyond  out-of-range time by the first band     by the first band that holds M (where M > hi) and again
//                      that holds T, beyond where none does    by that which holds m (where m < lo)
#pragma once

#include "exposure/sums.hpp"

namespace coldtally::exposure {

/// One end of a line: temperature and tolerance in ticks of the part's scale.
struct End {
    Ticks value = 0, tolerance = 0;
};

/// The line of a part between two cuts. N holds every product below: Wide, or BigInt where numbers are long.
template <class N>
struct Line {
    N v0, v1;    ///< temperatures at the two cuts, in 1/unit ticks
    N unit;      ///< > 0
    N seconds;   ///< length, in 1/divisor seconds
    N divisor;   ///< > 0
};

/// Adds a logged or checked part but for its class and its extremes. `scale` says in which degrees the ticks are.
template <class N>
void add_line(OutOfRange& sums, const Limits& limits, Scale scale, const End& p, const End& q, const Line<N>& line);

/// Adds a bounded part of `seconds/divisor` seconds but for its class and its extremes.
void add_bounded(OutOfRange& sums, const Limits& limits, Scale scale, Ticks lowest, Ticks highest, Ticks tolerance,
                 std::int64_t seconds);
void add_bounded(OutOfRange& sums, const Limits& limits, Scale scale, Ticks lowest, Ticks highest, Ticks tolerance,
                 const Rational& seconds);

extern template void add_line<Wide>(OutOfRange&, const Limits&, Scale, const End&, const End&, const Line<Wide>&);
extern template void add_line<BigInt>(OutOfRange&, const Limits&, Scale, const End&, const End&, const Line<BigInt>&);

}  // namespace coldtally::exposure
