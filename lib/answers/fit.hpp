// Fit: what a place's range means for a product that is put there.
#pragma once

#include <optional>
#include <string>

#include "coldtally/entries.hpp"
#include "coldtally/journeys.hpp"

namespace coldtally::answers {

struct FitResult {
    Fit fit = Fit::unsuited;
    std::optional<std::size_t> allowance;  ///< with Fit::allowance: its index
};
FitResult fit(const Range& place, const Product& product);

/// "2 to 8 °C (36 to 46 °F)", "at most 8 °C".
std::string range_words(const Range& range);
/// Stored frozen: its range ends below 0 °C.
bool is_frozen(const Product& product);

}  // namespace coldtally::answers
