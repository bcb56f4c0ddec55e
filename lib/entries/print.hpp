// Entries as JSON, before they are text.
#pragma once

#include <nlohmann/json.hpp>

#include "coldtally/entries.hpp"

namespace coldtally::entries {

nlohmann::ordered_json entry_json(const Entry& entry);
nlohmann::ordered_json limit_json(const Limit& limit);
/// Sets the fields of a plan.
void print_plan(nlohmann::ordered_json& out, const Plan& plan);

}  // namespace coldtally::entries
