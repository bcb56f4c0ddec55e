// Immunizations: every give that stands with what its record needs, and gives of the records of others.
#pragma once

#include "answers/world.hpp"
#include "coldtally/immunizations.hpp"

namespace coldtally::answers {

/// `patient`: of that token alone.
ImmunizationsAnswer immunizations(World& world, const std::optional<std::string>& patient);

/// The gives that the records of a text make. Throws for what must not be left out without somebody looking at it.
DraftedRecords give_records(const ledger::Store& store, const RecordsRequest& request, std::string_view text,
                            Instant now);

}  // namespace coldtally::answers
