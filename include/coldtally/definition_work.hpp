// Definition work: a definition or a taking back that is posted in everyday work, with what it changes, and the
// question before it loosens anything.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "coldtally/ledger.hpp"

namespace coldtally {

struct DefinitionDraft {
    Drafted drafted;
    /// What it changes on stock, lists and review as they are at `now`; none where it can change nothing: the first
    /// definition of a thing.
    std::optional<Changes> changes;
    /// In which way it is looser than the definition that holds ("LOOSER: ..."; of a place, what becomes of its
    /// excursions and open incidents), and which doses would come off a list or lose a reason, and gives have a better
    /// finding or fewer reasons ("LOOSENS: ..."); empty where none. Each is among the warnings.
    std::vector<Remark> loosens;
};

/// Makes a draft (JSON, the fields of one entry) of a site, product, lot, place, probe, maker, certificate, assignment
/// or void whole, and asks what it changes. `now`: the instant at which it would be recorded, or that of the last entry
/// where that is later; stock, lists and review are those of that instant, without it and with it. Writes nothing: the
/// ledger's file is the same afterwards, also where this throws. Errors of Ledger::draft: Code::bad_json,
/// Code::missing_field, Code::bad_value, Code::ambiguous, Code::contradiction, Code::not_defined among them; of
/// Ledger::changes, which tries the posting: Code::machine for a ledger that was opened for reading alone, and whatever
/// the posting refuses (Code::not_voidable, Code::in_use, Code::not_enough).
DefinitionDraft definition_draft(Ledger& ledger, std::string_view json, Instant now);

/// A Refusal of Code::missing_field, with all of `loosens`, where that is not empty and `yes` does not say that it is
/// meant. Reads and changes nothing: what was drafted may be posted, whatever was asked, so this is called before the
/// posting.
void ask_before_loosening(const DefinitionDraft& draft, bool yes);

}  // namespace coldtally
