// An explanation can be worked again by hand: its parts add up to what the list says.
#include <catch2/catch.hpp>

#include <regex>
#include <set>

#include <nlohmann/json.hpp>

#include "coldtally/forms.hpp"
#include "coldtally/ledger.hpp"
#include "said.hpp"
#include "temporary.hpp"

using namespace coldtally;

namespace {

const Instant now = parse_instant("2026-03-10T00:00:00Z", Zone("UTC"));

Explanation explained(const std::string& entries, const HoldingKey& key, Rational& warm, std::string& list) {
    const ::tests::TemporaryFile file;
    Ledger(file.path(), Ledger::Mode::create)
        .post(R"({"kind":"site","name":"Demo","zone":"UTC","by":"ab"}
{"kind":"product","product":"p","name":"P","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"lot","product":"p","lot":"L","expiry":"2027-05","by":"ab"}
{"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"place","place":"box","name":"Box","type":"transport container","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
              R"("by":"ab"}
{"kind":"probe","probe":"k","scale":"C","by":"ab"}
{"kind":"assign","at":"2026-03-01T00:00:00Z","probe":"k","place":"main","by":"ab"}
)" + entries,
              now);
    const Ledger ledger(file.path());
    for (const auto& row : ledger.lists({}, now).holdings)
        if (row.holding == key) warm = row.history.total.warm.estimate, list = std::string(list_name(row.list));
    return ledger.explain(key, {}, now);
}

std::vector<std::string> texts(const Explanation& e) {
    std::vector<std::string> out;
    for (const auto& line : e.lines) out.push_back(english().say(line.text));
    return out;
}

/// The seconds that the lines of readings and crossings state, added up.
Rational told(const Explanation& e) {
    static const std::regex crossing("above the range for ([0-9/]+) s of"),
        run("all above the range, highest [^:]*: ([0-9]+) s"), bounded("all ([0-9]+) s count as warm");
    Rational sum;
    for (const auto& text : texts(e))
        for (const auto* form : {&crossing, &run, &bounded}) {
            std::smatch m;
            if (std::regex_search(text, m, *form)) sum += Rational::parse(m[1].str());
        }
    return sum;
}

bool says(const Explanation& e, const std::string& words) { return coldtally::tests::says(texts(e), words); }

const std::string night =
    R"({"kind":"receive","at":"2026-03-02T08:00:00Z","place":"main","product":"p","lot":"L","fund":"state",)"
    R"("mark":"bag","doses":10,"by":"ab"}
{"kind":"readings","probe":"k","scale":"C","by":"ab","rows":[["2026-03-02T08:00:00Z","5"],["2026-03-02T09:00:00Z",)"
    R"("12"],["2026-03-02T10:00:00Z","13"],["2026-03-02T11:00:00Z","6"]]}
{"kind":"check","at":"2026-03-02T11:00:00Z","place":"main","scale":"C","temperature":"6","by":"ab"}
{"kind":"check","at":"2026-03-02T20:00:00Z","place":"main","scale":"C","temperature":"6","min":"5","max":"9","by":"ab"}
)";

}  // namespace

TEST_CASE("the parts that an explanation tells add up to the time on the list") {
    Rational warm;
    std::string list;
    const auto e = explained(night, {"main", "p", "L", "state", "bag"}, warm, list);
    // 5 to 12 in 3600 s is above 8 for 4/7 of it; then 3600 s; 13 to 6 for 5/7 of 3600 s; then 9 h of which only the
    // maximum is known
    CHECK(warm == Rational(3600) * Rational(4, 7) + Rational(3600) + Rational(3600) * Rational(5, 7) + Rational(32400));
    CHECK(says(e, "(entry 11) are known"));  // the check of 20:00, after seven entries of the site, doses, readings and
                                             // the check of 11:00
    CHECK(told(e) == warm);
    CHECK(says(e, "entry 8: received 10 doses into main, fund state, mark bag"));
    CHECK(says(e, "reason warm"));
    CHECK(english().say(e.lines.back().text) == "list: " + list);
    CHECK(e.lines.back().text.code() == "list-is");
    CHECK(list == "quarantine-pending-guidance");
}

TEST_CASE("an explanation follows the doses through moves and joins, and leaves out what is not theirs") {
    Rational warm;
    std::string list;
    const auto e = explained(
        night +
            R"({"kind":"receive","at":"2026-03-03T08:00:00Z","place":"box","product":"p","lot":"L","fund":"state",)"
            R"("doses":4,"by":"ab"}
{"kind":"receive","at":"2026-03-03T08:00:00Z","place":"box","product":"p","lot":"L","fund":"private","doses":5,)"
            R"("by":"ab"}
{"kind":"move","at":"2026-03-03T09:00:00Z","product":"p","lot":"L","fund":"state","from":{"place":"main",)"
            R"("mark":"bag"},"to":{"place":"box"},"doses":3,"by":"ab"})",
        {"box", "p", "L", "state", ""}, warm, list);
    CHECK(told(e) == warm);
    CHECK(says(e, "moved 3 doses from main, fund state, mark bag to box, fund state"));
    CHECK(says(e, "joins 4 doses there"));
    CHECK_FALSE(says(e, "fund private"));
}

TEST_CASE("an explanation says why guidance did not clear") {
    Rational warm;
    std::string list;
    const auto e = explained(
        night +
            R"({"kind":"guidance","at":"2026-03-04T00:00:00Z","through":"2026-03-03T00:00:00Z","product":"p",)"
            R"("lot":"L","verdict":"use","issuer":"Maker, invented","reference":"m1","told":{"out_of_range_s":3600,)"
            R"("unmonitored_s":0,"points":2},"by":"ab"})",
        {"main", "p", "L", "state", "bag"}, warm, list);
    CHECK(says(e, "guidance of Maker, invented (m1): use"));
    CHECK(says(e, "told: out of range 3600 s"));
    CHECK(says(e, "does not clear: more is open than its issuer was told"));
    CHECK(list == "quarantine-pending-guidance");
}

TEST_CASE("an explanation parts a stay where the doses are held, and where others join them") {
    Rational warm;
    std::string list;
    const auto e = explained(
        R"({"kind":"receive","at":"2026-03-02T08:00:00Z","place":"main","product":"p","lot":"L","doses":5,"by":"ab"}
{"kind":"readings","probe":"k","scale":"C","by":"ab","rows":[["2026-03-02T08:00:00Z","9"],["2026-03-02T08:10:00Z",)"
        R"("9"],["2026-03-02T08:20:00Z","9"]]}
{"kind":"hold","at":"2026-03-02T08:05:00Z","product":"p","reason":"invented recall","by":"ab"}
{"kind":"receive","at":"2026-03-02T08:10:00Z","place":"main","product":"p","lot":"L","doses":2,"by":"ab"}
)",
        {"main", "p", "L", "", ""}, warm, list);
    CHECK(warm == Rational(1200));  // 9 degrees from 08:00 to 08:20
    // each is told with the time before it: 300 s to the hold, 300 s more to the doses that came, 600 s of which the
    // others have not
    CHECK(says(e, "2026-03-02 08:00 to 2026-03-02 08:05  in main: logged 300 s"));
    CHECK(says(e, "2026-03-02 08:05 to 2026-03-02 08:10  in main: logged 300 s"));
    CHECK(says(e, "held: invented recall"));
    CHECK(says(e, "joins 5 doses there"));
    CHECK(says(e, "warm: there 600 s, coming in 0 s"));
}

TEST_CASE("a line of an explanation has its depth as a number, and as blanks in its text in JSON") {
    Rational warm;
    std::string list;
    const auto e = explained(night, {"main", "p", "L", "state", "bag"}, warm, list);
    const auto joined = nlohmann::json::parse(to_json(e));
    REQUIRE(joined["lines"].size() == e.lines.size());
    REQUIRE(joined["lines_codes"].size() == e.lines.size());
    std::set<int> depths;
    for (std::size_t i = 0; i < e.lines.size(); ++i) {
        const std::string text = english().say(e.lines[i].text);
        CHECK(text.find_first_not_of(' ') == 0);
        CHECK(joined["lines"][i] == std::string(static_cast<std::size_t>(e.lines[i].indent), ' ') + text);
        CHECK(joined["lines_codes"][i]["indent"] == e.lines[i].indent);
        CHECK(joined["lines_codes"][i]["code"] == std::string(e.lines[i].text.code()));
        depths.insert(e.lines[i].indent);
    }
    CHECK(depths == std::set<int>{0, 4});
    CHECK(joined["lines_codes"].back()["fields"]["list"]["code"] == "name-quarantine");
}

TEST_CASE("explain: what left a holding is said where it left, with what was there") {
    Rational warm;
    std::string list;
    const auto e = explained(
        R"({"kind":"receive","at":"2026-03-02T08:00:00Z","place":"main","product":"p","lot":"L","doses":10,"by":"ab"}
{"kind":"give","at":"2026-03-02T08:10:00Z","place":"main","product":"p","lot":"L","patient":"t","by":"ab"}
{"kind":"waste","at":"2026-03-02T08:20:00Z","place":"main","product":"p","lot":"L","doses":2,"reason":"broken",)"
        R"("by":"ab"})",
        {"main", "p", "L", "", ""}, warm, list);
    CHECK(says(e, "given 1 dose of"));
    CHECK(says(e, "which had 10"));
    CHECK(says(e, "wasted 2 doses of"));
    CHECK(says(e, "which had 9"));
}
