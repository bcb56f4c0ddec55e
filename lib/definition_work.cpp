#include "coldtally/definition_work.hpp"

#include <algorithm>
#include <filesystem>

#include "coldtally/error.hpp"
#include "drafts/loosening.hpp"

namespace coldtally {

namespace {

std::string joined(const std::vector<std::string>& parts, const char* between) {
    std::string out;
    for (const auto& part : parts) out += (out.empty() ? "" : between) + part;
    return out;
}

}  // namespace

DefinitionDraft definition_draft(Ledger& ledger, std::string_view json, Instant now) {
    DefinitionDraft out{ledger.draft(json, now), std::nullopt, {}};
    const bool takes_back = std::any_of(out.drafted.entries.begin(), out.drafted.entries.end(),
                                        [](const Entry& e) { return std::holds_alternative<Void>(e.fact); });
    if ((!out.drafted.may_change_answers && !takes_back) || !std::filesystem::exists(ledger.path())) return out;
    auto found = ledger.loosening(out.drafted.entries, now);
    if (!found) {
        if (takes_back) out.changes = ledger.changes(out.drafted.entries, now);  // is shown whatever it is
        return out;
    }
    out.changes = std::move(found->changes);
    std::vector<std::string> all;
    if (!out.drafted.looser.empty()) {
        all.push_back("LOOSER: " + joined(out.drafted.looser, "; "));
        for (const auto& place : out.changes->places)
            all.push_back("LOOSENS: " + answers::excursion_words(place));
    }
    all.insert(all.end(), found->asks.begin(), found->asks.end());
    out.loosens = joined(all, "; ");
    all.insert(all.end(), found->says.begin(), found->says.end());
    out.drafted.warnings.insert(out.drafted.warnings.begin(), all.begin(), all.end());
    return out;
}

void ask_before_loosening(const DefinitionDraft& draft, bool yes) {
    if (draft.loosens.empty() || yes) return;
    throw Error(Code::missing_field,
                "yes: must be stated: " + draft.loosens +
                    ". NOT WRITTEN: read what it changes, and post it again with yes if that is meant");
}

}  // namespace coldtally
