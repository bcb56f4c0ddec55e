// Conditions of invented programmes on temperatures worked by hand: the arithmetic stands beside each case.
#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "clinic.hpp"
#include "words/general.hpp"
#include "words/rules.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const std::vector<std::string> site{
    R"({"kind":"site","name":"Wren Street Practice, invented","zone":"UTC"})",
    R"({"kind":"place","place":"main","name":"Refrigerator","type":"refrigerator","range":{"low":{"C":"2"},)"
    R"("high":{"C":"8"}}})",
    R"({"kind":"place","place":"ice","name":"Freezer","type":"freezer","range":{"high":{"C":"-15"}}})",
    R"({"kind":"probe","probe":"p","scale":"C"})",
    R"({"kind":"assign","at":"2026-01-01T00:00:00Z","probe":"p","place":"main"})"};

std::string rules_with(const std::string& conditions) {
    return R"({"kind":"rules","programme":"P","source":"invented","dated":"2026-01-01","report":[)" + conditions + "]}";
}

/// The finding of one condition in `main` over a window.
RuleFinding found(const Clinic& c, const std::string& rule, const std::string& from = "2026-01-01T00:00:00Z",
                  const std::string& until = "2026-12-31T00:00:00Z") {
    const auto answer =
        c.ledger.rules("main", at(from), at(until), {at(until), std::nullopt}, at("2030-01-01T00:00:00Z"));
    for (const auto& f : answer.findings)
        if (f.rule == rule) return f;
    FAIL("no finding of " << rule);
    return {};
}

Rational first(const RuleFinding::Level& level, const std::string& start) {
    REQUIRE(level.first_s);
    return *level.first_s - Rational(at(start).seconds_since_1970());
}

const std::string start = "2026-03-01T00:00:00Z";

}  // namespace

TEST_CASE("a run is met when its threshold is reached, on the line between two readings", "[rules]") {
    Clinic c;
    c.post(site);
    // 6 °C at 0 s rises to 12 °C at 3600 s and falls to 6 °C at 7200 s: above 8 °C from 1200 s to 6000 s, 4800 s in all
    c.post(
        {readings(start, {{0, "6"}, {3600, "12"}, {7200, "6"}}),
         rules_with(
             R"({"rule":"hour","form":"run","temperature":{"is":"above","limit":{"C":"8"}},"at_least_s":3600},)"
             R"({"rule":"exact","form":"run","temperature":{"is":"above"},"at_least_s":4800},)"
             R"({"rule":"longer","form":"run","temperature":{"is":"above"},"more_than_s":4800},)"
             R"({"rule":"freezers","form":"run","temperature":{"is":"above"},"at_least_s":1,"places":["freezer"]})")});
    CHECK(found(c, "hour").estimate.met);
    CHECK(first(found(c, "hour").estimate, start) == Rational(4800));  // 1200 + 3600
    CHECK(found(c, "hour").estimate.most == Rational(4800));
    CHECK(found(c, "exact").estimate.met);
    CHECK(!found(c, "longer").estimate.met);
    // both readings at the ends of a part must be beyond: neither part has that
    CHECK(!found(c, "hour").at_least.met);
    // no tolerance: one end beyond makes the whole part possible, so all 7200 s
    CHECK(found(c, "longer").at_most.met);
    CHECK(first(found(c, "longer").at_most, start) == Rational(4800));
    const auto all = c.ledger.rules("main", at(start), at("2026-03-02T00:00:00Z"), {}, at("2030-01-01T00:00:00Z"));
    CHECK(all.findings.size() == 3);
    // a window before or after holds nothing of it
    CHECK(!found(c, "hour", "2026-03-01T02:00:00Z", "2026-03-05T00:00:00Z").estimate.met);
    CHECK(!found(c, "hour", "2026-02-01T00:00:00Z", "2026-02-20T00:00:00Z").estimate.met);
    // one that begins inside the run knows when it was met
    CHECK(first(found(c, "hour", "2026-03-01T01:30:00Z").estimate, start) == Rational(4800));
}

TEST_CASE("the tolerance of the probe's certificate decides between at least, estimate and at most", "[rules]") {
    Clinic c;
    c.post(site);
    c.post(
        {R"({"kind":"certificate","at":"2026-01-01T00:00:00Z","probe":"p","expires":"2027-01-01","tolerance":"0.5"})",
         // 8.4 °C for an hour, then 9 °C for an hour
         readings(start, {{0, "8.4"}, {3600, "8.4"}, {3601, "9"}, {7201, "9"}, {7202, "5"}}),
         rules_with(
             R"({"rule":"hour","form":"run","temperature":{"is":"above","limit":{"C":"8"}},"at_least_s":3600},)"
             R"({"rule":"two","form":"run","temperature":{"is":"above","limit":{"C":"8"}},"at_least_s":7000},)"
             R"({"rule":"nine","form":"reading","temperature":{"is":"at or above","limit":{"C":"9"}}},)"
             R"({"rule":"over nine","form":"reading","temperature":{"is":"above","limit":{"C":"9"}}},)"
             R"({"rule":"eight and a half","form":"reading","temperature":{"is":"at or above",)"
             R"("limit":{"C":"8.5"}}})")});
    const auto hour = found(c, "hour");
    CHECK(first(hour.at_least, start) == Rational(7201));  // 9 > 8 + 0.5 alone: from 3601 s on
    CHECK(first(hour.estimate, start) == Rational(3600));
    CHECK(!found(c, "two").at_least.met);
    CHECK(found(c, "two").estimate.met);
    CHECK(!found(c, "nine").at_least.met);   // 9 < 9 + 0.5
    CHECK(found(c, "nine").estimate.met);    // 9 >= 9
    CHECK(found(c, "nine").estimate.most == Rational(2));
    CHECK(!found(c, "over nine").estimate.met);
    CHECK(found(c, "over nine").at_most.met);
    CHECK(first(found(c, "eight and a half").at_least, start) == Rational(3601));  // 9 >= 8.5 + 0.5
}

TEST_CASE("many short excursions, each below any alarm, add up to what must be reported", "[rules]") {
    // Fourteen days with two excursions of 12 min each: 28 x 720 s = 20160 s, more than the five hours in two weeks of
    // the federal audit of 2012 (OEI-04-10-00430), none of them long enough for a rule of 15 min.
    Clinic c;
    c.post(site);
    std::vector<std::pair<std::int64_t, std::string>> rows;
    for (std::int64_t day = 0; day < 14; ++day)
        for (std::int64_t t = 0; t < 86400; t += 120) {
            const std::int64_t in_half = t % 43200;
            rows.emplace_back(day * 86400 + t, in_half >= 1200 && in_half <= 1800   ? "9"
                                               : in_half == 1080 || in_half == 1920 ? "7"
                                                                                    : "5");
        }
    // 7 °C at 1080 s, 9 °C from 1200 s to 1800 s, 7 °C at 1920 s: above 8 °C from 1140 s to 1860 s, 720 s
    c.post(
        {readings(start, rows),
         rules_with(
             R"({"rule":"quarter","form":"run","temperature":{"is":"above"},"at_least_s":900},)"
             R"({"rule":"five hours","form":"sum","temperature":{"is":"above"},"at_least_s":18000,"within_s":1209600},)"
             R"({"rule":"day","form":"sum","temperature":{"is":"above"},"more_than_s":1440,"within_s":86400},)"
             R"({"rule":"pattern","form":"pattern","at_least":3,"within_s":86400})")});
    CHECK(!found(c, "quarter").estimate.met);
    CHECK(found(c, "quarter").estimate.most == Rational(720));
    const auto five = found(c, "five hours");
    CHECK(five.estimate.met);
    CHECK(five.estimate.most == Rational(20160));
    CHECK(five.at_least.most == Rational(28 * 600));  // both ends of a part above: 1200 s to 1800 s
    CHECK(!five.at_least.met);                        // 16800 s
    // 18000 = 25 x 720: reached at the end of the 25th, the first of the 13th day
    CHECK(first(five.estimate, start) == Rational(12 * 86400 + 1860));
    // in any day two of them, 1440 s: never more
    CHECK(!found(c, "day").estimate.met);
    CHECK(found(c, "day").estimate.most == Rational(1440));
    // the third begins within a day of the first
    CHECK(first(found(c, "pattern").estimate, start) == Rational(86400 + 1140));
    CHECK(found(c, "pattern").estimate.most == Rational(3));
    const auto window =
        c.ledger.excursions("main", at(start), at("2026-03-15T00:00:00Z"), {}, at("2030-01-01T00:00:00Z"));
    CHECK(window.excursions.size() == 28);
}

TEST_CASE("a sum forgets what lies before its window", "[rules]") {
    Clinic c;
    c.post(site);
    // above 8 °C: 0 to 600 s, 3000 to 3600 s, 7200 to 7800 s, each with steep flanks of 2 s from and to 6 °C (10 °C - 8
    // °C of 4 °C: 1 s of each flank), so 600 s of plateau and 2 s of flanks each
    std::vector<std::pair<std::int64_t, std::string>> rows;
    for (const std::int64_t t : {0, 3000, 7200}) {
        rows.emplace_back(t + 98, "6");
        rows.emplace_back(t + 100, "10");
        rows.emplace_back(t + 700, "10");
        rows.emplace_back(t + 702, "6");
    }
    c.post({readings(start, rows),
            rules_with(
                R"({"rule":"near","form":"sum","temperature":{"is":"above"},"at_least_s":1000,"within_s":3600},)"
                R"({"rule":"never","form":"sum","temperature":{"is":"above"},"more_than_s":1204,"within_s":4000})")});
    const auto near = found(c, "near");
    // 602 s by 701 s; from 3099 s on the second adds: 398 s later, at 3497 s, 1000 s
    CHECK(first(near.estimate, start) == Rational(3497));
    // the window of 3600 s holds both until the first begins to leave at 99 + 3600 = 3699: 602 + 600 s at 3699 s; then
    // as much leaves as comes, until 3701 s
    CHECK(near.estimate.most == Rational(1202));
    CHECK(!found(c, "never").estimate.met);
    CHECK(found(c, "never").estimate.most == Rational(1204));
}

TEST_CASE("a cold minimum between two checks is met though neither check shows it", "[rules]") {
    Clinic c;
    c.post(site);
    c.post(
        {R"({"kind":"check","at":"2026-03-01T08:00:00Z","place":"main","scale":"C","temperature":"4"})",
         R"({"kind":"check","at":"2026-03-01T17:00:00Z","place":"main","scale":"C","temperature":"4","min":"-0.5",)"
         R"("max":"5"})",
         rules_with(R"({"rule":"ice","form":"reading","temperature":{"is":"at or below","limit":{"C":"0"}}},)"
                    R"({"rule":"cold","form":"run","temperature":{"is":"below"},"at_least_s":900},)"
                    R"({"rule":"warm","form":"reading","temperature":{"is":"above"}})")});
    const auto ice = found(c, "ice");
    CHECK(first(ice.at_least, "2026-03-01T17:00:00Z") == Rational(0));  // known by then
    CHECK(first(ice.at_most, "2026-03-01T08:00:00Z") == Rational(0));   // as early as that
    const auto cold = found(c, "cold");
    CHECK(cold.estimate.most == Rational(9 * 3600));  // a minimum bounds no duration: all of it counts
    CHECK(!cold.at_least.met);
    CHECK(!found(c, "warm").at_most.met);
}

TEST_CASE("a condition for a product counts only while its doses are there", "[rules]") {
    Clinic c;
    c.post(site);
    c.post(
        {R"({"kind":"product","product":"mmr","name":"M, invented","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
         R"({"kind":"lot","product":"mmr","lot":"K1","expiry":"2027-01"})",
         R"({"kind":"receive","at":"2026-03-01T01:00:00Z","place":"main","product":"mmr","lot":"K1","doses":5})",
         R"({"kind":"move","at":"2026-03-01T01:30:00Z","product":"mmr","lot":"K1","from":{"place":"main"},)"
         R"("to":{"place":"ice"},"doses":5})",
         readings(start, {{0, "9"}, {3600, "9"}, {7200, "9"}}),
         rules_with(
             R"({"rule":"any","form":"run","temperature":{"is":"above"},"at_least_s":7200},)"
             R"({"rule":"mmr","form":"run","temperature":{"is":"above"},"at_least_s":1800,"products":["mmr"]},)"
             R"({"rule":"mmr longer","form":"run","temperature":{"is":"above"},"more_than_s":1800,)"
             R"("products":["mmr"]})")});
    CHECK(found(c, "any").at_least.met);
    CHECK(first(found(c, "mmr").at_least, start) == Rational(5400));
    CHECK(!found(c, "mmr longer").at_most.met);
}

TEST_CASE("the last rules known hold, also as they were known on a day", "[rules]") {
    Clinic c;
    c.post(site, "2026-01-02T00:00:00Z");
    const auto answer = [&](const std::string& known_on) {
        return c.ledger.rules(std::nullopt, at("2026-01-01T00:00:00Z"), at("2026-01-02T00:00:00Z"),
                              {std::nullopt, at(known_on)}, at("2030-01-01T00:00:00Z"));
    };
    c.post({rules_with(R"({"rule":"a","form":"pattern","at_least":1})")}, "2026-02-01T00:00:00Z");
    const auto second =
        c.post({rules_with(R"({"rule":"b","form":"pattern","at_least":1})")}, "2026-03-01T00:00:00Z").front();
    CHECK(!answer("2026-01-15T00:00:00Z").entry);
    CHECK(answer("2026-02-15T00:00:00Z").rules.report[0].rule == "a");
    CHECK(answer("2026-03-15T00:00:00Z").rules.report[0].rule == "b");
    c.post({R"({"kind":"void","at":"2026-03-20T00:00:00Z","voids":)" + std::to_string(second) +
            R"(,"reason":"wrong programme"})"},
           "2026-03-20T00:00:00Z");
    CHECK(answer("2026-03-21T00:00:00Z").rules.report[0].rule == "a");
}

TEST_CASE("a pattern is met when its last excursion begins: surely, by the estimate, or possibly", "[rules]") {
    Clinic c;
    c.post(site);
    // half-hourly from 14:00, tolerance 0.5: 5 °C but for 7.8 at 15:00, 8.3 at 17:00, 9 at 19:00 and at 21:00. Possibly
    // an excursion are all four, each from the reading before (an end within the tolerance makes the whole part
    // possible); by the estimate three, the second crossing 8 on the way from 5 to 9, three quarters of 1800 s after
    // 18:30; sure two, at their readings of 9.
    std::vector<std::pair<std::int64_t, std::string>> rows;
    for (std::int64_t half = 0; half < 18; ++half)
        rows.emplace_back(half * 1800, half == 2 ? "7.8" : half == 6 ? "8.3" : half == 10 || half == 14 ? "9" : "5");
    c.post(
        {R"({"kind":"certificate","at":"2026-01-01T00:00:00Z","probe":"p","expires":"2027-01-01","tolerance":"0.5"})",
         readings("2026-03-01T14:00:00Z", rows),
         rules_with(R"({"rule":"two","form":"pattern","at_least":2,"within_s":86400})")});
    const auto f = found(c, "two");
    CHECK(first(f.at_most, "2026-03-01T16:30:00Z") == Rational(0));
    CHECK(first(f.estimate, "2026-03-01T18:30:00Z") == Rational(1350));
    CHECK(first(f.at_least, "2026-03-01T21:00:00Z") == Rational(0));
    CHECK(f.at_most.most == Rational(4));
    CHECK(f.with_unknown.most == f.at_most.most);
    CHECK(f.estimate.most == Rational(3));
    CHECK(f.at_least.most == Rational(2));
}

TEST_CASE("a condition is not met only where the time that is not known could not have met it", "[rules]") {
    using State = RuleFinding::State;
    // half-hourly at 5 °C from 00:00 to 04:00 and from 08:00 to 12:00; nothing is known of the four hours between
    Clinic c;
    c.post(site);
    std::vector<std::pair<std::int64_t, std::string>> rows;
    for (std::int64_t t = 0; t <= 12 * 3600; t += 1800)
        if (t <= 4 * 3600 || t >= 8 * 3600) rows.emplace_back(t, "5");
    c.post({readings(start, rows),
            rules_with(
                R"({"rule":"hour","form":"run","temperature":{"is":"above","limit":{"C":"8"}},"at_least_s":3600},)"
                R"({"rule":"four","form":"run","temperature":{"is":"above","limit":{"C":"8"}},"at_least_s":14400},)"
                R"({"rule":"longer","form":"run","temperature":{"is":"above","limit":{"C":"8"}},"more_than_s":14400},)"
                R"({"rule":"sum","form":"sum","temperature":{"is":"above"},"at_least_s":7200,"within_s":43200},)"
                R"({"rule":"five","form":"sum","temperature":{"is":"above"},"more_than_s":14400,"within_s":43200},)"
                R"({"rule":"ice","form":"reading","temperature":{"is":"at or below","limit":{"C":"0"}}},)"
                R"({"rule":"again","form":"pattern","at_least":3,"within_s":86400})")});
    const auto window = [&](const std::string& rule, const std::string& from, const std::string& until) {
        return found(c, rule, "2026-03-01T" + from, "2026-03-01T" + until).state();
    };
    const auto whole_morning = [&](const std::string& rule) { return window(rule, "00:00:00Z", "12:00:00Z"); };
    CHECK(whole_morning("hour") == State::cannot_be_said);
    CHECK(whole_morning("four") == State::cannot_be_said);
    CHECK(whole_morning("longer") == State::not_met);  // four hours are not more than four
    CHECK(whole_morning("sum") == State::cannot_be_said);
    CHECK(whole_morning("five") == State::not_met);
    CHECK(whole_morning("ice") == State::cannot_be_said);
    CHECK(whole_morning("again") == State::cannot_be_said);
    const auto hour = found(c, "hour", start, "2026-03-01T12:00:00Z");
    CHECK(first(hour.with_unknown, start) == Rational(5 * 3600));
    CHECK(hour.with_unknown.most == Rational(4 * 3600));
    CHECK(!hour.at_most.met);
    // where every minute is known, nothing of the kind
    for (const char* rule : {"hour", "four", "sum", "ice"}) {
        INFO(rule);
        CHECK(window(rule, "00:30:00Z", "03:30:00Z") == State::not_met);
    }
    const auto known = found(c, "hour", "2026-03-01T00:30:00Z", "2026-03-01T03:30:00Z");
    CHECK(known.unknown_s == Rational(0));
    // a sum looks back: of what was just before the window it has to know, too
    CHECK(window("sum", "08:00:00Z", "12:00:00Z") == State::cannot_be_said);
    CHECK(window("again", "09:00:00Z", "12:00:00Z") == State::not_met);  // none begins in the window
    const auto answer = c.ledger.rules("main", at(start), at("2026-03-01T12:00:00Z"),
                                       {at("2026-03-01T12:00:00Z"), std::nullopt}, at("2030-01-01T00:00:00Z"));
    const std::string table = to_table(answer, {Zone("UTC")});
    CHECK(table.find("hour: CANNOT BE SAID: the temperature is not known for ") != std::string::npos);
    CHECK(table.find("hour: not met") == std::string::npos);
    CHECK(to_json(answer).find(R"("state":"cannot be said")") != std::string::npos);
}

TEST_CASE("what has not been read yet cannot be said either", "[rules]") {
    Clinic c;
    c.post(site, "2026-03-02T00:00:00Z");
    c.post({readings(start, {{0, "5"}, {1800, "5"}, {3600, "5"}}),
            rules_with(R"({"rule":"hour","form":"run","temperature":{"is":"above"},"at_least_s":3600})")},
           "2026-03-02T00:00:00Z");
    const auto f = found(c, "hour", start, "2026-03-01T06:00:00Z");
    CHECK(f.state() == RuleFinding::State::cannot_be_said);
    // time before the first thing known is asked about only where the window asks for it
    CHECK(found(c, "hour", start, "2026-03-01T01:00:00Z").state() == RuleFinding::State::not_met);
    CHECK(found(c, "hour", "2026-02-28T20:00:00Z", "2026-03-01T01:00:00Z").state() ==
          RuleFinding::State::cannot_be_said);
}

TEST_CASE("time near a reading in range is not known to a condition", "[rules]") {
    Clinic c;
    c.post(site);
    // 80 minutes apart, more than the hour over which a line is drawn: near each for half an hour, 20 minutes between
    c.post({readings(start, {{0, "5"}, {4800, "5"}}),
            rules_with(R"({"rule":"hour","form":"run","temperature":{"is":"above"},"at_least_s":3600},)"
                       R"({"rule":"ice","form":"reading","temperature":{"is":"at or below","limit":{"C":"0"}}})")});
    const std::string end = "2026-03-01T01:20:00Z";
    const auto hour = found(c, "hour", start, end);
    CHECK(hour.unknown_s == Rational(4800));
    CHECK(hour.state() == RuleFinding::State::cannot_be_said);
    CHECK(first(hour.with_unknown, start) == Rational(3600));
    CHECK(hour.with_unknown.most == Rational(4800));
    // the first half hour alone, all of it near
    const auto ice = found(c, "ice", start, "2026-03-01T00:30:00Z");
    CHECK(ice.unknown_s == Rational(1800));
    CHECK(ice.state() == RuleFinding::State::cannot_be_said);
}

TEST_CASE("of a container that is empty nobody asks what its temperature was", "[rules]") {
    Clinic c;
    c.post(site);
    c.post(
        {R"({"kind":"place","place":"box","name":"Container","type":"transport container")"
         R"(,"range":{"low":{"C":"2"},"high":{"C":"8"}}})",
         R"({"kind":"product","product":"mmr","name":"M, invented","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
         R"({"kind":"lot","product":"mmr","lot":"K1","expiry":"2027-01"})",
         R"({"kind":"receive","at":"2026-03-01T01:00:00Z","place":"box","product":"mmr","lot":"K1","doses":5})",
         R"({"kind":"waste","at":"2026-03-01T03:00:00Z","place":"box","product":"mmr","lot":"K1","doses":5)"
         R"(,"reason":"dropped"})",
         rules_with(R"({"rule":"hour","form":"run","temperature":{"is":"above"},"at_least_s":3600})")});
    const auto state = [&](const std::string& from, const std::string& until) {
        return c.ledger.rules("box", at(from), at(until), {}, at("2030-01-01T00:00:00Z")).findings.at(0).state();
    };
    CHECK(state("2026-02-01T00:00:00Z", "2026-02-20T00:00:00Z") == RuleFinding::State::not_met);
    CHECK(state("2026-03-01T00:00:00Z", "2026-03-02T00:00:00Z") == RuleFinding::State::cannot_be_said);
}

TEST_CASE("between two plain checks nothing is known, and a condition cannot be said not to be met", "[rules]") {
    using State = RuleFinding::State;
    // checks at 16:00, 02:00 and 08:00, each 5 °C: 10 h and 6 h between them, and somebody read 5 °C in between
    Clinic c;
    c.post(site);
    const auto check = [](const std::string& when) {
        return R"({"kind":"check","at":")" + when + R"(","place":"annex","scale":"C","temperature":"5"})";
    };
    c.post({R"({"kind":"place","place":"annex","name":"A","type":"refrigerator","range":{"low":{"C":"2"},)"
            R"("high":{"C":"8"}}})",
            check("2026-03-01T16:00:00Z"), check("2026-03-02T02:00:00Z"), check("2026-03-02T08:00:00Z"),
            rules_with(
                R"({"rule":"hour","form":"run","temperature":{"is":"above","limit":{"C":"8"}},"at_least_s":3600},)"
                R"({"rule":"ten","form":"run","temperature":{"is":"above","limit":{"C":"8"}},"at_least_s":36000},)"
                R"({"rule":"more","form":"run","temperature":{"is":"above","limit":{"C":"8"}},"more_than_s":36000},)"
                R"({"rule":"sum","form":"sum","temperature":{"is":"above"},"more_than_s":36000,"within_s":86400},)"
                R"({"rule":"ice","form":"reading","temperature":{"is":"at or below","limit":{"C":"0"}}})")});
    const auto answer = c.ledger.rules("annex", at("2026-03-01T16:00:00Z"), at("2026-03-02T08:00:00Z"),
                                       {at("2026-03-02T08:00:00Z"), std::nullopt}, at("2030-01-01T00:00:00Z"));
    const auto of = [&](const std::string& rule) -> const RuleFinding& {
        for (const auto& f : answer.findings)
            if (f.rule == rule) return f;
        FAIL("no finding of " << rule);
        return answer.findings.front();
    };
    CHECK(of("hour").state() == State::cannot_be_said);
    CHECK(of("hour").unknown_s == Rational(57600));
    CHECK(of("hour").checked_s == Rational(57600));
    CHECK(of("ten").state() == State::cannot_be_said);
    CHECK(of("ten").with_unknown.most == Rational(36000));
    CHECK(of("more").state() == State::not_met);  // ten hours without a break are not more than ten
    CHECK(of("sum").state() == State::cannot_be_said);
    CHECK(of("ice").state() == State::cannot_be_said);
    TableStyle wide{Zone("UTC")};
    wide.columns = 400;
    CHECK(to_table(answer, wide).find("hour: CANNOT BE SAID: nothing is known for 16 h between plain checks, in which "
                                      "it may have been met") != std::string::npos);
    CHECK(to_json(answer).find(R"("unknown_s":"57600","checked_s":"57600")") != std::string::npos);
}

TEST_CASE("a run that reaches out of the window counts whole, and one that begins with its end does not", "[rules]") {
    using State = RuleFinding::State;
    // half-hourly at 5 °C from 00:00 to 04:00; nothing is known after that up to 08:00
    Clinic c;
    c.post(site);
    std::vector<std::pair<std::int64_t, std::string>> rows;
    for (std::int64_t t = 0; t <= 9 * 3600; t += 1800)
        if (t <= 4 * 3600 || t >= 8 * 3600) rows.emplace_back(t, "5");
    c.post({readings(start, rows),
            rules_with(R"({"rule":"hour","form":"run","temperature":{"is":"above"},"at_least_s":3600})")});
    const auto hour = [&](const std::string& until) {
        return c.ledger
            .rules("main", at(start), at(until), {at("2026-03-01T09:00:00Z"), std::nullopt},
                   at("2030-01-01T00:00:00Z"))
            .findings.at(0);
    };
    const auto before = hour("2026-03-01T04:00:00Z"), into = hour("2026-03-01T04:30:00Z");
    CHECK(before.state() == State::not_met);
    CHECK(before.with_unknown.most == Rational(0));
    CHECK(into.state() == State::cannot_be_said);  // and not "not met (up to 4 h with what is not known)"
    CHECK(into.with_unknown.most == Rational(4 * 3600));
}

TEST_CASE("a place that no condition is for is said to be none", "[rules]") {
    Clinic c;
    c.post(site);
    c.post({R"({"kind":"place","place":"counter","name":"C","type":"room","range":{"low":{"C":"15"},)"
            R"("high":{"C":"25"}}})",
            rules_with(R"({"rule":"hour","form":"run","temperature":{"is":"above"},"at_least_s":3600,)"
                       R"("places":["refrigerator"]})")});
    const auto answer = c.ledger.rules(std::nullopt, at(start), at("2026-03-02T00:00:00Z"), {},
                                       at("2030-01-01T00:00:00Z"));
    REQUIRE(answer.not_judged.size() == 2);
    CHECK(answer.not_judged[0].place == "counter");
    CHECK(answer.not_judged[0].why == words::no_condition_for_type(words::room));
    const auto json = nlohmann::json::parse(to_json(answer));
    CHECK(json["not_judged"] ==
          nlohmann::json({"counter: no condition of the programme is for a place of the type room",
                          "ice: no condition of the programme is for a place of the type freezer"}));
    CHECK(json["not_judged_codes"][1]["fields"]["is"]["code"] == "no-condition-for-type");
    CHECK(to_table(answer, {Zone("UTC")}).find("no condition of the programme is for a place of the type room") !=
          std::string::npos);
}
