// Given in doubt: what a review does not list of the doses that open incidents put in doubt.
#pragma once

#include "coldtally/immunizations.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// Doses that are clear and were given in the time in doubt of an incident that is open, or was closed without a
/// release that holds and an answer for them, to `not_listed`. Apart, since an incident's report is made with a review.
/// And beside each that is listed.
void add_in_doubt(World& world, ReviewAnswer& answer, bool all);
/// The same beside each record.
void add_in_doubt(World& world, ImmunizationsAnswer& answer);

}  // namespace coldtally::answers
