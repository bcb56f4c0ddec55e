#include "coldtally/definition_work.hpp"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <set>

#include "coldtally/error.hpp"
#include "text/json_text.hpp"

namespace coldtally {

namespace {

std::string doses_of(std::int64_t n) { return std::to_string(n) + (n == 1 ? " dose" : " doses"); }

std::string joined(const std::vector<std::string>& parts, const char* between) {
    std::string out;
    for (const auto& part : parts) out += (out.empty() ? "" : between) + part;
    return out;
}

/// What is in `before` and not in `after`; and doubts that end.
std::vector<std::string> lost_reasons(const Changes::State& before, const Changes::State& after) {
    std::vector<std::string> out;
    const auto take = [&](const auto& was, const auto& is, const std::string& what) {
        for (const auto& one : was)
            if (std::find(is.begin(), is.end(), one) == is.end()) out.push_back(what + one);
    };
    take(before.reasons, after.reasons, "");
    take(before.in_doubt, after.in_doubt, "in the time in doubt of incident ");
    return out;
}

/// Ascends from what is found of a dose that may count to what is found of one that does not.
int weight(const std::string& finding) {
    constexpr std::string_view all[] = {"clear",            "cleared",    "condemned later",
                                        "pending guidance", "not viable", "expired"};
    return static_cast<int>(std::find(std::begin(all), std::end(all), finding) - std::begin(all));
}

std::string count_of(std::int64_t n, const char* one) { return std::to_string(n) + " " + one + (n == 1 ? "" : "s"); }

/// Holdings that come onto keep, or from discard to quarantine, or lose any reason; gives of which a better finding is
/// made, or that lose a reason.
std::vector<std::string> loosens(const Changes& changes) {
    std::vector<std::string> off, fewer, out;
    std::int64_t doses_off = 0, doses_fewer = 0;
    for (const auto& h : changes.holdings) {
        if (!h.before || !h.after || h.after->doses.count() == 0) continue;
        const bool comes_off = h.after->list > h.before->list;  // discard, quarantine, keep
        const auto gone = lost_reasons(*h.before, *h.after);
        if (!comes_off && gone.empty()) continue;
        (comes_off ? doses_off : doses_fewer) += h.after->doses.count();
        const std::string list(list_name(h.after->list));
        (comes_off ? off : fewer)
            .push_back(text::quoted(h.holding.product) + " lot " + text::quoted(h.holding.lot) + " in " +
                       text::quoted(h.holding.place) +
                       (h.holding.mark.empty() ? "" : ", mark " + text::quoted(h.holding.mark)) + " (" +
                       std::to_string(h.after->doses.count()) + ", " +
                       (comes_off ? std::string(list_name(h.before->list)) + " -> " + list
                                  : "loses " + joined(gone, ", ") + "; on " + list +
                                        (h.after->reasons.empty() ? "" : " for " + joined(h.after->reasons, ", "))) +
                       ")");
    }
    if (!off.empty())
        out.push_back(doses_of(doses_off) + " would come off a list of what must not be used: " + joined(off, "; "));
    if (!fewer.empty())
        out.push_back(doses_of(doses_fewer) + " would lose a reason not to be used: " + joined(fewer, "; "));

    std::vector<std::string> cleared, better;
    std::set<EntryNumber> said;
    for (const auto& d : changes.doses) {
        if (!d.before || (d.after && weight(*d.after) >= weight(*d.before))) continue;
        said.insert(d.entry);
        if (!d.after || *d.after == "clear")
            cleared.push_back(std::to_string(d.entry));
        else
            better.push_back("entry " + std::to_string(d.entry) + " (" + *d.before + " -> " + *d.after + ")");
    }
    for (const auto& g : changes.gives)
        if (!said.contains(g.entry))
            better.push_back("entry " + std::to_string(g.entry) + " (loses " + joined(g.reasons, ", ") + ")");
    if (!cleared.empty())
        out.push_back(count_of(std::ssize(cleared), "give") + " would come off the review list: entry " +
                      joined(cleared, ", "));
    if (!better.empty())
        out.push_back(count_of(std::ssize(better), "give") + " would have a better finding, or fewer reasons: " +
                      joined(better, ", "));
    return out;
}

/// What becomes of the excursions of a place, and of the open incidents there.
std::string of_place(const Changes::OfPlace& p) {
    const auto verb = [](std::int64_t n, const char* one, const char* more) {
        return std::to_string(n) + " " + (n == 1 ? one : more);
    };
    std::string out = "of " + count_of(p.excursions, "excursion") + " recorded in " + text::quoted(p.place) + " " +
                      verb(p.vanish, "vanishes", "vanish") + " and " + verb(p.shortened, "is", "are") + " shortened";
    for (const auto& i : p.open_incidents) {
        out += "; open incident " + text::quoted(i.incident) + ", noticed there, ";
        if (i.before == 0)
            out += "has no excursion there";
        else if (i.after == 0)
            out += "would find nothing out of range there: " + count_of(i.before, "excursion") + " -> none";
        else
            out += "would have " + std::to_string(i.before) + " -> " + count_of(i.after, "excursion") + " there";
    }
    return out;
}

}  // namespace

DefinitionDraft definition_draft(Ledger& ledger, std::string_view json, Instant now) {
    DefinitionDraft out{ledger.draft(json, now), std::nullopt, {}};
    const bool takes_back = std::any_of(out.drafted.entries.begin(), out.drafted.entries.end(),
                                        [](const Entry& e) { return std::holds_alternative<Void>(e.fact); });
    if ((!out.drafted.may_change_answers && !takes_back) || !std::filesystem::exists(ledger.path())) return out;
    out.changes = ledger.changes(out.drafted.entries, now);
    std::vector<std::string> all;
    if (!out.drafted.looser.empty()) {
        all.push_back("LOOSER: " + joined(out.drafted.looser, "; "));
        for (const auto& place : out.changes->places) all.push_back("LOOSENS: " + of_place(place));
    }
    for (const auto& one : loosens(*out.changes)) all.push_back("LOOSENS: " + one);
    out.loosens = joined(all, "; ");
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
