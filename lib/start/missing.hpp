// Missing: what a ledger that was begun still lacks, in the order in which to see to it.
#pragma once

#include "question/world.hpp"

namespace coldtally::start {

/// A sentence without its stop each, with the task that sees to it. `readiness` tells more, and since when.
std::vector<Remark> missing(answers::World& world);

}  // namespace coldtally::start
