// Excursion ends: an excursion on a line begins and ends where the line crosses the limit, and nobody read the
// crossing. What the values around it leave open, and where a window cuts it, is said.
#pragma once

#include "conditions/excursions.hpp"

namespace coldtally::answers {

/// [from, until) between the readings or checks around what a window leaves of it, which is where it may have been out
/// of range; an end that the window cuts stays. Of a point, and between minimum and maximum: its own ends.
std::pair<Rational, Rational> around(World& world, const std::string& place, const Found& found);

/// That the window cuts it; none where it does not.
std::optional<Remark> cut_words(const Found& found);

/// Marks of a row: that the window cuts it, and how long it may have lasted by the values around it. `inside`: the
/// at-most sums of the doses in it, by product and lot, over that time.
std::vector<Remark> end_marks(World& world, const std::string& place, const Found& found,
                              const std::vector<std::pair<HoldingKey, Rational>>& inside);

}  // namespace coldtally::answers
