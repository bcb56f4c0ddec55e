// Draft warnings: what a drafted entry means, said before it is posted.
#pragma once

#include "coldtally/drafts.hpp"
#include "question/world.hpp"
#include "stock/lists.hpp"

namespace coldtally::answers {

/// Adds warnings, and next steps where something must be done at once. The world is asked at the entry's instant and
/// does not know the entry. `all_leave`: of a check, all doses leave its place with the same batch.
void warn(World& world, const Entry& entry, Drafted& out, bool all_leave = false);

/// The row of a holding on the lists; none where it has no doses.
std::optional<Judged> listed(World& world, const HoldingKey& holding);

}  // namespace coldtally::answers
