// What was entered: found by day, by what it names, by whom and what was typed, with what took it back. Invented data.
#include <catch2/catch.hpp>

#include "clinic.hpp"
#include "said.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const std::string fridge = R"("range":{"low":{"C":"2"},"high":{"C":"8"}})";

/// Entry numbers stand beside the lines.
struct Practice : Clinic {
    Practice() {
        post({R"({"kind":"site","name":"Invented","zone":"UTC"})",                                     // 1
              R"({"kind":"place","place":"main","name":"Main","type":"refrigerator",)" + fridge + "}",   // 2
              R"({"kind":"place","place":"annex","name":"Annex","type":"refrigerator",)" + fridge + "}", // 3
              R"({"kind":"product","product":"elm","name":"Elm, invented",)" + fridge + "}",             // 4
              R"({"kind":"lot","product":"elm","lot":"E1","expiry":"2027-06"})",                         // 5
              R"({"kind":"lot","product":"elm","lot":"E2","expiry":"2027-06"})",                         // 6
              R"({"kind":"probe","probe":"p","scale":"C"})",                                             // 7
              R"({"kind":"assign","at":"2026-03-01T06:00:00Z","probe":"p","place":"main"})",             // 8
              R"({"kind":"assign","at":"2026-03-03T00:00:00Z","probe":"p","place":"annex"})",            // 9
              of("receive", "01T07:00", "E1", R"("doses":9)"),   // 10
              of("receive", "01T07:05", "E2", R"("doses":9)")},  // 11
             "2026-03-03T08:00:00Z");
        post({of("give", "02T09:00", "E1", R"("patient":"t-1")"),                         // 12
              of("give", "03T09:00", "E2", R"("patient":"t-2","note":"Left ARM")"),      // 13
              R"({"kind":"move","at":"2026-03-03T09:10:00Z","product":"elm","lot":"E2","doses":2,)"
              R"("from":{"place":"main"},"to":{"place":"annex"}})",                                               // 14
              readings("2026-03-01T12:00:00Z", {{0, "5"}, {3600, "5"}})},                                         // 15
             "2026-03-03T10:00:00Z");
        post({R"({"kind":"void","at":"2026-03-04T08:00:00Z","voids":12,"reason":"entered twice"})",      // 16
              R"({"kind":"follow-up","at":"2026-03-04T08:10:00Z","give":13,"step":"told","text":"by phone"})",  // 17
              R"({"kind":"check","at":"2026-03-04T08:20:00Z","place":"annex","scale":"C","temperature":"5"})"},  // 18
             "2026-03-04T09:00:00Z");
    }
    static std::string of(const std::string& kind, const std::string& when, const std::string& lot,
                          const std::string& more) {
        return R"({"kind":")" + kind + R"(","at":"2026-03-)" + when + R"(:00Z","place":"main","product":"elm","lot":)" +
               ("\"" + lot) + "\"," + more + "}";
    }
    EnteredAnswer ask(const EnteredRequest& request, const Question& question = {}) const {
        return ledger.entered(request, question, at("2026-03-04T12:00:00Z"));
    }
    std::vector<EntryNumber> numbers(const EnteredRequest& request, const Question& question = {}) const {
        std::vector<EntryNumber> out;
        for (const auto& row : ask(request, question).entries) out.push_back(row.entry.number);
        return out;
    }
    std::string refusal(const EnteredRequest& request, Code code) const {
        try {
            ask(request);
        } catch (const Error& e) {
            CHECK(e.code() == code);
            return e.what();
        }
        return "accepted";
    }
};

using Numbers = std::vector<EntryNumber>;

EnteredRequest with(std::optional<std::string> EnteredRequest::*field, const std::string& value) {
    EnteredRequest out;
    out.*field = value;
    return out;
}

}  // namespace

TEST_CASE("what was entered: by what it names, and what is about that", "[entered]") {
    Practice c;
    // a taking back and a step are of the entry that they are about
    CHECK(c.numbers(with(&EnteredRequest::lot, "E1")) == Numbers{5, 10, 12, 16});
    CHECK(c.numbers(with(&EnteredRequest::lot, "E2")) == Numbers{6, 11, 13, 14, 17});
    CHECK(c.numbers(with(&EnteredRequest::patient, "t-2")) == Numbers{13, 17});
    CHECK(c.numbers(with(&EnteredRequest::patient, "t-1")) == Numbers{12, 16});
    CHECK(c.numbers(with(&EnteredRequest::patient, "t-9")).empty());
    // both ends of a move; readings are of the place where their probe was, though it is elsewhere now
    CHECK(c.numbers(with(&EnteredRequest::place, "annex")) == Numbers{3, 9, 14, 18});
    CHECK(c.numbers(with(&EnteredRequest::place, "main")) == Numbers{2, 8, 10, 11, 12, 13, 14, 15, 16, 17});
    EnteredRequest both = with(&EnteredRequest::place, "annex");
    both.lot = "E2";
    CHECK(c.numbers(both) == Numbers{14});
    CHECK(c.numbers(with(&EnteredRequest::product, "elm")) == Numbers{4, 5, 6, 10, 11, 12, 13, 14, 16, 17});
}

TEST_CASE("what was entered: by kind, initials and what was typed", "[entered]") {
    Practice c;
    CHECK(c.numbers(with(&EnteredRequest::kind, "give")) == Numbers{12, 13});
    CHECK(c.numbers(with(&EnteredRequest::kind, "takeback")) == Numbers{16});
    CHECK(c.numbers(with(&EnteredRequest::kind, "void")) == Numbers{16});
    const auto slip = c.refusal(with(&EnteredRequest::kind, "gives"), Code::bad_value);
    CHECK(slip.find("did you mean give?") != std::string::npos);
    CHECK(slip.find("void") == std::string::npos);

    CHECK(c.numbers(with(&EnteredRequest::text, "left arm")) == Numbers{13});  // in any case
    CHECK(c.numbers(with(&EnteredRequest::text, "TWICE")) == Numbers{16});
    CHECK(c.numbers(with(&EnteredRequest::text, "t-2")).empty());   // a token is asked for as a patient's
    CHECK(c.numbers(with(&EnteredRequest::text, "give")).empty());  // no kind, which nobody typed

    c.ledger.post(R"({"kind":"check","at":"2026-03-04T10:00:00Z","place":"main","scale":"C","temperature":"5",)"
                  R"("by":"MK"})",
                  at("2026-03-04T11:00:00Z"));
    CHECK(c.numbers(with(&EnteredRequest::by, "mk")) == Numbers{19});
    CHECK(c.refusal(with(&EnteredRequest::by, "XX"), Code::not_known).find("there are \"MK\" and \"QA\"") !=
          std::string::npos);
}

TEST_CASE("what was entered: of a day is what happened or was entered then", "[entered]") {
    Practice c;
    EnteredRequest day;
    day.from = at("2026-03-02T00:00:00Z");
    day.until = at("2026-03-03T00:00:00Z");
    CHECK(c.numbers(day) == Numbers{12});
    day.from = at("2026-03-01T00:00:00Z");
    day.until = at("2026-03-02T00:00:00Z");
    CHECK(c.numbers(day) == Numbers{8, 10, 11, 15});  // readings by their first and last
    day.from = at("2026-03-04T00:00:00Z");
    day.until = at("2026-03-05T00:00:00Z");
    CHECK(c.numbers(day) == Numbers{16, 17, 18});
    // entered on the third, though of the first and second
    day.from = at("2026-03-03T10:00:00Z");
    day.until = at("2026-03-03T10:00:01Z");
    CHECK(c.numbers(day) == Numbers{12, 13, 14, 15});
    day.until = at("2026-03-01T00:00:00Z");
    c.refusal(day, Code::contradiction);
}

TEST_CASE("what was entered: the last of them, and how many more", "[entered]") {
    Practice c;
    EnteredRequest few;
    few.most = 3;
    const auto answer = c.ask(few);
    REQUIRE(answer.entries.size() == 3);
    CHECK(answer.entries.back().entry.number == 18);  // newest last
    CHECK(answer.earlier == 15);
    few.most = 0;
    CHECK(c.ask(few).entries.size() == 18);
    CHECK(c.ask(few).earlier == 0);
    few.most = -1;
    c.refusal(few, Code::bad_value);

    TableStyle style{Zone("UTC")};
    style.columns = 80;
    const std::string table = to_table(answer, style);
    CHECK(table.find("15 earlier entries are not shown: `--all` shows them.") != std::string::npos);
    CHECK(table.find("`coldtally takeback NUMBER WHY`") != std::string::npos);
}

TEST_CASE("what was entered: what took it back, what it takes back, and the way to it", "[entered]") {
    Practice c;
    const auto rows = c.ask(with(&EnteredRequest::lot, "E1")).entries;
    REQUIRE(rows.size() == 4);
    REQUIRE(rows[2].taken_back);
    CHECK(rows[2].taken_back->entry == 16);
    CHECK(rows[2].taken_back->reason == "entered twice");
    CHECK(!rows[2].takeback);  // it is taken back already
    REQUIRE(rows[3].takes_back);
    CHECK(rows[3].takes_back->number == 12);
    CHECK(!rows[3].takeback);  // a taking back stays
    REQUIRE(rows[1].takeback);
    CHECK(rows[1].takeback->task == "takeback");
    CHECK(rows[1].takeback->arguments.front().value == "10");

    // before it was taken back nothing says so
    const Question before{std::nullopt, at("2026-03-03T12:00:00Z")};
    const auto then = c.ask(with(&EnteredRequest::lot, "E1"), before).entries;
    REQUIRE(then.size() == 3);
    CHECK(!then[2].taken_back);
    // the first entry cannot be taken back
    EnteredRequest all;
    all.most = 0;
    CHECK(!c.ask(all).entries.front().takeback);

    // tokens stand nowhere unless they are asked for
    EnteredRequest gives = with(&EnteredRequest::kind, "give");
    TableStyle style{Zone("UTC")};
    for (const auto& said : {to_json(c.ask(gives)), to_table(c.ask(gives), style)})
        CHECK(said.find("t-2") == std::string::npos);
    gives.patients = true;
    for (const auto& said : {to_json(c.ask(gives)), to_table(c.ask(gives), style)})
        CHECK(said.find("t-2") != std::string::npos);
}

TEST_CASE("what was entered: a slip of a name does not look like nothing", "[entered]") {
    Practice c;
    c.refusal(with(&EnteredRequest::place, "mian"), Code::not_known);
    CHECK(c.refusal(with(&EnteredRequest::lot, "El"), Code::not_known).find("E1") != std::string::npos);
    CHECK(c.refusal(with(&EnteredRequest::product, "elms"), Code::not_known).find("did you mean elm?") !=
          std::string::npos);
}
