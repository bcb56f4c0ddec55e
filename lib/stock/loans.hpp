// Loans: doses of one fund given to somebody another fund should have paid for, open until they are repaid.
#pragma once

#include <set>

#include "coldtally/stewardship.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// `all`: also those that are repaid.
LoansAnswer loans(World& world, bool all);
/// Numbers of the gives that a known loan, made by the instant of the question, names.
std::set<EntryNumber> gives_on_loan(World& world);

/// Entries of a kind that are known and not void, and happened by the instant of the question, by (at, number).
std::vector<Entry> duties(World& world, std::string_view kind);

}  // namespace coldtally::answers
