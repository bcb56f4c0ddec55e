#include "stock/given_doses.hpp"

#include <algorithm>

namespace coldtally::answers {

std::string GivenDoses::words() const {
    constexpr std::size_t most_named = 20;
    std::vector<EntryNumber> entries = entries_;
    std::ranges::sort(entries);
    std::string named;
    for (std::size_t i = 0; i < std::min(entries.size(), most_named); ++i)
        named += (i == 0 ? "" : ", ") + std::to_string(entries[i]);
    if (entries.size() > most_named) named += " and " + std::to_string(entries.size() - most_named) + " more";
    return std::to_string(doses_) + (doses_ == 1 ? " dose" : " doses") + " given (" +
           (entries.size() == 1 ? "entry " : "entries ") + named + ")";
}

std::string unlisted(bool all) { return all ? "and listed as nothing found: " : "and not listed here: "; }

}  // namespace coldtally::answers
