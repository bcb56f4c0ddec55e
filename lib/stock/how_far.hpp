// How far: how warm or cold doses were, of two states of what is known of them. Time alone does not tell it.
#pragma once

#include <string>
#include <vector>

#include "coldtally/exposure.hpp"
#include "coldtally/words.hpp"

namespace coldtally::answers {

/// "11 °C (51.8 °F)": to the tenth of a degree, rounded upwards where `warm`, else downwards.
std::string degrees_words(const Rational& celsius, bool warm);

/// Is the highest (`warm`) or lowest of `is` out of the range on that side, and further than that of `was`?
bool goes_further(const Range& range, const Exposure& was, const Exposure& is, bool warm);

/// "highest 8.6 °C (47.5 °F) -> 28.6 °C (83.5 °F)": of each side on which `is` goes further.
std::vector<Remark> further_out(const Range& range, const Exposure& was, const Exposure& is);
/// The same of each side on which it goes less far.
std::vector<Remark> less_far_out(const Range& range, const Exposure& was, const Exposure& is);

/// Does `part` go further than `whole` on a side on which it was out of range?
bool goes_beyond(const Exposure& whole, const Exposure& part);

}  // namespace coldtally::answers
