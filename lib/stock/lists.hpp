// Lists: every holding with doses on exactly one of discard, quarantine-pending-guidance and keep, with its reasons.
#pragma once

#include "coldtally/stock.hpp"

#include "question/world.hpp"
#include "stock/last_use.hpp"
#include "stock/notes.hpp"

namespace coldtally::answers {

/// A row with its notes told apart; its `notes` are what they say.
struct Judged : ListsAnswer::Row {
    std::vector<Note> told;
    bool opened = false;  ///< they are of a vial that was opened
};

ListsAnswer lists(World& world);
/// The rows of the lots' holdings with doses, lot by lot; each trace is read once for all of them.
std::vector<Judged> listed(World& world, const std::vector<ledger::Store::LotRow>& lots);
/// The rows of one lot's holdings with doses, ordered by holding.
std::vector<Judged> listed(World& world, const ledger::Store::LotRow& lot);
/// The list and reasons of one holding with doses, at the world's instant, its history brought there. `seen`: what was
/// met while it was.
Judged judge(World& world, const ledger::Store::LotRow& lot, const timeline::Holding& holding,
             const UseCollector& seen);

}  // namespace coldtally::answers
