// Doses under review, or of a recalled lot, followed to their end; training.
#include <catch2/catch.hpp>

#include <functional>
#include <map>
#include <set>

#include <nlohmann/json.hpp>

#include "clinic.hpp"
#include "coldtally/error.hpp"
#include "properties/random_site.hpp"

using namespace coldtally;
using namespace coldtally::tests;
using Json = nlohmann::ordered_json;

namespace {

const Instant now = at("2029-12-01T00:00:00Z");
Question asked(const std::string& when) { return {at(when), std::nullopt}; }

const std::vector<std::string> definitions = {
    R"({"kind":"site","name":"Mill Lane","zone":"UTC","unmonitored_limit_s":1000000000})",
    R"({"kind":"product","product":"flu","name":"Test flu","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
    R"({"kind":"product","product":"mmr","name":"Test mmr","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
    R"({"kind":"lot","product":"flu","lot":"A1","expiry":"2028-12-31"})",
    R"({"kind":"lot","product":"mmr","lot":"A1","expiry":"2028-12-31"})",
    R"({"kind":"lot","product":"mmr","lot":"B1","expiry":"2028-12-31"})",
    R"({"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
    R"({"kind":"receive","at":"2026-03-01T00:00:00Z","place":"main","product":"flu","lot":"A1","doses":500})",
    R"({"kind":"receive","at":"2026-03-01T00:00:00Z","place":"main","product":"mmr","lot":"A1","doses":500})",
    R"({"kind":"receive","at":"2026-03-01T00:00:00Z","place":"main","product":"mmr","lot":"B1","doses":500})",
};
std::string gave(const std::string& when, const std::string& product, const std::string& lot,
                 const std::string& patient, int doses = 1) {
    return R"({"kind":"give","at":")" + when + R"(","place":"main","product":")" + product + R"(","lot":")" + lot +
           R"(","patient":")" + patient + R"(","doses":)" + std::to_string(doses) + "}";
}
std::string step(const Instant& when, EntryNumber give, const std::string& what) {
    return R"({"kind":"follow-up","at":")" + when.text() + R"(","give":)" + std::to_string(give) + R"(,"step":")" +
           what + R"("})";
}
std::string held(const std::string& when, const std::string& product, const std::string& lot) {
    return R"({"kind":"hold","at":")" + when + R"(","reason":"freezer pack","product":")" + product + R"(","lot":")" +
           lot + R"("})";
}
std::string voided(const std::string& when, EntryNumber entry) {
    return R"({"kind":"void","at":")" + when + R"(","voids":)" + std::to_string(entry) + R"(,"reason":"typed wrong"})";
}

std::int64_t gives(const std::vector<FollowUpAnswer::Count>& counts, Standing of) {
    for (const auto& c : counts)
        if (c.of == of) return c.gives;
    throw std::runtime_error("no count " + std::string(standing_name(of)));
}

/// What must hold of every answer.
void adds_up(const FollowUpAnswer& a) {
    std::int64_t sum = 0, listed = 0;
    Doses doses, listed_doses;
    for (const auto& c : a.standings) {
        sum += c.gives;
        doses = doses + c.doses;
    }
    for (const auto& d : a.doses) {
        ++listed;
        listed_doses = listed_doses + d.doses;
        CHECK(d.standing == (d.steps.empty() ? Standing::none_yet : d.steps.back().step));
    }
    CHECK(sum == a.whole.gives);
    CHECK(doses == a.whole.doses);
    CHECK(listed == a.whole.gives);
    CHECK(listed_doses == a.whole.doses);
    for (const auto& c : a.ever) {
        CHECK(c.gives >= gives(a.standings, c.of.value()));  // who stands there has been there
        CHECK(c.gives <= a.whole.gives);
    }
}

Code code_of(const std::function<void()>& call) {
    try {
        call();
    } catch (const Error& e) {
        return e.code();
    }
    throw std::runtime_error("was not refused");
}

}  // namespace

TEST_CASE("follow-up: a recall in the proportions of one on record adds up at each stage") {
    // Denver's recall after a storage failure: 1,360 doses of 1,339 patients; 48 % came to be vaccinated again, 11 % of
    // the letters could not be delivered. National Immunization Conference 2003, abstract 2023. Here of 100 gives; the
    // rest is invented.
    Clinic c;
    c.post(definitions);
    std::vector<std::string> lines;
    for (int i = 0; i < 100; ++i)
        lines.push_back(gave((at("2026-03-02T08:00:00Z") + Duration(i * 60)).text(), "flu", "A1",
                             "t" + std::to_string(i), i < 2 ? 2 : 1));
    lines.push_back(gave("2026-03-02T08:00:00Z", "mmr", "B1", "t1"));
    const auto numbers = c.post(lines);
    auto a = c.ledger.follow_up("A1", "flu", asked("2026-03-03T00:00:00Z"), now);
    adds_up(a);
    CHECK(a.whole.gives == 100);
    CHECK(a.whole.doses == Doses(102));
    CHECK(gives(a.standings, Standing::none_yet) == 100);

    const auto stage = [&](const std::string& when, int from, int until, const std::string& what) {
        std::vector<std::string> steps;
        for (int i = from; i < until; ++i) steps.push_back(step(at(when), numbers[static_cast<std::size_t>(i)], what));
        c.post(steps);
    };
    stage("2026-03-10T00:00:00Z", 0, 100, "decided");
    stage("2026-03-12T00:00:00Z", 0, 100, "told");
    stage("2026-04-01T00:00:00Z", 0, 58, "answered");
    stage("2026-04-01T00:00:00Z", 58, 69, "no answer");
    stage("2026-04-20T00:00:00Z", 0, 48, "repeated");
    stage("2026-04-20T00:00:00Z", 48, 54, "tested");
    stage("2026-04-20T00:00:00Z", 54, 58, "not needed");
    a = c.ledger.follow_up("A1", "flu", asked("2026-05-01T00:00:00Z"), now);
    adds_up(a);
    std::map<std::string, std::int64_t> stands, ever;
    for (const auto& n : a.standings) stands[std::string(standing_name(n.of.value()))] = n.gives;
    for (const auto& n : a.ever) ever[std::string(standing_name(n.of.value()))] = n.gives;
    CHECK_FALSE(a.whole.of);
    CHECK(stands == std::map<std::string, std::int64_t>{{"none yet", 0},
                                                        {"decided", 0},
                                                        {"told", 31},
                                                        {"no answer", 11},
                                                        {"answered", 0},
                                                        {"repeated", 48},
                                                        {"tested", 6},
                                                        {"not needed", 4}});
    CHECK(ever == std::map<std::string, std::int64_t>{{"decided", 100},
                                                      {"told", 100},
                                                      {"no answer", 11},
                                                      {"answered", 58},
                                                      {"repeated", 48},
                                                      {"tested", 6},
                                                      {"not needed", 4}});
    CHECK(a.whole.doses == Doses(102));

    // as it was on the way, and as it was known on the way
    a = c.ledger.follow_up("A1", "flu", asked("2026-04-19T23:59:59Z"), now);
    adds_up(a);
    CHECK(gives(a.standings, Standing::answered) == 58);
    a = c.ledger.follow_up("A1", "flu", asked("2026-03-11T00:00:00Z"), now);
    CHECK(gives(a.standings, Standing::decided) == 100);
}

TEST_CASE("follow-up: the review list's doses, those without a step first, and what left the list apart") {
    Clinic c;
    c.post(definitions);
    const auto hold = c.post({held("2026-03-02T07:00:00Z", "mmr", "B1")}).front();
    const auto n =
        c.post({gave("2026-03-02T08:00:00Z", "mmr", "B1", "t1"), gave("2026-03-02T08:01:00Z", "mmr", "B1", "t2", 2),
                gave("2026-03-02T08:02:00Z", "mmr", "B1", "t3"), gave("2026-03-02T08:03:00Z", "flu", "A1", "t4")});
    c.post({step(at("2026-03-03T00:00:00Z"), n[0], "decided"), step(at("2026-03-04T00:00:00Z"), n[0], "told"),
            step(at("2026-03-03T00:00:00Z"), n[3], "not needed")});
    auto a = c.ledger.follow_up({}, {}, asked("2026-03-05T00:00:00Z"), now);
    adds_up(a);
    REQUIRE(a.doses.size() == 3);
    CHECK(a.doses[0].give == n[1]);
    CHECK(a.doses[1].give == n[2]);
    CHECK(a.doses[2].give == n[0]);
    CHECK(a.doses[2].standing == Standing::told);
    CHECK(a.doses[2].steps.size() == 2);
    CHECK(a.doses[0].finding == Finding::pending_guidance);
    CHECK(gives(a.ever, Standing::decided) == 1);
    CHECK(a.whole.doses == Doses(4));
    REQUIRE(a.apart.size() == 1);
    CHECK(a.apart[0].give == n[3]);
    CHECK(a.apart[0].finding == Finding::clear);

    // a give that is taken back, and a hold that was a mistake: what was done with the patients is not lost
    const auto again = c.post({step(at("2026-03-05T00:00:00Z"), n[2], "told"), voided("2026-03-05T01:00:00Z", n[2])});
    a = c.ledger.follow_up({}, {}, asked("2026-03-06T00:00:00Z"), now);
    adds_up(a);
    CHECK(a.whole.gives == 2);
    REQUIRE(a.apart.size() == 2);
    CHECK(a.apart[0].finding == Finding::taken_back);
    CHECK(a.apart[0].steps.size() == 1);
    c.post({voided("2026-03-06T00:00:00Z", hold)});
    a = c.ledger.follow_up({}, {}, asked("2026-03-07T00:00:00Z"), now);
    adds_up(a);
    CHECK(a.doses.empty());
    CHECK(a.apart.size() == 3);
    // a step that was posted by mistake is gone
    c.post({voided("2026-03-06T00:00:00Z", again[0])});
    CHECK(c.ledger.follow_up({}, {}, asked("2026-03-07T00:00:00Z"), now).apart.size() == 2);

    // a recall of the lot has its steps alone apart
    a = c.ledger.follow_up("B1", {}, asked("2026-03-07T00:00:00Z"), now);
    adds_up(a);
    CHECK(a.product == "mmr");
    CHECK(a.whole.gives == 2);
    CHECK(a.apart.empty());
    CHECK(a.doses[0].finding == Finding::clear);
    CHECK(code_of([&] { c.ledger.follow_up("A1", {}, asked("2026-03-07T00:00:00Z"), now); }) == Code::ambiguous);
    CHECK(code_of([&] { c.ledger.follow_up("C1", {}, asked("2026-03-07T00:00:00Z"), now); }) == Code::not_defined);
    CHECK(code_of([&] { c.ledger.follow_up({}, "mmr", asked("2026-03-07T00:00:00Z"), now); }) == Code::missing_field);

    const auto json = Json::parse(to_json(a));
    CHECK(json["whole"] == Json{{"name", "whole"}, {"gives", 2}, {"doses", 3}});
    CHECK(json["standings"].size() == 8);
    const std::string table = to_table(a, TableStyle{Zone("UTC")});
    CHECK(table.find("none yet 1 give (2 doses) + told 1 give") != std::string::npos);
    CHECK(table.find("A dose listed here is not thereby invalid") != std::string::npos);
    CHECK(table.find("Exposure alone never decides") != std::string::npos);
}

TEST_CASE("follow-up: on random ledgers the counts add up at every instant, and no step is lost", "[properties]") {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        INFO("seed " << seed);
        const properties::RandomSite site(seed);
        Clinic c;
        c.ledger.post(site.text(), at("2026-03-05T00:00:00Z"));
        properties::Random random(seed);
        std::vector<EntryNumber> given;
        std::set<EntryNumber> gone;  // voided by the site itself
        c.ledger.for_each_entry([&](const Entry& e) {
            if (std::holds_alternative<Give>(e.fact)) given.push_back(e.number);
            if (const auto* v = std::get_if<Void>(&e.fact)) gone.insert(v->voids);
        });
        std::map<EntryNumber, Instant> posted;
        for (int i = 0; i < 40 && !given.empty(); ++i) {
            const auto give =
                given[static_cast<std::size_t>(random.from(0, static_cast<std::int64_t>(given.size()) - 1))];
            if (gone.contains(give)) continue;
            const Instant when(properties::start + random.from(0, 2 * properties::length));
            const std::string name(standing_name(follow_up_standings()[static_cast<std::size_t>(random.from(1, 7))]));
            posted[c.post({step(when, give, name)}, "2026-03-06T00:00:00Z").front()] = when;
            if (random.one_in(8)) {
                c.post({voided("2026-03-06T00:00:00Z", give)}, "2026-03-06T00:00:00Z");
                gone.insert(give);
            }
        }
        for (int i = 0; i < 8; ++i) {
            const Question q{Instant(properties::start + random.from(0, 2 * properties::length)), std::nullopt};
            INFO("at " << q.at->text());
            const auto a = c.ledger.follow_up({}, {}, q, now);
            adds_up(a);
            const auto review = c.ledger.review(q, now);
            std::multiset<EntryNumber> listed, reviewed;
            std::set<EntryNumber> steps;
            for (const auto& d : a.doses) listed.insert(d.give);
            for (const auto& d : review.doses) reviewed.insert(d.entry);
            CHECK(listed == reviewed);
            for (const auto* list : {&a.doses, &a.apart})
                for (const auto& d : *list)
                    for (const auto& s : d.steps) CHECK(steps.insert(s.entry).second);
            std::set<EntryNumber> by_then;
            for (const auto& [entry, when] : posted)
                if (when <= *q.at) by_then.insert(entry);
            CHECK(steps == by_then);

            const auto recall = c.ledger.follow_up("A1", {}, q, now);
            adds_up(recall);
            CHECK(recall.whole.gives == static_cast<std::int64_t>(c.ledger.review(q, now, true).doses.size()));
        }
    }
}

TEST_CASE(
    "follow-up: whose dose a step is of is taken from the token where there is one dose, and asked where there are "
    "several") {
    Clinic c;
    c.post(definitions);
    c.post({held("2026-03-02T07:00:00Z", "mmr", "B1")});
    const auto n =
        c.post({gave("2026-03-02T08:00:00Z", "mmr", "B1", "t1"), gave("2026-03-02T08:01:00Z", "flu", "A1", "t1"),
                gave("2026-03-02T08:02:00Z", "mmr", "B1", "t2"), gave("2026-03-02T08:03:00Z", "mmr", "B1", "t1"),
                gave("2026-03-02T08:03:00Z", "mmr", "A1", "11")});
    REQUIRE(n[0] == 12);
    const auto draft = [&](const std::string& rest) {
        return c.ledger.draft(
            R"({"kind":"follow-up","by":"QA","at":"2026-03-03T08:00:00Z","step":"told",)" + rest + "}", now);
    };
    const auto numbers = [&](const std::string& rest) {
        std::vector<EntryNumber> out;
        for (const auto& e : draft(rest).entries) out.push_back(std::get<FollowUp>(e.fact).give);
        return out;
    };
    using Numbers = std::vector<EntryNumber>;
    CHECK(numbers(R"("patient":"t2")") == Numbers{n[2]});
    REQUIRE_FALSE(draft(R"("patient":"t2")").filled.empty());
    CHECK(english().say(draft(R"("patient":"t2")").filled.back()).find("lot \"B1\", pending guidance") !=
          std::string::npos);
    CHECK(numbers(R"("patient":"13")") == Numbers{n[1]});
    CHECK(numbers(R"("give":)" + std::to_string(n[1])) == Numbers{n[1]});
    CHECK(code_of([&] { draft(R"("patient":"t1")"); }) == Code::ambiguous);
    try {
        draft(R"("patient":"t1")");
    } catch (const Error& e) {
        for (const char* part : {"give 12", "give 13", "give 15", "not on the review list"})
            CHECK(std::string(e.what()).find(part) != std::string::npos);
    }
    CHECK(numbers(R"("patient":"t1","product":"flu")") == Numbers{n[1]});
    CHECK(numbers(R"("patient":"t1","give":15)") == Numbers{n[3]});
    CHECK(code_of([&] { draft(R"("patient":"t1","lot":"B1")"); }) == Code::ambiguous);
    CHECK(numbers(R"("patient":"t1","every":true)") == Numbers{n[0], n[3]});                // of the review list
    CHECK(numbers(R"("patient":"t1","lot":"A1","every":true)") == Numbers{n[1]});           // of a recall
    CHECK(code_of([&] { draft(R"("patient":"t9")"); }) == Code::not_there);
    CHECK(code_of([&] { draft(R"("patient":"t1","give":14)"); }) == Code::not_there);       // another's
    CHECK(numbers(R"("patient":"11")") == Numbers{n[4]});                                   // entry 11 is no give
    // a token that is the number of another's dose is asked about
    const auto other = c.post({gave("2026-03-02T09:00:00Z", "flu", "A1", "12")}).front();
    CHECK(code_of([&] { draft(R"("patient":"12")"); }) == Code::ambiguous);
    CHECK(code_of([&] { draft(R"("patient":"12","every":true)"); }) == Code::ambiguous);
    CHECK(code_of([&] { draft(R"("patient":"12","lot":"B1")"); }) == Code::ambiguous);  // that is the other's lot
    CHECK(numbers(R"("patient":"12","give":12)") == Numbers{n[0]});
    CHECK(numbers(R"("patient":"12","give":)" + std::to_string(other)) == Numbers{other});
}

TEST_CASE(
    "training: the last of each person and topic holds, and lapses by what it states or the programme's period, "
    "whichever ends first") {
    Clinic c;
    c.post({R"({"kind":"site","name":"Mill Lane","zone":"America/Chicago"})"});
    const auto trained = [&](const std::string& when, const std::string& person, const std::string& topic,
                             const std::string& rest = "") {
        return c
            .post({R"({"kind":"training","at":")" + when + R"(","person":")" + person + R"(","topic":")" + topic +
                   "\"" + rest + "}"})
            .front();
    };
    trained("2025-01-10T18:00:00Z", "A", "storage", R"(,"due":"2025-12-31")");
    const auto last = trained("2026-01-10T18:00:00Z", "A", "storage", R"(,"due":"2027-12-31","reference":"folder 3")");
    trained("2026-02-01T18:00:00Z", "A", "transport");
    trained("2025-12-01T18:00:00Z", "B", "storage", R"(,"due":"2026-03-01")");
    auto a = c.ledger.training(asked("2026-03-02T05:59:59Z"), now);
    REQUIRE(a.training.size() == 3);
    CHECK(a.training[0].person == "B");
    CHECK(a.training[0].due == at("2026-03-02T06:00:00Z"));  // the end of 1 March in Chicago, UTC-6
    CHECK_FALSE(a.training[0].lapsed);
    CHECK(c.ledger.training(asked("2026-03-02T06:00:00Z"), now).training[0].lapsed);
    CHECK(a.training[1].entry == last);
    CHECK(a.training[1].reference == "folder 3");
    CHECK_FALSE(a.training[2].due);
    CHECK_FALSE(a.every_days);

    c.post(
        {R"({"kind":"rules","programme":"Invented","source":"none","dated":"2026-01-01",)"
         R"("every_days":{"training":365}})"});
    c.post(
        {R"({"kind":"plan","at":"2026-02-01T00:00:00Z","people":[{"name":"A","role":"coordinator"},)"
         R"({"name":"C","role":"nurse"}]})"});
    a = c.ledger.training(asked("2027-01-11T06:00:00Z"), now);
    CHECK(a.every_days == 365);
    REQUIRE(a.training.size() == 3);
    CHECK(a.training[1].entry == last);
    CHECK(a.training[1].due == at("2027-01-11T06:00:00Z"));  // 365 days, before the day it states
    CHECK(a.training[1].lapsed);
    CHECK_FALSE(a.training[2].lapsed);
    CHECK(a.without == std::vector<std::string>{"C"});
    CHECK(to_table(a, TableStyle{Zone("America/Chicago")}).find("NOT TRAINED as far as is known here: C") !=
          std::string::npos);
    CHECK(Json::parse(to_json(a))["training"][1]["lapsed"] == true);
}
