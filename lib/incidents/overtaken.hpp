// Overtaken: reports that were sent with figures that are others now, since more has been read or has happened.
#pragma once

#include <string>
#include <vector>

#include "coldtally/incidents.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// Says of the last report to each recipient what is more now than it told: among what came since that step was done.
/// What is less is not said, since guidance clears. Of an incident that was closed: by the figures at its closing.
void add_overtaken(World& world, IncidentAnswer& answer);
/// How each of these sentences begins.
constexpr const char* overtaken_start = "REPORTED WITH OTHER FIGURES: ";
/// Those that were said.
std::vector<std::string> overtaken(const IncidentAnswer& answer);

}  // namespace coldtally::answers
