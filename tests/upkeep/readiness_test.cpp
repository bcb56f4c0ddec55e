// Readiness: a complete site has no findings; each thing that is left out makes one, with since when.
#include <catch2/catch.hpp>

#include <algorithm>
#include <functional>

#include <nlohmann/json.hpp>

#include "clinic.hpp"

using namespace coldtally;
using tests::at;
using tests::Clinic;
using Urgency = ReadinessAnswer::Urgency;
using Matter = ReadinessAnswer::Matter;

namespace {

const std::string holding = R"("place":"main","product":"flu","lot":"A1")";
const Instant midday = at("2026-06-30T12:00:00Z");

std::string rules(
    const std::string& every =
        R"("plan review":365,"training":365,"count":30,"logger reading":7,"certificate":730,"service":365)") {
    return R"({"kind":"rules","programme":"Invented Programme","source":"Handbook","dated":"2025-11-01","report":[],)"
           R"("retention":[{"records":"temperature logs","years":3},{"records":"vaccine records","years":6}],)"
           R"("checks":[{"places":["refrigerator"],"weekdays":["Monday","Tuesday","Wednesday","Thursday","Friday"],)"
           R"("per_day":2,"by":["09:00","17:00"],"min_max":true}],"repay_loans_within_days":60,"every_days":{)" +
           every + "}}";
}

std::string check(const std::string& when, const std::string& more = R"(,"min":"4","max":"6")") {
    return R"({"kind":"check","at":")" + when + R"(","place":"main","scale":"C","temperature":"5")" + more + "}";
}

std::string plan(const std::string& reviewed = R"(,"reviewed":"2026-05-20","reviewed_by":"Ada")") {
    return R"({"kind":"plan","at":"2026-05-31T00:00:00Z","people":[{"name":"Ada","role":"coordinator","mobile":"1"},)"
           R"({"name":"Bo","role":"nurse","home":"2","alternate":true}],)"
           R"("backups":[{"name":"Harbour","contact":"Cy","phone":"3","agreement":"letter","agreed":"2026-05-01",)"
           R"("power":"generator","distance":"1 km","capacity":"all"}],)"
           R"("services":[{"what":"power","phone":"4"}],"notify":[{"what":"supervisor","phone":"5"}],)"
           R"("containers":"store room","packing":"as the sheet says","steps":"call Ada",)"
           R"("signatures":[{"name":"Ada","signed":"2026-05-21"},{"name":"Bo","signed":"2026-05-21"}])" +
           reviewed + "}";
}

/// June 2026 at a site where nothing is missing; `leave_out(line)` takes lines away, `more` adds some.
struct June {
    Clinic c;
    explicit June(
        const std::function<bool(const std::string&)>& leave_out = [](const std::string&) { return false; },
        const std::vector<std::string>& more = {}, const std::string& expiry = "2026-06-30",
        const std::string& rule = rules(), std::int64_t days_read = 30) {
        std::vector<std::string> lines = {
            R"({"kind":"site","name":"June","zone":"UTC"})",
            R"({"kind":"product","product":"flu","name":"Flu","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
            R"({"kind":"lot","product":"flu","lot":"A1","expiry":")" + expiry + R"("})",
            R"({"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},)"
            R"("high":{"C":"8"}}})",
            R"({"kind":"probe","probe":"p","scale":"C"})",
            R"({"kind":"certificate","at":"2026-01-01T00:00:00Z","probe":"p","expires":"2027-12-31",)"
            R"("tolerance":"0.5"})",
            R"({"kind":"assign","at":"2026-06-01T00:00:00Z","probe":"p","place":"main"})",
            R"({"kind":"receive","at":"2026-06-01T00:00:00Z",)" + holding + R"(,"doses":10})",
            R"({"kind":"count","at":"2026-06-20T10:00:00Z",)" + holding + R"(,"doses":10})",
            plan(),
            R"({"kind":"training","at":"2026-02-01T09:00:00Z","person":"Ada","topic":"cold chain"})",
            R"({"kind":"training","at":"2026-02-01T09:00:00Z","person":"Bo","topic":"cold chain"})"};
        if (!rule.empty()) lines.push_back(rule);
        for (std::int64_t d = 0; d < 30; ++d) {
            const Instant day = at("2026-06-01T00:00:00Z") + Duration(d * 86400);
            if (d % 7 >= 5) continue;  // 2026-06-01 is a Monday
            lines.push_back(check((day + Duration(8 * 3600)).text()));
            lines.push_back(check((day + Duration(16 * 3600 + 1800)).text()));
        }
        for (std::int64_t d = 0; d < days_read; ++d) {
            std::vector<std::pair<std::int64_t, std::string>> rows;
            for (std::int64_t h = 0; h < 24; ++h) rows.emplace_back(h * 3600, "5");
            lines.push_back(tests::readings((at("2026-06-01T00:00:00Z") + Duration(d * 86400)).text(), rows));
        }
        std::erase_if(lines, leave_out);
        lines.insert(lines.end(), more.begin(), more.end());
        c.post(lines, "2026-07-01T00:00:00Z");
    }
    ReadinessAnswer ask(Instant when = midday) const {
        return c.ledger.readiness(at("2026-06-01T00:00:00Z"), Question{when, {}}, at("2026-07-01T12:00:00Z"));
    }
};

auto holds(std::vector<std::string> parts) {
    return [parts = std::move(parts)](const std::string& line) {
        return std::all_of(parts.begin(), parts.end(),
                           [&](const auto& p) { return line.find(p) != std::string::npos; });
    };
}

const ReadinessAnswer::Topic& topic(const ReadinessAnswer& a, const std::string& name) {
    const auto it =
        std::find_if(a.topics.begin(), a.topics.end(), [&](const auto& t) { return matter_name(t.topic) == name; });
    REQUIRE(it != a.topics.end());
    return *it;
}

/// The one finding of an answer.
ReadinessAnswer::Finding only(const ReadinessAnswer& a) {
    INFO(to_table(a, {Zone("UTC")}));
    REQUIRE(a.findings.size() == 1);
    return a.findings.front();
}
/// What it says in detail.
std::vector<std::string> details(const ReadinessAnswer& a) { return english().say(only(a).details); }

}  // namespace

TEST_CASE("a complete site has no findings, and says what was looked at", "[readiness]") {
    const auto a = June().ask();
    INFO(to_table(a, {Zone("UTC")}));
    CHECK(a.findings.empty());
    for (const auto& t : a.topics) CHECK((!t.judged || t.looked_at == t.in_order));
    // 21 workdays up to 29 June with two checks, and the first of 30 June, whose second is due at 17:00; the first day
    // is whole
    CHECK(topic(a, "checks").looked_at == 43);
    CHECK(topic(a, "doses to discard").looked_at == 1);
    CHECK(topic(a, "temperature record").looked_at == 1);
    CHECK(topic(a, "certificates").looked_at == 1);
    CHECK(topic(a, "counts").looked_at == 1);
    CHECK(topic(a, "plan").looked_at == 1);
    CHECK_FALSE(topic(a, "service").judged);
    REQUIRE(a.retention.size() == 2);
    CHECK(a.retention[0].years == 6);
    CHECK(a.retention[0].today_until == Date{2032, 6, 30});
    CHECK(to_table(a, {Zone("UTC")}).find("Nothing found missing in what could be judged") != std::string::npos);
}

TEST_CASE("stock that expires on 30 June is on the shelf on 1 July", "[readiness]") {
    for (const char* expiry : {"2026-06-30", "2026-06"}) {
        INFO(expiry);
        const June june([](const std::string&) { return false; }, {}, expiry);
        CHECK(june.ask(at("2026-06-30T23:59:59Z")).findings.empty());
        const auto f = only(june.ask(at("2026-07-01T00:00:00Z")));
        CHECK(matter_name(f.topic) == "doses to discard");
        CHECK(f.urgency == Urgency::act);
        CHECK(english().say(f.where) == "flu lot A1 in main");
        CHECK(f.since == at("2026-07-01T00:00:00Z"));
        CHECK(english().say(f.text) == "10 doses past the expiry or use-by date still on the shelf");
        CHECK(f.text.code() == "expired-on-shelf");
    }
}

TEST_CASE("a check that was not made on a workday", "[readiness]") {
    const auto f = only(June(holds({"check", "2026-06-17T08"})).ask());
    CHECK(matter_name(f.topic) == "checks");
    CHECK(english().say(f.where) == "main");
    CHECK(f.since == at("2026-06-17T09:00:00Z"));
    CHECK(english().say(f.details) == std::vector<std::string>{"2026-06-17: 1 of 2 missing"});
    CHECK(english().say(f.rule) ==
          "2 checks a day by 09:00, 17:00 with minimum and maximum on Monday, Tuesday, Wednesday, Thursday, Friday, so "
          "say the rules of Invented Programme (entry 13)");
}

TEST_CASE("a check made late, or without minimum and maximum, is not one that the rule asks for", "[readiness]") {
    CHECK(details(June(holds({"check", "2026-06-17T08"}), {check("2026-06-17T09:00:01Z")}).ask()) ==
          std::vector<std::string>{"2026-06-17: 1 made late"});
    CHECK(details(June(holds({"check", "2026-06-17T08"}), {check("2026-06-17T08:00:00Z", "")}).ask()) ==
          std::vector<std::string>{"2026-06-17: 1 without minimum and maximum, or late"});
    CHECK(June(holds({"check", "2026-06-17T08"}), {check("2026-06-17T09:00:00Z")}).ask().findings.empty());
}

TEST_CASE("without rules nothing is called missing that only they could ask for, and the answer says so",
          "[readiness]") {
    const auto a = June(holds({R"("check")"}), {}, "2026-06-30", "").ask();
    INFO(to_table(a, {Zone("UTC")}));
    CHECK(a.findings.empty());
    CHECK_FALSE(a.rules_entry);
    CHECK(a.retention.empty());
    for (const char* name : {"checks", "counts", "logger readings", "training", "loans", "retention"}) {
        INFO(name);
        CHECK_FALSE(topic(a, name).judged);
        CHECK(english().say(topic(a, name).rule).find("no rule is known") == 0);
    }
}

TEST_CASE("a gap of the logger", "[readiness]") {
    const June june(holds({"readings", "2026-06-10T00"}));
    const auto f = only(june.ask());
    CHECK(matter_name(f.topic) == "temperature record");
    CHECK(f.urgency == Urgency::overdue);
    CHECK(f.since == at("2026-06-09T23:00:00Z"));
    // the checks of that day, the one before and the one after stand for the time
    CHECK(english().say(f.details) ==
          std::vector<std::string>{"logger gap, 2026-06-09 23:00 to 2026-06-11 00:00: 25 h, for which checks stand"});
}

TEST_CASE("an incident that is open, and excursions that belong to none", "[readiness]") {
    const std::string noticed =
        R"({"kind":"incident","at":"2026-06-18T10:00:00Z","incident":"2026-1","step":"noticed","place":"main",)"
        R"("text":"door"})";
    const auto f = only(June([](const std::string&) { return false; }, {noticed}).ask());
    CHECK(matter_name(f.topic) == "incidents");
    CHECK(english().say(f.where) == "incident 2026-1");
    CHECK(f.since == at("2026-06-18T10:00:00Z"));
    CHECK(
        June(
            [](const std::string&) { return false; },
            {noticed,
             R"({"kind":"incident","at":"2026-06-19T10:00:00Z","incident":"2026-1","step":"closed",)"
             R"("text":"door hinge repaired"})"})
            .ask()
            .findings.empty());
}

TEST_CASE("checks read from a thermometer whose certificate had expired", "[readiness]") {
    const std::vector<std::string> hand{
        R"({"kind":"probe","probe":"hand","scale":"C"})",
        R"({"kind":"certificate","at":"2025-01-01T00:00:00Z","probe":"hand","expires":"2026-06-16"})",
        R"({"kind":"certificate","at":"2026-06-19T00:00:00Z","probe":"hand","expires":"2027-06-16"})"};
    const auto by_hand = [](const std::string& when) {
        return check("2026-06-" + when, R"(,"min":"4","max":"6","probe":"hand")");
    };
    const auto some = [&](const std::vector<std::string>& times) {
        auto lines = hand;
        for (const auto& t : times) lines.push_back(by_hand(t));
        return June(
            [&](const std::string& line) {
                return std::any_of(times.begin(), times.end(), [&](const auto& t) {
                    return holds({R"("kind":"check")", t})(line);
                });
            },
            lines);
    };
    CHECK(some({"16T16:30:00Z", "19T08:00:00Z"}).ask().findings.empty());
    const auto june = some({"16T16:30:00Z", "17T08:00:00Z", "18T08:00:00Z", "19T08:00:00Z"});
    const auto f = only(june.ask());
    CHECK(matter_name(f.topic) == "certificates");
    CHECK(english().say(f.where) == "probe hand");
    CHECK(f.since == at("2026-06-17T08:00:00Z"));
    CHECK(english().say(f.text) == "was without a valid certificate for a time");
    CHECK(english().say(f.details) ==
          std::vector<std::string>{"in main, certificate expired, 2 checks, 2026-06-17 08:00 to 2026-06-18 08:00"});
    CHECK(english().say(june.c.ledger.conditions("main", at("2026-06-01T00:00:00Z"), midday, {}, midday).marks) ==
          std::vector<std::string>{"probe hand: certificate expired, 2 checks, 2026-06-17 08:00 to 2026-06-18 08:00"});
}

TEST_CASE("a plan without review, and none at all", "[readiness]") {
    const auto f = only(June(holds({R"("kind":"plan")"}), {plan("")}).ask());
    CHECK(matter_name(f.topic) == "plan");
    CHECK(f.since == at("2026-05-31T00:00:00Z"));
    const auto none = June(holds({R"("kind":"plan")"})).ask();
    CHECK(english().say(only(none).text) == "there is no contingency plan");
    // since the ledger's first record, not since the day on which it was posted
    CHECK(only(none).since == none.first_record);
    CHECK(none.first_record < at("2026-06-02T00:00:00Z"));
}

TEST_CASE("a logger that was not read since 20 June", "[readiness]") {
    const June june([](const std::string&) { return false; }, {}, "2026-06-30", rules(), 20);
    const auto a = june.ask();
    REQUIRE_FALSE(a.findings.empty());
    CHECK(topic(a, "temperature record").findings == 1);
    CHECK(a.findings.front().urgency == Urgency::overdue);  // checks are made
    CHECK(a.findings.front().since == at("2026-06-20T23:00:00Z"));
}

TEST_CASE("what could not be judged is counted and named where the findings are", "[readiness]") {
    const auto a = June().ask();
    CHECK(a.not_judged() == std::vector{Matter::service});
    CHECK(to_table(a, {Zone("UTC")}).find("1 matter could NOT be judged: service.") != std::string::npos);
    // a ledger that begins now: nothing is known of the time before, and "since now" is no date
    tests::Clinic c;
    c.post({R"({"kind":"site","name":"New, invented","zone":"UTC"})"}, "2026-07-01T12:00:00Z");
    const auto fresh = c.ledger.readiness({}, {}, at("2026-07-01T12:00:00Z"));
    CHECK(fresh.not_judged() ==
          std::vector{Matter::checks, Matter::logger_readings, Matter::counts, Matter::training, Matter::loans,
                      Matter::retention});
    CHECK(to_table(fresh, {Zone("UTC")}).find("6 matters could NOT be judged: checks,") != std::string::npos);
    CHECK_FALSE(only(fresh).since);
}

TEST_CASE("things in order and findings of a topic never contradict each other", "[readiness]") {
    // the certificate runs out on 20 July: in order, and due soon
    std::vector<ReadinessAnswer> answers{June().ask(), June(holds({R"("kind":"plan")"})).ask(),
                                         June(holds({"check", "2026-06-17T08"})).ask()};
    const auto soon = June(holds({R"("kind":"certificate")"}),
                           {R"({"kind":"certificate","at":"2026-05-01T00:00:00Z","probe":"p","expires":"2026-07-20"})"})
                          .ask();
    answers.push_back(soon);
    INFO(to_table(soon, {Zone("UTC")}));
    CHECK(topic(soon, "certificates").looked_at == 1);
    CHECK(topic(soon, "certificates").in_order == 1);
    CHECK(topic(soon, "certificates").findings == 0);
    CHECK(topic(soon, "certificates").due_soon == 1);
    CHECK(to_table(soon, {Zone("UTC")}).find("0 findings where doses may be at stake now, 0 overdue, 1 due soon.") !=
          std::string::npos);
    for (const auto& a : answers) {
        std::int64_t all = 0;
        for (const auto& t : a.topics) {
            INFO(matter_name(t.topic));
            if (t.judged) CHECK((t.findings == 0) == (t.in_order == t.looked_at));
            all += t.findings + t.due_soon;
        }
        CHECK(all == static_cast<std::int64_t>(a.findings.size()));
    }
}

TEST_CASE("JSON of readiness names its topics, and says each thing in words and by its code", "[readiness]") {
    const auto json = nlohmann::json::parse(to_json(June([](const std::string&) { return false; }, {}, "2026-06-15")
                                                        .ask(at("2026-06-17T00:00:00Z"))));
    const auto& finding = json["findings"][0];
    CHECK(finding["topic"] == "doses to discard");
    CHECK(finding["urgency"] == "act now");
    CHECK(finding["where"] == "flu lot A1 in main");
    CHECK(finding["where_code"] ==
          nlohmann::json::parse(R"({"code":"holding","fields":{"product":"flu","lot":"A1","place":"main"}})"));
    CHECK(finding["text_code"]["code"] == "expired-on-shelf");
    CHECK(finding["text_code"]["fields"]["doses"] ==
          nlohmann::json::parse(R"({"code":"doses","fields":{"number":"10"}})"));
    CHECK(finding["details"] == nlohmann::json::parse(R"(["expiry of the lot 2026-06-15"])"));
    CHECK(finding["details_codes"][0]["fields"]["day"] == "2026-06-15");
    CHECK(json["not_judged"] == nlohmann::json::parse(R"(["service"])"));
    const auto service = topic(June().ask(), "service");
    CHECK(service.rule.code() == "no-record-of-it");
    CHECK_FALSE(service.what);
    CHECK(json["topics"].back()["topic"] == "retention");
    CHECK(json["topics"].back()["what"] == "times");
    // of a place, where it is is its name alone
    const auto missed = nlohmann::json::parse(to_json(June(holds({"check", "2026-06-17T08"})).ask()));
    CHECK(missed["findings"][0]["where_code"] == "main");
}

TEST_CASE("a period after the question is refused", "[readiness]") {
    const June june;
    CHECK_THROWS_AS(
        june.c.ledger.readiness(at("2026-07-02T00:00:00Z"), Question{midday, {}}, at("2026-07-01T12:00:00Z")), Error);
}

TEST_CASE("an excursion of no incident does not vanish by a later beginning of the window", "[readiness]") {
    const std::string warm =
        R"({"kind":"check","at":"2026-06-05T12:00:00Z","place":"main","scale":"C","temperature":"9"})";
    June june([](const std::string&) { return false; }, {warm});
    const auto of = [&](const std::optional<Instant>& from) {
        const auto a = june.c.ledger.readiness(from, Question{midday, {}}, at("2026-07-01T12:00:00Z"));
        std::vector<std::string> out;
        for (const auto& f : a.findings)
            if (f.topic == Matter::excursions) out.push_back(english().say(f.text));
        return out;
    };
    REQUIRE(of(std::nullopt).size() == 1);
    CHECK(of(at("2026-06-20T00:00:00Z")) == of(std::nullopt));
    const auto cut =
        june.c.ledger.readiness(at("2026-06-20T00:00:00Z"), Question{midday, {}}, at("2026-07-01T12:00:00Z"));
    CHECK(nlohmann::json::parse(to_json(cut))["excursions_from"] == "2025-06-30T12:00:00Z");
    CHECK(to_table(cut, TableStyle{Zone("UTC")})
              .find("Checks, the temperature record and certificates since 2026-06-20 00:00, excursions since\n"
                    "  2025-06-30 12:00; all else as it stands.") != std::string::npos);
}
