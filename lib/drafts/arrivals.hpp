// Arrivals: what the lists will say of doses that entries bring into a place, by what is known of the time since.
#pragma once

#include <optional>
#include <map>
#include <string>
#include <vector>

#include "coldtally/drafts.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// Doses that come into a holding; moved: out of another.
struct Arrival {
    HoldingKey target;
    std::optional<HoldingKey> source;
};
/// Of receives, and of moves into another place before `now`: those of now are judged as what they were.
std::vector<Arrival> arrivals(const std::vector<Entry>& entries, Instant now);

/// Of each holding the list that it is on; without doses: none. One pass over each lot.
std::map<HoldingKey, List> lists_of(World& world, const std::vector<Arrival>& arrivals);

/// A sentence for each target that is not on keep, in the world that knows the entries; of doses moved where they were
/// on a better list before. What the warnings say already is not said again.
std::vector<Remark> must_not_be_used(World& world, const std::vector<Arrival>& arrivals,
                                     const std::map<HoldingKey, List>& before,
                                     const std::vector<Remark>& warnings);

}  // namespace coldtally::answers
