// The contingency plan: which holds, what is missing or old in it, and since when.
#include <catch2/catch.hpp>

#include <set>

#include <nlohmann/json.hpp>

#include "clinic.hpp"

using namespace coldtally;
using namespace coldtally::tests;
using Json = nlohmann::ordered_json;

namespace {

const Instant now = at("2029-12-01T00:00:00Z");
Question asked(const std::string& when) { return {at(when), std::nullopt}; }

const std::vector<std::string> site = {
    R"({"kind":"site","name":"Mill Lane","zone":"America/Chicago"})",
    R"({"kind":"place","place":"annex","name":"Annex","type":"refrigerator","range":{"low":{"C":"2"},)"
    R"("high":{"C":"8"}}})",
};

/// A plan that lacks nothing.
Json whole() {
    return Json::parse(
        R"({"people":[{"name":"A","role":"coordinator","office":"1","home":"2","mobile":"3"},)"
        R"({"name":"B","role":"nurse","mobile":"4","alternate":true}],
        "backups":[{"name":"Harbour Street","phone":"5","agreement":"by letter","agreed":"2026-01-10",)"
        R"("power":"generator","distance":"3 km","capacity":"100 doses"}],
        "services":[{"what":"power company","phone":"6"}],"notify":[{"what":"health department","phone":"7"}],
        "containers":"room 4","packing":"in layers","steps":"keep it shut","reviewed":"2026-02-01","reviewed_by":"A",
        "signatures":[{"name":"A","signed":"2026-02-01"},{"name":"B","signed":"2026-02-03"}]})");
}
std::string posted(const Json& plan, const std::string& when) {
    Json out{{"kind", "plan"}, {"at", when}};
    out.update(plan);
    return out.dump();
}

/// "what of" of each finding; those that are old begin with "old ".
std::set<std::string> found(const PlanAnswer& a) {
    std::set<std::string> out;
    for (const auto& f : a.findings)
        out.insert((f.old ? "old " : "") + std::string(plan_part_name(f.what)) + (f.of.empty() ? "" : " " + f.of));
    return out;
}
const PlanFinding& finding(const PlanAnswer& a, const std::string& what) {
    for (const auto& f : a.findings)
        if (plan_part_name(f.what) == what) return f;
    throw std::runtime_error("no finding " + what);
}

}  // namespace

TEST_CASE("plan: each part that is left out is a finding, and nothing else is") {
    // The parts are those that published plan forms ask for: people in calling order with numbers, alternate sites with
    // contact, agreement and its date, generator, capacity; supplies and packing; utilities and repair; whom to tell;
    // review and signatures (common practice; no one form is followed).
    Clinic c;
    c.post(site);
    std::int64_t minute = 0;
    const auto lacks = [&](const Json& plan) {
        const Instant when = at("2026-02-10T00:00:00Z") + Duration(60 * ++minute);
        c.post({posted(plan, when.text())});
        return found(c.ledger.plan({when, std::nullopt}, now));
    };
    using Set = std::set<std::string>;
    CHECK(lacks(whole()).empty());
    const auto without = [&](const char* part) {
        auto p = whole();
        p.erase(part);
        return lacks(p);
    };
    CHECK(without("people") == Set{"people"});
    CHECK(without("backups") == Set{"backup"});
    CHECK(without("services") == Set{"services"});
    CHECK(without("notify") == Set{"notify"});
    CHECK(without("containers") == Set{"containers"});
    CHECK(without("packing") == Set{"packing"});
    CHECK(without("steps") == Set{"steps"});
    CHECK(without("reviewed") == Set{"review"});
    CHECK(without("reviewed_by") == Set{"reviewer"});
    CHECK(without("signatures") == Set{"signature"});
    const auto in_backup = [&](const char* part) {
        auto p = whole();
        p["backups"][0].erase(part);
        return lacks(p);
    };
    CHECK(in_backup("phone") == Set{"contact Harbour Street"});
    CHECK(in_backup("agreed") == Set{"date of agreement Harbour Street"});
    CHECK(in_backup("agreement").empty());  // a date says that there is one
    CHECK(in_backup("power") == Set{"power Harbour Street"});
    CHECK(in_backup("distance") == Set{"distance Harbour Street"});
    CHECK(in_backup("capacity") == Set{"capacity Harbour Street"});
    auto p = whole();
    p["backups"][0].erase("agreed");
    p["backups"][0].erase("agreement");
    CHECK(lacks(p) == Set{"agreement Harbour Street"});
    p["backups"][0]["name"] = "annex";  // nobody else's
    CHECK(lacks(p).empty());

    p = whole();
    p["people"][1].erase("alternate");
    CHECK(lacks(p) == Set{"alternate"});
    p = whole();
    p["people"][1].erase("mobile");
    CHECK(lacks(p) == Set{"number B"});
    p["people"][0] = Json{{"name", "A"}, {"role", "coordinator"}, {"office", "1"}};
    CHECK(lacks(p) == Set{"number B", "number at night"});
    p = whole();
    p["signatures"].erase(1);
    CHECK(lacks(p) == Set{"signature B"});
    p["signatures"].push_back({{"name", "B"}, {"signed", "2026-01-31"}});
    CHECK(lacks(p) == Set{"old signature B"});
    p["signatures"].push_back({{"name", "B"}, {"signed", "2026-02-01"}});  // signed again
    CHECK(lacks(p).empty());
    // nothing at all: one finding a part
    CHECK(lacks(Json::object()) ==
          Set{"people", "backup", "services", "notify", "containers", "packing", "steps", "review", "signature"});
}

TEST_CASE(
    "plan: the last by its instant holds, as known and not void, and what is missing is missing since the plan that "
    "began it") {
    Clinic c;
    c.post(site, "2026-01-01T00:00:00Z");
    auto a = c.ledger.plan(asked("2026-03-01T00:00:00Z"), now);
    CHECK_FALSE(a.entry);
    CHECK(found(a) == std::set<std::string>{"plan"});
    CHECK(a.findings[0].since == at("2026-01-01T00:00:00Z"));

    auto p = whole();
    p.erase("packing");
    c.post({posted(p, "2026-02-10T00:00:00Z")}, "2026-02-10T00:00:00Z");
    p.erase("steps");
    const auto second = c.post({posted(p, "2026-02-20T00:00:00Z")}, "2026-02-20T00:00:00Z").front();
    CHECK(found(c.ledger.plan(asked("2026-02-09T23:59:59Z"), now)) == std::set<std::string>{"plan"});
    a = c.ledger.plan(asked("2026-02-20T00:00:00Z"), now);
    CHECK(a.entry == second);
    CHECK(a.since == at("2026-02-20T00:00:00Z"));
    CHECK(finding(a, "packing").since == at("2026-02-10T00:00:00Z"));
    CHECK(finding(a, "steps").since == at("2026-02-20T00:00:00Z"));
    CHECK(found(c.ledger.plan(asked("2026-02-19T23:59:59Z"), now)) == std::set<std::string>{"packing"});

    c.post({posted(whole(), "2026-02-25T00:00:00Z")}, "2026-02-25T00:00:00Z");
    const auto fourth = c.post({posted(p, "2026-02-26T00:00:00Z")}, "2026-02-26T00:00:00Z").front();
    a = c.ledger.plan(asked("2026-03-01T00:00:00Z"), now);
    CHECK(finding(a, "packing").since == at("2026-02-26T00:00:00Z"));  // it was there in between
    c.post({R"({"kind":"void","at":"2026-02-27T00:00:00Z","voids":)" + std::to_string(fourth) +
            R"(,"reason":"wrong file"})"},
           "2026-02-27T00:00:00Z");
    CHECK(c.ledger.plan(asked("2026-03-01T00:00:00Z"), now).findings.empty());
    CHECK(c.ledger.plan({at("2026-03-01T00:00:00Z"), at("2026-02-26T12:00:00Z")}, now).entry ==
          fourth);  // as it was known before
}

TEST_CASE(
    "plan: a review or an agreement is old from the end of its last day in the site's zone, and only where somebody "
    "says how long it is good") {
    Clinic c;
    c.post(site);
    c.post({posted(whole(), "2026-02-10T00:00:00Z")});
    auto a = c.ledger.plan(asked("2029-01-01T00:00:00Z"), now);
    CHECK(a.findings.empty());
    CHECK_FALSE(a.review_due);

    // the programme's period: 2026-02-01 and 365 days, the day ends at 06:00Z in Chicago's winter
    const auto rules = [&](const std::string& every) {
        c.post({R"({"kind":"rules","programme":"Invented","source":"none","dated":"2026-01-01","every_days":)" + every +
                "}"});
    };
    rules(R"({"plan review":365,"backup agreement":730})");
    CHECK(c.ledger.plan(asked("2027-02-02T05:59:59Z"), now).findings.empty());
    a = c.ledger.plan(asked("2027-02-02T06:00:00Z"), now);
    CHECK(found(a) == std::set<std::string>{"old review"});
    CHECK(a.findings[0].since == at("2027-02-02T06:00:00Z"));
    CHECK(a.review_due == at("2027-02-02T06:00:00Z"));
    // 2026-01-10 and 730 days are 2028-01-10
    CHECK(found(c.ledger.plan(asked("2028-01-11T05:59:59Z"), now)) == std::set<std::string>{"old review"});
    CHECK(found(c.ledger.plan(asked("2028-01-11T06:00:00Z"), now)) ==
          std::set<std::string>{"old review", "old agreement Harbour Street"});

    // what the plan says of itself binds where it is earlier, and where no programme says anything
    auto p = whole();
    p["review_due"] = "2026-12-31";
    p["backups"][0]["agreed_until"] = "2026-06-30";
    c.post({posted(p, "2026-02-11T00:00:00Z")});
    a = c.ledger.plan(asked("2027-01-01T06:00:00Z"), now);
    CHECK(found(a) == std::set<std::string>{"old review", "old agreement Harbour Street"});
    CHECK(finding(a, "review").since == at("2027-01-01T06:00:00Z"));
    CHECK(finding(a, "agreement").since == at("2026-07-01T05:00:00Z"));  // summer
    rules(R"({"count":31})");
    CHECK(found(c.ledger.plan(asked("2027-01-01T06:00:00Z"), now)).size() == 2);
    CHECK(found(c.ledger.plan(asked("2027-01-01T05:59:59Z"), now)) ==
          std::set<std::string>{"old agreement Harbour Street"});
}

TEST_CASE(
    "plan: what is dated on a day that has not come has not been done, until that day begins in the site's zone") {
    Clinic c;
    c.post(site);
    auto plan = whole();
    plan["reviewed"] = "2026-03-10";
    plan["backups"][0]["agreed"] = "2026-03-10";
    plan["signatures"] = Json::parse(R"([{"name":"A","signed":"2026-03-10"},{"name":"B","signed":"2026-03-10"}])");
    c.post({posted(plan, "2026-02-10T00:00:00Z")});
    // 10 March begins in Chicago at 05:00 UTC, two days after its summer time did
    const auto before = c.ledger.plan(asked("2026-03-10T04:59:59Z"), now);
    CHECK(found(before) ==
          std::set<std::string>{"review", "date of agreement Harbour Street", "signature A", "signature B"});
    CHECK(english().say(finding(before, "review").text) == "the review is dated 2026-03-10, a day that has not come");
    CHECK(finding(before, "review").text.code() == "review-to-come");
    CHECK(found(c.ledger.plan(asked("2026-03-10T05:00:00Z"), now)).empty());
}

TEST_CASE("plan: both forms hold the whole of it, and a draft says what it lacks") {
    Clinic c;
    c.post(site);
    auto p = whole();
    p["backups"][0]["agreed_until"] = "2027-12-31";
    p["review_due"] = "2027-02-01";
    p["notify"].push_back({{"what", "supervisor"}, {"phone", "8"}});
    c.post({posted(p, "2026-02-10T00:00:00Z")});
    const auto a = c.ledger.plan(asked("2026-02-11T00:00:00Z"), now);
    CHECK(nlohmann::json::parse(to_json(a))["plan"] == nlohmann::json::parse(p.dump()));  // every field comes back
    const auto late = nlohmann::json::parse(to_json(c.ledger.plan(asked("2028-02-11T00:00:00Z"), now)))["findings"];
    REQUIRE(late.size() == 2);
    CHECK(late[0]["what"] == "agreement");
    CHECK(late[0]["state"] == "old");
    CHECK(late[0]["text"] == "the agreement with Harbour Street ran out on 2027-12-31 (as stated there)");
    CHECK(late[0]["text_code"] ==
          nlohmann::json::parse(
              R"({"code":"agreement-ran-out","fields":{"backup":"Harbour Street","day":"2027-12-31",)"
              R"("said_by":{"code":"as-stated-there","fields":{}}}})"));
    const std::string table = to_table(a, TableStyle{Zone("America/Chicago")});
    std::size_t from = 0;
    // calling order, where stock goes and how much, containers, repair, whom to tell first
    for (const char* part : {"keep it shut", "1. A", "2. B", "Harbour Street", "100 doses", "3 km", "generator",
                             "by letter, of 2026-01-10", "room 4", "in layers", "power company", "1. health department",
                             "2. supervisor", "Reviewed: 2026-02-01", caution}) {
        INFO(table << part);
        std::string folded = table.substr(from);
        for (char& ch : folded)
            if (ch == '\n') ch = ' ';
        const auto here = folded.find(part);
        REQUIRE(here != std::string::npos);
        from += here;
    }
    p.erase("packing");
    Json draft{{"kind", "plan"}, {"by", "QA"}};
    draft.update(p);
    CHECK(english().say(c.ledger.draft(draft.dump(), now).warnings) ==
          std::vector<std::string>{"the agreement with Harbour Street ran out on 2027-12-31 (as stated there)",
                                   "no way of packing is stated",
                                   "the review was due on 2027-02-01 (as stated there)"});
}
