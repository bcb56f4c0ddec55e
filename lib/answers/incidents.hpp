// Incidents: which excursions belong to which, and what each is known to be.
#pragma once

#include <set>

#include "answers/excursions.hpp"
#include "answers/world.hpp"
#include "coldtally/incidents.hpp"

namespace coldtally::answers {

/// Excursions of one place that follow on each other, and the notice of them, are one incident over a weekend; a choice
/// of ours.
inline constexpr Duration joined_within{3 * 86400};

/// Incident entries that are known, by (at, number).
std::vector<ledger::Dated<Incident>> incident_steps(const World& world);

/// An incident that is noticed and not closed.
struct OpenIncident {
    std::string incident;
    std::int64_t noticed = 0;
    std::set<std::string> places;  ///< none: it is of all

    bool of(const std::string& place) const { return places.empty() || places.contains(place); }
};
/// By name.
std::vector<OpenIncident> open_incidents(const World& world);

/// Of a place (none: of all), or of the places in which a probe was, in [from, until) cut to the question.
IncidentsAnswer incidents(World& world, const std::optional<std::string>& place, const std::optional<std::string>& probe, Instant from, Instant until);

}  // namespace coldtally::answers
