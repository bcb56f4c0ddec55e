// Vials of several doses that are opened. All data invented; every instant below is counted by hand.
// That an opened vial gets a date of its own is a duty of the trade; which names of events open a vial is a choice of
// ours.
#include <catch2/catch.hpp>

#include <algorithm>

#include <nlohmann/json.hpp>

#include "coldtally/forms.hpp"
#include "coldtally/ledger.hpp"
#include "stock/opened_vials.hpp"
#include "said.hpp"
#include "temporary.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const char* const definitions = R"lines(
{"kind":"site","by":"ab","name":"Invented","zone":"Europe/Zurich","unmonitored_limit_s":1000000000}
{"kind":"product","by":"ab","product":"elm","name":"Elm, invented","range":{"low":{"C":"2"},"high":{"C":"8"}},)lines"
                                R"lines("doses_per_vial":10,)lines"
                                R"lines("beyond_use":{"first puncture":2419200,"thaw":604800}}
{"kind":"product","by":"ab","product":"oak","name":"Oak, invented","range":{"low":{"C":"2"},"high":{"C":"8"}},)lines"
                                R"lines("doses_per_vial":5}
{"kind":"product","by":"ab","product":"yew","name":"Yew, invented","range":{"low":{"C":"2"},"high":{"C":"8"}},)lines"
                                R"lines("doses_per_vial":1,)lines"
                                R"lines("beyond_use":{"first puncture":3600}}
{"kind":"lot","by":"ab","product":"elm","lot":"A1","expiry":"2027-06"}
{"kind":"lot","by":"ab","product":"elm","lot":"S1","expiry":"2026-03-10"}
{"kind":"lot","by":"ab","product":"oak","lot":"O1","expiry":"2027-06"}
{"kind":"lot","by":"ab","product":"yew","lot":"Y1","expiry":"2027-06"}
{"kind":"place","by":"ab","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}}}
{"kind":"check","by":"ab","at":"2026-03-02T07:00:00","place":"main","scale":"C","temperature":"4"}
{"kind":"receive","by":"ab","at":"2026-03-02T08:00:00","place":"main","product":"elm","lot":"A1","doses":30}
{"kind":"receive","by":"ab","at":"2026-03-02T08:00:00","place":"main","product":"elm","lot":"S1","doses":10}
{"kind":"receive","by":"ab","at":"2026-03-02T08:00:00","place":"main","product":"oak","lot":"O1","doses":10}
{"kind":"receive","by":"ab","at":"2026-03-02T08:00:00","place":"main","product":"yew","lot":"Y1","doses":10}
)lines";

Instant local(const char* text) { return parse_instant(text, Zone("Europe/Zurich")); }

struct Clinic {
    ::tests::TemporaryFile file;
    Ledger ledger{file.path(), Ledger::Mode::create};
    Instant now = local("2026-03-02T10:00:00");

    Clinic() { ledger.post(definitions, now); }
    Drafted draft(const std::string& json) const { return ledger.draft(json, now); }
    Drafted post(const std::string& json) {
        Drafted out = draft(json);
        ledger.post(out, now);
        return out;
    }
    Code refusal(const std::string& json) const {
        try {
            draft(json);
        } catch (const Error& e) {
            message = e.what();
            return e.code();
        }
        FAIL("accepted: " + json);
        return Code::machine;
    }
    /// Doses under a mark, and until when.
    std::pair<std::int64_t, Instant> held(const std::string& lot, const std::string& mark) const {
        for (const auto& row : ledger.stock({}, now).holdings)
            if (row.holding.lot == lot && row.holding.mark == mark) return {row.doses.count(), row.last_use.until};
        return {0, {}};
    }
    mutable std::string message;
};

const ReadinessAnswer::Topic& topic(const ReadinessAnswer& a) {
    const auto found =
        std::find_if(a.topics.begin(), a.topics.end(),
                     [](const auto& t) { return t.topic == ReadinessAnswer::Matter::opened_vials; });
    REQUIRE(found != a.topics.end());
    return *found;
}

std::vector<ReadinessAnswer::Finding> findings(const ReadinessAnswer& a) {
    std::vector<ReadinessAnswer::Finding> out;
    std::copy_if(a.findings.begin(), a.findings.end(), std::back_inserter(out),
                 [](const auto& f) { return f.topic == ReadinessAnswer::Matter::opened_vials; });
    return out;
}

}  // namespace

TEST_CASE("a give out of vials that nothing says were opened says so, and offers the opening", "[everyday][opened]") {
    Clinic c;
    const Drafted d = c.draft(R"({"kind":"give","by":"cd","lot":"A1","patient":"t-1","at":"09:10"})");
    CHECK(d.entries.size() == 1);
    CHECK(says(
        d.warnings,
        "NO OPENING IS NOTED: \"elm\" comes in vials of 10 doses, good for 28 d after first puncture, and nothing says "
        "when the vial of lot \"A1\" in \"main\" was opened. "
        "Opened at 2026-03-02 09:10 it would be usable until 2026-03-30 10:10, by beyond-use"));  // 28 days of 86400 s,
                                                                                                  // over the change to
                                                                                                  // summer time on 29
                                                                                                  // March
    CHECK(says(d.warnings, "(opened)"));
    CHECK(says(d.warnings, "(vial)"));
    REQUIRE(d.opening);
    CHECK_FALSE(d.opening->noted);
    CHECK(d.opening->doses == Doses(10));
    CHECK(d.opening->event == "first puncture");
    CHECK(d.opening->period == Duration(28 * 86400));
    CHECK(d.opening->last_use.until == local("2026-03-30T10:10:00"));
    const auto json = nlohmann::json::parse(to_json(Posted{d, true}));
    CHECK(json["opening"]["noted"] == false);
    CHECK(json["opening"]["vial"].is_null());
    CHECK(json["opening"]["vial_doses"] == 10);
    CHECK(json["opening"]["last_use"]["until"] == "2026-03-30T08:10:00Z");
}

TEST_CASE("no opening is asked for where there is none to note", "[everyday][opened]") {
    Clinic c;
    for (const char* quiet : {R"({"kind":"give","by":"cd","lot":"O1","patient":"t-1"})",  // no period is stated
                              R"({"kind":"give","by":"cd","lot":"Y1","patient":"t-1"})",  // a vial is one dose
                              R"({"kind":"waste","by":"cd","lot":"A1","doses":10,"reason":"dropped"})",  // a whole vial
                              R"({"kind":"return","by":"cd","lot":"A1","doses":3,"reason":"recall"})"}) {
        CAPTURE(quiet);
        const Drafted d = c.draft(quiet);
        CHECK_FALSE(d.opening);
        CHECK_FALSE(says(d.warnings, "OPENING"));
        CHECK(nlohmann::json::parse(to_json(Posted{d, true}))["opening"].is_null());
    }
    CHECK(says(c.draft(R"({"kind":"waste","by":"cd","lot":"A1","doses":3,"reason":"drawn up, not used"})").warnings,
               "NO OPENING IS NOTED"));
    CHECK(has_code(c.draft(R"({"kind":"give","by":"cd","lot":"A1","patient":"t-1"})").warnings, "note-the-opening"));
}

TEST_CASE("a vial that is moved after it was begun is known by its first dose, or by how it came", "[opened]") {
    Clinic c;
    c.now = local("2026-03-03T10:00:00");
    const std::string fridge = R"("type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}}})";
    c.ledger.post(R"({"kind":"place","by":"ab","place":"annex","name":"A",)" + fridge, c.now);
    c.post(R"({"kind":"give","by":"cd","lot":"A1","patient":"t-1","at":"2026-03-02 09:10"})");
    const EntryNumber give = c.ledger.stock({}, c.now).head.last_entry;
    c.post(R"({"kind":"move","by":"cd","lot":"A1","doses":9,"to":{"place":"annex"},"at":"2026-03-02 12:00"})");
    const std::string from_annex = R"({"kind":"give","by":"cd","place":"annex","patient":"t-2","at":"09:00","lot":)";
    CHECK(says(c.draft(from_annex + R"("A1"})").warnings,
               "the first dose of this vial was taken 2026-03-02 09:10, entry " + std::to_string(give)));
    // what is left is whole vials: none of them is begun
    CHECK(says(c.draft(R"({"kind":"give","by":"cd","place":"main","lot":"A1","patient":"t-3","at":"09:00"})").warnings,
               "Opened at 2026-03-03 09:00 it would be usable"));
    c.post(R"({"kind":"move","by":"cd","lot":"S1","doses":4,"to":{"place":"annex"},"at":"2026-03-02 12:30"})");
    const EntryNumber move = c.ledger.stock({}, c.now).head.last_entry;
    CHECK(says(c.draft(from_annex + R"("S1"})").warnings,
               "doses of this vial were missing 2026-03-02 12:30, entry " + std::to_string(move)));
    CHECK(says(c.draft(from_annex + R"("S1"})").warnings, "and it was opened before that"));
}

TEST_CASE("an opened vial that is put among unopened ones says what it makes of their last day", "[opened]") {
    Clinic c;
    c.post(R"({"kind":"give","by":"cd","lot":"A1","patient":"t-1","at":"09:10","opened":"09:10","vial":"v1"})");
    const Drafted d = c.draft(
        R"({"kind":"move","by":"cd","lot":"A1","from":{"place":"main","mark":"v1"},"to":{"place":"main","mark":""}})");
    CHECK(says(d.warnings, "ALL would be usable until 2026-03-30 10:10"));
}

TEST_CASE("an opening with a waste, and one that was forgotten", "[everyday][opened]") {
    Clinic c;
    const Drafted wasted =
        c.post(R"({"kind":"waste","by":"cd","lot":"A1","doses":2,"reason":"drawn up, not used","opened":"09:00"})");
    REQUIRE(wasted.entries.size() == 3);
    CHECK(c.held("A1", "opened 2026-03-02 09:00").first == 8);  // a mark by the time, where none is stated
    CHECK(says(wasted.filled, "vial \"opened 2026-03-02 09:00\""));

    c.post(R"({"kind":"give","by":"cd","lot":"A1","patient":"t-1","mark":"","at":"09:20"})");
    // 19 doses: one vial of 10, and 9 of the one that was opened for that give
    CHECK(c.refusal(R"({"kind":"beyond-use","by":"cd","lot":"A1","vial":"vial 2","at":"09:20","mark":""})") ==
          Code::ambiguous);
    CHECK(c.message.find("vial_doses: not stated, and the 19 doses there are in no whole vials of 10: must be what was "
                         "in this one when it was opened") == 0);
    CHECK(c.message.find("it is the one in use already") != std::string::npos);
    const Drafted noted =
        c.post(R"({"kind":"beyond-use","by":"cd","lot":"A1","vial":"vial 2","vial_doses":9,"at":"09:20","mark":""})");
    REQUIRE(noted.entries.size() == 2);
    CHECK(std::get<BeyondUse>(noted.entries[1].fact).event == "first puncture");
    CHECK(says(noted.filled, "event \"first puncture\""));
    CHECK(c.held("A1", "vial 2") == std::pair(std::int64_t(9), local("2026-03-30T10:20:00")));
    CHECK(c.held("A1", "").first == 10);
}

TEST_CASE("the use-by of a vial is never later than its expiry, and one that is past is said", "[everyday][opened]") {
    Clinic c;
    const Drafted d = c.draft(R"({"kind":"give","by":"cd","lot":"S1","patient":"t-1","vial":"v"})");
    CHECK(says(d.next_steps, "use through 2026-03-10, the expiry"));
    c.now = local("2026-04-01T10:00:00");
    const Drafted late =
        c.draft(R"({"kind":"give","by":"cd","lot":"A1","patient":"t-1","opened":"2026-03-02 09:00","vial":"v"})");
    CHECK(says(late.warnings, "PAST ITS USE: this vial was usable until 2026-03-30 10:00"));
}

TEST_CASE("openings that cannot be are refused, and nothing is written", "[everyday][opened]") {
    Clinic c;
    const std::string give = R"({"kind":"give","by":"cd","patient":"t-1",)";
    CHECK(c.refusal(give + R"("lot":"O1","vial":"v"})") == Code::contradiction);
    CHECK(c.message.find("opened: product \"oak\" must have several doses a vial (doses_per_vial) and a period") == 0);
    CHECK(c.refusal(give + R"("lot":"A1","opened":"09:30","at":"09:00"})") == Code::contradiction);
    CHECK(c.message.find("opened: 2026-03-02 09:30: must not be after at, 2026-03-02 09:00") == 0);
    CHECK(c.refusal(give + R"("lot":"A1","vial_doses":5})") == Code::contradiction);
    CHECK(c.refusal(give + R"("lot":"A1","vial":"v","vial_doses":31})") == Code::bad_value);
    CHECK(c.refusal(give + R"("lot":"A1","vial":"v","vial_doses":0})") == Code::bad_value);
    CHECK(c.refusal(give + R"("lot":"A1","vial":""})") == Code::bad_value);
    CHECK(c.refusal(give + R"("lot":"A1","opened":"9.05"})") == Code::bad_value);
    CHECK(c.message.find("opened: ") == 0);
    CHECK(c.refusal(give + R"("lot":"A1","vial":"v","doses":11})") == Code::contradiction);
    c.post(give + R"("lot":"A1","vial":"v"})");
    CHECK(c.refusal(give + R"("lot":"A1","vial":"v"})") == Code::contradiction);
    CHECK(c.message.find("vial: \"v\": doses of this lot have that mark there already") == 0);
    CHECK(c.refusal(give + R"("lot":"A1","mark":"v","vial":"w"})") == Code::contradiction);
    CHECK(c.message.find("opened already") != std::string::npos);
    CHECK(c.refusal(R"({"kind":"beyond-use","by":"cd","lot":"A1","mark":"","vial":"w","opened":"09:00"})") ==
          Code::contradiction);
}

TEST_CASE("a puncture noted of more doses than one vial holds is warned of", "[everyday][opened]") {
    Clinic c;
    CHECK(says(c.draft(R"({"kind":"beyond-use","by":"cd","lot":"A1","event":"first puncture"})").warnings,
               "shortens the use of all 30 doses there, more than the 10 of one vial"));
    CHECK_FALSE(says(c.draft(R"({"kind":"beyond-use","by":"cd","lot":"A1","event":"thaw"})").warnings,
                     "shortens the use of all"));
}

TEST_CASE("thawed stock was not opened; a use-by of no more than one vial is a vial's", "[everyday][opened]") {
    Clinic c;
    c.post(R"({"kind":"beyond-use","by":"cd","lot":"A1","event":"thaw","at":"08:30"})");
    CHECK(c.draft(R"({"kind":"give","by":"cd","lot":"A1","patient":"t-1"})").opening);
    c.post(R"({"kind":"beyond-use","by":"cd","lot":"A1","use_by":"2026-03-20","at":"08:31"})");  // of all 30
    CHECK(c.draft(R"({"kind":"give","by":"cd","lot":"A1","patient":"t-1"})").opening);
    c.post(R"({"kind":"beyond-use","by":"cd","lot":"S1","use_by":"2026-03-09","at":"08:31"})");  // of 10
    CHECK_FALSE(c.draft(R"({"kind":"give","by":"cd","lot":"S1","patient":"t-1"})").opening);
}

TEST_CASE("which events open a vial, and which of several is meant", "[everyday][opened]") {
    using answers::opening_period;
    for (const char* event :
         {"first puncture", "Punctured", "first opening", "opened", "reconstitution", "Reconstituted"})
        CHECK(answers::opens_vial(event));
    for (const char* event : {"thaw", "room temperature", "out of the freezer"})
        CHECK_FALSE(answers::opens_vial(event));
    Product p;
    p.doses_per_vial = Doses(10);
    p.beyond_use = {{"reconstitution", Duration(60)},
                    {"opening", Duration(50)},
                    {"second puncture", Duration(3600)},
                    {"first puncture", Duration(600)},
                    {"thaw", Duration(10)}};
    REQUIRE(opening_period(p));
    CHECK(opening_period(p)->event == "first puncture");  // the shorter of the two punctures
    CHECK(opening_period(p)->period == Duration(600));
    p.beyond_use = {{"reconstitution", Duration(60)}, {"opening", Duration(500)}};
    CHECK(opening_period(p)->event == "opening");
    p.beyond_use = {{"thaw", Duration(60)}};
    CHECK_FALSE(opening_period(p));
    p.beyond_use = {{"first puncture", Duration(60)}};
    p.doses_per_vial = Doses(1);
    CHECK_FALSE(opening_period(p));
}

TEST_CASE("readiness lists opened vials of which no entry says when", "[readiness][opened]") {
    Clinic c;
    auto a = c.ledger.readiness(std::nullopt, {}, c.now);
    CHECK(topic(a).judged);
    CHECK(topic(a).looked_at == 2);  // A1 and S1, in whole vials
    CHECK(topic(a).in_order == 2);
    CHECK(english().say(topic(a).rule).find("no period after first puncture is stated of oak") != std::string::npos);
    c.post(R"({"kind":"give","by":"cd","lot":"A1","patient":"t-1","at":"09:10"})");
    c.post(R"({"kind":"give","by":"cd","lot":"A1","patient":"t-2","at":"09:40"})");
    a = c.ledger.readiness(std::nullopt, {}, c.now);
    REQUIRE(findings(a).size() == 1);
    const auto f = findings(a)[0];
    CHECK(english().say(f.where) == "elm lot A1 in main");
    CHECK(english().say(f.text) ==
          "28 doses are in no whole vials of 10, and no entry says when one was opened: its use-by is not known");
    CHECK(f.since == local("2026-03-02T09:10:00"));
    CHECK(f.urgency == ReadinessAnswer::Urgency::act);
    CHECK(english().say(f.details.at(0)) == "good for 28 d after first puncture");
    CHECK(topic(a).in_order == 1);
    // dated back to when it was, with what is left in it
    c.post(R"({"kind":"beyond-use","by":"cd","lot":"A1","vial":"vial 1","vial_doses":8,"at":"09:10"})");
    a = c.ledger.readiness(std::nullopt, {}, c.now);
    CHECK(findings(a).empty());
    CHECK(topic(a).looked_at == 3);
}

TEST_CASE("an opened vial of which no entry says when is told by every list that shows it", "[opened]") {
    Clinic c;
    const std::string words = "in no whole vials of 10, and no entry says when one was opened: its use-by is not known";
    const auto listed = [&] {
        std::vector<std::string> out;
        for (const auto& row : c.ledger.lists({}, c.now).holdings)
            for (const auto& note : row.notes)
                if (const std::string said = english().say(note); said.find(words) != std::string::npos)
                    out.push_back(row.holding.lot + ": " + said);
        return out;
    };
    const auto to_be_moved = [&] {
        std::vector<std::string> out;
        for (const auto& row : c.ledger.move_list("main", std::nullopt, {}, c.now).holdings)
            for (const auto& note : row.notes) out.push_back(row.holding.lot + ": " + english().say(note));
        return out;
    };
    CHECK(listed().empty());
    CHECK(to_be_moved().empty());
    c.post(R"({"kind":"give","by":"cd","lot":"A1","patient":"t-1","at":"09:10"})");
    c.post(R"({"kind":"give","by":"cd","lot":"O1","patient":"t-1","at":"09:10"})");  // no period is stated of it
    CHECK(listed() == std::vector<std::string>{"A1: 29 doses are " + words});
    CHECK(to_be_moved() == listed());
    for (const auto& row : c.ledger.dates({}, c.now).holdings)
        CHECK(english().say(row.notes) == (row.holding.lot == "A1" ? std::vector<std::string>{"29 doses are " + words}
                                                    : std::vector<std::string>()));
    CHECK(to_json(c.ledger.dates({}, c.now)).find("29 doses are " + words) != std::string::npos);
    const TableStyle style{Zone("UTC"), Scale::C, 200, false, &english(), true};
    CHECK(to_table(c.ledger.lists({}, c.now), style).find("Note: 29 doses are " + words) != std::string::npos);
    CHECK(to_table(c.ledger.dates({}, c.now), style).find("Note: 29 doses are " + words) != std::string::npos);
    CHECK(to_table(c.ledger.move_list("main", std::nullopt, {}, c.now), style).find("Note: 29 doses are " + words) !=
          std::string::npos);
    CHECK(to_json(c.ledger.move_list("main", std::nullopt, {}, c.now)).find("29 doses are " + words) !=
          std::string::npos);
    // doses that leave for another site carry it along
    const auto sent =
        c.post(R"({"kind":"transfer","by":"cd","lot":"A1","doses":8,"to":"Elm Street","reason":"short there"})");
    const auto beside = c.ledger.handover(sent.entries.back().number, {}, c.now).beside;
    CHECK(says(beside, "LAST DAY NOT KNOWN: 8 doses are " + words));
    CHECK(listed() == std::vector<std::string>{"A1: 21 doses are " + words});
    c.post(R"({"kind":"beyond-use","by":"cd","lot":"A1","vial":"vial 1","vial_doses":1,"at":"09:10"})");
    CHECK(listed().empty());
    CHECK(to_be_moved().empty());
}

TEST_CASE("readiness does not judge openings where no product has a period, and says so", "[readiness][opened]") {
    ::tests::TemporaryFile file;
    Ledger ledger(file.path(), Ledger::Mode::create);
    const Instant now = local("2026-03-02T10:00:00");
    ledger.post(R"lines({"kind":"site","by":"ab","name":"Invented","zone":"Europe/Zurich"}
{"kind":"product","by":"ab","product":"oak","name":"Oak, invented","range":{"low":{"C":"2"},"high":{"C":"8"}},)lines"
                R"lines("doses_per_vial":5}
{"kind":"lot","by":"ab","product":"oak","lot":"O1","expiry":"2027-06"}
{"kind":"place","by":"ab","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}}}
{"kind":"receive","by":"ab","at":"2026-03-02T08:00:00","place":"main","product":"oak","lot":"O1","doses":7}
)lines",
                now);
    const auto a = ledger.readiness(std::nullopt, {}, now);
    CHECK_FALSE(topic(a).judged);
    CHECK(english().say(topic(a).rule) == "no period after first puncture is stated of oak");
}

TEST_CASE("what was given past the use of a vial by the book stays found when the vial is used up", "[opened]") {
    Clinic c;
    c.ledger.post(R"({"kind":"product","by":"ab","product":"fir","name":"Fir",)"
                  R"("range":{"low":{"C":"2"},"high":{"C":"8"}},)"
                  R"("doses_per_vial":10,"beyond_use":{"first puncture":86400}}
{"kind":"lot","by":"ab","product":"fir","lot":"F1","expiry":"2027-06"}
{"kind":"receive","by":"ab","at":"2026-03-02T08:00:00","place":"main","product":"fir","lot":"F1","doses":30})",
                  c.now);
    std::vector<EntryNumber> late;
    for (int i = 0; i < 10; ++i) {  // five on one day, five two days later: the vial is used up
        c.now = local(i < 5 ? "2026-03-02T09:00:00" : "2026-03-04T09:00:00") + Duration(60 * i);
        const auto give = c.ledger.post(R"({"kind":"give","by":"ab","at":")" + c.now.text() +
                                            R"(","place":"main","product":"fir","lot":"F1","patient":"t-)" +
                                            std::to_string(i) + "\"}",
                                        c.now);
        if (i >= 5) late.push_back(give.front());
    }
    c.now = local("2026-03-04T10:00:00");
    const auto said = c.ledger.review({}, c.now).not_listed;
    REQUIRE(has_code(said, "given-past-by-the-book"));
    CHECK(says(said, "5 doses given (entries " + std::to_string(late.front()) + ", "));
    // 2 March 09:00 and a day
    CHECK(says(said, "first dose of that vial was taken 2026-03-02 09:00"));
    CHECK(says(said, "it was usable until 2026-03-03 09:00: PAST"));
    const auto a = c.ledger.readiness(std::nullopt, {}, c.now);
    REQUIRE(findings(a).size() == 1);
    CHECK(english().say(findings(a)[0].where) == "fir lot F1");
    CHECK(findings(a)[0].details.size() == 5);
    CHECK(findings(a)[0].since == local("2026-03-03T09:00:00"));
    // what a clinician decided of a dose settles it there
    for (const auto entry : late)
        c.ledger.post(R"({"kind":"follow-up","by":"ab","at":"2026-03-04T09:30:00","step":"decided","text":"valid",)"
                      R"("give":)" + std::to_string(entry) + "}",
                      c.now);
    CHECK(findings(c.ledger.readiness(std::nullopt, {}, c.now)).empty());
    CHECK(has_code(c.ledger.review({}, c.now).not_listed, "given-past-by-the-book"));
}

TEST_CASE("the rest of a vial of which no opening is noted is not sent away without a word",
          "[opened][handover]") {
    Clinic c;
    for (const char* time : {"09:01", "09:02"})
        c.post(R"({"kind":"give","by":"cd","lot":"A1","patient":"t-1","at":")" + std::string(time) + "\"}");
    c.ledger.post(R"({"kind":"check","by":"ab","at":"2026-03-02T09:50:00","place":"main","scale":"C",)"
                  R"("temperature":"4",)"
                  R"("min":"3","max":"5"})",
                  c.now);
    const auto sent = [&](int doses) {
        return c.draft(R"({"kind":"transfer","by":"cd","lot":"A1","to":"Harbour","reason":"r","at":"09:50","doses":)" +
                       std::to_string(doses) + "}");
    };
    const Drafted rest = sent(8);
    CHECK(says(rest.warnings,
               "8 doses are in no whole vials of 10, and no entry says when one was opened: its use-by is not known: "
               "the receiver must be told"));
    const HandoverAnswer a = c.ledger.handover_after(rest.entries, c.now);
    CHECK(a.needed);
    CHECK(has_code(a.beside, "handover-vial-not-noted"));
    CHECK(to_table(a, TableStyle{Zone("Europe/Zurich")}).find("Usable: NOT KNOWN") != std::string::npos);
    // whole vials say nothing of it
    const Drafted whole = sent(20);
    CHECK_FALSE(has_code(whole.warnings, "receiver-must-be-told"));
    CHECK_FALSE(has_code(c.ledger.handover_after(whole.entries, c.now).beside, "handover-vial-not-noted"));
}
