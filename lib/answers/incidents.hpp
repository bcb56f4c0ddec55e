// Incidents: which excursions belong to which, and what each is known to be.
#pragma once

#include "answers/excursions.hpp"
#include "answers/world.hpp"
#include "coldtally/incidents.hpp"

namespace coldtally::answers {

/// Incident entries that are known, by (at, number).
std::vector<ledger::Dated<Incident>> incident_steps(const World& world);

/// Incidents of the place that are noticed and not closed, by name.
std::vector<std::string> open_incidents(const World& world, const std::string& place);

/// Of a place (none: of all), or of the places in which a probe was, in [from, until) cut to the question.
IncidentsAnswer incidents(World& world, const std::optional<std::string>& place, const std::optional<std::string>& probe, Instant from, Instant until);

}  // namespace coldtally::answers
