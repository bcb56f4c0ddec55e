// Release: whether the record lets the holds of an incident go.
#pragma once

#include <string>

#include "coldtally/incidents.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// The reason of a hold that comes with the notice of an incident in a place; by it the holds are known again.
std::string hold_reason(const std::string& incident, const std::string& place);

/// Fills holds, against_release and the time that was looked at. An answer for all makers alone has them.
void add_release(World& world, IncidentAnswer& answer);

}  // namespace coldtally::answers
