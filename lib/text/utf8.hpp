// UTF-8 text: is it valid, how many characters has it, are they printable.
#pragma once

#include <cstddef>
#include <string_view>

namespace coldtally::text {

/// Valid UTF-8 without NUL.
bool valid_utf8(std::string_view text);
/// Code points of a valid text.
std::size_t length(std::string_view text);
/// A valid text without control, unassigned, surrogate and private characters and without line or paragraph separators.
bool printable(std::string_view text);
/// Begins or ends with a blank of any script.
bool has_outer_blanks(std::string_view text);

}  // namespace coldtally::text
