// No refusal repeats a patient's token: entries that hold marked tokens are broken in every field, at every byte and in
// every way that a token may be misused, and no message holds a token.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "coldtally/error.hpp"
#include "coldtally/fhir.hpp"
#include "coldtally/ledger.hpp"
#include "temporary.hpp"

using namespace coldtally;
using Json = nlohmann::ordered_json;

namespace {

const Instant now = parse_instant("2026-04-01T12:00:00Z", Zone("UTC"));
const std::string token = "QZX-7741", other = "QZX-7742";

const std::string base =
    R"({"kind":"site","name":"S","zone":"UTC","by":"QA"}
{"kind":"product","product":"mmr","name":"MMR","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"QA"}
{"kind":"lot","product":"mmr","lot":"L1","expiry":"2026-12-31","by":"QA"}
{"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"QA"}
{"kind":"receive","at":"2026-03-02T09:00:00Z","place":"main","product":"mmr","lot":"L1","doses":10,"by":"QA"}
{"kind":"give","at":"2026-03-03T10:00:00Z","place":"main","product":"mmr","lot":"L1","patient":"QZX-7741","by":"QA"}
{"kind":"give","at":"2026-03-03T11:00:00Z","place":"main","product":"mmr","lot":"L1","patient":"QZX-7741","by":"QA"}
{"kind":"give","at":"2026-03-03T12:00:00Z","place":"main","product":"mmr","lot":"L1","patient":"7","by":"QA"}
)";

Json give() {
    return Json::parse(
        R"({"kind":"give","at":"2026-03-04T10:00:00Z","by":"QA","place":"main","product":"mmr","lot":"L1",)"
        R"("patient":"QZX-7741","doses":1,"note":"n"})");
}

/// Counts refusals; each must be one, and hold no token.
struct Walk {
    tests::TemporaryFile file;
    Ledger ledger = made();
    int refused = 0;

    Ledger made() {
        Ledger out(file.path(), Ledger::Mode::create);
        out.post(base, now);
        return out;
    }
    template <class Do>
    void operator()(Do what, const std::string& tried) {
        try {
            what();
        } catch (const Error& e) {
            ++refused;
            INFO(tried << "\n" << e.what());
            CHECK(std::string(e.what()).find("QZX") == std::string::npos);
        }
    }
    void post(const std::string& line) {
        (*this)([&] { ledger.post(line, now, true); }, line);
    }
    void draft(const Json& fields) {
        (*this)([&] {
            const Drafted drafted = ledger.draft(fields.dump(), now);
            for (const auto& lines : {drafted.warnings, drafted.filled, drafted.read_back, drafted.next_steps})
                for (const auto& text : english().say(lines)) {
                    INFO(text);
                    CHECK(text.find("QZX") == std::string::npos);
                }
        }, fields.dump());
    }
};

const std::vector<Json> wrong = {nullptr,
                                 true,
                                 7,
                                 -1,
                                 1.5,
                                 "",
                                 " ",
                                 "\u0001",
                                 "x",
                                 std::string(65, 'x'),
                                 std::string(4001, 'x'),
                                 Json::array(),
                                 Json::object(),
                                 Json::array({1}),
                                 Json{{"x", 1}}};

}  // namespace

TEST_CASE("no refusal of an entry repeats a token", "[privacy]") {
    Walk walk;
    const Json whole = give();
    for (const auto& [field, value] : whole.items()) {
        Json without = whole;
        without.erase(field);
        walk.post(without.dump());
        for (const Json& instead : wrong) {
            Json changed = whole;
            changed[field] = instead;
            walk.post(changed.dump());
        }
    }
    for (const Json& instead : {Json(token + std::string(5000, 'x')), Json::array({token}), Json{{"name", token}},
                                Json(std::string("a\0", 2) + token)}) {
        Json changed = whole;
        changed["patient"] = instead;
        walk.post(changed.dump());
        changed["certain"] = token.size();
        walk.post(changed.dump());
    }
    // the text cut or changed at every byte
    const std::string text = whole.dump();
    for (std::size_t i = 0; i < text.size(); ++i) {
        walk.post(text.substr(0, i));
        if (i % 4 != 0) continue;
        for (const char c : std::string("\"}],:\\\x01\xFF")) {
            std::string changed = text;
            changed[i] = c;
            if (changed.find("QZX") == std::string::npos) continue;
            if (const auto at = changed.find(token);
                at != std::string::npos && changed.find("\"patient\":\"" + token + "\"") == std::string::npos)
                continue;  // it names another field
            walk.post(changed);
        }
    }
    walk.post("[" + text + "]");
    walk.post("[" + std::string(40, '[') + text);
    walk.post(text + text);
    walk.post(text.substr(0, text.size() - 1) + ",\"patient\":\"" + other + "\"}");
    walk.post(text.substr(0, text.size() - 1) + ",\"name\":1}");
    walk.post("\"" + token + "\"");
    CHECK(walk.refused > 500);
}

TEST_CASE("no refusal, warning or reading back of everyday work repeats a token", "[privacy]") {
    Walk walk;
    Json fields = {{"kind", "give"}, {"by", "QA"}, {"lot", "L1"}, {"patient", token}};
    walk.draft(fields);
    fields["at"] = "2026-03-03T10:30:00Z";  // given before on that day
    walk.draft(fields);
    fields["patient"] = token + " QZX";
    walk.draft(fields);
    fields["patient"] = Json::array({token});
    walk.draft(fields);
    const int before = walk.refused;
    for (const std::string& who : {token, std::string("QZX-none"), std::string("7")})
        for (const Json& more : {Json::object(), Json{{"lot", "L9"}}, Json{{"give", 99}}, Json{{"every", true}},
                                 Json{{"every", true}, {"lot", "L1"}}, Json{{"step", token.size()}}}) {
            Json step = {{"kind", "follow-up"}, {"by", "QA"}, {"patient", who}, {"step", "told"}};
            step.update(more);
            walk.draft(step);
        }
    CHECK(walk.refused - before >= 9);
}

TEST_CASE("no refusal of a record of another system repeats a token", "[privacy]") {
    Walk walk;
    const std::string record =
        R"({"resourceType":"Immunization","id":"a-1","status":"completed",)"
        R"("vaccineCode":{"coding":[{"system":"http://hl7.org/fhir/sid/cvx","code":"03"}]},)"
        R"("patient":{"reference":"Patient/QZX-7741","identifier":{"value":"QZX-7741"}},)"
        R"("occurrenceDateTime":"2026-03-10T09:00:00Z","lotNumber":"L1"})";
    const auto read = [&](const std::string& text) {
        RecordsRequest request;
        request.by = "QA";
        walk([&] {
            const DraftedRecords made = walk.ledger.give_records(request, text, now);
            for (const auto& left : made.left_out) {
                const std::string reason = english().say(left.reason);
                INFO(reason);
                CHECK(reason.find("QZX") == std::string::npos);
            }
        }, text);
    };
    read(record);
    for (const Json& instead : wrong)
        for (const char* pointer :
             {"/patient", "/patient/reference", "/patient/identifier", "/patient/identifier/value"}) {
            Json changed = Json::parse(record);
            changed[Json::json_pointer(pointer)] = instead;
            read(changed.dump());
        }
    for (const Json& instead : {Json(774100), Json::array({token}), Json{{"x", token}},
                                Json(token + std::string(5000, 'x')), Json(token + " QZX"), Json("#QZX")})
        for (const char* pointer :
             {"/patient", "/patient/reference", "/patient/identifier", "/patient/identifier/value"}) {
            Json changed = Json::parse(record);
            changed[Json::json_pointer(pointer)] = instead;
            if (std::string(pointer) == "/patient/reference") changed["patient"].erase("identifier");
            read(changed.dump());
        }
    for (std::size_t i = 0; i < record.size(); ++i) read(record.substr(0, i));
    read("[" + record + "]");
    CHECK(walk.refused > 300);
}
