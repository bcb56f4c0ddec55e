// Second implementation, for tests only: the excursions and the conditions of a place in a window.
#pragma once

#include "exposure.hpp"

namespace second {

/// Asked for [from, until); the trace's A cuts it.
struct Window {
    Rational from, until;
};

enum class ExcursionSide { cold, warm };
enum class ExcursionKind { bounded, line, point };

/// What the window leaves of an excursion of a place.
struct Excursion {
    ExcursionSide side = ExcursionSide::warm;
    ExcursionKind kind = ExcursionKind::line;
    Rational from, until;     // instants
    Rational duration;        // s
    Rational degree_seconds;  // °C·s
    Rational peak;            // °C
    bool open = false;
    bool of_check = false;    // a point: a check, not a reading
    /// The stretches it consists of, ascending; by these it overlaps a stay. A point has none.
    std::vector<std::pair<Rational, Rational>> stretches;
};

/// In the order of (from, side, kind, a reading's point before a check's).
std::vector<Excursion> excursions(const Trace& trace, const Range& range, const Window& window);

struct Conditions {
    Coverage coverage;
    std::optional<Rational> lowest, highest;  // °C
    std::optional<Rational> mean;             // °C, over logged and checked time
    std::size_t excursions = 0;
};

Conditions conditions(const Trace& trace, const Range& range, const Window& window);

}  // namespace second
