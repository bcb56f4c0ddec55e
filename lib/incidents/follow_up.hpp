// Follow-up: the doses of the review list, or all given of a lot, and what was done about each.
#pragma once

#include "coldtally/upkeep.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// See Ledger::follow_up.
FollowUpAnswer follow_up(World& world, const std::optional<std::string>& lot,
                         const std::optional<std::string>& product);

}  // namespace coldtally::answers
