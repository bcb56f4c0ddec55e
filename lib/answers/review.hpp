// Review: doses given that may need a second look. It never says to repeat one.
#pragma once

#include "answers/world.hpp"

namespace coldtally::answers {

/// `all`: also the doses that are clear.
ReviewAnswer review(World& world, bool all);
/// Doses that are clear and were given in the time in doubt of an open incident, to `not_listed`. Apart, since an
/// incident's report is made with a review.
void add_in_doubt(World& world, ReviewAnswer& answer, bool all);

/// Those of one lot, by (at, entry).
std::vector<ReviewAnswer::Row> review_lot(World& world, const ledger::Store::LotRow& lot, bool all);

}  // namespace coldtally::answers
