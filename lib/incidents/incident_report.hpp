// Incident report: the whole of one incident, for those who must be told; and guidance made from a report that was
// sent.
#pragma once

#include "conditions/incidents.hpp"

namespace coldtally::answers {

/// Code::not_known where no entry of the incident is known, or no affected product is of the maker.
IncidentAnswer incident(World& world, const std::string& id, const std::optional<std::string>& maker);

/// What became of the programme's conditions in its places, without the rest; empty where no entry of it is known.
std::vector<RuleFinding> findings_of(World& world, const std::string& id);

/// "4 doses of mmr lot K1, sent from main to Elm Practice 2026-03-02 09:30 (entry 24)"
std::string left_words(const IncidentAnswer::Left& left, const Zone& zone);
/// Who must be told of them, and how.
std::string left_advice(const IncidentAnswer::Left& left);

}  // namespace coldtally::answers
