// Typed clock: dates and times as a site's people write them, made into the form in which instants are read.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "coldtally/quantities.hpp"

namespace coldtally {

/// Which number comes first in 11/02/2026.
enum class DateOrder {
    month_first,
    unknown,  ///< both are in use, or the day is first: what could be either is asked about
};
/// By the zone's country: month first in the United States and their territories (common practice there; the zones are
/// those that the zone database's zone.tab lists for them, and their old names).
DateOrder date_order(const std::string& zone);

/// "2026-11-02", "11/2/2026", "2.11.2026" (the day first), "today", "yesterday" as a date; none where the text has
/// none of these forms. Code::ambiguous for one with two readings, which names both; Code::bad_value for a date that no
/// calendar has.
std::optional<Date> typed_date(std::string_view text, const Zone& zone, Instant now);

/// "7:00", "07:00:30", "7 AM", "1:30 p.m." as "13:30:00"; none where it has none of these forms. Code::bad_value for a
/// time that no clock shows.
std::optional<std::string> typed_time(std::string_view text);

}  // namespace coldtally
