// What must be known of doses before they are used though their list does not say it: found where a list alone was read
// as "safe". All data invented; figures by hand.
#include <catch2/catch.hpp>

#include <algorithm>

#include <nlohmann/json.hpp>

#include "clinic.hpp"
#include "coldtally/incident_work.hpp"
#include "said.hpp"
#include "stock/beside_notes.hpp"
#include "stock/way_note.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const std::string fridge = R"("range":{"low":{"C":"2"},"high":{"C":"8"}})";
const std::vector<std::string> site{
    R"({"kind":"site","name":"Invented","zone":"UTC","unmonitored_limit_s":1000000000})",
    R"({"kind":"place","place":"main","name":"M","type":"refrigerator",)" + fridge + "}",
    R"({"kind":"place","place":"deep","name":"D","type":"freezer","range":{"low":{"C":"-50"},"high":{"C":"-15"}}})",
    R"({"kind":"product","product":"elm","name":"Elm","allowances":[{"band":{"low":{"C":"8"},"high":{"C":"25"}},)"
    R"("seconds":14400,"source":"invented"}],)" +
        fridge + "}",
    R"({"kind":"product","product":"ice","name":"Ice","range":{"low":{"C":"-50"},"high":{"C":"-15"}}})",
    R"({"kind":"lot","product":"elm","lot":"E1","expiry":"2027-06"})",
    R"({"kind":"lot","product":"ice","lot":"I1","expiry":"2027-06"})"};

std::string check(const std::string& when, const std::string& degrees, const std::string& more = "") {
    return R"({"kind":"check","at":"2026-03-)" + when + R"(:00Z","place":"main","scale":"C","temperature":")" +
           degrees + "\"" + more + "}";
}
std::string receive(const std::string& product, const std::string& lot, const std::string& place = "main") {
    return R"({"kind":"receive","at":"2026-03-01T16:00:00Z","doses":10,"product":")" + product + R"(","lot":")" + lot +
           R"(","place":")" + place + "\"}";
}

struct Practice : Clinic {
    Practice() { post(site); }
    ListsAnswer::Row row(const std::string& lot, const std::string& when) const {
        const auto now = at("2026-03-" + when + ":00Z");
        for (const auto& r : ledger.lists({now, std::nullopt}, now).holdings)
            if (r.holding.lot == lot) return r;
        FAIL("no doses of " + lot);
        return {};
    }
    std::vector<Remark> beside(const std::string& lot, const std::string& when) const {
        const auto listed = row(lot, when);
        for (const auto& note : listed.beside) CHECK(std::ranges::count(listed.notes, note) == 1);
        return listed.beside;
    }
    /// At that instant, also where the ledger was posted to later: a clock that went back is not believed.
    Drafted draft(const std::string& fields, const std::string& when) const {
        const std::string now = "2026-03-" + when + ":00Z";
        const bool stated = fields.find("\"at\":") != std::string::npos;
        return ledger.draft(R"({"by":"ab",)" + (stated ? "" : R"("at":")" + now + "\",") + fields + "}", at(now));
    }
    std::string refusal(const std::string& fields, const std::string& when) const {
        try {
            draft(fields, when);
        } catch (const Error& e) {
            CHECK(e.code() == Code::missing_field);
            return e.what();
        }
        return "accepted";
    }
};

/// No line is folded in the middle of what is looked for.
TableStyle wide() {
    TableStyle out{Zone("UTC")};
    out.columns = 400;
    out.why = true;
    return out;
}

}  // namespace

TEST_CASE("an allowance that may be used up is said on the list's own line, by give, move list and dates", "[beside]") {
    Practice c;
    // 8.1 °C after a night: by the line, 16 min 53 s; by what was read, anything up to the 17 h of the night and 5 min
    c.post({receive("elm", "E1"), check("01T16:00", "2"), check("02T09:00", "8.1"), check("02T09:05", "5")});
    const auto row = c.row("E1", "02T09:05");
    CHECK(row.list == List::keep);
    const std::string must = "MAY BE OVER ITS ALLOWANCE: too warm for at most 17 h 5 min by the values around it";
    CHECK(says(c.beside("E1", "02T09:05"), must));
    CHECK(says(c.beside("E1", "02T09:05"), "allowance 1 permits 4 h"));
    CHECK(row.notes.front().code() == "may-be-over-allowance");
    const auto now = at("2026-03-02T09:05:00Z");
    const std::string table = to_table(c.ledger.lists({now, std::nullopt}, now), wide());
    CHECK(table.find("10 doses WITH A WARNING") != std::string::npos);
    CHECK(table.find("PERHAPS NOTHING by the values around it") != std::string::npos);
    CHECK(says(c.draft(R"("kind":"give","lot":"E1","patient":"t-1")", "02T09:05").warnings, must));
    CHECK(says(c.ledger.move_list("main", std::nullopt, {now, std::nullopt}, now).holdings.at(0).notes, must));
    CHECK(says(c.ledger.dates({now, std::nullopt}, now).holdings.at(0).notes, must));

    c.post(
        {R"({"kind":"guidance","at":"2026-03-02T10:00:00Z","product":"elm","lot":"E1",)"
         R"("through":"2026-03-02T09:30:00Z","verdict":"use","issuer":"Maker","reference":"r"})"});
    CHECK(c.beside("E1", "02T10:00").empty());  // the answer is about it
    // and not about the next night
    c.post({check("02T16:00", "2"), check("03T09:00", "8.1"), check("03T09:05", "5")});
    CHECK(says(c.beside("E1", "03T09:05"), "MAY BE OVER ITS ALLOWANCE"));
}

TEST_CASE("guidance about other doses of the lot makes none of these sure", "[beside]") {
    Practice c;
    c.post({receive("elm", "E1"), check("01T16:00", "2"), check("02T09:00", "8.1"), check("02T09:05", "5"),
            R"({"kind":"guidance","at":"2026-03-02T10:00:00Z","product":"elm","lot":"E1","mark":"other box",)"
            R"("through":"2026-03-02T09:30:00Z","verdict":"use","issuer":"Maker","reference":"r"})"});
    CHECK(says(c.beside("E1", "02T10:00"), "MAY BE OVER ITS ALLOWANCE"));
}

TEST_CASE("a way from another site is known by what receiving wrote, whatever else a note says", "[beside]") {
    Practice c;
    const auto received = [](const std::string& mark, const std::string& note) {
        const std::string none = R"({"at_least_s":"0","estimate_s":"0","at_most_s":"0","degree_Cs":"0","open_s":"0"})";
        return R"({"kind":"receive","at":"2026-03-01T16:00:00Z","doses":10,"product":"elm","lot":"E1","place":"main",)"
               R"("handover":{"warm":)" +
               none + R"(,"cold":)" + none + R"(,"frozen":)" + none +
               R"(,"allowances":[{"seconds":14400,"used_s":"0","open_s":"0"}],"beyond":{"warm_s":"0",)"
               R"("warm_open_s":"0","cold_s":"0","cold_open_s":"0"},"points":0,"points_open":0,)"
               R"("coverage":{"logged_s":"60","bounded_s":"0","checked_s":"0","near_s":"0","awaiting_s":"0",)"
               R"("unmonitored_s":"0","unmonitored_open_s":"0"},"lowest_C":"5","highest_C":"5",)"
               R"("places":["North/fridge"],"condemned_by":[],"held_by":[],"use_by":null},"mark":")" +
               mark + R"(","note":")" + note + "\"}";
    };
    c.post({check("01T16:00", "5"),
            received("a", "the way: none by the driver's word; handover of N, transfer 3; the way: 3 h from "
                          "2026-03-01 13:00, of which nothing is known")});
    CHECK(says(c.beside("E1", "01T16:10"), "THE WAY FROM ANOTHER SITE IS IN NO FIGURE (entry 9): 3 h from"));
    Practice d;
    d.post({check("01T16:00", "5"), received("a", "the way: none, received at the instant they left")});
    CHECK(d.beside("E1", "01T16:10").empty());
    Practice e;
    e.post({check("01T16:00", "5"), received("a", "the way: none of it is known")});
    CHECK(says(e.beside("E1", "01T16:10"), "THE WAY FROM ANOTHER SITE IS IN NO FIGURE (entry 9): none of it is known"));
    Practice f;
    f.post({check("01T16:00", "5"), received("a", "the way: not known: by the handover they left later than they were "
                                                  "received")});
    CHECK(says(f.beside("E1", "01T16:10"), "(entry 9): not known: by the handover they left later than"));
    Practice g;
    g.post({check("01T16:00", "5"), received("a", "by car")});
    CHECK(says(g.beside("E1", "01T16:10"), "(entry 9): how long it was is not known"));
}

TEST_CASE("what receiving writes of the way is read back as figures", "[beside]") {
    const Zone zone("UTC");
    const auto left = at("2026-03-01T13:00:00Z");
    const auto way = answers::way_of(answers::way_note(left, at("2026-03-01T16:20:00Z"), zone));
    REQUIRE(way);
    CHECK(way->code() == "way-took");
    CHECK(way->fields == std::vector<Field>{"3 h 20 min", "2026-03-01 13:00"});
    CHECK_FALSE(answers::way_of(answers::way_note(left, left, zone)));
    CHECK(answers::way_of(answers::way_note(left, left - Duration(1), zone))->code() == "way-left-later");
    CHECK(answers::way_of(std::nullopt)->code() == "way-not-told");
}

TEST_CASE("the handover that receiving writes into a note is read back, whatever people wrote around it", "[beside]") {
    const std::string name = answers::handover_note("Harbour", 53);
    CHECK(name == "handover of Harbour, transfer 53");  // as ledgers keep it
    const std::string way = "; the way: none, received at the instant they left";
    const std::string other = answers::handover_note("North", 3);
    const auto read = [](const std::string& note) { return answers::handover_of_note(note); };
    CHECK(read(other + way) == other);
    CHECK(read(answers::no_hold_note("asked for the " + name) + "; " + other + way) == other);
    CHECK(read("by car; " + other + way) == other);
    CHECK(read("by the " + other + way).empty());  // somebody's own words
    CHECK(read(other).empty());
    CHECK(read("handover of North, transfer ; " + way).empty());
    CHECK(answers::handover_of_note(std::nullopt).empty());

    CHECK(answers::names_handover(other + way, other));
    CHECK(answers::names_handover("by the " + other, other));
    CHECK_FALSE(answers::names_handover(other + way, answers::handover_note("North", 33)));
    CHECK_FALSE(answers::names_handover(answers::handover_note("North", 33) + way, other));
    CHECK_FALSE(answers::names_handover(std::nullopt, other));
}

TEST_CASE("an allowance that cannot be used up by what is known is not called that", "[beside]") {
    Practice c;
    c.post({receive("elm", "E1"), check("01T16:00", "5"), check("01T18:00", "8.1"), check("01T19:00", "5")});
    CHECK(c.row("E1", "01T19:00").history.total.warm.at_most == Rational(3 * 3600));
    CHECK(c.beside("E1", "01T19:00").empty());
}

TEST_CASE("a place that was out of range when it was last read is said to be, as long as nothing else is", "[beside]") {
    Practice c;
    c.post({receive("elm", "E1"), check("01T16:00", "5"), check("01T17:00", "14")});
    CHECK(says(c.beside("E1", "02T12:00"),
               "OUT OF RANGE WHEN LAST READ: main was 14 °C at 2026-03-01 17:00, nothing was "
               "read in the 19 h since, and no figure counts that time"));
    CHECK_FALSE(says(c.beside("E1", "01T17:00"), "OUT OF RANGE WHEN LAST READ"));  // it is now
    c.post({check("02T12:30", "5")});
    CHECK_FALSE(says(c.beside("E1", "02T13:00"), "OUT OF RANGE WHEN LAST READ"));
}

TEST_CASE("doses in a place that does not suit them are said to be as long as they stand there", "[beside]") {
    Practice c;
    c.post(
        {receive("ice", "I1", "deep"), check("01T15:00", "4"),
         R"({"kind":"move","at":"2026-03-01T16:10:00Z","product":"ice","lot":"I1","from":{"place":"deep"},)"
         R"("to":{"place":"main"},"doses":10})"});
    const auto now = c.row("I1", "01T16:20");
    CHECK(now.list == List::keep);  // no reading has come since
    const std::string must = "DOES NOT SUIT: main is kept at 2 to 8 °C, ice must be at -50 to -15 °C";
    CHECK(says(c.beside("I1", "01T16:20"), must));
    CHECK(says(c.draft(R"("kind":"give","lot":"I1","patient":"t-1")", "01T16:20").warnings, must));
    c.post(
        {R"({"kind":"move","at":"2026-03-01T16:30:00Z","product":"ice","lot":"I1","from":{"place":"main"},)"
         R"("to":{"place":"deep"},"doses":10})"});
    CHECK(c.beside("I1", "01T16:40").empty());
}

TEST_CASE("where an allowance covers the place, what is used of it is said, and nobody is sent to freeze it again",
          "[beside]") {
    Practice c;
    c.post(
        {R"({"kind":"product","product":"ice","name":"Ice","range":{"low":{"C":"-50"},"high":{"C":"-15"}},)"
         R"("allowances":[{"band":{"low":{"C":"2"},"high":{"C":"8"}},"seconds":864000,"source":"invented"}]})",
         receive("ice", "I1"), check("01T16:00", "5"), check("01T18:00", "5")});
    CHECK(english().say(c.beside("I1", "01T18:00")) ==
          std::vector<std::string>{"COUNTS AGAINST ALLOWANCE 1: main is kept at 2 to 8 °C, ice is stored at -50 to "
                                   "-15 °C; 2 h used of 10 d in all. What has thawed is not frozen again"});
}

TEST_CASE("what was condemned of a lot is said beside its next delivery, which asks for a note", "[beside]") {
    Practice c;
    c.post(
        {receive("elm", "E1"), check("01T16:00", "5"), check("02T09:00", "5"),
         R"({"kind":"guidance","at":"2026-03-02T10:00:00Z","product":"elm","lot":"E1",)"
         R"("through":"2026-03-02T09:30:00Z","verdict":"discard","issuer":"Health Dept","reference":"recall 7"})"});
    const std::string fields =
        R"("kind":"receive","lot":"E1","doses":5,"place":"main","mark":"new","at":"2026-03-02T11:00:00")";
    CHECK(c.refusal(fields, "02T11:00").find("note: must say why they are received for use: guidance says discard for "
                                             "doses of lot \"E1\": Health Dept, recall 7") == 0);
    Drafted d = c.draft(fields + R"(,"note":"asked: another batch of the lot")", "02T11:00");
    CHECK(says(d.warnings, "CONDEMNED: guidance says discard for doses of lot \"E1\" that were here"));
    c.ledger.post(d, at("2026-03-02T11:00:00Z"));
    const auto now = at("2026-03-02T11:00:00Z");
    for (const auto& row : c.ledger.lists({now, std::nullopt}, now).holdings) {
        CHECK((row.holding.mark == "new") == (row.list == List::keep));
        CHECK(says(row.notes, "CONDEMNED ELSEWHERE: guidance says discard for other doses of this lot: Health Dept, "
                              "recall 7") == (row.holding.mark == "new"));
    }
}

TEST_CASE("doses that left an incident's time in doubt are named, with who must be told, until a step states them",
          "[beside][incident]") {
    Practice c;
    c.post(
        {receive("elm", "E1"), check("01T16:00", "5"), check("01T18:00", "5"),
         R"({"kind":"transfer","at":"2026-03-01T17:00:00Z","place":"main","product":"elm","lot":"E1","doses":1,)"
         R"("to":"Early","reason":"r"})",
         R"({"kind":"transfer","at":"2026-03-01T18:30:00Z","place":"main","product":"elm","lot":"E1","doses":4,)"
         R"("to":"Oak Practice","reason":"need"})",
         R"({"kind":"return","at":"2026-03-01T18:40:00Z","place":"main","product":"elm","lot":"E1","doses":2,)"
         R"("reason":"surplus"})",
         check("01T19:00", "14", R"(,"min":"4","max":"15")"),
         R"({"kind":"incident","at":"2026-03-01T19:02:00Z","incident":"i1","step":"noticed","place":"main",)"
         R"("text":"door"})"});
    const auto now = at("2026-03-01T20:00:00Z");
    const auto a = c.ledger.incident("i1", std::nullopt, {now, std::nullopt}, now);
    REQUIRE(a.left.size() == 2);  // the first left before the last good reading
    CHECK(a.left[0].to == "Oak Practice");
    CHECK(a.left[0].doses == Doses(4));
    CHECK(a.left[0].at == at("2026-03-01T18:30:00Z"));
    CHECK(a.left[1].to.empty());
    CHECK(a.left[1].reason == "surplus");
    const std::string words = "4 doses of elm lot E1, sent from main to Oak Practice 2026-03-01 18:30 (entry " +
                              std::to_string(a.left[0].entry) + ")";
    CHECK(to_table(a, wide()).find("Doses that left since the last good reading") != std::string::npos);
    const auto json = nlohmann::json::parse(to_json(a));
    CHECK(json["left"][0]["to"] == "Oak Practice");
    CHECK(json["left"][1]["to"].is_null());
    CHECK(says(still_open(c.ledger, "i1", now), words + ": Oak Practice must be told"));
    bool found = false;
    for (const auto& f : c.ledger.readiness(std::nullopt, {now, std::nullopt}, now).findings)
        if (english().say(f.where) == "incident i1") found = says(f.details, words);
    CHECK(found);

    c.post(
        {R"({"kind":"incident","at":"2026-03-01T19:30:00Z","incident":"i1","step":"action",)"
         R"("text":"called Oak Practices"})",
         R"({"kind":"incident","at":"2026-03-01T19:35:00Z","incident":"i1","step":"cause",)"
         R"("text":"door left open when Oak Practice fetched theirs"})",
         R"({"kind":"incident","at":"2026-03-01T19:40:00Z","incident":"i1","step":"action",)"
         R"("text":"called Oak Practice, Ms. B."})"});
    CHECK_FALSE(c.ledger.incident("i1", std::nullopt, {now, std::nullopt}, now).left[0].told);  // a name tells nothing
    c.post({R"({"kind":"incident","at":"2026-03-01T19:40:00Z","incident":"i1","step":"action","text":"told of entry )" +
            std::to_string(a.left[0].entry) + R"(: Ms. B."})"});
    const auto told = c.ledger.incident("i1", std::nullopt, {now, std::nullopt}, now).left;
    CHECK(told[0].told == told[0].entry + 7);
    CHECK_FALSE(told[1].told);
    CHECK_FALSE(says(still_open(c.ledger, "i1", now), words));
}

TEST_CASE("an excursion on a line says how long it may have lasted, and where the window cuts it", "[beside]") {
    Practice c;
    c.post({receive("elm", "E1"), check("01T16:00", "2"), check("02T02:00", "10"), check("02T02:10", "5"),
            check("02T16:00", "5")});
    const auto now = at("2026-03-02T16:00:00Z");
    const auto ask = [&](const char* from) {
        return c.ledger.excursions("main", at(from), at("2026-03-03T00:00:00Z"), {now, std::nullopt}, now).excursions;
    };
    const auto whole = ask("2026-03-01T00:00:00Z");
    REQUIRE(whole.size() == 1);
    // by the lists: 10 h of the night and the 10 minutes after it
    CHECK(c.row("E1", "02T16:00").history.total.warm.at_most == Rational(36600));
    CHECK(says(whole[0].marks, "out of range for at most 10 h 10 min between 2026-03-01 16:00 and 2026-03-02 02:10"));
    CHECK_FALSE(says(whole[0].marks, "cut by the window"));
    const auto cut = ask("2026-03-02T01:00:00Z");
    REQUIRE(cut.size() == 1);
    CHECK(says(cut[0].marks, "cut by the window at its beginning"));
    CHECK(says(cut[0].marks, "out of range for at most 1 h 10 min between 2026-03-02 01:00 and 2026-03-02 02:10"));
    const auto json = nlohmann::json::parse(
        to_json(c.ledger.excursions("main", at("2026-03-01T00:00:00Z"), now, {now, std::nullopt}, now)));
    const std::string not_seen = json["not_seen"];
    CHECK(not_seen.find("may hide excursions") != std::string::npos);
}

TEST_CASE("what a display showed at a place's first check is in no figure, and is said until guidance covers it",
          "[beside]") {
    Practice c;
    const std::string shown =
        "A DISPLAY SHOWED 15 °C in \"main\" at 2026-03-01 16:10 (entry 9), as the maximum of its first check: since "
        "when is not known, and it is in no figure";
    c.post({receive("elm", "E1"), check("01T16:10", "5", R"(,"min":"4","max":"15")"),
            check("01T20:00", "5", R"(,"min":"4","max":"6")"),
            R"({"kind":"lot","product":"elm","lot":"E2","expiry":"2027-06"})",
            R"({"kind":"receive","at":"2026-03-01T16:30:00Z","doses":10,"product":"elm","lot":"E2","place":"main"})",
            R"({"kind":"give","at":"2026-03-01T20:05:00Z","place":"main","product":"elm","lot":"E1","patient":"a"})",
            R"({"kind":"incident","at":"2026-03-01T20:10:00Z","incident":"i1","step":"noticed","place":"main",)"
            R"("text":"boxes warm"})",
            R"({"kind":"transfer","at":"2026-03-01T20:15:00Z","place":"main","product":"elm","lot":"E1","doses":2,)"
            R"("to":"Oak","reason":"x"})"});
    const auto now = at("2026-03-01T20:20:00Z");
    const Question then{now, std::nullopt};
    const auto row = c.row("E1", "01T20:20");
    CHECK(row.list == List::keep);
    CHECK(row.history.total.highest_C == Rational(6));  // the model's: not used
    CHECK(says(c.beside("E1", "01T20:20"), shown));
    CHECK_FALSE(says(c.beside("E2", "01T20:20"), "A DISPLAY"));  // came after it
    CHECK_FALSE(says(c.beside("E1", "01T16:05"), "A DISPLAY"));  // nobody had looked
    CHECK(says(c.draft(R"("kind":"give","lot":"E1","patient":"t-1")", "01T20:20").warnings, shown));
    CHECK(to_table(c.ledger.stock(then, now), wide()).find(shown) != std::string::npos);
    CHECK(to_json(c.ledger.stock(then, now)).find("A DISPLAY SHOWED 15 °C") != std::string::npos);

    const auto from = [&](const char* t) {
        return c.ledger.excursions("main", at(t), at("2026-03-02T00:00:00Z"), then, now);
    };
    CHECK(from("2026-03-01T00:00:00Z").excursions.empty());
    CHECK(says(from("2026-03-01T00:00:00Z").beside, shown));
    CHECK(from("2026-03-01T16:10:00Z").beside.empty());  // what it showed was before that
    CHECK(to_table(from("2026-03-01T00:00:00Z"), wide()).find(shown) != std::string::npos);
    CHECK(nlohmann::json::parse(to_json(from("2026-03-01T00:00:00Z")))["beside"].size() == 1);
    const auto conditions = c.ledger.conditions("main", at("2026-03-01T00:00:00Z"), now, then, now);
    CHECK(conditions.highest_C == Rational(6));
    CHECK(says(conditions.beside, shown));
    CHECK(to_table(conditions, wide()).find(shown) != std::string::npos);
    CHECK(nlohmann::json::parse(to_json(conditions))["beside"].size() == 1);

    const auto incident = c.ledger.incident("i1", std::nullopt, then, now);  // in doubt from 20:00 on
    REQUIRE(incident.units.size() == 1);
    CHECK(says(incident.units[0].beside, shown));
    CHECK(to_table(incident, wide()).find(shown) < to_table(incident, wide()).find("Where these doses are now"));
    CHECK(nlohmann::json::parse(to_json(incident))["units"][0]["beside"].size() == 1);
    CHECK(says(c.ledger.handover(15, then, now).beside, shown));
    CHECK(c.ledger.handover(15, then, now).needed);
    CHECK(says(c.ledger.review(then, now).not_listed,
               "A DISPLAY SHOWED MORE, whatever the finding is: 1 dose given (entry 13)"));
    CHECK(says(c.ledger.review(then, now, true).doses.at(0).beside, shown));

    const std::string answer =
        R"({"kind":"guidance","at":"2026-03-01T20:18:00Z","product":"elm","lot":"E1","verdict":"use",)"
        R"("issuer":"Maker","reference":"r","through":"2026-03-01T)";
    c.post({answer + R"(16:05:00Z"})"});  // of the time before the display was read
    CHECK(says(c.beside("E1", "01T20:20"), shown));
    c.post({answer + R"(20:16:00Z"})"});
    CHECK_FALSE(says(c.beside("E1", "01T20:20"), "A DISPLAY"));
    CHECK(says(from("2026-03-01T00:00:00Z").beside, shown));  // of the place it stays true

    c.post({R"({"kind":"void","at":"2026-03-01T20:19:00Z","voids":9,"reason":"misread"})"});
    CHECK(from("2026-03-01T00:00:00Z").beside.empty());  // that of 20:00 is the first, and in range
}

TEST_CASE("a first check that shows freezing is said of what must not freeze, by both ends where both are out",
          "[beside]") {
    Practice c;
    c.post({R"({"kind":"product","product":"fir","name":"Fir","freeze_limit":{"C":"0"},)" + fridge + "}",
            R"({"kind":"lot","product":"fir","lot":"F1","expiry":"2027-06"})", receive("fir", "F1"),
            check("01T16:10", "5", R"(,"min":"-0.5","max":"9")")});
    CHECK(says(c.beside("F1", "01T16:20"), "A DISPLAY SHOWED -0.5 °C AND 9 °C in \"main\""));
    Practice d;  // a thawed product stands in it by right: what the place permits is nothing to be said
    d.post({R"({"kind":"product","product":"ice","name":"Ice","range":{"low":{"C":"-50"},"high":{"C":"-15"}},)"
            R"("allowances":[{"band":{"low":{"C":"2"},"high":{"C":"8"}},"seconds":2592000,"source":"invented"}]})",
            receive("ice", "I1"), check("01T16:10", "5", R"(,"min":"4","max":"6")")});
    CHECK_FALSE(says(d.beside("I1", "01T16:20"), "A DISPLAY"));
}

TEST_CASE("doses in an incident's time in doubt get no order of use, and the move list says DO NOT USE", "[beside]") {
    Practice c;
    c.post(
        {receive("elm", "E1"), check("01T16:00", "5"),
         R"({"kind":"incident","at":"2026-03-01T19:02:00Z","incident":"i1","step":"noticed","place":"main",)"
         R"("text":"door"})"});
    const auto now = at("2026-03-01T20:00:00Z");
    const auto dates = c.ledger.dates({now, std::nullopt}, now).holdings.at(0);
    CHECK(dates.list == List::keep);
    CHECK_FALSE(dates.in_doubt.empty());
    CHECK_FALSE(dates.order);
    CHECK(to_table(c.ledger.move_list("main", std::nullopt, {now, std::nullopt}, now), wide())
              .find("DO NOT USE (in doubt); IN DOUBT: incident i1 is open") != std::string::npos);
    // nor do they stand among those against which nothing was found
    const auto table = [&] { return to_table(c.ledger.lists({now, std::nullopt}, now), wide()); };
    const std::string doubted = "DO NOT USE YET - in doubt, an incident is open: 10 doses in 1 holding";
    CHECK(table().find(doubted) < table().find("Nothing found against use; read the notes: 0 doses in 0 holdings"));
    c.post({R"({"kind":"receive","at":"2026-03-01T19:30:00Z","doses":3,"product":"ice","lot":"I1","place":"deep"})"});
    CHECK(table().find(doubted) < table().find("Nothing found against use; read the notes: 3 doses in 1 holding"));
    CHECK(table().find("E1") < table().find("Nothing found against use"));
    CHECK(to_table(c.ledger.stock({now, std::nullopt}, now), wide()).find("DO NOT USE (in doubt)") !=
          std::string::npos);
}

TEST_CASE("a review without findings names the doses given in an open incident's time in doubt, and those not sure",
          "[beside]") {
    Practice c;
    c.post({receive("elm", "E1"), check("01T16:00", "2"), check("02T09:00", "8.1"), check("02T09:05", "5"),
            R"({"kind":"give","at":"2026-03-01T17:00:00Z","place":"main","product":"elm","lot":"E1","patient":"a"})",
            R"({"kind":"give","at":"2026-03-02T09:10:00Z","place":"main","product":"elm","lot":"E1","patient":"t"})"});
    const auto now = at("2026-03-02T10:00:00Z");
    CHECK(c.ledger.review({now, std::nullopt}, now).doses.empty());
    auto beside = c.ledger.review({now, std::nullopt}, now).not_listed;
    REQUIRE(beside.size() == 1);  // the first was given within the hour: at most 1 h
    CHECK(english().say(beside[0]).find("NOT SURE, and not listed here: 1 dose given (entry 13)") == 0);
    CHECK(beside[0].code() == "not-sure-unlisted");
    c.post(
        {R"({"kind":"incident","at":"2026-03-02T09:30:00Z","incident":"i1","step":"noticed","place":"main",)"
         R"("text":"door"})"});
    beside = c.ledger.review({now, std::nullopt}, now).not_listed;
    REQUIRE(beside.size() == 2);
    CHECK(english().say(beside[0]).starts_with("IN DOUBT, and not listed here: 2 doses given (entries 12, 13) that "
                                               "stood in the time in doubt of incident i1"));
    const auto table = to_table(c.ledger.review({now, std::nullopt}, now), wide());
    CHECK(table.find("NOT SURE, and not listed here") < table.find("No doses to list."));
    const auto followed = c.ledger.follow_up(std::nullopt, std::nullopt, {now, std::nullopt}, now);
    CHECK(followed.not_listed == beside);
    CHECK(to_table(followed, wide()).find("NOT SURE, and not listed here") != std::string::npos);
    CHECK(nlohmann::json::parse(to_json(followed))["not_listed"].size() == 2);
    CHECK(c.ledger.follow_up("E1", std::nullopt, {now, std::nullopt}, now).not_listed.empty());
    const auto all = c.ledger.review({now, std::nullopt}, now, true);
    CHECK(all.doses.size() == 2);
    CHECK(english()
              .say(all.not_listed.at(1))
              .starts_with("NOT SURE, and listed as nothing found: 1 dose given (entry 13)"));
    const auto json = nlohmann::json::parse(to_json(all));
    CHECK(json["not_listed"].size() == 2);
    CHECK(json["not_listed_codes"][1]["code"] == "not-sure-listed");
}
