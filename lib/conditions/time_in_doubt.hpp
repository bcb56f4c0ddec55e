// Time in doubt: from the last good reading before something was noticed in a place until it was good again.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coldtally/incidents.hpp"
#include "conditions/incident_spans.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// A reading or check in a place's range.
struct Good {
    std::int64_t at;
    Rational celsius;
};

/// The last at or before t; with `after`, the first at or after it; none later than the question.
std::optional<Good> good_reading(World& world, const std::string& place, std::int64_t t, bool after);

/// One stretch of it, without a break.
struct Stretch {
    std::optional<Good> last_good;      ///< before it; none: it begins with what was out of range, or the notice
    std::optional<Good> back_in_range;  ///< at its end; none: not known to be over
    /// After its excursions, where it goes on because nothing in range was read since the notice.
    std::optional<Good> after_excursions;
    Window window;
};
/// The time in doubt of a place, for an incident with these excursions of it, by their beginning: from before the first
/// of them until after the last; and of each notice that lies in none of them a time of its own, from the last good
/// reading before it until a good one after it. What meets is one. Ascending, at least one.
std::vector<Stretch> time_in_doubt(World& world, const std::string& place,
                                   const std::vector<IncidentExcursion>& excursions,
                                   const std::vector<std::int64_t>& noticed);

/// One stretch of the time in doubt of one place of an incident that is open.
struct Doubt {
    std::string incident, place;
    std::int64_t from = 0, until = 0;
    bool over = false;  ///< the place is known to be good again
    std::optional<std::int64_t> closed = {};  ///< when it was closed, where it is not open
    /// Of an incident that was closed with a release that does not hold any more: what is said of its doses.
    std::optional<Remark> lapsed = {};
    /// By which it was noticed, the last of those entries: guidance that was posted before it answers nothing of it.
    EntryNumber noticed = 0;
};
/// Of all places of these incidents, by (incident, place, from); those of a closed one begin by its closing, and end
/// there.
std::vector<Doubt> doubts_over(World& world, const std::vector<IncidentSpan>& spans);
/// Those of open incidents; then the releases that do not hold any more.
const std::vector<Doubt>& open_doubts(World& world);

/// Incidents that are open of a place which is not known to be good again at the instant.
std::vector<std::string> doubted_now(World& world, const std::string& place);

}  // namespace coldtally::answers
