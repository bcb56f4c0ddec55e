// Refusals: one row for each, with the code and the words its message must hold. Each is posted by itself, in the
// middle of a batch of good entries, at the end of a new ledger's first batch, and in a replay: the file is what it
// was, byte by byte, and where there was none, there is none.
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "coldtally/error.hpp"
#include "coldtally/ledger.hpp"
#include "temporary.hpp"

using namespace coldtally;

namespace {

const Instant now = parse_instant("2026-04-01T12:00:00Z", Zone("UTC"));

std::string entry(const std::string& kind, const std::string& fields) {
    return R"({"kind":")" + kind + R"(","by":"QA",)" + fields + "}";
}

/// An event at an instant after all of the base.
std::string event(const std::string& kind, const std::string& fields) {
    return entry(kind, R"("at":"2026-03-20T09:00:00Z",)" + fields);
}

std::string repeated(std::size_t times, const std::string& what) {
    std::string out;
    out.reserve(times * what.size());
    for (std::size_t i = 0; i < times; ++i) out += what;
    return out;
}

std::string replaced(std::string in, const std::string& what, const std::string& with) {
    const auto at = in.find(what);
    if (at == std::string::npos) throw std::logic_error(what + " is not in " + in);
    return in.replace(at, what.size(), with);
}

const std::string history =
    R"({"warm":{"at_least_s":"10","estimate_s":"20","at_most_s":"30","degree_Cs":"5","open_s":"20"},)"
    R"("cold":{"at_least_s":"0","estimate_s":"0","at_most_s":"0","degree_Cs":"0","open_s":"0"},)"
    R"("frozen":{"at_least_s":"0","estimate_s":"0","at_most_s":"0","degree_Cs":"0","open_s":"0"},)"
    R"("allowances":[{"seconds":7200,"used_s":"20","open_s":"20"}],)"
    R"("beyond":{"warm_s":"3","warm_open_s":"3","cold_s":"0","cold_open_s":"0"},"points":2,"points_open":1,)"
    R"("coverage":{"logged_s":"100","bounded_s":"0","checked_s":"0","near_s":"0","awaiting_s":"0","unmonitored_s":"7",)"
    R"("unmonitored_open_s":"7"},)"
    R"("lowest_C":"3","highest_C":"9","places":["Elm Street/main"],"condemned_by":[],"held_by":[],"use_by":null})";

std::string handover(const std::string& what, const std::string& with) {
    return event("receive",
                 R"("place":"main","product":"hep","lot":"H1","doses":5,"handover":)" + replaced(history, what, with));
}

const std::string range = R"("range":{"low":{"C":"2","F":"36"},"high":{"C":"8","F":"46"}})";

/// The ledger that every refusal meets; the number of each entry stands before it.
const std::vector<std::string> base = {
    /* 1 */ entry("site", R"("name":"Heron Flats, invented","zone":"Europe/Berlin")"),
    /* 2 */
    entry("product",
          R"("product":"mmr","name":"MMR",)" + range + R"(,"beyond_use":{"first puncture":3600,"thaw":7200})"),
    /* 3 */ entry("lot", R"("product":"mmr","lot":"L1","expiry":"2026-12-31")"),
    /* 4 */ entry("place", R"("place":"main","name":"Main","type":"refrigerator",)" + range),
    /* 5 */ entry("place", R"("place":"spare","name":"Spare","type":"refrigerator",)" + range),
    /* 6 */ entry("probe", R"("probe":"p","scale":"C")"),
    /* 7 */ entry("probe", R"("probe":"f","scale":"F")"),
    /* 8 */ entry("assign", R"("at":"2026-03-01T00:00:00Z","probe":"p","place":"main")"),
    /* 9 */
    entry("readings",
          R"("probe":"p","scale":"C","rows":[["2026-03-02T08:00:00Z","4.2"],["2026-03-02T08:05:00Z","4.3"]])"),
    /* 10 */ entry("receive", R"("at":"2026-03-02T09:00:00Z","place":"main","product":"mmr","lot":"L1","doses":10)"),
    /* 11 */
    entry(
        "move",
        R"("at":"2026-03-02T10:00:00Z","product":"mmr","lot":"L1","from":{"place":"main"},"to":{"place":"spare"},)"
        R"("doses":4)"),
    /* 12 */
    entry("give",
          R"("at":"2026-03-03T10:00:00Z","place":"spare","product":"mmr","lot":"L1","doses":4,"patient":"t-1")"),
    /* 13 */
    entry("check", R"("at":"2026-03-02T12:00:00Z","place":"main","scale":"C","temperature":"4.5","probe":"p")"),
    /* 14 */ entry("void", R"("at":"2026-03-02T13:00:00Z","voids":13,"reason":"the wrong sheet")"),
    /* 15 */ entry("product", R"("product":"tdap","name":"Tdap",)" + range),
    /* 16 */ entry("lot", R"("product":"tdap","lot":"T1","expiry":"2026-11")"),
    /* 17 */ entry("hold", R"("at":"2026-03-04T10:00:00Z","reason":"recall","product":"tdap","lot":"T1")"),
    /* 18 */
    entry("receive",
          R"("at":"2026-03-05T09:00:00Z","place":"spare","product":"mmr","lot":"L1","mark":"bag","doses":2)"),
    /* 19 */
    entry("count", R"("at":"2026-03-06T09:00:00Z","place":"spare","product":"mmr","lot":"L1","mark":"bag","doses":2)"),
    /* 20 */ entry("place", R"("place":"counter","name":"Counter","type":"room","range":{"high":{"C":"25"}})"),
    /* 21 */
    entry("incident",
          R"("at":"2026-03-06T10:00:00Z","incident":"i-1","step":"noticed","text":"left out","place":"counter")"),
    /* 22 */ entry("probe", R"("probe":"g","scale":"C")"),
    /* 23 */ entry("certificate", R"("at":"2026-01-05T00:00:00Z","probe":"g","expires":"2027-01-05")"),
    /* 24 */
    entry("product",
          R"("product":"hep","name":"Hep",)" + range +
              R"(,"allowances":[{"band":{"low":{"C":"8"},"high":{"C":"25"}},"seconds":3600,"source":"insert"}])"),
    /* 25 */
    entry("product",
          R"("product":"hep","name":"Hep",)" + range +
              R"(,"allowances":[{"band":{"low":{"C":"8"},"high":{"C":"25"}},"seconds":7200,"source":"insert"}])"),
    /* 26 */ entry("lot", R"("product":"hep","lot":"H1","expiry":"2026-12-31")"),
    /* 27 */
    entry("receive",
          R"("at":"2026-03-07T09:00:00Z","place":"main","product":"hep","lot":"H1","doses":5,"handover":)" + history),
    /* 28 */ entry("lot", R"("product":"tdap","lot":"T2","expiry":"2026-11-30")"),
    /* 29 */
    entry(
        "guidance",
        R"("at":"2026-03-08T10:00:00Z","product":"tdap","lot":"T2","place":"counter","through":"2026-03-08T09:00:00Z",)"
        R"("verdict":"use","issuer":"maker","reference":"case 1")"),
};
const std::string good =
    entry("incident", R"("at":"2026-03-20T08:00:00Z","incident":"i-2","step":"noticed","text":"nothing")");

std::string joined(const std::vector<std::string>& lines) {
    std::string out;
    for (const auto& l : lines) out += l + "\n";
    return out;
}

std::string content(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

std::size_t files_beside(const std::string& path) {
    const std::filesystem::directory_iterator all(std::filesystem::path(path).parent_path());
    return static_cast<std::size_t>(std::distance(begin(all), end(all)));
}

struct Refused {
    const char* name;
    std::string line;
    Code code;
    std::vector<std::string> says;
};

/// The error of a call that must be refused.
template <class Call>
Error refusal(Call call) {
    try {
        call();
    } catch (const Error& e) {
        return e;
    }
    FAIL_CHECK("not refused");
    return Error(Code::machine, "not refused");
}

void says(const Error& e, Code code, const std::vector<std::string>& words) {
    const std::string message = e.what();
    INFO("code " << code_name(e.code()) << ", message: " << message.substr(0, 600));
    CHECK(code_name(e.code()) == code_name(code));
    CHECK(message.find('\n') == std::string::npos);
    for (const auto& w : words) {
        INFO("must say: " << w);
        CHECK(message.find(w) != std::string::npos);
    }
}

class Refuser {
public:
    Refuser() {
        Ledger(file_.path(), Ledger::Mode::create).post(joined(base), now);
        bytes_ = content(file_.path());
        Ledger(file_.path()).for_each_entry([&](const Entry& e) { exported_ += to_json(e) + "\n"; });
    }

    void run(const std::vector<Refused>& cases, bool in_replay = true) {
        for (const auto& c : cases) {
            INFO(c.name << ": " << c.line.substr(0, 400));
            post(c.line + "\n", c, "line 1: ");
            post(good + "\n" + c.line + "\n" + good + "\n", c, "line 2: ");
            fresh(c);
            if (in_replay && c.line.starts_with("{\"kind\"")) replay(c);
        }
    }

private:
    void post(const std::string& lines, const Refused& c, const std::string& where) {
        const Error e = refusal([&] { Ledger(file_.path(), Ledger::Mode::create).post(lines, now); });
        auto words = c.says;
        words.push_back(where);
        says(e, c.code, words);
        CHECK((content(file_.path()) == bytes_));
        CHECK(files_beside(file_.path()) == 1);
    }

    void fresh(const Refused& c) {
        tests::TemporaryFile none;
        const Error e = refusal(
            [&] { Ledger(none.path(), Ledger::Mode::create).post(joined(base) + c.line + "\n" + good + "\n", now); });
        says(e, c.code, {"line " + std::to_string(base.size() + 1) + ": "});
        CHECK(files_beside(none.path()) == 0);
    }

    void replay(const Refused& c) {
        tests::TemporaryFile none;
        const std::string numbered = R"({"entry":)" + std::to_string(base.size() + 1) +
                                     R"(,"recorded":"2026-04-01T12:00:00Z",)" + c.line.substr(1);
        const Error e = refusal([&] { Ledger(none.path(), Ledger::Mode::create).replay(exported_ + numbered + "\n"); });
        says(e, c.code, {"line " + std::to_string(base.size() + 1) + ": "});
        CHECK(files_beside(none.path()) == 0);
    }

    tests::TemporaryFile file_;
    std::string bytes_, exported_;
};

const std::string check_at = R"("place":"main","scale":"C","temperature":"5")";
const std::string take = R"("product":"mmr","lot":"L1")";

}  // namespace

TEST_CASE("refused everywhere: text that is no entry", "[refusals]") {
    const std::string note = event("incident", R"("incident":"i-9","step":"noticed","text":"X")");
    Refuser().run(
        {
            {"not JSON", "{", Code::bad_json, {"JSON"}},
            {"no object", "[]", Code::bad_value, {"a list", "must be a JSON object"}},
            {"not UTF-8", replaced(note, "X", "\xFF"), Code::bad_text, {"must be UTF-8"}},
            {"half of a character", replaced(note, "X", "\xE2\x82"), Code::bad_text, {"must be UTF-8"}},
            {"NUL", replaced(note, "X", std::string(1, '\0')), Code::bad_text, {"NUL"}},
            {"NUL, escaped", replaced(note, "X", "\\u0000"), Code::bad_text, {"NUL"}},
            {"lone high surrogate", replaced(note, "X", "\\ud800"), Code::bad_json, {"surrogate"}},
            {"lone low surrogate", replaced(note, "X", "\\udc00"), Code::bad_json, {"surrogate"}},
            {"surrogate in UTF-8", replaced(note, "X", "\xED\xA0\x80"), Code::bad_text, {"must be UTF-8"}},
            {"a key twice", replaced(note, "{", R"({"by":"QA",)"), Code::bad_json, {"\"by\"", "twice in one object"}},
            {"a key twice, deep",
             event("move", take + R"(,"from":{"place":"main","place":"spare"},"to":{"place":"spare"},"doses":1)"),
             Code::bad_json,
             {"\"place\"", "twice"}},
            {"nested 33 deep",
             R"({"kind":"incident","by":"QA","text":)" + repeated(32, "[") + repeated(32, "]") + "}",
             Code::bad_json,
             {"nested", "32"}},
        },
        false);
}

TEST_CASE("refused everywhere: a line over 16 MiB, and not one of 16 MiB", "[refusals]") {
    Refuser refuser;
    // a text of 16 MiB is too long for its field; one byte more, and the line is not read at all
    const std::string frame = event("incident", R"("incident":"i-9","step":"noticed","text":"")");
    const std::string whole =
        replaced(frame, R"("text":"")", R"("text":")" + std::string((16u << 20) - frame.size(), 'x') + "\"");
    REQUIRE(whole.size() == 16u << 20);
    refuser.run({
        {"16 MiB", whole, Code::bad_value, {"text", "must be at most 4000 characters"}},
        {"16 MiB and a byte", whole + " ", Code::bad_text, {"16 MiB"}},
    }, false);
}

TEST_CASE("refused everywhere: a file without entries", "[refusals]") {
    tests::TemporaryFile file;
    for (const char* nothing : {"", "\n", " \r\n\t\n"}) {
        says(refusal([&] { Ledger(file.path(), Ledger::Mode::create).post(nothing, now); }), Code::bad_text,
             {"no entries", "one entry a line"});
        says(refusal([&] { Ledger(file.path(), Ledger::Mode::create).replay(nothing); }), Code::bad_text,
             {"no entries"});
    }
    CHECK(files_beside(file.path()) == 0);
}

TEST_CASE("refused everywhere: fields that are not there, or missing", "[refusals]") {
    Refuser().run({
        {"no kind", R"({"by":"QA"})", Code::missing_field, {"kind", "missing"}},
        {"an unknown field",
         event("check", check_at + R"(,"colour":"red")"),
         Code::unknown_field,
         {"\"colour\"", "not", "temperature"}},
        {"an unknown field inside",
         event("move", take + R"(,"from":{"place":"main","shelf":"2"},"to":{"place":"spare"},"doses":1)"),
         Code::unknown_field,
         {"from", "\"shelf\"", "mark"}},
        {"no by",
         R"({"kind":"check","at":"2026-03-20T09:00:00Z",)" + check_at + "}",
         Code::missing_field,
         {"by", "missing"}},
        {"no at", entry("check", check_at), Code::missing_field, {"at", "missing"}},
        {"readings with at",
         event("readings", R"("probe":"p","scale":"C","rows":[["2026-03-20T08:00:00Z","5"]])"),
         Code::unknown_field,
         {"\"at\""}},
        {"no place in a receive", event("receive", take + R"(,"doses":1)"), Code::missing_field, {"place", "missing"}},
        {"no expiry", entry("lot", R"("product":"mmr","lot":"L2")"), Code::missing_field, {"expiry"}},
    });
    // they are the ledger's to give
    Refuser().run(
        {
            {"entry in a post", event("check", check_at + R"(,"entry":30)"), Code::unknown_field, {"\"entry\""}},
            {"recorded in a post",
             event("check", check_at + R"(,"recorded":"2026-04-01T12:00:00Z")"),
             Code::unknown_field,
             {"\"recorded\""}},
        },
        false);
}

TEST_CASE("refused everywhere: fields of another type, or with what is none of their values", "[refusals]") {
    Refuser().run({
        {"a kind that is none",
         entry("fridge", R"("x":1)"),
         Code::bad_value,
         {"kind", "\"fridge\"", "must be a kind of entry", "guidance"}},
        {"by too long",
         replaced(event("check", check_at), "\"QA\"", "\"" + std::string(65, 'q') + "\""),
         Code::bad_value,
         {"by", "qqq", "1 to 64 characters"}},
        {"by empty",
         replaced(event("check", check_at), "\"QA\"", "\"\""),
         Code::bad_value,
         {"by", "\"\"", "1 to 64 characters"}},
        {"by a number",
         replaced(event("check", check_at), "\"QA\"", "7"),
         Code::bad_value,
         {"by", "7", "must be text"}},
        {"a long note",
         event("check", check_at + R"(,"note":")" + repeated(4001, "\xC3\xA9") + "\""),
         Code::bad_value,
         {"note", "at most 4000 characters"}},
        {"null", event("check", check_at + R"(,"probe":null)"), Code::bad_value, {"probe", "null", "must be text"}},
        {"certain as text",
         event("give", R"("place":"main",)" + take + R"(,"patient":"t","certain":"no")"),
         Code::bad_value,
         {"certain", "\"no\"", "true or false"}},
        {"a step that is none",
         event("incident", R"("incident":"i-1","step":"phoned","text":"x")"),
         Code::bad_value,
         {"step", "\"phoned\"", "supervisor told"}},
        {"a place type that is none",
         entry("place", R"("place":"x","name":"X","type":"fridge",)" + range),
         Code::bad_value,
         {"type", "\"fridge\"", "refrigerator", "room"}},
        {"a verdict that is none",
         event("guidance",
               take + R"(,"through":"2026-03-20T08:00:00Z","verdict":"revaccinate","issuer":"x","reference":"y")"),
         Code::bad_value,
         {"verdict", "\"revaccinate\"", "use-by"}},
        {"a zone that is none",
         entry("site", R"("name":"X","zone":"Europe/Atlantis")"),
         Code::bad_value,
         {"zone", "Europe/Atlantis", "IANA"}},
        {"told nothing",
         event("guidance",
               take + R"(,"through":"2026-03-20T08:00:00Z","verdict":"use","issuer":"x","reference":"y","told":{})"),
         Code::bad_value,
         {"told", "out_of_range_s"}},
        {"near for longer than two hours",
         entry("place", R"("place":"den","name":"d","type":"room","range":{"high":{"C":"25"}},"near_s":7201)"),
         Code::bad_value,
         {"near_s", "7201", "7200"}},
        {"a resolution that is none",
         entry(
             "readings",
             R"("probe":"p","scale":"C","rows":[["2026-03-20T08:00:00Z","5"]],"source":{"file":"a.csv",)"
             R"("sha256":"0000000000000000000000000000000000000000000000000000000000000000","resolution":"0.5"})"),
         Code::bad_value,
         {"resolution", "0.5", "0.01"}},
        {"a file's hash that is none",
         entry(
             "readings",
             R"("probe":"p","scale":"C","rows":[["2026-03-20T08:00:00Z","5"]],"source":{"file":"a.csv",)"
             R"("sha256":"abc"})"),
         Code::bad_value,
         {"sha256", "\"abc\"", "64"}},
    });
}

TEST_CASE("refused everywhere: ids", "[refusals]") {
    const auto place = [](const std::string& id) {
        return entry("place", R"("place":")" + id + R"(","name":"X","type":"room",)" + range);
    };
    Refuser().run({
        {"empty", place(""), Code::bad_value, {"place", "\"\"", "1 to 64"}},
        {"65 characters", place(repeated(65, "\xC3\xA9")), Code::bad_value, {"place", "1 to 64"}},
        {"leading blank", place(" a"), Code::bad_value, {"place", "\" a\"", "begin or end with a blank"}},
        {"trailing blank", place("a "), Code::bad_value, {"place", "\"a \"", "begin or end with a blank"}},
        {"trailing wide blank", place("a\xE3\x80\x80"), Code::bad_value, {"place", "blank"}},
        {"line end inside", place("a\\nb"), Code::bad_value, {"place", "printable"}},
        {"line separator inside",
         place("a\xE2\x80\xA8"
               "b"),
         Code::bad_value,
         {"place", "printable"}},
        {"a slash in a place", place("a/b"), Code::bad_value, {"place", "\"a/b\"", "'/'"}},
        {"mark with a trailing blank",
         event("give", R"("place":"main","mark":"x ",)" + take + R"(,"patient":"t")"),
         Code::bad_value,
         {"mark", "\"x \"", "blank"}},
        {"long fund",
         event("give", R"("place":"main","fund":")" + std::string(65, 'f') + R"(",)" + take + R"(,"patient":"t")"),
         Code::bad_value,
         {"fund", "64"}},
        {"long lot",
         entry("lot", R"("product":"mmr","lot":")" + std::string(65, 'f') + R"(","expiry":"2026-12")"),
         Code::bad_value,
         {"lot", "64"}},
    });
}

TEST_CASE("refused everywhere: temperatures", "[refusals]") {
    std::vector<Refused> cases;
    const auto add = [&](const char* name, const std::string& t, std::vector<std::string> words,
                         const std::string& scale = "C") {
        words.insert(words.begin(), "temperature");
        cases.push_back({name, event("check", R"("place":"main","scale":")" + scale + R"(","temperature":)" + t),
                         Code::bad_value, words});
    };
    const std::string form = "degrees";
    add("a number with a fraction", "4.2", {"4.2", "as text"});
    add("four digits", "\"4.2000\"", {"4.2000", "three fractional digits"});
    add("no digit before the point", "\".5\"", {".5", form});
    add("no digit after the point", "\"5.\"", {"5.", form});
    add("a plus", "\"+5\"", {"+5", form});
    add("a comma", "\"4,2\"", {"4,2", form});
    add("a blank", "\" 4\"", {" 4", form});
    add("an exponent", "\"4e1\"", {"4e1", form});
    add("nothing", "\"\"", {form});
    add("a word", "\"cold\"", {"cold", form});
    add("true", "true", {"true", form});
    add("below absolute zero", "\"-273.151\"", {"-273.151", "-273.15 to 1000"});
    add("above 1000", "\"1000.001\"", {"1000.001", "-273.15 to 1000"});
    add("below absolute zero, F", "\"-459.671\"", {"-459.671", "-459.67 to 1832"}, "F");
    add("above 1000 C, in F", "\"1832.001\"", {"1832.001", "-459.67 to 1832"}, "F");
    add("more digits than any number holds", "\"99999999999999999999999\"", {"99999999999999999999999"});
    cases.push_back({"a scale that is none",
                     event("check", R"("place":"main","scale":"K","temperature":"5")"),
                     Code::bad_value,
                     {"scale", "\"K\"", "\"C\", \"F\""}});
    Refuser().run(cases);
}

TEST_CASE("refused everywhere: instants and dates", "[refusals]") {
    std::vector<Refused> cases;
    const auto at = [&](const char* name, const std::string& t, std::vector<std::string> words,
                        Code code = Code::bad_value) {
        words.insert(words.begin(), "at: ");
        words.push_back(t);
        cases.push_back({name, entry("check", R"("at":")" + t + R"(",)" + check_at), code, words});
    };
    const std::string form = "YYYY-MM-DDTHH:MM:SS";
    at("a date alone", "2026-03-20", {form});
    at("no seconds", "2026-03-20T09:00Z", {form});
    at("a blank for T", "2026-03-20 09:00:00Z", {form});
    at("small z", "2026-03-20T09:00:00z", {form});
    at("offset without colon", "2026-03-20T09:00:00+0100", {form});
    at("offset over 14 h", "2026-03-20T09:00:00+14:01", {"14:00"});
    at("offset of 60 minutes", "2026-03-20T09:00:00+01:60", {form});
    at("half a second", "2026-03-20T09:00:00.5Z", {"whole second"});
    at("a point alone", "2026-03-20T09:00:00.Z", {form});
    at("second 60", "2026-03-20T09:00:60Z", {"to 59"});
    at("hour 24", "2026-03-20T24:00:00Z", {"to 23"});
    at("no such day", "2026-02-29T09:00:00Z", {"date"});
    at("1969", "1969-12-31T23:59:59Z", {"1970 to 2199"});
    at("2200", "2200-01-01T00:00:00Z", {"1970 to 2199"});
    // 2026-03-29, Europe/Berlin: the clock goes from 02:00 to 03:00; 2025-10-26: from 03:00 back to 02:00
    at("skipped local time", "2026-03-29T02:30:00", {"Europe/Berlin", "skips", "offset"});
    at("local time that occurs twice", "2025-10-26T02:30:00", {"Europe/Berlin", "twice", "offset"}, Code::ambiguous);
    at("after the posting", "2026-04-01T12:00:01Z", {"2026-04-01T12:00:00Z", "not be later"}, Code::too_late);
    cases.push_back({"an instant that is a number",
                     entry("check", R"("at":1774000000,)" + check_at),
                     Code::bad_value,
                     {"at", "1774000000", "must be an instant"}});
    cases.push_back({"a row after the posting",
                     entry("readings", R"("probe":"p","scale":"C","rows":[["2026-04-01T12:00:01Z","5"]])"),
                     Code::too_late,
                     {"rows[0]", "2026-04-01T12:00:01Z", "not be later"}});
    cases.push_back({"a row that is no instant",
                     entry("readings", R"("probe":"p","scale":"C","rows":[["2026-03-20T08:00:00Z","5"],["noon","5"]])"),
                     Code::bad_value,
                     {"rows[1]", "noon", form}});
    cases.push_back({"a row of one",
                     entry("readings", R"("probe":"p","scale":"C","rows":[["2026-03-20T08:00:00Z"]])"),
                     Code::bad_value,
                     {"rows[0]", "[instant, temperature]"}});
    cases.push_back({"a row's number with a fraction",
                     entry("readings", R"("probe":"p","scale":"C","rows":[["2026-03-20T08:00:00Z",4.5]])"),
                     Code::bad_value,
                     {"rows[0]", "4.5", "text"}});
    cases.push_back(
        {"guidance through after its own at",
         event("guidance", take + R"(,"through":"2026-03-20T09:00:01Z","verdict":"use","issuer":"x","reference":"y")"),
         Code::contradiction,
         {"through", "2026-03-20T09:00:01Z", "not be later than at"}});
    for (const char* date : {"2026-02-30", "2026-13", "2026-1-1", "26-01-01", "2200-01-01", "1969-12"})
        cases.push_back({"an expiry",
                         entry("lot", R"("product":"mmr","lot":"L9","expiry":")" + std::string(date) + "\""),
                         Code::bad_value,
                         {"expiry", date, "YYYY-MM-DD or YYYY-MM"}});
    cases.push_back({"a certificate without a day",
                     event("certificate", R"("probe":"p","expires":"2027-01")"),
                     Code::bad_value,
                     {"expires", "2027-01", "YYYY-MM-DD"}});
    Refuser().run(cases);
}

TEST_CASE("refused everywhere: doses, seconds and rows", "[refusals]") {
    std::vector<Refused> cases;
    for (const char* n : {"0", "-1", "1000000001", "1.5", "\"3\"", "18446744073709551615", "99999999999999999999"})
        cases.push_back({"doses",
                         event("receive", R"("place":"main",)" + take + R"(,"doses":)" + n),
                         Code::bad_value,
                         {"doses", "whole number from 1 to 1000000000"}});
    for (const char* n : {"-1", "1000000001", "0.5"})
        cases.push_back({"counted",
                         event("count", R"("place":"main",)" + take + R"(,"doses":)" + n),
                         Code::bad_value,
                         {"doses", n, "whole number from 0 to 1000000000"}});
    for (const char* n : {"-1", "1000000001", "1.0"})
        cases.push_back({"stale_after_s",
                         entry("site", R"("name":"X","zone":"UTC","stale_after_s":)" + std::string(n)),
                         Code::bad_value,
                         {"stale_after_s", n, "from 0 to 1000000000"}});
    for (const char* field : {"max_gap_s", "max_check_gap_s"})
        cases.push_back({field,
                         entry("place", R"("place":"x","name":"X","type":"room",)" + range + ",\"" + field + "\":0"),
                         Code::bad_value,
                         {field, "0", "from 1 to 1000000000"}});
    cases.push_back(
        {"an allowance of nothing",
         entry("product",
               R"("product":"x","name":"X",)" + range +
                   R"(,"allowances":[{"band":{"low":{"C":"8"},"high":{"C":"25"}},"seconds":0,"source":"s"}])"),
         Code::bad_value,
         {"allowances[0]", "seconds", "0", "from 1 to"}});
    cases.push_back(
        {"told with a fraction",
         event(
             "guidance",
             take +
                 R"(,"through":"2026-03-20T08:00:00Z","verdict":"use","issuer":"x","reference":"y",)"
                 R"("told":{"out_of_range_s":1.5,"unmonitored_s":0,"points":0})"),
         Code::bad_value,
         {"told", "out_of_range_s", "1.5", "whole number"}});
    cases.push_back({"no rows",
                     entry("readings", R"("probe":"p","scale":"C","rows":[])"),
                     Code::bad_value,
                     {"rows", "0 rows", "1 to 100000"}});
    cases.push_back(
        {"100,001 rows",
         entry("readings", R"("probe":"p","scale":"C","rows":[)" + repeated(100'000, R"(["2026-03-20T08:00:00Z",5],)") +
                               R"(["2026-03-20T08:00:00Z",5]])"),
         Code::bad_value,
         {"rows", "100001 rows", "1 to 100000"}});
    Refuser().run(cases);
}

TEST_CASE("refused everywhere: limits and temperatures that contradict each other", "[refusals]") {
    const auto place = [](const std::string& r) {
        return entry("place", R"("place":"x","name":"X","type":"room","range":)" + r);
    };
    const auto correction = [](const std::string& rows) {
        return event("certificate", R"("probe":"p","expires":"2027-01-01","correction":)" + rows);
    };
    Refuser().run({
        {"low above high",
         place(R"({"low":{"C":"9"},"high":{"C":"8"}})"),
         Code::contradiction,
         {"range", "9", "low must not lie above high"}},
        {"low above high in one of two scales",
         place(R"({"low":{"C":"2","F":"47"},"high":{"C":"8","F":"46"}})"),
         Code::contradiction,
         {"range", "47", "low must not lie above high"}},
        {"low above high, converted",
         place(R"({"low":{"C":"8"},"high":{"F":"46"}})"),
         Code::contradiction,
         {"range", "low must not lie above high"}},
        {"a range without a side", place("{}"), Code::bad_value, {"range", "{}", "low, high, or both"}},
        {"a limit without a scale", place(R"({"low":{}})"), Code::bad_value, {"low", "{}", "in C, in F, or in both"}},
        {"a band upside down",
         entry("product",
               R"("product":"x","name":"X",)" + range +
                   R"(,"allowances":[{"band":{"low":{"C":"25"},"high":{"C":"8"}},"seconds":5,"source":"s"}])"),
         Code::contradiction,
         {"allowances[0]", "band", "25", "low must not lie above high"}},
        {"a band of one side",
         entry("product", R"("product":"x","name":"X",)" + range +
                              R"(,"allowances":[{"band":{"low":{"C":"25"}},"seconds":5,"source":"s"}])"),
         Code::missing_field,
         {"band", "high"}},
        {"min without max",
         event("check", check_at + R"(,"min":"4")"),
         Code::missing_field,
         {"max", "min and max come together"}},
        {"max without min",
         event("check", check_at + R"(,"max":"6")"),
         Code::missing_field,
         {"min", "min and max come together"}},
        {"min above the temperature",
         event("check", check_at + R"(,"min":"5.1","max":"6")"),
         Code::contradiction,
         {"min", "5.1", "not lie above the temperature 5"}},
        {"max below the temperature",
         event("check", check_at + R"(,"min":"4","max":"4.9")"),
         Code::contradiction,
         {"max", "4.9", "not lie below the temperature 5"}},
        {"a negative tolerance",
         event("certificate", R"("probe":"p","expires":"2027-01-01","tolerance":"-0.1")"),
         Code::bad_value,
         {"tolerance", "-0.1", "not be negative"}},
        {"indicated does not increase",
         correction(R"([["5","0"],["5","0.1"]])"),
         Code::contradiction,
         {"correction[1]", "must increase"}},
        {"corrected decreases",
         correction(R"([["5","1"],["5.5","0.4"]])"),
         Code::contradiction,
         {"correction[1]", "must not decrease"}},
        {"a correction of one",
         correction(R"([["5"]])"),
         Code::bad_value,
         {"correction[0]", "[indicated, correction]"}},
        {"a correction of four digits",
         correction(R"([["5","0.0001"]])"),
         Code::bad_value,
         {"correction[0]", "0.0001", "three"}},
    });
}

TEST_CASE("refused everywhere: fields of movements and guidance that contradict each other", "[refusals]") {
    Refuser().run({
        {"a move to where it is",
         event("move", take + R"(,"from":{"place":"main"},"to":{"place":"main","mark":""},"doses":1)"),
         Code::contradiction,
         {"to", "main"}},
        {"event and use_by",
         event("beyond-use", R"("place":"main",)" + take + R"(,"event":"thaw","use_by":"2026-05-01")"),
         Code::contradiction,
         {"use_by", "event", "not both"}},
        {"neither event nor use_by",
         event("beyond-use", R"("place":"main",)" + take),
         Code::contradiction,
         {"use_by", "event"}},
        {"use-by without its date",
         event("guidance",
               take + R"(,"through":"2026-03-20T08:00:00Z","verdict":"use-by","issuer":"x","reference":"y")"),
         Code::missing_field,
         {"use_by"}},
        {"a use-by date with use",
         event(
             "guidance",
             take +
                 R"(,"through":"2026-03-20T08:00:00Z","verdict":"use","use_by":"2026-05-01","issuer":"x",)"
                 R"("reference":"y")"),
         Code::contradiction,
         {"use_by", "use-by"}},
    });
}

TEST_CASE("refused everywhere: undefined names in definitions, movements and temperatures", "[refusals]") {
    const auto receive = [](const std::string& place, const std::string& product, const std::string& lot) {
        return event("receive",
                     R"("place":")" + place + R"(","product":")" + product + R"(","lot":")" + lot + R"(","doses":1)");
    };
    Refuser().run({
        {"product",
         receive("main", "flu", "L1"),
         Code::not_defined,
         {"product", "\"flu\"", "post its definition first"}},
        {"lot", receive("main", "mmr", "L2"), Code::not_defined, {"lot", "\"L2\"", "post its definition"}},
        {"lot of another product", receive("main", "mmr", "T1"), Code::not_defined, {"lot", "\"T1\"", "\"mmr\""}},
        {"place",
         receive("attic", "mmr", "L1"),
         Code::not_defined,
         {"place", "\"attic\"", "post its definition first"}},
        {"product of a lot",
         entry("lot", R"("product":"flu","lot":"X","expiry":"2026-12")"),
         Code::not_defined,
         {"product", "\"flu\""}},
        {"probe of an assign",
         event("assign", R"("probe":"z","place":"main")"),
         Code::not_defined,
         {"probe", "\"z\"", "post its definition first"}},
        {"place of an assign",
         event("assign", R"("probe":"p","place":"attic")"),
         Code::not_defined,
         {"place", "\"attic\""}},
        {"probe of readings",
         entry("readings", R"("probe":"z","scale":"C","rows":[["2026-03-20T08:00:00Z","5"]])"),
         Code::not_defined,
         {"probe", "\"z\""}},
        {"probe of a check", event("check", check_at + R"(,"probe":"z")"), Code::not_defined, {"probe", "\"z\""}},
        {"place of a check",
         event("check", replaced(check_at, "main", "attic")),
         Code::not_defined,
         {"place", "\"attic\""}},
        {"probe of a certificate",
         event("certificate", R"("probe":"z","expires":"2027-01-01")"),
         Code::not_defined,
         {"probe", "\"z\""}},
        {"place moved to",
         event("move", take + R"(,"from":{"place":"main"},"to":{"place":"attic"},"doses":1)"),
         Code::not_defined,
         {"to", "\"attic\""}},
        {"place moved from",
         event("move", take + R"(,"from":{"place":"attic"},"to":{"place":"main"},"doses":1)"),
         Code::not_defined,
         {"from", "\"attic\""}},
    });
}

TEST_CASE("refused everywhere: undefined names in holds, guidance, incidents and beyond-use", "[refusals]") {
    Refuser().run({
        {"product of a hold",
         event("hold", R"("reason":"r","product":"flu")"),
         Code::not_defined,
         {"product", "\"flu\""}},
        {"lot of a hold",
         event("hold", R"("reason":"r","product":"mmr","lot":"L2")"),
         Code::not_defined,
         {"lot", "\"L2\""}},
        {"place of a hold",
         event("hold", R"("reason":"r","product":"mmr","place":"attic")"),
         Code::not_defined,
         {"place", "\"attic\""}},
        {"lot of guidance",
         event(
             "guidance",
             R"("product":"mmr","lot":"L2","through":"2026-03-20T08:00:00Z","verdict":"use","issuer":"x",)"
             R"("reference":"y")"),
         Code::not_defined,
         {"lot", "\"L2\""}},
        {"place of guidance",
         event("guidance",
               take +
                   R"(,"place":"attic","through":"2026-03-20T08:00:00Z","verdict":"use","issuer":"x","reference":"y")"),
         Code::not_defined,
         {"place", "\"attic\""}},
        {"place of an incident",
         event("incident", R"("incident":"i","step":"noticed","text":"x","place":"attic")"),
         Code::not_defined,
         {"place", "\"attic\""}},
        {"event of a product with events",
         event("beyond-use", R"("place":"main",)" + take + R"(,"event":"shaken")"),
         Code::not_defined,
         {"event", "\"shaken\"", "\"first puncture\", \"thaw\""}},
        {"event of a product without",
         event("beyond-use", R"("place":"main","product":"hep","lot":"H1","event":"thaw")"),
         Code::not_defined,
         {"event", "\"thaw\"", "use_by"}},
    });
}

TEST_CASE("refused everywhere: scales and readings that do not agree", "[refusals]") {
    const auto readings = [](const std::string& rows, const std::string& probe = "p", const std::string& scale = "C") {
        return entry("readings", R"("probe":")" + probe + R"(","scale":")" + scale + R"(","rows":)" + rows);
    };
    Refuser().run({
        {"readings in another scale",
         readings(R"([["2026-03-20T08:00:00Z","40"]])", "p", "F"),
         Code::wrong_scale,
         {"scale", "\"F\"", "must be \"C\"", "\"p\""}},
        {"a check in another scale than its probe",
         event("check", R"("place":"main","scale":"C","temperature":"5","probe":"f")"),
         Code::wrong_scale,
         {"scale", "\"C\"", "must be \"F\""}},
        {"a probe's scale changed",
         entry("probe", R"("probe":"p","scale":"F")"),
         Code::wrong_scale,
         {"scale", "\"F\"", "must be \"C\"", "never changes"}},
        {"unequal to a reading that is there",
         readings(R"([["2026-03-02T08:05:00Z","4.4"]])"),
         Code::readings_differ,
         {"rows", "4.4 at 2026-03-02T08:05:00Z", "entry 9", "4.3"}},
        {"unequal in one batch",
         readings(R"([["2026-03-20T08:00:00Z","5"],["2026-03-20T08:01:00Z","5"],["2026-03-20T08:00:00Z","5.1"]])"),
         Code::readings_differ,
         {"rows", "5.1 at 2026-03-20T08:00:00Z", "5 at"}},
        {"a scale changed by a void",
         event("void", R"("voids":6,"reason":"it is in F")"),
         Code::in_use,
         {"voids", "6", "entry 9", "define it anew first"}},
    });
}

TEST_CASE("refused everywhere: doses that are not there", "[refusals]") {
    const auto at = [](const std::string& kind, const std::string& instant, const std::string& fields) {
        return entry(kind, R"("at":")" + instant + R"(",)" + fields);
    };
    Refuser().run({
        {"more than there are",
         event("give", R"("place":"main",)" + take + R"(,"doses":7,"patient":"t")"),
         Code::not_enough,
         {"doses", "7", "at most the 6", "\"L1\"", "\"main\""}},
        {"of another fund",
         event("give", R"("place":"main","fund":"state",)" + take + R"(,"patient":"t")"),
         Code::not_enough,
         {"doses", "1", "0", "\"state\""}},
        {"of another mark",
         event("waste", R"("place":"spare","mark":"box",)" + take + R"(,"doses":1,"reason":"r")"),
         Code::not_enough,
         {"doses", "1", "0", "\"box\""}},
        {"of a place without",
         event("return", R"("place":"counter",)" + take + R"(,"doses":1,"reason":"r")"),
         Code::not_enough,
         {"doses", "\"counter\""}},
        {"a transfer",
         event("transfer", R"("place":"main",)" + take + R"(,"doses":70,"reason":"r","to":"Elm Street")"),
         Code::not_enough,
         {"doses", "70", "6"}},
        {"a move",
         event("move", take + R"(,"from":{"place":"spare"},"to":{"place":"main"},"doses":1)"),
         Code::not_enough,
         {"doses", "1", "0", "\"spare\""}},
        {"before they came",
         at("give", "2026-03-02T08:59:59Z", R"("place":"main",)" + take + R"(,"patient":"t")"),
         Code::not_enough,
         {"doses", "1", "0"}},
        // 6 are left in main after the move of 4; a late waste of 7 before the move leaves 3, and the move, entry 11,
        // fails
        {"a late entry that leaves a later one without",
         at("waste", "2026-03-02T09:30:00Z", R"("place":"main",)" + take + R"(,"doses":7,"reason":"r")"),
         Code::not_enough,
         {"doses", "7", "entry 11", "move", "2026-03-02 11:00", "takes 4 doses", "3"}},
        {"a late count that leaves a later one without",
         at("count", "2026-03-02T09:30:00Z", R"("place":"main",)" + take + R"(,"doses":3)"),
         Code::not_enough,
         {"doses", "3", "entry 11"}},
        {"a count above 0 of nothing",
         event("count", R"("place":"counter",)" + take + R"(,"doses":3)"),
         Code::not_there,
         {"doses", "3", "receive or move them instead"}},
        // the bag of entry 18 is emptied before the count of 2, entry 19
        {"a late entry that leaves a count of nothing",
         at("waste", "2026-03-05T10:00:00Z", R"("place":"spare","mark":"bag",)" + take + R"(,"doses":2,"reason":"r")"),
         Code::not_there,
         {"doses", "2", "entry 19", "counts 2 doses"}},
        {"a beyond-use of nothing",
         event("beyond-use", R"("place":"counter",)" + take + R"(,"event":"thaw")"),
         Code::not_there,
         {"place", "\"counter\"", "no doses"}},
        {"a beyond-use before the doses came",
         at("beyond-use", "2026-03-02T08:00:00Z", R"("place":"main",)" + take + R"(,"event":"thaw")"),
         Code::not_there,
         {"place", "\"main\"", "no doses"}},
    });
}

TEST_CASE("refused everywhere: voids", "[refusals]") {
    std::vector<Refused> cases;
    const auto add = [&](const char* name, const std::string& number, Code code, std::vector<std::string> words) {
        words.insert(words.end(), {"voids", number});
        cases.push_back({name, event("void", R"("reason":"r","voids":)" + number), code, words});
    };
    add("the first site", "1", Code::not_voidable, {"first site"});
    add("what is void already", "13", Code::not_voidable, {"void already"});
    add("a void", "14", Code::not_voidable, {"is a void", "anew"});
    add("what does not exist", "99", Code::not_voidable, {"entry before this one"});
    add("no entry", "0", Code::bad_value, {"whole number"});
    add("text", "\"13\"", Code::bad_value, {"whole number"});
    add("a product that a lot and movements name", "2", Code::in_use, {"entry 10", "void that entry"});
    add("a product that only lots and a hold name", "15", Code::in_use, {"entry 16"});
    add("a lot that movements name", "3", Code::in_use, {"entry 10"});
    add("a lot that a hold names", "16", Code::in_use, {"entry 17"});
    add("a lot that guidance names", "28", Code::in_use, {"entry 29"});
    add("a place that holds doses", "5", Code::in_use, {"entry 11"});
    add("a place that an assignment names", "4", Code::in_use, {"entry"});
    add("a place that an incident names", "20", Code::in_use, {"entry 21"});
    add("a probe with readings", "6", Code::in_use, {"entry"});
    add("a probe with a certificate", "22", Code::in_use, {"entry 23"});
    add("a receive whose doses have moved", "10", Code::not_enough, {"entry 11", "takes 4 doses"});
    add("a move whose doses were given", "11", Code::not_enough, {"entry 12", "takes 4 doses"});
    add("a receive that a count stands on", "18", Code::not_there, {"entry 19", "counts 2 doses"});
    add("the definition that a handover matches", "25", Code::handover_differs,
        {"handover of entry 27", "number and seconds"});
    cases.push_back({"no reason", event("void", R"("voids":12)"), Code::missing_field, {"reason"}});
    Refuser().run(cases);
}

TEST_CASE("refused everywhere: handovers whose figures contradict each other or a product", "[refusals]") {
    const Code differs = Code::handover_differs;
    Refuser().run({
        {"allowances of another number",
         handover(R"([{"seconds":7200,"used_s":"20","open_s":"20"}])", "[]"),
         differs,
         {"handover", "allowances", "\"hep\"", "number and seconds"}},
        {"allowances of other seconds", handover("7200", "7201"), differs, {"handover", "allowances", "7201", "7200"}},
        {"a product redefined so that a handover no longer matches",
         entry("product", R"("product":"hep","name":"Hep",)" + range),
         differs,
         {"allowances", "handover of entry 27"}},
        {"at least above the estimate",
         handover(R"("at_least_s":"10")", R"("at_least_s":"21")"),
         differs,
         {"warm", "at_least_s", "21", "estimate_s"}},
        {"the estimate above at most",
         handover(R"("at_most_s":"30")", R"("at_most_s":"19")"),
         differs,
         {"warm", "estimate_s", "20", "at_most_s"}},
        {"open above the estimate",
         handover(R"("degree_Cs":"5","open_s":"20")", R"("degree_Cs":"5","open_s":"41/2")"),
         differs,
         {"warm", "open_s", "41/2", "estimate_s"}},
        {"open above used",
         handover(R"("used_s":"20","open_s":"20")", R"("used_s":"20","open_s":"21")"),
         differs,
         {"allowances[0]", "open_s", "21", "used_s"}},
        {"open beyond above beyond",
         handover(R"("warm_open_s":"3")", R"("warm_open_s":"4")"),
         differs,
         {"beyond", "warm_open_s", "4", "warm_s"}},
        {"open points above points",
         handover(R"("points_open":1)", R"("points_open":3)"),
         differs,
         {"points_open", "3", "points"}},
        {"open unmonitored above unmonitored",
         handover(R"("unmonitored_open_s":"7")", R"("unmonitored_open_s":"8")"),
         differs,
         {"unmonitored_open_s", "8", "unmonitored_s"}},
        {"lowest above highest",
         handover(R"("lowest_C":"3")", R"("lowest_C":"10")"),
         differs,
         {"lowest_C", "10", "highest_C"}},
        {"lowest without highest",
         handover(R"("highest_C":"9")", R"("highest_C":null)"),
         differs,
         {"highest_C", "null", "lowest_C"}},
    });
}

TEST_CASE("refused everywhere: handovers of another form", "[refusals]") {
    const Code differs = Code::handover_differs;
    Refuser().run({
        {"negative",
         handover(R"("degree_Cs":"5")", R"("degree_Cs":"-5")"),
         Code::bad_value,
         {"handover", "warm", "degree_Cs", "-5", "not be negative"}},
        {"condemned by",
         handover(R"("condemned_by":[])", R"("condemned_by":[3])"),
         differs,
         {"condemned_by", "[3]", "must be empty"}},
        {"held by", handover(R"("held_by":[])", R"("held_by":[3])"), differs, {"held_by", "[3]", "must be empty"}},
        {"a place without its site",
         handover("Elm Street/main", "main"),
         Code::bad_value,
         {"places", "\"main\"", "site/place"}},
        {"an empty site", handover("Elm Street/main", "/main"), Code::bad_value, {"places", "\"/main\"", "site/place"}},
        {"an empty place", handover("Elm Street/main", "Elm Street/"), Code::bad_value, {"places", "site/place"}},
        {"a number that is not exact",
         handover(R"("warm_s":"3")", R"("warm_s":"3.5")"),
         Code::bad_value,
         {"beyond", "warm_s", "3.5", "n/d"}},
        {"a bare number",
         handover(R"("warm_s":"3")", R"("warm_s":3)"),
         Code::bad_value,
         {"beyond", "warm_s", "3", "as text"}},
        {"divided by zero",
         handover(R"("warm_s":"3")", R"("warm_s":"3/0")"),
         Code::bad_value,
         {"beyond", "warm_s", "3/0"}},
        {"a field left out", handover(R"("points":2,)", ""), Code::missing_field, {"handover", "points"}},
        {"a field too many",
         handover(R"("points":2)", R"("points":2,"doses":3)"),
         Code::unknown_field,
         {"handover", "\"doses\""}},
    });
}

TEST_CASE("refused everywhere: a ledger that does not begin with a site", "[refusals]") {
    tests::TemporaryFile file;
    says(refusal([&] { Ledger(file.path(), Ledger::Mode::create).post(base[3], now); }), Code::no_site,
         {"line 1", "kind", "\"place\"", "must be a site"});
    says(refusal([&] { Ledger(file.path()); }), Code::ledger_missing, {file.path(), "post"});
    says(refusal([&] { Ledger(file.path(), Ledger::Mode::write); }), Code::ledger_missing, {file.path()});
    CHECK(files_beside(file.path()) == 0);
}

TEST_CASE("refused everywhere: a replay out of order, or onto a file that is there", "[refusals]") {
    const auto numbered = [](const std::string& entry, const std::string& head) {
        return "{" + head + entry.substr(1) + "\n";
    };
    const auto first = numbered(base[0], R"("entry":1,"recorded":"2026-03-01T00:00:00Z",)");
    struct Row {
        const char* name;
        std::string lines;
        Code code;
        std::vector<std::string> words;
    };
    const std::vector<Row> rows = {
        {"a number left out",
         first + numbered(base[3], R"("entry":3,"recorded":"2026-03-01T00:00:00Z",)"),
         Code::out_of_order,
         {"line 2", "entry", "3", "must be 2"}},
        {"a number twice",
         first + numbered(base[3], R"("entry":1,"recorded":"2026-03-01T00:00:00Z",)"),
         Code::out_of_order,
         {"line 2", "entry", "1", "must be 2"}},
        {"not from 1",
         numbered(base[0], R"("entry":2,"recorded":"2026-03-01T00:00:00Z",)"),
         Code::out_of_order,
         {"line 1", "entry", "2", "must be 1"}},
        {"recorded before the one before",
         first + numbered(base[3], R"("entry":2,"recorded":"2026-02-28T00:00:00Z",)"),
         Code::out_of_order,
         {"line 2", "recorded", "2026-02-28T00:00:00Z", "2026-03-01T00:00:00Z"}},
        {"no number",
         first + numbered(base[3], R"("recorded":"2026-03-01T00:00:00Z",)"),
         Code::missing_field,
         {"line 2", "entry"}},
        {"no recorded", first + numbered(base[3], R"("entry":2,)"), Code::missing_field, {"line 2", "recorded"}},
        {"at after its own recorded",
         first + numbered(base[3], R"("at":"2026-03-01T00:00:01Z","entry":2,"recorded":"2026-03-01T00:00:00Z",)"),
         Code::too_late,
         {"line 2", "at", "2026-03-01T00:00:01Z"}},
    };
    for (const auto& r : rows) {
        INFO(r.name);
        tests::TemporaryFile file;
        says(refusal([&] { Ledger(file.path(), Ledger::Mode::create).replay(r.lines); }), r.code, r.words);
        CHECK(files_beside(file.path()) == 0);
    }
    tests::TemporaryFile file;
    Ledger(file.path(), Ledger::Mode::create).replay(first);
    const auto before = content(file.path());
    says(refusal([&] { Ledger(file.path(), Ledger::Mode::create).replay(first); }), Code::ledger_exists,
         {file.path(), "new ledger"});
    CHECK((content(file.path()) == before));
    CHECK(files_beside(file.path()) == 1);
}

TEST_CASE("refused everywhere: questions", "[refusals]") {
    tests::TemporaryFile file;
    Ledger(file.path(), Ledger::Mode::create).post(joined(base), now);
    const auto before = content(file.path());
    const Ledger ledger(file.path());
    const Instant a = parse_instant("2026-03-02T00:00:00Z", Zone("UTC")),
                  b = parse_instant("2026-03-03T00:00:00Z", Zone("UTC"));
    says(refusal([&] { ledger.excursions("attic", a, b, {}, now); }), Code::not_known,
         {"place", "\"attic\"", "no place"});
    says(refusal([&] { ledger.conditions("attic", a, b, {}, now); }), Code::not_known,
         {"place", "\"attic\"", "no place"});
    says(refusal([&] { ledger.excursions("main", b, a, {}, now); }), Code::contradiction,
         {"until", "2026-03-02T00:00:00Z", "2026-03-03T00:00:00Z"});
    says(refusal([&] { ledger.conditions("main", b, a, {}, now); }), Code::contradiction,
         {"until", "2026-03-02T00:00:00Z", "not be before from"});
    says(refusal([&] { ledger.conditions("main", a, b, {}, now, 0); }), Code::bad_value,
         {"activation", "0", "1 to 1000000"});
    says(refusal([&] {
             ledger.explain({"main", "mmr", "L2", "", ""}, {}, now);
         }),
         Code::not_known, {"\"L2\"", "stock"});
    Question early;
    early.known_on = a;
    const std::vector<std::string> words{"known-on", "2026-03-02T00:00:00Z", "first entry", "2026-04-01T12:00:00Z"};
    says(refusal([&] { ledger.stock(early, now); }), Code::not_known, words);
    says(refusal([&] { ledger.lists(early, now); }), Code::not_known, words);
    says(refusal([&] { ledger.review(early, now); }), Code::not_known, words);
    says(refusal([&] { ledger.excursions("main", a, b, early, now); }), Code::not_known, words);
    says(refusal([&] { ledger.conditions("main", a, b, early, now); }), Code::not_known, words);
    CHECK((content(file.path()) == before));
}
