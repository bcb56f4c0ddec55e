// May be more: what the at-most sums of a history show and the estimates, which alone decide a list or a finding, do
// not.
#pragma once

#include <cstddef>
#include <optional>

#include "coldtally/entries.hpp"
#include "coldtally/exposure.hpp"

namespace coldtally::answers {

/// One side out of range, for at most longer than by the estimate, and than the product permits.
struct MayBeMore {
    const SideExposure* side;
    std::optional<std::size_t> allowance;  ///< the strictest of this side, as an index; none: there is none
    Rational allowed;                      ///< seconds
};
/// Empty also where the estimate shows as much, since a list says that. `total` must outlive what is returned.
std::optional<MayBeMore> may_be_more(const Exposure& total, const Product& product, bool warm);

/// At or below the freeze limit by the at-most sum alone.
bool may_have_frozen(const Exposure& total);

}  // namespace coldtally::answers
