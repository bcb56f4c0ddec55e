#include "coldtally/entry_work.hpp"

#include <algorithm>

#include "put_back.hpp"

namespace coldtally {

DefinitionDraft entry_draft(Ledger& ledger, Drafted drafted, Instant now) {
    DefinitionDraft out{std::move(drafted), std::nullopt, {}};
    // guidance is meant to let doses be used, and shows what it changes
    const auto& all = out.drafted.entries;
    if (std::all_of(all.begin(), all.end(), [](const Entry& e) { return std::holds_alternative<Guidance>(e.fact); }))
        return out;
    const auto arrive = [&] {
        auto& said = out.drafted.warnings;
        const auto more = ledger.arrivals(out.drafted.entries, said, now);
        said.insert(said.begin(), more.begin(), more.end());
    };
    auto found = ledger.loosening(out.drafted.entries, now);
    if (!found || (found->asks.empty() && found->says.empty())) {
        arrive();
        return out;
    }
    put_back_holds(ledger, found->holds, out.drafted, now);
    out.loosens = found->asks;
    auto& warnings = out.drafted.warnings;
    warnings.insert(warnings.begin(), found->says.begin(), found->says.end());
    warnings.insert(warnings.begin(), found->asks.begin(), found->asks.end());
    arrive();
    if (!found->asks.empty())
        out.changes = found->holds.empty() ? std::move(found->changes) : ledger.changes(out.drafted.entries, now);
    return out;
}

}  // namespace coldtally
