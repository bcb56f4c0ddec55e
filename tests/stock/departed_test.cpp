// Doses that left for another site are in no list and no review: what is learnt of them later must be said all the
// same, and who was told is stated, never read out of words. All data invented; figures by hand.
#include <catch2/catch.hpp>

#include <algorithm>

#include <nlohmann/json.hpp>

#include "clinic.hpp"
#include "coldtally/entry_work.hpp"
#include "coldtally/error.hpp"
#include "coldtally/incident_work.hpp"
#include "said.hpp"

using namespace coldtally;
using namespace coldtally::tests;
using Json = nlohmann::ordered_json;

namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TableStyle wide() {
    TableStyle out{Zone("UTC")};
    out.columns = 600;
    return out;
}

/// 20 doses of "alfa" lot A1, 5 °C as far as is read, 06-03 12:00; 15 of them, or all, leave for Harbour on 06-04 10:00
/// by entry 10. What is read later shows 11 °C in the night before.
struct Sender : Clinic {
    explicit Sender(int leave = 20) {
        const std::string range = R"("range":{"low":{"C":"2"},"high":{"C":"8"}})";
        post({R"({"kind":"site","name":"Trial clinic, invented","zone":"UTC"})",
              R"({"kind":"product","product":"alfa","name":"Alfa",)" + range + "}",
              R"({"kind":"lot","product":"alfa","lot":"A1","expiry":"2027-06-30"})",
              R"({"kind":"place","place":"fridge","name":"F","type":"refrigerator",)" + range + "}",
              R"({"kind":"probe","probe":"p","scale":"C"})",
              R"({"kind":"certificate","at":"2026-01-01T00:00:00Z","probe":"p","expires":"2027-12-31"})",
              R"({"kind":"assign","at":"2026-01-01T00:00:00Z","probe":"p","place":"fridge"})",
              R"({"kind":"receive","at":"2026-06-01T08:00:00Z","place":"fridge","product":"alfa","lot":"A1",)"
              R"("doses":20})",
              rows("2026-06-01T08:00:00Z", "2026-06-03T12:00:00Z", false)},
             "2026-06-03T12:30:00Z");
        post({R"({"kind":"transfer","at":"2026-06-04T10:00:00Z","place":"fridge","product":"alfa","lot":"A1",)"
              R"("doses":)" +
              std::to_string(leave) + R"(,"to":"Harbour","reason":"used sooner there"})"},
             "2026-06-04T10:00:00Z");
    }
    /// Every half hour; 11 °C from 06-03 22:00 to 06-04 03:00 where `warm`.
    static std::string rows(const std::string& from, const std::string& until, bool warm) {
        std::vector<std::pair<std::int64_t, std::string>> out;
        for (Instant t = at(from); t <= at(until); t = t + Duration(1800))
            out.emplace_back((t - at(from)).seconds(), warm && t >= at("2026-06-03T22:00:00Z") &&
                                                               t <= at("2026-06-04T03:00:00Z")
                                                           ? "11"
                                                           : "5");
        return readings(from, out);
    }
    std::vector<Remark> read_later(bool warm = true, const std::string& now = "2026-06-05T12:30:00Z") {
        const std::string line = rows("2026-06-03T12:30:00Z", "2026-06-05T12:00:00Z", warm);
        std::vector<Remark> warnings;
        ledger.post(line.substr(0, line.size() - 1) + R"(,"by":"QA"})", at(now), false, &warnings);
        return warnings;
    }
    void act(const std::string& step, const std::string& text, const std::string& when,
             std::vector<EntryNumber> told = {}) {
        StepRequest request;
        request.incident = "2026-1", request.step = incident_step_of(step), request.text = text, request.by = "ab";
        request.told = std::move(told);
        if (step == "noticed") request.place = "fridge";
        Drafted steps = step_draft(ledger, request, at(when), at(when));
        ledger.post(steps, at(when));
    }
    std::optional<EntryNumber> told(const std::string& when) const {
        return ledger.incident("2026-1", std::nullopt, {}, at(when)).left.at(0).told;
    }
    std::string draft(const std::string& kind, const std::string& fields, const std::string& when) {
        return R"({"kind":")" + kind + R"(","by":"ab","at":")" + when + R"(","product":"alfa","lot":"A1",)" + fields +
               "}";
    }
    std::string discard(const std::string& when = "2026-06-05T14:00:00Z") {
        return draft("guidance",
                     R"("through":"2026-06-05T13:00:00Z","verdict":"discard","issuer":"Maker","reference":"recall 7")",
                     when);
    }
};

constexpr EntryNumber transfer = 10;
const std::string later = "2026-06-05T15:00:00Z";
const std::string which = "alfa lot A1, sent from fridge to Harbour 2026-06-04 10:00 (entry 10)";

}  // namespace

TEST_CASE("readings that come later say what they show of doses that have left", "[departed]") {
    for (const int leave : {20, 15}) {
        Sender c(leave);
        const auto said = c.read_later();
        // two days without a reading are not known by then
        CHECK(says(said, "WORSE NOW, AND NOT HERE ANY MORE: " + std::to_string(leave) + " doses of " + which +
                             " (quarantine-pending-guidance; new: warm, point; now known: too warm for"));
        CHECK(says(said, "Harbour must be told: `coldtally handover 10`"));
        // what is still here is said as before
        CHECK(says(said, "WORSE NOW: these doses come on a list") == (leave == 15));
    }
    Sender good;
    CHECK_FALSE(says(good.read_later(false), "NOT HERE ANY MORE"));
}

TEST_CASE("what an answer or a recall changes is said of doses that have left", "[departed]") {
    Sender c;
    c.read_later();
    const auto now = at("2026-06-05T14:00:00Z");
    const Changes changes = c.ledger.changes(c.ledger.draft(c.discard(), now).entries, now);
    REQUIRE(changes.left.size() == 1);
    CHECK(changes.left[0].before.since.empty());
    CHECK(changes.left[0].after.since.at(0).discard);
    const std::string table = to_table(changes, wide());
    CHECK(has(table, "NOT HERE ANY MORE: 20 doses of " + which +
                         ": quarantine-pending-guidance: warm, point as before; guidance says discard: Maker, rec"));
    const Json json = Json::parse(to_json(changes));
    CHECK(json["left"][0]["to"] == "Harbour");
    CHECK(json["left"][0]["after"]["since"][0]["text"] == "guidance says discard: Maker, recall 7 (entry 12)");
    CHECK(json["left"][0]["after"]["since"][0]["text_code"]["code"] == "guidance-says");
    CHECK(json["left"][0]["news"].size() == 1);

    const auto recall = c.ledger.draft(c.draft("hold", R"("reason":"recall")", "2026-06-05T14:00:00Z"), now);
    CHECK(says(recall.warnings, "NOT HERE ANY MORE: 20 doses of " + which));
    // what is held in one place is what is there
    const auto here = c.ledger.draft(c.draft("hold", R"("reason":"door","place":"fridge")", later), at(later));
    CHECK_FALSE(says(here.warnings, "NOT HERE ANY MORE"));

    // guidance about the others says nothing of these
    const auto other = c.ledger.draft(
        c.draft("guidance",
                R"("through":"2026-06-05T13:00:00Z","mark":"m","verdict":"use","issuer":"M","reference":"r")",
                "2026-06-05T14:00:00Z"),
        now);
    CHECK(c.ledger.changes(other.entries, now).left.empty());
}

TEST_CASE("follow-up and readiness name doses that have left", "[departed]") {
    Sender c;
    const auto quiet = c.ledger.follow_up({}, {}, {}, at("2026-06-04T11:00:00Z"));
    CHECK(quiet.left.empty());  // nothing was learnt of them
    CHECK(c.ledger.follow_up("A1", {}, {}, at("2026-06-04T11:00:00Z")).left.at(0).news.empty());
    c.read_later();
    c.ledger.post(c.ledger.draft(c.draft("hold", R"("reason":"recall")", "2026-06-05T14:00:00Z"), at(later)).entries,
                  at("2026-06-05T14:00:00Z"));
    const auto whole = c.ledger.follow_up({}, {}, {}, at(later)), lot = c.ledger.follow_up("A1", {}, {}, at(later));
    REQUIRE(whole.left.size() == 1);
    REQUIRE(lot.left.size() == 1);
    CHECK(lot.left[0].departure.entry == transfer);
    CHECK(lot.left[0].list == List::quarantine);
    CHECK(says(lot.left[0].news, "keep -> quarantine-pending-guidance for warm, point"));
    CHECK(has_code(lot.left[0].news, "becomes-for"));
    CHECK(says(lot.left[0].news, "held: recall (entry 12)"));
    const std::string table = to_table(lot, wide());
    CHECK(has(table, "No dose of it was given."));
    CHECK(has(table, "Left this site, in no count: tell who has them"));
    CHECK(has(table, "20 doses of " + which));
    CHECK(Json::parse(to_json(lot))["left"][0]["told"].is_null());

    const auto ready = c.ledger.readiness(std::nullopt, {}, at(later));
    const auto found = std::ranges::find(ready.findings, ReadinessAnswer::Matter::doses_that_left,
                                         &ReadinessAnswer::Finding::topic);
    REQUIRE(found != ready.findings.end());
    CHECK(has(english().say(found->text), which));
    CHECK(found->urgency == ReadinessAnswer::Urgency::act);
}

TEST_CASE("a handover that is stated anew says what was said since", "[departed]") {
    Sender c;
    c.read_later();
    const auto before = c.ledger.handover(transfer, {}, at("2026-06-05T13:30:00Z"));
    CHECK(before.list == List::quarantine);
    c.ledger.post(c.ledger.draft(c.draft("hold", R"("reason":"recall")", "2026-06-05T13:40:00Z"), at(later)).entries,
                  at("2026-06-05T13:40:00Z"));
    const auto held = c.ledger.handover(transfer, {}, at("2026-06-05T13:50:00Z"));
    CHECK(std::ranges::count(held.reasons, Reason::held) == 1);
    CHECK(says(held.to_hold, "held: recall (entry 12)"));
    CHECK_NOTHROW(handover_file(held));
    c.ledger.post(c.ledger.draft(c.discard(), at(later)).entries, at("2026-06-05T14:00:00Z"));
    const auto after = c.ledger.handover(transfer, {}, at(later));
    CHECK(after.condemned);
    CHECK(after.list == List::discard);
    CHECK(says(after.beside, "SAID SINCE THEY LEFT: guidance says discard: Maker, recall 7 (entry 13)"));
    CHECK(says(after.beside, "SAID SINCE THEY LEFT: held: recall (entry 12)"));
    CHECK_THROWS_AS(handover_file(after), Error);
    // asked as known before, it says what was known
    CHECK_FALSE(c.ledger.handover(transfer, {std::nullopt, at("2026-06-05T13:30:00Z")}, at(later)).condemned);
}

TEST_CASE("who has them counts as told by a step that states their entry, or a report to them, alone", "[departed]") {
    Sender c(15);
    c.read_later();
    c.act("noticed", "late", "2026-06-05T13:00:00Z");
    c.act("action", "Harbour could not be reached", "2026-06-05T13:30:00Z");
    CHECK(c.told("2026-06-05T13:40:00Z") == std::nullopt);
    CHECK(says(still_open(c.ledger, "2026-1", at("2026-06-05T13:40:00Z")), "Harbour must be told"));
    CHECK(has(to_table(c.ledger.incident("2026-1", std::nullopt, {}, at("2026-06-05T13:40:00Z")), wide()),
              "Harbour must be told"));
    c.act("action", "not yet told of entry 10", "2026-06-05T13:45:00Z");
    c.act("action", "told of entry 1, 101: somebody", "2026-06-05T13:46:00Z");
    CHECK(c.told("2026-06-05T13:50:00Z") == std::nullopt);
    c.act("action", "by telephone, Ms. N", "2026-06-05T14:00:00Z", {transfer});
    const auto told = c.told("2026-06-05T14:10:00Z");
    REQUIRE(told);
    CHECK(c.ledger.incident("2026-1", std::nullopt, {}, at(later)).steps.back().text ==
          "told of entry 10: by telephone, Ms. N");
    CHECK_FALSE(says(still_open(c.ledger, "2026-1", at("2026-06-05T14:10:00Z")), "Harbour must be told"));
    CHECK(c.ledger.follow_up("A1", {}, {}, at("2026-06-05T14:10:00Z")).left.at(0).news.empty());
    // worse is learnt: told no more
    c.ledger.post(c.ledger.draft(c.discard(), at(later)).entries, at("2026-06-05T14:30:00Z"));
    CHECK(c.told(later) == std::nullopt);
    CHECK(says(c.ledger.follow_up("A1", {}, {}, at(later)).left.at(0).news, "guidance says discard"));

    Sender reported(15);
    reported.read_later();
    reported.act("noticed", "late", "2026-06-05T13:00:00Z");
    const auto report = [&](const char* to) {
        ReportRequest request;
        request.incident = "2026-1", request.to = Recipient::supervisor, request.recipient = to, request.by = "ab";
        request.uncounted = true;
        const auto when = at("2026-06-05T14:00:00Z");
        reported.ledger.post({report_draft(reported.ledger, request, when, when)}, when);
    };
    report("Harbour Street");
    CHECK(reported.told("2026-06-05T14:10:00Z") == std::nullopt);
    report("Harbour");
    CHECK(reported.told("2026-06-05T14:10:00Z").has_value());
}

TEST_CASE("a step tells of doses that left by an entry, and of nothing else", "[departed]") {
    Sender c(15);
    c.read_later();
    c.act("noticed", "late", "2026-06-05T13:00:00Z");
    const auto code = [&](const std::string& step, EntryNumber entry) {
        try {
            c.act(step, "by telephone", "2026-06-05T13:30:00Z", {entry});
        } catch (const Error& e) {
            return std::optional(e.code());
        }
        return std::optional<Code>();
    };
    CHECK(code("action", 8) == Code::not_known);  // a receive
    CHECK(code("cause", transfer) == Code::contradiction);
    CHECK(code("health department told", transfer) == std::nullopt);
}
