// Doubt: the time from the last good reading before something was noticed in a place until it was good again, the doses
// that stood in it, and whether the record lets the holds of an incident go.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "answers/notes.hpp"
#include "coldtally/incidents.hpp"

namespace coldtally::answers {

/// A reading or check in a place's range.
struct Good {
    std::int64_t at;
    Rational celsius;
};

struct TimeInDoubt {
    std::optional<Good> last_good;      ///< before the first excursion, or before the notice; none: it begins with that
    std::optional<Good> back_in_range;  ///< at or after the last excursion, or the notice; none: not known to be over
    Window window;
};
/// Of a place, for an incident with these excursions of it, by their beginning.
TimeInDoubt time_in_doubt(World& world, const std::string& place, const std::vector<IncidentExcursion>& excursions,
                          std::int64_t noticed);

/// The time in doubt of one place of an incident that is open.
struct Doubt {
    std::string incident, place;
    std::int64_t from = 0, until = 0;
    bool over = false;  ///< the place is known to be good again
};
/// The doubts in which doses of this history stood and that no guidance has answered which cleared them, by incident,
/// each once. Where they stood in those of several incidents, guidance answers those alone that a report told its lot
/// of. `stays`: those of their lot.
std::vector<Doubt> doubts_of(World& world, const HoldingKey& holding, const History& history,
                             const StayCollector& stays);

/// Incidents that are open of a place which is not known to be good again at the instant.
std::vector<std::string> doubted_now(World& world, const std::string& place);

/// The reason of a hold that comes with the notice of an incident in a place; by it the holds are known again.
std::string hold_reason(const std::string& incident, const std::string& place);

/// Fills holds, against_release and the time that was looked at. An answer for all makers alone has them.
void add_release(World& world, IncidentAnswer& answer);

}  // namespace coldtally::answers
