// Sample: some lines of a large file, by which it is guessed how all of it is laid out.
#pragma once

#include <string>

#include "coldtally/logger.hpp"

namespace coldtally::logger {

/// The first lines of a file, so many that guess_structure() asks for no more, and single ones from all over the rest,
/// to its end. Empty for a file that is not larger than that, or whose lines do not end in LF bytes.
std::string sample_of(const LoggerFile& file, int skip_lines);

}  // namespace coldtally::logger
