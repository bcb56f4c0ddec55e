// UTF-16 text: as UTF-8.
#pragma once

#include <string>
#include <string_view>

namespace coldtally::text {

/// Appends the text to `out`. Returns an empty text, or what is damaged: then `out` has all that is before it.
std::string utf16_to_utf8(std::string_view bytes, bool little_endian, std::string& out);

}  // namespace coldtally::text
