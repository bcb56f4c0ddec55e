// Words: quantities as people say them.
#pragma once

#include <string>

#include "coldtally/quantities.hpp"

namespace coldtally {

/// "3 h 20 min", "2 d 4 h", "45 s"; `up`: rounded up (exposure), else down (what is left).
std::string duration_words(const Rational& seconds, bool up);

}  // namespace coldtally
