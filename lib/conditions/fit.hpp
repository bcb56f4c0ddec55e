// Fit: what a place's range means for a product that is put there.
#pragma once

#include <optional>
#include <string>

#include "coldtally/entries.hpp"
#include "coldtally/journeys.hpp"
#include "coldtally/words.hpp"

namespace coldtally::answers {

struct FitResult {
    Fit fit = Fit::unsuited;
    std::optional<std::size_t> allowance;  ///< with Fit::allowance: its index
};
FitResult fit(const Range& place, const Product& product);

/// Is a number of thousandths of a degree of the scale in the range?
bool is_in(const Range& range, Scale scale, std::int32_t thousandths);
/// Would a product that must not freeze do so in a place of this range? Not where an allowance of it covers the place.
bool freezes(const Range& place, const Product& product);

/// "2 to 8 °C (36 to 46 °F)", "at most 8 °C".
Field range_words(const Range& range);
/// Stored frozen: its range ends below 0 °C.
bool is_frozen(const Product& product);

}  // namespace coldtally::answers
