// Rule times: when a programme's conditions of what must be reported were met in a place.
#pragma once

#include "coldtally/incidents.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// The conditions that are for places of its type, in their order. Occasions that reach into the window count whole.
std::vector<RuleFinding> rule_findings(World& world, const ProgrammeRules& rules, const std::string& place,
                                       const Window& window);

/// `place`: none for all places. Code::not_known where the place is not defined.
RulesAnswer rules(World& world, const std::optional<std::string>& place, Instant from, Instant until);

/// Times in which a place held doses of one of the products (of any, where none are named), ascending, up to the
/// question's.
std::vector<std::pair<std::int64_t, std::int64_t>> times_with(World& world, const std::string& place,
                                                              const std::vector<std::string>& products);

}  // namespace coldtally::answers
