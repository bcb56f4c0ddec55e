// Unit: the history of a storage unit, month by month.
#pragma once

#include "coldtally/upkeep.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// `from` not given: the place's first reading or check; `until` not given: the instant of the question.
UnitAnswer unit(World& world, const std::string& place, std::optional<Instant> from, std::optional<Instant> until,
                std::int64_t activation_K);

}  // namespace coldtally::answers
