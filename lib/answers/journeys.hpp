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

/// The departures of a container's last journey at or before the world's instant, in the order of time: more than one
/// where it was loaded again before it arrived or was emptied. None where it never left. They point into world.known.
std::vector<const ledger::Dated<Trip>*> departures(const World& world, const std::string& container);

}  // namespace coldtally::answers
