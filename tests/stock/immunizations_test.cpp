// Immunizations: gives as records, and records as gives: what makes an entry, what is left out, what is refused. All
// data invented.
#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>

#include <nlohmann/json.hpp>

#include "clinic.hpp"

using namespace coldtally;
using tests::at;
using tests::Clinic;
using Json = nlohmann::ordered_json;

namespace {

const std::vector<std::string> site = {
    R"({"kind":"site","name":"Records, invented","zone":"America/New_York"})",
    R"({"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
    R"({"kind":"place","place":"annex","name":"Annex","type":"refrigerator","range":{"low":{"C":"2"},)"
    R"("high":{"C":"8"}}})",
    R"({"kind":"product","product":"elm","name":"Elm, invented","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
    R"("cvx":"03"})",
    R"({"kind":"lot","product":"elm","lot":"E1","expiry":"2027-05"})",
    R"({"kind":"product","product":"fir","name":"Fir, invented","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
    R"("cvx":"104"})",
    R"({"kind":"lot","product":"fir","lot":"F1","expiry":"2027-05-31"})",
    R"({"kind":"product","product":"oak","name":"Oak, invented","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
    R"({"kind":"lot","product":"oak","lot":"F1","expiry":"2027-08"})",
    R"({"kind":"lot","product":"oak","lot":"NEVER","expiry":"2027-08"})",
    R"x({"kind":"maker","product":"elm","name":"Elm Works (invented)"})x",
    R"({"kind":"receive","at":"2026-03-02T08:00:00Z","place":"main","product":"elm","lot":"E1","doses":20})",
    R"({"kind":"receive","at":"2026-03-02T08:00:00Z","place":"main","product":"fir","lot":"F1","doses":20})",
    R"({"kind":"receive","at":"2026-03-02T08:00:00Z","place":"annex","product":"oak","lot":"F1","doses":20})"};

struct Records : Clinic {
    Records() {
        post(site, "2026-03-02T09:00:00Z");
        request.by = "QA";
    }
    Instant now = at("2026-03-10T12:00:00Z");
    RecordsRequest request;

    DraftedRecords made(const Json& record) { return ledger.give_records(request, record.dump(), now); }
    /// The reason why a record makes no entry.
    std::string left_out(const Json& record) {
        const auto drafted = made(record);
        CHECK(drafted.what.entries.empty());
        REQUIRE(drafted.left_out.size() == 1);
        return english().say(drafted.left_out[0].reason);
    }
    std::string refusal(Code with, const Json& record) {
        try {
            made(record);
        } catch (const Error& e) {
            CHECK(e.code() == with);
            return e.what();
        }
        FAIL("accepted");
        return {};
    }
    Entry entry(const Json& record) {
        const auto drafted = made(record);
        INFO((drafted.left_out.empty() ? "" : english().say(drafted.left_out[0].reason)));
        REQUIRE(drafted.what.entries.size() == 1);
        return drafted.what.entries[0];
    }
    std::vector<Json> lines(const std::optional<std::string>& patient = {}) {
        std::vector<Json> out;
        std::istringstream text(to_ndjson(ledger.immunizations({now, {}}, patient, now)));
        for (std::string line; std::getline(text, line);) out.push_back(Json::parse(line));
        return out;
    }
};

Json record(const Json& more = {}) {
    Json out = {{"resourceType", "Immunization"},
                {"id", "a-1"},
                {"status", "completed"},
                {"vaccineCode", {{"text", "V"}}},
                {"patient", {{"identifier", {{"value", "t-1"}}}}},
                {"occurrenceDateTime", "2026-03-02T09:00:00-05:00"},
                {"lotNumber", "E1"}};
    for (const auto& [field, value] : more.items()) {
        if (value.is_null())
            out.erase(field);
        else
            out[field] = value;
    }
    return out;
}

Json cvx(const std::string& code) {
    return {{"coding", {{{"system", "http://hl7.org/fhir/sid/cvx"}, {"code", code}}}}};
}

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("immunizations: a give is a record, with what its product, lot and maker say", "[immunizations]") {
    Records r;
    r.post(
        {R"({"kind":"give","at":"2026-03-02T14:00:00Z","place":"main","product":"elm","lot":"E1","patient":"t-1"})",
         R"({"kind":"give","at":"2026-03-02T13:00:00Z","place":"annex","product":"oak","lot":"F1","patient":"t-2",)"
         R"("doses":3})",
         R"({"kind":"give","at":"2026-03-02T15:00:00Z","place":"main","product":"fir","lot":"F1","patient":"t-3"})",
         R"({"kind":"void","at":"2026-03-02T15:30:00Z","voids":17,"reason":"twice"})"},
        "2026-03-02T16:00:00Z");
    const auto all = r.lines();
    REQUIRE(all.size() == 2);  // in the order of entry, without what was taken back
    CHECK(all[0]["id"] == "give-15");
    CHECK(all[0]["vaccineCode"] ==
          Json{{"coding", {{{"system", "http://hl7.org/fhir/sid/cvx"}, {"code", "03"}}}}, {"text", "Elm, invented"}});
    CHECK(all[0]["patient"] == Json{{"identifier", {{"value", "t-1"}}}});
    CHECK(all[0]["occurrenceDateTime"] == "2026-03-02T09:00:00-05:00");
    CHECK(all[0]["manufacturer"] == Json{{"display", "Elm Works (invented)"}});
    CHECK(all[0]["expirationDate"] == "2027-05");
    CHECK_FALSE(all[0].contains("doseQuantity"));
    CHECK(all[1]["id"] == "give-16");
    CHECK_FALSE(all[1]["vaccineCode"].contains("coding"));
    CHECK_FALSE(all[1].contains("manufacturer"));
    CHECK(all[1]["doseQuantity"]["value"] == 3);
    CHECK(all[1]["location"] == Json{{"display", "annex"}});
    CHECK(r.lines("t-2") == std::vector<Json>{all[1]});
    CHECK(r.lines("nobody").empty());
}

TEST_CASE(
    "immunizations: the note says what the review says, and where the chart is not certain; nothing says that a dose "
    "does not count",
    "[immunizations]") {
    Records r;
    r.post(
        {R"({"kind":"give","at":"2026-03-03T14:00:00Z","place":"main","product":"elm","lot":"E1","patient":"t-1",)"
         R"("certain":false})",
         R"({"kind":"give","at":"2026-03-02T08:00:00Z","place":"main","product":"fir","lot":"F1","patient":"t-2"})",
         R"x({"kind":"guidance","at":"2026-03-04T14:00:00Z","product":"elm","lot":"E1",)x"
         R"x("through":"2026-03-04T00:00:00Z","verdict":"use","issuer":"Elm Works (invented)","reference":"case 7"})x"},
        "2026-03-05T16:00:00Z");
    const auto all = r.lines();
    REQUIRE(all.size() == 2);
    std::vector<std::string> notes;
    for (const auto& note : all[0]["note"]) notes.push_back(note["text"]);
    REQUIRE(notes.size() == 7);
    CHECK(notes[0] ==
          "Storage before it was given, as Records, invented has it on 2026-03-10 08:00: cleared by guidance.");
    CHECK(notes[1] ==
          "Not certain: the chart names the lot, not the box. Judged by the worst of all boxes of the lot that were "
          "there.");
    CHECK(notes[2] == "Why: unmonitored: the temperature is not known for 30 h.");
    CHECK(notes[3] == "Guidance that covers it: Elm Works (invented), case 7 (use; entry 17).");
    CHECK(notes[4] == "Out of range: not known, there is no record.");
    CHECK(notes[5] == "Known how: NOT KNOWN 30 h.");
    CHECK(notes[6] == std::string(review_caution) + " " + caution);
    CHECK(all[1]["note"][0]["text"] ==
          "Storage before it was given, as Records, invented has it on 2026-03-10 08:00: nothing found.");
    for (const auto& one : all) CHECK_FALSE((one.contains("isSubpotent") || one.contains("subpotentReason")));
    CHECK_FALSE(holds(all[1].dump(), "Not certain"));
}

TEST_CASE("give_records: a record is a give of the holding it can only be of", "[immunizations]") {
    Records r;
    r.request.note = "from the chart";
    const Entry e = r.entry(record({{"doseQuantity", {{"value", 2}, {"code", "{dose}"}}}}));
    const Give& give = std::get<Give>(e.fact);
    CHECK(give.place == "main");
    CHECK(give.product == "elm");
    CHECK(give.patient == "t-1");
    CHECK(give.doses.count() == 2);
    CHECK(give.certain);
    CHECK(e.at == at("2026-03-02T14:00:00Z"));
    CHECK(e.note == "FHIR Immunization/a-1; from the chart");
    CHECK(std::get<Give>(r.entry(record({{"doseQuantity", {{"value", 0.5}, {"code", "mL"}}}})).fact).doses.count() ==
          1);
    CHECK(std::get<Give>(r.entry(record({{"patient", {{"reference", "Patient/9"}, {"display", "Nobody"}}}})).fact)
              .patient == "Patient/9");
    CHECK(r.entry(record({{"occurrenceDateTime", "2026-03-02T14:00:00.75Z"}})).at == at("2026-03-02T14:00:00Z"));
    CHECK(holds(*r.entry(record({{"isSubpotent", true},
                                 {"subpotentReason",
                                  {{{"coding", {{{"code", "coldchainbreak"}}}}}, {{"text", "partial dose"}}}}}))
                     .note,
                "FHIR Immunization/a-1; the record says it is subpotent: coldchainbreak, partial dose"));
    r.request.certain = false;
    CHECK_FALSE(std::get<Give>(r.entry(record()).fact).certain);
}

TEST_CASE("give_records: what is no dose of this ledger, or cannot be noted, is left out with its reason",
          "[immunizations]") {
    Records r;
    CHECK(r.left_out(record({{"status", "not-done"}, {"statusReason", {{"text", "declined"}}}})) ==
          "not-done (declined)");
    CHECK(r.left_out(record({{"status", "entered-in-error"}})) == "entered-in-error");
    CHECK(r.left_out(record({{"id", nullptr}})) == "has no id, by which it would be known again: state it with give");
    CHECK(r.left_out(record({{"modifierExtension", Json::array()}})) ==
          "modifierExtension changes what it means, and is not understood here: state it with give");
    CHECK(r.left_out(record({{"primarySource", false}})) ==
          "primarySource false: reported from elsewhere, no dose of this site");
    CHECK(r.left_out(record({{"lotNumber", nullptr}})) == "no lotNumber: state it with give");
    CHECK(r.left_out(record({{"occurrenceDateTime", nullptr}, {"occurrenceString", "noon"}})) ==
          "occurrenceString \"noon\": no instant: state it with give");
    CHECK(r.left_out(record({{"occurrenceDateTime", "2026-03-02"}})) ==
          "occurrenceDateTime \"2026-03-02\": a date without a time: state it with give");
    CHECK(r.left_out(record({{"patient", {{"display", "Nobody"}}}})) ==
          "patient without identifier.value and reference: no token: state it with give");
    CHECK(holds(r.left_out(record({{"patient", {{"reference", "#p"}}}})), "points into the record"));
    CHECK(r.left_out(record({{"lotNumber", "El"}})) == "lot \"El\" was never held here; is it \"elm\" lot \"E1\"?");
    CHECK(r.left_out(record({{"lotNumber", "NEVER"}})) == "lot \"NEVER\" was never held here");
}

TEST_CASE("give_records: a lot of two products is told apart by CVX, then by expiry, and never chosen",
          "[immunizations]") {
    Records r;
    const auto product = [&](const Json& more) {
        Json with = {{"lotNumber", "F1"}};
        if (!more.is_null()) with.update(more);
        return std::get<Give>(r.entry(record(with)).fact).product;
    };
    CHECK(product({{"expirationDate", "2027-05-31"}}) == "fir");
    CHECK(product({{"expirationDate", "2027-05"}, {"vaccineCode", cvx("104")}}) == "fir");
    CHECK(product({{"expirationDate", "2027-08-31"}, {"vaccineCode", cvx("03")}}) ==
          "oak");  // which has no CVX to disagree
    const auto both = r.refusal(Code::ambiguous, record({{"lotNumber", "F1"}, {"vaccineCode", cvx("104")}}));
    CHECK(both ==
          "line 1: Immunization/a-1: lotNumber: lot \"F1\" is a lot of \"fir\" (CVX 104, expiry 2027-05-31) and "
          "\"oak\" (expiry 2027-08); state the product: `--product fir`: Fir, invented, expiry 2027-05-31; "
          "`--product oak`: Oak, invented, expiry 2027-08-31");
    CHECK(holds(r.refusal(Code::contradiction, record({{"lotNumber", "F1"}, {"expirationDate", "2027-06"}})),
                "expirationDate: \"2027-06\": lot \"F1\" is known of \"fir\" (CVX 104, expiry 2027-05-31) and"));
    CHECK(holds(r.refusal(Code::contradiction, record({{"expirationDate", "2027-05-30"}})),
                "known of \"elm\" (CVX 03, expiry 2027-05)"));
    CHECK(holds(r.refusal(Code::contradiction, record({{"vaccineCode", cvx("3")}})),
                "vaccineCode: CVX 3: lot \"E1\" is of \"elm\" (CVX 03,"));
    r.request.product = "oak";
    CHECK(product({}) == "oak");
    CHECK(product({{"expirationDate", "2027-05"}}) == "fir");  // what the record says goes before
    r.request.product = "elm";
    r.refusal(Code::contradiction, record({{"lotNumber", "F1"}}));
}

TEST_CASE("give_records: of several holdings none is chosen; the record's place, or what is stated, names it",
          "[immunizations]") {
    Records r;
    r.post({R"({"kind":"receive","at":"2026-03-02T08:00:00Z","place":"annex","product":"elm","lot":"E1","doses":5})"},
           "2026-03-02T10:00:00Z");
    CHECK(holds(r.refusal(Code::ambiguous, record()),
                "line 1: Immunization/a-1: lot: product \"elm\", lot \"E1\": 2 holdings match; state the place"));
    CHECK(std::get<Give>(r.entry(record({{"location", {{"display", "annex"}}}})).fact).place == "annex");
    r.request.place = "main";
    CHECK(std::get<Give>(r.entry(record({{"location", {{"display", "Ward 3"}}}})).fact).place == "main");
    CHECK(std::get<Give>(r.entry(record({{"location", {{"display", "annex"}}}})).fact).place == "annex");
}

TEST_CASE("give_records: what no give may be is refused", "[immunizations]") {
    Records r;
    CHECK(holds(r.refusal(Code::bad_value, record({{"patient", {{"identifier", {{"value", "Jane Roe"}}}}}})),
                "patient: identifier: value: has a blank, as a name has: must be a token"));
    CHECK(holds(r.refusal(Code::too_late, record({{"occurrenceDateTime", "2026-03-10T12:00:01Z"}})),
                "occurrenceDateTime"));
    CHECK(holds(r.refusal(Code::not_there, record({{"occurrenceDateTime", "2026-03-01T12:00:01Z"}})), "no doses at"));
    CHECK(holds(r.refusal(Code::bad_value, record({{"doseQuantity", {{"value", 1.5}, {"code", "{dose}"}}}})),
                "must be a whole number"));
    const std::string two =
        record().dump() + "\n" + record({{"occurrenceDateTime", "2026-03-02T09:30:00-05:00"}}).dump();
    CHECK_THROWS_AS(r.ledger.give_records(r.request, two, r.now), Error);
    const auto twice = r.ledger.give_records(r.request, record().dump() + "\n" + record().dump(), r.now);
    CHECK(english().say(twice.left_out[0].reason) == "the same as line 1");
}

TEST_CASE("give_records: all or nothing", "[immunizations]") {
    Records r;
    std::string many;
    for (int i = 0; i < 21; ++i) many += record({{"id", "a-" + std::to_string(i)}}).dump() + "\r\n";
    const auto drafted = r.ledger.give_records(r.request, many, r.now);
    CHECK(drafted.what.entries.size() == 21);
    CHECK_THROWS_AS(r.ledger.post(drafted.what.entries, r.now), Error);  // there are 20
    CHECK(r.lines().empty());
}

TEST_CASE("give_records: a record that was noted is left out, until its give is taken back", "[immunizations]") {
    Records r;
    r.ledger.post(r.made(record()).what.entries, r.now);
    CHECK(r.left_out(record()) == "already noted as entry 15");
    CHECK(
        r.left_out(record({{"lotNumber", "X"}, {"occurrenceDateTime", "2026-03-02T09:30:00-05:00"}})) ==
        "already noted as entry 15, which has another lot (\"E1\"), another instant (2026-03-02 09:00): look at both");
    CHECK(r.left_out(record({{"status", "entered-in-error"}})) ==
          "entered-in-error; but entry 15 notes it as given: look at it, and take that back if it is wrong");
    CHECK(r.entry(record({{"id", "a-11"}})).number == 0);  // an id that begins alike is another
    r.post({R"({"kind":"void","at":"2026-03-10T12:30:00Z","voids":15,"reason":"wrong lot"})"}, "2026-03-10T13:00:00Z");
    r.now = at("2026-03-10T14:00:00Z");
    CHECK(r.entry(record()).note == "FHIR Immunization/a-1");
}

TEST_CASE(
    "immunizations: out of a ledger and into one that lacks the gives: the same review; into the same one: nothing",
    "[immunizations]") {
    const std::vector<std::string> readings = {
        R"({"kind":"probe","probe":"p","scale":"C"})",
        R"({"kind":"assign","at":"2026-03-02T08:00:00Z","probe":"p","place":"main"})",
        tests::readings("2026-03-02T08:00:00Z", {{0, "5"}, {3600, "5"}, {7200, "11"}, {10800, "11"}, {14400, "5"}})};
    const std::vector<std::string> gives = {
        R"({"kind":"give","at":"2026-03-02T09:00:00Z","place":"main","product":"elm","lot":"E1","patient":"t-1",)"
        R"("doses":2})",
        R"({"kind":"give","at":"2026-03-02T11:30:00Z","place":"main","product":"elm","lot":"E1","patient":"t-2"})",
        R"({"kind":"give","at":"2026-03-02T11:40:00Z","place":"main","product":"fir","lot":"F1","patient":"t-3"})",
        R"({"kind":"give","at":"2026-03-02T12:00:00Z","place":"annex","product":"oak","lot":"F1","patient":"t-4"})"};
    Records from, into;
    from.post(readings, "2026-03-03T09:00:00Z");
    into.post(readings, "2026-03-03T09:00:00Z");
    from.post(gives, "2026-03-04T09:00:00Z");
    const std::string text = to_ndjson(from.ledger.immunizations({from.now, {}}, {}, from.now));
    const auto again = from.ledger.give_records(from.request, text, from.now);
    CHECK(again.what.entries.empty());
    REQUIRE(again.left_out.size() == 4);
    CHECK(english().say(again.left_out[0].reason) == "already noted as entry 18");
    CHECK(again.left_out[0].reason.code() == "already-noted");

    const auto drafted = into.ledger.give_records(into.request, text, into.now);
    CHECK(drafted.left_out.empty());
    into.ledger.post(drafted.what.entries, into.now);
    const auto told = [](const Records& r) {
        Json out = Json::parse(to_json(r.ledger.review({r.now, {}}, r.now, true)));
        return out["doses"];
    };
    REQUIRE(told(from).size() == 4);
    CHECK(told(from)[1]["finding"] == "pending guidance");
    CHECK(told(into) == told(from));
}

TEST_CASE("a record of a dose of which nothing was found says what makes that unsure", "[immunizations]") {
    Records c;
    const auto check = [](const char* time, const char* degrees) {
        return R"({"kind":"check","place":"main","scale":"C","at":"2026-03-)" + std::string(time) +
               R"(:00Z","temperature":")" + degrees + "\"}";
    };
    const std::string give = R"({"kind":"give","place":"main","patient":"t","product":)";
    c.post({R"({"kind":"product","product":"fir","name":"Fir","allowances":[{"band":{"low":{"C":"8"},)"
            R"("high":{"C":"25"}},"seconds":14400,"source":"invented"}],"range":{"low":{"C":"2"},"high":{"C":"8"}}})",
            check("02T08:00", "2"), check("03T01:00", "8.1"), check("03T01:05", "5"),
            give + R"("fir","lot":"F1","at":"2026-03-03T01:06:00Z"})"});
    const auto notes = [&](const std::string& when) {
        const auto now = at(when);
        const auto all = immunization_records(c.ledger.immunizations({now, std::nullopt}, std::nullopt, now));
        REQUIRE(all.size() == 1);
        std::string out;
        for (const auto& note : all[0].notes) out += note + "\n";
        return out;
    };
    const auto before = notes("2026-03-03T01:10:00Z");
    CHECK(before.find("MAY BE OVER ITS ALLOWANCE: too warm for at most 17 h 5 min") != std::string::npos);
    CHECK(before.find("IN DOUBT") == std::string::npos);
    c.post({R"({"kind":"incident","at":"2026-03-03T01:20:00Z","incident":"i1","step":"noticed","place":"main",)"
            R"("text":"door"})"});
    const std::string doubt =
        "nothing found.\nIN DOUBT: incident i1 is open, and these doses stood in its time in doubt.\n";
    CHECK(notes("2026-03-03T01:30:00Z").find(doubt) != std::string::npos);
    const auto now = at("2026-03-03T01:30:00Z");
    CHECK(to_json(c.ledger.immunizations({now, std::nullopt}, std::nullopt, now)).find("IN DOUBT: incident i1") !=
          std::string::npos);
    CHECK(to_json(c.ledger.review({now, std::nullopt}, now, true))
              .find(R"("beside":["IN DOUBT: incident i1 is open)") != std::string::npos);
    c.post({R"({"kind":"incident","at":"2026-03-03T01:40:00Z","incident":"i1","step":"closed","text":"ok"})"});
    // closing is no answer: what stood in doubt stays so until one covers it
    CHECK(notes("2026-03-03T01:50:00Z")
              .find("IN DOUBT: incident i1 was closed without an answer for these doses") != std::string::npos);
}
