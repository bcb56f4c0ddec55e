// Released: whether the record lets the holds of an incident go, and whether it still does once they were let go.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "conditions/incident_spans.hpp"
#include "conditions/time_in_doubt.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// The reason of a hold that comes with the notice of an incident in a place. Entries keep it, and the holds are known
/// again by it: it is no phrase.
std::string hold_reason(const std::string& incident, const std::string& place);

/// Holds of an incident in one place: since when, and of what.
struct HeldInPlace {
    std::int64_t at = INT64_MAX;
    std::set<std::string> products;
};
struct ReleaseJudged {
    std::vector<Remark> against;               ///< what stands against letting them go; empty: nothing
    std::optional<std::int64_t> from, until;   ///< the time that was looked at
};
/// By the record of a place up to the world's instant. `excursions`: one of the place belongs to the incident. `now`:
/// they are to be let go now, so that nothing later may be known.
void judge_release(World& world, const std::string& incident, const std::string& place, const HeldInPlace& held,
                   bool excursions, bool now, ReleaseJudged& out);

/// A closing that took back the holds of its incident: their voids stand just before it.
struct Release {
    EntryNumber closing = 0;
    std::vector<ledger::Dated<Hold>> holds;  ///< each of a place
};
/// None where the incident is open, or was closed without one.
std::optional<Release> release_of(const World& world, const IncidentSpan& span);

/// What the incidents that are closed at the world's instant are worth by what is known now.
struct Closings {
    /// Of those closed with a release that does not hold any more: each place, with what stands against it. Judged only
    /// where something was posted since that may touch it.
    std::vector<Doubt> lapsed;
    std::vector<IncidentSpan> unreleased;  ///< closed without a release that holds
};
const Closings& closings(World& world);
/// The times in doubt of incidents that were closed without a release that holds, by (incident, place, from); they end
/// at the closing.
std::vector<Doubt> closed_doubts(World& world);

}  // namespace coldtally::answers
