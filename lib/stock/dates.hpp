// Dates: until when each holding may be used, what sets that, and in which order to use what is on keep.
#pragma once

#include "coldtally/stewardship.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

DatesAnswer dates(World& world);

}  // namespace coldtally::answers
