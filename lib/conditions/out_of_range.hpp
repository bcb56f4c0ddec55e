// Out of range: the readings and crossings of a stay that made its exposure, told one by one.
#pragma once

#include <string>
#include <vector>

#include "question/world.hpp"

namespace coldtally::answers {

/// In the order of time; nothing where every part lies in the product's range.
std::vector<Remark> out_of_range_lines(World& world, const Product& product, const std::string& place,
                                       std::int64_t from, std::int64_t until);

}  // namespace coldtally::answers
