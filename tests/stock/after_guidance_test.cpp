// After guidance: what its issuer could not know when it was posted is not settled by it: holds and notices that are
// noted later, another kind of exposure, and how warm or cold it was. All data invented, figures by hand. That doses
// are kept from use until an answer is about what happened to them is common practice, no source.
#include <catch2/catch.hpp>

#include "clinic.hpp"
#include "coldtally/entry_work.hpp"
#include "coldtally/incident_work.hpp"
#include "coldtally/work.hpp"
#include "said.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const char* const posted = "2026-06-01T20:00:00Z";
const Instant now = at(posted);
const char* const taken_back = 
    R"({"kind":"void","at":"2026-06-01T19:30:00Z","voids":8,"reason":"misread"})";

/// 20 doses of "va" lot A1 in "main" since 08:00; entry 7 is a check of 4.5 °C at 07:50.
struct Main : Clinic {
    Main() {
        const std::string range = R"("range":{"low":{"C":"2","F":"36"},"high":{"C":"8","F":"46"}})";
        post({R"({"kind":"site","name":"Trial clinic, invented","zone":"UTC"})",
              R"({"kind":"product","product":"va","name":"Vac A",)" + range + R"(,"freeze_limit":{"C":"0","F":"32"}})",
              R"({"kind":"place","place":"main","name":"Fridge","type":"refrigerator",)" + range + "}",
              R"({"kind":"place","place":"annex","name":"Annex","type":"refrigerator",)" + range + "}",
              R"({"kind":"lot","product":"va","lot":"A1","expiry":"2027-06-30"})",
              R"({"kind":"receive","at":"2026-06-01T08:00:00Z","place":"main","product":"va","lot":"A1","doses":20})",
              check("07:50", "4.5")},
             posted);
    }
    static std::string check(const std::string& time, const std::string& degrees, const std::string& min = "",
                             const std::string& max = "") {
        return R"({"kind":"check","place":"main","scale":"C","at":"2026-06-01T)" + time + R"(:00Z","temperature":")" +
               degrees + "\"" + (min.empty() ? "" : R"(,"min":")" + min + R"(","max":")" + max + "\"") + "}";
    }
    static std::string guidance(const std::string& through, const std::string& more = "",
                                const std::string& verdict = "use") {
        return R"({"kind":"guidance","at":"2026-06-01T19:00:00Z","product":"va","lot":"A1","through":"2026-06-01T)" +
               through + R"(:00Z","verdict":")" + verdict + R"(","issuer":"maker","reference":"c1")" + more + "}";
    }
    static std::string give(const std::string& time) {
        return R"({"kind":"give","place":"main","product":"va","lot":"A1","patient":"t-1","at":"2026-06-01T)" + time +
               ":00Z\"}";
    }
    std::vector<Remark> warned(const std::string& line) {
        std::vector<Remark> out;
        ledger.post(line.substr(0, line.size() - 1) + R"(,"by":"QA"})", now, false, &out);
        return out;
    }
    StepRequest noticed(const std::string& text) const {
        StepRequest out;
        out.step = IncidentStep::noticed, out.text = text, out.by = "QA", out.place = "main";
        return out;
    }
    StepDone notice(const std::string& time, const std::string& text = "found iced up") {
        return Work(ledger, now).step(noticed(text), at("2026-06-01T" + time + ":00Z"), false);
    }
    /// The notice alone, without its holds.
    void notice_alone(const std::string& time) {
        StepRequest request = noticed("found iced up");
        request.no_hold = "tested";
        ledger.post(step_draft(ledger, request, at("2026-06-01T" + time + ":00Z"), now).entries, now);
    }
    ListsAnswer::Row row() const { return ledger.lists({}, now).holdings.at(0); }
    ReviewAnswer::Row given() const { return ledger.review({}, now).doses.at(0); }
    DutyClock answer() const {
        for (const auto& d : ledger.incident("2026-1", std::nullopt, {}, now).duties)
            if (d.step == DutyStep::answer) return d;
        FAIL("no duty to answer");
        return {};
    }
};

bool row_of_no_warning(const ListsAnswer::Row& row) {
    return row.list == List::keep && row.in_doubt.empty() && row.beside.empty();
}

}  // namespace

TEST_CASE("a hold that is noted after guidance, of a time before its end, is said beside the list", "[after]") {
    Main c;
    c.post({Main::check("10:00", "4.5", "4", "5"), Main::check("15:00", "4.5", "4", "5"), Main::guidance("15:00")},
           posted);
    const std::string hold =
        R"({"kind":"hold","at":"2026-06-01T14:40:00Z","product":"va","lot":"A1","reason":"recall"})";
    CHECK(row_of_no_warning(c.row()));
    const auto said = c.warned(hold);  // entry 11
    CHECK(says(said, "NO LIST SHOWS THIS HOLD (recall, of 2026-06-01 14:40): guidance of entry 10 (use; maker, c1)"));
    const auto kept = c.row();
    CHECK(kept.list == List::keep);  // the model's
    CHECK(says(kept.beside, "HELD AFTER GUIDANCE: entry 11 (recall) was posted after guidance of entry 10"));
    CHECK(has_code(kept.notes, "held-after-guidance"));
    CHECK(do_not_use(kept.list, kept.in_doubt, kept.beside));
    const TableStyle style{Zone("UTC")};
    CHECK(to_table(c.ledger.lists({}, now), style).find("DO NOT USE YET - more is known") != std::string::npos);
    CHECK(to_table(c.ledger.stock({}, now), style).find("DO NOT USE (read why)") != std::string::npos);
    CHECK(to_json(c.ledger.stock({}, now)).find(R"("do_not_use":true)") != std::string::npos);
    CHECK_FALSE(c.ledger.dates({}, now).holdings.at(0).order.has_value());
    CHECK(says(c.ledger.draft(R"({"kind":"move","by":"QA","lot":"A1","to":{"place":"annex"}})", now).warnings,
               "DO NOT USE: lot \"A1\" comes to \"annex\" with this: HELD AFTER GUIDANCE"));
    // a dose given before its end that guidance covers, too
    c.post({Main::give("14:50")}, posted);
    CHECK(c.given().finding == Finding::cleared);
    CHECK(has_code(c.given().beside, "held-after-guidance"));
    CHECK(says(c.ledger.review({}, now).not_listed, "HELD AFTER GUIDANCE, whatever the finding is: 1 dose given"));
    // an answer that was posted when it was known
    c.post({Main::guidance("15:00")}, posted);
    CHECK(row_of_no_warning(c.row()));
    CHECK_FALSE(has_code(c.given().beside, "held-after-guidance"));
}

TEST_CASE("a hold that guidance lifts at once is posted from now on, too", "[after]") {
    Main c;
    c.post({Main::check("10:00", "4.5", "4", "5"), Main::check("15:00", "4.5", "4", "5"), Main::guidance("15:00")},
           posted);
    const Drafted drafted = c.ledger.draft(
        R"({"kind":"hold","by":"QA","at":"2026-06-01T14:40:00Z","product":"va","lot":"A1","reason":"recall"})", now);
    const DefinitionDraft draft = entry_draft(c.ledger, drafted, now);
    REQUIRE(draft.drafted.entries.size() == 2);
    CHECK(draft.loosens.empty());
    CHECK(draft.drafted.entries[1].at == now);
    CHECK(says(draft.drafted.filled, "put on hold again from now on with this: 1 lot"));
    c.ledger.post(draft.drafted.entries, now);
    CHECK(c.row().list == List::quarantine);
    CHECK_FALSE(has_code(c.row().beside, "held-after-guidance"));
    // one of a time that no guidance judges is as ever
    Main other;
    other.post({Main::check("10:00", "4.5", "4", "5"), Main::check("15:00", "4.5", "4", "5"), Main::guidance("14:30")},
               posted);
    CHECK(entry_draft(other.ledger, drafted, now).drafted.entries.size() == 1);
}

TEST_CASE("guidance settles what had been noticed when it was posted, and no more", "[after]") {
    Main c;
    c.post({Main::check("10:00", "4.5", "4", "8.6"), Main::check("15:00", "4.5", "4", "5"), Main::guidance("15:00")},
           posted);
    SECTION("with its holds") {
        const StepDone done = c.notice("14:30");
        CHECK(done.posted.what.entries.size() == 3);  // the notice, its hold, and one from now on
        CHECK(has_code(done.posted.what.warnings, "lifted-at-once"));
        CHECK(c.row().list == List::quarantine);
    }
    SECTION("without") { c.notice_alone("14:30"); }
    CHECK(c.row().in_doubt == std::vector<std::string>{"2026-1"});
    CHECK_FALSE(has_code(c.row().beside, "incident-settled"));
    CHECK_FALSE(c.answer().done.has_value());  // it is about 8.6 °C, not about the ice
    c.post({Main::guidance("15:00")}, posted);
    CHECK(c.row().in_doubt.empty());
    CHECK(has_code(c.row().beside, "incident-settled"));
    CHECK(c.answer().done.has_value());
}

TEST_CASE("doses that joined others are answered for by what answers for all of them", "[after]") {
    Main c;
    c.post({R"({"kind":"receive","at":"2026-06-01T08:00:00Z","place":"main","product":"va","lot":"A1","doses":5,)"
            R"("mark":"bin"})",
            Main::check("10:00", "4.5", "4", "5"), Main::check("15:00", "4.5", "4", "5")},
           posted);
    c.notice_alone("14:30");
    c.post({Main::guidance("15:00", R"(,"mark":"")"), R"({"kind":"move","at":"2026-06-01T15:00:00Z","product":"va",)"
            R"("lot":"A1","doses":5,"from":{"place":"main","mark":"bin"},"to":{"place":"main"}})"},
           posted);
    CHECK(c.row().in_doubt == std::vector<std::string>{"2026-1"});
    c.post({Main::guidance("15:00")}, posted);
    CHECK(c.row().in_doubt.empty());
}

TEST_CASE("what guidance was told in sums does not cover another kind of exposure", "[after]") {
    const std::string told = R"(,"told":{"out_of_range_s":21600,"points":2,"unmonitored_s":21600})";
    Main c;
    c.post({Main::check("10:00", "4.5", "4", "8.6"), Main::check("16:30", "4.5", "4", "5"),
            Main::guidance("16:30", told)},
           posted);
    CHECK(row_of_no_warning(c.row()));
    const std::string more = "2 h too cold down to -6 °C (21.2 °F), 2 h at or below the freeze limit down to -6 °C";
    SECTION("as long as the first, which is taken back") {
        c.post({taken_back, Main::check("10:00", "4.5", "-6", "5")}, posted);
        CHECK(says(c.row().beside, "LEARNT AFTER GUIDANCE: " + more));
        CHECK(says(c.row().beside, "which was told sums of time and readings alone and clears it all the same"));
    }
    SECTION("another check of the time") {
        c.post({Main::check("09:00", "-6")}, posted);
        CHECK(has_code(c.row().beside, "learnt-after-guidance"));
    }
    SECTION("more of the same kind, no warmer, is what the figures allow for") {
        c.post({Main::check("12:00", "8.3")}, posted);
        CHECK_FALSE(has_code(c.row().beside, "learnt-after-guidance"));
    }
    CHECK(c.row().list == List::keep);
}

TEST_CASE("how warm or cold it was counts wherever its time does", "[after]") {
    Main c;
    c.post({Main::check("10:00", "4.5", "4", "8.6"), Main::check("10:30", "4.5", "4", "5"), Main::give("10:40"),
            R"({"kind":"transfer","at":"2026-06-01T10:50:00Z","place":"main","product":"va","lot":"A1","doses":3,)"
            R"("to":"North","reason":"r"})",
            Main::check("16:30", "4.5", "4", "5"), Main::guidance("16:30")},
           posted);
    const auto news = [&] {
        const auto left = c.ledger.follow_up(std::nullopt, std::nullopt, {}, now).left;
        return left.empty() ? std::vector<Remark>() : left.at(0).news;
    };
    CHECK_FALSE(says(news(), "now known"));
    const auto said = c.warned(Main::check("10:00", "4.5", "4", "28.6"));
    const std::string learnt =
        "LEARNT AFTER GUIDANCE: too warm at up to 28.6 °C (83.5 °F), not 8.6 °C (47.5 °F), not known when guidance";
    CHECK(says(said, learnt));
    CHECK(says(said, "WORSE NOW: 1 give comes on the review list, to a worse finding or one more reason, or was "
                     "further out of range: entry 10"));
    CHECK(says(said, "highest 8.6 °C (47.5 °F) -> 28.6 °C (83.5 °F)"));
    CHECK(says(said, "WORSE NOW, AND NOT HERE ANY MORE: 3 doses of va lot A1, sent from main to North"));
    CHECK(says(c.row().beside, learnt));
    CHECK(says(c.given().beside, learnt));
    CHECK(says(news(), "now known: too warm for at most 2 h at up to 28.6 °C (83.5 °F), before: too warm for at most "
                       "2 h at up to 8.6 °C (47.5 °F)"));
    // the other way round
    CHECK(says(c.warned(Main::check("10:00", "4.5", "4", "8.6")), "highest 28.6 °C (83.5 °F) -> 8.6 °C (47.5 °F)"));
}

TEST_CASE("a check that is less far out than another of its instant is asked about", "[after]") {
    Main c;
    c.post({Main::check("10:00", "4.5", "4", "38")}, posted);  // entry 8
    const std::string less = R"({"kind":"check","by":"QA","place":"main","scale":"C","temperature":"4.5","min":"4",)"
                             R"("max":"8.6","at":"2026-06-01T10:00:00Z"})";
    const DefinitionDraft draft = entry_draft(c.ledger, c.ledger.draft(less, now), now);
    CHECK(says(draft.loosens, "LOOSENS: less would have been out of range"));
    CHECK(says(draft.loosens, "highest 38 °C (100.4 °F) -> 8.6 °C (47.5 °F)"));
    c.ledger.post(less, now);
    c.notice_alone("10:05");
    CHECK(says(c.ledger.incident("2026-1", std::nullopt, {}, now).missing,
               "which of two checks of main at 2026-06-01 10:00 is right: entry 8 (4 °C to 38 °C) or entry 9 (4 °C to "
               "8.6 °C), which holds"));
}

TEST_CASE("a report is overtaken by how warm or cold it was, whatever guidance cleared", "[after]") {
    Main c;
    c.post({Main::check("10:00", "4.5", "4", "8.6")}, posted);
    c.notice_alone("10:05");
    c.post({Main::check("10:30", "4.5", "4", "5"), Main::check("16:30", "4.5", "4", "5")}, posted);
    ReportRequest request;
    request.incident = "2026-1", request.to = Recipient::health_department, request.recipient = "County";
    request.uncounted = true, request.by = "QA";
    const auto sent = c.ledger.post(
        std::vector<Entry>{report_draft(c.ledger, request, at("2026-06-01T16:35:00Z"), now)}, now);
    const auto overtaken = [&] {
        std::vector<Remark> out;
        for (const auto& d : c.ledger.incident("2026-1", std::nullopt, {}, now).duties)
            if (d.step == DutyStep::health_department_told) out = d.since_done;
        return out;
    };
    Entry answer;
    answer.by = "QA", answer.at = at("2026-06-01T16:40:00Z");
    Guidance use;
    use.product = "va", use.lot = "A1", use.verdict = Verdict::use, use.issuer = "County", use.reference = "c9";
    answer.fact = use;
    CHECK(overtaken().empty());
    SECTION("answered first") {
        CHECK(c.ledger.answer_draft(sent.at(0), answer, now).concerns.empty());
        c.post({Main::guidance("16:30")}, posted);
        c.post({taken_back, Main::check("10:00", "4.5", "-6", "5")}, posted);
    }
    SECTION("answered later, and asked about first") {
        c.post({taken_back, Main::check("10:00", "4.5", "-6", "5")}, posted);
        CHECK(says(c.ledger.answer_draft(sent.at(0), answer, now).concerns,
                   "main: known now, and not when it was reported: 2 h too cold down to -6 °C (21.2 °F)"));
    }
    REQUIRE(overtaken().size() == 1);
    CHECK(says(overtaken(), "REPORTED WITH OTHER FIGURES: County was told"));
    CHECK(says(overtaken(), "main: now too cold, too; lowest 4 °C (39.2 °F) -> -6 °C (21.2 °F)"));
}

TEST_CASE("doses given in a time in doubt that was noticed after guidance cleared them are in doubt", "[after]") {
    Main c;
    c.post({Main::check("10:00", "4.5", "4", "8.6"), Main::give("10:50"), Main::guidance("12:00")}, posted);
    CHECK(c.given().finding == Finding::cleared);
    CHECK(c.given().beside.empty());
    c.notice_alone("14:00");
    const std::string said = "IN DOUBT: these doses stood in the time in doubt of incident 2026-1, which was noticed "
                             "after guidance of entry 10 was posted";
    CHECK(c.given().finding == Finding::cleared);
    CHECK(says(c.given().beside, said));
    CHECK(says(c.ledger.review({}, now).not_listed, "IN DOUBT, whatever the finding is: 1 dose given"));
    CHECK(says(c.ledger.incident("2026-1", std::nullopt, {}, now).given.at(0).beside, said));
    c.post({Main::guidance("12:00")}, posted);
    CHECK_FALSE(says(c.given().beside, "IN DOUBT"));
}

TEST_CASE("figures of what the ledger did not know yet were told as too warm, never as too cold", "[after]") {
    const std::string told = R"(,"told":{"out_of_range_s":18000,"unmonitored_s":7200,"points":9})";
    for (const bool cold : {false, true}) {
        Main c;
        c.post({Main::check("15:00", "4.5"), Main::guidance("15:00", told),
                cold ? Main::check("10:00", "4.5", "-6", "5") : Main::check("10:00", "4.5", "4", "12.6")},
               posted);
        CHECK(has_code(c.row().notes, "learnt-after-guidance") == cold);
    }
}
