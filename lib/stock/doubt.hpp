// Doubt: which doses stood in the time in doubt of an incident that is open, and have no answer about it.
#pragma once

#include <string>
#include <vector>

#include "conditions/time_in_doubt.hpp"
#include "stock/notes.hpp"

namespace coldtally::answers {

/// The doubts in which doses of this history stood and that no guidance has answered which cleared them, by (incident,
/// place, from): the time in doubt of an incident may have several parts. Guidance answers what had been noticed when
/// it was posted; where they stood in the doubt of several incidents, those alone that a report before it told its lot
/// of. `stays`: those of their lot.
std::vector<Doubt> doubts_of(World& world, const HoldingKey& holding, const History& history,
                             const StayCollector& stays);
/// Their incidents, each once.
std::vector<std::string> incidents_of(const std::vector<Doubt>& doubts);

/// The first of each incident, of doses that were gone by `gone`, among doubts of incidents that were closed,
/// conditions/released.hpp: that was no answer for them. What was here at the closing was put on hold, or decided
/// about.
std::vector<Doubt> doubts_of(World& world, const std::vector<Doubt>& closed, std::int64_t gone,
                             const HoldingKey& holding, const History& history, const StayCollector& stays);
/// Of the same doses, what is said of releases that let them go and do not hold any more.
std::vector<Remark> lapsed_of(World& world, const HoldingKey& holding, const History& history,
                              const StayCollector& stays);

/// An open incident in whose time in doubt doses stood, and the guidance that settles it for them.
struct Settled {
    std::string incident;
    const ledger::Dated<Guidance>* guidance;
};
/// Of the same doses, those that doubts_of leaves out because guidance has answered, by incident, each once.
std::vector<Settled> settled_of(World& world, const HoldingKey& holding, const History& history,
                                const StayCollector& stays);
/// "INCIDENT 2026-1 IS OPEN: for these doses it is settled by guidance of entry 13 (use; Maker, case 1)"
Remark settled_words(const Settled& settled);

}  // namespace coldtally::answers
