// The trace of a place in a window, as it is drawn.
#pragma once

#include "coldtally/conditions.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// Code::not_known where the place is not defined. The window is cut to the instant of the question, itself included.
TraceAnswer place_trace(World& world, const std::string& place, Instant from, Instant until);

}  // namespace coldtally::answers
