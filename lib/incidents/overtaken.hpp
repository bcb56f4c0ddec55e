// Overtaken: reports that were sent with figures that are others now, since more has been read or has happened.
#pragma once

#include <vector>

#include "coldtally/incidents.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// Says of the last report to each recipient what is more now than it told: among what came since that step was done.
/// What is less is not said, since guidance clears. Of an incident that was closed: by the figures at its closing.
void add_overtaken(World& world, IncidentAnswer& answer);
/// Those that were said, each words::overtaken.
std::vector<Remark> overtaken(const IncidentAnswer& answer);

/// "met by the estimate", "cannot be said"
Remark rule_state_words(RuleFinding::State state);

}  // namespace coldtally::answers
