// Guess: what a layout leaves open, found in the file. What could be otherwise is said; nothing is guessed in silence.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/logger.hpp"
#include "logger/cell.hpp"
#include "logger/date_orders.hpp"
#include "logger/ignore_rows.hpp"
#include "logger/rows.hpp"

namespace coldtally::logger {

struct Guess {
    std::string file;                 ///< its name, for messages
    LoggerLayout layout;              ///< as given, then completed
    std::vector<Remark> guesses;
    std::vector<Remark> ambiguous;    ///< which of them could be otherwise, and how
    std::vector<std::string> titles;  ///< of the columns; empty where the file has none
};

/// Of a file's first row and those after it, so many lines are enough to see how it is laid out.
inline constexpr std::size_t structure_lines = 300;

/// Completes delimiter, skip_lines and columns from the first lines. Code::bad_row where no line looks like a row.
void guess_structure(Guess& guess, const Lines& lines, const IgnoreRows& ignore, Scale probe_scale);

/// What all rows of a file say of what the layout still leaves open.
struct Content {
    std::optional<std::string> time_pattern;  ///< where it is in a column of its own and not given
    DateOrders orders;                        ///< of date or instant; none where the layout gives the pattern
    std::string first_date;                   ///< that cell of the first row

    // of the temperatures that can be read
    std::size_t points = 0, commas = 0;  ///< decimal signs
    int places = 1;                      ///< behind the decimal sign, that say all of them
    int finest_line = 0;                 ///< of the first with digits behind the thousandths; 0: none has
    std::string finest_cell;
    std::optional<Scale> unit;           ///< of the first that has one
    void add(const TemperatureCell& t, int line, std::string_view cell);

    /// The median of them, in thousandths, in their own scale; none where there are none. Asked for where nothing else
    /// says the scale.
    std::function<std::optional<std::int32_t>()> median;
};

/// Looks at all rows. Code::bad_row where no date or time in them is recognised. Borrows `guess` and `rows`.
Content look_at(const Guess& guess, const RawRows& rows, Scale probe_scale);

/// Completes patterns, decimal, scale and clock from what the rows say, and from the lines before them.
/// Code::wrong_scale where the file states another than the probe's.
void guess_content(Guess& guess, const Lines& lines, const Content& content, const Zone& site_zone, Scale probe_scale);

/// The layout lists it as a text that means "no reading", or the cell is empty.
bool means_no_reading(const LoggerLayout& layout, std::string_view cell) noexcept;

}  // namespace coldtally::logger
