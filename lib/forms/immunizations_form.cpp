// Doses given as FHIR Immunization resources.
#include <nlohmann/json.hpp>

#include "coldtally/immunizations.hpp"
#include "entries/print.hpp"
#include "forms/answer_json.hpp"
#include "forms/words.hpp"
#include "words/history.hpp"
#include "words/review.hpp"

namespace coldtally {

namespace {

/// A date-time of the zone's clock with its offset; in UTC where the offset is no whole number of minutes.
std::string local_date_time(Instant at, const Zone& zone) {
    const std::int64_t offset = zone.offset_at(at).seconds();
    if (offset % 60 != 0) return at.text();
    std::string out = (at + Duration(offset)).text();
    out.pop_back();  // Z
    const std::int64_t minutes = (offset < 0 ? -offset : offset) / 60;
    const auto two = [](std::int64_t n) { return std::string(n < 10 ? "0" : "") + std::to_string(n); };
    return out + (offset < 0 ? "-" : "+") + two(minutes / 60) + ":" + two(minutes % 60);
}

Remark guidance_words(EntryNumber entry, const Guidance& g) {
    const Remark verdict = forms::verdict_words(g.verdict);
    return words::covered_by(
        g.use_by ? words::guidance_of_record_use_by(g.issuer, g.reference, verdict, g.use_by->text(), entry)
                 : words::guidance_of_record(g.issuer, g.reference, verdict, entry));
}

/// What the review says of the dose. A record's notes are English: the standard has no codes for them.
std::vector<std::string> notes_of(const ImmunizationsAnswer& answer, const ImmunizationsAnswer::Row& row) {
    const ReviewAnswer::Row& dose = row.dose;
    std::vector<std::string> out;
    const auto say = [&](const Remark& text) { out.push_back(english().say(words::sentence(text))); };
    say(words::storage_before(answer.head.ledger, answer.zone.local_text(answer.head.at),
                              forms::finding_words(dose.finding)));
    for (const auto& line : dose.beside) say(line);
    if (!dose.certain) out.push_back(english().say(words::judged_by_worst()));
    const forms::ReasonContext context{dose.history, dose.allowance_seconds, answer.zone, dose.at,
                                       Date::parse_expiry(row.expiry)};
    for (const auto& line : forms::reason_lines(dose.reasons, context)) say(words::why(line));
    if (row.guidance)
        say(guidance_words(*dose.guidance, *row.guidance));
    else if (!dose.reasons.empty())
        say(words::covered_by(words::none_yet()));
    for (const auto& line : forms::history_lines(dose.history, dose.allowance_seconds, answer.zone, Scale::C))
        if (line.is(words::out_of_range_is) || line.is(words::known_how)) say(line);  // unknown hours must show
    out.push_back(forms::cautions({words::caution_review, words::caution}));
    return out;
}

Immunization record_of(const ImmunizationsAnswer& answer, const ImmunizationsAnswer::Row& row) {
    Immunization out;
    out.id = "give-" + std::to_string(row.dose.entry);
    out.status = "completed";
    if (row.cvx && row.cvx->find(' ') == std::string::npos)
        out.vaccine.codes.push_back({std::string(cvx_system), *row.cvx});
    out.vaccine.text = row.product_name.find_first_not_of(" \t\r\n") == std::string::npos ? row.dose.holding.product
                                                                                          : row.product_name;
    out.patient_identifier = row.dose.patient;
    out.occurrence_date_time = local_date_time(row.dose.at, answer.zone);
    out.primary_source = true;
    out.location = row.dose.holding.place;
    out.manufacturer = row.maker;
    out.lot = row.dose.holding.lot;
    out.expiration = row.expiry;
    // The ledger counts doses and knows no volumes. One dose is what a record means that says nothing.
    if (row.dose.doses.count() != 1)
        out.dose_quantity = Immunization::Amount{std::to_string(row.dose.doses.count()), "doses",
                                                 "http://unitsofmeasure.org", "{dose}"};
    out.notes = notes_of(answer, row);
    return out;
}

}  // namespace

std::vector<Immunization> immunization_records(const ImmunizationsAnswer& answer) {
    std::vector<Immunization> out;
    for (const auto& row : answer.doses) out.push_back(record_of(answer, row));
    return out;
}

std::string to_ndjson(const ImmunizationsAnswer& answer) {
    std::string out;
    for (const auto& row : answer.doses) out += to_fhir_json(record_of(answer, row)) + "\n";
    return out;
}

std::string to_json(const ImmunizationsAnswer& answer) {
    std::string out = nlohmann::ordered_json{{"ledger", answer.head.ledger},
                                             {"at", answer.head.at.text()},
                                             {"known_on", answer.head.known_on.text()},
                                             {"last_entry", answer.head.last_entry}}
                          .dump();
    out.pop_back();
    out += ",\"immunizations\":[";
    for (const auto& row : answer.doses)
        out += (&row == &answer.doses.front() ? "" : ",") + to_fhir_json(record_of(answer, row));
    const nlohmann::ordered_json cautions = forms::cautions({words::caution, words::caution_review});
    return out + "],\"caution\":" + cautions.dump() + "}\n";
}

}  // namespace coldtally
