// Measured time: between plain checks nothing is known, and every answer that rests on them says so and for how long.
// Invented data.
#include <catch2/catch.hpp>

#include <algorithm>

#include "clinic.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const Instant now = at("2030-01-01T00:00:00Z");

std::string check(const std::string& hour, const std::string& degrees) {
    return R"({"kind":"check","at":"2026-03-01T)" + hour + R"(:00Z","place":"main","scale":"C","temperature":")" +
           degrees + "\"}";
}

/// 12 h of logger at 5 °C but for half an hour at 10 °C, then checks at 12:00, 18:00 and, at 9 °C, 24:00.
void fill(Clinic& c) {
    c.post(
        {R"({"kind":"site","name":"Wren Street Practice, invented","zone":"UTC"})",
         R"({"kind":"place","place":"main","name":"Refrigerator","type":"refrigerator","range":{"low":{"C":"2"},)"
         R"("high":{"C":"8"}}})",
         R"({"kind":"probe","probe":"p","scale":"C"})",
         R"({"kind":"assign","at":"2026-03-01T00:00:00Z","probe":"p","place":"main"})",
         R"({"kind":"product","product":"mmr","name":"M, invented","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
         R"({"kind":"lot","product":"mmr","lot":"K1","expiry":"2027-06"})",
         R"({"kind":"receive","at":"2026-03-01T12:00:00Z","place":"main","product":"mmr","lot":"K1","doses":24})",
         check("12:00", "5"), check("18:00", "5"),
         R"({"kind":"check","at":"2026-03-02T00:00:00Z","place":"main","scale":"C","temperature":"9"})"});
    std::vector<std::pair<std::int64_t, std::string>> rows;
    for (std::int64_t t = 0; t <= 43200; t += 1800) rows.emplace_back(t, t == 7200 || t == 9000 ? "10" : "5");
    c.post({readings("2026-03-01T00:00:00Z", rows)});
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::string flat(std::string text) {
    std::string out;
    for (const char c : text)
        if ((c != ' ' && c != '\n') || (!out.empty() && out.back() != ' ')) out += c == '\n' ? ' ' : c;
    return out;
}

const TableStyle style{Zone("UTC"), Scale::C, 100, false, &english(), true};

}  // namespace

TEST_CASE("a share of time in range is of measured time, and says how much that is", "[measured]") {
    Clinic c;
    fill(c);
    const UnitAnswer unit = c.ledger.unit("main", at("2026-03-01T00:00:00Z"), at("2026-03-02T00:00:00Z"),
                                          {at("2026-03-03T00:00:00Z"), std::nullopt}, now);
    CHECK(unit.whole.measured_s() == Rational(43200));
    // 5 to 10 °C in 1800 s passes 8 °C after 3/5 of it: 720 s of each flank lie above, and 1800 s between
    CHECK(unit.whole.measured_out_s == Rational(1800 + 2 * 720));
    // 5 to 9 °C between the checks of 18:00 and 24:00: a quarter of six hours, which nobody measured
    CHECK(unit.whole.out_of_range_s == Rational(1800 + 2 * 720 + 5400));
    CHECK(*unit.whole.in_range == Rational(43200 - 3240, 43200));
    const std::string table = flat(to_table(unit, style));
    CHECK(has(table,
              "In range is the share of the time that a logger measured, which is 12 h; between plain checks nothing "
              "is known"));
    CHECK(has(table, "Logged"));
    CHECK(has(table, "50.0 %"));  // 12 of 24 hours

    const UnitAnswer checks = c.ledger.unit("main", at("2026-03-01T12:00:00Z"), at("2026-03-02T00:00:00Z"),
                                            {at("2026-03-03T00:00:00Z"), std::nullopt}, now);
    CHECK_FALSE(checks.whole.in_range);  // nothing was measured
    CHECK(has(flat(to_table(checks, style)), "not measured"));
}

TEST_CASE("wherever time rests on plain checks the answer says that nothing is known between them, and for how long",
          "[measured]") {
    Clinic c;
    fill(c);
    const Question then{at("2026-03-01T18:00:00Z"), std::nullopt}, later{at("2026-03-02T00:00:00Z"), std::nullopt};
    const std::string between = "nothing is known between plain checks, 6 h in all";
    const ListsAnswer lists = c.ledger.lists(then, now);
    CHECK(has(flat(to_table(lists, style)), "Out of range: none seen by logger or check; " + between));
    const auto notes = english().say(lists.holdings.front().notes);
    CHECK(std::find(notes.begin(), notes.end(), between) != notes.end());
    CHECK(has(to_json(lists), between));
    CHECK(has(flat(to_table(c.ledger.lists(later, now), style)), "nothing is known between plain checks, 12 h in all"));

    const auto window = [&](const std::string& from, const std::string& until) {
        return std::pair(at("2026-03-01T" + from + ":00:00Z"), at("2026-03-0" + until + ":00:00Z"));
    };
    const auto [from, until] = window("00", "2T00");
    CHECK(has(flat(to_table(c.ledger.conditions("main", from, until, later, now), style)),
              "The means rest on 12 h that a logger measured and 12 h on a line between plain checks, where nothing is "
              "known."));

    const ExcursionsAnswer excursions = c.ledger.excursions("main", from, until, later, now);
    REQUIRE(excursions.excursions.size() == 2);
    CHECK(excursions.excursions[0].checked_s == Rational(0));
    CHECK(excursions.excursions[1].checked_s == excursions.excursions[1].duration_s);
    CHECK(excursions.seconds[static_cast<std::size_t>(Class::logged)] == Rational(43200));
    CHECK(excursions.seconds[static_cast<std::size_t>(Class::checked)] == Rational(43200));
    const std::string table = flat(to_table(excursions, style));
    CHECK(has(table, "between plain checks, nothing known between them 12 h"));
    CHECK(has(table, "54 min by readings"));
    CHECK(has(table, "1 h 30 min on a line between plain checks, where nothing is known"));

    c.post(
        {R"({"kind":"incident","at":"2026-03-02T00:00:00Z","incident":"i1","step":"noticed","place":"main",)"
         R"("text":"display 9"})"});
    const std::string incident = flat(to_table(c.ledger.incident("i1", std::nullopt, later, now), style));
    CHECK(has(incident, "of it 1 h 30 min on a line between plain checks, where nothing is known"));
    CHECK(has(incident, "nothing is known between plain checks, 12 h in all"));
    bool said = false;
    for (const auto& line : c.ledger.explain({"main", "mmr", "K1", "", ""}, then, now).lines)
        said = said ||
               has(english().say(line.text), "checked 21600 s (6 h), where nothing is known between the checks");
    CHECK(said);
}
