// Last day: until when a thing that must be done again is good.
#pragma once

#include <optional>
#include <string>

#include "coldtally/words.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// The programme's days for a thing ("plan review"); none where its rules say nothing of it.
std::optional<std::int64_t> every_days(const World& world, const std::string& what);

/// The last day on which a thing is good, and who says so.
struct LastDay {
    Date day;
    Remark said_by;
};
/// The earlier of the day that is stated, and of `done` and so many days; none where there is neither.
std::optional<LastDay> last_day(const std::optional<Date>& stated, const std::optional<Date>& done,
                                std::optional<std::int64_t> days);

}  // namespace coldtally::answers
