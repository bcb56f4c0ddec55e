// Lists: every holding with doses on exactly one of discard, quarantine-pending-guidance and keep, with its reasons.
#pragma once

#include "answers/last_use.hpp"
#include "answers/world.hpp"

namespace coldtally::answers {

ListsAnswer lists(World& world);
/// The rows of one lot's holdings with doses, ordered by holding.
std::vector<ListsAnswer::Row> listed(World& world, const ledger::Store::LotRow& lot);
/// The list and reasons of one holding with doses, at the world's instant, its history brought there. `seen`: what was met while
/// it was.
ListsAnswer::Row judge(World& world, const ledger::Store::LotRow& lot, const timeline::Holding& holding, const UseCollector& seen);

}  // namespace coldtally::answers
