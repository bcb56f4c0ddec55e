// Draft rows: the drafts of a file made whole one after the other, each by the code that makes a single entry whole, as
// if those before it were posted.
#pragma once

#include "ledger/store.hpp"
#include "start/describe.hpp"

namespace coldtally::start {

/// In the caller's transaction, which is to be taken back: the store then has the rows that could be posted.
StartDraft draft_rows(ledger::Store& store, Description description, const StartRequest& request, Instant now);

}  // namespace coldtally::start
