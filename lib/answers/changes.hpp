// Changes: what lies between two states of a ledger, on stock, lists and review.
#pragma once

#include "answers/world.hpp"
#include "coldtally/drafts.hpp"

namespace coldtally::answers {

/// Lists and review of one state, to be compared with those of another.
struct Snapshot {
    ListsAnswer lists;
    ReviewAnswer review;
};
Snapshot snapshot(World& world);
Changes changes(const Snapshot& before, const Snapshot& after);

}  // namespace coldtally::answers
