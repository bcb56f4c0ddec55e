// FHIR records: what is read of them, what is refused and where the message points, what is written. The official
// examples and HL7's schema are asked in tests/published/fhir.txt and tests/reference/fhir_test.py. All else is
// invented.
#include <catch2/catch.hpp>

#include "coldtally/error.hpp"
#include "coldtally/fhir.hpp"

using namespace coldtally;

namespace {

std::string refusal(const std::string& text, Code with) {
    try {
        parse_immunizations(text);
    } catch (const Error& e) {
        CHECK(e.code() == with);
        return e.what();
    }
    FAIL("read: " + text);
    return {};
}

/// A record with more fields, or others.
std::string record(const std::string& more = R"("lotNumber":"K1")",
                   const std::string& occurrence = R"("occurrenceDateTime":"2026-03-02T09:00:00-05:00")") {
    return R"({"resourceType":"Immunization","id":"a-1","status":"completed","vaccineCode":{"text":"V"},)"
           R"("patient":{"identifier":{"value":"t-1"},"display":"never read"},)" +
           occurrence + "," + more + "}";
}

Immunization read(const std::string& text) {
    const auto all = parse_immunizations(text).records;
    REQUIRE(all.size() == 1);
    return all[0].record;
}

}  // namespace

TEST_CASE("fhir: the fields of use of a record", "[fhir]") {
    const auto r = read(record(
        R"("lotNumber":"K1","expirationDate":"2027-05","isSubpotent":true,"subpotentReason":[{"coding":[{"system":"s",)"
        R"("code":"coldchainbreak"}]}],"primarySource":true,)"
        R"("doseQuantity":{"value":0.5,"unit":"mL","system":"http://unitsofmeasure.org","code":"mL"},)"
        R"("location":{"display":"main"},"manufacturer":{"display":"M"},"recorded":"2026-03-03",)"
        R"("statusReason":{"text":"why"},"protocolApplied":[{"series":"2-dose","doseNumberPositiveInt":1},)"
        R"({"doseNumberString":"booster"}],"note":[{"text":"of others"}],"anything":[[{}]])"));
    CHECK(r.id == "a-1");
    CHECK(r.status == "completed");
    CHECK(r.patient_identifier == "t-1");
    CHECK_FALSE(r.patient_reference);
    CHECK(r.occurrence_date_time == "2026-03-02T09:00:00-05:00");
    CHECK(r.lot == "K1");
    CHECK(r.expiration == "2027-05");
    CHECK(r.subpotent == true);
    REQUIRE(r.subpotent_reasons.size() == 1);
    CHECK(r.subpotent_reasons[0].codes[0].code == "coldchainbreak");
    CHECK(r.primary_source == true);
    CHECK(r.dose_quantity->value == "0.5");
    CHECK(r.dose_quantity->code == "mL");
    CHECK(r.location == "main");
    CHECK(r.manufacturer == "M");
    CHECK(r.recorded == "2026-03-03");
    CHECK(r.status_reason->text == "why");
    REQUIRE(r.protocols.size() == 2);
    CHECK(r.protocols[0].dose_number == "1");
    CHECK(r.protocols[1].dose_number == "booster");
    CHECK(r.notes.empty());
    CHECK(r.modified_by.empty());
    CHECK(read(record(R"("modifierExtension":[{"url":"u"}])")).modified_by == "modifierExtension");
}

TEST_CASE("fhir: a record a line with either line end, one over several lines, a Bundle", "[fhir]") {
    CHECK(parse_immunizations(record() + "\n" + record() + "\n").records.size() == 2);
    CHECK(parse_immunizations(record() + "\r\n\r\n" + record() + "\r\n").records[1].where == "line 3");
    std::string pretty = record();
    for (std::size_t i = 0; (i = pretty.find(",\"", i)) != std::string::npos; i += 3) pretty.insert(i + 1, "\n");
    CHECK(read(pretty) == read(record()));
    CHECK(read("\xEF\xBB\xBF" + record()) == read(record()));
    const auto bundle = parse_immunizations(
        R"({"resourceType":"Bundle","link":[{"relation":"next","url":"u"}],)"
        R"("entry":[{"resource":{"resourceType":"Patient","name":[{"family":"never read"}]}},)"
        "\n"
        R"({"resource":)" +
        record() + R"(},{"fullUrl":"u"}]})");
    REQUIRE(bundle.records.size() == 1);
    CHECK(bundle.records[0].where == "line 1: entry 2");
    REQUIRE(bundle.remarks.size() == 2);
    CHECK(english().say(bundle.remarks[0]).find("one page of several") != std::string::npos);
    CHECK(bundle.remarks[1].code() == "passed-over");
    CHECK(english().say(bundle.remarks[1]) == "1 Patient passed over: only Immunization is read");
    CHECK(parse_immunizations(R"({"resourceType":"Bundle"})").records.empty());
}

TEST_CASE("fhir: what is no record is refused, with line, field, value and what would be right", "[fhir]") {
    CHECK(refusal("", Code::bad_text).find("no records") != std::string::npos);
    CHECK(refusal(" \n\n", Code::bad_text).find("no records") != std::string::npos);
    CHECK(refusal(record() + "\n{\"a\":", Code::bad_json).starts_with("line 2: not JSON"));
    CHECK(refusal("{\"a\":\n" + record(), Code::bad_json).starts_with("line 1: not JSON"));
    CHECK(refusal("{\n \"a\": 1,\n}", Code::bad_json).find("line 3") != std::string::npos);
    CHECK(refusal("\xFF", Code::bad_text).find("UTF-8") != std::string::npos);
    CHECK(refusal(record(R"("status":"completed")"), Code::bad_json).find("twice") != std::string::npos);
    CHECK(refusal(record("\"x\":" + std::string(40, '[') + std::string(40, ']')), Code::bad_json)
              .find("nested deeper than 32") != std::string::npos);
    CHECK(refusal(record("\"x\":\"" + std::string(16u << 20, 'x') + "\""), Code::bad_text).find("16 MiB") !=
          std::string::npos);
    CHECK(refusal("[" + record() + "]", Code::bad_value).find("must be a JSON object") != std::string::npos);
    CHECK(refusal(R"({"resourceType":"Patient"})", Code::bad_value) ==
          R"(line 1: resourceType: "Patient": must be "Immunization", or a "Bundle" of them)");
    CHECK(refusal(R"({"id":"a"})", Code::missing_field) == "line 1: resourceType: is missing");
    CHECK(refusal(record(R"("lotNumber":12)"), Code::bad_value) == "line 1: lotNumber: 12: must be text");
    CHECK(refusal(record(R"("lotNumber":" ")"), Code::bad_value).find("must not be empty") != std::string::npos);
    CHECK(refusal(record(R"("expirationDate":"05/2027")"), Code::bad_value) ==
          R"(line 1: expirationDate: "05/2027": must be a date of the calendar: 2018-06-18, 2018-06 or 2018)");
    CHECK(refusal(record(R"("isSubpotent":"no")"), Code::bad_value) ==
          R"(line 1: isSubpotent: "no": must be true or false)");
    CHECK(refusal(record(R"("doseQuantity":{"value":"1"})"), Code::bad_value) ==
          R"(line 1: doseQuantity: value: "1": must be a JSON number)");
    CHECK(refusal(record(R"("subpotentReason":[{"coding":[{"code":1}]}])"), Code::bad_value) ==
          "line 1: subpotentReason[0]: coding[0]: code: 1: must be text");
    CHECK(refusal(record(R"("occurrenceString":"noon")"), Code::contradiction).find("must be one of the two") !=
          std::string::npos);
    CHECK(refusal(record("\"x\":1", "\"y\":1"), Code::missing_field) ==
          "line 1: occurrenceDateTime: is missing; must be there, or occurrenceString");
    CHECK(refusal(R"({"resourceType":"Bundle","entry":[{"resource":{"resourceType":"Immunization"}}]})",
                  Code::missing_field) == "line 1: entry 1: status: is missing");
}

TEST_CASE("fhir: an occurrence that says why it has no value is there", "[fhir]") {
    const auto r =
        read(record("\"x\":1", R"("_occurrenceDateTime":{"extension":[{"url":"u","valueCode":"unknown"}]})"));
    CHECK_FALSE(r.occurrence_date_time);
    CHECK_FALSE(r.occurrence_text);
}

TEST_CASE("fhir: dates and date-times", "[fhir]") {
    for (const char* good : {"2018", "2018-06", "2018-06-18", "2016-02-29", "1948-01-01"})
        CHECK_NOTHROW(check_fhir_date(good, false));
    for (const char* good : {"2018-06-18T08:05:00Z", "2018-06-18T08:05:00.123-05:00", "2018-06-18T23:59:60+14:00"}) {
        CHECK_NOTHROW(check_fhir_date(good, true));
        CHECK_THROWS_AS(check_fhir_date(good, false), Error);
    }
    for (const char* bad :
         {"", "18", "2018-6", "2018-13", "2018-00", "2018-06-31", "2017-02-29", "2018-06-18T", "2018-06-18T08:05Z",
          "2018-06-18T08:05:00", "2018-06-18T24:00:00Z", "2018-06-18T08:60:00Z", "2018-06-18T08:05:00+14:01",
          "2018-06-18T08:05:00.Z", "2018-06-18T08:05:00ZZ", "2018-06-18 08:05:00Z", "2018-06-18 ", "0000"})
        CHECK_THROWS_AS(check_fhir_date(bad, true), Error);
}

TEST_CASE("fhir: what is written is read again; what a FHIR string cannot hold becomes a blank", "[fhir]") {
    Immunization r;
    r.id = "give-7";
    r.status = "completed";
    r.vaccine = {{{std::string(cvx_system), "03"}}, "MMR \"II\""};
    r.patient_identifier = "t-1";
    r.occurrence_date_time = "2026-03-02T09:00:00-05:00";
    r.primary_source = true;
    r.location = "main";
    r.manufacturer = "M";
    r.lot = "K1";
    r.expiration = "2027-05";
    r.dose_quantity = Immunization::Amount{"2", "doses", "http://unitsofmeasure.org", "{dose}"};
    const std::string json = to_fhir_json(r);
    CHECK(
        json ==
        R"({"resourceType":"Immunization","id":"give-7","status":"completed",)"
        R"("vaccineCode":{"coding":[{"system":"http://hl7.org/fhir/sid/cvx","code":"03"}],"text":"MMR \"II\""},)"
        R"("patient":{"identifier":{"value":"t-1"}},"occurrenceDateTime":"2026-03-02T09:00:00-05:00",)"
        R"("primarySource":true,"location":{"display":"main"},"manufacturer":{"display":"M"},)"
        R"("lotNumber":"K1","expirationDate":"2027-05","doseQuantity":{"value":2,"unit":"doses",)"
        R"("system":"http://unitsofmeasure.org","code":"{dose}"}})");
    CHECK(read(json) == r);
    r.notes = {"a\x07" "b\x1F" "c\xC2\xA0" "d\xE3\x80\x80" "e\tf\n\xE2\x80\x93\xC3\xA9"};
    CHECK(to_fhir_json(r).find("a b c d e\\tf\\n\xE2\x80\x93\xC3\xA9") != std::string::npos);
}

TEST_CASE("fhir: subpotency is read and never written: that is a decision of people", "[fhir]") {
    Immunization r = read(record(R"("isSubpotent":true,"subpotentReason":[{"text":"cold chain"}])"));
    REQUIRE(r.subpotent == true);
    CHECK(to_fhir_json(r).find("ubpotent") == std::string::npos);
}
