// Lists: several things said as one.
#pragma once

#include <optional>
#include <vector>

#include "words/general.hpp"

namespace coldtally::words {

/// "a, b, c"; words::none of nothing.
Field listed(const std::vector<Field>& all);
/// "a", "a and b", "a, b and c"; words::none of nothing.
Field listed_with_and(const std::vector<Field>& all);
/// "a", "a or b", "a, b or c"; words::none of nothing.
Field listed_with_or(const std::vector<Field>& all);
/// "a; b; c"; none of nothing.
std::optional<Remark> semicolons(const std::vector<Remark>& all);
/// "entry 4", "entries 4, 7".
template <class Numbers>
Remark entries_of(const Numbers& numbers) {
    std::vector<Field> all;
    for (const auto& number : numbers) all.emplace_back(number);
    return all.size() == 1 ? entry(all.front()) : entries(listed(all));
}
/// Texts as fields.
template <class Texts>
Field names(const Texts& texts) {
    return listed(std::vector<Field>(texts.begin(), texts.end()));
}

}  // namespace coldtally::words
