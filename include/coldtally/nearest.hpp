// Nearest: what somebody may have meant by a word that is not known.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace coldtally {

/// The candidates that a word may be a slip of: letters left out, put in, changed or exchanged, about one in three; or
/// the word is how they begin. The nearest alone, at most three, in their order, none twice.
std::vector<std::string> nearest(std::string_view word, const std::vector<std::string>& candidates);

/// "; did you mean A?", "; did you mean A or B?"; nothing for none.
std::string did_you_mean(const std::vector<std::string>& candidates);

}  // namespace coldtally
