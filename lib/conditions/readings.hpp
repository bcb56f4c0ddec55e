// Readings of a probe, read back out of the ledger.
#pragma once

#include "coldtally/conditions.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// [from, until), up to the instant of the question, itself included. Code::not_known where the probe is not defined.
ReadingsAnswer readings(World& world, const std::string& probe, Instant from, Instant until);

}  // namespace coldtally::answers
