// Come back: doses that are received without a history and may be ones whose exposure this ledger knows.
#pragma once

#include <vector>

#include "coldtally/words.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// Doses of the lot that left before, or are in the book elsewhere, and were exposed, wait for something, or must not
/// be used: a line each. Empty: none, or it comes with a history, which is theirs. Expiry alone is on the box. A lot
/// that never was here costs nothing.
std::vector<Remark> may_come_back(World& world, const Receive& receive);

}  // namespace coldtally::answers
