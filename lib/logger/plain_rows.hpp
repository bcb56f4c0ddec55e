// Plain rows: the quick way through a large file in which every row has the same plain form.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "coldtally/logger.hpp"
#include "logger/cell.hpp"
#include "logger/rows.hpp"

namespace coldtally::logger {

struct PlainRows {
    std::vector<FileRow> rows;  ///< strictly ascending; their lines are not kept
    std::int64_t without_reading = 0;
    Rounded rounded;
};

/// The rows of a file after the layout's skip_lines, where each row states its instant in UTC or the layout an offset;
/// nothing as soon as a row is not plain (quoted, blank, not in order, out of the pattern ...): the reader of all forms
/// then reads the file from its start, and says what is wrong. `layout` leaves nothing open.
/// Nothing, too, where there are more than limits::logger_rows.
std::optional<PlainRows> read_plain_rows(const LoggerFile& file, const LoggerLayout& layout, Scale scale);
std::optional<PlainRows> read_plain_rows(std::string_view content, const LoggerLayout& layout, Scale scale);

}  // namespace coldtally::logger
