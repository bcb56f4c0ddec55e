// Packing and unpacking a container: the entries of each as one batch.
#pragma once

#include "coldtally/drafts.hpp"
#include "coldtally/journeys.hpp"
#include "ledger/store.hpp"

namespace coldtally::answers {

Drafted pack(const ledger::Store& store, const PackRequest& request, Instant now);
Drafted unpack(const ledger::Store& store, const UnpackRequest& request, Instant now);

}  // namespace coldtally::answers
