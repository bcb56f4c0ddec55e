// Funds: those that deliveries have named.
#pragma once

#include <set>
#include <string>

#include "ledger/known.hpp"

namespace coldtally::ledger {

/// Funds of deliveries that are known, the empty one among them. Ends with the first that stands of each fund.
std::set<std::string> funds_used(const Store& store, const Known& known);

}  // namespace coldtally::ledger
