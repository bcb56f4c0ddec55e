// Incidents: which excursions belong to which, and what each is known to be.
#pragma once

#include "coldtally/incidents.hpp"
#include "conditions/excursions.hpp"
#include "conditions/incident_spans.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// Excursions of one place that follow on each other, and the notice of them, are one incident over a weekend; a choice
/// of ours.
inline constexpr Duration joined_within{3 * 86400};

/// The steps that are known at the instant of the question.
std::vector<ledger::Dated<Incident>> incident_steps(const World& world);
/// The incidents that are open then, by name.
std::vector<IncidentSpan> open_incidents(const World& world);

/// Of a place (none: of all), or of the places in which a probe was, in [from, until) cut to the question. `others`:
/// says how many are outside that, for which all places are looked at.
IncidentsAnswer incidents(World& world, const std::optional<std::string>& place,
                          const std::optional<std::string>& probe, Instant from, Instant until, bool others = false);

}  // namespace coldtally::answers
