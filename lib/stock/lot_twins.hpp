// Lot twins: lot numbers that are taken for each other when written or typed.
#pragma once

#include <string>
#include <vector>

#include "question/world.hpp"

namespace coldtally::answers {

/// Lots, in the order of lots(), whose numbers are another way to read this one: O and 0, I, l and 1, capital and small
/// letters, hyphens and blanks. The number itself is not among them.
std::vector<ledger::Store::LotRow> lot_twins(const World& world, const std::string& number);

}  // namespace coldtally::answers
