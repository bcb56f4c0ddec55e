// Incident report: the whole of one incident, for those who must be told; and guidance made from a report that was
// sent.
#pragma once

#include "conditions/incidents.hpp"
#include "stock/departed.hpp"

namespace coldtally::answers {

/// Code::not_known where no entry of the incident is known, or no affected product is of the maker.
IncidentAnswer incident(World& world, const std::string& id, const std::optional<std::string>& maker);

/// What became of the programme's conditions in its places, without the rest; empty where no entry of it is known.
std::vector<RuleFinding> findings_of(World& world, const std::string& id);

}  // namespace coldtally::answers
