// Every refusal of an entry or a batch: the code, a message that names line, field, value and what would be right, and
// a file that is byte for byte what it was.
#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "coldtally/ledger.hpp"
#include "temporary.hpp"

using namespace coldtally;

namespace {

const Instant now = parse_instant("2026-03-10T12:00:00Z", Zone("UTC"));

/// Entry 1 to 15; one dose was given of the ten that came, at 09:00.
const std::string base = R"({"kind":"site","name":"Demo","zone":"America/New_York","by":"ab"}
{"kind":"product","product":"p","name":"P","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
                         R"("allowances":[{"band":{"low":{"C":"8"},"high":{"C":"25"}},"seconds":3600,"source":"x"}],)"
                         R"("beyond_use":{"first puncture":86400},"by":"ab"}
{"kind":"product","product":"plain","name":"Q","range":{"low":{"C":"2"}},"by":"ab"}
{"kind":"lot","product":"p","lot":"L","expiry":"2027-05","by":"ab"}
{"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"place","place":"spare","name":"Spare","type":"freezer","range":{"high":{"C":"-15"}},"by":"ab"}
{"kind":"probe","probe":"k","scale":"C","by":"ab"}
{"kind":"assign","at":"2026-03-01T00:00:00Z","probe":"k","place":"main","by":"ab"}
{"kind":"receive","at":"2026-03-02T08:00:00Z","place":"main","product":"p","lot":"L","doses":10,"by":"ab"}
{"kind":"give","at":"2026-03-02T09:00:00Z","place":"main","product":"p","lot":"L","patient":"t1","by":"ab"}
{"kind":"readings","probe":"k","scale":"C","rows":[["2026-03-02T08:00:00Z","5"],["2026-03-02T08:30:00Z","5.5"]],)"
                         R"("by":"ab"}
{"kind":"check","at":"2026-03-02T08:10:00Z","place":"main","scale":"C","temperature":"5","probe":"k","by":"ab"}
{"kind":"probe","probe":"idle","scale":"F","by":"ab"}
{"kind":"lot","product":"plain","lot":"N","expiry":"2027-05-31","by":"ab"}
{"kind":"certificate","at":"2026-03-01T00:00:00Z","probe":"k","expires":"2027-03-01","by":"ab"}
)";

std::string bytes_of(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

std::size_t files_beside(const std::string& path) {
    std::size_t n = 0;
    for (const auto& file : std::filesystem::directory_iterator(std::filesystem::path(path).parent_path()))
        n += file.is_regular_file();
    return n;
}

/// What the fields of a history are where nothing has happened; `change` replaces one of them.
std::string handover(const std::string& from = "", const std::string& to = "") {
    std::string h =
        R"({"warm":{"at_least_s":"0","estimate_s":"0","at_most_s":"0","degree_Cs":"0","open_s":"0"},)"
        R"("cold":{"at_least_s":"0","estimate_s":"0","at_most_s":"0","degree_Cs":"0","open_s":"0"},)"
        R"("frozen":{"at_least_s":"0","estimate_s":"0","at_most_s":"0","degree_Cs":"0","open_s":"0"},)"
        R"("allowances":[{"seconds":3600,"used_s":"0","open_s":"0"}],"beyond":{"warm_s":"0","warm_open_s":"0",)"
        R"("cold_s":"0","cold_open_s":"0"},"points":0,"points_open":0,"coverage":{"logged_s":"0","bounded_s":"0",)"
        R"("checked_s":"0","near_s":"0","awaiting_s":"0","unmonitored_s":"0","unmonitored_open_s":"0"},)"
        R"("lowest_C":null,"highest_C":null,"places":["west/main"],"condemned_by":[],"held_by":[],"use_by":null})";
    if (!from.empty()) {
        const auto at = h.find(from);
        REQUIRE(at != std::string::npos);
        h.replace(at, from.size(), to);
    }
    return h;
}

std::string taking_over(const std::string& h) {
    return R"({"kind":"receive","at":"2026-03-03T08:00:00Z","place":"main","product":"p","lot":"L","doses":1,)"
           R"("by":"ab","handover":)" +
           h + "}";
}

struct Refused {
    std::string entry;  ///< the line that is refused
    Code code;
    std::vector<std::string> words;  ///< of the message
    std::string before = "";         ///< lines posted before it
};

std::string repeated(const std::string& s, int n) {
    std::string out;
    for (int i = 0; i < n; ++i) out += s;
    return out;
}

void check_refused(const Refused& r) {
    INFO(r.before << r.entry.substr(0, 400));
    const tests::TemporaryFile file;
    {
        Ledger ledger(file.path(), Ledger::Mode::create);
        ledger.post(base, now);
        if (!r.before.empty()) ledger.post(r.before, now);
    }
    const std::string whole = bytes_of(file.path());
    // alone, and as the middle of a batch whose other lines are right
    const std::string right =
        R"({"kind":"check","at":"2026-03-09T08:00:00Z","place":"main","scale":"C","temperature":"5","by":"ab"})";
    for (const bool in_batch : {false, true}) {
        Ledger ledger(file.path(), Ledger::Mode::write);
        try {
            ledger.post(in_batch ? right + "\n" + r.entry + "\n" + right : r.entry, now);
            FAIL("was not refused");
        } catch (const Error& e) {
            INFO(e.what());
            CHECK(code_name(e.code()) == code_name(r.code));
            CHECK(std::string(e.what()).find(in_batch ? "line 2" : "line 1") == 0);
            CHECK(std::string(e.what()).find('\n') == std::string::npos);
            for (const auto& word : r.words) {
                INFO(word);
                CHECK(std::string(e.what()).find(word) != std::string::npos);
            }
        }
    }
    CHECK(bytes_of(file.path()) == whole);
    CHECK(files_beside(file.path()) == 1);
    CHECK(Ledger(file.path()).verify().findings.empty());
}

void check_all(const std::vector<Refused>& all) {
    for (const auto& r : all) check_refused(r);
}

const std::string at = R"("at":"2026-03-03T08:00:00Z","by":"ab")";
const std::string of_L = R"("place":"main","product":"p","lot":"L")";

}  // namespace

TEST_CASE("refused: text that is no entry") {
    check_all({
        {"{", Code::bad_json, {"not JSON"}},
        {"[1]", Code::bad_value, {": a list: must be a JSON object"}},
        {"{\"kind\":\"site\",\"kind\":\"site\"}", Code::bad_json, {"\"kind\"", "twice"}},
        {"{\"kind\":\"hold\",\"product\":\"p\",\"product\":\"p\"}", Code::bad_json, {"\"product\"", "twice"}},
        {"{\"kind\":" + repeated("[", 40) + repeated("]", 40) + "}", Code::bad_json, {"32"}},
        {"{\"kind\":\"\xff\"}", Code::bad_text, {"UTF-8"}},
        {"{\"kind\":\"a\\u0000b\"}", Code::bad_text, {"NUL"}},
        {"{\"kind\":\"\\ud800\"}", Code::bad_json, {"surrogate"}},
        {"{\"by\":\"" + std::string(17 << 20, 'x') + "\"}", Code::bad_text, {"16 MiB"}},
        {R"({"by":"ab"})", Code::missing_field, {"kind", "missing"}},
        {R"({"kind":"gift","by":"ab"})", Code::bad_value, {"kind", "\"gift\"", "must be a kind of entry", "receive"}},
        {R"({"kind":7,"by":"ab"})", Code::bad_value, {"kind", "7"}},
    });
}

TEST_CASE("refused: fields that every entry has") {
    const std::string hold = R"("kind":"hold","reason":"r","product":"p")";
    check_all({
        {"{" + hold + R"(,"by":"ab"})", Code::missing_field, {"at", "missing"}},
        {"{" + hold + R"(,"at":"2026-03-03T08:00:00Z"})", Code::missing_field, {"by", "missing"}},
        {"{" + hold + R"(,"at":"2026-03-03T08:00:00Z","by":""})", Code::bad_value, {"by", "\"\"", "1 to 64"}},
        {"{" + hold + R"(,"at":"2026-03-03T08:00:00Z","by":" a"})", Code::bad_value, {"by", "\" a\"", "blank"}},
        {"{" + hold + R"(,"at":"2026-03-03T08:00:00Z","by":")" + std::string(65, 'x') + "\"}",
         Code::bad_value,
         {"by", "1 to 64"}},
        {"{" + hold + R"(,"at":"2026-03-03T08:00:00Z","by":"a\tb"})", Code::bad_value, {"by", "printable"}},
        {"{" + hold + R"(,"at":"2026-03-03T08:00:00Z","by":5})", Code::bad_value, {"by", "5", "text"}},
        {"{" + hold + "," + at + R"(,"entry":16})", Code::unknown_field, {"\"entry\"", "not a field"}},
        {"{" + hold + "," + at + R"(,"recorded":"2026-03-03T08:00:00Z"})", Code::unknown_field, {"\"recorded\""}},
        {"{" + hold + "," + at + R"(,"colour":"red"})", Code::unknown_field, {"\"colour\"", "not a field"}},
        {"{" + hold + "," + at + R"(,"note":")" + std::string(4001, 'x') + "\"}", Code::bad_value, {"note", "4000"}},
        {"{" + hold + "," + at + R"(,"note":null})", Code::bad_value, {"note", "null", "text"}},
        {"{" + hold + R"(,"by":"ab","at":"2026-03-10T12:00:01Z"})",
         Code::too_late,
         {"at", "2026-03-10T12:00:01Z", "not be later", "2026-03-10T12:00:00Z"}},
        {R"({"kind":"place","at":"2026-03-11T00:00:00Z","by":"ab","place":"x","name":"X","type":"room",)"
         R"("range":{"low":{"C":"1"}}})",
         Code::too_late,
         {"at", "2026-03-11T00:00:00Z"}},
    });
}

TEST_CASE("refused: instants") {
    const auto row = [](const std::string& instant, Code code, std::vector<std::string> words) {
        words.push_back("at");
        words.push_back("\"" + instant + "\"");
        return Refused{R"({"kind":"hold","reason":"r","product":"p","by":"ab","at":")" + instant + "\"}", code, words};
    };
    check_all({
        row("2026-03-03", Code::bad_value, {"YYYY-MM-DDTHH:MM:SS"}),
        row("2026-03-03 08:00:00Z", Code::bad_value, {"YYYY-MM-DDTHH:MM:SS"}),
        row("2026-03-03T08:00Z", Code::bad_value, {"YYYY-MM-DDTHH:MM:SS"}),
        row("2026-03-03T08:00:60Z", Code::bad_value, {"seconds to 59"}),
        row("2026-03-03T24:00:00Z", Code::bad_value, {"hours to 23"}),
        row("2026-03-03T08:00:00.5Z", Code::bad_value, {"whole second"}),
        row("2026-02-29T08:00:00Z", Code::bad_value, {"no such date"}),
        row("1969-12-31T08:00:00Z", Code::bad_value, {"1970 to 2199"}),
        row("2200-01-01T08:00:00Z", Code::bad_value, {"1970 to 2199"}),
        row("2026-03-03T08:00:00+14:01", Code::bad_value, {"14:00"}),
        row("2026-03-03T08:00:00+0500", Code::bad_value, {"offset"}),
        // the clocks of New York skip 02:00 to 03:00 on 8 March 2026, and pass 01:00 to 02:00 twice on 2 November 2025
        row("2026-03-08T02:30:00", Code::bad_value, {"no such local time", "America/New_York"}),
        row("2025-11-02T01:30:00", Code::ambiguous, {"twice", "America/New_York", "offset"}),
    });
}

TEST_CASE("refused: temperatures, limits and ranges") {
    const auto check = [](const std::string& t) {
        return "{\"kind\":\"check\",\"place\":\"main\",\"scale\":\"C\"," + at + ",\"temperature\":" + t + "}";
    };
    const auto product = [](const std::string& more) {
        return R"({"kind":"product","product":"new","name":"N","by":"ab",)" + more + "}";
    };
    check_all({
        {check("4.2"), Code::bad_value, {"temperature", "4.2", "text"}},
        {check("\"4.2345\""), Code::bad_value, {"temperature", "4.2345", "three fractional"}},
        {check("\"+4\""), Code::bad_value, {"temperature", "+4"}},
        {check("\"4,2\""), Code::bad_value, {"temperature", "4,2"}},
        {check("\"\""), Code::bad_value, {"temperature"}},
        {check("\"-273.151\""), Code::bad_value, {"temperature", "-273.151", "-273.15 to 1000"}},
        {check("1001"), Code::bad_value, {"temperature", "1001", "-273.15 to 1000"}},
        {check("true"), Code::bad_value, {"temperature", "true"}},
        {R"({"kind":"check","place":"main","scale":"K",)" + at + R"(,"temperature":"5"})",
         Code::bad_value,
         {"scale", "\"K\"", "\"C\", \"F\""}},
        {product(R"("range":{})"), Code::bad_value, {"range", "low, high, or both"}},
        {product(R"("range":{"low":{}})"), Code::bad_value, {"low", "{\"C\": \"8\""}},
        {product(R"("range":{"low":{"K":"3"}})"), Code::unknown_field, {"\"K\""}},
        {product(R"("range":{"low":{"C":"9"},"high":{"C":"8"}})"),
         Code::contradiction,
         {"range", "low must not lie above high"}},
        {product(R"("range":{"low":{"C":"2","F":"47"},"high":{"C":"8","F":"46"}})"),
         Code::contradiction,
         {"range", "low must not lie above high"}},
        {product(R"("range":{"low":{"C":"8"},"high":{"F":"46"}})"), Code::contradiction, {"range"}},  // 46 °F is 7.8 °C
        {product(R"("range":{"low":{"C":"2"}},"allowances":[{"band":{"low":{"C":"8"}},"seconds":1,"source":"x"}])"),
         Code::missing_field,
         {"allowances[0]", "high", "missing"}},
        {product(
             R"("range":{"low":{"C":"2"}},"allowances":[{"band":{"low":{"C":"9"},"high":{"C":"8"}},"seconds":1,)"
             R"("source":"x"}])"),
         Code::contradiction,
         {"allowances[0]", "band"}},
        {product(
             R"("range":{"low":{"C":"2"}},"allowances":[{"band":{"low":{"C":"8"},"high":{"C":"9"}},"seconds":0,)"
             R"("source":"x"}])"),
         Code::bad_value,
         {"allowances[0]", "seconds", "0", "from 1"}},
        {product(R"("range":{"low":{"C":"2"}},"beyond_use":{"thaw":1000000001})"),
         Code::bad_value,
         {"beyond_use", "thaw", "1000000001", "1000000000"}},
        {product(R"("range":{"low":{"C":"2"}},"doses_per_vial":0)"), Code::bad_value, {"doses_per_vial", "0"}},
    });
}

TEST_CASE("refused: what definitions need and bounds") {
    check_all({
        {R"({"kind":"site","name":"X","zone":"Mars/Base","by":"ab"})", Code::bad_value, {"zone", "Mars/Base", "IANA"}},
        {R"({"kind":"site","name":"X","zone":"UTC","stale_after_s":-1,"by":"ab"})",
         Code::bad_value,
         {"stale_after_s", "-1"}},
        {R"({"kind":"lot","product":"p","lot":"Z","expiry":"2027-02-30","by":"ab"})",
         Code::bad_value,
         {"expiry", "2027-02-30", "YYYY-MM"}},
        {R"({"kind":"lot","product":"p","lot":"Z","expiry":"05/2027","by":"ab"})",
         Code::bad_value,
         {"expiry", "05/2027"}},
        {R"({"kind":"place","place":"a/b","name":"X","type":"room","range":{"low":{"C":"1"}},"by":"ab"})",
         Code::bad_value,
         {"place", "\"a/b\"", "'/'"}},
        {R"({"kind":"place","place":"x","name":"X","type":"shed","range":{"low":{"C":"1"}},"by":"ab"})",
         Code::bad_value,
         {"type", "\"shed\"", "refrigerator"}},
        {R"({"kind":"place","place":"x","name":"X","type":"room","range":{"low":{"C":"1"}},"max_gap_s":0,"by":"ab"})",
         Code::bad_value,
         {"max_gap_s", "0", "from 1"}},
        {R"({"kind":"certificate","probe":"k","expires":"2027-01","at":"2026-03-03T08:00:00Z","by":"ab"})",
         Code::bad_value,
         {"expires", "2027-01", "YYYY-MM-DD"}},
        {R"({"kind":"certificate","probe":"k","expires":"2027-01-01","tolerance":"-0.1","at":"2026-03-03T08:00:00Z",)"
         R"("by":"ab"})",
         Code::bad_value,
         {"tolerance", "-0.1", "negative"}},
        {R"({"kind":"certificate","probe":"k","expires":"2027-01-01","correction":[["5","0"],["5","1"]],)"
         R"("at":"2026-03-03T08:00:00Z","by":"ab"})",
         Code::contradiction,
         {"correction[1]", "must increase"}},
        {R"({"kind":"certificate","probe":"k","expires":"2027-01-01","correction":[["5","2"],["6","0.5"]],)"
         R"("at":"2026-03-03T08:00:00Z","by":"ab"})",
         Code::contradiction,
         {"correction[1]", "must not decrease"}},
        {R"({"kind":"certificate","probe":"k","expires":"2027-01-01","correction":[["5"]],"at":"2026-03-03T08:00:00Z",)"
         R"("by":"ab"})",
         Code::bad_value,
         {"correction[0]", "[indicated, correction]"}},
    });
}

TEST_CASE("refused: what movements and checks need and bounds") {
    check_all({
        {"{\"kind\":\"give\"," + of_L + "," + at + R"(,"patient":""})", Code::bad_value, {"patient", "token"}},
        {"{\"kind\":\"give\"," + of_L + "," + at + R"(,"patient":"t","doses":0})",
         Code::bad_value,
         {"doses", "0", "1 to 1000000000"}},
        {"{\"kind\":\"give\"," + of_L + "," + at + R"(,"patient":"t","doses":1000000001})",
         Code::bad_value,
         {"doses", "1000000001"}},
        {"{\"kind\":\"give\"," + of_L + "," + at + R"(,"patient":"t","doses":1.0})",
         Code::bad_value,
         {"doses", "1.0", "whole number"}},
        {"{\"kind\":\"give\"," + of_L + "," + at + R"(,"patient":"t","certain":"no"})",
         Code::bad_value,
         {"certain", "\"no\"", "true or false"}},
        {"{\"kind\":\"count\"," + of_L + "," + at + R"(,"doses":-1})", Code::bad_value, {"doses", "-1", "0 to"}},
        {"{\"kind\":\"waste\"," + of_L + "," + at + R"(,"doses":1})", Code::missing_field, {"reason", "missing"}},
        {"{\"kind\":\"transfer\"," + of_L + "," + at + R"(,"doses":1,"reason":"r"})",
         Code::missing_field,
         {"to", "missing"}},
        {"{\"kind\":\"beyond-use\"," + of_L + "," + at + "}", Code::contradiction, {"use_by", "event"}},
        {"{\"kind\":\"beyond-use\"," + of_L + "," + at + R"(,"event":"first puncture","use_by":"2026-04-01"})",
         Code::contradiction,
         {"use_by", "not both"}},
        {"{\"kind\":\"check\",\"place\":\"main\",\"scale\":\"C\"," + at + R"(,"temperature":5,"min":4})",
         Code::missing_field,
         {"max", "missing"}},
        {"{\"kind\":\"check\",\"place\":\"main\",\"scale\":\"C\"," + at + R"(,"temperature":5,"min":6,"max":7})",
         Code::contradiction,
         {"min", "6", "not lie above", "5"}},
        {"{\"kind\":\"check\",\"place\":\"main\",\"scale\":\"C\"," + at + R"(,"temperature":5,"min":3,"max":4})",
         Code::contradiction,
         {"max", "4", "not lie below", "5"}},
        {"{\"kind\":\"move\",\"product\":\"p\",\"lot\":\"L\",\"from\":{\"place\":\"main\"},\"to\":{\"place\":\"main\"},"
         "\"doses\":1," +
             at + "}",
         Code::contradiction,
         {"to", "another place"}},
    });
}

TEST_CASE("refused: what guidance and incidents need and bounds") {
    check_all({
        {"{\"kind\":\"guidance\",\"product\":\"p\",\"lot\":\"L\",\"through\":\"2026-03-03T08:00:01Z\",\"verdict\":"
         "\"use\",\"issuer\":\"i\",\"reference\":\"r\"," +
             at + "}",
         Code::contradiction,
         {"through", "2026-03-03T08:00:01Z", "not be later than at"}},
        {"{\"kind\":\"guidance\",\"product\":\"p\",\"lot\":\"L\",\"through\":\"2026-03-03T08:00:00Z\",\"verdict\":"
         "\"maybe\",\"issuer\":\"i\",\"reference\":\"r\"," +
             at + "}",
         Code::bad_value,
         {"verdict", "maybe", "discard"}},
        {"{\"kind\":\"guidance\",\"product\":\"p\",\"lot\":\"L\",\"through\":\"2026-03-03T08:00:00Z\",\"verdict\":"
         "\"use-by\",\"issuer\":\"i\",\"reference\":\"r\"," +
             at + "}",
         Code::missing_field,
         {"use_by", "missing"}},
        {"{\"kind\":\"guidance\",\"product\":\"p\",\"lot\":\"L\",\"through\":\"2026-03-03T08:00:00Z\",\"verdict\":"
         "\"use\",\"use_by\":\"2026-04-01\",\"issuer\":\"i\",\"reference\":\"r\"," +
             at + "}",
         Code::contradiction,
         {"use_by"}},
        {"{\"kind\":\"guidance\",\"product\":\"p\",\"lot\":\"L\",\"through\":\"2026-03-03T08:00:00Z\",\"verdict\":"
         "\"use\",\"issuer\":\"i\",\"reference\":\"r\",\"told\":{}," +
             at + "}",
         Code::bad_value,
         {"told", "out_of_range_s"}},
        {"{\"kind\":\"incident\",\"incident\":\"i\",\"step\":\"panicked\",\"text\":\"x\"," + at + "}",
         Code::bad_value,
         {"step", "panicked", "noticed"}},
    });
}

TEST_CASE("refused: names that nothing defines") {
    check_all({
        {R"({"kind":"lot","product":"none","lot":"Z","expiry":"2027-05","by":"ab"})",
         Code::not_defined,
         {"product", "\"none\"", "post its definition first"}},
        {R"({"kind":"receive","at":"2026-03-03T08:00:00Z","place":"main","product":"p","lot":"none","doses":1,)"
         R"("by":"ab"})",
         Code::not_defined,
         {"lot", "\"none\"", "expiry"}},
        {R"({"kind":"receive","at":"2026-03-03T08:00:00Z","place":"none","product":"p","lot":"L","doses":1,"by":"ab"})",
         Code::not_defined,
         {"place", "\"none\""}},
        {"{\"kind\":\"move\",\"product\":\"p\",\"lot\":\"L\",\"from\":{\"place\":\"main\"},\"to\":{\"place\":\"none\"},"
         "\"doses\":1," +
             at + "}",
         Code::not_defined,
         {"to: place", "\"none\""}},
        {"{\"kind\":\"assign\",\"probe\":\"none\"," + at + "}", Code::not_defined, {"probe", "\"none\""}},
        {"{\"kind\":\"assign\",\"probe\":\"k\",\"place\":\"none\"," + at + "}",
         Code::not_defined,
         {"place", "\"none\""}},
        {R"({"kind":"readings","probe":"none","scale":"C","rows":[["2026-03-03T08:00:00Z","5"]],"by":"ab"})",
         Code::not_defined,
         {"probe", "\"none\""}},
        {"{\"kind\":\"check\",\"place\":\"none\",\"scale\":\"C\",\"temperature\":5," + at + "}",
         Code::not_defined,
         {"place", "\"none\""}},
        {"{\"kind\":\"hold\",\"reason\":\"r\",\"product\":\"p\",\"lot\":\"none\"," + at + "}",
         Code::not_defined,
         {"lot", "\"none\""}},
        {"{\"kind\":\"hold\",\"reason\":\"r\",\"product\":\"p\",\"place\":\"none\"," + at + "}",
         Code::not_defined,
         {"place", "\"none\""}},
        {"{\"kind\":\"guidance\",\"product\":\"p\",\"lot\":\"none\",\"through\":\"2026-03-03T08:00:00Z\",\"verdict\":"
         "\"use\",\"issuer\":\"i\",\"reference\":\"r\"," +
             at + "}",
         Code::not_defined,
         {"lot", "\"none\""}},
        {"{\"kind\":\"incident\",\"incident\":\"i\",\"step\":\"noticed\",\"text\":\"x\",\"place\":\"none\"," + at + "}",
         Code::not_defined,
         {"place", "\"none\""}},
        {"{\"kind\":\"beyond-use\"," + of_L + "," + at + R"(,"event":"thaw"})",
         Code::not_defined,
         {"event", "\"thaw\"", "\"first puncture\""}},
        {"{\"kind\":\"beyond-use\",\"place\":\"main\",\"product\":\"plain\",\"lot\":\"N\"," + at +
             R"(,"event":"thaw"})",
         Code::not_defined,
         {"event", "\"thaw\"", "use_by"}},
    });
}

TEST_CASE("refused: readings") {
    const auto readings = [](const std::string& rows) {
        return R"({"kind":"readings","probe":"k","scale":"C","by":"ab","rows":[)" + rows + "]}";
    };
    std::string many;
    for (int i = 0; i < 100'001; ++i) many += std::string(i ? "," : "") + R"(["2026-03-03T08:00:00Z","5"])";
    check_all({
        {readings(""), Code::bad_value, {"rows", "0 rows", "1 to 100000"}},
        {readings(many), Code::bad_value, {"rows", "100001 rows", "1 to 100000"}},
        {readings(R"(["2026-03-03T08:00:00Z"])"), Code::bad_value, {"rows[0]", "[instant, temperature]"}},
        {readings(R"(["2026-03-03T08:00:00Z","5"],["2026-03-03T08:05:00Z",5.5])"), Code::bad_value, {"rows[1]", "5.5"}},
        {readings(R"(["2026-03-03T08:00:00Z","5"],["2026-03-03T08:00:00Z","6"])"),
         Code::readings_differ,
         {"rows", "6 at 2026-03-03T08:00:00Z", "5 at"}},
        {readings(R"(["2026-03-02T08:30:00Z","5.6"])"),
         Code::readings_differ,
         {"5.6 at 2026-03-02T08:30:00Z", "entry 11", "5.5"}},
        {readings(R"(["2026-03-10T12:00:01Z","5"])"), Code::too_late, {"rows[0]", "2026-03-10T12:00:01Z"}},
        {R"({"kind":"readings","probe":"k","scale":"F","by":"ab","rows":[["2026-03-03T08:00:00Z","41"]]})",
         Code::wrong_scale,
         {"scale", "\"F\"", "\"C\"", "probe \"k\""}},
        {R"({"kind":"readings","probe":"k","scale":"C","by":"ab","rows":[["2026-03-03T08:00:00Z","5"]],)"
         R"("source":{"file":"a.csv","sha256":"xyz"}})",
         Code::bad_value,
         {"source: sha256", "64 digits"}},
        {"{\"kind\":\"check\",\"place\":\"main\",\"scale\":\"F\",\"temperature\":41,\"probe\":\"k\"," + at + "}",
         Code::wrong_scale,
         {"scale", "probe \"k\""}},
        {R"({"kind":"probe","probe":"k","scale":"F","by":"ab"})",
         Code::wrong_scale,
         {"scale", "\"F\"", "never changes"}},
    });
}

TEST_CASE("refused: doses that are not there") {
    check_all({
        {"{\"kind\":\"give\"," + of_L + "," + at + R"(,"patient":"t","doses":10})",
         Code::not_enough,
         {"doses: 10", "at most the 9", "\"L\"", "\"main\""}},
        {"{\"kind\":\"waste\"," + of_L + "," + at + R"(,"fund":"state","doses":1,"reason":"r"})",
         Code::not_enough,
         {"doses: 1", "fund \"state\""}},
        {"{\"kind\":\"return\"," + of_L + "," + at + R"(,"mark":"bag","doses":1,"reason":"r"})",
         Code::not_enough,
         {"doses: 1", "mark \"bag\""}},
        {"{\"kind\":\"move\",\"product\":\"p\",\"lot\":\"L\",\"from\":{\"place\":\"spare\"},\"to\":{\"place\":\"main\"}"
         ",\"doses\":1," +
             at + "}",
         Code::not_enough,
         {"doses: 1", "at most the 0"}},
        {"{\"kind\":\"count\",\"place\":\"spare\",\"product\":\"p\",\"lot\":\"L\"," + at + R"(,"doses":3})",
         Code::not_there,
         {"doses: 3", "receive or move"}},
        {"{\"kind\":\"beyond-use\",\"place\":\"spare\",\"product\":\"p\",\"lot\":\"L\"," + at +
             R"(,"event":"first puncture"})",
         Code::not_there,
         {"place", "\"spare\"", "no doses"}},
        // before they came
        {"{\"kind\":\"give\"," + of_L + R"(,"at":"2026-03-02T07:59:59Z","by":"ab","patient":"t"})",
         Code::not_enough,
         {"doses: 1", "there are 0 then"}},
        {"{\"kind\":\"beyond-use\"," + of_L + R"(,"at":"2026-03-02T07:59:59Z","by":"ab","event":"first puncture"})",
         Code::not_there,
         {"no doses"}},
        // late, so that what was posted before would fall short
        {"{\"kind\":\"waste\"," + of_L + R"(,"at":"2026-03-02T08:30:00Z","by":"ab","doses":10,"reason":"r"})",
         Code::not_enough,
         {"doses: 10", "entry 10 (give at 2026-03-02 04:00)", "there are 0 then"}},
        {"{\"kind\":\"count\"," + of_L + R"(,"at":"2026-03-02T08:30:00Z","by":"ab","doses":0})",
         Code::not_enough,
         {"entry 10 (give"}},
        // late, so that a count would stand where nothing was
        {"{\"kind\":\"waste\"," + of_L + R"(,"at":"2026-03-03T08:00:00Z","by":"ab","doses":9,"reason":"r"})",
         Code::not_there,
         {"entry 16 (count", "where there are none"},
         "{\"kind\":\"count\"," + of_L + R"(,"at":"2026-03-04T08:00:00Z","by":"ab","doses":7})"},
    });
}

TEST_CASE("refused: handovers") {
    const auto row = [](const std::string& from, const std::string& to, Code code, std::vector<std::string> words) {
        words.push_back("handover");
        return Refused{taking_over(handover(from, to)), code, words};
    };
    check_all({
        row(R"("points":0,)", "", Code::missing_field, {"points", "missing"}),
        row(R"("places":["west/main"])", R"("places":["main"])", Code::bad_value, {"places", "\"main\"", "site/place"}),
        row(R"("places":["west/main"])", R"("places":["west/"])", Code::bad_value, {"places", "site/place"}),
        row(R"("held_by":[])", R"("held_by":[3])", Code::handover_differs, {"held_by", "[3]", "empty"}),
        row(R"("condemned_by":[])", R"("condemned_by":[3])", Code::handover_differs, {"condemned_by", "[3]", "empty"}),
        row(R"({"at_least_s":"0","estimate_s":"0")", R"({"at_least_s":"1","estimate_s":"0")", Code::handover_differs,
            {"warm", "at_least_s", "1", "estimate_s"}),
        row(R"("estimate_s":"0","at_most_s":"0")", R"("estimate_s":"7/2","at_most_s":"3")", Code::handover_differs,
            {"estimate_s", "7/2", "at_most_s"}),
        row(R"("degree_Cs":"0","open_s":"0"},"cold")", R"("degree_Cs":"0","open_s":"1"},"cold")",
            Code::handover_differs, {"open_s", "1", "estimate_s"}),
        row(R"("used_s":"0","open_s":"0")", R"("used_s":"0","open_s":"1")", Code::handover_differs,
            {"allowances[0]", "open_s"}),
        row(R"("degree_Cs":"0")", R"("degree_Cs":"-1")", Code::bad_value, {"degree_Cs", "-1", "negative"}),
        row(R"("logged_s":"0")", R"("logged_s":"2/4")", Code::bad_value, {"logged_s", "2/4", "lowest terms"}),
        row(R"("logged_s":"0")", R"("logged_s":0)", Code::bad_value, {"logged_s", "0", "exact number"}),
        row(R"("points_open":0)", R"("points_open":1)", Code::handover_differs, {"points_open", "1"}),
        row(R"("lowest_C":null)", R"("lowest_C":"3")", Code::handover_differs, {"highest_C"}),
        row(R"("lowest_C":null,"highest_C":null)", R"("lowest_C":"3","highest_C":"2")", Code::handover_differs,
            {"lowest_C", "3", "highest_C"}),
        row(R"("seconds":3600)", R"("seconds":3601)", Code::handover_differs,
            {"allowances", "product \"p\"", "seconds"}),
        row(R"([{"seconds":3600,"used_s":"0","open_s":"0"}])", "[]", Code::handover_differs,
            {"allowances", "[]", "[3600]"}),
        row(R"("use_by":null)", R"("use_by":"soon")", Code::bad_value, {"use_by", "soon"}),
        // a redefinition that an accepted handover would not match
        {R"({"kind":"product","product":"p","name":"P","range":{"low":{"C":"2"}},"by":"ab"})",
         Code::handover_differs,
         {"allowances", "entry 16"},
         taking_over(handover())},
    });
}

TEST_CASE("refused: voids") {
    const auto voids = [](int n) {
        return "{\"kind\":\"void\",\"voids\":" + std::to_string(n) + ",\"reason\":\"r\"," + at + "}";
    };
    check_all({
        {"{\"kind\":\"void\",\"voids\":0,\"reason\":\"r\"," + at + "}", Code::bad_value, {"voids", "0", "from 1"}},
        {voids(99), Code::not_voidable, {"voids: 99", "before this one"}},
        {voids(1), Code::not_voidable, {"voids: 1", "first site entry"}},
        {voids(16), Code::not_voidable, {"voids: 16", "is a void"}, voids(15)},
        {voids(15), Code::not_voidable, {"voids: 15", "void already"}, voids(15)},
        {voids(2), Code::in_use, {"voids: 2", "names it", "nothing else defines it"}},
        {voids(4), Code::in_use, {"voids: 4", "entry 9"}},
        {voids(5), Code::in_use, {"voids: 5", "names it"}},
        {voids(7), Code::in_use, {"voids: 7", "names it"}},
        {voids(9), Code::not_enough, {"voids: 9", "entry 10 (give", "there are 0 then"}},
        // the definition before does not match the handover that came after it
        {voids(16), Code::handover_differs, {"voids: 16", "entry 17"},
         R"({"kind":"product","product":"p","name":"P","range":{"low":{"C":"2"}},"allowances":[],"by":"ab"})"
         "\n" +
             taking_over(handover(R"([{"seconds":3600,"used_s":"0","open_s":"0"}])", "[]"))},
    });
}

TEST_CASE("refused: an entry made by the caller whose text is not UTF-8") {
    const tests::TemporaryFile file;
    Ledger ledger(file.path(), Ledger::Mode::create);
    ledger.post(base, now);
    Entry entry;
    entry.by = "ab";
    entry.note = "a\xFF";
    entry.fact = Probe{"idle", Scale::C, std::nullopt};
    try {
        ledger.post(std::vector<Entry>{entry}, now);
        FAIL("was not refused");
    } catch (const Error& e) {
        CHECK(e.code() == Code::bad_text);
    }
    CHECK(ledger.verify().findings.empty());
}

TEST_CASE("what nothing names may be voided, and a probe defined anew in another scale") {
    const tests::TemporaryFile file;
    Ledger ledger(file.path(), Ledger::Mode::create);
    ledger.post(base, now);
    ledger.post("{\"kind\":\"void\",\"voids\":13,\"reason\":\"r\"," + at +
                    "}\n{\"kind\":\"probe\",\"probe\":\"idle\",\"scale\":\"C\",\"by\":\"ab\"}",
                now);
    ledger.post("{\"kind\":\"void\",\"voids\":14,\"reason\":\"r\"," + at + "}", now);
    CHECK(ledger.verify().findings.empty());
}

TEST_CASE("a new ledger is made whole or not at all") {
    const tests::TemporaryFile file;
    const auto refused = [&](const std::string& lines, Code code) {
        INFO(lines);
        try {
            Ledger(file.path(), Ledger::Mode::create).post(lines, now);
            FAIL("was not refused");
        } catch (const Error& e) {
            INFO(e.what());
            CHECK(code_name(e.code()) == code_name(code));
        }
        CHECK(files_beside(file.path()) == 0);
    };
    refused("", Code::bad_text);
    refused("\n \n", Code::bad_text);
    refused(R"({"kind":"probe","probe":"k","scale":"C","by":"ab"})", Code::no_site);
    refused(
        "{\"kind\":\"site\",\"name\":\"X\",\"zone\":\"UTC\",\"by\":\"ab\"}\n{\"kind\":\"probe\",\"probe\":\"k\","
        "\"scale\":\"Q\",\"by\":\"ab\"}",
        Code::bad_value);
    CHECK_THROWS_AS(Ledger(file.path()).stock({}, now), Error);
    CHECK(files_beside(file.path()) == 0);
}

TEST_CASE("refused: replays") {
    const std::string site =
        R"({"entry":1,"recorded":"2026-03-01T00:00:00Z","kind":"site","name":"X","zone":"UTC","by":"ab"})";
    const auto refused = [&](const std::string& lines, Code code, const char* word) {
        const tests::TemporaryFile file;
        try {
            Ledger(file.path(), Ledger::Mode::create).replay(lines);
            FAIL("was not refused");
        } catch (const Error& e) {
            INFO(e.what());
            CHECK(code_name(e.code()) == code_name(code));
            CHECK(std::string(e.what()).find(word) != std::string::npos);
        }
        CHECK(files_beside(file.path()) == 0);
    };
    refused(R"({"kind":"site","name":"X","zone":"UTC","by":"ab"})", Code::missing_field, "entry");
    refused(R"({"entry":2,"recorded":"2026-03-01T00:00:00Z","kind":"site","name":"X","zone":"UTC","by":"ab"})",
            Code::out_of_order, "must be 1");
    refused(site + "\n" +
                R"({"entry":3,"recorded":"2026-03-01T00:00:00Z","kind":"probe","probe":"k","scale":"C","by":"ab"})",
            Code::out_of_order, "line 2: entry: 3: must be 2");
    refused(site + "\n" +
                R"({"entry":2,"recorded":"2026-02-28T23:59:59Z","kind":"probe","probe":"k","scale":"C","by":"ab"})",
            Code::out_of_order, "recorded");
    refused(
        site + "\n" +
            R"({"entry":2,"recorded":"2026-03-01T00:00:00Z","kind":"check","at":"2026-03-01T00:00:01Z","place":"m",)"
            R"("scale":"C","temperature":5,"by":"ab"})",
        Code::too_late, "at");

    const tests::TemporaryFile file;
    Ledger(file.path(), Ledger::Mode::create).replay(site);
    const std::string whole = bytes_of(file.path());
    CHECK_THROWS_AS(Ledger(file.path(), Ledger::Mode::create).replay(site), Error);
    CHECK(bytes_of(file.path()) == whole);
}

TEST_CASE("refused: questions") {
    const tests::TemporaryFile file;
    Ledger(file.path(), Ledger::Mode::create).post(base, now);
    const Ledger ledger(file.path());
    const auto refused = [&](auto ask, Code code, const char* word) {
        try {
            ask();
            FAIL("was not refused");
        } catch (const Error& e) {
            INFO(e.what());
            CHECK(code_name(e.code()) == code_name(code));
            CHECK(std::string(e.what()).find(word) != std::string::npos);
        }
    };
    const Instant early = now - Duration(1), later = now + Duration(1);
    refused(
        [&] {
            ledger.lists({std::nullopt, early}, now);
        },
        Code::not_known, "known-on: 2026-03-10T11:59:59Z: must not be before the first entry, 2026-03-10T12:00:00Z");
    refused([&] { ledger.excursions("none", early, now, {}, now); }, Code::not_known, "place: \"none\"");
    refused([&] { ledger.conditions("none", early, now, {}, now); }, Code::not_known, "place: \"none\"");
    refused([&] { ledger.excursions("main", later, now, {}, now); }, Code::contradiction,
            "until: 2026-03-10T12:00:00Z: must not be before from");
    refused([&] { ledger.conditions("main", later, now, {}, now); }, Code::contradiction, "until");
    refused([&] { ledger.conditions("main", early, now, {}, now, 0); }, Code::bad_value, "activation: 0");
    refused([&] { ledger.explain({"spare", "p", "L", "", ""}, {}, now); }, Code::not_known, "stock");
}
