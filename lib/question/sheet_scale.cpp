#include "question/sheet_scale.hpp"

namespace coldtally::answers {

Scale sheet_scale(const ledger::Store& store, const ledger::Known& known) {
    std::int64_t C = 0, F = 0;
    for (const auto& [id, definitions] : known.places)
        if (const auto scale = store.last_check_scale(id)) ++(*scale == Scale::C ? C : F);
    if (C == 0 && F == 0)
        for (const auto& [id, definitions] : known.probes)
            if (!definitions.empty()) ++(definitions.back().fact.scale == Scale::C ? C : F);
    return F > C ? Scale::F : Scale::C;
}

}  // namespace coldtally::answers
