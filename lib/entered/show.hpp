// Show: what is defined under a name, as it holds, and how it came to be so.
#pragma once

#include "coldtally/entered.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// Code::bad_value for a kind that is none; Code::not_known where nothing goes by that name.
ShownAnswer show(World& world, const ShowRequest& request);

}  // namespace coldtally::answers
