// Training: the last of each person in each topic, and which have lapsed.
#pragma once

#include "coldtally/upkeep.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

TrainingAnswer training(World& world);

}  // namespace coldtally::answers
