// Clock: the only place where the program reads the time.
#pragma once

#include "coldtally/quantities.hpp"

namespace coldtally::cli {

/// The current whole second.
Instant current_instant();

}  // namespace coldtally::cli
