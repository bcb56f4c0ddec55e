// What a layout must hold to be used, however it was made.
#pragma once

#include <string>

#include "coldtally/logger.hpp"

namespace coldtally::logger {

/// Code::bad_value, the message beginning with `where` and the field's name as in a layout file.
void check_layout(const LoggerLayout& layout, const std::string& where);

/// "-06:00"
std::string offset_text(Duration offset);

}  // namespace coldtally::logger
