// Validity: when the probe in a place had no valid certificate; readings of that time are marked.
#pragma once

#include <string>
#include <vector>

#include "question/world.hpp"

namespace coldtally::answers {

struct Lapse {
    std::string probe;
    bool none = false;              ///< it had no certificate; else its certificate had expired
    std::int64_t from = 0, until = 0;
    std::int64_t checks =
        0;  ///< so many checks were read from it, the first at `from`, the last at `until`; 0: it stood in the place
};

/// Within [from, until): of the probes in the place, in the order of time; then of the thermometers that checks name.
std::vector<Lapse> lapses(World& world, const std::string& place, std::int64_t from, std::int64_t until);
/// "probe p1: certificate expired, 2026-03-01 00:00 to 2026-03-04 10:15"; "probe p2: no certificate, 3 checks, ..."
Remark words(const Lapse& lapse, const Zone& zone);
/// The part of that after "expired, ".
Remark time_words(const Lapse& lapse, const Zone& zone);

}  // namespace coldtally::answers
