// Verify: is the ledger what was posted? The chain of entries, the readings, and every row that is made from them.
#pragma once

#include <optional>

#include "coldtally/verification.hpp"
#include "ledger/store.hpp"

namespace coldtally::ledger {

/// Reads the whole file in the caller's transaction and changes nothing. Findings name the entry, or the block of
/// readings. `noted`: a link that the chain must have.
Verification verify(const Store& store, const std::optional<NotedLink>& noted = {});

}  // namespace coldtally::ledger
