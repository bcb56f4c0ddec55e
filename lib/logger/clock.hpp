// Clock: the instants of a file's rows, from what the logger's clock showed, and their order.
#pragma once

#include <string>
#include <vector>

#include "coldtally/entries.hpp"
#include "coldtally/logger.hpp"

namespace coldtally::logger {

struct ClockRow {
    int line;
    std::int64_t shown;            ///< what the clock showed, as seconds since 1970 on that clock; UTC where each row states its offset
    std::int32_t thousandths;
    bool has_reading;
};

struct TimedRow {
    int line;
    Instant at;
    std::int32_t thousandths;
};

struct ClockFindings {
    std::vector<std::string> remarks;    ///< what was settled
    std::vector<std::string> ambiguous;  ///< what was settled by less than the order of the rows
};

/// The instants of the rows with a reading, in the order they were logged. `zone` is that of the clock; null: it is at `offset`.
/// Code::bad_row: a local time that does not exist. Code::ambiguous: one that occurs twice and that the rows' order does not settle.
std::vector<TimedRow> settle_clock(const std::string& file, std::vector<ClockRow> rows, const Zone* zone, Duration offset, ClockFindings& findings);

/// By instant, equal rows once. Code::readings_differ: two readings of one instant. Code::ambiguous: rows that go back among
/// others, so that the clock may have been set back.
std::vector<Reading> put_in_order(const std::string& file, const std::vector<TimedRow>& rows, const Zone& site_zone, bool offset_clock, ClockFindings& findings);

}  // namespace coldtally::logger
