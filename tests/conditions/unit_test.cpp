// The history of a unit: months that add up to the whole, hours, devices that disagree.
#include <catch2/catch.hpp>

#include <algorithm>

#include "clinic.hpp"
#include "properties/random_site.hpp"
#include "words/conditions.hpp"

using namespace coldtally;
using tests::at;
using tests::Clinic;
using What = UnitAnswer::Disagreement::What;

namespace {

const Instant now = at("2030-01-01T00:00:00Z");

std::vector<std::string> one_unit(const std::string& zone) {
    return {
        R"({"kind":"site","name":"Unit","zone":")" + zone + R"("})",
        R"({"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},)"
        R"("high":{"C":"8"}}})",
        R"({"kind":"probe","probe":"p","scale":"C"})", R"({"kind":"probe","probe":"hand","scale":"C"})",
        R"({"kind":"assign","at":"2026-01-01T00:00:00Z","probe":"p","place":"main"})"};
}

std::string check(const std::string& when, const std::string& temperature, const std::string& more = "") {
    return R"({"kind":"check","at":")" + when + R"(","place":"main","scale":"C","temperature":")" + temperature + "\"" +
           more + "}";
}

/// Days of readings, gaps and checks in no order of the months, out of range often.
std::vector<std::string> random_history(std::uint64_t seed) {
    properties::Random random(seed);
    std::vector<std::string> out;
    const Instant start = at("2026-01-20T00:00:00Z");
    for (std::int64_t t = 0; t < 75 * 86400;) {
        std::vector<std::pair<std::int64_t, std::string>> rows;
        for (auto n = random.from(1, 40); n > 0; --n) {
            const auto tenths = random.from(0, 100);
            rows.emplace_back(t, std::to_string(tenths / 10) + "." + std::to_string(tenths % 10));
            t += random.from(60, 3600);
        }
        out.push_back(tests::readings(start.text(), rows));
        t += random.from(1, 2) == 1 ? 60 : random.from(3600, 4 * 86400);
    }
    for (std::int64_t t = 0; t < 75 * 86400; t += random.from(3600, 3 * 86400)) {
        const auto c = random.from(1, 9);
        out.push_back(check((start + Duration(t)).text(), std::to_string(c),
                            random.one_in(2) ? R"(,"min":")" + std::to_string(c - random.from(0, 3)) + R"(","max":")" +
                                                   std::to_string(c + random.from(0, 3)) + "\""
                                             : ""));
    }
    return out;
}

}  // namespace

TEST_CASE("every unit: the months add up to conditions and excursions of the whole, exactly", "[unit][properties]") {
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        for (const char* zone : {"UTC", "Europe/Berlin", "Asia/Kathmandu"}) {
            INFO("seed " << seed << ", " << zone);
            Clinic c;
            c.post(one_unit(zone));
            c.post(random_history(seed));
            const Instant from = at("2026-01-21T07:11:13Z"), until = at("2026-04-01T03:00:01Z");
            const auto unit = c.ledger.unit("main", from, until, {}, now);
            const auto whole = c.ledger.conditions("main", from, until, {}, now);
            const auto& f = unit.whole;
            REQUIRE(unit.months.size() >= 3);
            CHECK(f.seconds == whole.seconds);
            CHECK(f.lowest_C == whole.lowest_C);
            CHECK(f.highest_C == whole.highest_C);
            CHECK(f.mean_C == whole.mean_C);
            CHECK(f.mean_kinetic_C == whole.mean_kinetic_C);
            CHECK(f.excursions == whole.excursions);

            Rational warm, cold, longest;
            std::vector<std::int64_t> begun(unit.months.size());
            for (const auto& row : c.ledger.excursions("main", from, until, {}, now).excursions) {
                (row.side == Side::warm ? warm : cold) += row.duration_s;
                longest = std::max(longest, row.duration_s);
                for (std::size_t k = 0; k < unit.months.size(); ++k)
                    if (Rational(unit.months[k].from.seconds_since_1970()) <= row.from_s &&
                        row.from_s < Rational(unit.months[k].until.seconds_since_1970()))
                        ++begun[k];
            }
            CHECK(f.warm.estimate == warm);
            CHECK(f.cold.estimate == cold);
            CHECK(f.longest_s == longest);
            CHECK(f.out_of_range_s <= warm + cold);
            CHECK(std::max(warm, cold) <= f.out_of_range_s);
            REQUIRE(f.in_range.has_value() == (f.measured_s().sign() > 0));
            if (f.in_range) CHECK(*f.in_range * f.measured_s() + f.measured_out_s == f.measured_s());
            CHECK(f.measured_out_s <= f.out_of_range_s);

            Rational known, out_of_range, measured_out;
            Instant end = from;
            for (std::size_t k = 0; k < unit.months.size(); ++k) {
                const auto& m = unit.months[k];
                CHECK(m.from == end);
                end = m.until;
                const auto alone = c.ledger.conditions("main", m.from, m.until, {}, now);
                CHECK(m.figures.seconds == alone.seconds);
                CHECK(m.figures.lowest_C == alone.lowest_C);
                CHECK(m.figures.mean_C == alone.mean_C);
                CHECK(m.figures.mean_kinetic_C == alone.mean_kinetic_C);
                CHECK(m.figures.excursions == begun[k]);
                CHECK(m.figures.warm.at_least <= m.figures.warm.estimate);
                known += m.figures.known_s();
                out_of_range += m.figures.out_of_range_s;
                measured_out += m.figures.measured_out_s;
            }
            CHECK(end == until);
            CHECK(known == f.known_s());
            CHECK(out_of_range == f.out_of_range_s);
            CHECK(measured_out == f.measured_out_s);

            Rational hours_warm = unit.hour_not_known.warm_s, hours_cold = unit.hour_not_known.cold_s;
            std::int64_t begun_in_hours = unit.hour_not_known.excursions;
            for (const auto& h : unit.hours) {
                hours_warm += h.warm_s;
                hours_cold += h.cold_s;
                begun_in_hours += h.excursions;
            }
            CHECK(hours_warm == warm);
            CHECK(hours_cold == cold);
            CHECK(begun_in_hours == f.excursions);
        }
    }
}

TEST_CASE("a warm hour that crosses the end of a month is cut there, and begins in the first", "[unit]") {
    // local time of Kathmandu is UTC+05:45, so that May begins there at 18:15Z of April 30
    Clinic c;
    c.post(one_unit("Asia/Kathmandu"));
    c.post({tests::readings("2026-04-30T17:45:00Z", {{0, "5"}, {1, "9"}, {3600, "9"}, {3601, "5"}})});
    const auto unit = c.ledger.unit("main", std::nullopt, at("2026-05-01T17:45:00Z"), {}, now);
    CHECK(unit.from == at("2026-04-30T17:45:00Z"));
    REQUIRE(unit.months.size() == 2);
    CHECK(unit.months[0].month == 4);
    CHECK(unit.months[0].until == at("2026-04-30T18:15:00Z"));
    // from 5 to 9 in a second: above 8 for the last quarter of it
    CHECK(unit.months[0].figures.warm.estimate == Rational(1799) + Rational(1, 4));
    CHECK(unit.months[1].figures.warm.estimate == Rational(1800) + Rational(1, 4));
    CHECK(unit.months[0].figures.excursions == 1);
    CHECK(unit.months[1].figures.excursions == 0);
    CHECK(unit.months[0].figures.longest_s == Rational(3599) + Rational(1, 2));
    // 23:30 to 00:30 by the local clock
    CHECK(unit.hours[23].excursions == 1);
    CHECK(unit.hours[23].warm_s == Rational(1799) + Rational(1, 4));
    CHECK(unit.hours[0].warm_s == Rational(1800) + Rational(1, 4));
    // the day after the last reading is unknown, not in range, but for the half hour that is near it
    CHECK(unit.months[1].figures.seconds[static_cast<int>(Class::near)] == Rational(1800));
    CHECK(unit.months[1].figures.seconds[static_cast<int>(Class::unmonitored)] == Rational(86400 - 1800 - 1801 - 1800));
}

TEST_CASE("an excursion that the window cuts is said to have lasted longer", "[unit]") {
    Clinic c;
    c.post(one_unit("UTC"));
    c.post({tests::readings("2026-04-30T10:00:00Z", {{0, "5"}, {1, "9"}, {3600, "9"}, {3601, "5"}})});
    const auto marks = [&](const std::string& until) {
        const auto unit = c.ledger.unit("main", at("2026-04-30T10:00:00Z"), at(until), {}, now);
        CHECK((to_json(unit).find("cut by the window") != std::string::npos) == !unit.cut.empty());
        CHECK((to_table(unit, {Zone("UTC")}).find("cut by the window") != std::string::npos) == !unit.cut.empty());
        return unit.cut;
    };
    REQUIRE(marks("2026-04-30T10:30:00Z").size() == 1);
    CHECK(english().say(marks("2026-04-30T10:30:00Z").front()) ==
          "warm from 2026-04-30 10:00 to 2026-04-30 10:30: cut by the window at its end: it lasted longer, and what is "
          "beyond the window is in no figure here");
    CHECK(marks("2026-04-30T10:30:00Z").front().is(words::cut_excursion));
    CHECK(marks("2026-04-30T11:30:00Z").empty());
}

TEST_CASE("an ageing unit shows: the same month over the years", "[unit]") {
    Clinic c;
    c.post(one_unit("UTC"));
    for (const char* year : {"2026", "2027", "2028"}) {
        const std::int64_t warm = std::string(year) == "2026"   ? 1
                                  : std::string(year) == "2027" ? 3
                                                                : 6;  // warm hours of an afternoon
        std::vector<std::pair<std::int64_t, std::string>> rows;
        for (std::int64_t h = 0; h <= 24; ++h) rows.emplace_back(h * 3600, h >= 12 && h <= 12 + warm ? "9" : "5");
        c.post({tests::readings(std::string(year) + "-07-10T00:00:00Z", rows)});
    }
    const auto unit = c.ledger.unit("main", std::nullopt, at("2028-08-01T00:00:00Z"), {}, now);
    const auto july =
        std::find_if(unit.compared.begin(), unit.compared.end(), [](const auto& s) { return s.month == 7; });
    REQUIRE(july != unit.compared.end());
    REQUIRE(july->months.size() == 3);
    // an hour or more at 9, and a quarter of an hour above 8 on the way up and on the way down
    for (std::size_t i = 0; i < 3; ++i) {
        const auto& f = unit.months[july->months[i]].figures;
        const std::int64_t hours = std::vector<std::int64_t>{1, 3, 6}[i];
        CHECK(f.warm.estimate == Rational(hours * 3600 + 1800));
        CHECK(*f.in_range == Rational(86400 - hours * 3600 - 1800, 86400));
    }
    const auto table = to_table(unit, {Zone("UTC")});
    INFO(table);
    CHECK(table.find("  Month    2026    2027    2028\n  July   93.7 %  85.4 %  72.9 %\n\n") !=
          std::string::npos);  // 22.5, 20.5 and 17.5 of 24 hours
    // a month of which nothing is known is there, and is not in range
    CHECK(unit.months[1].month == 8);
    CHECK_FALSE(unit.months[1].figures.in_range);
    CHECK_FALSE(unit.months[1].figures.mean_C);
    CHECK(unit.hours[11].excursions == 3);
    CHECK(unit.hours[12].warm_s == Rational(3 * 3600));
}

TEST_CASE("two devices in one unit that differ by 3 degrees are flagged, with both values, and not averaged",
          "[unit]") {
    Clinic c;
    c.post(one_unit("UTC"));
    c.post(
        {R"({"kind":"certificate","at":"2026-01-01T00:00:00Z","probe":"p","expires":"2029-12-31","tolerance":"0.5"})",
         tests::readings("2026-03-02T08:00:00Z", {{0, "4"}, {1800, "6"}, {3600, "6"}}),
         check("2026-03-02T08:15:00Z", "8", R"(,"probe":"hand")"), check("2026-03-02T08:30:00Z", "5.5"),
         check("2026-03-02T08:45:00Z", "7.1")});
    const auto unit = c.ledger.unit("main", at("2026-03-01T00:00:00Z"), at("2026-03-03T00:00:00Z"), {}, now);
    // at 08:15 the logger's line stands at 5; 8 - 5 = 3 is more than its 0.5 and the 0.5 taken for a device without a
    // tolerance. At 08:30 and 08:45 they differ by 0.5 and by 1.1.
    REQUIRE(unit.disagreements.size() == 2);
    const auto& d = unit.disagreements[0];
    CHECK(d.what == What::reading);
    CHECK(d.until == at("2026-03-02T08:15:00Z"));
    CHECK(d.check.C == Rational(8));
    CHECK(d.check.probe == "hand");
    CHECK_FALSE(d.check.tolerance_C);
    CHECK(d.other.C == Rational(5));
    CHECK(d.other.probe == "p");
    CHECK(d.other.tolerance_C == Rational(1, 2));
    CHECK(d.difference_C == Rational(3));
    CHECK(d.allowed_C == Rational(1));
    CHECK(unit.disagreements[1].difference_C == Rational(11, 10));
    CHECK(unit.whole.disagreements == 2);
    CHECK(unit.months[0].figures.disagreements == 2);
    // half an hour on the way from 4 to 6 and half an hour at 6: the logger alone, as it takes precedence
    CHECK(unit.whole.mean_C == Rational(11, 2));

    const auto table = to_table(unit, {Zone("UTC")});
    CHECK(table.find("DEVICES THAT DISAGREE") != std::string::npos);
    CHECK(table.find("check 8 (hand) 8.0 °C, tolerance not known; logger p 5.0 °C") != std::string::npos);
}

TEST_CASE(
    "a reading without a neighbour is compared with the check of its instant, and with the minimum and maximum of its "
    "time",
    "[unit]") {
    Clinic c;
    c.post(one_unit("UTC"));
    c.post({tests::readings("2026-03-02T08:00:00Z", {{0, "8"}, {7200, "0"}, {36000, "5"}}),
            check("2026-03-02T08:00:00Z", "5"), check("2026-03-02T18:00:00Z", "5", R"(,"min":"4.5","max":"5.5")"),
            check("2026-03-02T19:00:00Z", "5", R"(,"min":"4.5","max":"5.5")")});
    const auto unit = c.ledger.unit("main", std::nullopt, at("2026-03-03T00:00:00Z"), {}, now);
    REQUIRE(unit.disagreements.size() == 3);
    CHECK(unit.disagreements[0].what == What::reading);
    CHECK(unit.disagreements[0].until == at("2026-03-02T08:00:00Z"));
    CHECK(unit.disagreements[0].difference_C == Rational(3));
    CHECK(unit.disagreements[1].what == What::minimum);
    CHECK(unit.disagreements[1].other.C == Rational(0));
    CHECK(unit.disagreements[1].other.at == at("2026-03-02T10:00:00Z"));
    CHECK(unit.disagreements[2].what == What::maximum);
    CHECK(unit.disagreements[2].other.C == Rational(8));
}

TEST_CASE("two thermometers read at one instant are compared; a corrected entry of one is not", "[unit]") {
    Clinic c;
    c.post(one_unit("UTC"));
    c.post({check("2026-03-02T08:00:00Z", "4"), check("2026-03-02T08:00:00Z", "7", R"(,"probe":"hand")"),
            check("2026-03-02T09:00:00Z", "4"), check("2026-03-02T09:00:00Z", "7")});
    const auto unit = c.ledger.unit("main", std::nullopt, at("2026-03-03T00:00:00Z"), {}, now);
    REQUIRE(unit.disagreements.size() == 1);
    CHECK(unit.disagreements[0].check.C == Rational(7));
    CHECK(unit.disagreements[0].other.C == Rational(4));
    CHECK(unit.disagreements[0].other.check.has_value());
}

TEST_CASE("a cold night between two checks a day shows in the minimum, and is compared with the logger's file",
          "[unit]") {
    const std::vector<std::string> checks = {check("2026-03-02T17:00:00Z", "5", R"(,"min":"4.5","max":"5.5")"),
                                             check("2026-03-03T08:00:00Z", "5", R"(,"min":"-1","max":"5.5")")};
    SECTION("without a logger: cold, though no reading was ever out of range") {
        Clinic c;
        c.post(one_unit("UTC"));
        c.post(checks);
        const auto unit = c.ledger.unit("main", std::nullopt, at("2026-03-03T08:00:01Z"), {}, now);
        CHECK(unit.whole.excursions == 1);
        CHECK(unit.whole.cold.estimate == Rational(15 * 3600));
        CHECK(unit.whole.cold.at_least == Rational(0));
        CHECK(unit.whole.lowest_C == Rational(-1));
        CHECK(unit.hour_not_known.excursions == 1);
        CHECK(unit.hour_not_known.cold_s == Rational(15 * 3600));
        CHECK(unit.disagreements.empty());
    }
    std::vector<std::pair<std::int64_t, std::string>> rows;
    for (std::int64_t t = 0; t <= 16 * 3600; t += 1800) rows.emplace_back(t, t == 9 * 3600 ? "-1" : "5");
    SECTION("the logger saw it, too") {
        Clinic c;
        c.post(one_unit("UTC"));
        c.post(checks);
        c.post({tests::readings("2026-03-02T16:00:00Z", rows)});
        const auto unit = c.ledger.unit("main", std::nullopt, at("2026-03-03T08:00:01Z"), {}, now);
        CHECK(unit.disagreements.empty());
        CHECK(unit.hours[0].excursions == 1);  // from 5 to -1 in the half hour before 01:00
    }
    SECTION("the logger saw nothing of it, and it was there all the time") {
        Clinic c;
        c.post(one_unit("UTC"));
        c.post(checks);
        rows[18].second = "5";
        c.post({tests::readings("2026-03-02T16:00:00Z", rows)});
        const auto unit = c.ledger.unit("main", std::nullopt, at("2026-03-03T08:00:01Z"), {}, now);
        REQUIRE(unit.disagreements.size() == 1);
        CHECK(unit.disagreements[0].what == What::minimum);
        CHECK(unit.disagreements[0].from == at("2026-03-02T17:00:00Z"));
        CHECK(unit.disagreements[0].difference_C == Rational(6));
    }
    SECTION("the logger has a gap: the check may have seen what it did not") {
        Clinic c;
        c.post(one_unit("UTC"));
        c.post(checks);
        rows[18].second = "5";
        rows.erase(rows.begin() + 10, rows.begin() + 14);
        c.post({tests::readings("2026-03-02T16:00:00Z", rows)});
        CHECK(c.ledger.unit("main", std::nullopt, at("2026-03-03T08:00:01Z"), {}, now).disagreements.empty());
    }
    SECTION("the logger saw what the check's minimum did not: whatever it misses besides") {
        Clinic c;
        c.post(one_unit("UTC"));
        c.post({checks[0], check("2026-03-03T08:00:00Z", "5", R"(,"min":"4.5","max":"5.5")")});
        rows.erase(rows.begin() + 10, rows.begin() + 14);
        c.post({tests::readings("2026-03-02T16:00:00Z", rows)});
        const auto unit = c.ledger.unit("main", std::nullopt, at("2026-03-03T08:00:01Z"), {}, now);
        REQUIRE(unit.disagreements.size() == 1);
        CHECK(unit.disagreements[0].what == What::minimum);
        CHECK(unit.disagreements[0].other.C == Rational(-1));
        CHECK(unit.disagreements[0].other.at == at("2026-03-03T01:00:00Z"));
        CHECK(unit.disagreements[0].check.C == Rational(9, 2));
    }
}

TEST_CASE("a unit of which nothing is known, or asked before it was, has no figures", "[unit]") {
    Clinic c;
    c.post(one_unit("UTC"), "2026-01-01T00:00:00Z");
    const auto unit = c.ledger.unit("main", std::nullopt, std::nullopt, {}, at("2026-02-01T00:00:00Z"));
    // from its definition on, as readiness looks at it: a month of which nothing is known. The instant asked at, which
    // begins the next, is its end.
    CHECK(unit.from == at("2026-01-01T00:00:00Z"));
    CHECK(unit.until == at("2026-02-01T00:00:00Z"));
    REQUIRE(unit.months.size() == 1);
    CHECK(unit.months[0].month == 1);
    CHECK(unit.months[0].from == unit.from);
    CHECK(unit.months[0].until == unit.until);
    CHECK(unit.whole.seconds[static_cast<std::size_t>(Class::unmonitored)] == Rational(31 * 86400));
    CHECK(unit.whole.known_s() == Rational(0));
    CHECK_FALSE(unit.whole.in_range);
    CHECK_THROWS_AS(c.ledger.unit("nowhere", std::nullopt, std::nullopt, {}, now), Error);
    CHECK_THROWS_AS(c.ledger.unit("main", std::nullopt, std::nullopt, {}, now, 0), Error);
    CHECK_THROWS_AS(c.ledger.unit("main", at("2026-02-01T00:00:00Z"), at("2026-01-01T00:00:00Z"), {}, now), Error);
}
