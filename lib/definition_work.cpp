#include "coldtally/definition_work.hpp"

#include <filesystem>

#include "coldtally/error.hpp"
#include "text/json_text.hpp"

namespace coldtally {

namespace {

std::string doses_of(std::int64_t n) { return std::to_string(n) + (n == 1 ? " dose" : " doses"); }

/// Holdings that come onto keep, or from discard to quarantine; gives of which something was found, and nothing is any
/// more.
std::string loosens(const Changes& changes) {
    std::string holdings, gives;
    std::int64_t doses = 0, patients = 0;
    for (const auto& h : changes.holdings) {
        if (!h.before || !h.after || h.after->list <= h.before->list) continue;  // discard, quarantine, keep
        doses += h.after->doses.count();
        holdings += (holdings.empty() ? "" : "; ") + text::quoted(h.holding.product) + " lot " +
                    text::quoted(h.holding.lot) + " in " + text::quoted(h.holding.place) +
                    (h.holding.mark.empty() ? "" : ", mark " + text::quoted(h.holding.mark)) + " (" +
                    std::to_string(h.after->doses.count()) + ", " + std::string(list_name(h.before->list)) + " -> " +
                    std::string(list_name(h.after->list)) + ")";
    }
    for (const auto& d : changes.doses) {
        if (!d.before || *d.before == "clear" || (d.after && *d.after != "clear")) continue;
        ++patients;
        gives += (gives.empty() ? "" : ", ") + std::to_string(d.entry);
    }
    std::string out;
    if (doses > 0) out = doses_of(doses) + " would come off a list of what must not be used: " + holdings;
    if (patients > 0)
        out += (out.empty() ? "" : "; ") + std::to_string(patients) + (patients == 1 ? " give" : " gives") +
               " would come off the review list: entry " + gives;
    return out;
}

}  // namespace

DefinitionDraft definition_draft(Ledger& ledger, std::string_view json, Instant now) {
    DefinitionDraft out{ledger.draft(json, now), std::nullopt, {}};
    if (!out.drafted.may_change_answers || !std::filesystem::exists(ledger.path())) return out;
    out.changes = ledger.changes(out.drafted.entries, now);
    out.loosens = loosens(*out.changes);
    if (!out.loosens.empty()) out.drafted.warnings.insert(out.drafted.warnings.begin(), "LOOSENS: " + out.loosens);
    return out;
}

void ask_before_loosening(const DefinitionDraft& draft, bool yes) {
    if (draft.loosens.empty() || yes) return;
    throw Error(Code::missing_field,
                "yes: must be stated: " + draft.loosens +
                    ". NOT WRITTEN: read what it changes, and post it again with yes if that is meant");
}

}  // namespace coldtally
