// What a layout must hold to be used, however it was made.
#pragma once

#include <string>

#include "coldtally/logger.hpp"

namespace coldtally::logger {

/// Code::bad_value, the message beginning with `where` and the field's name as in a layout file.
void check_layout(const LoggerLayout& layout, const std::string& where);

/// "-06:00"; "-06:00:30" where the seconds are not 0.
std::string offset_text(Duration offset);

/// The right time of a row, as a layout states it: "2026-03-02T08:30:00", with a blank for the T and without the
/// seconds as well. Code::bad_value, Code::ambiguous.
Instant right_time(const std::string& text, const Zone& site_zone);

}  // namespace coldtally::logger
