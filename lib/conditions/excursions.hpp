// Excursions: when a place was out of its own range, and which doses were inside.
#pragma once

#include "coldtally/conditions.hpp"

#include "question/world.hpp"

namespace coldtally::answers {

/// What a window leaves of one excursion; found on the whole trace.
struct Found {
    Side side = Side::warm;
    ExcursionKind kind = ExcursionKind::line;
    /// A stretch within one part of the trace, with the temperatures at its two ends (of a bounded one, its extreme
    /// twice).
    struct Piece {
        Rational from, until;  ///< seconds since 1970
        Rational first_C, last_C;
        Rational degree_s;     ///< °C·s beyond the limit
    };
    std::vector<Piece> pieces;  ///< ascending; of a point: none
    Rational from, until;
    Rational peak_C;
    bool open = false;
    bool cut_before = false, cut_after = false;  ///< the window leaves out what was before, or after
};

/// Ordered by (from, side, kind), a reading's point before a check's.
std::vector<Found> find_excursions(World& world, const std::string& place, const Window& window);
/// Those that last until an instant or longer, whole, up to the question: what was before is not looked at, unless one
/// reaches over it.
std::vector<Found> excursions_since(World& world, const std::string& place, std::int64_t since);

ExcursionsAnswer excursions(World& world, const std::string& place, Instant from, Instant until);

/// Seconds of each Class of a place in a window.
std::array<Rational, class_count> coverage_of(World& world, const std::string& place, const Window& window);
/// Seconds of an excursion of a place that rest on plain checks.
Rational checked_s(World& world, const std::string& place, const Found& found);

}  // namespace coldtally::answers
