#include "coldtally/entry_work.hpp"

#include <algorithm>

namespace coldtally {

DefinitionDraft entry_draft(Ledger& ledger, Drafted drafted, Instant now) {
    DefinitionDraft out{std::move(drafted), std::nullopt, {}};
    // guidance is meant to let doses be used, and shows what it changes
    const auto& all = out.drafted.entries;
    if (std::all_of(all.begin(), all.end(), [](const Entry& e) { return std::holds_alternative<Guidance>(e.fact); }))
        return out;
    auto found = ledger.loosening(out.drafted.entries, now);
    if (!found || (found->asks.empty() && found->says.empty())) return out;
    for (const auto& one : found->asks) out.loosens += (out.loosens.empty() ? "" : "; ") + one;
    auto& warnings = out.drafted.warnings;
    warnings.insert(warnings.begin(), found->says.begin(), found->says.end());
    warnings.insert(warnings.begin(), found->asks.begin(), found->asks.end());
    if (!found->asks.empty()) out.changes = std::move(found->changes);
    return out;
}

}  // namespace coldtally
