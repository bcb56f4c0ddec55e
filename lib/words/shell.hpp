// Shell: a suggestion as a command of the command line. Nothing else in the library knows a command or an option.
#pragma once

#include "coldtally/words.hpp"

namespace coldtally::words {

/// "coldtally follow-up --lot K0123 --product mmr": words that mean something to a POSIX shell are in quotes.
std::string shell_line(const Suggestion& of);

}  // namespace coldtally::words
