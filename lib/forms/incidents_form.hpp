// Incidents form: an excursion of an incident, as every answer about incidents has it.
#pragma once

#include "coldtally/conditions.hpp"

#include "forms/answer_json.hpp"
#include "forms/table.hpp"

namespace coldtally::forms {

Json excursion_json(const IncidentExcursion& excursion);
/// "main: too warm 2026-03-01 14:05 to 2026-03-01 16:00, 1 h 55 min, highest 12.6 °C".
Remark excursion_words(const IncidentExcursion& excursion, const TableStyle& style);

/// "too warm 2026-03-01 14:05 to 2026-03-01 16:00".
Remark excursion_when_words(const IncidentExcursion& excursion, const Zone& zone);

}  // namespace coldtally::forms
