#include "drafts/give_records.hpp"

#include <algorithm>
#include <map>

#include "coldtally/error.hpp"
#include "drafts/draft_warnings.hpp"
#include "drafts/filling.hpp"
#include "drafts/opening.hpp"
#include "entries/parse.hpp"
#include "stock/lot_twins.hpp"
#include "stock/which.hpp"
#include "text/json_text.hpp"
#include "words/drafts_records.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

namespace {

using text::Json;

constexpr std::string_view note_begins = "FHIR Immunization/";

/// The id of the record that a note names; empty where it names none.
std::string id_in(const std::optional<std::string>& note) {
    if (!note || !note->starts_with(note_begins)) return {};
    const auto from = note_begins.size();
    return note->substr(from, note->find_first_of("; ", from) - from);
}

/// A give that stands.
struct Noted {
    EntryNumber entry = 0;
    std::int64_t at = 0;
    Give give;
};

std::string concept_words(const Immunization::Concept& c) {
    if (c.text) return *c.text;
    std::string out;
    for (const auto& code : c.codes) out += (out.empty() ? "" : ", ") + code.code;
    return out;
}

/// What it says of potency: a person's judgement, kept in words.
std::string potency_words(const Immunization& r) {
    std::string out;
    if (r.subpotent == true) out = "the record says it is subpotent";
    for (const auto& reason : r.subpotent_reasons) {
        const std::string words = concept_words(reason);
        if (!words.empty())
            out += (out.empty()                          ? "the record states a reason of subpotency: "
                    : out.find(':') == std::string::npos ? ": "
                                                         : ", ") +
                   words;
    }
    return out;
}

class Records {
public:
    Records(const ledger::Store& store, const RecordsRequest& request, Instant now)
        : store_(store),
          request_(request),
          known_(ledger::Known::load(store, store.tip().entry)),
          head_(head_of(store, Question{}, now)),
          today_(store, head_, known_) {
        for (const auto& lot : today_.lots())
            for (const auto& m : store_.movements(lot.lot)) {
                if (m.op != ledger::MovementOp::give || !known_.is_known(m.entry)) continue;
                const Entry entry = store_.named_entry(m.entry);
                const Noted noted{m.entry, m.at, std::get<Give>(entry.fact)};
                by_entry_.emplace(m.entry, noted);
                if (const auto id = id_in(entry.note); !id.empty()) by_id_.emplace(id, noted);
            }
    }

    DraftedRecords make(std::string_view text) {
        auto read = parse_immunizations(text);
        out_.what.warnings = std::move(read.remarks);
        for (const auto& one : read.records) {
            const std::string where = one.where + ": Immunization" + (one.record.id ? "/" + *one.record.id : "");
            std::optional<Remark> reason;
            try {
                reason = take(one);
            } catch (const WhichOne& e) {
                throw WhichOne(e.code(), words::colon(where, e.asked()), e.choices());
            } catch (const Error& e) {
                throw Error(e.code(), where + ": " + e.what());
            }
            if (reason) out_.left_out.push_back({one.where, one.record.id, std::move(*reason)});
        }
        return std::move(out_);
    }

private:
    /// None where it made an entry; else the reason why not.
    std::optional<Remark> take(const ReadImmunization& one) {
        const Immunization& r = one.record;
        const Noted* noted = noted_as(r);
        if (r.status != "completed") {
            const Field status = r.status_reason ? Field(words::in_brackets(r.status, concept_words(*r.status_reason)))
                                                 : Field(r.status);
            return noted ? words::but_noted_as_given(status, noted->entry) : words::as_said(status);
        }
        if (!r.id) return words::state_with_give(words::no_record_id());
        if (const auto same = ids_.find(*r.id); same != ids_.end()) {
            if (same->second->record == r) return words::same_record_as(same->second->where);
            throw Error(Code::contradiction, "id: " + text::quoted(*r.id) + ": stands at " + same->second->where +
                                                 " with other content: must be there once");
        }
        ids_.emplace(*r.id, &one);
        if (noted) {
            const auto differ = differences(*noted, r);
            return differ.empty() ? words::already_noted(noted->entry)
                                  : words::already_noted_but(noted->entry, words::listed(differ));
        }
        if (auto lacking = lacks(r)) return lacking;
        const auto lots = lots_of(*r.lot);
        if (lots.empty()) return never_here(*r.lot);
        make_entry(one, product(r, lots));
        return std::nullopt;
    }

    /// What a person must state of it.
    static std::optional<Remark> lacks(const Immunization& r) {
        if (!r.modified_by.empty()) return words::state_with_give(words::meaning_changed(r.modified_by));
        if (r.primary_source == false) return words::of_elsewhere();
        if (!r.lot) return words::state_with_give(words::no_lot_number());
        if (!r.occurrence_date_time)
            return words::state_with_give(r.occurrence_text
                                              ? words::occurrence_in_words(text::quoted(*r.occurrence_text))
                                              : words::no_instant());
        if (r.occurrence_date_time->find('T') == std::string::npos)
            return words::state_with_give(words::date_without_time(text::quoted(*r.occurrence_date_time)));
        if (!r.patient_identifier && !r.patient_reference) return words::state_with_give(words::no_token());
        if (!r.patient_identifier && r.patient_reference->starts_with('#'))
            return words::state_with_give(words::points_into_record());
        return std::nullopt;
    }

    /// The give that notes this record: by its note, or because the record was made of it.
    const Noted* noted_as(const Immunization& r) const {
        if (!r.id) return nullptr;
        if (const auto it = by_id_.find(*r.id); it != by_id_.end()) return &it->second;
        constexpr std::string_view ours = "give-";
        if (!r.id->starts_with(ours) || r.id->size() > ours.size() + 15 ||
            r.id->find_first_not_of("0123456789", ours.size()) != std::string::npos || r.id->size() == ours.size())
            return nullptr;
        const auto it = by_entry_.find(std::stoll(r.id->substr(ours.size())));
        return it != by_entry_.end() && differences(it->second, r).empty() ? &it->second : nullptr;
    }

    /// In what a record differs from the give that notes it.
    std::vector<Field> differences(const Noted& noted, const Immunization& r) const {
        std::vector<Field> out;
        if (r.lot && *r.lot != noted.give.lot) out.push_back(words::another_lot(text::quoted(noted.give.lot)));
        if (const auto token = r.patient_identifier ? r.patient_identifier : r.patient_reference;
            token && *token != noted.give.patient)
            out.push_back(words::another_patient());
        if (r.occurrence_date_time && r.occurrence_date_time->find('T') != std::string::npos &&
            instant(r) != Instant(noted.at))
            out.push_back(words::another_instant(known_.zone().local_text(Instant(noted.at))));
        return out;
    }

    /// Whole seconds: a fraction of a second is cut.
    Instant instant(const Immunization& r) const {
        std::string text = *r.occurrence_date_time;
        if (const auto point = text.find('.'); point != std::string::npos)
            text.erase(point, text.find_first_not_of("0123456789", point + 1) - point);
        try {
            return parse_instant(text, known_.zone());
        } catch (const Error& e) {
            throw Error(e.code(), std::string("occurrenceDateTime: ") + e.what());
        }
    }

    std::vector<ledger::Store::LotRow> lots_of(const std::string& number) const {
        auto out = today_.lots_of(number);
        std::erase_if(out, [&](const auto& lot) { return store_.holdings(lot.lot).empty(); });
        return out;
    }

    Remark never_here(const std::string& number) const {
        std::optional<Remark> others;
        for (const auto& lot : lot_twins(today_, number)) {
            Remark one = words::lot_of(text::quoted(lot.product), text::quoted(lot.number));
            others = others ? words::either(std::move(*others), std::move(one)) : std::move(one);
        }
        return others ? words::lot_never_here_is_it(text::quoted(number), std::move(*others))
                      : words::lot_never_here(text::quoted(number));
    }

    std::string expiry_of(const ledger::Store::LotRow& lot) const {
        return known_.expiry(store_.lot_definitions(lot.lot));
    }

    std::string named(const std::vector<ledger::Store::LotRow>& lots) const {
        std::string out;
        for (const auto& lot : lots) {
            const auto& cvx = known_.product(lot.product)->cvx;
            out += (out.empty() ? "" : " and ") + text::quoted(lot.product) + " (" + (cvx ? "CVX " + *cvx + ", " : "") +
                   "expiry " + expiry_of(lot) + ")";
        }
        return out;
    }

    /// By the lot's number, then by CVX where both have it, then by expiry, then as the caller states. Never chosen.
    std::string product(const Immunization& r, std::vector<ledger::Store::LotRow> lots) const {
        const std::string lot = "lot " + text::quoted(*r.lot);
        std::vector<std::string> cvx;
        for (const auto& code : r.vaccine.codes)
            if (code.system == cvx_system && !code.code.empty()) cvx.push_back(code.code);
        if (!cvx.empty()) {
            const auto before = lots;
            std::erase_if(lots, [&](const auto& l) {
                const auto& own = known_.product(l.product)->cvx;
                return own && std::find(cvx.begin(), cvx.end(), *own) == cvx.end();
            });
            if (lots.empty())
                throw Error(Code::contradiction, "vaccineCode: CVX " + cvx.front() + ": " + lot + " is of " +
                                                     named(before) + "; look at the record");
        }
        if (r.expiration) {
            const auto before = lots;
            std::erase_if(lots, [&](const auto& l) {
                return !Date::parse_expiry(expiry_of(l)).text().starts_with(*r.expiration);
            });
            if (lots.empty())
                throw Error(Code::contradiction, "expirationDate: " + text::quoted(*r.expiration) + ": " + lot +
                                                     " is known of " + named(before) + "; read the label again");
        }
        if (lots.size() > 1 && request_.product)
            std::erase_if(lots, [&](const auto& l) { return l.product != *request_.product; });
        if (lots.empty())
            throw Error(Code::contradiction, "product: " + text::quoted(*request_.product) + ": has no " + lot);
        if (lots.size() > 1)
            throw WhichOne(words::lot_of_several_products(lot, named(lots)), product_choices(today_, lots));
        return lots.front().product;
    }

    /// The ledger counts doses. An amount of vaccine says nothing of their number, and a record is of one.
    std::int64_t doses(const Immunization& r) const {
        if (!r.dose_quantity || r.dose_quantity->code != "{dose}") return 1;
        const std::string& value = r.dose_quantity->value.value_or("");
        if (value.empty() || value.size() > 9 || value.find_first_not_of("0123456789") != std::string::npos ||
            value[0] == '0')
            throw Error(Code::bad_value,
                        "doseQuantity: " + text::quoted(value) + ": of {dose} must be a whole number from 1 on");
        return std::stoll(value);
    }

    void make_entry(const ReadImmunization& one, const std::string& product) {
        const Immunization& r = one.record;
        const Instant at = instant(r);
        if (at > head_.at)
            throw Error(Code::too_late, "occurrenceDateTime: " + *r.occurrence_date_time +
                                            ": is after the instant of posting, " + known_.zone().local_text(head_.at));
        const std::string token = r.patient_identifier ? *r.patient_identifier : *r.patient_reference;
        const char* const token_field = r.patient_identifier ? "patient: identifier: value" : "patient: reference";
        check_token(token, token_field);
        const AnswerHead head = head_of(store_, Question{at, std::nullopt}, head_.at);
        World world(store_, head, known_);
        std::string note = std::string(note_begins) + *r.id;
        if (const auto words = potency_words(r); !words.empty()) note += "; " + words;
        if (request_.note) note += "; " + *request_.note;
        Json fields = {{"kind", "give"}, {"by", request_.by}, {"at", at.text()},   {"product", product},
                       {"lot", *r.lot},  {"patient", token},  {"doses", doses(r)}, {"note", note}};
        if (!request_.certain) fields["certain"] = false;
        // a location is words; where they are the id of a place of this ledger, they name it
        const auto place = r.location && known_.place(*r.location) ? r.location : request_.place;
        const std::pair<const char*, const std::optional<std::string>&> stated_fields[] = {
            {"place", place}, {"fund", request_.fund}, {"mark", request_.mark}};
        for (const auto& [field, value] : stated_fields)
            if (value) fields[field] = *value;
        std::vector<Remark> filled;
        Filling(world, filled).holding(fields, fields);
        out_.what.entries.push_back(entries::parse_entry(fields, &known_.zone(), "give", entries::Form::posted));
        warn(world, out_.what.entries.back(), out_.what);
        const auto& g = std::get<Give>(out_.what.entries.back().fact);
        if (const auto offer = opening_offer(world, {g.place, g.product, g.lot, g.fund, g.mark}, g.doses, true))
            tell_opening(world, *offer, out_.what);
    }

    const ledger::Store& store_;
    const RecordsRequest& request_;
    const ledger::Known known_;
    AnswerHead head_;
    World today_;
    std::map<EntryNumber, Noted> by_entry_;
    std::map<std::string, Noted> by_id_;  // the first
    std::map<std::string, const ReadImmunization*> ids_;
    DraftedRecords out_;
};

}  // namespace

DraftedRecords give_records(const ledger::Store& store, const RecordsRequest& request, std::string_view text,
                            Instant now) {
    return Records(store, request, now).make(text);
}

}  // namespace coldtally::answers
