// Display memory: since when the minimum and maximum of a check are known to stand.
#pragma once

#include <optional>
#include <string>

#include "question/world.hpp"

namespace coldtally::answers {

/// Of a check whose minimum or maximum is out of the range of its place, or of a product that was ever in it, and that
/// comes after a check without minimum and maximum: that time before that one is not counted, and since when the
/// display may have kept them. The world does not know the check.
std::optional<std::string> display_memory(World& world, const Check& check);

}  // namespace coldtally::answers
