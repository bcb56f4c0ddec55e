// Guess: what a layout leaves open, found in the file. What could be otherwise is said; nothing is guessed in silence.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "coldtally/logger.hpp"
#include "logger/ignore_rows.hpp"
#include "logger/rows.hpp"

namespace coldtally::logger {

struct Guess {
    std::string file;                    ///< its name, for messages
    LoggerLayout layout;                 ///< as given, then completed
    std::vector<std::string> guesses;    ///< a line each
    std::vector<std::string> ambiguous;  ///< which of them could be otherwise, and how
    std::vector<std::string> titles;     ///< of the columns; empty where the file has none
};

/// Completes delimiter, skip_lines and columns from the first lines. Code::bad_row where no line looks like a row.
void guess_structure(Guess& guess, const Lines& lines, const IgnoreRows& ignore, Scale probe_scale);

/// Completes patterns, decimal, scale and clock from all rows, and from the lines before them. Code::wrong_scale where
/// the file states another than the probe's.
void guess_content(Guess& guess, const Lines& lines, const RawRows& rows, const Zone& site_zone, Scale probe_scale);

/// The layout lists it as a text that means "no reading", or the cell is empty.
bool means_no_reading(const LoggerLayout& layout, std::string_view cell) noexcept;

}  // namespace coldtally::logger
