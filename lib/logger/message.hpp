// The form of a refusal: file, line, field, value, what would be right.
#pragma once

#include <string>
#include <string_view>

#include "coldtally/error.hpp"
#include "text/json_text.hpp"

namespace coldtally::logger {

/// A cell as a quoted text, cut after 60 bytes.
inline std::string shown(std::string_view cell) {
    if (cell.size() <= 60) return text::quoted(cell);
    std::size_t end = 60;
    while (end > 0 && (static_cast<unsigned char>(cell[end]) & 0xC0) == 0x80) --end;  // not inside a character
    return text::quoted(std::string(cell.substr(0, end)) + "...");
}

inline Error at_line(Code code, const std::string& file, int line, const std::string& what) {
    return Error(code, file + ": line " + std::to_string(line) + ": " + what);
}

}  // namespace coldtally::logger
