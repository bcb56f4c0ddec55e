// Incident report: the whole of one incident, for those who must be told.
#pragma once

#include "coldtally/incidents.hpp"

#include "conditions/incidents.hpp"
#include "stock/departed.hpp"

namespace coldtally::answers {

/// Code::not_known where no entry of the incident is known, or no affected product is of the maker.
IncidentAnswer incident(World& world, const std::string& id, const std::optional<std::string>& maker);

/// Its doses that were given and that left, of all makers, without the rest; empty where no entry of it is known.
IncidentAnswer given_and_left(World& world, const std::string& id);
/// Has the answer of the maker of a lot left none of its doses waiting?
bool is_answered(const IncidentAnswer& answer, const std::string& product, const std::string& lot);

/// What became of the programme's conditions in its places, without the rest; empty where no entry of it is known.
std::vector<RuleFinding> findings_of(World& world, const std::string& id);

/// Its affected places and what they were in its time in doubt, without the rest; empty where no entry of it is known.
std::vector<IncidentAnswer::Unit> units_of(World& world, const std::string& id);

/// A maker's name; where it is empty, that none is known for the product.
Field maker_words(const std::string& maker, const std::string& product);
/// Who does it, or answers; none where it is no maker.
std::optional<Field> who_words(const DutyClock& duty);

}  // namespace coldtally::answers
