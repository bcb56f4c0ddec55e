// A view is one state of a ledger: every question asked of it is answered of that. Invented data.
#include <catch2/catch.hpp>

#include "clinic.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const std::vector<std::string> site{
    R"({"kind":"site","name":"Dunlin Yard Clinic, invented","zone":"Europe/Dublin"})",
    R"({"kind":"place","place":"main","name":"Refrigerator","type":"refrigerator","range":{"low":{"C":"2"})"
    R"(,"high":{"C":"8"}}})",
    R"({"kind":"product","product":"mmr","name":"M, invented","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
    R"({"kind":"lot","product":"mmr","lot":"A","expiry":"2027-06"})",
    R"({"kind":"check","at":"2026-03-01T08:00:00Z","place":"main","temperature":"41","scale":"F"})",
    R"({"kind":"receive","at":"2026-03-01T08:00:00Z","place":"main","product":"mmr","lot":"A","doses":10})"};

std::string give(const std::string& when, const std::string& patient) {
    return R"({"kind":"give","at":")" + when + R"(","place":"main","product":"mmr","lot":"A","patient":")" + patient +
           "\"}";
}

const Instant asked = at("2026-03-02T00:00:00Z");

}  // namespace

TEST_CASE("a view answers as the short forms do, and says what all its answers rest on", "[view]") {
    Clinic c;
    c.post(site);
    const Question question{asked, std::nullopt};
    const View view = c.ledger.as_of(question, asked);
    CHECK(view.head().at == asked);
    CHECK(view.head().last_entry == 6);
    CHECK(view.zone().name() == "Europe/Dublin");
    CHECK(view.sheet_scale() == Scale::F);
    CHECK(to_json(view.lists()) == to_json(c.ledger.lists(question, asked)));
    CHECK(to_json(view.stock()) == to_json(c.ledger.stock(question, asked)));
    CHECK(to_json(view.review(true)) == to_json(c.ledger.review(question, asked, true)));
    CHECK(to_json(view.today()) == to_json(c.ledger.today(question, asked)));
    CHECK(to_json(view.readiness(std::nullopt)) == to_json(c.ledger.readiness(std::nullopt, question, asked)));
}

TEST_CASE("while there is a view nothing is posted, by its ledger or another", "[view]") {
    Clinic c;
    c.post(site);
    {
        const View view = c.ledger.as_of({}, asked);
        CHECK_THROWS_WITH(c.post({give("2026-03-01T09:00:00Z", "t-1")}), Catch::Contains("a view of it is open"));
        Ledger other(c.ledger.path(), Ledger::Mode::write, Duration(0));
        bool busy = false;
        try {
            other.post(R"({"kind":"give","by":"QA","at":"2026-03-01T09:00:00Z","place":"main","product":"mmr",)"
                       R"("lot":"A","patient":"t-2"})",
                       at("2030-01-01T00:00:00Z"));
        } catch (const Error& e) {
            busy = e.code() == Code::busy;
        }
        CHECK(busy);
        CHECK(view.stock().accounts.on_hand == 10);
        // a question of the ledger itself is answered in the same state meanwhile
        CHECK(c.ledger.stock({}, asked).head.last_entry == view.head().last_entry);
    }
    c.post({give("2026-03-01T09:00:00Z", "t-1")});
    CHECK(c.ledger.as_of({}, asked).stock().accounts.on_hand == 9);
}

TEST_CASE("of a view the zone is asked without a look at the file, and views share one state", "[view]") {
    Clinic c;
    c.post(site);
    Ledger fresh(c.ledger.path());
    const View view = fresh.as_of({}, asked);
    const auto before = fresh.counters().statements;
    for (int i = 0; i < 50; ++i) static_cast<void>(view.zone());
    CHECK(fresh.counters().statements == before);
    const View beside = fresh.as_of({}, asked);  // in the same transaction: none is begun within another
    CHECK(beside.lists().head.last_entry == view.lists().head.last_entry);
}

TEST_CASE("a view of a time before the first entry is refused, and holds nothing open", "[view]") {
    Clinic c;
    c.post(site, "2026-04-01T00:00:00Z");
    CHECK_THROWS_AS(c.ledger.as_of({std::nullopt, at("2026-03-01T00:00:00Z")}, asked), Error);
    CHECK(c.post({give("2026-03-01T09:00:00Z", "t-1")}).size() == 1);
}
