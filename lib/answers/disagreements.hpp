// Disagreements: two devices in one place that cannot both be right.
#pragma once

#include "answers/world.hpp"
#include "coldtally/upkeep.hpp"

namespace coldtally::answers {

/// Of checks with the logger, and of checks at one instant with each other; those whose later check lies in the window.
std::vector<UnitAnswer::Disagreement> disagreements(World& world, const std::string& place, const Window& window);

}  // namespace coldtally::answers
