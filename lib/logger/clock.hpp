// Clock: the instants of a file's rows, from what the logger's clock showed, and their order.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coldtally/entries.hpp"
#include "coldtally/logger.hpp"
#include "logger/rows.hpp"

namespace coldtally::logger {

/// The clock of the rows from a line of the file on, up to the next one's.
struct ClockPart {
    int line = 1;
    std::optional<Zone> zone;  ///< not set: it is at `offset`
    Duration offset;           ///< what it shows less UTC
    bool stated = false;       ///< by zone or offset; else rows or one of them state it
};

/// The clocks of a file, ascending by line: that of the layout, then those that it states from a line on. `rows` are
/// those of the file, in its order. Code::bad_value where the layout names a line that is no row's, or a time that is
/// none.
std::vector<ClockPart> clock_parts(const std::string& file, const LoggerLayout& layout, bool rows_state_offset,
                                   const std::vector<FileRow>& rows, const Zone& site_zone);

/// A local time that does not exist.
struct SkippedTime {
    int line;
    std::int32_t offset_before_s;  ///< of the zone, before its clock is put forward
    std::int64_t shown;            ///< as the clock showed it, seconds since 1970
};
/// Why such a row cannot be read; `parts`: the clocks of its file.
std::string skipped_words(const SkippedTime& time, const std::vector<ClockPart>& parts);

struct ClockFindings {
    std::vector<Remark> remarks;       ///< what was settled
    std::vector<Remark> ambiguous;     ///< what was settled by less than the order of the rows
    std::vector<SkippedTime> skipped;  ///< these rows are left out
};

/// The instants of the rows with a reading, in the order they were logged. `rows`: `at` is what the clock showed, as
/// seconds since 1970 on that clock (UTC where each row states its offset). LoggerRefusal, Code::ambiguous: a time that
/// occurs twice and that the rows' order does not settle.
std::vector<FileRow> settle_clock(const std::string& file, std::vector<FileRow> rows,
                                  const std::vector<ClockPart>& parts, ClockFindings& findings);

/// By instant, equal rows once. Code::readings_differ: two readings of one instant. LoggerRefusal, Code::ambiguous:
/// rows that go back among others, so that the clock may have been set back.
std::vector<FileRow> put_in_order(const std::string& file, std::vector<FileRow> rows,
                                  const std::vector<ClockPart>& parts, const Zone& site_zone, ClockFindings& findings);

}  // namespace coldtally::logger
