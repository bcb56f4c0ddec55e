// Shell word: a word of a command line that somebody copies.
#pragma once

#include <string>
#include <string_view>

namespace coldtally::text {

/// The text as one word of a POSIX shell: as it is where nothing in it means anything there, else in quotes.
std::string shell_word(std::string_view text);

}  // namespace coldtally::text
