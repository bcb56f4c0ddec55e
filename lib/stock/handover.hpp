// Handover: the history of doses just before they left for another site.
#pragma once

#include "coldtally/handovers.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// Were doses with this history ever out of range, or may they have been, whether guidance has covered it or not?
bool was_exposed(const History& history);
/// "too warm for at most 3 h 20 min; 2 readings or checks out of range"; none where there is no exposure.
std::optional<Remark> exposure_words(const History& history);

/// Code::not_known where no transfer of this number stands at the world's instant.
HandoverAnswer handover(World& world, EntryNumber transfer);

}  // namespace coldtally::answers
