// Put back: holds that a release let go, which does not hold any more with what is to be posted.
#pragma once

#include <vector>

#include "coldtally/definition_work.hpp"
#include "coldtally/ledger.hpp"

namespace coldtally {

/// Adds them to what is to be posted, dated as it is or now, by the same person.
void put_back_holds(const Ledger& ledger, const std::vector<Hold>& holds, Drafted& drafted, Instant now);

/// definition_draft of what was drafted already, of one entry or a batch of them.
DefinitionDraft definition_draft(Ledger& ledger, Drafted drafted, Instant now);

}  // namespace coldtally
