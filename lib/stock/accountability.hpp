// Accountability: for each product, lot and fund, where the doses of a period came from and where they went.
#pragma once

#include "coldtally/stewardship.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

AccountabilityAnswer accountability(World& world, Instant from, Instant until);

}  // namespace coldtally::answers
