// Review work: what a review that lists findings does not list, and must not be read as "nothing happened".
#pragma once

#include <string>
#include <vector>

#include "coldtally/ledger.hpp"

namespace coldtally {

/// Doses given at which nothing was found, in words: those given in the time in doubt of an incident that is open, and
/// those that, by the at-most sums, may have been out of range for longer than the least of their allowances, or may
/// have frozen. Empty: there are none. Throws as Ledger::review.
std::vector<std::string> beside_review(const Ledger& ledger, const Question& question, Instant now);

}  // namespace coldtally
