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
};

/// Without blanks around it, those of U+00A0 and U+202F included.
std::string_view trimmed(std::string_view cell) noexcept;

/// The scale that "C", "°F", "deg C", "Celsius", "℉" name; nothing for anything else.
std::optional<Scale> unit_of(std::string_view text) noexcept;

/// Reads digits with `decimal` ('.' or ','; '\0': either), in the cell's own scale or else in `scale`.
/// Returns an empty text, or why it cannot be read and what would be right.
std::string read_temperature(std::string_view cell, char decimal, Scale scale, TemperatureCell& out);

}  // namespace coldtally::logger
