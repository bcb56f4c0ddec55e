// Entries as JSON, before they are text.
#pragma once

#include <nlohmann/json.hpp>

#include "coldtally/entries.hpp"

namespace coldtally::entries {

nlohmann::ordered_json entry_json(const Entry& entry);
nlohmann::ordered_json limit_json(const Limit& limit);

}  // namespace coldtally::entries
