// Drafts: what is filled in, what is asked for, what is warned of, and what taking an entry back changes. All data
// invented. That a careful person wants these warnings is common practice, no source.
#include <catch2/catch.hpp>

#include "coldtally/ledger.hpp"
#include "said.hpp"
#include "temporary.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const char* const definitions = R"lines(
{"kind":"site","by":"ab","name":"Invented","zone":"Europe/Zurich"}
{"kind":"product","by":"ab","product":"elm","name":"Elm, invented","range":{"low":{"C":"2"},"high":{"C":"8"}}}
{"kind":"product","by":"ab","product":"fir","name":"Fir (invented), frozen","range":{"high":{"C":"-15"}},)lines"
                                R"lines("allowances":[{"band":{"low":{"C":"2"},"high":{"C":"8"}},)lines"
                                R"lines("seconds":864000,"source":"invented"}]}
{"kind":"lot","by":"ab","product":"elm","lot":"AO1","expiry":"2026-06"}
{"kind":"lot","by":"ab","product":"elm","lot":"B7","expiry":"2027-01-31"}
{"kind":"lot","by":"ab","product":"fir","lot":"B7","expiry":"2027-03-31"}
{"kind":"lot","by":"ab","product":"fir","lot":"F1","expiry":"2027-03-31"}
{"kind":"place","by":"ab","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}}}
{"kind":"place","by":"ab","place":"cold","name":"Freezer","type":"freezer","range":{"high":{"C":"-15"}}}
{"kind":"place","by":"ab","place":"box","name":"Box","type":"transport container","range":{"low":{"C":"2"},)lines"
                                R"lines("high":{"C":"8"}}}
{"kind":"place","by":"ab","place":"counter","name":"Counter","type":"room","range":{"low":{"C":"2"},"high":{"C":"8"}}}
{"kind":"check","by":"ab","at":"2026-06-30T07:00:00","place":"main","scale":"C","temperature":"4"}
{"kind":"receive","by":"ab","at":"2026-06-30T08:00:00","place":"main","product":"elm","lot":"AO1","doses":10}
{"kind":"receive","by":"ab","at":"2026-06-30T08:00:00","place":"main","product":"elm","lot":"B7","doses":5}
{"kind":"receive","by":"ab","at":"2026-06-30T08:00:00","place":"box","product":"elm","lot":"B7","doses":6}
{"kind":"receive","by":"ab","at":"2026-06-30T08:00:00","place":"cold","product":"fir","lot":"F1","doses":7}
{"kind":"check","by":"ab","at":"2026-06-30T09:00:00","place":"main","scale":"C","temperature":"4"}
)lines";

Instant local(const char* text) { return parse_instant(text, Zone("Europe/Zurich")); }

struct Clinic {
    ::tests::TemporaryFile file;
    Ledger ledger{file.path(), Ledger::Mode::create};
    Instant now = local("2026-06-30T10:00:00");

    Clinic() { ledger.post(definitions, now); }
    Drafted draft(const std::string& json) const { return ledger.draft(json, now); }
    /// Posts a draft; the number of its last entry.
    EntryNumber post(const std::string& json) { return ledger.post(draft(json).entries, now).back(); }
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
    mutable std::string message;
};

}  // namespace

TEST_CASE("what has several meanings is named, and never guessed", "[everyday]") {
    Clinic c;
    CHECK(c.refusal(R"({"kind":"give","by":"cd","lot":"B7","patient":"t-1"})") == Code::ambiguous);
    CHECK(c.message.find("state the place") != std::string::npos);
    CHECK(c.message.find("`--place box`: 6 doses, DO NOT USE (quarantine)") != std::string::npos);
    CHECK(c.message.find("`--place main`: 5 doses, usable through 2027-01-31") != std::string::npos);
    CHECK(c.refusal(R"({"kind":"hold","by":"cd","lot":"B7","reason":"door"})") == Code::ambiguous);
    CHECK(c.refusal(R"({"kind":"receive","by":"cd","lot":"AO1","doses":5})") == Code::ambiguous);  // two units
    CHECK(c.refusal(R"({"kind":"give","by":"cd","lot":"AO1","place":"box","patient":"t-1"})") == Code::not_there);
    CHECK(c.message.find("`--place main`: 10 doses") != std::string::npos);
    CHECK(
        std::get<Give>(c.draft(R"({"kind":"give","by":"cd","lot":"B7","place":"box","patient":"t-1"})").entries[0].fact)
            .product == "elm");
}

TEST_CASE("a short time is today's, in the site's zone", "[everyday]") {
    Clinic c;
    for (const char* at :
         {"09:05", "9:05", "09:05:00", "9:05:00", "2026-06-30 09:05", "2026-06-30 9:05", "2026-06-30T9:05",
          "2026-06-30 9:05:00", "2026-06-30T09:05", "2026-06-30T09:05:00+02:00", "2026-06-30T07:05:00Z"}) {
        CAPTURE(at);
        CHECK(*c.draft(std::string(R"({"kind":"give","by":"cd","lot":"AO1","patient":"t-1","at":")") + at + "\"}")
                   .entries[0]
                   .at == local("2026-06-30T09:05:00"));
    }
    CHECK(c.refusal(R"({"kind":"give","by":"cd","lot":"AO1","patient":"t-1","at":"9.05"})") == Code::bad_value);
    CHECK(c.message.find("at: ") == 0);
    // not yet there at that time: the doses came at 08:00
    CHECK(c.refusal(R"({"kind":"give","by":"cd","lot":"AO1","patient":"t-1","at":"07:59"})") == Code::not_there);
}

TEST_CASE("a name is not taken for a patient's token", "[everyday]") {
    Clinic c;
    CHECK(c.refusal(R"({"kind":"give","by":"cd","lot":"AO1","patient":"A Name"})") == Code::bad_value);
    CHECK(c.message.find("patient: has a blank, as a name has: must be a token") == 0);
    CHECK(c.message.find("A Name") == std::string::npos);  // not repeated
}

TEST_CASE("lot numbers that are read alike", "[everyday]") {
    Clinic c;
    CHECK(c.refusal(R"({"kind":"give","by":"cd","lot":"A01","patient":"t-1"})") == Code::not_defined);
    CHECK(c.message.find("is it \"AO1\"") != std::string::npos);
    for (const char* twin : {"A01", "AOl", "AOI", "ao1", "A-O1", "a0 1", "Aol"}) {
        CAPTURE(twin);
        CHECK(says(c.draft(std::string(R"({"kind":"lot","by":"cd","product":"elm","lot":")") + twin +
                           R"(","expiry":"2027-01"})")
                       .warnings,
                   "easily taken for lot \"AO1\""));
    }
    CHECK_FALSE(says(c.draft(R"({"kind":"lot","by":"cd","product":"elm","lot":"A02","expiry":"2027-01"})").warnings,
                     "easily taken"));

    c.post(
        R"({"kind":"receive","by":"cd","place":"main","product":"elm","lot":"EL-2","doses":5,"expiry":"2027-01",)"
        R"("at":"09:00"})");
    CHECK(says(
        c.draft(
             R"({"kind":"receive","by":"cd","place":"main","product":"elm","lot":"el-2","doses":5,"expiry":"2027-01"})")
            .warnings,
        "easily taken for lot \"EL-2\""));
    c.post(
        R"({"kind":"receive","by":"cd","place":"main","product":"elm","lot":"el-2","doses":5,"expiry":"2027-01",)"
        R"("at":"09:00"})");
    for (const char* rest : {R"("kind":"move","to":{"place":"box"})", R"("kind":"waste","doses":1,"reason":"dropped")",
                             R"("kind":"return","doses":1,"reason":"recall")", R"("kind":"count","doses":5)",
                             R"("kind":"beyond-use","use_by":"2026-08-01")"}) {
        CAPTURE(rest);
        CHECK(says(c.draft(R"({"by":"cd","lot":"EL-2",)" + std::string(rest) + "}").warnings,
                   "easily taken for lot \"el-2\""));
    }
}

TEST_CASE("one lot has one expiry", "[everyday]") {
    Clinic c;
    const std::string receive = R"({"kind":"receive","by":"cd","place":"main","lot":"AO1","doses":5,"expiry":)";
    CHECK(c.refusal(receive + "\"2026-07\"}") == Code::contradiction);
    CHECK(c.draft(receive + "\"2026-06-30\"}").entries.size() == 1);  // the month's last day: the same
    CHECK(c.refusal(R"({"kind":"lot","by":"cd","product":"elm","lot":"AO1","expiry":"2026-07"})") ==
          Code::missing_field);
    CHECK(says(
        c.draft(R"({"kind":"lot","by":"cd","product":"elm","lot":"AO1","expiry":"2026-07","note":"maker's letter"})")
            .warnings,
        "EXPIRY DIFFERS"));
    const Drafted fresh = c.draft(
        R"({"kind":"receive","by":"cd","place":"main","product":"elm","lot":"C9","doses":5,"expiry":"2027-09"})");
    REQUIRE(fresh.entries.size() == 2);
    CHECK(std::get<Lot>(fresh.entries[0].fact).expiry == "2027-09");
    CHECK(c.ledger.post(fresh.entries, c.now).size() == 2);
    CHECK(c.refusal(R"({"kind":"receive","by":"cd","place":"main","lot":"D9","doses":5,"expiry":"2027-09"})") ==
          Code::missing_field);
}

TEST_CASE("an expiry whose day and month were swapped disagrees with the lot's", "[everyday]") {
    Clinic c;
    c.post(R"({"kind":"receive","by":"cd","place":"main","product":"elm","lot":"S1","doses":5,"expiry":"2027-03-04"})");
    CHECK(c.refusal(R"({"kind":"receive","by":"cd","place":"main","lot":"S1","doses":5,"expiry":"2027-04-03"})") ==
          Code::contradiction);
    CHECK(c.message.find("\"S1\" is known with \"2027-03-04\": read the label again") != std::string::npos);
    CHECK(
        c.refusal(
            R"({"kind":"receive","by":"cd","place":"main","product":"elm","lot":"S2","doses":5,)"
            R"("expiry":"2027-31-03"})") ==
        Code::bad_value);
}

TEST_CASE("a lot is used through the last day of its month, and warned of from the next", "[everyday]") {
    Clinic c;
    c.now = local("2026-06-30T23:59:59");
    const auto early = c.draft(R"({"kind":"give","by":"cd","lot":"AO1","patient":"t-1"})").warnings;
    REQUIRE(early.size() == 1);  // of the place alone
    CHECK(english().say(early[0]).starts_with("NOTHING WAS READ in \"main\" for "));
    CHECK(early[0].code() == "nothing-was-read");
    c.now = local("2026-07-01T00:00:00");
    CHECK(says(c.draft(R"({"kind":"give","by":"cd","lot":"AO1","patient":"t-1"})").warnings, "NOT ON KEEP"));
    CHECK(says(c.draft(R"({"kind":"give","by":"cd","lot":"AO1","patient":"t-1"})").warnings, "(expired)"));
}

TEST_CASE("a minimum below freezing does not pass without a word", "[everyday]") {
    Clinic c;
    const std::string check = R"({"kind":"check","by":"cd","place":"main","temperature":"3.5","max":"5",)";
    CHECK(c.refusal(check + R"("min":"-0.5"})") == Code::missing_field);
    CHECK(c.refusal(check + R"("min":"0"})") == Code::missing_field);
    const Drafted d = c.draft(check + R"("min":"-0.5","note":"doses marked, supervisor told"})");
    CHECK(says(d.warnings, "FREEZING"));
    CHECK(says(d.next_steps, "none is used before its manufacturer has answered"));
    CHECK(says(d.filled, "scale C"));
    const Drafted cold = c.draft(check + R"("min":"0.1"})");
    CHECK(says(cold.warnings, "ACT NOW: minimum 0.1 °C is below the range of \"main\", 2 to 8 °C"));
    CHECK_FALSE(says(cold.warnings, "FREEZING"));
    const auto codes = [](const Drafted& of) {
        std::vector<std::string_view> out;
        for (const Remark& step : of.next_steps) out.push_back(step.code());
        return out;
    };
    using Codes = std::vector<std::string_view>;
    CHECK(codes(cold) == Codes{"mark-the-doses", "look-and-move", "read-the-logger", "tell-the-supervisor"});
    CHECK(codes(d) == Codes{"mark-the-doses", "freezing-can-ruin", "look-and-move", "read-the-logger",
                            "tell-the-supervisor"});
    CHECK(has_code(cold.warnings, "act-now-below"));
    CHECK(has_code(d.warnings, "act-now-freezing"));
    CHECK(has_code(d.filled, "scale-of-check"));
    CHECK(c.draft(check + R"("min":"2"})").next_steps.empty());
    CHECK(c.draft(R"({"kind":"check","by":"cd","place":"cold","scale":"C","temperature":"-20"})").warnings.empty());
    CHECK(c.refusal(R"({"kind":"check","by":"cd","place":"cold","temperature":"-20"})") ==
          Code::ambiguous);  // nothing says in which scale
    // and what was posted is on the lists: from 09:00 on all of it may have been at -0.5 °C
    c.post(check + R"("min":"-0.5","note":"doses marked, supervisor told"})");
    for (const auto& row : c.ledger.lists({}, c.now).holdings)
        if (row.holding.place == "main") CHECK(row.list == List::quarantine);
}

TEST_CASE("doses left on the counter", "[everyday]") {
    Clinic c;
    const Drafted d = c.draft(R"({"kind":"move","by":"cd","lot":"AO1","to":{"place":"counter"},"at":"09:30"})");
    CHECK(says(d.filled, "doses 10"));
    CHECK(says(d.warnings, "no logger is in \"counter\""));
    c.ledger.post(d.entries, c.now);
    c.now = local("2026-07-02T09:00:00");  // found more than a day later: nothing more is to be awaited
    bool seen = false;
    for (const auto& row : c.ledger.lists({}, c.now).holdings)
        if (row.holding.place == "counter") {
            seen = true;
            CHECK(std::find(row.reasons.begin(), row.reasons.end(), Reason::unmonitored) != row.reasons.end());
        }
    CHECK(seen);
}

TEST_CASE("a place that does not suit, and doses that join others", "[everyday]") {
    Clinic c;
    CHECK(says(c.draft(R"({"kind":"move","by":"cd","lot":"F1","to":{"place":"box"}})").warnings,
               "counts against its allowance of 10 d"));
    CHECK(
        says(c.draft(R"({"kind":"move","by":"cd","lot":"AO1","to":{"place":"cold"},"note":"the wrong door"})").warnings,
             "does not suit"));
    CHECK(says(c.draft(R"({"kind":"move","by":"cd","lot":"B7","from":{"place":"box"},"to":{"place":"main"}})").warnings,
               "joins 5 doses"));
    const Drafted apart = c.draft(
        R"({"kind":"move","by":"cd","lot":"B7","from":{"place":"box"},"to":{"place":"main","mark":"from the box"}})");
    CHECK_FALSE(says(apart.warnings, "joins"));
    c.ledger.post(apart.entries, c.now);
    // a mark stays where nothing else is stated
    CHECK(std::get<Move>(
              c.draft(R"({"kind":"move","by":"cd","lot":"B7","from":{"mark":"from the box"},"to":{"place":"box"}})")
                  .entries[0]
                  .fact)
              .to_mark == "from the box");
}

TEST_CASE("while an alarm is going, taking doses from that unit or putting them into one is warned of", "[everyday]") {
    Clinic c;
    const std::string give = R"({"kind":"give","by":"cd","lot":"AO1","patient":"t-1"})";
    CHECK(c.draft(give).warnings.empty());
    c.post(R"({"kind":"incident","by":"cd","incident":"2026-1","step":"noticed","place":"main","text":"alarm"})");
    CHECK(says(c.draft(give).warnings, "incident 2026-1 is open; doses of this lot were in main in its time in doubt"));
    CHECK_FALSE(says(c.draft(R"({"kind":"give","by":"cd","lot":"F1","patient":"t-1"})").warnings, "incident"));
    c.post(R"({"kind":"incident","by":"cd","incident":"2026-1","step":"closed","text":"door pushed shut"})");
    CHECK(c.draft(give).warnings.empty());

    const std::string move = R"({"kind":"move","by":"cd","lot":"AO1","to":{"place":"box"}})";
    CHECK_FALSE(says(c.draft(move).warnings, "out of range"));
    c.post(R"({"kind":"check","by":"cd","at":"09:30","place":"box","scale":"C","temperature":"11.5"})");
    CHECK(
        says(c.draft(move).warnings, "the last that was read in \"box\" is out of range, 11.5 °C at 2026-06-30 09:30"));
    c.post(R"({"kind":"check","by":"cd","at":"09:45","place":"box","temperature":"7"})");
    CHECK_FALSE(says(c.draft(move).warnings, "out of range"));
    c.post(R"({"kind":"probe","by":"cd","probe":"b","scale":"F"})");
    c.post(R"({"kind":"assign","by":"cd","at":"09:00","probe":"b","place":"box"})");
    c.ledger.post(
        R"({"kind":"readings","by":"cd","probe":"b","scale":"F","rows":[["2026-06-30T09:46:00","45"],)"
        R"(["2026-06-30T09:50:00","52.5"]]})",
        c.now);
    CHECK(says(c.draft(move).warnings, "is out of range, 52.5 °F at 2026-06-30 09:50"));
    // a delivery, too, and from one mark to another nothing comes into the place
    CHECK(says(
        c.draft(R"({"kind":"receive","by":"cd","place":"box","product":"elm","lot":"AO1","doses":2})").warnings,
        "the last that was read in \"box\" is out of range, 52.5 °F at 2026-06-30 09:50: wait until it is in range"));
    CHECK_FALSE(
        says(c.draft(R"({"kind":"receive","by":"cd","place":"main","product":"elm","lot":"AO1","doses":2})").warnings,
             "is out of range"));
    CHECK_FALSE(says(
        c.draft(R"({"kind":"move","by":"cd","lot":"B7","product":"elm","from":{"place":"box"},"to":{"mark":"bin"}})")
            .warnings,
        "wait until it is in range"));
    // where the list of the doses says so itself, it is not said twice
    const Drafted there = c.draft(R"({"kind":"give","by":"cd","lot":"B7","place":"box","patient":"t-1"})");
    CHECK(says(there.warnings, "NOT ON KEEP"));
    CHECK_FALSE(says(there.warnings, "the last that was read"));
}

TEST_CASE("a temperature in the other scale, or beyond belief, is asked about", "[everyday]") {
    Clinic c;
    const auto check = [&](const char* degrees, const char* place = "main") {
        return c
            .draft(std::string(R"({"kind":"check","by":"cd","scale":"C","place":")") + place + R"(","temperature":")" +
                   degrees + "\"}")
            .warnings;
    };
    CHECK(says(check("39.9"), "temperature 39.9 would be in range in °F"));
    CHECK(says(check("500"), "is beyond what vaccines are ever kept at"));
    CHECK(says(check("-201", "cold"), "is beyond"));
    CHECK_FALSE(says(check("-196", "cold"), "is beyond"));
    const auto warm = check("12");
    CHECK(warm.size() == 1);  // out of range, and nothing else
}

TEST_CASE("the same thing noted twice is asked about", "[everyday]") {
    Clinic c;
    const std::string give = R"({"kind":"give","by":"cd","lot":"AO1","patient":"t-1","at":"09:10"})";
    const EntryNumber first = c.post(give);
    CHECK(says(c.draft(give).warnings,
               "entry " + std::to_string(first) + " gave the same patient of this lot at 2026-06-30 09:10 already"));
    CHECK(c.draft(R"({"kind":"give","by":"cd","lot":"AO1","patient":"t-2"})").warnings.empty());
    c.now = local("2026-07-01T00:00:00");
    CHECK_FALSE(
        says(c.draft(R"({"kind":"give","by":"cd","lot":"AO1","patient":"t-1"})").warnings, "already"));  // another day
    c.now = local("2026-06-30T10:00:00");
    c.post(R"({"kind":"void","by":"cd","voids":)" + std::to_string(first) + R"(,"reason":"twice"})");
    CHECK(c.draft(give).warnings.empty());

    CHECK(says(c.draft(R"({"kind":"check","by":"cd","place":"main","temperature":"5","at":"09:00"})").warnings,
               "is a check of \"main\" at that instant already"));
    CHECK(c.draft(R"({"kind":"check","by":"cd","place":"main","temperature":"5","at":"09:01"})").warnings.empty());
}

TEST_CASE("a step that is to be copied names the ledger and the place as words of a shell", "[everyday]") {
    Clinic c;
    c.post(
        R"({"kind":"place","by":"cd","place":"it's","name":"P","type":"refrigerator","range":{"low":{"C":"2"},)"
        R"("high":{"C":"8"}}})");
    CHECK(says(c.draft(R"({"kind":"check","by":"cd","place":"it's","scale":"C","temperature":"12"})").next_steps,
               "coldtally move-list " + c.ledger.path() + R"( 'it'\''s')"));
}

TEST_CASE("funds are not mixed by default", "[everyday]") {
    Clinic c;
    CHECK(c.draft(R"({"kind":"receive","by":"cd","place":"main","lot":"AO1","doses":5,"note":"new"})").entries.size() ==
          1);
    c.post(R"({"kind":"receive","by":"cd","place":"main","lot":"F1","doses":5,"fund":"state","note":"new"})");
    CHECK(c.refusal(R"({"kind":"receive","by":"cd","place":"main","lot":"AO1","doses":5,"note":"new"})") ==
          Code::ambiguous);
    CHECK(c.message.find("`--fund state`") != std::string::npos);
    // the way out, as each kind of reader would type it
    try {
        c.draft(R"({"kind":"receive","by":"cd","place":"main","lot":"AO1","doses":5,"note":"new"})");
        FAIL("was not refused");
    } catch (const WhichOne& e) {
        CHECK(e.asked().code() == "fund-not-stated");
        CHECK(e.choices().size() == 2);
        CHECK(std::string(e.what()).ends_with("`--fund state`; `--fund ''`: the empty fund"));
        CHECK(english_for_python().say(e.said()).ends_with("`fund='state'`; `fund=''`: the empty fund"));
    }
}

TEST_CASE("taking back shows what it changes, and changes nothing by showing", "[everyday]") {
    Clinic c;
    const EntryNumber hold = c.post(R"({"kind":"hold","by":"cd","lot":"AO1","place":"main","reason":"door"})");
    const EntryNumber give = c.post(R"({"kind":"give","by":"cd","lot":"AO1","patient":"t-1"})");
    CHECK(says(c.draft(R"({"kind":"give","by":"cd","lot":"AO1","patient":"t-2"})").warnings, "(held)"));

    const Drafted undo =
        c.draft(R"({"kind":"void","by":"cd","voids":)" + std::to_string(hold) + R"(,"reason":"other lot"})");
    const Changes changes = c.ledger.changes(undo.entries, c.now);
    REQUIRE(changes.holdings.size() == 1);
    CHECK(changes.holdings[0].holding.lot == "AO1");
    CHECK(changes.holdings[0].before->list == List::quarantine);
    CHECK(changes.holdings[0].after->list == List::keep);
    REQUIRE(changes.doses.size() == 1);
    CHECK(changes.doses[0].entry == give);
    CHECK(*changes.doses[0].before == Finding::pending_guidance);
    CHECK(*changes.doses[0].after == Finding::clear);
    CHECK(c.ledger.review({}, c.now).doses.size() == 1);  // nothing was written

    const Changes ungiven = c.ledger.changes(
        c.draft(R"({"kind":"void","by":"cd","voids":)" + std::to_string(give) + R"(,"reason":"not given"})").entries,
        c.now);
    REQUIRE(ungiven.doses.size() == 1);
    CHECK_FALSE(ungiven.doses[0].after);
    REQUIRE(ungiven.holdings.size() == 1);
    CHECK(ungiven.holdings[0].after->doses == Doses(10));
}

TEST_CASE("taking back a batch of readings says how many they are", "[everyday]") {
    Clinic c;
    const auto batch = c.ledger
                           .post(R"({"kind":"probe","by":"ab","probe":"q","scale":"C"}
{"kind":"readings","by":"ab","probe":"q","scale":"C","rows":[)"
        R"(["2026-06-30T05:00:00Z","4"],["2026-06-30T05:30:00Z","4.5"],["2026-06-30T06:00:00Z","5"]]})",
                                 c.now)
                           .back();
    const Drafted undo =
        c.draft(R"({"kind":"void","by":"cd","voids":)" + std::to_string(batch) + R"(,"reason":"another unit's file"})");
    CHECK(says(undo.filled, "entry " + std::to_string(batch) + ": 3 readings of probe q"));
    CHECK_FALSE(says(undo.filled, "0 readings"));
}

TEST_CASE("refrigerated doses do not go into a freezer without a word", "[everyday]") {
    Clinic c;
    const std::string move = R"({"kind":"move","by":"cd","lot":"AO1","to":{"place":"cold"})";
    CHECK(c.refusal(move + "}") == Code::missing_field);
    CHECK(c.message.find("note: must say why: \"cold\" (at most -15 °C) FREEZES \"elm\" (2 to 8 °C)") == 0);
    CHECK(says(c.draft(move + R"(,"note":"out of power, no other unit"})").warnings,
               "FREEZES: \"cold\" (at most -15 °C) does not suit \"elm\" (2 to 8 °C): freezing can ruin doses that "
               "look as they always did"));
    const std::string receive = R"({"kind":"receive","by":"cd","place":"cold","lot":"AO1","doses":5)";
    CHECK(c.refusal(receive + "}") == Code::missing_field);
    CHECK(says(c.draft(receive + R"(,"note":"so it was found"})").warnings, "FREEZES"));
    CHECK_FALSE(
        says(c.draft(R"({"kind":"receive","by":"cd","place":"cold","lot":"F1","doses":5})").warnings, "FREEZES"));
    // a mark in the freezer moves nothing
    c.post(receive + R"(,"note":"so it was found","at":"09:30"})");
    CHECK(c.draft(R"({"kind":"move","by":"cd","lot":"AO1","from":{"place":"cold"},"to":{"mark":"DO NOT USE"}})")
              .entries.size() == 1);

    // the freeze limit, where the product states one, and to the tenth of a degree
    c.post(
        R"({"kind":"product","by":"ab","product":"ash","name":"Ash, invented","range":{"high":{"C":"25"}},)"
        R"("freeze_limit":{"C":"-0.5"},"note":"n"})");
    c.post(R"({"kind":"lot","by":"ab","product":"ash","lot":"S1","expiry":"2027-01"})");
    for (const auto& [high, freezes] : {std::pair("-0.4", false), std::pair("-0.5", true)}) {
        c.post(
            R"({"kind":"place","by":"ab","place":"chest","name":"Chest","type":"freezer","note":"n",)"
            R"("range":{"low":{"C":"-2"},"high":{"C":")" +
            std::string(high) + "\"}}}");
        CHECK_FALSE(says(c.draft(R"({"kind":"receive","by":"cd","place":"chest","lot":"S1","doses":5})").warnings,
                         "FREEZES"));  // within the product's own range
    }
    c.post(R"({"kind":"product","by":"ab","product":"ash","name":"Ash, invented",)"
           R"("range":{"low":{"C":"-0.1"},"high":{"C":"25"}},"freeze_limit":{"C":"-0.5"},"note":"n"})");
    for (const auto& [high, freezes] : {std::pair("-0.4", false), std::pair("-0.5", true)}) {
        CAPTURE(high);
        c.post(
            R"({"kind":"place","by":"ab","place":"chest","name":"Chest","type":"freezer","note":"n",)"
            R"("range":{"low":{"C":"-2"},"high":{"C":")" +
            std::string(high) + "\"}}}");
        CHECK(says(c.draft(R"({"kind":"receive","by":"cd","place":"chest","lot":"S1","doses":5,"note":"n"})").warnings,
                   "FREEZES") == freezes);
    }
}

TEST_CASE("a whole place is held, lot by lot", "[everyday]") {
    Clinic c;
    c.post(
        R"({"kind":"move","by":"cd","lot":"B7","from":{"place":"main"},"to":{"mark":"bin 2"},"doses":2,"at":"09:30"})");
    const Drafted d = c.draft(R"({"kind":"hold","by":"cd","place":"main","reason":"door open"})");
    REQUIRE(d.entries.size() == 2);
    std::vector<std::string> held;
    for (const auto& e : d.entries) {
        const Hold& h = std::get<Hold>(e.fact);
        held.push_back(h.product + " " + *h.lot + " " + *h.place);
        CHECK_FALSE(h.mark);
        CHECK(h.reason == "door open");
    }
    CHECK(held == std::vector<std::string>{"elm AO1 main", "elm B7 main"});  // B7 once, under both marks
    CHECK(says(d.filled, "all that is in \"main\": 2 lots"));
    c.ledger.post(d.entries, c.now);
    int on_hold = 0;
    for (const auto& row : c.ledger.lists({}, c.now).holdings) {
        const bool is_held = std::find(row.reasons.begin(), row.reasons.end(), Reason::held) != row.reasons.end();
        CHECK(is_held == (row.holding.place == "main"));
        on_hold += is_held;
    }
    CHECK(on_hold == 3);
    CHECK(c.draft(R"({"kind":"hold","by":"cd","place":"main","mark":"bin 2","reason":"door open"})").entries.size() ==
          1);
    CHECK(c.refusal(R"({"kind":"hold","by":"cd","place":"counter","reason":"door open"})") == Code::not_there);
    CHECK(c.message.find("place: \"counter\": no doses are in it at 2026-06-30 10:00") == 0);
    CHECK(c.refusal(R"({"kind":"hold","by":"cd","place":"main","reason":"door open","at":"07:30"})") ==
          Code::not_there);  // they came at 08:00
    CHECK(c.refusal(R"({"kind":"hold","by":"cd","place":"nowhere","reason":"door open"})") == Code::not_known);
}

TEST_CASE("what acts on doses that never were there is asked about", "[everyday]") {
    Clinic c;
    const auto warnings = [&](const char* rest) {
        return c.draft(R"({"by":"cd",)" + std::string(rest) + "}").warnings;
    };
    CHECK(says(warnings(R"("kind":"hold","lot":"AO1","place":"box","reason":"door")"),
               "no doses of \"elm\" lot \"AO1\" in \"box\" are or were known: it holds none now"));
    CHECK(says(warnings(R"("kind":"hold","lot":"AO1","mark":"bin 3","reason":"door")"), "mark \"bin 3\""));
    CHECK(says(warnings(R"("kind":"hold","product":"fir","place":"main","reason":"door")"),
               "no doses of \"fir\" in \"main\""));
    CHECK_FALSE(says(warnings(R"("kind":"hold","lot":"AO1","place":"main","reason":"door")"), "are or were known"));
    const std::string guidance =
        R"("kind":"guidance","lot":"AO1","verdict":"use","through":"09:00","issuer":"i","reference":"r","place":)";
    CHECK(says(warnings((guidance + "\"box\"").c_str()), "it judges none"));
    CHECK_FALSE(says(warnings((guidance + "\"main\"").c_str()), "it judges none"));
    c.post(
        R"({"kind":"move","by":"cd","lot":"AO1","to":{"place":"box"},"at":"09:30"})");  // all of it: doses were in main
    CHECK_FALSE(says(warnings(R"("kind":"hold","lot":"AO1","place":"main","reason":"door")"), "are or were known"));

    CHECK(says(
        warnings(R"("kind":"beyond-use","lot":"AO1","use_by":"2026-06-30")"),
        "changes nothing: these doses are usable no longer than that as it is, through 2026-06-30, the expiry"));
    CHECK(warnings(R"("kind":"beyond-use","lot":"AO1","use_by":"2026-06-29")").empty());
    CHECK(says(warnings(R"("kind":"lot","product":"elm","lot":"N1","expiry":"2036-07-01")"),
               "would expire on 2036-07-01, more than ten years from now: read the year again"));
    CHECK(warnings(R"("kind":"lot","product":"elm","lot":"N1","expiry":"2036-06-30")").empty());
}

TEST_CASE("equal movements, and those dated before a count, are asked about", "[everyday]") {
    Clinic c;
    for (
        const char* json :
        {R"({"kind":"waste","by":"cd","lot":"AO1","doses":1,"reason":"dropped","at":"09:10"})",
         R"({"kind":"return","by":"cd","lot":"AO1","doses":1,"reason":"r","at":"09:10"})",
         R"({"kind":"transfer","by":"cd","lot":"AO1","doses":1,"reason":"r","to":"elsewhere","at":"09:10"})",
         R"({"kind":"receive","by":"cd","place":"main","lot":"AO1","doses":1,"at":"09:10"})",
         R"({"kind":"move","by":"cd","lot":"AO1","from":{"place":"main"},"to":{"place":"counter"},"doses":1,)"
         R"("at":"09:10"})"}) {
        CAPTURE(json);
        CHECK_FALSE(says(c.draft(json).warnings, "is the same"));
        const EntryNumber n = c.post(json);
        CHECK(says(c.draft(json).warnings, "entry " + std::to_string(n) + " is the same, at the same instant"));
        c.post(R"({"kind":"void","by":"cd","voids":)" + std::to_string(n) + R"(,"reason":"twice"})");
        CHECK_FALSE(says(c.draft(json).warnings, "is the same"));
    }
    c.post(R"({"kind":"waste","by":"cd","lot":"AO1","doses":1,"reason":"dropped","at":"09:10"})");
    CHECK_FALSE(
        says(c.draft(R"({"kind":"waste","by":"cd","lot":"AO1","doses":2,"reason":"dropped","at":"09:10"})").warnings,
             "is the same"));
    CHECK_FALSE(
        says(c.draft(R"({"kind":"waste","by":"cd","lot":"AO1","doses":1,"reason":"dropped","at":"09:11"})").warnings,
             "is the same"));

    const EntryNumber count = c.post(R"({"kind":"count","by":"cd","lot":"AO1","doses":9,"at":"09:20"})");
    c.post(R"({"kind":"count","by":"cd","lot":"AO1","doses":9,"at":"09:40"})");
    const std::string says_so =
        "entry " + std::to_string(count) +
        " counted lot \"AO1\" later, at 2026-06-30 09:20: its count then shows another difference";
    const auto give = [&](const char* at) {
        return c.draft(R"({"kind":"give","by":"cd","lot":"AO1","patient":"t-1","at":")" + std::string(at) + "\"}")
            .warnings;
    };
    CHECK(english().say(give("09:15")) == std::vector<std::string>{says_so});  // and nothing of the second count
    CHECK(says(give("09:20"), "later, at 2026-06-30 09:40"));  // of the same instant the later entry comes later
    CHECK(give("09:40").empty());
    CHECK(says(c.draft(R"({"kind":"receive","by":"cd","place":"main","lot":"AO1","doses":1,"at":"09:15"})").warnings,
               says_so));
    CHECK(says(c.draft(R"({"kind":"count","by":"cd","lot":"AO1","doses":9,"at":"09:15"})").warnings, says_so));
    CHECK_FALSE(
        says(c.draft(R"({"kind":"receive","by":"cd","place":"box","lot":"AO1","doses":1,"at":"09:15"})").warnings,
             "another difference"));
}

TEST_CASE("a number at or below freezing that is of the other scale says so", "[everyday]") {
    Clinic c;
    c.post(
        R"({"kind":"place","by":"ab","place":"annex","name":"Annex","type":"refrigerator","range":{"low":{"C":"2",)"
        R"("F":"36"},"high":{"C":"8","F":"46"}}})");
    CHECK(c.refusal(R"({"kind":"check","by":"cd","place":"annex","scale":"F","temperature":"4"})") ==
          Code::missing_field);
    CHECK(c.message.find("is at or below freezing; 4 would be in range in °C: state the scale, 4C. ") !=
          std::string::npos);
    CHECK(c.refusal(R"({"kind":"check","by":"cd","place":"annex","scale":"F","temperature":"9"})") ==
          Code::missing_field);
    CHECK(c.message.find("would be in range") == std::string::npos);
}

TEST_CASE("a probe put into a place says what certificate there was", "[everyday]") {
    Clinic c;
    c.post(R"({"kind":"probe","by":"ab","probe":"p","scale":"C"})");
    CHECK(says(c.draft(R"({"kind":"assign","by":"ab","probe":"p","place":"main","at":"09:00"})").warnings,
               "probe \"p\" has no certificate"));
    c.post(R"({"kind":"certificate","by":"ab","probe":"p","expires":"2027-01-31","at":"09:30"})");
    CHECK(says(c.draft(R"({"kind":"assign","by":"ab","probe":"p","place":"main","at":"09:00"})").warnings,
               "has no certificate then; its first is of 2026-06-30"));
    CHECK(c.draft(R"({"kind":"assign","by":"ab","probe":"p","place":"main","at":"09:30"})").warnings.empty());
}
