// A late entry that later movements contradict: what is taken back and posted again. Data invented; counted by hand.
#include <catch2/catch.hpp>

#include "clinic.hpp"
#include "coldtally/work.hpp"
#include "said.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const std::string now = "2026-03-05T12:00:00Z";

/// Ten doses in main from the first on, all of them moved to annex on the second, one given there on the third.
struct Practice : Clinic {
    Practice() {
        const std::string fridge = R"("type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}})";
        post({R"({"kind":"site","name":"Invented","zone":"UTC","unmonitored_limit_s":1000000000})",  // 1
              R"({"kind":"place","place":"main","name":"Main",)" + fridge + "}",                     // 2
              R"({"kind":"place","place":"annex","name":"Annex",)" + fridge + "}",                   // 3
              R"({"kind":"product","product":"elm","name":"Elm","range":{"low":{"C":"2"},"high":{"C":"8"}}})",  // 4
              R"({"kind":"lot","product":"elm","lot":"E1","expiry":"2027-06"})",                     // 5
              of("receive", "01T08:00", R"("place":"main","doses":10)"),                             // 6
              of("move", "02T08:00", R"("doses":10,"from":{"place":"main"},"to":{"place":"annex"})"),  // 7
              of("give", "03T08:00", R"("place":"annex","patient":"t-1")")},                         // 8
             "2026-03-04T08:00:00Z");
    }
    static std::string of(const std::string& kind, const std::string& when, const std::string& more) {
        return R"({"kind":")" + kind + R"(","at":"2026-03-)" + when + R"(:00Z","product":"elm","lot":"E1",)" + more +
               "}";
    }
    WorkDone work(std::string json, Meant meant = {}) {
        json.insert(json.size() - 1, R"(,"by":"MK")");
        return Work(ledger, at(now)).post(json, meant);
    }
    std::optional<LateCorrection> correction(std::string json) const {
        json.insert(json.size() - 1, R"(,"by":"MK")");
        return ledger.late_correction(ledger.draft(json, at(now)), at(now));
    }
    std::int64_t doses(const std::string& place) const {
        std::int64_t out = 0;
        for (const auto& row : ledger.stock({}, at(now)).holdings)
            if (row.holding.place == place) out += row.doses.count();
        return out;
    }
    EntryNumber last() const { return ledger.stock({}, at(now)).head.last_entry; }
};

const std::string forgotten = Practice::of("give", "01T09:00", R"("place":"main","patient":"t-2")");

}  // namespace

TEST_CASE("late: a forgotten dose before a move of all that was there", "[late]") {
    Practice c;
    const auto correction = c.correction(forgotten);
    REQUIRE(correction);
    // the last is taken back first; then it, then they again in their order
    REQUIRE(correction->entries.size() == 5);
    CHECK(std::get<Void>(correction->entries[0].fact).voids == 8);
    CHECK(std::get<Void>(correction->entries[1].fact).voids == 7);
    CHECK(std::get<Give>(correction->entries[2].fact).patient == "t-2");
    CHECK(std::get<Move>(correction->entries[3].fact).doses == Doses(9));
    CHECK(*correction->entries[3].at == at("2026-03-02T08:00:00Z"));
    CHECK(*correction->entries[3].note == "posted again, entry 7 by QA");
    CHECK(std::get<Give>(correction->entries[4].fact).patient == "t-1");
    CHECK(english().say(correction->asks) ==
          "LATE: 2 later entries cannot stand as they are with this one; they are taken back and posted again after "
          "it: the move of entry 7 is of 9 doses, not 10");

    // asked, and nothing is written
    const WorkDone asked = c.work(forgotten);
    REQUIRE(!asked.asks.empty());
    CHECK(asked.asks.front().code() == "colon");
    CHECK(asked.posted.dry_run);
    REQUIRE(asked.changes);
    CHECK(c.last() == 8);

    // meant: one batch, of what was shown
    const WorkDone done = c.work(forgotten, {.yes = true});
    CHECK(done.asks.empty());
    CHECK(c.last() == 13);
    CHECK(c.doses("main") == 0);
    CHECK(c.doses("annex") == 8);
    CHECK(done.posted.what.entries.size() == asked.posted.what.entries.size());
    CHECK(c.ledger.verify().findings.empty());
}

TEST_CASE("late: a count and a move, too; what holds still stays", "[late]") {
    Practice c;
    // eight were counted, so eight were moved, and seven are left
    c.work(Practice::of("count", "01T10:00", R"("place":"main","doses":8)"), {.yes = true});
    CHECK(c.doses("annex") == 7);
    // two to the annex on the day before: six were left for the move of all
    c.work(Practice::of("move", "01T11:00", R"("doses":2,"from":{"place":"main"},"to":{"place":"annex"})"),
           {.yes = true});
    CHECK(c.doses("annex") == 7);
    CHECK(c.doses("main") == 0);
    CHECK(c.ledger.verify().findings.empty());
}

TEST_CASE("late: all that was there is wasted late, and nothing was left to move", "[late]") {
    Practice c;
    // the dose given in the annex cannot have been there: that is not for a program to settle
    const std::string waste = Practice::of("waste", "01T09:00", R"("place":"main","doses":10,"reason":"warm")");
    CHECK(!c.correction(waste));
    c.post({R"({"kind":"void","at":"2026-03-04T09:00:00Z","voids":8,"reason":"was another lot"})"},
           "2026-03-04T10:00:00Z");
    const auto correction = c.correction(waste);
    REQUIRE(correction);
    REQUIRE(correction->entries.size() == 2);  // the move is taken back, and not posted again
    CHECK(english().say(correction->asks).find("the move of entry 7 is not posted again") != std::string::npos);
}

TEST_CASE("late: nothing is offered where nothing stands against it, or it is not sure", "[late]") {
    Practice c;
    CHECK(!c.correction(Practice::of("give", "03T09:00", R"("place":"annex","patient":"t-2")")));
    // a step with a patient names the give that would get another number
    c.post({R"({"kind":"follow-up","at":"2026-03-04T09:00:00Z","give":8,"step":"told","text":"by phone"})"},
           "2026-03-04T10:00:00Z");
    CHECK(!c.correction(forgotten));
    try {
        c.work(forgotten);
        FAIL("was not refused");
    } catch (const Error& e) {
        CHECK(e.code() == Code::not_enough);
        // by the site's clock, and in the words that the commands have
        CHECK(std::string(e.what()).find("entry 7 (move at 2026-03-02 08:00)") != std::string::npos);
        CHECK(std::string(e.what()).find("take back or correct that one first") != std::string::npos);
    }
    CHECK(c.last() == 9);
}

TEST_CASE("late: more was sent away than there can have been", "[late]") {
    Practice c;
    c.post({Practice::of("transfer", "03T10:00", R"("place":"annex","doses":9,"to":"another site","reason":"near")")},
           "2026-03-04T10:00:00Z");
    CHECK(!c.correction(forgotten));
}
