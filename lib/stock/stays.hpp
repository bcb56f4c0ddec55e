// The stays of a lot: when its doses were where.
#pragma once

#include "coldtally/stock.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// Code::not_known where the lot is not defined.
StaysAnswer stays(World& world, const std::string& product, const std::string& lot);

}  // namespace coldtally::answers
