#include "stock/given_doses.hpp"

#include <algorithm>

#include "words/lists.hpp"
#include "words/review.hpp"

namespace coldtally::answers {

Remark GivenDoses::words() const {
    constexpr std::size_t most_named = 20;
    std::vector<EntryNumber> entries = entries_;
    std::ranges::sort(entries);
    const std::size_t more = entries.size() - std::min(entries.size(), most_named);
    entries.resize(entries.size() - more);
    Remark named = words::entries_of(entries);
    if (more > 0) named = words::and_more(named, more);
    return words::doses_given(words::doses(doses_), named);
}

}  // namespace coldtally::answers
