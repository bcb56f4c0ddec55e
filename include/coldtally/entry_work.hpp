// Entry work: entries of everyday work that loosen anything are asked about, as definitions are.
#pragma once

#include "coldtally/definition_work.hpp"

namespace coldtally {

/// Looks whether what was drafted loosens anything, as known at `now`: what is to be said comes before its warnings,
/// and `loosens` is what is to be asked (ask_before_loosening). `changes`: none where such entries can loosen nothing,
/// so that nothing was computed, or where they loosen nothing. Writes nothing. Errors of Ledger::loosening.
DefinitionDraft entry_draft(Ledger& ledger, Drafted drafted, Instant now);

}  // namespace coldtally
