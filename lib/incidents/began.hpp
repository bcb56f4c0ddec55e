// Began: since when what a place did to its doses may have been going on.
#pragma once

#include "exposure/limits.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// What is out of range after t may have begun before t, within the tolerance of a probe or between two readings: the
/// first instant from which on, up to t, it is never known to have been well inside the limits, though never read
/// beyond them. What is before that is another exposure.
std::int64_t may_have_begun(World& world, const exposure::LimitsOf& limits, const std::string& place, std::int64_t t);

}  // namespace coldtally::answers
