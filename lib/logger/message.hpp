// The form of a refusal: file, line, field, value, what would be right.
#pragma once

#include <string>
#include <string_view>

#include "coldtally/error.hpp"
#include "text/json_text.hpp"

namespace coldtally::logger {

/// A cell as a quoted text, cut where it is long.
inline std::string shown(std::string_view cell) { return text::quoted(cell); }

inline Error at_line(Code code, const std::string& file, int line, const std::string& what) {
    return Error(code, file + ": line " + std::to_string(line) + ": " + what);
}

}  // namespace coldtally::logger
