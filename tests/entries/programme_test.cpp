// Rules of a programme, makers and reports: their JSON goes in and comes out unchanged, and what is wrong is refused
// with the reason.
#include <catch2/catch.hpp>

#include "coldtally/error.hpp"
#include "entries/parse.hpp"

using namespace coldtally;

namespace {

const std::string head =
    R"({"kind":"rules","by":"QA","programme":"P, invented","source":"handbook 4","dated":"2025-11-01")";

Entry read(const std::string& text) {
    static const Zone utc("UTC");
    return entries::parse_entry(text::parse_json(text, "line 1"), &utc, "line 1", entries::Form::posted);
}

std::string refusal(const std::string& text) {
    try {
        read(text);
    } catch (const Error& e) {
        return e.what();
    }
    return "not refused";
}

}  // namespace

TEST_CASE("a programme's rules come out as they went in", "[programme]") {
    const std::string text =
        head +
        R"(,"report":[{"rule":"warm","text":"an hour","form":"run","temperature":{"is":"above","limit":{"C":"8",)"
        R"("F":"46"}},"at_least_s":3600,"places":["refrigerator","room"]},)"
        R"({"rule":"sum","form":"sum","temperature":{"is":"below"},"more_than_s":3600,"within_s":172800},)"
        R"({"rule":"ice","form":"reading","temperature":{"is":"at or below","limit":{"F":"33"}},"products":["mmr"]},)"
        R"({"rule":"again","form":"pattern","more_than":2,"within_s":1209600},)"
        R"({"rule":"ever","form":"pattern","temperature":{"is":"at or above","limit":{"C":"8"}},"at_least":2}],)"
        R"("duties":[{"step":"supervisor told","within_s":0},)"
        R"({"step":"answer","within_s":172800,"if_reportable":true}],)"
        R"("retention":[{"records":"temperature logs","years":3}],)"
        R"("checks":[{"places":["freezer"],"weekdays":["Monday","Sunday"],"per_day":2,"by":["08:05","17:30"],)"
        R"("min_max":true}],)"
        R"("longest_trip_s":28800,"repay_loans_within_days":90,"every_days":{"count":31,"training":365}})";
    const Entry e = read(text);
    CHECK(to_json(e) == text);
    CHECK(is_definition(e));
    const auto& r = std::get<ProgrammeRules>(e.fact);
    REQUIRE(r.report.size() == 5);
    CHECK(r.report[1].more_than);
    CHECK(!r.report[1].temperature->limit);
    CHECK(!r.report[4].within);
    CHECK(r.checks[0].weekdays == std::vector<int>{1, 7});
    CHECK(r.checks[0].by == std::vector<int>{8 * 3600 + 300, 17 * 3600 + 1800});
    CHECK(r.every_days.at("count") == 31);
    // nothing is assumed for what is left out
    CHECK(to_json(read(head + "}")) == head + "}");
}

TEST_CASE("a maker and a report come out as they went in", "[programme]") {
    const std::string maker =
        R"({"kind":"maker","by":"QA","product":"mmr","name":"Works, invented","contact":"answers desk",)"
        R"("phone":"555-0100","email":"a@example.org"})";
    CHECK(to_json(read(maker)) == maker);
    const std::string report =
        R"({"kind":"report","at":"2026-03-02T09:00:00Z","by":"QA","incident":"2026-1","to":"manufacturer",)"
        R"("recipient":"Works, invented",)"
        R"("through":"2026-03-02T08:00:00Z","counted":false,"reference":"case 7","text":"by telephone",)"
        R"("told":[{"place":"main","product":"mmr","lot":"K1","fund":"state",)"
        R"("mark":"bin 2","doses":9,"out_of_range_s":3600,"unmonitored_s":0,"points":4}]})";
    CHECK(to_json(read(report)) == report);
}

TEST_CASE("rules that say nothing clear are refused with what would be right", "[programme]") {
    const auto with = [](const std::string& more) { return refusal(head + "," + more + "}"); };
    CHECK(refusal(R"({"kind":"rules","by":"QA","programme":"P","dated":"2025-11-01"})") ==
          "line 1: source: is missing");
    CHECK(with(R"("report":[{"rule":"a","form":"run","temperature":{"is":"above"},"at_least_s":1,"more_than_s":1}])") ==
          "line 1: report[0]: at_least_s: must be given, or more_than_s, and not both");
    CHECK(with(R"("report":[{"rule":"a","form":"run","temperature":{"is":"over"},"at_least_s":1}])") ==
          R"(line 1: report[0]: temperature: is: "over": must be "above", "at or above", "below" or "at or below")");
    CHECK(with(R"("report":[{"rule":"a","form":"sum","temperature":{"is":"above"},"at_least_s":1}])") ==
          "line 1: report[0]: within_s: is missing");
    CHECK(with(R"("report":[{"rule":"a","form":"reading"}])") == "line 1: report[0]: temperature: is missing");
    CHECK(with(R"("report":[{"rule":"a","form":"reading","temperature":{"is":"above"},"at_least_s":1}])")
              .find("at_least_s") != std::string::npos);
    CHECK(with(R"("report":[{"rule":"a","form":"pattern","at_least":2},{"rule":"a","form":"pattern","at_least":3}])") ==
          R"(line 1: report: "a": must be there once)");
    CHECK(with(R"("report":[{"rule":"a","form":"pattern","at_least":2,"places":[]}])").find("must not be empty") !=
          std::string::npos);
    CHECK(with(R"("checks":[{"weekdays":["Monday"],"per_day":2,"by":["09:00"]}])").find("as many times as per_day") !=
          std::string::npos);
    CHECK(with(R"("checks":[{"weekdays":["Monday"],"per_day":2,"by":["09:00","08:00"]}])").find("must increase") !=
          std::string::npos);
    CHECK(with(R"("checks":[{"weekdays":["Mo"],"per_day":1}])").find("\"Monday\"") != std::string::npos);
    CHECK(with(R"("duties":[{"step":"noticed","within_s":1}])").find("\"supervisor told\"") != std::string::npos);
    CHECK(with(R"("every_days":{"audits":3})").find("\"self-audit\"") != std::string::npos);
    CHECK(with(R"("loans":3)").find("loans") != std::string::npos);
    CHECK(
        refusal(
            R"({"kind":"report","at":"2026-03-02T09:00:00Z","by":"QA","incident":"i","to":"manufacturer",)"
            R"("recipient":"W","through":"2026-03-02T09:00:01Z","counted":true})")
            .find("through") != std::string::npos);
}

TEST_CASE("steps, duties and recipients have the names that entries state, and no others", "[programme]") {
    for (const char* name :
         {"noticed", "supervisor told", "health department told", "manufacturer told", "cause", "action", "closed"}) {
        INFO(name);
        const IncidentStep step = incident_step_of(name);
        CHECK(incident_step_name(step) == name);
        CHECK(is_telling(step) == std::string(name).ends_with(" told"));
        const Entry e = read(R"({"kind":"incident","at":"2026-03-02T09:00:00Z","by":"QA","incident":"i","step":")" +
                             std::string(name) + R"(","text":"x"})");
        CHECK(std::get<Incident>(e.fact).step == step);
    }
    for (const Recipient to : {Recipient::supervisor, Recipient::health_department, Recipient::manufacturer}) {
        CHECK(recipient_of(recipient_name(to)) == to);
        CHECK(duty_step_name(told_duty(to)) == std::string(recipient_name(to)) + " told");
        CHECK(incident_step_name(*step_of(told_duty(to))) == duty_step_name(told_duty(to)));
    }
    CHECK(step_of(DutyStep::answer) == std::nullopt);
    CHECK(duty_step_name(DutyStep::answer) == "answer");
    CHECK_THROWS_WITH(incident_step_of("answer"),
                      "step: \"answer\": must be \"noticed\", \"supervisor told\", \"health department told\", "
                      "\"manufacturer told\", \"cause\", \"action\" or \"closed\"");
    CHECK_THROWS_WITH(recipient_of("county"),
                      "to: \"county\": must be \"supervisor\", \"health department\" or \"manufacturer\"");
}
