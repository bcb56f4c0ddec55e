// Training: the last of each person in each topic, and which have lapsed.
#pragma once

#include "answers/world.hpp"
#include "coldtally/upkeep.hpp"

namespace coldtally::answers {

TrainingAnswer training(World& world);

}  // namespace coldtally::answers
