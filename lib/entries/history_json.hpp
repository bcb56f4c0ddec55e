// The JSON of an exposure and of a history: in answers, and in the handover of a receive.
#pragma once

#include <vector>

#include <nlohmann/json.hpp>

#include "coldtally/exposure.hpp"

namespace coldtally::entries {

/// A history without what only the doses of a holding have: open parts, places, condemned_by, held_by, use_by.
nlohmann::ordered_json exposure_json(const Exposure& exposure, const std::vector<Duration>& allowance_seconds);
nlohmann::ordered_json history_json(const History& history, const std::vector<Duration>& allowance_seconds);

}  // namespace coldtally::entries
