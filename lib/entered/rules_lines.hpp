// Rules lines: what a programme asks for, line by line.
#pragma once

#include <vector>

#include "coldtally/entries.hpp"
#include "drafts/read_back.hpp"

namespace coldtally::answers {

/// One condition: "above 8 °C for at least 1 h without a break".
Remark condition_words(const ProgrammeRules::Reportable& condition);
/// "supervisor told: within 4 h from being noticed, where it must be reported"
Remark duty_line(const ProgrammeRules::Duty& duty);
/// All that rules say.
std::vector<ReadBack> rules_lines(const ProgrammeRules& rules);

}  // namespace coldtally::answers
