// Question: the instant asked about and the one asked from, how they are typed, and what every answer begins with.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "coldtally/entries.hpp"
#include "coldtally/words.hpp"

namespace coldtally {

/// The instant A asked about, and the instant K on which it is asked from: entries recorded after K are not seen.
/// Where one is not given, Ledger uses the instant passed as now, or that of the last entry where that is later.
struct Question {
    std::optional<Instant> at, known_on;
};

/// What every answer begins with.
struct AnswerHead {
    std::string ledger;  ///< the site's name
    Instant at, known_on;
    EntryNumber last_entry = 0;  ///< the highest entry number known
    std::optional<Remark> window;  ///< of an answer about a window: the window, by the site's clock
};
/// "from 2026-03-01 00:00 through the end of 2026-03-07"; "until 2026-03-07 12:00" where it does not end with a day;
/// and that it is seen up to `at` only, where it ends later.
Remark window_words(Instant from, Instant until, Instant at, const Zone& zone);

/// As people type it: "08:05" or "1:30 PM" is today in the zone; "2026-03-02 08:05", "11/02/2026 7:00 AM" (the month
/// first where the zone's country writes so), "2.11.2026 7:00" (the day first) and "yesterday 16:20" are local; all
/// that parse_instant takes, too, with its errors. Code::bad_value for another form, which says what to write;
/// Code::ambiguous for a date of two readings, which names both.
Instant typed_instant(std::string_view text, const Zone& zone, Instant now);

/// The same for the beginning of a window, where a date alone is the first instant of that day.
Instant typed_from(std::string_view text, const Zone& zone, Instant now);

/// The same for its end, which is not in it, where a date alone includes that day: the first instant of the next.
/// Code::contradiction for a date of which nothing lies after `from`.
Instant typed_until(std::string_view text, const Zone& zone, Instant now, std::optional<Instant> from = std::nullopt);

/// As people type it: "28 days", "96 h", "30 min", "3d", "1 h 30 min". Code::bad_value for anything else, a number
/// without a unit and more than 1000 years included.
Duration typed_duration(std::string_view text);

}  // namespace coldtally
