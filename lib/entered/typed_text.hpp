// Typed text: what people typed into an entry, to be searched.
#pragma once

#include <functional>
#include <string>

#include "text/json_text.hpp"

namespace coldtally::answers {

/// Every text of an entry that somebody typed: not its kind, instants, initials and a patient's token.
void for_each_typed(const text::Json& entry, const std::function<void(const std::string&)>& take);
/// As it is compared where capital letters and small ones, and composed and decomposed ones, make no difference. What
/// is not UTF-8 is left as it is.
std::string without_case(const std::string& text);

}  // namespace coldtally::answers
