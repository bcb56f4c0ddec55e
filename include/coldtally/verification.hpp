// Verification: what a check of the whole file found.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "coldtally/entries.hpp"

namespace coldtally {

/// What `verify` found. Empty findings: the ledger is as it was posted.
struct Verification {
    EntryNumber entries = 0;
    std::int64_t readings = 0;
    std::string chain;  ///< SHA-256 of the last link, hexadecimal: note it down to detect a replaced file later
    std::vector<std::string> findings;
};

}  // namespace coldtally
