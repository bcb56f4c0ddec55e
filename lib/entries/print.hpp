// Entries as JSON, before they are text.
#pragma once

#include <nlohmann/json.hpp>

#include "coldtally/entries.hpp"

namespace coldtally::entries {

nlohmann::ordered_json entry_json(const Entry& entry);

}  // namespace coldtally::entries
