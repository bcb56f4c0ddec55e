// Explain: why a holding is on its list, in plain lines in the order of time, so that it can be worked again by hand.
#pragma once

#include "coldtally/stock.hpp"

#include "question/world.hpp"

namespace coldtally::answers {

/// Code::not_known where the holding has no doses at the instant.
Explanation explain(World& world, const HoldingKey& holding);

}  // namespace coldtally::answers
