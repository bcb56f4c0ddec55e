// Reading Immunization resources: the fields of use with their types, whatever else they hold.
#include <algorithm>
#include <map>

#include "coldtally/error.hpp"
#include "coldtally/fhir.hpp"
#include "entries/fields.hpp"
#include "text/json_text.hpp"
#include "words/drafts_records.hpp"

namespace coldtally {

namespace {

using entries::Fields;
using entries::shown;
using text::Json;

bool is_id(const std::string& s) {
    constexpr std::string_view allowed = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-.";
    return !s.empty() && s.size() <= 64 && s.find_first_not_of(allowed) == std::string::npos;
}

/// A FHIR string: never empty.
std::string string_of(Fields& f, const char* field) {
    auto out = f.free_text(field);
    if (out.find_first_not_of(" \t\r\n") == std::string::npos)
        f.refuse_value(field, f.value(field), "must not be empty; leave the field out");
    return out;
}

std::optional<std::string> maybe_string(Fields& f, const char* field) {
    return f.has(field) ? std::optional(string_of(f, field)) : std::nullopt;
}

std::optional<std::string> maybe_date(Fields& f, const char* field, bool with_time) {
    auto out = maybe_string(f, field);
    if (!out) return out;
    try {
        check_fhir_date(*out, with_time);
    } catch (const Error& e) {
        throw Error(e.code(), f.name_of(field) + ": " + e.what());
    }
    return out;
}

Immunization::Concept concept_of(Fields f) {
    Immunization::Concept out;
    if (f.has("coding")) {
        std::size_t i = 0;
        for (const Json& coding : f.array("coding")) {
            Fields c(coding, f.name_of("coding[" + std::to_string(i++) + "]"));
            out.codes.push_back({maybe_string(c, "system").value_or(""), maybe_string(c, "code").value_or("")});
        }
    }
    out.text = maybe_string(f, "text");
    return out;
}

Immunization::Amount amount_of(Fields f) {
    Immunization::Amount out;
    if (f.has("value")) {
        const Json& value = f.value("value");
        if (!value.is_number()) f.refuse_value("value", value, "must be a JSON number");
        out.value = value.dump();
    }
    out.unit = maybe_string(f, "unit");
    out.system = maybe_string(f, "system");
    out.code = maybe_string(f, "code");
    return out;
}

Immunization::Protocol protocol_of(Fields f) {
    Immunization::Protocol out;
    out.series = maybe_string(f, "series");
    if (f.has("doseNumberPositiveInt"))
        out.dose_number = std::to_string(f.whole("doseNumberPositiveInt", 1, INT32_MAX));
    if (f.has("doseNumberString")) out.dose_number = string_of(f, "doseNumberString");
    return out;
}

std::optional<std::string> display_of(Fields& f, const char* field) {
    if (!f.has(field)) return std::nullopt;
    Fields reference = f.object(field);
    return maybe_string(reference, "display");
}

void read_patient(Fields f, Immunization& out) {
    out.patient_reference = maybe_string(f, "reference");
    if (!f.has("identifier")) return;
    Fields identifier = f.object("identifier");
    out.patient_identifier = maybe_string(identifier, "value");
}

void read_occurrence(Fields& f, Immunization& out) {
    out.occurrence_date_time = maybe_date(f, "occurrenceDateTime", true);
    out.occurrence_text = maybe_string(f, "occurrenceString");
    if (out.occurrence_date_time && out.occurrence_text)
        f.refuse(Code::contradiction, "occurrenceDateTime", "stands beside occurrenceString; must be one of the two");
    // a primitive without a value may say why it has none
    const bool without_value = f.has("_occurrenceDateTime") || f.has("_occurrenceString");
    if (!out.occurrence_date_time && !out.occurrence_text && !without_value)
        f.refuse(Code::missing_field, "occurrenceDateTime", "is missing; must be there, or occurrenceString");
}

Immunization immunization_of(const Json& json, const std::string& where) {
    Fields f(json, where);
    Immunization out;
    out.id = maybe_string(f, "id");
    if (out.id && !is_id(*out.id)) f.refuse_value("id", f.value("id"), "must be 1 to 64 characters of A-Z a-z 0-9 - .");
    constexpr const char* statuses[] = {"completed", "entered-in-error", "not-done"};
    out.status = statuses[f.choice("status", {statuses[0], statuses[1], statuses[2]})];
    if (f.has("statusReason")) out.status_reason = concept_of(f.object("statusReason"));
    out.vaccine = concept_of(f.object("vaccineCode"));
    read_patient(f.object("patient"), out);
    read_occurrence(f, out);
    out.recorded = maybe_date(f, "recorded", true);
    if (f.has("primarySource")) out.primary_source = f.truth("primarySource");
    out.location = display_of(f, "location");
    out.manufacturer = display_of(f, "manufacturer");
    out.lot = maybe_string(f, "lotNumber");
    out.expiration = maybe_date(f, "expirationDate", false);
    if (f.has("doseQuantity")) out.dose_quantity = amount_of(f.object("doseQuantity"));
    if (f.has("isSubpotent")) out.subpotent = f.truth("isSubpotent");
    std::size_t i = 0;
    if (f.has("subpotentReason"))
        for (const Json& reason : f.array("subpotentReason"))
            out.subpotent_reasons.push_back(
                concept_of(Fields(reason, f.name_of("subpotentReason[" + std::to_string(i++) + "]"))));
    i = 0;
    if (f.has("protocolApplied"))
        for (const Json& protocol : f.array("protocolApplied"))
            out.protocols.push_back(
                protocol_of(Fields(protocol, f.name_of("protocolApplied[" + std::to_string(i++) + "]"))));
    for (const char* field : {"modifierExtension", "implicitRules"})
        if (f.has(field)) out.modified_by = field;
    return out;
}

class Reader {
public:
    void take(const Json& json, const std::string& where, bool in_bundle = false) {
        Fields f(json, where);
        const std::string type = f.id("resourceType");
        if (type == "Immunization")
            out_.records.push_back({where, immunization_of(json, where)});
        else if (in_bundle)
            ++passed_over_[type];
        else if (type == "Bundle")
            bundle(f, where);
        else
            f.refuse_value("resourceType", f.value("resourceType"),
                           "must be \"Immunization\", or a \"Bundle\" of them");
    }

    ReadImmunizations done() {
        for (const auto& [type, count] : passed_over_)
            out_.remarks.push_back(words::passed_over(count, type));
        return std::move(out_);
    }

private:
    void bundle(Fields& f, const std::string& where) {
        if (f.has("link"))
            for (const Json& link : f.array("link"))
                if (link.is_object() && link.contains("relation") && link["relation"] == "next")
                    out_.remarks.push_back(words::one_page_of_several(where));
        if (!f.has("entry")) return;
        std::size_t i = 0;
        for (const Json& entry : f.array("entry")) {
            const std::string here = where + ": entry " + std::to_string(++i);
            Fields e(entry, here);
            if (e.has("resource")) take(e.value("resource"), here, true);
        }
    }

    ReadImmunizations out_;
    std::map<std::string, int> passed_over_;
};

/// A resource a line? Else the whole text is one value over several lines. Where it is neither, the lines decide what
/// is said of it.
bool is_a_value_a_line(std::string_view text, const std::vector<text::Line>& lines) {
    if (lines.size() == 1 || Json::accept(lines.front().text)) return true;
    if (Json::accept(text)) return false;
    return std::any_of(lines.begin(), lines.end(), [](const text::Line& line) {
        return line.text.starts_with("{\"resourceType\"") && Json::accept(line.text);
    });
}

}  // namespace

ReadImmunizations parse_immunizations(std::string_view text) {
    constexpr std::string_view mark = "\xEF\xBB\xBF";
    if (text.starts_with(mark)) text.remove_prefix(mark.size());
    const auto lines = text::lines_of(text);
    if (lines.empty())
        throw Error(Code::bad_text,
                    "no records: must be FHIR R4 Immunization resources, one a line (NDJSON), one alone, or a Bundle");
    Reader reader;
    if (is_a_value_a_line(text, lines)) {
        for (const auto& line : lines) {
            const std::string where = "line " + std::to_string(line.number);
            reader.take(text::parse_json(line.text, where), where);
        }
    } else {
        const std::string where = "line " + std::to_string(lines.front().number);
        reader.take(text::parse_json(text, where), where);
    }
    return reader.done();
}

}  // namespace coldtally
