// The last day to use. All data invented; every day and instant below is counted by hand from the entries.
#include <catch2/catch.hpp>

#include <algorithm>

#include <nlohmann/json.hpp>

#include "clinic.hpp"
#include "stock/last_use.hpp"

using namespace coldtally;
using nlohmann::json;
using tests::at;

namespace {

/// Chicago is 5 hours behind UTC in summer: the first instant of 1 July there is 05:00Z.
const std::vector<std::string> clinic = {
    R"({"kind":"site","name":"Invented","zone":"America/Chicago"})",
    R"({"kind":"product","product":"elm","name":"Elm, invented","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
    R"("beyond_use":{"first puncture":21600,"thaw":2419200},)"
    R"("doses_per_vial":10})",
    R"({"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
    R"({"kind":"lot","product":"elm","lot":"A1","expiry":"2026-06-30"})",
    R"({"kind":"receive","at":"2026-05-29T08:00:00","place":"main","product":"elm","lot":"A1","doses":20})",
    R"({"kind":"receive","at":"2026-05-29T08:00:00","place":"main","product":"elm","lot":"A1","doses":10,)"
    R"("mark":"vial 1"})",
    R"({"kind":"receive","at":"2026-05-29T08:00:00","place":"main","product":"elm","lot":"A1","doses":10,)"
    R"("mark":"by the answer"})",
    R"({"kind":"beyond-use","at":"2026-05-29T08:00:00","place":"main","product":"elm","lot":"A1","mark":"vial 1",)"
    R"("event":"first puncture"})",
    R"({"kind":"guidance","at":"2026-05-29T08:30:00","through":"2026-05-29T08:10:00","product":"elm","lot":"A1",)"
    R"("mark":"by the answer","verdict":"use-by","use_by":"2026-06-15","issuer":"M","reference":"r"})"};

const Question question{at("2026-05-29T13:30:00Z"), std::nullopt};
const Instant now = at("2026-05-29T13:30:00Z");
TableStyle style(int columns = 120) {
    TableStyle out{Zone("America/Chicago")};
    out.columns = columns;
    out.why = true;
    return out;
}

struct Row {
    std::string mark;
    LastUse use;
};

void check_rows(const std::vector<Row>& rows) {
    REQUIRE(rows.size() == 3);
    for (const auto& [mark, use] : rows) {
        CAPTURE(mark);
        if (mark.empty()) {
            CHECK(use.day == Date{2026, 6, 30});
            CHECK(use.whole_day);
            CHECK(use.until == at("2026-07-01T05:00:00Z"));
            CHECK(use.set_by == UseLimitKind::expiry);
            CHECK_FALSE(use.entry);
        } else if (mark == "vial 1") {  // opened at 08:00, good for 6 hours
            CHECK(use.day == Date{2026, 5, 29});
            CHECK_FALSE(use.whole_day);
            CHECK(use.until == at("2026-05-29T19:00:00Z"));
            CHECK(use.set_by == UseLimitKind::beyond_use);
            CHECK(use.entry == 8);
        } else {
            CHECK(use.day == Date{2026, 6, 15});
            CHECK(use.whole_day);
            CHECK(use.until == at("2026-06-16T05:00:00Z"));
            CHECK(use.set_by == UseLimitKind::guidance);
            CHECK(use.entry == 9);
        }
    }
}

template <class Answer>
std::vector<Row> rows_of(const Answer& answer) {
    std::vector<Row> out;
    for (const auto& row : answer.holdings) out.push_back({row.holding.mark, row.last_use});
    return out;
}

/// What people read: the day itself, a time where the day cannot be used to its end, and what sets it. Never the day
/// after.
void check_table(const std::string& table) {
    CAPTURE(table);
    CHECK(table.find("Last day") != std::string::npos);
    CHECK(table.find("2026-06-30") != std::string::npos);
    CHECK(table.find("beyond-use (entry 8)") != std::string::npos);
    CHECK(table.find("guidance (entry 9)") != std::string::npos);
    CHECK(table.find("2026-07-01") == std::string::npos);
    CHECK(table.find("2026-06-16") == std::string::npos);
}

/// The wire's fields stand as they did; beside them is what the table says.
void check_json(const std::string& text, const char* until) {
    const json answer = json::parse(text);
    REQUIRE(answer["holdings"].size() == 3);
    for (const auto& row : answer["holdings"]) {
        if (row["mark"] == "")
            CHECK(row["last_use"] == json({{"day", "2026-06-30"},
                                           {"whole_day", true},
                                           {"until", "2026-07-01T05:00:00Z"},
                                           {"set_by", "expiry"},
                                           {"entry", nullptr}}));
        if (row["mark"] == "vial 1")
            CHECK(row["last_use"] == json({{"day", "2026-05-29"},
                                           {"whole_day", false},
                                           {"until", "2026-05-29T19:00:00Z"},
                                           {"set_by", "beyond-use"},
                                           {"entry", 8}}));
        if (row.contains("expiry")) CHECK(row["expiry"] == "2026-06-30");
        if (until) CHECK(row[until] == row["last_use"]["until"]);
    }
}

}  // namespace

TEST_CASE("stock, lists, dates and the move list show one last day, and what sets it", "[last-use]") {
    tests::Clinic c;
    c.post(clinic, "2026-05-29T13:30:00Z");
    const auto stock = c.ledger.stock(question, now);
    const auto lists = c.ledger.lists(question, now);
    const auto dates = c.ledger.dates(question, now);
    const auto moved = c.ledger.move_list("main", std::nullopt, question, now);
    check_rows(rows_of(stock));
    check_rows(rows_of(lists));
    check_rows(rows_of(dates));
    check_rows(rows_of(moved));
    check_table(to_table(stock, style()));
    check_table(to_table(lists, style()));
    check_table(to_table(dates, style()));
    check_table(to_table(moved, style()));
    check_json(to_json(stock), nullptr);
    check_json(to_json(lists), nullptr);
    check_json(to_json(dates), "usable_until");
    check_json(to_json(moved), "unusable_from");
}

TEST_CASE("the expiry on the box is shown where something else sets the last day", "[last-use]") {
    tests::Clinic c;
    c.post(clinic, "2026-05-29T13:30:00Z");
    for (const auto& table :
         {to_table(c.ledger.stock(question, now), style()), to_table(c.ledger.lists(question, now), style()),
          to_table(c.ledger.move_list("main", std::nullopt, question, now), style())}) {
        CAPTURE(table);
        std::size_t shown = 0;
        for (auto found = table.find("expiry of the lot: 2026-06-30"); found != std::string::npos;
             found = table.find("expiry of the lot: 2026-06-30", found + 1))
            ++shown;
        CHECK(shown == 2);
    }
}

TEST_CASE("the words of use-by, of explain and of what was posted name the last day, not the day after it",
          "[last-use]") {
    tests::Clinic c;
    c.post(clinic, "2026-05-29T13:30:00Z");
    const std::string lists = to_table(c.ledger.lists(question, now), style());
    CHECK(lists.find("Use-by: through 2026-06-15") != std::string::npos);
    CHECK(lists.find("Use-by: until 2026-05-29 14:00") != std::string::npos);
    const std::string explained =
        to_table(c.ledger.explain({"main", "elm", "A1", "", "by the answer"}, question, now), style());
    CHECK(explained.find("usable through 2026-06-15, by guidance (entry 9); expiry 2026-06-30") != std::string::npos);
    const std::string vial = to_table(c.ledger.explain({"main", "elm", "A1", "", "vial 1"}, question, now), style());
    CHECK(vial.find("beyond-use: usable until 2026-05-29 14:00") != std::string::npos);
    c.post(
        {R"({"kind":"beyond-use","at":"2026-05-29T08:20:00","place":"main","product":"elm","lot":"A1",)"
         R"("use_by":"2026-06-11T05:00:00Z"})"},
        "2026-05-29T13:30:00Z");
    std::string posted;
    c.ledger.for_each_entry([&](const Entry& e) { posted = english().say(entry_words(e, Zone("America/Chicago"))); });
    CHECK(posted.find("usable through 2026-06-10") != std::string::npos);  // an instant that is a local midnight
    const auto late =
        to_table(c.ledger.lists({at("2026-06-12T12:00:00Z"), std::nullopt}, at("2026-06-12T12:00:00Z")), style());
    CHECK(late.find("expired: past its use-by, 2026-06-10") != std::string::npos);
    CHECK(late.find("expired: past its use-by, 2026-05-29 14:00") != std::string::npos);
}

TEST_CASE("in a table the last minute is cut, never later than it is; in a sentence it is exact", "[last-use]") {
    const Zone zone("America/Chicago");
    const auto last_day = [&](const std::string& t) { return english().say(answers::last_day_words(at(t), zone)); };
    const auto usable = [&](const std::string& t) { return english().say(answers::usable_words(at(t), zone)); };
    CHECK(last_day("2026-05-29T19:00:59Z") == "until 2026-05-29 14:00");
    CHECK(usable("2026-05-29T19:00:59Z") == "until 2026-05-29 14:00:59");
    CHECK(last_day("2026-05-29T05:00:01Z") == "until 2026-05-29 00:00");  // a second of that day
    CHECK(last_day("2026-05-29T05:00:00Z") == "2026-05-28");
    CHECK(usable("2026-05-29T05:00:00Z") == "through 2026-05-28");
}

TEST_CASE("the last day where midnight is skipped, and where it comes twice", "[last-use]") {
    // Rule data: America/Sao_Paulo skipped 2018-11-04 00:00 to 01:00; Atlantic/Azores showed 2026-10-25 00:00 twice
    // (IANA tz data)
    tests::Clinic skipped;
    skipped.post(
        {R"({"kind":"site","name":"Invented","zone":"America/Sao_Paulo"})", clinic[1], clinic[2],
         R"({"kind":"lot","product":"elm","lot":"A1","expiry":"2018-11-03"})",
         R"({"kind":"receive","at":"2018-11-01T08:00:00","place":"main","product":"elm","lot":"A1","doses":20})"});
    const LastUse there = skipped.ledger.stock({at("2018-11-02T00:00:00Z"), std::nullopt}, at("2030-01-01T00:00:00Z"))
                              .holdings.at(0)
                              .last_use;
    CHECK(there.until == at("2018-11-04T03:00:00Z"));
    CHECK(there.day == Date{2018, 11, 3});
    CHECK(there.whole_day);

    tests::Clinic twice;
    twice.post(
        {R"({"kind":"site","name":"Invented","zone":"Atlantic/Azores"})", clinic[1], clinic[2],
         R"({"kind":"lot","product":"elm","lot":"A1","expiry":"2026-10-24"})",
         R"({"kind":"receive","at":"2026-10-20T08:00:00","place":"main","product":"elm","lot":"A1","doses":20})"});
    const LastUse here = twice.ledger.stock({at("2026-10-21T00:00:00Z"), std::nullopt}, at("2030-01-01T00:00:00Z"))
                             .holdings.at(0)
                             .last_use;
    CHECK(here.until == at("2026-10-25T00:00:00Z"));
    CHECK(here.day == Date{2026, 10, 24});
    CHECK(here.whole_day);
}

TEST_CASE("what shortens the use of doses goes with them, and goes with the last of them", "[last-use]") {
    tests::Clinic c;
    c.post(clinic, "2026-05-29T13:30:00Z");
    c.post(
        {R"({"kind":"move","at":"2026-05-29T08:40:00","product":"elm","lot":"A1","from":{"place":"main",)"
         R"("mark":"vial 1"},"to":{"place":"main","mark":"vial 2"},"doses":10})",
         R"({"kind":"move","at":"2026-05-29T08:41:00","product":"elm","lot":"A1","from":{"place":"main"},)"
         R"("to":{"place":"main","mark":"vial 1"},"doses":10})"},
        "2026-05-29T14:00:00Z");
    const Question later{at("2026-05-29T14:00:00Z"), std::nullopt};
    for (const auto& row : c.ledger.stock(later, at("2026-05-29T14:00:00Z")).holdings) {
        CAPTURE(row.holding.mark);
        if (row.holding.mark == "vial 2") CHECK(row.last_use.entry == 8);
        // a new vial under the old mark
        if (row.holding.mark == "vial 1") CHECK(row.last_use.set_by == UseLimitKind::expiry);
    }
    c.post(
        {R"({"kind":"move","at":"2026-05-29T08:42:00","product":"elm","lot":"A1","from":{"place":"main",)"
         R"("mark":"vial 2"},"to":{"place":"main","mark":"vial 1"},"doses":1})"},
        "2026-05-29T14:00:00Z");
    for (const auto& row : c.ledger.stock(later, at("2026-05-29T14:00:00Z")).holdings)
        if (row.holding.mark == "vial 1") CHECK(row.last_use.entry == 8);  // joined: the earlier holds for all of them
}
