// Rounding: the one place where instants that need not be whole become seconds that people and programs read.
#pragma once

#include "coldtally/quantities.hpp"

namespace coldtally::quantities {

/// Seconds since 1970 as they are shown: what lasted is never shown shorter than it was, so its beginning goes down and
/// its end up.
inline Instant shown_begin(const Rational& seconds) { return Instant(seconds.floor()); }
inline Instant shown_end(const Rational& seconds) { return Instant(seconds.ceil()); }
/// For programs, which have the exact number beside it.
inline Instant nearest(const Rational& seconds) { return Instant((seconds + Rational(1, 2)).floor()); }

}  // namespace coldtally::quantities
