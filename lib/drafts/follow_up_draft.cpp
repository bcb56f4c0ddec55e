#include "drafts/follow_up_draft.hpp"

#include <algorithm>

#include "coldtally/error.hpp"
#include "drafts/filling.hpp"
#include "drafts/naming.hpp"
#include "ledger/patients.hpp"
#include "stock/review.hpp"
#include "stock/which.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

using text::Json;

namespace {

struct Choice {
    Entry entry;
    std::optional<Finding> finding;  // of the review; none: it is not on the list

    const Give& give() const { return std::get<Give>(entry.fact); }
};

Remark give_words(const World& w, const Choice& c) {
    return words::give_named(c.entry.number, w.known.zone().local_text(*c.entry.at),
                             words::lot_of(text::quoted(c.give().product), text::quoted(c.give().lot)),
                             c.finding ? Field(said::finding_name_words(*c.finding))
                                       : Field(words::not_on_review_list()));
}

std::optional<EntryNumber> as_number(const std::string& text) {
    if (text.empty() || text.size() > 18 || text[0] == '0' || text.find_first_not_of("0123456789") != std::string::npos)
        return std::nullopt;
    return std::stoll(text);
}

/// The give of that number that is known; none where it is something else.
std::optional<Entry> give_of(const World& w, EntryNumber number) {
    if (number > w.head.last_entry || !w.known.is_known(number)) return std::nullopt;
    auto entry = w.store.entry(number, false);
    return entry && std::holds_alternative<Give>(entry->fact) ? std::move(entry) : std::nullopt;
}

}  // namespace

std::vector<Json> follow_up_drafts(World& w, Json fields, std::vector<Remark>& filled) {
    if (!fields.contains("patient")) return {std::move(fields)};
    if (!is_stated(fields, "patient"))
        throw Error(Code::bad_value, "patient: must be text, a patient's token or the number of a give");
    const std::string who = stated(fields, "patient"), lot = stated(fields, "lot"), product = stated(fields, "product");
    const bool every = fields.contains("every") && fields["every"].is_boolean() && fields["every"].get<bool>();
    std::vector<EntryNumber> numbers = ledger::gives_to(w.store, who);
    const bool is_token = !numbers.empty();  // also where all that was given to it is void
    std::erase_if(numbers, [&](EntryNumber n) { return !w.known.is_known(n); });
    const auto number = as_number(who);
    if (number && give_of(w, *number) && std::find(numbers.begin(), numbers.end(), *number) == numbers.end()) {
        // what is one patient's token must not become a step of another's dose
        if (is_token && !fields.contains("give"))
            throw Error(Code::ambiguous,
                        "patient: what is stated is the token of one patient and the number of the dose of another; "
                        "state the give: " +
                            std::to_string(*number) +
                            (numbers.empty() ? "" : ", or " + std::to_string(numbers.front())) +
                            (numbers.size() > 1 ? " and others" : ""));
        numbers.push_back(*number);
        std::sort(numbers.begin(), numbers.end());
    }

    const auto reviewed = review(w, false).doses;
    std::vector<Choice> found;
    for (const EntryNumber one : numbers) {
        auto entry = give_of(w, one);
        const auto* give = entry ? std::get_if<Give>(&entry->fact) : nullptr;
        if (!give || *entry->at > w.head.at || (!lot.empty() && give->lot != lot) ||
            (!product.empty() && give->product != product))
            continue;
        if (fields.contains("give") && fields["give"] != Json(one)) continue;
        const auto row = std::find_if(reviewed.begin(), reviewed.end(), [&](const auto& r) { return r.entry == one; });
        found.push_back({std::move(*entry), row == reviewed.end() ? std::nullopt : std::optional(row->finding)});
    }
    if (found.empty())
        throw Error(Code::not_there, "patient: no dose given by " + w.known.zone().local_text(w.head.at) +
                                         " to a patient of the token stated, nor under it as a number, is as stated");
    if (found.size() > 1 && every && lot.empty()) {
        std::erase_if(found, [](const Choice& c) { return !c.finding; });
        if (found.empty())
            throw Error(Code::not_there,
                        "patient: none of these doses is on the review list; state the lot, or the give");
    }
    if (found.size() > 1 && !every) {
        std::vector<Remark> choices;
        for (const auto& c : found)
            choices.push_back(choice_of({stated_as("give", std::to_string(c.entry.number))}, give_words(w, c)));
        choices.push_back(words::choice_of(words::parameter("every"), words::each_of_these()));
        throw WhichOne(words::patient_doses(found.size()), std::move(choices));
    }
    for (const char* field : {"patient", "lot", "product", "every"}) fields.erase(field);
    std::vector<Json> out;
    for (const auto& c : found) {
        fields["give"] = c.entry.number;
        filled.push_back(give_words(w, c));
        out.push_back(fields);
    }
    return out;
}

}  // namespace coldtally::answers
