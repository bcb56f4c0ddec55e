// Rule times: when a programme's conditions of what must be reported were met in a place.
#pragma once

#include "coldtally/incidents.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// The conditions that are for places of its type, in their order. Occasions that reach into the window count whole.
std::vector<RuleFinding> rule_findings(World& world, const ProgrammeRules& rules, const std::string& place,
                                       const Window& window);

/// Is what names types of places, or none for all of them, for this one?
bool is_for(const std::vector<PlaceType>& types, PlaceType type);
/// That no condition of the programme is for places of this type; none where one is.
std::optional<Remark> no_condition_for(const ProgrammeRules& rules, PlaceType type);

/// `place`: none for all places. Code::not_known where the place is not defined.
RulesAnswer rules(World& world, const std::optional<std::string>& place, Instant from, Instant until);

/// Times in which a place held doses of one of the products (of any, where none are named), ascending, up to the
/// question's. `since`: those that ended before it may be left out, and lots that were gone by then are not read.
std::vector<std::pair<std::int64_t, std::int64_t>> times_with(World& world, const std::string& place,
                                                              const std::vector<std::string>& products,
                                                              std::int64_t since = -trace::forever);

}  // namespace coldtally::answers
