// Unanswered: what an incident leaves open is said until it is answered: a notice has a time in doubt of its own,
// closing is no answer, a release holds as long as what it rested on, and a report as long as it tells of every dose.
// Invented data, worked by hand. That a patient or a dose in doubt must not be lost when a file is closed is common
// practice, no source; how long what is said is a choice of ours (lib/incidents/README.md).
#include <catch2/catch.hpp>

#include <algorithm>

#include "clinic.hpp"
#include "coldtally/entry_work.hpp"
#include "coldtally/error.hpp"
#include "coldtally/incident_work.hpp"
#include "coldtally/work.hpp"
#include "said.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const Instant now = at("2026-11-10T20:00:00Z");
const std::string recorded = "2026-11-10T20:00:00Z";

/// "10T17:00" of November
std::string time(const std::string& text) { return "2026-11-" + text + ":00Z"; }

std::string check(const std::string& place, const std::string& when, const std::string& degrees,
                  const std::string& low = "", const std::string& high = "") {
    std::string out = R"({"kind":"check","at":")" + time(when) + R"(","place":")" + place +
                      R"(","scale":"C","temperature":")" + degrees + "\"";
    if (!low.empty()) out += R"(,"min":")" + low + R"(","max":")" + high + "\"";
    return out + "}";
}

std::string give(const std::string& lot, const std::string& patient, const std::string& when) {
    return R"({"kind":"give","at":")" + time(when) + R"(","place":"main","product":"mmr","lot":")" + lot +
           R"(","patient":")" + patient + "\"}";
}

std::string receive(const std::string& place, const std::string& lot, int doses, const std::string& when) {
    return R"({"kind":"receive","at":")" + time(when) + R"(","place":")" + place + R"(","product":"mmr","lot":")" +
           lot + R"(","doses":)" + std::to_string(doses) + "}";
}

std::string transfer(const std::string& lot, int doses, const std::string& when) {
    return R"({"kind":"transfer","at":")" + time(when) + R"(","place":"main","product":"mmr","lot":")" + lot +
           R"(","doses":)" + std::to_string(doses) + R"(,"to":"Harbour, invented","reason":"short there"})";
}

/// Two refrigerators, 20 doses of K1 in main, minimum and maximum in range twice a day until 10 November 17:00.
struct Practice : Clinic {
    Practice() {
        say({R"({"kind":"site","name":"Tern Street Practice, invented","zone":"UTC"})",
             R"({"kind":"place","place":"main","name":"A","type":"refrigerator","range":{"low":{"C":"2"},)"
             R"("high":{"C":"8"}}})",
             R"({"kind":"place","place":"annex","name":"B","type":"refrigerator","range":{"low":{"C":"2"},)"
             R"("high":{"C":"8"}}})",
             R"({"kind":"product","product":"mmr","name":"M, invented","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
             R"({"kind":"lot","product":"mmr","lot":"K1","expiry":"2027-06"})",
             R"({"kind":"lot","product":"mmr","lot":"K9","expiry":"2027-06"})",
             R"({"kind":"lot","product":"mmr","lot":"K8","expiry":"2027-06"})", receive("main", "K1", 20, "07T08:00")});
        for (const char* day : {"07", "08", "09", "10"})
            for (const char* place : {"main", "annex"})
                for (const char* hour : {"T08:00", "T17:00"})
                    say({check(place, day + std::string(hour), "5", "4", "6")});
    }
    std::vector<EntryNumber> say(const std::vector<std::string>& lines) { return post(lines, recorded); }
    std::vector<Remark> notice(const std::string& when, std::optional<std::string> no_hold = std::nullopt,
                               std::optional<Instant> since = std::nullopt, const std::string& recorded_at = recorded) {
        StepRequest request;
        request.text = "display dark", request.by = "QA", request.place = "main";
        request.no_hold = std::move(no_hold), request.since = since;
        Drafted d = step_draft(ledger, request, at(time(when)), at(recorded_at));
        ledger.post(d.entries, at(recorded_at));
        return d.warnings;
    }
    Drafted closing(const std::string& when, bool release = false, std::optional<std::string> despite = std::nullopt) {
        StepRequest request;
        request.incident = "2026-1", request.step = IncidentStep::closed, request.text = "looked into";
        request.by = "QA", request.release = release, request.despite = std::move(despite);
        return step_draft(ledger, request, at(time(when)), now);
    }
    void close(const std::string& when, bool release = false, std::optional<std::string> despite = std::nullopt) {
        ledger.post(closing(when, release, std::move(despite)).entries, now);
    }
    Question then(const std::string& when) const { return {at(time(when)), std::nullopt}; }
    IncidentAnswer incident(const std::string& when) const {
        return ledger.incident("2026-1", std::nullopt, then(when), now);
    }
    ListsAnswer::Row row(const std::string& place, const std::string& lot, const std::string& when) const {
        for (const auto& r : ledger.lists(then(when), now).holdings)
            if (r.holding.place == place && r.holding.lot == lot) return r;
        FAIL("no " << lot << " in " << place);
        return {};
    }
};

}  // namespace

TEST_CASE("a notice has a time in doubt of its own beside an older excursion that becomes its incident's",
          "[unanswered]") {
    for (const bool older : {true, false}) {
        Practice c;
        if (older) c.say({check("main", "09T12:00", "9", "4", "9")});
        c.say({receive("main", "K9", 12, "10T16:50")});
        const EntryNumber given = c.say({give("K9", "t-9", "10T17:50")}).front();
        c.say({R"({"kind":"move","at":"2026-11-10T17:52:00Z","product":"mmr","lot":"K9","from":{"place":"main"},)"
               R"("to":{"place":"annex"},"doses":3})"});
        const EntryNumber sent = c.say({transfer("K9", 2, "10T17:54")}).front();
        c.notice("10T18:00");
        c.say({receive("main", "K8", 10, "10T18:05")});
        const auto whole = c.incident("10T18:15");
        REQUIRE(whole.units.size() == 1);
        const auto& u = whole.units.front();
        CHECK(u.excursions.size() == (older ? 1 : 0));
        CHECK(u.last_good == at(time(older ? "09T08:00" : "10T17:00")));
        CHECK_FALSE(u.back_in_range);
        CHECK(has_code(u.beside, "in-doubt-in-parts") == older);
        if (older)
            CHECK(says(u.beside,
                       "IN DOUBT, PART BY PART: 2026-11-09 08:00 until 2026-11-09 17:00, in range before and after; "
                       "2026-11-10 17:00 until 2026-11-10 18:15, in range before and not known to be since"));
        REQUIRE(whole.given.size() == 1);
        CHECK(whole.given.front().entry == given);
        REQUIRE(whole.left.size() == 1);
        CHECK(whole.left.front().entry == sent);
        CHECK(std::ranges::count(whole.lines, "K9", [](const auto& l) { return l.holding.lot; }) == 1);
        CHECK(c.row("annex", "K9", "10T18:15").in_doubt == std::vector<std::string>{"2026-1"});
        CHECK(c.row("main", "K8", "10T18:15").in_doubt == std::vector<std::string>{"2026-1"});
        // K1 stood in both parts: the later one is not hidden behind the first
        const auto stayed = c.row("main", "K1", "10T18:15").notes;
        CHECK(has_code(stayed, "stood-in-doubt-in-parts") == older);
        CHECK(says(stayed, older ? "in parts of its time in doubt, 2026-11-09 08:00 to 2026-11-09 17:00 and "
                                   "2026-11-10 17:00 to 2026-11-10 18:15"
                                 : "in its time in doubt, 2026-11-10 17:00 to 2026-11-10 18:15"));
        CHECK(says(c.ledger.review(c.then("10T18:15"), now).not_listed, "IN DOUBT, and not listed here: 1 dose"));
        c.say({check("main", "10T18:30", "5")});
        CHECK(c.incident("10T18:40").units.front().back_in_range == at(time("10T18:30")));
        CHECK(c.row("annex", "K9", "10T18:40").in_doubt == std::vector<std::string>{"2026-1"});
    }
}

TEST_CASE("a notice in an excursion has the time of the excursion, and one after it says what ended that",
          "[unanswered]") {
    Practice c;
    c.say({check("main", "10T18:30", "12")});
    c.notice("10T18:30");
    c.say({check("main", "10T19:00", "5")});
    const auto in = c.incident("10T19:10").units.front();
    CHECK(in.last_good == at(time("10T17:00")));
    CHECK(in.back_in_range == at(time("10T19:00")));
    CHECK(in.beside.empty());

    Practice after;
    after.say({check("main", "10T18:30", "12"), check("main", "10T19:00", "5")});
    after.notice("10T19:20");
    const auto u = after.incident("10T19:30").units.front();
    CHECK(u.last_good == at(time("10T17:00")));
    CHECK_FALSE(u.back_in_range);
    CHECK(says(u.beside,
               "its excursions were over at 2026-11-10 19:00; nothing in range was read since it was noticed"));
    after.say({check("main", "10T19:40", "5")});
    CHECK(after.incident("10T19:45").units.front().back_in_range == at(time("10T19:40")));
}

TEST_CASE("doses that left before an incident was closed without an answer go with its doubt", "[unanswered]") {
    Practice c;
    const EntryNumber sent = c.say({transfer("K1", 3, "10T17:35")}).front();
    c.notice("10T18:00");
    c.say({check("main", "10T18:30", "5")});
    c.close("10T18:40");
    const HandoverAnswer paper = c.ledger.handover(sent, c.then("10T18:45"), now);
    CHECK(paper.needed);
    CHECK(paper.list == List::keep);  // the readings decide it
    CHECK(says(paper.to_hold, "in doubt: incident 2026-1 was closed without an answer for them"));
    CHECK(says(paper.beside, "INCIDENT 2026-1 WAS CLOSED WITHOUT AN ANSWER FOR THESE DOSES"));
    const EntryNumber held = c.say({transfer("K1", 1, "10T18:42")}).front();  // what was here is on hold
    CHECK_FALSE(has_code(c.ledger.handover(held, c.then("10T18:45"), now).to_hold, "to-hold-closed"));
    CHECK(says(c.ledger.handover(held, c.then("10T18:45"), now).to_hold, "incident 2026-1, noticed in main"));
    const auto untold = [&] {
        const auto ready = c.ledger.readiness(std::nullopt, {}, now);
        return to_json(ready).find("doses that left are not told of") != std::string::npos;
    };
    CHECK(untold());
    StepRequest told;
    told.incident = "2026-1", told.step = IncidentStep::action, told.text = "by telephone", told.by = "QA";
    told.told = {sent};
    c.ledger.post(step_draft(c.ledger, told, at(time("10T18:50")), now).entries, now);
    CHECK_FALSE(untold());
    CHECK_FALSE(c.ledger.handover(sent, c.then("10T18:55"), now).to_hold.empty());  // told of, and not answered
    c.say({R"({"kind":"guidance","at":"2026-11-10T19:00:00Z","product":"mmr","lot":"K1","verdict":"use",)"
           R"("through":"2026-11-10T18:40:00Z","issuer":"Maker","reference":"1"})"});
    CHECK(c.ledger.handover(sent, c.then("10T19:05"), now).to_hold.empty());

    Practice released;  // a release is an answer
    const EntryNumber other = released.say({transfer("K1", 3, "10T17:35")}).front();
    released.notice("10T18:00");
    released.say({check("main", "10T18:30", "5", "4", "6")});
    released.close("10T18:40", true);
    CHECK(released.ledger.handover(other, released.then("10T18:45"), now).to_hold.empty());
}

TEST_CASE("a release says so where it does not hold any more, and taking back what it rested on asks", "[unanswered]") {
    Practice c;
    c.notice("10T18:00");
    const EntryNumber seen = c.say({check("main", "10T18:10", "5", "4", "6")}).front();
    c.close("10T18:30", true);
    CHECK(c.row("main", "K1", "10T18:35").list == List::keep);
    CHECK(c.row("main", "K1", "10T18:35").beside.empty());
    const std::string json = R"({"kind":"void","by":"QA","reason":"that was the annex","voids":)" +
                             std::to_string(seen) + "}";
    const DefinitionDraft d = definition_draft(c.ledger, json, now);
    CHECK(says(d.loosens, "THE RELEASE DOES NOT HOLD ANY MORE: incident 2026-1 was closed"));
    CHECK(says(d.loosens, "\"mmr\" lot \"K1\" in \"main\" (20 doses)"));
    CHECK(has_code(d.drafted.filled, "held-again"));
    REQUIRE(d.drafted.entries.size() == 2);
    CHECK(std::get<Hold>(d.drafted.entries[1].fact).reason == "incident 2026-1, noticed in main");
    CHECK_THROWS_AS(ask_before_loosening(d, false), Error);

    // posted in another way, without the hold: the doses say so themselves
    c.say({R"({"kind":"void","at":"2026-11-10T18:31:00Z","reason":"that was the annex","voids":)" +
           std::to_string(seen) + "}"});
    const auto row = c.row("main", "K1", "10T20:00");
    CHECK(row.list == List::keep);
    CHECK(has_code(row.beside, "release-lapsed"));
    CHECK(says(row.beside, "main: no reading in range is known since it was noticed"));
    c.say({check("main", "10T18:10", "5", "4", "6")});
    CHECK(c.row("main", "K1", "10T20:00").beside.empty());
    c.say({check("main", "10T18:20", "5", "4", "11")});  // noted late: a maximum out of range
    CHECK(has_code(c.row("main", "K1", "10T20:00").beside, "release-lapsed"));
}

TEST_CASE("a report is overtaken by doses given and sent that it does not tell of", "[unanswered]") {
    Practice c;
    c.say({check("main", "10T18:20", "10", "4", "10"), check("main", "10T18:40", "5"), give("K1", "t-1", "10T18:10")});
    c.notice("10T18:41");
    ReportRequest request;
    request.incident = "2026-1", request.to = Recipient::health_department, request.recipient = "County";
    request.by = "QA", request.uncounted = true;
    c.ledger.post({report_draft(c.ledger, request, at(time("10T18:50")), now)}, now);
    const auto since = [&] {
        std::vector<Remark> out;
        for (const auto& duty : c.incident("10T18:55").duties)
            if (duty.step == DutyStep::health_department_told) out = duty.since_done;
        return out;
    };
    CHECK(since().empty());
    const WorkDone done = Work(c.ledger, now).post(
        R"({"kind":"give","by":"QA","at":"2026-11-10T18:15:00Z","place":"main","product":"mmr","lot":"K1",)"
        R"("patient":"t-2"})",
        Meant{true, false});
    const std::string entry = std::to_string(done.posted.what.entries.front().number);
    const std::string said = "REPORTED WITH OTHER FIGURES: County was told 2026-11-10 18:50";
    CHECK(says(done.posted.what.warnings, said));
    CHECK(says(done.posted.what.warnings, "doses given 1, now 2 (entry " + entry + ")"));
    CHECK(says(since(), "doses given 1, now 2 (entry " + entry + ")"));
    c.say({transfer("K1", 3, "10T18:16")});
    CHECK(says(since(), "doses that left 0, now 3 (entry "));
}

TEST_CASE("an excursion that was read long afterwards is the incident's by the notice that says since when",
          "[unanswered]") {
    Practice c;
    c.say({check("main", "07T12:00", "13")});
    const Instant later = at("2026-11-14T08:10:00Z");
    const auto whose = [&] {
        return c.ledger.incidents("main", std::nullopt, Instant(0), later, {}, later);
    };
    REQUIRE(whose().without_incident.size() == 1);
    const IncidentsAnswer found = whose();
    const auto steps = steps_after_import(c.ledger, found, "QA", later);
    REQUIRE(steps.size() == 1);
    const std::string said = english().say(steps.front());
    CHECK(said.find("--at") == std::string::npos);
    CHECK(said.find("--since '2026-11-07 ") != std::string::npos);
    const Instant began(found.without_incident.front().from_s.ceil());
    StepRequest request;
    request.text = "logger read: 13 C", request.by = "QA", request.place = "main";
    request.since = later + Duration(1);
    CHECK_THROWS_AS(step_draft(c.ledger, request, later, later), Error);
    request.since = began;
    c.ledger.post(step_draft(c.ledger, request, later, later).entries, later);
    CHECK(whose().without_incident.empty());
    const auto whole = c.ledger.incident("2026-1", std::nullopt, {}, later);
    CHECK(whole.noticed == later);
    CHECK(whole.steps.front().text == "out of range since " + began.text() + ": logger read: 13 C");
    CHECK(whole.units.front().excursions.size() == 1);
    CHECK(whole.units.front().last_good == at(time("07T08:00")));
    CHECK_FALSE(whole.units.front().back_in_range);  // not since the notice, a week later
    CHECK(has_code(whole.units.front().beside, "in-doubt-in-parts"));

    Practice without;  // nothing is changed where nobody says it
    without.say({check("main", "07T12:00", "13")});
    request.since.reset();
    without.ledger.post(step_draft(without.ledger, request, later, later).entries, later);
    CHECK(without.ledger.incidents("main", std::nullopt, Instant(0), later, {}, later).without_incident.size() == 1);
}
