#pragma once
// Stock: which doses are where, and the accounts they came from and went to.

#include "answers/world.hpp"

namespace coldtally::answers {

StockAnswer stock(World& world);

}  // namespace coldtally::answers
