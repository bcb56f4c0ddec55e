// Rules form: how a programme's conditions and what became of them are written, in JSON and said.
#pragma once

#include <nlohmann/json.hpp>

#include "coldtally/incidents.hpp"
#include "forms/table.hpp"

namespace coldtally::forms {

nlohmann::ordered_json finding_json(const RuleFinding& finding);
/// One finding: "warm run: MET at 2026-03-01 10:00 (longest 3 h; at least 2 h, at most 4 h)".
Remark finding_words(const RuleFinding& finding, const Zone& zone);

}  // namespace coldtally::forms
