// Review: doses given that may need a second look. It never says to repeat one.
#pragma once

#include "answers/world.hpp"

namespace coldtally::answers {

/// `all`: also the doses that are clear.
ReviewAnswer review(World& world, bool all);

}  // namespace coldtally::answers
