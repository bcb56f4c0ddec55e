#include "words/lists.hpp"

namespace coldtally::words {

Field listed(const std::vector<Field>& all) {
    if (all.empty()) return none();
    Field out = all.front();
    for (std::size_t i = 1; i < all.size(); ++i) out = comma(std::move(out), all[i]);
    return out;
}

Field listed_with_and(const std::vector<Field>& all) {
    if (all.size() < 2) return listed(all);
    return both(listed({all.begin(), all.end() - 1}), all.back());
}

Field listed_with_or(const std::vector<Field>& all) {
    if (all.size() < 2) return listed(all);
    return either(listed({all.begin(), all.end() - 1}), all.back());
}

std::optional<Remark> semicolons(const std::vector<Remark>& all) {
    if (all.empty()) return std::nullopt;
    Remark out = all.front();
    for (std::size_t i = 1; i < all.size(); ++i) out = semicolon(std::move(out), all[i]);
    return out;
}

}  // namespace coldtally::words
