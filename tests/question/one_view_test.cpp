// One view: no answer depends on what was asked before it. Invented data.
#include <catch2/catch.hpp>

#include <functional>

#include "clinic.hpp"
#include "conditions/conditions.hpp"
#include "conditions/excursions.hpp"
#include "conditions/incidents.hpp"
#include "conditions/place_trace.hpp"
#include "conditions/rule_times.hpp"
#include "incidents/follow_up.hpp"
#include "properties/random_site.hpp"
#include "stock/accountability.hpp"
#include "stock/dates.hpp"
#include "stock/lists.hpp"
#include "stock/review.hpp"
#include "stock/stock.hpp"
#include "temporary.hpp"
#include "upkeep/readiness.hpp"
#include "upkeep/today.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const std::vector<std::string> site{
    R"({"kind":"site","name":"Plover Lane Clinic, invented","zone":"UTC"})",
    R"({"kind":"place","place":"main","name":"Refrigerator","type":"refrigerator","range":{"low":{"C":"2"})"
    R"(,"high":{"C":"8"}}})",
    R"({"kind":"probe","probe":"p","scale":"C"})",
    R"({"kind":"assign","at":"2026-01-01T00:00:00Z","probe":"p","place":"main"})",
    R"({"kind":"product","product":"mmr","name":"M, invented","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
    R"({"kind":"lot","product":"mmr","lot":"A","expiry":"2027-06"})",
    R"({"kind":"lot","product":"mmr","lot":"B","expiry":"2027-06"})"};

std::string readings_at_5(const std::string& start, std::int64_t hours) {
    std::vector<std::pair<std::int64_t, std::string>> rows;
    for (std::int64_t t = 0; t <= hours * 3600; t += 1800) rows.emplace_back(t, "5");
    return readings(start, rows);
}

std::string receive(const std::string& when, const std::string& lot, int doses) {
    return R"({"kind":"receive","at":")" + when + R"(","place":"main","product":"mmr","lot":")" + lot +
           R"(","doses":)" + std::to_string(doses) + "}";
}
std::string give(const std::string& when, const std::string& lot, const std::string& patient) {
    return R"({"kind":"give","at":")" + when + R"(","place":"main","product":"mmr","lot":")" + lot +
           R"(","patient":")" + patient + "\"}";
}

/// The questions that look at traces, each as it is printed.
using Asked = std::function<std::string(answers::World&)>;
std::vector<std::pair<std::string, Asked>> questions(const std::string& place, Instant from, Instant until) {
    return {
        {"lists", [](auto& w) { return to_json(answers::lists(w)); }},
        {"review", [](auto& w) { return to_json(answers::review(w, true)); }},
        {"dates", [](auto& w) { return to_json(answers::dates(w)); }},
        {"trace", [=](auto& w) { return to_json(answers::place_trace(w, place, until - Duration(600), until)); }},
        {"excursions", [=](auto& w) { return to_json(answers::excursions(w, place, from, until)); }},
        {"conditions", [=](auto& w) { return to_json(answers::conditions(w, place, from, until, 10000)); }},
        {"follow-up", [](auto& w) { return to_json(answers::follow_up(w, std::nullopt, std::nullopt)); }},
        {"incidents", [=](auto& w) { return to_json(answers::incidents(w, std::nullopt, std::nullopt, from, until)); }},
        {"today", [](auto& w) { return to_json(answers::today(w)); }},
        {"readiness", [](auto& w) { return to_json(answers::readiness(w, std::nullopt)); }},
    };
}

}  // namespace

TEST_CASE("what a taken-back give changes names no give of which nothing changed, though its lot was used up",
          "[one view]") {
    Clinic c;
    c.post(site, "2026-01-01T00:00:00Z");
    const auto posted = c.post({readings_at_5("2026-01-01T09:00:00Z", 49), receive("2026-01-01T10:00:00Z", "A", 2),
                                give("2026-01-01T11:00:00Z", "A", "t-1"), give("2026-01-01T12:00:00Z", "A", "t-2"),
                                receive("2026-01-03T08:00:00Z", "B", 5)},
                               "2026-01-03T10:00:00Z");
    const Instant now = at("2026-01-03T10:00:00Z");
    Entry takeback;
    takeback.at = now;
    takeback.by = "QA";
    takeback.fact = Void{posted[3], "entered twice"};
    const Changes changes = c.ledger.changes({takeback}, now);
    REQUIRE(changes.doses.size() == 1);
    CHECK(changes.doses[0].patient == "t-2");
    CHECK(changes.doses[0].before == Finding::clear);
    CHECK(!changes.doses[0].after);
    REQUIRE(changes.holdings.size() == 1);
    CHECK(changes.holdings[0].holding.lot == "A");
    CHECK(!changes.holdings[0].before);
    CHECK(changes.holdings[0].after->list == List::keep);
    // and it is so once it is posted
    c.ledger.post(std::vector<Entry>{takeback}, now);
    const auto review = c.ledger.review({}, now, true);
    REQUIRE(review.doses.size() == 1);
    CHECK(review.doses[0].finding == Finding::clear);
}

TEST_CASE("readings are awaited of a delivery, too, that came hours after the last one was read", "[one view]") {
    // the logger was read until 07:00, the first doses came at 10:00; by the site's default its next file is awaited
    // for a day
    Clinic c;
    c.post(site, "2026-01-01T00:00:00Z");
    c.post({readings_at_5("2026-01-02T03:00:00Z", 4), receive("2026-01-02T10:00:00Z", "A", 5)}, "2026-01-02T10:30:00Z");
    const auto lists = c.ledger.lists({}, at("2026-01-02T10:30:00Z"));
    REQUIRE(lists.holdings.size() == 1);
    CHECK(lists.holdings[0].history.total.seconds[static_cast<std::size_t>(Class::awaiting)] == Rational(1800));
    CHECK(lists.holdings[0].list == List::keep);
    const auto explained = c.ledger.explain(lists.holdings[0].holding, {}, at("2026-01-02T10:30:00Z"));
    CHECK(english().say(explained.lines.back().text) == "list: keep");
}

TEST_CASE("each answer is the same after any other as alone", "[one view]") {
    // a lot with every edge of a random site, used up; then another, so that what is in stock came late
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        const properties::RandomSite random(seed);
        ::tests::TemporaryFile file;
        const Instant later(properties::start + 10 * 86400);
        {
            Ledger ledger(file.path(), Ledger::Mode::create);
            ledger.post(random.text(), later);
            const auto left = ledger.stock({}, later);
            std::string lines =
                "{\"kind\":\"lot\",\"product\":\"flu\",\"lot\":\"later\",\"expiry\":\"2027-06\",\"by\":\"QA\"}\n";
            for (const auto& row : left.holdings) {
                const HoldingKey& k = row.holding;
                lines += R"({"kind":"count","at":")" + Instant(properties::start + properties::length).text() +
                         R"(","place":")" + k.place + R"(","product":")" + k.product + R"(","lot":")" + k.lot +
                         R"(","fund":")" + k.fund + R"(","mark":")" + k.mark + R"(","doses":0,"by":"QA"})" + "\n";
            }
            for (const char* place : {"a", "b"})
                lines += R"({"kind":"receive","at":")" + Instant(properties::start + properties::length - 600).text() +
                         R"(","place":")" + place + R"(","product":"flu","lot":"later","doses":3,"by":"QA"})" + "\n";
            ledger.post(lines, later);
        }
        const auto store = ledger::Store::open(file.path(), false, 1000);
        const ledger::Transaction read(store.database(), ledger::Transaction::Kind::read);
        const auto known = ledger::Known::load(store, store.tip().entry);
        const AnswerHead head = answers::head_of(store, {}, later);
        const auto all = questions("a", Instant(properties::start), Instant(properties::start + properties::length));
        for (const auto& [first, ask_first] : all)
            for (const auto& [second, ask_second] : all) {
                answers::World alone(store, head, known), both(store, head, known);
                ask_first(both);
                INFO("seed " << seed << ": " << second << " after " << first);
                CHECK(ask_second(both) == ask_second(alone));
            }
    }
}
