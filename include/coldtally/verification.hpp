// Verification: what a check of the whole file found.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/entries.hpp"
#include "coldtally/words.hpp"

namespace coldtally {

/// What `verify` found. Empty findings: the ledger is as it was posted.
struct Verification {
    EntryNumber entries = 0;
    std::int64_t readings = 0;
    std::string chain;                  ///< SHA-256 of the last link, hexadecimal: see link_to_note
    std::vector<Remark> findings;       ///< the first hundred, and a last one that counts the rest
    std::int64_t findings_in_all = 0;
};

/// The same of a file that is too damaged to be read at all: that, as its one finding.
Verification not_readable(const Error& damage);

/// A link noted down on paper: "931:3f2a9c01d2e4b5a6", the number of an entry and the first digits, at least 16, of its
/// link. A ledger that was replaced as a whole, with links of its own, does not have it.
struct NotedLink {
    EntryNumber entry = 0;
    std::string digits;  ///< hexadecimal, lower case
    std::string text() const;
};
/// Code::bad_value.
NotedLink parse_noted_link(std::string_view text);
/// That of the last entry, as it is to be noted down; none for a ledger that is not as it was posted.
std::optional<NotedLink> link_to_note(const Verification& found);

}  // namespace coldtally
