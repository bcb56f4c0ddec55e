// Journeys: the move list, a container packed and unpacked, and the time between.
#pragma once

#include "answers/world.hpp"
#include "coldtally/drafts.hpp"
#include "coldtally/journeys.hpp"

namespace coldtally::answers {

MoveListAnswer move_list(World& world, const std::string& place, const std::optional<std::string>& container);
Drafted pack(const ledger::Store& store, const PackRequest& request, Instant now);
Drafted unpack(const ledger::Store& store, const UnpackRequest& request, Instant now);
TripAnswer trip(World& world, const std::string& container, std::optional<Duration> limit);

/// The last departure of a container at or before the world's instant; null where there is none.
const ledger::Dated<Trip>* last_departure(const World& world, const std::string& container);

}  // namespace coldtally::answers
