// May be more: what the at-most sums of a history show and the estimates, which alone decide a list or a finding, do
// not.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "coldtally/entries.hpp"
#include "coldtally/exposure.hpp"
#include "coldtally/words.hpp"

namespace coldtally::answers {

/// Time without a known temperature that nobody should overlook, whatever the site lets pass: a choice of ours.
inline constexpr Duration much_unknown{4 * 3600};
/// That much of it is open, and that the site's own limit lets it pass; none where that is not so.
std::optional<Remark> unknown_let_pass(const History& history, Duration limit);

/// Time out of range, for at most longer than by the estimate, and than the product permits.
struct MayBeMore {
    bool warm = false, cold = false;       ///< on which side; both where one allowance is for both
    Rational at_most, estimate;            ///< seconds since receipt
    std::optional<std::size_t> allowance;  ///< the strictest that may be over, as an index; none: the product has none
    Rational allowed;                      ///< seconds
};
/// By side. Without an allowance, only where no time that is open by the estimate is a reason of the list's own.
std::vector<MayBeMore> may_be_more(const History& history, const Product& product);

/// Of both, in sentences: "MAY HAVE BEEN OUT OF RANGE: ...", "MAY BE OVER ITS ALLOWANCE: ...", "MAY HAVE FROZEN: ...".
std::vector<Remark> more_words(const History& history, const Product& product);

/// At or below the freeze limit for longer by the at-most sum than by the estimate, none of which is open.
bool may_have_frozen(const History& history);

}  // namespace coldtally::answers
