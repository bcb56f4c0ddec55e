// Entries that let doses be used that could not be, or for longer, or leave less behind them, are asked about; those of
// every day are not. All data invented.
#include <catch2/catch.hpp>

#include "coldtally/entry_work.hpp"
#include "coldtally/incident_work.hpp"
#include "said.hpp"
#include "temporary.hpp"

using namespace coldtally;

namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }
std::string lines(const std::vector<Remark>& all) { return coldtally::tests::said_as_one(all, "\n"); }

/// A refrigerator "fr" with 20 doses of "oak" lot A1 (4 h from 8 to 25 °C) and 20 of "ash" lot B1 (none), another "ff".
struct Clinic {
    ::tests::TemporaryFile file;
    Ledger ledger{file.path(), Ledger::Mode::create};
    Instant now = Instant(0);

    Clinic() {
        at("2026-11-25T16:30:00");
        const std::string range = R"("range":{"low":{"C":"2","F":"36"},"high":{"C":"8","F":"46"}})";
        post(R"({"kind":"site","name":"Invented","zone":"Etc/UTC"})");
        post(
            R"({"kind":"product","product":"oak","name":"Oak",)" + range +
            R"(,"freeze_limit":{"C":"0","F":"32"},"allowances":[{"band":{"low":{"C":"8","F":"46"},"high":{"C":"25",)"
            R"("F":"77"}},"seconds":14400,"source":"invented"}],"beyond_use":{"mixed":21600}})");
        post(R"({"kind":"product","product":"ash","name":"Ash",)" + range + "}");
        for (const char* place : {"fr", "ff"})
            post(R"({"kind":"place","place":")" + std::string(place) + R"(","name":"R","type":"refrigerator",)" +
                 range + "}");
        for (const char* lot : {R"("oak","lot":"A1")", R"("ash","lot":"B1")"}) {
            post(R"({"kind":"lot","expiry":"2027-06","product":)" + std::string(lot) + "}");
            post(R"({"kind":"receive","at":"2026-11-25T16:00:00","place":"fr","doses":20,"product":)" +
                 std::string(lot) + "}");
        }
    }
    void at(const char* text) { now = parse_instant(text, Zone("Etc/UTC")); }
    /// Of one entry, whose initials are left out.
    std::vector<Remark> post(const std::string& json) {
        std::vector<Remark> warnings;
        ledger.post(json.substr(0, json.size() - 1) + R"(,"by":"ab"})", now, false, &warnings);
        return warnings;
    }
    static std::string check(const char* time, const char* degrees, const char* min = nullptr,
                             const char* max = nullptr) {
        return R"({"kind":"check","place":"fr","scale":"C","at":"2026-11-)" + std::string(time) +
               R"(:00","temperature":")" + degrees + "\"" +
               (min ? R"(,"min":")" + std::string(min) + R"(","max":")" + max + "\"" : "") + "}";
    }
    /// 4 to 6 °C twice a day, 20 °C in the night to the 27th.
    void warm_night() {
        at("2026-11-27T09:30:00");
        for (const char* time : {"25T16:00", "26T08:00", "26T16:00"}) post(check(time, "5", "4", "6"));
        post(check("27T09:00", "5", "4", "20"));
    }
    Drafted drafted(const std::string& json) {
        return ledger.draft(json.substr(0, json.size() - 1) + R"(,"by":"ab"})", now);
    }
    DefinitionDraft draft(const std::string& json) { return entry_draft(ledger, drafted(json), now); }
    std::string warned(const std::string& json) { return lines(draft(json).drafted.warnings); }
    void notice(const char* place, const char* time) {
        StepRequest request;
        request.step = IncidentStep::noticed, request.text = "warm", request.by = "ab", request.place = place;
        Drafted steps = step_draft(ledger, request, parse_instant(time, Zone("Etc/UTC")), now);
        ledger.post(steps, now);
    }
    /// What is asked; nothing is written by that.
    std::string asked(const std::string& json) {
        const DefinitionDraft d = draft(json);
        CHECK_NOTHROW(ask_before_loosening(d, true));
        if (!d.loosens.empty()) CHECK_THROWS_AS(ask_before_loosening(d, false), Error);
        return coldtally::tests::said_as_one(d.loosens);
    }
    List list(const char* lot) {
        for (const auto& row : ledger.lists({}, now).holdings)
            if (row.holding.lot == lot) return row.list;
        throw std::runtime_error("no such lot");
    }
    LoggerFile logger(const char* degrees, int minutes) {
        std::string text = "instant,temperature\n";
        for (int m = 0; m <= minutes; m += 5)
            text += (parse_instant("2026-11-27T07:00:00", Zone("Etc/UTC")) + Duration(60 * m)).text() + "," + degrees +
                    "\n";
        return {"memory.csv", text};
    }
    ImportRequest import_of(bool loosen) {
        ImportRequest out;
        out.probe = "q1";
        out.by = "ab";
        out.accept_guesses = true;
        out.loosen = loosen;
        return out;
    }
};

}  // namespace

TEST_CASE("a late check that shortens what a display has seen is asked about", "[loosening]") {
    Clinic c;
    c.warm_night();
    c.post(R"({"kind":"give","at":"2026-11-27T09:20:00","place":"fr","product":"oak","lot":"A1","patient":"t-1"})");
    REQUIRE(c.list("A1") == List::quarantine);
    const std::string late = c.asked(Clinic::check("27T08:00", "5"));
    CHECK(has(
        late,
        R"(19 doses would come off a list of what must not be used: "oak" lot "A1" in "fr" (19, )"
        R"(quarantine-pending-guidance -> keep))"));
    CHECK(has(late, R"("ash" lot "B1" in "fr" (too warm 17 h, at most 17 h -> 1 h, at most 1 h))"));
    CHECK(has(late, "1 give would come off the review list"));
    CHECK(has(late, R"(of 1 excursion recorded in "fr" 0 vanish and 1 is shortened)"));
    CHECK(c.list("A1") == List::quarantine);
    // one that takes nothing away is not
    CHECK(c.asked(Clinic::check("26T12:00", "5", "4", "6")) == "");
}

TEST_CASE("of two checks in one minute the second is asked about where it takes the first away", "[loosening]") {
    Clinic c;
    c.at("2026-11-25T18:30:00");
    c.post(Clinic::check("25T16:00", "5", "4", "6"));
    c.post(Clinic::check("25T18:20", "12"));
    REQUIRE(c.list("B1") == List::quarantine);
    CHECK(has(c.asked(Clinic::check("25T18:20", "5")), "LOOSENS: 20 doses would come off"));
    // so is one that comes with a packing
    c.post(
        R"({"kind":"place","place":"box","name":"B","type":"transport container","range":{"low":{"C":"2","F":"36"},)"
        R"("high":{"C":"8","F":"46"}}})");
    PackRequest pack;
    pack.place = "fr", pack.container = "box", pack.destination = "elsewhere", pack.by = "ab";
    pack.at = "2026-11-25 18:20", pack.place_temperature = "5C", pack.container_temperature = "5C";
    CHECK(coldtally::tests::has_code(entry_draft(c.ledger, c.ledger.pack(pack, c.now), c.now).loosens, "loosens"));
}

TEST_CASE("of many gives the first twenty are named, and how many more there are", "[loosening]") {
    Clinic c;
    c.post(R"({"kind":"receive","at":"2026-11-25T16:10:00","place":"fr","doses":10,"product":"oak","lot":"A1"})");
    c.warm_night();
    const auto last = c.ledger.stock({}, c.now).head.last_entry;
    const auto give = [&](int i) {
        c.post(R"({"kind":"give","at":"2026-11-27T09:20:00","place":"fr","product":"oak","lot":"A1","patient":"t-)" +
               std::to_string(i) + "\"}");
    };
    for (int i = 1; i <= 20; ++i) give(i);
    const std::string late = Clinic::check("27T08:00", "5"), nth = std::to_string(last + 20);
    const std::string all = c.asked(late);
    CHECK(has(all, "20 gives would come off the review list: entries " + std::to_string(last + 1) + ", "));
    CHECK(has(all, ", " + nth + "; "));
    CHECK(!has(all, " more"));
    for (int i = 21; i <= 23; ++i) give(i);
    const std::string most = c.asked(late);
    CHECK(has(most, "23 gives would come off the review list: entries " + std::to_string(last + 1) + ", "));
    CHECK(has(most, ", " + nth + " and 3 more"));
    CHECK(!has(most, ", " + std::to_string(last + 21)));
}

TEST_CASE("what shows something worse says which list, and what is new on it", "[loosening]") {
    Clinic c;
    c.at("2026-11-27T10:05:00");
    c.post(R"({"kind":"probe","probe":"q1","scale":"C"})");
    c.post(R"({"kind":"assign","at":"2026-11-27T07:00:00","probe":"q1","place":"fr"})");
    c.post(Clinic::check("25T16:00", "5", "4", "6"));
    c.post(R"({"kind":"hold","at":"2026-11-25T17:00:00","reason":"display","product":"oak","lot":"A1","place":"fr"})");
    REQUIRE(c.list("A1") == List::quarantine);
    const auto report = c.ledger.import_readings(c.import_of(true), {c.logger("20", 180)}, c.now);
    const std::string said = lines(report.warnings);
    CHECK(has(said, "WORSE NOW: these doses come on a list of what must not be used, or have one more reason not to be "
                    "used: "));
    CHECK(has(said, R"("ash" lot "B1" in "fr" (20, still on quarantine-pending-guidance; new: warm)"));
}

TEST_CASE("the checks of every day ask nothing and look at nothing", "[loosening]") {
    Clinic c;
    c.at("2026-11-26T08:05:00");
    c.post(Clinic::check("25T16:00", "5", "4", "6"));
    const auto none = [&](const std::string& json) { return !c.ledger.loosening(c.drafted(json).entries, c.now); };
    CHECK(none(Clinic::check("26T08:00", "5", "4", "6")));
    CHECK(none(Clinic::check("26T08:00", "5")));
    CHECK(none(Clinic::check("26T08:00", "12", "4", "13")));
    CHECK(c.warned(Clinic::check("26T08:00", "5", "4", "6")) == "");
    CHECK(none(R"({"kind":"give","at":"2026-11-26T08:01:00","lot":"A1","patient":"t-1"})"));
    CHECK(none(R"({"kind":"move","at":"2026-11-26T08:01:00","lot":"A1","to":{"place":"ff"}})"));
}

TEST_CASE("what is known after a weekend is said and not asked", "[loosening]") {
    Clinic c;
    c.post(Clinic::check("25T16:00", "5", "4", "6"));
    c.at("2026-11-28T08:05:00");
    REQUIRE(c.list("A1") == List::quarantine);
    const DefinitionDraft d = c.draft(Clinic::check("28T08:00", "5", "4", "6"));
    CHECK(d.loosens.empty());
    REQUIRE(!d.drafted.warnings.empty());
    CHECK(d.drafted.warnings.front().code() == "known-now");
    CHECK(has(english().say(d.drafted.warnings.front()),
              "KNOWN NOW: 40 doses come off a list of what must not be used"));
    // a check that somebody remembers afterwards is asked about
    c.post(Clinic::check("28T08:02", "5"));
    REQUIRE(c.list("A1") == List::quarantine);
    CHECK(has(c.asked(Clinic::check("28T08:00", "5", "4", "6")), "40 doses would come off a list"));
}

TEST_CASE("a check says since when its maximum can be where a glance came between", "[loosening]") {
    Clinic c;
    c.at("2026-11-27T08:10:00");
    for (const char* time : {"25T16:00", "26T16:00"}) c.post(Clinic::check(time, "5", "4", "6"));
    c.post(Clinic::check("27T08:00", "5"));
    const std::string said = c.warned(Clinic::check("27T08:05", "5", "4", "20"));
    CHECK(has(said, "THE DISPLAY MAY HAVE SEEN IT EARLIER"));
    CHECK(has(said, "since the last check that states them, that of 2026-11-26 16:00"));
    CHECK(c.warned(Clinic::check("27T08:05", "5", "4", "6")) == "");  // nothing was out of range
    c.post(Clinic::check("27T08:02", "5", "4", "6"));
    CHECK(!has(c.warned(Clinic::check("27T08:05", "5", "4", "20")), "EARLIER"));
}

TEST_CASE("a logger's file that disagrees with a display is asked about, and nothing is released by it",
          "[loosening]") {
    Clinic c;
    c.at("2026-11-27T10:05:00");
    c.post(R"({"kind":"probe","probe":"q1","scale":"C"})");
    c.post(R"({"kind":"assign","at":"2026-11-27T07:00:00","probe":"q1","place":"fr"})");
    for (const char* time : {"25T16:00", "26T07:00", "27T07:00"}) c.post(Clinic::check(time, "5", "4", "6"));
    c.post(Clinic::check("27T10:00", "5", "4", "20"));
    REQUIRE(c.list("B1") == List::quarantine);
    const auto before = c.ledger.stock({}, c.now).head.last_entry;
    try {
        c.ledger.import_readings(c.import_of(false), {c.logger("5.0", 180)}, c.now);
        FAIL("it was posted");
    } catch (const Refusal& e) {
        CHECK(e.code() == Code::missing_field);
        CHECK(e.said().code() == "import-loosens");
        CHECK(has(e.what(), R"(20 doses would come off a list of what must not be used: "ash" lot "B1")"));
        CHECK(has(
            e.what(),
            R"(DISAGREE: in "fr" the check of entry 15 says maximum 20 °C between 2026-11-27 07:00 and 2026-11-27 )"
            R"(10:00)"));
        CHECK(has(e.what(), "is 5 °C in that time"));
        CHECK(has(e.what(), R"(of 1 excursion recorded in "fr" 1 vanishes)"));
    }
    CHECK(c.ledger.stock({}, c.now).head.last_entry == before);

    c.notice("fr", "2026-11-27T10:05:00");
    const auto report = c.ledger.import_readings(c.import_of(true), {c.logger("5.0", 180)}, c.now);
    CHECK(has(lines(report.warnings), "DISAGREE: "));
    CHECK(coldtally::tests::has_code(report.warnings, "devices-disagree"));
    c.at("2026-11-27T10:40:00");
    c.post(Clinic::check("27T10:30", "5", "4", "6"));
    StepRequest close;
    close.incident = "2026-1", close.step = IncidentStep::closed, close.text = "nothing was wrong", close.by = "ab";
    close.release = true;
    CHECK_THROWS_WITH(step_draft(c.ledger, close, c.now, c.now),
                      Catch::Contains("DISAGREE: ") && Catch::Contains("minimum or maximum"));
}

TEST_CASE("a logger's file that shows something worse says whose doses, and which patients'", "[loosening]") {
    Clinic c;
    c.at("2026-11-27T07:10:00");
    c.post(Clinic::check("25T16:00", "5", "4", "6"));
    c.post(Clinic::check("26T08:00", "5", "4", "6"));
    c.post(Clinic::check("26T16:00", "5", "4", "6"));
    c.post(Clinic::check("27T07:00", "5", "4", "6"));
    c.post(R"({"kind":"probe","probe":"q1","scale":"C"})");
    c.post(R"({"kind":"assign","at":"2026-11-27T06:00:00","probe":"q1","place":"fr"})");
    c.at("2026-11-27T08:30:00");
    c.post(R"({"kind":"give","at":"2026-11-27T07:50:00","place":"fr","product":"ash","lot":"B1","patient":"t-1"})");
    const EntryNumber give = c.ledger.stock({}, c.now).head.last_entry;
    for (const bool dry_run : {true, false}) {
        const ImportReport got = c.ledger.import_readings(c.import_of(false), {c.logger("12", 60)}, c.now, dry_run);
        const std::string said = lines(got.warnings);
        CHECK(coldtally::tests::has_code(got.warnings, "doses-worse-now"));
        CHECK(coldtally::tests::has_code(got.warnings, "gives-worse-now"));
        CHECK(has(said, R"("ash" lot "B1" in "fr" (19, keep -> quarantine-pending-guidance for warm, point)"));
        CHECK(has(said, "WORSE NOW: 1 give comes on the review list, to a worse finding or one more reason, or was "
                        "further out of range: entry " +
                            std::to_string(give) + " (clear -> pending guidance; new: warm, point; highest "));
    }
    CHECK(c.list("B1") == List::quarantine);
    // in range: nothing is worse, and nothing is said
    Clinic d;
    d.at("2026-11-27T08:30:00");
    d.post(Clinic::check("27T07:00", "5", "4", "6"));
    d.post(R"({"kind":"probe","probe":"q1","scale":"C"})");
    d.post(R"({"kind":"assign","at":"2026-11-27T06:00:00","probe":"q1","place":"fr"})");
    CHECK_FALSE(has(lines(d.ledger.import_readings(d.import_of(false), {d.logger("5", 60)}, d.now).warnings),
                    "WORSE NOW"));
}

TEST_CASE("taking back a transfer of doses that were exposed asks, since nobody would be told any more",
          "[loosening]") {
    Clinic c;
    c.warm_night();
    c.post(
        R"({"kind":"transfer","at":"2026-11-27T09:10:00","place":"fr","product":"ash","lot":"B1","doses":4,)"
        R"("to":"Tarn Street","reason":"need"})");
    const EntryNumber sent = c.ledger.stock({}, c.now).head.last_entry;
    CHECK(has(c.asked(R"({"kind":"void","voids":)" + std::to_string(sent) + R"(,"reason":"not sent"})"),
              "4 doses of ash lot B1 would not have left for Tarn Street, which would be told no more"));
}

TEST_CASE("a certificate of an earlier day asks where readings are known that it would make certified", "[loosening]") {
    Clinic c;
    c.at("2026-11-27T08:30:00");
    c.post(R"({"kind":"probe","probe":"q1","scale":"C"})");
    c.post(R"({"kind":"assign","at":"2026-11-27T06:00:00","probe":"q1","place":"fr"})");
    const auto certificate = [](const char* time) {
        return R"({"kind":"certificate","probe":"q1","tolerance":"0.5","expires":"2027-10-15","at":"2026-11-27T)" +
               std::string(time) + R"("})";
    };
    CHECK(c.asked(certificate("07:00:00")) == "");
    c.ledger.import_readings(c.import_of(true), {c.logger("5", 60)}, c.now);
    CHECK(has(c.asked(certificate("07:00:00")), "readings of probe \"q1\" from 2026-11-27 07:00 on, which are known"));
    CHECK(c.asked(certificate("08:20:00")) == "");
}

TEST_CASE("a logger's file that agrees is posted without a question", "[loosening]") {
    Clinic c;
    c.at("2026-11-27T10:05:00");
    c.post(R"({"kind":"probe","probe":"q1","scale":"C"})");
    c.post(R"({"kind":"assign","at":"2026-11-27T07:00:00","probe":"q1","place":"fr"})");
    for (const char* time : {"25T16:00", "26T07:00", "27T07:00", "27T10:00"})
        c.post(Clinic::check(time, "5", "4", "6"));
    const auto report = c.ledger.import_readings(c.import_of(false), {c.logger("5.0", 180)}, c.now);
    CHECK(report.warnings.empty());
    CHECK(report.files.front().rows_kept == 37);
}

TEST_CASE("doses that a late move takes past a hold or an excursion are asked about", "[loosening]") {
    Clinic c;
    c.at("2026-11-25T18:30:00");
    c.post(Clinic::check("25T16:00", "5", "4", "6"));
    c.post(R"({"kind":"hold","at":"2026-11-25T17:00:00","reason":"display","product":"oak","lot":"A1","place":"fr"})");
    const std::string move = R"({"kind":"move","at":"2026-11-25T16:50:00","lot":"A1","to":{"place":"ff","mark":"m"}})";
    CHECK(has(c.asked(move), R"("oak" lot "A1" (20, held)"));
    CHECK(c.asked(R"({"kind":"move","at":"2026-11-25T17:50:00","lot":"A1","to":{"place":"ff","mark":"m"}})") == "");
    c.post(Clinic::check("25T18:20", "12"));
    CHECK(has(c.asked(R"({"kind":"move","at":"2026-11-25T16:50:00","lot":"B1","to":{"place":"ff"}})"),
              R"("ash" lot "B1" (20, )"));
    // doses that were given before are another thing
    CHECK(c.asked(R"({"kind":"give","at":"2026-11-25T16:50:00","lot":"A1","patient":"t-1"})") == "");
}

TEST_CASE("what is received late into a place of which an incident was noticed since is put on hold", "[loosening]") {
    Clinic c;
    c.at("2026-11-25T18:30:00");
    c.post(Clinic::check("25T16:00", "5", "4", "6"));
    c.notice("ff", "2026-11-25T18:00:00");
    const std::string receive = R"({"kind":"receive","at":"2026-11-25T17:00:00","lot":"A1","place":"ff","doses":5})";
    DefinitionDraft d = c.draft(receive);
    CHECK(has(lines(d.drafted.warnings),
              R"(DO NOT USE: incident 2026-1 was noticed in "ff" at 2026-11-25 18:00)"));
    REQUIRE(d.drafted.entries.size() == 2);
    c.ledger.post(d.drafted, c.now);
    bool held = false;
    for (const auto& row : c.ledger.lists({}, c.now).holdings)
        if (row.holding.place == "ff") held = row.history.held_by.size() == 1;
    CHECK(held);
    const std::string why =
        R"({"kind":"receive","at":"2026-11-25T17:00:00","lot":"B1","place":"ff","doses":5,)"
        R"("no_hold":"never was in it"})";
    const Drafted left_off = c.drafted(why);
    CHECK(left_off.entries.size() == 1);
    CHECK(has(lines(left_off.warnings), "NOT PUT ON HOLD, because: never was in it"));
    CHECK(left_off.entries.front().note == "not put on hold: never was in it");
    // after the notice as ever
    CHECK(c.drafted(R"({"kind":"receive","at":"2026-11-25T18:10:00","lot":"A1","place":"ff","doses":5})")
              .entries.size() == 1);
}

TEST_CASE("a notice of the place itself holds what came late, also where the incident was noticed before elsewhere",
          "[loosening]") {
    Clinic c;
    c.at("2026-11-25T18:30:00");
    c.post(Clinic::check("25T16:00", "5", "4", "6"));
    const auto step = [](const char* what, const char* place, const char* time) {
        return R"({"kind":"incident","incident":"i9","text":"warm","step":")" + std::string(what) + R"(","place":")" +
               place + R"(","at":"2026-11-25T)" + time + R"("})";
    };
    c.post(step("noticed", "fr", "16:30:00"));
    c.post(step("noticed", "ff", "18:00:00"));
    const std::string receive = R"({"kind":"receive","at":"2026-11-25T17:00:00","lot":"A1","place":"ff",)"
                                R"("doses":5,"note":"another delivery"})";
    CHECK(has(c.warned(receive), R"(DO NOT USE: incident i9 was noticed in "ff" at 2026-11-25 18:00)"));
    c.post(step("closed", "ff", "18:10:00"));
    CHECK_FALSE(has(c.warned(receive), "DO NOT USE"));
    c.post(step("noticed", "fr", "18:20:00"));  // again, and it is of both
    CHECK(has(c.warned(receive), R"(DO NOT USE: incident i9 was noticed in "ff" at 2026-11-25 18:00)"));
}

TEST_CASE("a late move out of a place before an incident was noticed there is looked at, held or not", "[loosening]") {
    Clinic c;
    c.at("2026-11-25T18:30:00");
    c.post(Clinic::check("25T16:00", "5", "4", "6"));
    c.post(
        R"({"kind":"incident","incident":"i9","text":"warm","step":"noticed","place":"fr",)"
        R"("at":"2026-11-25T18:00:00"})");
    // doses in doubt and not on hold: by this move they would be in no doubt
    CHECK(has(c.asked(R"({"kind":"move","at":"2026-11-25T16:00:00","lot":"B1","to":{"place":"ff"}})"),
              R"("ash" lot "B1" (20)"));
}

TEST_CASE("a use-by that goes is asked about, though the list stays keep", "[loosening]") {
    Clinic c;
    c.at("2026-11-25T18:30:00");
    c.post(Clinic::check("25T16:00", "5", "4", "6"));
    c.post(
        R"({"kind":"beyond-use","at":"2026-11-25T17:00:00","product":"oak","lot":"A1","place":"fr","event":"mixed"})");
    Entry undo;
    undo.at = c.now;
    undo.by = "ab";
    undo.fact = Void{c.ledger.stock({}, c.now).head.last_entry, "typed twice"};
    const auto found = c.ledger.loosening({undo}, c.now);
    REQUIRE(found);
    CHECK(has(
        lines(found->asks),
        R"(20 doses would be usable for longer: "oak" lot "A1" in "fr" (20, )"
        R"(until 2026-11-25 23:00 -> through 2027-06-30))"));
    // a vial that was moved before it was opened
    CHECK(has(c.asked(R"({"kind":"move","at":"2026-11-25T16:50:00","lot":"A1","to":{"place":"ff"}})"),
              "usable for longer"));
}

TEST_CASE("doses that are moved and must not be used are said to be so where they come to", "[loosening]") {
    Clinic c;
    c.at("2026-11-25T18:30:00");
    c.post(Clinic::check("25T16:00", "5", "4", "6"));
    const std::string move = R"({"kind":"move","at":"2026-11-25T17:50:00","lot":"A1","to":{"place":"ff"}})";
    CHECK(!has(c.warned(move), "DO NOT USE"));
    c.post(R"({"kind":"hold","at":"2026-11-25T17:00:00","reason":"display","product":"oak","lot":"A1","place":"fr"})");
    CHECK(has(c.warned(move),
              R"(DO NOT USE: lot "A1" comes to "ff" as it is, on the list quarantine-pending-guidance (held))"));
}

TEST_CASE("entries that are posted as they are warn of what they loosen, line by line", "[loosening]") {
    Clinic c;
    c.warm_night();
    CHECK(has(lines(c.post(Clinic::check("27T08:00", "5"))), "with these entries: LOOSENS: "));
    CHECK(c.post(Clinic::check("27T09:10", "5")).empty());
    CHECK(has(lines(c.post(R"({"kind":"lot","product":"oak","lot":"A1","expiry":"2027-08"})")),
              "line 1: LOOSER: expiry 2027-06-30 -> 2027-08-31"));
    CHECK(has(
        lines(c.post(R"({"kind":"site","name":"Invented","zone":"Etc/UTC","unmonitored_limit_s":864000})")),
        "line 1: LOOSER: time not known without quarantine"));
    const std::string raised = lines(c.post(
        R"({"kind":"product","product":"oak","name":"Oak","range":{"low":{"C":"2","F":"36"},"high":{"C":"8",)"
        R"("F":"46"}},"freeze_limit":{"C":"0","F":"32"},"allowances":[{"band":{"low":{"C":"8","F":"46"},)"
        R"("high":{"C":"25","F":"77"}},"seconds":1440000,"source":"invented"}],"beyond_use":{"mixed":21600}})"));
    CHECK(has(raised, "line 1: LOOSER: allowance 4 h"));
    CHECK(!has(raised, "loses"));
    c.post(R"({"kind":"hold","at":"2026-11-27T09:12:00","reason":"display","product":"ash","lot":"B1"})");
    CHECK(has(
        lines(c.post(
            R"({"kind":"give","at":"2026-11-27T09:15:00","place":"fr","product":"ash","lot":"B1","patient":"t-2"})")),
        R"(line 1: DO NOT USE: lot "B1" in "fr" was then on hold (entry )"));
    CHECK(has(
        lines(c.post(
            R"({"kind":"waste","at":"2026-11-27T09:15:00","place":"fr","product":"ash","lot":"B1","doses":1,)"
            R"("reason":"dropped"})")),
        "an answer is awaited"));
}

TEST_CASE("a check noted later takes no give out of the time in doubt without a question", "[loosening]") {
    Clinic c;
    c.at("2026-11-27T18:30:00");
    for (const char* time : {"25T16:00", "26T08:00", "26T16:00", "27T08:00", "27T17:00"})
        c.post(Clinic::check(time, "5", "4", "6"));
    c.post(R"({"kind":"give","at":"2026-11-27T17:42:00","place":"fr","product":"oak","lot":"A1","patient":"t-1"})");
    c.post(R"({"kind":"transfer","at":"2026-11-27T17:44:00","place":"fr","product":"ash","lot":"B1","doses":2,)"
           R"("to":"Harbour","reason":"short"})");
    c.notice("fr", "2026-11-27T18:00:00");
    REQUIRE(c.ledger.incident("2026-1", std::nullopt, {}, c.now).given.size() == 1);
    // a plain check: nothing is known between it and that of 17:00
    const std::string plain = c.asked(Clinic::check("27T17:50", "5"));
    CHECK(has(plain, "1 give would leave the time in doubt of incident 2026-1, although not all was measured"));
    CHECK(has(plain, "doses that left by 1 entry would leave the time in doubt of incident 2026-1"));
    CHECK(!has(c.warned(Clinic::check("27T17:50", "5")), "is known now"));
    // with minimum and maximum since 17:00 all of it was measured
    const DefinitionDraft measured = c.draft(Clinic::check("27T17:50", "5", "4", "6"));
    CHECK(measured.loosens.empty());
    CHECK(has(lines(measured.drafted.warnings), "KNOWN NOW: 1 give leaves the time in doubt of incident 2026-1"));
    // of a time that is in doubt all the same, nothing is asked
    CHECK(c.asked(Clinic::check("27T17:30", "5")) == "");
}

TEST_CASE("time between plain checks is not told as known", "[loosening]") {
    Clinic c;
    c.post(Clinic::check("25T16:00", "5", "4", "6"));
    c.at("2026-11-26T20:00:00");
    REQUIRE(c.list("A1") == List::quarantine);
    const std::string said = c.warned(Clinic::check("26T08:00", "5"));
    CHECK(has(said, "NOT MEASURED: 40 doses come off a list of what must not be used"));
    CHECK(!has(said, "KNOWN NOW"));
}
