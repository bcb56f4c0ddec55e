// Writing Immunization resources. isSubpotent and subpotentReason are not written: that is a clinical decision of
// people.
#include <nlohmann/json.hpp>

#include "coldtally/fhir.hpp"

namespace coldtally {

namespace {

using Json = nlohmann::ordered_json;  // fields in the order of the specification

/// A FHIR string holds no control characters but tab, CR and LF; other blanks than these and the blank itself are
/// refused by its pattern [ \r\n\t\S]+ where \S knows the blanks of all scripts.
std::string fhir_string(const std::string& text) {
    std::string out;
    for (std::size_t i = 0; i < text.size();) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const std::size_t length = byte < 0x80 ? 1 : byte < 0xE0 ? 2 : byte < 0xF0 ? 3 : 4;
        const std::string character = text.substr(i, length);
        i += length;
        const bool control =
            length == 1 && (byte < 0x20 || byte == 0x7F) && byte != '\t' && byte != '\r' && byte != '\n';
        // U+0080 to U+009F (controls) and U+00A0; U+1680; U+2000 to U+200A, U+2028, U+2029, U+202F; U+205F; U+3000;
        // U+FEFF
        const auto second = length > 1 ? static_cast<unsigned char>(character[1]) : 0,
                   third = length > 2 ? static_cast<unsigned char>(character[2]) : 0;
        const bool blank =
            (byte == 0xC2 && second <= 0xA0) || character == "\xE1\x9A\x80" ||
            (byte == 0xE2 && second == 0x80 && (third <= 0x8A || third == 0xA8 || third == 0xA9 || third == 0xAF)) ||
            character == "\xE2\x81\x9F" || character == "\xE3\x80\x80" || character == "\xEF\xBB\xBF";
        out += control || blank ? std::string(" ") : character;
    }
    return out;
}

void put(Json& out, const char* field, const std::optional<std::string>& text) {
    if (text && !text->empty()) out[field] = fhir_string(*text);
}

Json concept_json(const Immunization::Concept& c) {
    Json out = Json::object();
    for (const auto& code : c.codes) {
        Json coding = Json::object();
        put(coding, "system", code.system);
        put(coding, "code", code.code);
        out["coding"].push_back(coding);
    }
    put(out, "text", c.text);
    return out;
}

}  // namespace

std::string to_fhir_json(const Immunization& r) {
    Json out = {{"resourceType", "Immunization"}};
    put(out, "id", r.id);
    out["status"] = r.status;
    if (r.status_reason) out["statusReason"] = concept_json(*r.status_reason);
    out["vaccineCode"] = concept_json(r.vaccine);
    out["patient"] = Json::object();
    put(out["patient"], "reference", r.patient_reference);
    if (r.patient_identifier) out["patient"]["identifier"] = {{"value", *r.patient_identifier}};
    put(out, "occurrenceDateTime", r.occurrence_date_time);
    put(out, "occurrenceString", r.occurrence_text);
    put(out, "recorded", r.recorded);
    if (r.primary_source) out["primarySource"] = *r.primary_source;
    if (r.location && !r.location->empty()) out["location"] = {{"display", fhir_string(*r.location)}};
    if (r.manufacturer && !r.manufacturer->empty()) out["manufacturer"] = {{"display", fhir_string(*r.manufacturer)}};
    if (r.lot) out["lotNumber"] = *r.lot;
    put(out, "expirationDate", r.expiration);
    if (r.dose_quantity) {
        Json amount = Json::object();
        if (r.dose_quantity->value) amount["value"] = Json::parse(*r.dose_quantity->value);
        put(amount, "unit", r.dose_quantity->unit);
        put(amount, "system", r.dose_quantity->system);
        put(amount, "code", r.dose_quantity->code);
        out["doseQuantity"] = amount;
    }
    for (const auto& note : r.notes) out["note"].push_back({{"text", fhir_string(note)}});
    return out.dump();
}

}  // namespace coldtally
