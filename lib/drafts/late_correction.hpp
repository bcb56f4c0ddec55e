// Late correction: an entry that movements after it contradict, with what must be taken back and posted again for it.
#pragma once

#include <optional>

#include "coldtally/drafts.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// See Ledger::late_correction.
std::optional<LateCorrection> late_correction(World& world, const Entry& late);

}  // namespace coldtally::answers
