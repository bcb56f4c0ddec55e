// Give records: gives of the records of others. What cannot be noted without a person who looks at it is left out with
// its reason, or refused.
#pragma once

#include <string_view>

#include "coldtally/immunizations.hpp"
#include "ledger/store.hpp"

namespace coldtally::answers {

/// The gives that the records of a text make. Throws for what must not be left out without somebody looking at it.
DraftedRecords give_records(const ledger::Store& store, const RecordsRequest& request, std::string_view text,
                            Instant now);

}  // namespace coldtally::answers
