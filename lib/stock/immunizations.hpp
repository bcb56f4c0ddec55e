// Immunizations: every give that stands with what its record needs.
#pragma once

#include "coldtally/immunizations.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// `patient`: of that token alone.
ImmunizationsAnswer immunizations(World& world, const std::optional<std::string>& patient);

}  // namespace coldtally::answers
