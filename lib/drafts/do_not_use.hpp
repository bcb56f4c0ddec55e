// Do not use: doses that are moved stay what they are, wherever they come to.
#pragma once

#include <optional>

#include "coldtally/words.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// "DO NOT USE: ..." with the reasons, of doses that are moved and are not on keep, or in doubt; none where they are.
/// The world is asked at the move's instant and does not know it.
std::optional<Remark> do_not_use(World& world, const Move& move);

}  // namespace coldtally::answers
