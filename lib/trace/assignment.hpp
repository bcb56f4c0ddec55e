// Assignment: when which probe was in a place.
#pragma once

#include <cstdint>
#include <limits>
#include <string>
#include <vector>

#include "ledger/known.hpp"

namespace coldtally::trace {

inline constexpr std::int64_t forever = std::numeric_limits<std::int64_t>::max() / 4;

struct Assignment {
    std::int64_t from = 0, until = forever;  ///< from included, until excluded
    std::string probe, place;
};

/// Every stretch in which a probe was in a place, in the order of the assign entries. Some have no length.
std::vector<Assignment> assignments(const ledger::Known& known);

}  // namespace coldtally::trace
