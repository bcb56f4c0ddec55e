// Conditions: what a place was like over a window.
#pragma once

#include "coldtally/conditions.hpp"

#include "question/world.hpp"

namespace coldtally::answers {

ConditionsAnswer conditions(World& world, const std::string& place, Instant from, Instant until,
                            std::int64_t activation_K);

}  // namespace coldtally::answers
