// Given in doubt: what a review does not list of the doses that open incidents put in doubt.
#pragma once

#include "question/world.hpp"

namespace coldtally::answers {

/// Doses that are clear and were given in the time in doubt of an open incident, to `not_listed`. Apart, since an
/// incident's report is made with a review.
void add_in_doubt(World& world, ReviewAnswer& answer, bool all);

}  // namespace coldtally::answers
