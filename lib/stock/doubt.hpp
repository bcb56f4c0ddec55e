// Doubt: which doses stood in the time in doubt of an incident that is open, and have no answer about it.
#pragma once

#include <vector>

#include "conditions/time_in_doubt.hpp"
#include "stock/notes.hpp"

namespace coldtally::answers {

/// The doubts in which doses of this history stood and that no guidance has answered which cleared them, by incident,
/// each once. Where they stood in those of several incidents, guidance answers those alone that a report told its lot
/// of. `stays`: those of their lot.
std::vector<Doubt> doubts_of(World& world, const HoldingKey& holding, const History& history,
                             const StayCollector& stays);

}  // namespace coldtally::answers
