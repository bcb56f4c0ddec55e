// Release: whether the record lets the holds of an incident go.
#pragma once

#include <string>

#include "coldtally/incidents.hpp"
#include "conditions/released.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// Fills holds, against_release and the time that was looked at. An answer for all makers alone has them.
void add_release(World& world, IncidentAnswer& answer);

}  // namespace coldtally::answers
