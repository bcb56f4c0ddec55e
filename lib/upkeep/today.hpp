// Today: what a site must know and do on the day of the instant, composed of what the other answers say.
#pragma once

#include "coldtally/today.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

TodayAnswer today(World& world);

}  // namespace coldtally::answers
