// Sheet scale: the scale in which a site keeps its sheets.
#pragma once

#include "ledger/known.hpp"
#include "ledger/store.hpp"

namespace coldtally::answers {

/// That of the last check of most places, else of most probes; C where there are none.
Scale sheet_scale(const ledger::Store& store, const ledger::Known& known);

}  // namespace coldtally::answers
