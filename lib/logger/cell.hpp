// The temperature in a cell, as loggers write it: decimal comma, unit, plus sign.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "coldtally/quantities.hpp"

namespace coldtally::logger {

struct TemperatureCell {
    std::int32_t thousandths = 0;
    std::optional<Scale> unit;  ///< where the cell states one
    char decimal = '\0';        ///< '.' or ',' where the cell has one
    bool beyond = false;        ///< digits behind the thousandths that are not zero
    int shows = 1;  ///< the fewest places behind the decimal sign that say the number but for the noise of a binary
                    ///< fraction, 1 to 3; 4: none do
    std::string change;  ///< by how much it was rounded, "0.000000381"; empty: it was not
};

/// Without blanks around it, those of U+00A0 and U+202F included.
std::string_view trimmed(std::string_view cell) noexcept;

/// The scale that "C", "°F", "deg C", "Celsius", "℉" name; nothing for anything else.
std::optional<Scale> unit_of(std::string_view text) noexcept;

/// Reads digits with `decimal` ('.' or ','; '\0': either), in the cell's own scale or else in `scale`, rounded to
/// `places` (1 to 3) behind the decimal sign, halves away from zero; none: nothing is rounded, and a cell that is
/// `beyond` is not read. Returns an empty text, or why it cannot be read and what would be right.
std::string read_temperature(std::string_view cell, char decimal, Scale scale, std::optional<int> places,
                             TemperatureCell& out);

/// The places behind the decimal sign of a resolution of 0.1, 0.01 or 0.001 degrees: 1, 2 or 3; none of any other.
std::optional<int> places_of(std::optional<TemperatureDifference> resolution) noexcept;
/// 0.1, 0.01 or 0.001 degrees.
TemperatureDifference resolution_of(int places) noexcept;

/// Counts what was rounded.
struct Rounded {
    std::int64_t rows = 0;
    std::string largest;  ///< "0.000000381"; empty: none
    void add(const TemperatureCell& cell) {
        if (cell.change.empty()) return;
        ++rows;
        if (largest < cell.change)
            largest = cell.change;  // "0." and digits: as texts they are in the order of their values
    }
};

}  // namespace coldtally::logger
