// Known later: doses given are looked at again when more is known of them than when it was decided about them; recalls
// reach their patients; a dose of which the chart names the lot alone may be any of the lot; whose answer it is; and no
// dose is counted twice without a word. All data invented, figures by hand. That a decision about a patient rests on
// what was known, and that a recall is of every dose of its lot, is common practice, no source.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "clinic.hpp"
#include "coldtally/incident_work.hpp"
#include "coldtally/work.hpp"
#include "said.hpp"

using namespace coldtally;
using namespace coldtally::tests;
using Json = nlohmann::json;

namespace {

const char* const posted = "2026-06-01T20:00:00Z";
const Instant now = at(posted);

std::string time(const std::string& hour) { return "2026-06-01T" + hour + ":00Z"; }

/// 20 doses of "va" lot A1 in "main" and 5 in "annex" since 08:00, both checked at 07:50.
struct Known : Clinic {
    Known() {
        const std::string range = R"("range":{"low":{"C":"2","F":"36"},"high":{"C":"8","F":"46"}})";
        say({R"({"kind":"site","name":"Trial clinic, invented","zone":"America/Denver"})",
             R"({"kind":"product","product":"va","name":"Vac A",)" + range + R"(,"freeze_limit":{"C":"0","F":"32"}})",
             R"({"kind":"place","place":"main","name":"Fridge","type":"refrigerator",)" + range + "}",
             R"({"kind":"place","place":"annex","name":"Annex","type":"refrigerator",)" + range + "}",
             R"({"kind":"lot","product":"va","lot":"A1","expiry":"2027-06-30"})", check("07:50", "4.5"),
             check("07:50", "4.5", "", "", "annex"), receive("main", 20), receive("annex", 5)});
    }
    std::vector<EntryNumber> say(const std::vector<std::string>& lines) { return post(lines, posted); }
    EntryNumber note(const std::string& line) { return say({line}).front(); }

    static std::string receive(const std::string& place, int doses) {
        return R"({"kind":"receive","at":")" + time("08:00") + R"(","place":")" + place +
               R"(","product":"va","lot":"A1","doses":)" + std::to_string(doses) + "}";
    }
    static std::string check(const std::string& hour, const std::string& degrees, const std::string& min = "",
                             const std::string& max = "", const std::string& place = "main") {
        return R"({"kind":"check","place":")" + place + R"(","scale":"C","at":")" + time(hour) +
               R"(","temperature":")" + degrees + "\"" +
               (min.empty() ? "" : R"(,"min":")" + min + R"(","max":")" + max + "\"") + "}";
    }
    static std::string give(const std::string& hour, const std::string& patient, const std::string& place = "main",
                            const std::string& more = "") {
        return R"({"kind":"give","place":")" + place + R"(","product":"va","lot":"A1","patient":")" + patient +
               R"(","at":")" + time(hour) + "\"" + more + "}";
    }
    static std::string step(EntryNumber give, const std::string& what) {
        return R"({"kind":"follow-up","at":")" + time("11:00") + R"(","give":)" + std::to_string(give) +
               R"(,"step":")" + what + R"(","text":"clinician"})";
    }
    static std::string guidance(const std::string& verdict, const std::string& issuer = "maker") {
        return R"({"kind":"guidance","at":")" + time("16:40") + R"(","product":"va","lot":"A1","through":")" +
               time("16:30") + R"(","verdict":")" + verdict + R"(","issuer":")" + issuer + R"(","reference":"c9"})";
    }
    static std::string recall() {
        return R"({"kind":"hold","at":")" + time("12:05") + R"(","product":"va","lot":"A1","reason":"their letter"})";
    }
    void notice(const std::string& hour, std::optional<std::string> since = std::nullopt) {
        StepRequest request;
        request.step = IncidentStep::noticed, request.text = "door open", request.by = "QA", request.place = "main";
        if (since) request.since = at(time(*since));
        ledger.post(step_draft(ledger, request, at(time(hour)), now).entries, now);
    }
    std::vector<Remark> warned(const std::string& fields) const {
        return ledger.draft(fields.substr(0, fields.size() - 1) + R"(,"by":"QA"})", now).warnings;
    }
    FollowUpAnswer followed(std::optional<std::string> lot = std::nullopt) const {
        return ledger.follow_up(lot, std::nullopt, {}, now);
    }
    std::vector<ReadinessAnswer::Finding> found() const {
        std::vector<ReadinessAnswer::Finding> out;
        for (const auto& f : ledger.readiness(std::nullopt, {}, now).findings)
            if (f.topic == ReadinessAnswer::Matter::doses_followed_up) out.push_back(f);
        return out;
    }
    IncidentAnswer incident() const { return ledger.incident("2026-1", std::nullopt, {}, now, true); }
};

TableStyle wide() {
    TableStyle out{Zone("America/Denver")};
    out.columns = 400;
    return out;
}

}  // namespace

TEST_CASE("a dose that was decided about is looked at again when worse is known of it", "[later]") {
    Known c;
    c.note(Known::check("10:00", "4.5", "4", "8.6"));
    const EntryNumber given = c.note(Known::give("10:40", "t-1"));
    c.note(Known::check("16:30", "4.5", "4", "5"));
    c.note(Known::step(given, "not needed"));
    REQUIRE(c.followed().doses.size() == 1);
    CHECK(c.followed().doses.front().news.empty());
    CHECK(c.followed().look_again.gives == 0);
    CHECK(c.found().empty());

    const std::string what = GENERATE("condemned", "frozen", "recalled");
    CAPTURE(what);
    if (what == "condemned") c.note(Known::guidance("discard"));
    if (what == "frozen") c.note(Known::check("10:20", "-6"));
    if (what == "recalled") c.note(Known::recall());
    const auto answer = c.followed();
    const auto& dose = answer.doses.at(0);
    CHECK(dose.standing == Standing::not_needed);  // what was done stays as it was noted
    if (what == "condemned") CHECK(says(dose.news, "-> not viable"));
    if (what == "frozen") CHECK(says(dose.news, "frozen"));
    if (what == "recalled") CHECK(has_code(dose.news, "recalled-since"));
    CHECK(answer.look_again.gives == 1);
    CHECK(answer.whole.gives == 1);
    const std::string table = to_table(answer, wide());
    CHECK(table.find("DECIDED BEFORE THIS WAS KNOWN (not needed, 2026-06-01 05:00)") != std::string::npos);
    CHECK(table.find("DECIDED BEFORE WHAT IS KNOWN NOW") != std::string::npos);
    const Json json = Json::parse(to_json(answer));
    CHECK(json["look_again"]["gives"] == 1);
    CHECK(json["doses"][0]["news_codes"].size() == dose.news.size());
    REQUIRE(c.found().size() == 1);
    CHECK(c.found().front().text.code() == "decided-before-known");

    // decided again, it is decided about what is known
    c.note(Known::step(given, "decided"));
    CHECK(c.followed().doses.at(0).news.empty());
    CHECK(c.found().empty());
}

TEST_CASE("what makes a dose worse that was decided about names the step", "[later]") {
    Known c;
    c.note(Known::check("10:00", "4.5", "4", "8.6"));
    const EntryNumber given = c.note(Known::give("10:40", "t-1"));
    c.note(Known::check("16:30", "4.5", "4", "5"));
    c.note(Known::step(given, "not needed"));
    const auto done = Work(c.ledger, now).judge(
        R"({"kind":"check","by":"QA","place":"main","scale":"C","at":")" + time("10:20") +
            R"(","temperature":"25","note":"typed late"})",
        {.dry_run = true});
    auto said = done.posted.what.warnings;  // or, where it is asked about anything, beside that
    said.insert(said.end(), done.asks.begin(), done.asks.end());
    CHECK(says(said, "followed up already, not needed: look at it again"));
}

TEST_CASE("a recall names the doses given of its lot wherever patients are looked for", "[later]") {
    Known c;
    c.say({Known::check("12:00", "4.5", "4", "5")});
    const EntryNumber given = c.note(Known::give("11:00", "t-1"));
    CHECK_FALSE(has_code(c.ledger.review({}, now).not_listed, "recalled-unlisted"));
    c.note(Known::recall());
    const ReviewAnswer review = c.ledger.review({}, now);
    CHECK(review.doses.empty());  // nothing was found of what they went through
    REQUIRE(has_code(review.not_listed, "recalled-unlisted"));
    CHECK(says(review.not_listed, "RECALLED, and not listed here: 1 dose given"));
    CHECK(says(review.not_listed, "coldtally follow-up --lot A1 --product va"));
    CHECK(has_code(c.followed().not_listed, "recalled-unlisted"));
    CHECK(has_code(c.ledger.immunizations({}, std::nullopt, now).doses.at(0).dose.beside, "recalled-dose"));
    REQUIRE(c.found().size() == 1);
    CHECK(c.found().front().text.code() == "recalled-not-followed");
    c.note(Known::step(given, "told"));
    CHECK(c.found().empty());
    CHECK(has_code(c.ledger.review({}, now).not_listed, "recalled-unlisted"));  // it stands
}

TEST_CASE("a dose of which the chart names the lot alone may have come out of a place in doubt", "[later]") {
    Known c;
    c.say({Known::check("12:00", "4.5", "4", "5"), Known::check("14:10", "4.5", "4", "5", "annex")});
    const std::string of_lot = R"({"kind":"give","place":"annex","product":"va","lot":"A1","doses":1,"patient":"t-2",)"
                               R"("certain":false,"at":")" +
                               time("13:30") + "\"}";
    CHECK_FALSE(has_code(c.warned(of_lot), "may-be-in-later-doubt"));
    c.notice("14:00");
    CHECK(has_code(c.warned(of_lot), "may-be-in-later-doubt"));
    const EntryNumber given = c.note(of_lot);
    const auto whole = c.incident();
    REQUIRE(whole.given.size() == 1);
    CHECK(whole.given.front().entry == given);
    CHECK_FALSE(whole.given.front().certain);
    CHECK(says(c.ledger.review({}, now).not_listed, "IN DOUBT, and not listed here: 1 dose given"));
    // out of the place itself, dated before the notice
    CHECK(has_code(c.warned(Known::give("13:31", "t-3", "main", R"(,"doses":1)")), "given-in-later-doubt"));
    // of another place, and certain
    const auto annex = c.warned(Known::give("13:32", "t-4", "annex", R"(,"doses":1)"));
    CHECK_FALSE(has_code(annex, "given-in-later-doubt"));
    CHECK_FALSE(has_code(annex, "may-be-in-later-doubt"));
}

TEST_CASE("an answer is of who gave it, and says so where that is not the maker", "[later]") {
    const std::string issuer = GENERATE("County", "alder works", "the maker");
    CAPTURE(issuer);
    Known c;
    c.say({R"({"kind":"maker","product":"va","name":"Alder Works, invented"})",
           Known::check("10:00", "4.5", "4", "8.6")});
    c.notice("10:05");
    c.note(Known::check("16:30", "4.5", "4", "5"));
    c.note(Known::guidance("use", issuer));
    const auto whole = c.incident();
    const auto answer = std::ranges::find(whole.duties, DutyStep::answer, &DutyClock::step);
    REQUIRE(answer != whole.duties.end());
    REQUIRE(answer->done);
    const std::string table = to_table(whole, wide());
    const bool other = issuer == "County";
    CHECK(has_code(answer->beside, "answered-by-other-untold") == other);
    CHECK((table.find("answer for va lot A1: done") != std::string::npos) == other);
    CHECK(answer->beside.empty() != other);
    if (!other) return;
    CHECK(says(answer->beside, "use, County, c9; by its name not from Alder Works, invented, which HAS NOT BEEN "
                               "ASKED"));
    CHECK(Json::parse(to_json(whole))["duties"].dump().find("answered-by-other-untold") != std::string::npos);
    c.note(R"({"kind":"report","at":")" + time("17:00") +
          R"(","incident":"2026-1","to":"manufacturer","recipient":"Alder Works, invented","through":")" +
          time("16:30") + R"(","counted":false})");
    const auto asked = c.incident();
    CHECK(has_code(std::ranges::find(asked.duties, DutyStep::answer, &DutyClock::step)->beside, "answered-by-other"));
}

TEST_CASE("doses that two lines of the vaccine table count are told", "[later]") {
    Known c;
    c.note(Known::check("12:00", "4.5", "4", "5"));
    c.note(R"({"kind":"move","at":")" + time("13:00") +
          R"(","product":"va","lot":"A1","doses":10,"from":{"place":"main"},"to":{"place":"main","mark":"opened"}})");
    c.note(Known::give("13:05", "t-1", "main", R"(,"mark":"opened")"));
    c.notice("14:00");
    const auto whole = c.incident();
    REQUIRE(whole.lines.size() == 2);
    const auto& vial = whole.lines[0].holding.mark.empty() ? whole.lines[1] : whole.lines[0];
    const auto& rest = whole.lines[0].holding.mark.empty() ? whole.lines[0] : whole.lines[1];
    CHECK(rest.beside.empty());
    REQUIRE(has_code(vial.beside, "also-in-line-of"));
    CHECK(says(vial.beside, "10 doses came to it out of main and are counted in that line, too"));
    CHECK(to_table(whole, wide()).find("10 doses came to it out of main") != std::string::npos);
    const Json json = Json::parse(to_json(whole));
    std::size_t beside = 0;
    for (const auto& line : json["lines"]) beside += line["beside"].size();
    CHECK(beside == 1);
}

TEST_CASE("since when it was out of range is said in local time", "[later]") {
    Known c;
    c.note(Known::check("19:00", "4.5", "4", "5"));
    c.notice("20:00", "19:30");
    const auto whole = c.incident();
    CHECK(whole.steps.front().text == "out of range since 2026-06-01T19:30:00Z: door open");  // as the entry has it
    const std::string table = to_table(whole, wide());
    CHECK(table.find("out of range since 2026-06-01 13:30: door open") != std::string::npos);
    CHECK(table.find("19:30:00Z") == std::string::npos);
    // and guidance takes an instant as every option does
    const auto drafted = c.ledger.draft(
        R"({"kind":"guidance","by":"QA","at":")" + time("19:50") +
            R"(","product":"va","lot":"A1","since":"2026-06-01 13:05","through":"2026-06-01 13:30",)"
            R"("verdict":"use","issuer":"maker","reference":"c"})",
        now);
    CHECK(std::get<Guidance>(drafted.entries.back().fact).since == at(time("19:05")));
}
