// Draft: makes an everyday entry whole.
#pragma once

#include <string_view>

#include "coldtally/drafts.hpp"
#include "ledger/store.hpp"

namespace coldtally::answers {

/// See Ledger::draft. `store` null: a ledger that is still to be made.
Drafted draft(const ledger::Store* store, std::string_view json, Instant now);

}  // namespace coldtally::answers
