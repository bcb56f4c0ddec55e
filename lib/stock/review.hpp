// Review: doses given that may need a second look. It never says to repeat one.
#pragma once

#include "coldtally/stock.hpp"

#include "question/world.hpp"

namespace coldtally::answers {

/// `all`: also the doses that are clear.
ReviewAnswer review(World& world, bool all);
/// Those of one lot, by (at, entry).
std::vector<ReviewAnswer::Row> review_lot(World& world, const ledger::Store::LotRow& lot, bool all);

}  // namespace coldtally::answers
