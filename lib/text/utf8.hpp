// UTF-8 text: is it valid, how many characters has it, are they printable.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace coldtally::text {

/// Valid UTF-8 without NUL.
bool valid_utf8(std::string_view text);
/// Code points of a valid text.
std::size_t length(std::string_view text);
/// The same of any bytes: those that do not go on a character.
std::size_t characters(std::string_view text);
/// Of a text over `most` characters its first `most` - 1 and "…", never cut inside a character; else the text as it is.
/// What is not UTF-8 is cut all the same.
std::string beginning(std::string_view text, std::size_t most);
/// Holds a mark that turns the direction of writing (U+061C, U+200E, U+200F, U+202A to U+202E, U+2066 to U+2069): what
/// stands behind it is shown in another order than it is kept in.
bool turns_direction(std::string_view text);
/// With each of these marks written as JSON escapes it ("\u202e"), so that a message is read as it stands.
std::string with_marks_shown(std::string_view text);
/// A valid text without control, unassigned, surrogate and private characters and without line or paragraph separators.
bool printable(std::string_view text);
/// Begins or ends with a blank of any script.
bool has_outer_blanks(std::string_view text);

}  // namespace coldtally::text
