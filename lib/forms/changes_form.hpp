// Changes form: what entries would change, as a part of other answers.
#pragma once

#include "coldtally/drafts.hpp"

#include "forms/answer_json.hpp"
#include "forms/table.hpp"

namespace coldtally::forms {

Json changes_json(const Changes& changes);
void add_changes(TableLayout& table, const Changes& changes, const TableStyle& style);
/// "20 doses, quarantine-pending-guidance: warm, point", and that they are in doubt.
Remark state_words(Doses doses, List list, const std::vector<Reason>& reasons,
                   const std::vector<std::string>& in_doubt);

}  // namespace coldtally::forms
