// Doses that left, in the JSON and the tables of several answers.
#pragma once

#include "coldtally/departures.hpp"
#include "forms/answer_json.hpp"

namespace coldtally::forms {

/// What they were just before they left, and what was said since: list, reasons, in_doubt, since.
Json departed_state_json(const DepartedDoses& departed);
/// Which they are, who has them, and that.
Json departed_json(const DepartedDoses& departed);
/// "quarantine-pending-guidance: warm, point"
Remark departed_words(const DepartedDoses& departed);

}  // namespace coldtally::forms
