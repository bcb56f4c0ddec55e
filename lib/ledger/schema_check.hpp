// Schema check: are the tables, indexes and triggers of a file those of the format, each and no other?
#pragma once

#include <vector>

#include "coldtally/words.hpp"
#include "ledger/database.hpp"

namespace coldtally::ledger {

/// What is there and is not the format's, or is the format's and not there: a line each, none where they agree.
std::vector<Remark> schema_findings(Database& database);

}  // namespace coldtally::ledger
