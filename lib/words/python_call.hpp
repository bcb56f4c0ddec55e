// Python call: a suggestion as a call of the Python package.
#pragma once

#include "coldtally/words.hpp"

namespace coldtally::words {

/// "ledger.follow_up(lot='K0123', product='mmr')"; without a task its parameters alone: "despite='...'".
std::string python_call(const Suggestion& of);

}  // namespace coldtally::words
