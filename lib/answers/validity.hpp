// Validity: when the probe in a place had no valid certificate; readings of that time are marked.
#pragma once

#include <string>
#include <vector>

#include "answers/world.hpp"

namespace coldtally::answers {

struct Lapse {
    std::string probe;
    bool none = false;              ///< it had no certificate; else its certificate had run out
    std::int64_t from = 0, until = 0;
};

/// Within [from, until), in the order of time.
std::vector<Lapse> lapses(const World& world, const std::string& place, std::int64_t from, std::int64_t until);
/// "probe p1: certificate run out, 2026-03-01 00:00 to 2026-03-04 10:15"
std::string words(const Lapse& lapse, const Zone& zone);

}  // namespace coldtally::answers
