// An answer says what was asked: which ledger, instant, place and window; and its rows say whose they are.
#include <catch2/catch.hpp>

#include "clinic.hpp"

using namespace coldtally;
using tests::at;
using tests::Clinic;

TEST_CASE("an answer says what was asked, and its rows whose they are", "[answers]") {
    Clinic clinic;
    clinic.post({
        R"({"kind":"site","name":"Invented clinic","zone":"UTC"})",
        R"({"kind":"product","product":"p","name":"P","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
        R"("allowances":[{"band":{"low":{"C":"8"},"high":{"C":"15"}},"seconds":300,"source":"invented"}]})",
        R"({"kind":"lot","product":"p","lot":"L","expiry":"2026-05-31"})",
        R"({"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},)"
        R"("high":{"C":"8"}}})",
        R"({"kind":"receive","at":"2026-03-02T08:00:00Z","place":"main","product":"p","lot":"L","fund":"f","doses":5})",
        R"({"kind":"give","at":"2026-03-02T09:00:00Z","place":"main","product":"p","lot":"L","fund":"f","doses":2,)"
        R"("patient":"token"})",
        R"({"kind":"give","at":"2026-03-02T09:00:00Z","place":"main","product":"p","lot":"L","fund":"f","doses":1,)"
        R"("patient":"other","certain":false})",
    });
    const Instant asked = at("2026-03-02T10:00:00Z"), known = at("2030-01-01T00:00:00Z"),
                  from = at("2026-03-02T07:00:00Z"), until = at("2026-03-02T09:30:00Z");
    const Question question{asked, known};
    const auto check = [&](const AnswerHead& head) {
        CHECK(head.ledger == "Invented clinic");
        CHECK(head.at == asked);
        CHECK(head.known_on == known);
        CHECK(head.last_entry == 7);
    };
    const HoldingKey holding{"main", "p", "L", "f", ""};

    const auto lists = clinic.ledger.lists(question, known);
    check(lists.head);
    REQUIRE(lists.holdings.size() == 1);
    CHECK(lists.holdings[0].holding == holding);
    CHECK(lists.holdings[0].doses.count() == 2);
    CHECK(lists.holdings[0].expiry.text() == "2026-05-31");
    CHECK(lists.holdings[0].allowance_seconds == std::vector{Duration(300)});
    CHECK(lists.holdings[0].history.total.seconds[static_cast<std::size_t>(Class::unmonitored)] ==
          Rational(7200));  // 08:00 to 10:00, no reading

    const auto review = clinic.ledger.review(question, known, true);
    check(review.head);
    REQUIRE(review.doses.size() == 2);  // of one instant, in the order of their numbers
    CHECK(review.doses[0].entry == 6);
    CHECK(review.doses[0].at == at("2026-03-02T09:00:00Z"));
    CHECK(review.doses[0].patient == "token");
    CHECK(review.doses[0].holding == holding);
    CHECK(review.doses[0].doses.count() == 2);
    CHECK(review.doses[0].certain);
    CHECK_FALSE(review.doses[0].guidance);
    CHECK(review.doses[0].allowance_seconds == std::vector{Duration(300)});
    CHECK(review.doses[0].history.total.seconds[static_cast<std::size_t>(Class::unmonitored)] == Rational(3600));
    CHECK(review.doses[1].entry == 7);
    CHECK_FALSE(review.doses[1].certain);

    const auto conditions = clinic.ledger.conditions("main", from, until, question, known);
    check(conditions.head);
    CHECK(conditions.place == "main");
    CHECK(conditions.from == from);
    CHECK(conditions.until == until);

    const auto excursions = clinic.ledger.excursions("main", from, until, question, known);
    check(excursions.head);
    CHECK(excursions.place == "main");
    CHECK(excursions.from == from);
    CHECK(excursions.until == until);

    const auto stays = clinic.ledger.stays("p", "L", question, known);
    check(stays.head);
    CHECK(stays.product == "p");
    CHECK(stays.lot == "L");
}

TEST_CASE("doses that have not stayed anywhere yet have an entry for each allowance all the same", "[answers]") {
    Clinic clinic;
    clinic.post({
        R"({"kind":"site","name":"Invented clinic","zone":"UTC"})",
        R"({"kind":"product","product":"p","name":"P","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
        R"("allowances":[{"band":{"low":{"C":"8"},"high":{"C":"15"}},"seconds":300,"source":"invented"}]})",
        R"({"kind":"lot","product":"p","lot":"L","expiry":"2026-05-31"})",
        R"({"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},)"
        R"("high":{"C":"8"}}})",
        R"({"kind":"receive","at":"2026-03-02T08:00:00Z","place":"main","product":"p","lot":"L","doses":5})",
        R"({"kind":"give","at":"2026-03-02T08:00:00Z","place":"main","product":"p","lot":"L","doses":2,)"
        R"("patient":"token"})",
    });
    const Instant now = at("2026-03-02T08:00:00Z");
    const auto given = clinic.ledger.review({now, {}}, at("2030-01-01T00:00:00Z"), true).doses;
    REQUIRE(given.size() == 1);
    CHECK(given[0].history.total.allowances == std::vector{Rational()});
    CHECK(given[0].history.open.allowances == std::vector{Rational()});
}
