// Readiness form: findings and topics, as every answer that looks at upkeep has them.
#pragma once

#include "coldtally/upkeep.hpp"
#include "forms/answer_json.hpp"

namespace coldtally::forms {

Json finding_json(const ReadinessAnswer::Finding& finding);
Json topic_json(const ReadinessAnswer::Topic& topic);
/// "temperature record"
Remark matter_words(ReadinessAnswer::Matter matter);

}  // namespace coldtally::forms
