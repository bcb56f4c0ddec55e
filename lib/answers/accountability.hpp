// Accountability: for each product, lot and fund, where the doses of a period came from and where they went.
#pragma once

#include "answers/world.hpp"
#include "coldtally/stewardship.hpp"

namespace coldtally::answers {

AccountabilityAnswer accountability(World& world, Instant from, Instant until);

}  // namespace coldtally::answers
