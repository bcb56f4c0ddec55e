#include "coldtally/definition_work.hpp"

#include <algorithm>
#include <filesystem>

#include "coldtally/error.hpp"
#include "drafts/loosening.hpp"
#include "put_back.hpp"
#include "words/definitions.hpp"
#include "words/drafts.hpp"
#include "words/general.hpp"
#include "words/lists.hpp"
#include "words/loosening.hpp"

namespace coldtally {

DefinitionDraft definition_draft(Ledger& ledger, std::string_view json, Instant now) {
    return definition_draft(ledger, ledger.draft(json, now), now);
}

DefinitionDraft definition_draft(Ledger& ledger, Drafted drafted, Instant now) {
    DefinitionDraft out{std::move(drafted), std::nullopt, {}};
    const bool takes_back = std::any_of(out.drafted.entries.begin(), out.drafted.entries.end(),
                                        [](const Entry& e) { return std::holds_alternative<Void>(e.fact); });
    if ((!out.drafted.may_change_answers && !takes_back) || !std::filesystem::exists(ledger.path())) return out;
    auto found = ledger.loosening(out.drafted.entries, now);
    if (!found) {
        if (takes_back) out.changes = ledger.changes(out.drafted.entries, now);  // is shown whatever it is
        return out;
    }
    put_back_holds(ledger, found->holds, out.drafted, now);
    out.changes = found->holds.empty() ? std::move(found->changes) : ledger.changes(out.drafted.entries, now);
    std::vector<Remark> all;
    if (const auto how = words::semicolons(out.drafted.looser)) {
        all.push_back(words::looser_than_before(*how));
        for (const auto& place : out.changes->places) all.push_back(words::loosens(answers::excursion_words(place)));
    }
    all.insert(all.end(), found->asks.begin(), found->asks.end());
    out.loosens = all;
    all.insert(all.end(), found->says.begin(), found->says.end());
    out.drafted.warnings.insert(out.drafted.warnings.begin(), all.begin(), all.end());
    return out;
}

namespace {

/// Is an entry itself one of the holds, which guidance lifts at once?
bool is_lifted_hold(const Entry& e, const std::vector<Hold>& holds) {
    const auto* one = std::get_if<Hold>(&e.fact);
    return one && std::ranges::any_of(holds, [&](const Hold& h) {
               return h.reason == one->reason && h.product == one->product && h.lot == one->lot;
           });
}

}  // namespace

void put_back_holds(const Ledger& ledger, const std::vector<Hold>& holds, Drafted& drafted, Instant now) {
    if (holds.empty()) return;
    const bool late = std::ranges::any_of(drafted.entries, [&](const Entry& e) { return is_lifted_hold(e, holds); });
    const std::string by = drafted.entries.front().by;
    Instant at = ledger.stock({}, now).head.at;
    for (const Entry& e : drafted.entries)
        if (e.at) at = std::max(at, *e.at);
    for (const Hold& hold : holds) {
        Entry again;
        again.at = at;
        again.by = by;
        again.fact = hold;
        drafted.entries.push_back(std::move(again));
    }
    drafted.filled.push_back((late ? words::held_from_now : words::held_again)(words::lots(holds.size())));
}

void ask_before_loosening(const DefinitionDraft& draft, bool yes) {
    if (draft.loosens.empty() || yes) return;
    throw Refusal(Code::missing_field, words::loosening_not_meant(*words::semicolons(draft.loosens)));
}

}  // namespace coldtally
