// Draft: makes an everyday entry whole.
#pragma once

#include <string_view>

#include "coldtally/drafts.hpp"
#include "ledger/store.hpp"

namespace coldtally::answers {

/// See Ledger::draft. `store` null: a ledger that is still to be made.
Drafted draft(const ledger::Store* store, std::string_view json, Instant now);

/// "08:05" is today in the zone, "2026-03-02 08:05" and "2026-03-02T08:05" are local; all that parse_instant takes, too.
/// The form of entries.
std::string full_instant(const std::string& text, const Zone& zone, Instant now);

}  // namespace coldtally::answers
