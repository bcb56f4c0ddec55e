// Time that the sender had not read when the doses left is never read here: the list is the model's, and beside it must
// stand that it is not known. All data invented; figures by hand.
#include <catch2/catch.hpp>

#include <algorithm>

#include <nlohmann/json.hpp>

#include "clinic.hpp"
#include "said.hpp"

using namespace coldtally;
using namespace coldtally::tests;
using Json = nlohmann::ordered_json;

namespace {

const std::string range = R"("range":{"low":{"C":"2"},"high":{"C":"8"}})";

std::vector<std::string> rows(const std::string& from, const std::string& until) {
    std::vector<std::pair<std::int64_t, std::string>> out;
    for (Instant t = at(from); t <= at(until); t = t + Duration(1800))
        out.emplace_back((t - at(from)).seconds(), "5");
    return {readings(from, out)};
}

struct Site : Clinic {
    explicit Site(const std::string& name) {
        post({R"({"kind":"site","name":")" + name + R"(","zone":"UTC"})",
              R"({"kind":"product","product":"alfa","name":"Alfa",)" + range + "}",
              R"({"kind":"lot","product":"alfa","lot":"A1","expiry":"2027-06-30"})",
              R"({"kind":"place","place":"fridge","name":"F","type":"refrigerator",)" + range + "}",
              R"({"kind":"place","place":"annex","name":"A","type":"refrigerator",)" + range + "}",
              R"({"kind":"probe","probe":"p","scale":"C"})",
              R"({"kind":"certificate","at":"2026-01-01T00:00:00Z","probe":"p","expires":"2027-12-31"})",
              R"({"kind":"assign","at":"2026-01-01T00:00:00Z","probe":"p","place":"fridge"})"},
             "2026-06-01T07:00:00Z");
    }
};

/// Read up to 06-03 12:00, sent on 06-04 10:00: near the last reading half an hour is known, 21 h 30 min are awaited.
/// Read here up to 06-20.
struct Receiver : Site {
    Receiver() : Site("Harbour") {
        Site sender("Trial clinic");
        sender.post({R"({"kind":"receive","at":"2026-06-01T08:00:00Z","place":"fridge","product":"alfa","lot":"A1",)"
                     R"("doses":20})"},
                    "2026-06-01T08:00:00Z");
        sender.post(rows("2026-06-01T08:00:00Z", "2026-06-03T12:00:00Z"), "2026-06-03T12:00:00Z");
        const auto sent = sender.post({R"({"kind":"transfer","at":"2026-06-04T10:00:00Z","place":"fridge",)"
                                       R"("product":"alfa","lot":"A1","doses":20,"to":"Harbour","reason":"r"})"},
                                      "2026-06-04T10:00:00Z");
        const auto stated = sender.ledger.handover(sent.back(), {}, at("2026-06-04T10:00:00Z"));
        const auto file = Json::parse(handover_file(stated));
        Drafted drafted = ledger.draft(Json{{"kind", "receive"},
                                            {"by", "ab"},
                                            {"at", "2026-06-04T10:00:00Z"},
                                            {"place", "fridge"},
                                            {"product", "alfa"},
                                            {"lot", "A1"},
                                            {"doses", 20},
                                            {"handover", file}}
                                           .dump(),
                                       at("2026-06-04T10:00:00Z"));
        CHECK(says(drafted.warnings, "READINGS WERE MISSING"));
        ledger.post(drafted, at("2026-06-04T10:00:00Z"));
        received = drafted.entries.back().number;
        post(rows("2026-06-04T09:00:00Z", "2026-06-20T12:00:00Z"), "2026-06-20T12:00:00Z");
    }
    EntryNumber received = 0;
    const Instant now = at("2026-06-20T12:00:00Z");
    const std::string must = "THE SENDER'S READINGS HAVE NOT COME (entry 9): 21 h 30 min before these doses left the";
};

}  // namespace

TEST_CASE("what the sender had not read stays unknown, and is said wherever the doses may be used", "[not-come]") {
    Receiver c;
    REQUIRE(c.received == 9);
    const auto row = c.ledger.lists({}, c.now).holdings.at(0);
    CHECK(row.list == List::keep);  // the model's
    CHECK(says(row.beside, c.must));
    CHECK(has_code(row.beside, "readings-not-come"));
    CHECK_FALSE(says(row.notes, "no readings yet"));  // of a time two weeks past: nobody awaits it here
    CHECK(says(c.ledger.stock({}, c.now).holdings.at(0).beside, c.must));
    CHECK(says(c.ledger.move_list("fridge", std::nullopt, {}, c.now).holdings.at(0).notes, c.must));
    CHECK(says(c.ledger.dates({}, c.now).holdings.at(0).notes, c.must));
    Drafted give = c.ledger.draft(
        R"({"kind":"give","by":"ab","at":"2026-06-20T12:00:00Z","place":"fridge","lot":"A1","patient":"t-1"})", c.now);
    CHECK(says(give.warnings, c.must));
    c.ledger.post(give, c.now);
    for (const bool all : {false, true})
        CHECK(says(c.ledger.review({}, c.now, all).not_listed, "1 dose given (entry 11) came from another site with"));

    // it goes on with them
    const auto sent = c.post({R"({"kind":"transfer","at":"2026-06-20T12:00:00Z","place":"fridge","product":"alfa",)"
                              R"("lot":"A1","doses":5,"to":"Third","reason":"r"})"},
                             "2026-06-20T12:00:00Z");
    const auto handover = c.ledger.handover(sent.back(), {}, c.now);
    CHECK(handover.needed);
    CHECK(says(handover.beside, c.must));
    CHECK_FALSE(says(handover.beside, "READINGS ARE MISSING"));  // there are none to be read here
    // and into another place and mark
    c.post({R"({"kind":"move","at":"2026-06-20T12:00:00Z","product":"alfa","lot":"A1","doses":5,)"
            R"("from":{"place":"fridge"},"to":{"place":"annex","mark":"m"}})"},
           "2026-06-20T12:00:00Z");
    for (const auto& r : c.ledger.lists({}, c.now).holdings) CHECK(says(r.beside, c.must));
}

TEST_CASE("guidance for all that the doses have been through settles what the sender had not read", "[not-come]") {
    Receiver c;
    const std::string use = R"({"kind":"guidance","at":"2026-06-20T12:00:00Z","product":"alfa","lot":"A1",)"
                            R"("verdict":"use","issuer":"M","reference":"r","through":")";
    c.post({use + "2026-06-20T11:00:00Z\"}"}, "2026-06-20T12:00:00Z");
    CHECK(c.ledger.lists({}, c.now).holdings.at(0).beside.empty());
}

TEST_CASE("the handover stated anew takes the place of the one with readings missing", "[not-come]") {
    Receiver c;
    c.post({R"({"kind":"void","at":"2026-06-20T12:00:00Z","voids":9,"reason":"stated anew"})",
            R"({"kind":"receive","at":"2026-06-04T10:00:00Z","place":"fridge","product":"alfa","lot":"A1",)"
            R"("doses":20})"},
           "2026-06-20T12:00:00Z");
    CHECK(c.ledger.lists({}, c.now).holdings.at(0).beside.empty());
}
