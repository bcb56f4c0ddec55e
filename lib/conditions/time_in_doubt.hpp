// Time in doubt: from the last good reading before something was noticed in a place until it was good again.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coldtally/incidents.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// A reading or check in a place's range.
struct Good {
    std::int64_t at;
    Rational celsius;
};

/// The last at or before t; with `after`, the first at or after it; none later than the question.
std::optional<Good> good_reading(World& world, const std::string& place, std::int64_t t, bool after);

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
/// Those of all places of open incidents, by (incident, place).
const std::vector<Doubt>& open_doubts(World& world);

/// Incidents that are open of a place which is not known to be good again at the instant.
std::vector<std::string> doubted_now(World& world, const std::string& place);

}  // namespace coldtally::answers
