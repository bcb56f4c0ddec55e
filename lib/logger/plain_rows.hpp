// Plain rows: the quick way through a large file in which every row is one line of the form that its layout states.
#pragma once

#include <optional>

#include "coldtally/logger.hpp"
#include "logger/guess.hpp"
#include "logger/rows.hpp"

namespace coldtally::logger {

/// The rows of a file in UTF-8 or Latin-1, and in `content` what they say; nothing as soon as a line is neither blank
/// nor a row that can be read (a record over several lines, a mark inside a cell, out of the pattern, in the other
/// scale ...), or where there are more than limits::logger_rows: the reader of all forms then reads the file from its
/// start, and says what is wrong. `layout` leaves nothing open but what `content` is to show, and ignores no rows.
std::optional<ClockedRows> read_plain_rows(const LoggerFile& file, const LoggerLayout& layout, bool latin1, Scale scale,
                                           Content& content);

}  // namespace coldtally::logger
