// What the words of a file state: titles and the lines before the rows.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "coldtally/quantities.hpp"

namespace coldtally::logger {

/// The scale a title names ("Temp °F", "Temp(C)", "Fahrenheit"); nothing where it names none or both.
std::optional<Scale> scale_in_title(std::string_view title);
/// The same in a line before the rows, where a single letter counts only beside "unit" or "scale".
std::optional<Scale> scale_in_line(std::string_view line);
/// The offset named as "UTC", "GMT-06:00", "UTC+1".
std::optional<Duration> offset_in(std::string_view text);
/// Above 0: likely the temperature of the probe; below 0: likely something else (humidity, alarm limit, serial number).
int temperature_score(std::string_view title);

}  // namespace coldtally::logger
