// Journeys: the move list, and the time in which doses were on the way.
#pragma once

#include "coldtally/journeys.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

MoveListAnswer move_list(World& world, const std::string& place, const std::optional<std::string>& container);
TripAnswer trip(World& world, const std::string& container, std::optional<Duration> limit);

/// The departures of a container's last journey at or before the world's instant, in the order of time: more than one
/// where it was loaded again before it arrived or was emptied. None where it never left. They point into world.known.
std::vector<const ledger::Dated<Trip>*> departures(const World& world, const std::string& container);

}  // namespace coldtally::answers
