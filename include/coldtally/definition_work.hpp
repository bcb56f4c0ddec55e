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
    /// In which way it is looser than the definition that holds ("LOOSER: ..."; of a place, what becomes of its
    /// excursions and open incidents), and which doses would come off a list or lose a reason, and gives have a better
    /// finding or fewer reasons ("LOOSENS: ..."); empty where none. Each is among the warnings.
    std::string loosens;
};

/// Makes a draft of a site, product, lot, place, probe, maker, certificate or assignment whole, and asks what it
/// changes. Writes nothing. Errors of Ledger::draft and Ledger::changes.
DefinitionDraft definition_draft(Ledger& ledger, std::string_view json, Instant now);

/// Code::missing_field where it is looser or loosens something and `yes` does not say that this is meant.
void ask_before_loosening(const DefinitionDraft& draft, bool yes);

}  // namespace coldtally
