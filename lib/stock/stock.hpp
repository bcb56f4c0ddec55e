#pragma once
// Stock: which doses are where, and the accounts they came from and went to.

#include "coldtally/stock.hpp"

#include "question/world.hpp"

namespace coldtally::answers {

StockAnswer stock(World& world);

/// Doses that are in a place under a fund and a mark.
struct Present {
    ledger::Store::LotRow lot;
    HoldingKey holding;
    Doses doses;
};
/// All that are there at the world's instant, ordered by holding. From movements alone: nothing is judged and no trace
/// is read.
std::vector<Present> doses_present(const World& world);


}  // namespace coldtally::answers
