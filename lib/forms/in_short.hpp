// In short: remarks as a line of a table has room for them. What they warn of stays; where it comes from, and what is
// to be done about it at length, is in the whole remark.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "coldtally/forms.hpp"

namespace coldtally::forms {

/// A phrase, the one that says it in short, and which fields of the first are those of the second, in its order.
struct ShortForm {
    const Phrase& of;
    const Phrase& says;
    std::vector<std::size_t> fields;
};
std::span<const ShortForm> short_forms();

/// The remark itself where nothing is shorter.
Remark shorter(const Remark& remark);

/// The gravest of the reasons: "too warm". How much of it is for the whole paragraph, which says what of that an
/// allowance covers. None of none.
std::optional<Remark> gravest_words(const std::vector<Reason>& reasons);

}  // namespace coldtally::forms
