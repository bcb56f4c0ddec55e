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

TEST_CASE("a certificate that has lapsed, is about to, or never was", "[readiness]") {
    const auto with = [](const std::string& expires) {
        return June(
                   holds({R"("kind":"certificate")"}),
                   {R"({"kind":"certificate","at":"2026-01-01T00:00:00Z","probe":"p","expires":")" + expires + R"("})"})
            .ask();
    };
    const auto lapsed = only(with("2026-06-20"));
    CHECK(matter_name(lapsed.topic) == "certificates");
    CHECK(lapsed.since == at("2026-06-21T00:00:00Z"));
    CHECK(english().say(lapsed.text) == "certificate expired on 2026-06-20, in main");
    const auto soon = only(with("2026-07-15"));
    CHECK(soon.urgency == Urgency::soon);
    CHECK(only(June(holds({R"("kind":"certificate")"})).ask()).since == at("2026-06-01T00:00:00Z"));
}

TEST_CASE("a count that is overdue", "[readiness]") {
    // received on 1 June: due from the end of 1 July on; with a rule of 20 days from the end of 21 June on
    const auto every = [](int days) { return rules(R"("count":)" + std::to_string(days)); };
    const auto uncounted = holds({R"("kind":"count")"});
    CHECK(June(uncounted, {}, "2026-06-30", every(30)).ask().findings.empty());
    const auto f = only(June(uncounted, {}, "2026-06-30", every(20)).ask());
    CHECK(matter_name(f.topic) == "counts");
    CHECK(english().say(f.where) == "main");
    CHECK(f.since == at("2026-06-22T00:00:00Z"));
    CHECK(english().say(f.details) ==
          std::vector<std::string>{"flu lot A1 in main: never counted since it came 2026-06-01 00:00"});
    // a new mark is no delivery, and takes a count with it
    const std::string marked =
        R"({"kind":"move","at":"2026-06-25T09:00:00Z","product":"flu","lot":"A1","doses":10,"from":{"place":"main"},)"
        R"("to":{"place":"main","mark":"short-dated"}})";
    CHECK(
        details(June(uncounted, {marked}, "2026-06-30", every(20)).ask()) ==
        std::vector<std::string>{"flu lot A1 in main, mark short-dated: never counted since it came 2026-06-01 00:00"});
    CHECK(June([](const std::string&) { return false; }, {marked}, "2026-06-30", every(10))
              .ask(at("2026-06-30T12:00:00Z"))
              .findings.empty());
    CHECK(details(June([](const std::string&) { return false; }, {marked}, "2026-06-30", every(9)).ask()) ==
          std::vector<std::string>{"flu lot A1 in main, mark short-dated: last counted 2026-06-20 10:00"});
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

TEST_CASE("doses that wait for guidance, and the excursion that nobody opened an incident for", "[readiness]") {
    std::vector<std::pair<std::int64_t, std::string>> rows;
    for (std::int64_t h = 0; h < 24; ++h) rows.emplace_back(h * 3600, h == 12 ? "9" : "5");
    const auto warm = tests::readings("2026-06-18T00:00:00Z", rows);
    const auto a = June(holds({"readings", "2026-06-18T00"}), {warm}).ask();
    INFO(to_table(a, {Zone("UTC")}));
    REQUIRE(a.findings.size() == 2);
    CHECK(matter_name(a.findings[0].topic) == "guidance");
    CHECK(a.findings[0].urgency == Urgency::act);
    CHECK(english().say(a.findings[0].where) == "flu lot A1");
    // from 5 at 11:00 to 9 at 12:00: above 8 from 11:45 on, so that at 11:45:01 there is a second of it
    CHECK(a.findings[0].since == at("2026-06-18T11:45:01Z"));
    CHECK(english().say(a.findings[0].details) == std::vector<std::string>{"main: 10 doses, warm, point"});
    CHECK(matter_name(a.findings[1].topic) == "excursions");
    CHECK(a.findings[1].since == at("2026-06-18T11:45:00Z"));

    const std::string guidance =
        R"({"kind":"guidance","at":"2026-06-19T09:00:00Z","product":"flu","lot":"A1","through":"2026-06-19T08:00:00Z",)"
        R"("verdict":"use","issuer":"maker","reference":"1","told":{"out_of_range_s":86400,"unmonitored_s":86400,)"
        R"("points":99}})";
    CHECK(matter_name(only(June(holds({"readings", "2026-06-18T00"}), {warm, guidance}).ask()).topic) == "excursions");
}

TEST_CASE("doses have waited since the last instant at which none did", "[readiness]") {
    const auto warm_at_noon = [](const std::string& day) {
        std::vector<std::pair<std::int64_t, std::string>> rows;
        for (std::int64_t h = 0; h < 24; ++h) rows.emplace_back(h * 3600, h == 12 ? "9" : "5");
        return tests::readings(day + "T00:00:00Z", rows);
    };
    const auto left_out = [](const std::string& line) {
        return holds({"readings", "2026-06-10T00"})(line) || holds({"readings", "2026-06-18T00"})(line) ||
               holds({R"("count")"})(line);
    };
    const auto since = [&](const std::vector<std::string>& more) {
        std::vector<std::string> lines{warm_at_noon("2026-06-10"), warm_at_noon("2026-06-18")};
        lines.insert(lines.end(), more.begin(), more.end());
        const auto a = June(left_out, lines).ask();
        INFO(to_table(a, {Zone("UTC")}));
        const auto f = std::ranges::find(a.findings, Matter::guidance, &ReadinessAnswer::Finding::topic);
        REQUIRE(f != a.findings.end());
        return f->since->text();
    };
    const auto guidance = [](const std::string& when, const std::string& more) {
        return R"({"kind":"guidance","at":")" + when + R"(","product":"flu","lot":"A1","through":")" + when +
               R"(","verdict":"use","issuer":"maker","reference":"1","told":{"out_of_range_s":86400,)"
               R"("unmonitored_s":86400,"points":99})" +
               more + "}";
    };
    CHECK(since({}) == "2026-06-10T11:45:01Z");
    CHECK(since({guidance("2026-06-12T09:00:00Z", "")}) == "2026-06-18T11:45:01Z");
    CHECK(since({guidance("2026-06-12T09:00:00Z", R"(,"mark":"of a trip")")}) ==
          "2026-06-10T11:45:01Z");  // of other doses
    CHECK(since({guidance("2026-06-19T09:00:00Z", R"(,"mark":"of a trip")")}) == "2026-06-10T11:45:01Z");
    // those that waited were moved, then spent; others came a day later, and it is they that wait now
    const std::string move =
        R"({"kind":"move","at":"2026-06-12T09:00:00Z","product":"flu","lot":"A1","doses":10,"from":{"place":"main"},)"
        R"("to":{"place":"main","mark":"apart"}})";
    CHECK(since({move}) == "2026-06-10T11:45:01Z");
    CHECK(since({R"({"kind":"waste","at":"2026-06-12T09:00:00Z",)" + holding + R"(,"doses":10,"reason":"broken"})",
                 R"({"kind":"receive","at":"2026-06-13T09:00:00Z",)" + holding + R"(,"doses":10})"}) ==
          "2026-06-18T11:45:01Z");
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

TEST_CASE("training that lapsed, and a person of the plan without any", "[readiness]") {
    const auto nobody =
        June([](const std::string& line) { return holds({"training"})(line) && !holds({"rules"})(line); }, {},
             "2026-06-30", rules())
            .ask();
    CHECK(topic(nobody, "training").findings == 2);  // the two of the plan
    const auto no_plan = June([](const std::string& line) {
                             return (holds({R"("kind":"training")"})(line) || holds({R"("kind":"plan")"})(line));
                         }).ask();
    CHECK(topic(no_plan, "training").findings == 1);
    CHECK(topic(no_plan, "training").looked_at == 1);
    const auto f = only(June(holds({"training", R"("person":"Bo")"})).ask());
    CHECK(matter_name(f.topic) == "training");
    CHECK(english().say(f.where) == "Bo");
    const auto lapsed =
        only(June(holds({"training", R"("person":"Bo")"}),
                  {R"({"kind":"training","at":"2025-06-01T09:00:00Z","person":"Bo","topic":"cold chain"})"})
                 .ask());
    CHECK(lapsed.since == at("2026-06-02T00:00:00Z"));
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
