// Disagreements: two devices in one place that cannot both be right.
#pragma once

#include "coldtally/upkeep.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// Of checks with the logger, and of checks at one instant with each other; those whose later check lies in the window.
std::vector<UnitAnswer::Disagreement> disagreements(World& world, const std::string& place, const Window& window);

/// The devices of a disagreement, their values and when; and whether one of the values is out of the range.
Remark disagreement_words(const UnitAnswer::Disagreement& disagreement, const std::string& place, const Zone& zone);
bool at_stake(const UnitAnswer::Disagreement& disagreement, const Range& range);

}  // namespace coldtally::answers
