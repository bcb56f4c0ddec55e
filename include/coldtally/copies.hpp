// Copies: of a ledger that is in use, and back.
#pragma once

#include <cstdint>
#include <string>

#include "coldtally/quantities.hpp"
#include "coldtally/verification.hpp"

namespace coldtally {

/// A copy that was made and verified.
struct LedgerCopy {
    std::string path;
    Verification verified;     ///< without findings
    std::int64_t format = 0;       ///< of the file it was made from
    std::int64_t format_now = 0;   ///< its own
};

/// Copies a ledger that may be in use, as it is at one instant, into a new file for its owner alone; verifies the copy,
/// and only then puts it at `copy`. Nothing is left there where it throws. Readers and the copy do not wait for each
/// other; a post waits for the copy. `wait`: how long to wait for a post. Code::ledger_exists where `copy` is there;
/// Code::damaged, with the first finding, where what was copied does not verify; the codes of opening; Code::busy,
/// Code::machine.
LedgerCopy back_up(const std::string& ledger, const std::string& copy, Duration wait = Duration(10));

/// The same from a copy to a new ledger. A copy of an older format is posted anew, entry by entry, and its chain must
/// come out the same, to the last entry that it says it had: the copy stays what it is.
LedgerCopy restore(const std::string& copy, const std::string& ledger, Duration wait = Duration(10));

}  // namespace coldtally
