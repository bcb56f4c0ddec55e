// Definition work: a definition that is posted in everyday work, with what it changes, and the question before it
// loosens anything.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "coldtally/ledger.hpp"

namespace coldtally {

struct DefinitionDraft {
    Drafted drafted;
    /// What it changes on stock, lists and review; none where it can change nothing: the first definition of a thing.
    std::optional<Changes> changes;
    /// Which doses would come off quarantine or discard, or patients off the review list; empty where none. It is among
    /// the warnings.
    std::string loosens;
};

/// Makes a draft of a site, product, lot, place, probe, maker, certificate or assignment whole, and asks what it
/// changes. Writes nothing. Errors of Ledger::draft and Ledger::changes.
DefinitionDraft definition_draft(Ledger& ledger, std::string_view json, Instant now);

/// Code::missing_field where it loosens something and `yes` does not say that this is meant.
void ask_before_loosening(const DefinitionDraft& draft, bool yes);

}  // namespace coldtally
