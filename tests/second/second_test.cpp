// The second implementation itself, held to cases worked by hand. The arithmetic stands beside each case; none
// of it comes from running a program. Instants are seconds from an arbitrary start; ranges are invented.
#include "excursions.hpp"
#include "histories.hpp"

#include <catch2/catch.hpp>

#include <stdexcept>
#include <string>
#include <vector>

using namespace second;

namespace {

Limit in_C(const char* t) {
    Limit limit;
    limit.C = decimal(t);
    return limit;
}

Limit in_F(const char* t) {
    Limit limit;
    limit.F = decimal(t);
    return limit;
}

Limit in_both(const char* c, const char* f) {
    Limit limit;
    limit.C = decimal(c);
    limit.F = decimal(f);
    return limit;
}

/// 2 to 8 °C, 36 to 46 °F: the two of a refrigerator, which are not conversions of each other.
Range refrigerator() { return {in_both("2", "36"), in_both("8", "46")}; }

Product vaccine() {
    Product product;
    product.range = refrigerator();
    return product;
}

/// Where nothing is near: the cases of nearness say so.
Place fridge(std::int64_t max_gap_s = 3600, std::int64_t max_check_gap_s = 64800, std::int64_t near_s = 0) {
    return {"fridge", refrigerator(), max_gap_s, max_check_gap_s, near_s};
}

struct Row {
    Instant at;
    const char* temperature;
};

/// A probe of the scale that is in the place from the instant -100 on, with these readings.
Records probe_in(const std::string& place, Scale scale, const std::vector<Row>& rows) {
    Records records;
    records.probes.push_back({"p", scale});
    records.assigns.push_back({1, "p", -100, place});
    for (const Row& row : rows) records.readings.push_back({"p", row.at, decimal(row.temperature)});
    return records;
}

Records celsius_probe(const std::vector<Row>& rows) { return probe_in("fridge", Scale::C, rows); }

void certify(Records& records, std::int64_t entry, Instant at, const char* tolerance,
             std::vector<std::pair<Rational, Rational>> correction = {}) {
    records.certificates.push_back({entry, "p", at, correction, decimal(tolerance)});
}

Check check(std::int64_t entry, Instant at, const char* temperature, const char* min = nullptr,
            const char* max = nullptr, Scale scale = Scale::C) {
    Check c;
    c.entry = entry;
    c.place = "fridge";
    c.at = at;
    c.scale = scale;
    c.temperature = decimal(temperature);
    if (min != nullptr) c.min = decimal(min);
    if (max != nullptr) c.max = decimal(max);
    return c;
}

Exposure over(const Records& records, const Product& product, Instant from, Instant until, bool with_until = false,
              Instant A = 1'000'000, const Place& place = fridge()) {
    return exposure(trace_of(records, place, A), product, Rational(from), Rational(until), with_until);
}

Rational ratio(int n, int d) { return Rational(n) / Rational(d); }

std::vector<std::string> words(std::vector<std::string> w) { return w; }

}  // namespace

TEST_CASE("second: exact numbers", "[second]") {
    CHECK(decimal("-4.25") == ratio(-17, 4));
    CHECK(decimal("007") == Rational(7));
    CHECK_THROWS_AS(decimal("4.5.1"), std::invalid_argument);
    CHECK_THROWS_AS(decimal("-"), std::invalid_argument);
    CHECK(text(ratio(6, 4)) == "3/2");
    CHECK(text(Rational(-7)) == "-7");
    // (46 - 32) * 5/9 = 70/9; the fixed points of water: 32 °F = 0 °C, 212 °F = 100 °C; the scales meet at -40.
    CHECK(celsius(Rational(46), Scale::F) == ratio(70, 9));
    CHECK(celsius(Rational(32), Scale::F) == Rational(0));
    CHECK(celsius(Rational(212), Scale::F) == Rational(100));
    CHECK(celsius(Rational(-40), Scale::F) == Rational(-40));
    CHECK(round_to_thousandth(decimal("4.1045")) == decimal("4.105"));
    CHECK(round_to_thousandth(decimal("-4.1045")) == decimal("-4.105"));
    CHECK(round_to_thousandth(decimal("4.10449")) == decimal("4.104"));
    CHECK(limit_in(in_both("8", "46"), Scale::F) == Rational(46));
    CHECK(limit_in(in_C("8"), Scale::F) == ratio(232, 5));  // 8 * 9/5 + 32 = 46.4
    CHECK(limit_in(in_F("46"), Scale::C) == ratio(70, 9));
}

TEST_CASE("second: a straight line through a limit", "[second]") {
    // 7 to 11 °C over 600 s rises 1 degree in 150 s: out of range from 150 to 600 s, 450 s, and there 1.5 degrees
    // beyond 8 on average: 675 °C·s.
    const Exposure e = over(celsius_probe({{0, "7"}, {600, "11"}}), vaccine(), 0, 600);
    CHECK(e.warm.estimate == Rational(450));
    CHECK(e.warm.degree_seconds == Rational(675));
    CHECK(e.warm.at_least == Rational(0));   // one of the two readings is in range
    CHECK(e.warm.at_most == Rational(600));  // one of the two is out of it
    CHECK(e.beyond_warm == Rational(450));
    CHECK(e.cold.estimate == Rational(0));
    CHECK(e.coverage.logged == Rational(600));
    CHECK(e.lowest == Rational(7));
    CHECK(e.highest == Rational(11));
    CHECK(e.points == 0);  // the reading of 11 is at 600 s, which is not inside
    CHECK(over(celsius_probe({{0, "7"}, {600, "11"}}), vaccine(), 0, 600, true).points == 1);
}

TEST_CASE("second: each scale has its own limits", "[second]") {
    // 45 to 49 °F over 600 s passes 46 at 150 s; 450 s, 1.5 °F on average: 675 °F·s = 375 °C·s.
    const Exposure e = over(probe_in("fridge", Scale::F, {{0, "45"}, {600, "49"}}), vaccine(), 0, 600);
    CHECK(e.warm.estimate == Rational(450));
    CHECK(e.warm.degree_seconds == Rational(375));
    CHECK(e.highest == ratio(85, 9));  // (49 - 32) * 5/9

    // With the limit in °C alone: 46.4 °F is passed at 0.35 of 600 s = 210 s, 390 s are left.
    Product in_celsius;
    in_celsius.range.high = in_C("8");
    CHECK(over(probe_in("fridge", Scale::F, {{0, "45"}, {600, "49"}}), in_celsius, 0, 600).warm.estimate ==
          Rational(390));
}

TEST_CASE("second: a probe's tolerance", "[second]") {
    // 7.6, 8.4, 8.6 at 300 s, U = 0.5. Both above 8.5: never. One above 7.5: always. 7.6 to 8.4 passes 8 half way.
    Records records = celsius_probe({{0, "7.6"}, {300, "8.4"}, {600, "8.6"}});
    certify(records, 2, -50, "0.5");
    Exposure e = over(records, vaccine(), 0, 600);
    CHECK(e.warm.at_least == Rational(0));
    CHECK(e.warm.estimate == Rational(450));
    CHECK(e.warm.at_most == Rational(600));

    // A new certificate at 300 s with U = 0.3 judges the readings from then on: both above 8.3 in the second half.
    certify(records, 3, 300, "0.3");
    e = over(records, vaccine(), 0, 600);
    CHECK(e.warm.at_least == Rational(300));

    // Cold: 1.2 and 1.8 with U = 0.5; both below 1.5: no; one below 2.5: yes; all 300 s below 2, 0.5 on average.
    Records cold = celsius_probe({{0, "1.2"}, {300, "1.8"}});
    certify(cold, 2, -50, "0.5");
    e = over(cold, vaccine(), 0, 300);
    CHECK(e.cold.at_least == Rational(0));
    CHECK(e.cold.estimate == Rational(300));
    CHECK(e.cold.at_most == Rational(300));
    CHECK(e.cold.degree_seconds == Rational(150));

    // A cut part is judged by the readings at its ends: 7 to 11 (U = 0) from 0 to 100 s is in range, at most 100 s.
    e = over(celsius_probe({{0, "7"}, {600, "11"}}), vaccine(), 0, 100);
    CHECK(e.warm.estimate == Rational(0));
    CHECK(e.warm.at_most == Rational(100));

    // One end is enough for at most, whichever: 6 to 7.8 may have ended above 8, 2.3 to 4 begun below 2.
    Records near = celsius_probe({{0, "6"}, {300, "7.8"}});
    certify(near, 2, -50, "0.5");
    e = over(near, vaccine(), 0, 300);
    CHECK(e.warm.estimate == Rational(0));
    CHECK(e.warm.at_most == Rational(300));
    near = celsius_probe({{0, "2.3"}, {300, "4"}});
    certify(near, 2, -50, "0.5");
    e = over(near, vaccine(), 0, 300);
    CHECK(e.cold.estimate == Rational(0));
    CHECK(e.cold.at_most == Rational(300));
}

TEST_CASE("second: corrections of a certificate", "[second]") {
    // +0.5 at 0, -0.5 at 10. 4: +0.1. 4.005: 0.5 - 0.4005 = +0.0995, 4.1045, to 4.105. 12: as at 10. -1: as at 0.
    Records records = celsius_probe({{0, "4"}, {10, "4.005"}, {20, "12"}, {30, "-1"}});
    certify(records, 2, -50, "0", {{Rational(0), ratio(1, 2)}, {Rational(10), ratio(-1, 2)}});
    Trace trace = trace_of(records, fridge(), 100);
    REQUIRE(trace.readings.size() == 4);
    CHECK(trace.readings[0].temperature == decimal("4.1"));
    CHECK(trace.readings[1].temperature == decimal("4.105"));
    CHECK(trace.readings[2].temperature == decimal("11.5"));
    CHECK(trace.readings[3].temperature == decimal("-0.5"));

    // +0.5 at -10, -0.5 at 0. -4.005: 0.5 - 0.5995 = -0.0995, -4.1045, away from zero to -4.105.
    Records below = celsius_probe({{0, "-4.005"}});
    certify(below, 2, -50, "0", {{Rational(-10), ratio(1, 2)}, {Rational(0), ratio(-1, 2)}});
    CHECK(trace_of(below, fridge(), 100).readings.at(0).temperature == decimal("-4.105"));

    // Of two certificates of one instant the higher number holds; one that begins later does not reach back.
    Records two = celsius_probe({{0, "4"}, {10, "4"}});
    certify(two, 3, 0, "0", {{Rational(0), Rational(2)}});
    certify(two, 2, 0, "0", {{Rational(0), Rational(1)}});
    certify(two, 4, 10, "0.2");
    trace = trace_of(two, fridge(), 100);
    CHECK(trace.readings[0].temperature == Rational(6));
    CHECK(trace.readings[1].temperature == Rational(4));
    CHECK(trace.readings[1].tolerance == ratio(1, 5));

    // A check read from the probe is corrected in all three numbers; one that names none is not.
    Records checks = celsius_probe({});
    certify(checks, 2, -50, "0.3", {{Rational(0), Rational(1)}});
    checks.checks = {check(5, 0, "4"), check(6, 50, "4", "3", "5")};
    checks.checks[1].probe = "p";
    trace = trace_of(checks, fridge(), 100);
    CHECK(trace.checks[0].temperature == Rational(4));
    CHECK(trace.checks[0].tolerance == Rational(0));
    CHECK(trace.checks[1].temperature == Rational(5));
    CHECK(trace.checks[1].min == Rational(4));
    CHECK(trace.checks[1].max == Rational(6));
    CHECK(trace.checks[1].tolerance == decimal("0.3"));
}

TEST_CASE("second: where a probe is", "[second]") {
    Records records;
    records.probes = {{"p", Scale::C}, {"q", Scale::C}};
    for (const Instant t : {0, 100, 200, 300}) {
        records.readings.push_back({"p", t, Rational(4)});
        records.readings.push_back({"q", t, Rational(5)});
    }
    const auto seen = [&](const std::string& place) {
        std::vector<Instant> at;
        for (const ReadingSample& r : trace_of(records, {place, {}, 3600, 259200}, 1000).readings) at.push_back(r.at);
        return at;
    };
    const auto logged = [&](const std::string& place) {
        return exposure(trace_of(records, {place, {}, 3600, 259200}, 1000), Product{}, Rational(0), Rational(300),
                        false)
            .coverage.logged;
    };
    using At = std::vector<Instant>;

    SECTION("from the start, included, to the end, excluded") {
        records.assigns = {{1, "p", 100, "a"}, {2, "p", 300, std::nullopt}};
        CHECK(seen("a") == At{100, 200});
        CHECK(logged("a") == Rational(100));
    }
    SECTION("to another place: the former ends; a place's former probe goes out") {
        records.assigns = {{1, "p", 0, "a"}, {2, "q", 0, "b"}, {3, "p", 200, "b"}};
        CHECK(seen("a") == At{0, 100});
        CHECK(seen("b") == At{0, 100, 200, 300});
        // 5 5 | 4 4: two spells, so nothing is known between 100 and 200.
        CHECK(logged("b") == Rational(200));
    }
    SECTION("the place where it is: nothing changes") {
        records.assigns = {{1, "p", 0, "a"}, {2, "p", 150, "a"}};
        CHECK(logged("a") == Rational(300));
    }
    SECTION("out and back in one instant is a break") {
        records.assigns = {{1, "p", 0, "a"}, {2, "p", 150, std::nullopt}, {3, "p", 150, "a"}};
        CHECK(seen("a") == At{0, 100, 200, 300});
        CHECK(logged("a") == Rational(200));
    }
    SECTION("an assignment of no length ends what it follows") {
        records.assigns = {{1, "p", 0, "a"}, {2, "q", 150, "a"}, {3, "q", 150, std::nullopt}};
        CHECK(seen("a") == At{0, 100});
    }
    SECTION("never assigned counts nowhere") { CHECK(seen("a").empty()); }
    SECTION("equal readings of one instant count once, unequal ones are refused") {
        records.assigns = {{1, "p", 0, "a"}};
        records.readings.push_back({"p", 100, decimal("4.0")});
        CHECK(seen("a") == At{0, 100, 200, 300});
        records.readings.push_back({"p", 100, decimal("4.1")});
        CHECK_THROWS_AS(seen("a"), std::invalid_argument);
    }
}

TEST_CASE("second: classes of trace", "[second]") {
    // Logged 0-600 (600 s apart), not 600-1300 (700 s). The checks of 0 and 2000 bound 0-2000, so 600-2000: 1400 s.
    // Checks 1000 s apart: 2000-3000 checked; 1001 s apart: 3000-4001 unmonitored. After 4001: 100 s of waiting.
    Records records = celsius_probe({{0, "5"}, {600, "5"}, {1300, "5"}});
    records.checks = {check(10, 0, "5", "-20", "40"), check(11, 2000, "5", "3", "9"), check(12, 3000, "5"),
                      check(13, 4001, "5")};
    records.stale_after_s = 100;
    const Place place = fridge(600, 1000);

    Exposure e = over(records, vaccine(), 0, 4101, false, 4101, place);
    CHECK(e.coverage.logged == Rational(600));
    CHECK(e.coverage.bounded == Rational(1400));
    CHECK(e.coverage.checked == Rational(1000));
    CHECK(e.coverage.unmonitored == Rational(1001));
    CHECK(e.coverage.awaiting == Rational(100));
    // 9 at the most: perhaps 1 degree over for all of 1400 s; 3 at the least: perhaps never.
    CHECK(e.warm.at_least == Rational(0));
    CHECK(e.warm.estimate == Rational(1400));
    CHECK(e.warm.at_most == Rational(1400));
    CHECK(e.warm.degree_seconds == Rational(1400));
    CHECK(e.lowest == Rational(3));  // the extremes of the first check are nobody's
    CHECK(e.highest == Rational(9));
    CHECK(e.points == 0);  // a check counts by its temperature alone

    // A second later the last check is too old to wait for another.
    e = over(records, vaccine(), 4001, 4102, false, 4102, place);
    CHECK(e.coverage.awaiting == Rational(0));
    CHECK(e.coverage.unmonitored == Rational(101));

    // Asked for an earlier instant, the checks after it are seen all the same, and nothing is waited for.
    e = over(records, vaccine(), 2500, 2600, false, 2600, place);
    CHECK(e.coverage.checked == Rational(100));
    e = over(records, vaccine(), 3500, 3510, false, 3510, place);
    CHECK(e.coverage.unmonitored == Rational(10));

    // Before the first of all: nothing is known.
    CHECK(over(records, vaccine(), -50, 0, false, 4101, place).coverage.unmonitored == Rational(50));
}

TEST_CASE("second: two checks at one instant, the later number holds", "[second]") {
    Records records;
    records.checks = {check(9, 100, "12"), check(4, 0, "4"), check(7, 100, "5", "1", "13")};
    // The check of number 9 has no extremes: a line from 4 to 12, above 8 for the second 50 s.
    const Exposure e = over(records, vaccine(), 0, 100);
    CHECK(e.coverage.checked == Rational(100));
    CHECK(e.warm.estimate == Rational(50));
}

TEST_CASE("second: a bounded part in °F with a tolerance", "[second]") {
    // 100 s, 47 to 48 °F, U = 1. Above 46: all of it; above 47 at its lowest: no; 2 °F over: 200 °F·s = 1000/9 °C·s.
    Records records = probe_in("fridge", Scale::F, {});
    certify(records, 2, -50, "1");
    records.checks = {check(3, 0, "47", nullptr, nullptr, Scale::F), check(4, 100, "47", "47", "48", Scale::F)};
    records.checks[1].probe = "p";
    Exposure e = over(records, vaccine(), 0, 100);
    CHECK(e.warm.at_least == Rational(0));
    CHECK(e.warm.estimate == Rational(100));
    CHECK(e.warm.at_most == Rational(100));
    CHECK(e.warm.degree_seconds == ratio(1000, 9));

    // 100 s, -3 to 1 °C, limits 2 and -1 (frozen): 5 degrees below 2 and 2 below -1, at the worst.
    records = Records();
    records.checks = {check(3, 0, "1"), check(4, 100, "1", "-3", "1")};
    Product product = vaccine();
    product.freeze_limit = in_C("-1");
    e = over(records, product, 0, 100);
    CHECK(e.cold.at_least == Rational(100));
    CHECK(e.cold.degree_seconds == Rational(500));
    CHECK(e.frozen.at_least == Rational(0));
    CHECK(e.frozen.estimate == Rational(100));
    CHECK(e.frozen.degree_seconds == Rational(200));
    CHECK(e.points == 1);  // 1 °C at the first check, which is inside; the second is not

    // 1 to 7.8 °C with U = 0.5: perhaps never out on the warm side, perhaps always; never surely on the cold one.
    records = probe_in("elsewhere", Scale::C, {});
    certify(records, 2, -50, "0.5");
    records.checks = {check(3, 0, "5"), check(4, 100, "5", "1", "7.8")};
    records.checks[1].probe = "p";
    e = over(records, vaccine(), 0, 100);
    CHECK(e.warm.estimate == Rational(0));
    CHECK(e.warm.at_most == Rational(100));
    CHECK(e.cold.at_least == Rational(0));
    CHECK(e.cold.estimate == Rational(100));

    // Down to the freeze limit itself, which is frozen, by 0 degrees.
    records = Records();
    records.checks = {check(3, 0, "1"), check(4, 100, "1", "-1", "1")};
    e = over(records, product, 0, 100);
    CHECK(e.frozen.estimate == Rational(100));
    CHECK(e.frozen.degree_seconds == Rational(0));
}

TEST_CASE("second: checks of two scales are joined in °C", "[second]") {
    // 41 °F is 5 °C; 5 to 10 °C over 500 s passes 8 at 300 s; 1 degree on average over the 200 s left.
    Records records;
    records.checks = {check(3, 0, "41", nullptr, nullptr, Scale::F), check(4, 500, "10")};
    const Exposure e = over(records, vaccine(), 0, 500);
    CHECK(e.coverage.checked == Rational(500));
    CHECK(e.warm.estimate == Rational(200));
    CHECK(e.warm.degree_seconds == Rational(200));
    CHECK(e.lowest == Rational(5));

    // U of 0.9 °F is 0.5 °C: 45.5 °F = 7.5 °C is then not above 8 - 0.5, so only the other end could be.
    Records tolerant = probe_in("elsewhere", Scale::F, {});
    certify(tolerant, 2, -50, "0.9");
    tolerant.checks = {check(3, 0, "45.5", nullptr, nullptr, Scale::F), check(4, 500, "7")};
    tolerant.checks[0].probe = "p";
    CHECK(over(tolerant, vaccine(), 0, 500).warm.at_most == Rational(0));
    tolerant.checks[0].temperature = decimal("45.6");  // 7.555... °C
    CHECK(over(tolerant, vaccine(), 0, 500).warm.at_most == Rational(500));
}

TEST_CASE("second: allowances take the time of their band in order", "[second]") {
    Product product = vaccine();
    product.allowances = {{in_C("8"), in_C("10"), 1000}, {in_C("0"), in_C("15"), 1000}};
    // 7 to 17 °C over 1000 s, 0.01 a second: past 8 at 100 s, 10 at 300, 15 at 800.
    Exposure e = over(celsius_probe({{0, "7"}, {1000, "17"}}), product, 0, 1000, true);
    CHECK(e.warm.estimate == Rational(900));
    CHECK(e.warm.degree_seconds == Rational(4050));  // 9/2 * 900
    CHECK(e.allowances.at(0) == Rational(200));
    CHECK(e.allowances.at(1) == Rational(500));
    CHECK(e.beyond_warm == Rational(200));
    CHECK(e.points == 1);  // 17, in no band

    // 3 to -1 °C over 400 s: below 2 from 100 s, below 0 from 300 s.
    e = over(celsius_probe({{0, "3"}, {400, "-1"}}), product, 0, 400);
    CHECK(e.cold.estimate == Rational(300));
    CHECK(e.allowances.at(1) == Rational(200));
    CHECK(e.beyond_cold == Rational(100));

    // The ends of a band belong to it: 10 °C held for 50 s is the first's, 10.001 the second's.
    CHECK(over(celsius_probe({{0, "10"}, {50, "10"}}), product, 0, 50).allowances.at(0) == Rational(50));
    CHECK(over(celsius_probe({{0, "10.001"}, {50, "10.001"}}), product, 0, 50).allowances.at(1) == Rational(50));
    Product narrow = vaccine();
    narrow.allowances = {{in_C("9"), in_C("10"), 1000}};
    CHECK(over(celsius_probe({{0, "9"}, {50, "9"}}), narrow, 0, 50).allowances.at(0) == Rational(50));
    CHECK(over(celsius_probe({{0, "8.999"}, {50, "8.999"}}), narrow, 0, 50).beyond_warm == Rational(50));

    // A bounded part out on both sides counts in each: 100 s at up to 9 (first) and down to 1 (second).
    Records records;
    records.checks = {check(3, 0, "5"), check(4, 100, "5", "1", "9")};
    e = over(records, product, 0, 100);
    CHECK(e.allowances.at(0) == Rational(100));
    CHECK(e.allowances.at(1) == Rational(100));
    CHECK(e.beyond_warm == Rational(0));
    CHECK(e.beyond_cold == Rational(0));
}

TEST_CASE("second: frozen includes the limit itself", "[second]") {
    Product product = vaccine();
    product.freeze_limit = in_C("-0.5");
    // 1.5 to -2.5 °C over 400 s: at -0.5 after 200 s; 1 degree below on average for 200 s. Below 2 all the time,
    // by 0.5 at first and 4.5 at last: 2.5 * 400.
    Exposure e = over(celsius_probe({{0, "1.5"}, {400, "-2.5"}}), product, 0, 400);
    CHECK(e.frozen.at_least == Rational(0));
    CHECK(e.frozen.estimate == Rational(200));
    CHECK(e.frozen.at_most == Rational(400));
    CHECK(e.frozen.degree_seconds == Rational(200));
    CHECK(e.cold.degree_seconds == Rational(1000));

    e = over(celsius_probe({{0, "-0.5"}, {100, "-0.5"}}), product, 0, 100);
    CHECK(e.frozen.at_least == Rational(100));
    CHECK(e.frozen.estimate == Rational(100));
    CHECK(e.frozen.degree_seconds == Rational(0));

    // At the range's own limits nothing is out of range.
    e = over(celsius_probe({{0, "8"}, {100, "8"}, {200, "2"}, {300, "2"}}), product, 0, 300, true);
    CHECK(e.warm.estimate + e.cold.estimate == Rational(0));
    CHECK(e.warm.at_most + e.cold.at_most == Rational(0));
    CHECK(e.points == 0);

    // In range, yet freezing: a product that may be kept down to -10, with a freeze limit of -2.
    product.range.low = in_C("-10");
    product.freeze_limit = in_C("-2");
    CHECK(over(celsius_probe({{0, "-3"}}), product, 0, 1).points == 1);
}

TEST_CASE("second: exposure adds up over a cut that is no whole second", "[second]") {
    Product product = vaccine();
    product.allowances = {{in_C("8"), in_C("10"), 1000}};
    Records records = celsius_probe({{0, "7"}, {700, "11"}, {1000, "1"}});
    records.checks = {check(3, 0, "5"), check(4, 5000, "5", "1", "9")};
    certify(records, 2, 700, "0.4");
    const Trace trace = trace_of(records, fridge(), 9000);
    const Exposure all = exposure(trace, product, Rational(0), Rational(5000), true);
    const Rational cut = ratio(2000, 7);
    const Exposure first = exposure(trace, product, Rational(0), cut, false);
    const Exposure rest = exposure(trace, product, cut, Rational(5000), true);
    CHECK(first.warm.estimate + rest.warm.estimate == all.warm.estimate);
    CHECK(first.warm.at_least + rest.warm.at_least == all.warm.at_least);
    CHECK(first.warm.at_most + rest.warm.at_most == all.warm.at_most);
    CHECK(first.warm.degree_seconds + rest.warm.degree_seconds == all.warm.degree_seconds);
    CHECK(first.cold.degree_seconds + rest.cold.degree_seconds == all.cold.degree_seconds);
    CHECK(first.allowances[0] + rest.allowances[0] == all.allowances[0]);
    CHECK(first.coverage.bounded + rest.coverage.bounded == Rational(4000));
    CHECK(first.points + rest.points == all.points);
    // 7 + 4 * (2000/7) / 700 = 7 + 80/49: the highest the first part gets to.
    CHECK(first.highest == Rational(7) + ratio(80, 49));

    CHECK_THROWS_AS(exposure(trace, product, Rational(5), Rational(4), false), std::invalid_argument);
    CHECK_THROWS_AS(exposure(trace, product, Rational(5), Rational(9001), false), std::invalid_argument);
}

TEST_CASE("second: a stay of no length sees the instant only where it is asked to", "[second]") {
    const Records records = celsius_probe({{100, "12"}});
    CHECK(over(records, vaccine(), 100, 100, false, 100).points == 0);
    CHECK(!over(records, vaccine(), 100, 100, false, 100).highest);
    CHECK(over(records, vaccine(), 100, 100, true, 100).points == 1);
    CHECK(over(records, vaccine(), 100, 100, true, 100).highest == Rational(12));
}

namespace {

Key in(const std::string& place, const std::string& mark = "") { return {place, "", mark}; }

Lot lot_of(std::vector<Event> events) {
    Lot lot;
    lot.product = vaccine();
    lot.expires = 1'000'000;
    lot.events = std::move(events);
    return lot;
}

/// A steady 5 °C in the fridge, 9 °C on the counter, from 0 to 10000 s, a reading every 1000 s.
Records steady() {
    Records records;
    records.probes = {{"p", Scale::C}, {"q", Scale::C}};
    records.assigns = {{1, "p", 0, "fridge"}, {2, "q", 0, "counter"}};
    for (Instant t = 0; t <= 10000; t += 1000) {
        records.readings.push_back({"p", t, Rational(5)});
        records.readings.push_back({"q", t, Rational(9)});
    }
    return records;
}

std::vector<Place> two_places() { return {fridge(), {"counter", {}, 3600, 259200}}; }

State at(Instant A, const Lot& lot, const Records& records = steady()) {
    return histories(records, two_places(), lot, 0, A);
}

const Holding& held(const State& state, const Key& key) {
    for (const Holding& h : state.holdings)
        if (h.key == key) return h;
    throw std::out_of_range("no such holding");
}

}  // namespace

TEST_CASE("second: doses carry their history with them", "[second]") {
    const Lot lot = lot_of({{10, 500, Receive{in("fridge"), 10, {}}},
                            {11, 2500, Move{in("fridge"), in("counter"), 4}},
                            {12, 4200, Move{in("counter"), in("fridge"), 3}},
                            {13, 6000, Count{in("fridge"), 8}}});
    State state = at(4000, lot);
    REQUIRE(state.holdings.size() == 2);
    CHECK(held(state, in("fridge")).doses == 6);
    CHECK(held(state, in("fridge")).history.coverage.logged == Rational(3500));
    CHECK(held(state, in("fridge")).quarantine.empty());
    // On the counter 2500-4000 at 9 °C, 1 degree too warm; readings at 3000 and, since it is asked for, at 4000.
    const Holding& counter = held(state, in("counter"));
    CHECK(counter.doses == 4);
    CHECK(counter.history.warm.total.estimate == Rational(1500));
    CHECK(counter.history.warm.open == Rational(1500));
    CHECK(counter.history.warm.total.degree_seconds == Rational(1500));
    CHECK(counter.history.coverage.logged == Rational(3500));
    CHECK(counter.history.points == 2);
    CHECK(counter.history.lowest == Rational(5));
    CHECK(counter.history.places == std::set<std::string>{"counter", "fridge"});
    CHECK(counter.quarantine == words({"warm", "point"}));

    // Back among the others at 4200: warm 2500-4200, and no telling which dose that was. The count finds one less.
    state = at(7000, lot);
    const Holding& mixed = held(state, in("fridge"));
    CHECK(mixed.doses == 8);
    CHECK(mixed.history.warm.total.estimate == Rational(1700));
    CHECK(mixed.history.points == 2);
    CHECK(mixed.history.coverage.logged == Rational(6500));
    CHECK(held(state, in("counter")).doses == 1);

    // The history told at the instant of the move itself: the doses have been at the new place for no time.
    state = at(2500, lot);
    CHECK(held(state, in("counter")).history.warm.total.estimate == Rational(0));
    CHECK(held(state, in("counter")).history.places.size() == 2);
    CHECK(held(state, in("counter")).history.points == 0);
}

TEST_CASE("second: an empty holding starts anew", "[second]") {
    const Lot lot = lot_of({{10, 0, Receive{in("counter"), 1, {}}},
                            {11, 3000, TakeOut{in("counter"), 1}},
                            {12, 5500, Receive{in("counter"), 2, {}}}});
    CHECK(at(3000, lot).holdings.empty());
    CHECK(held(at(5800, lot), in("counter")).history.warm.total.estimate == Rational(300));
    CHECK_THROWS_AS(at(9000, lot_of({{10, 0, Receive{in("counter"), 1, {}}}, {11, 5, TakeOut{in("counter"), 2}}})),
                    std::invalid_argument);
    CHECK_THROWS_AS(at(9000, lot_of({{10, 0, Count{in("counter"), 1}}})), std::invalid_argument);
    CHECK(at(9000, lot_of({{10, 0, Count{in("counter"), 0}}})).holdings.empty());
}

TEST_CASE("second: a join takes the larger of each, a total and its open part apart", "[second]") {
    History a, b;
    a.allowances.resize(1);
    b.allowances.resize(1);
    a.warm.total.estimate = 10;
    a.warm.open = 0;
    b.warm.total.estimate = 4;
    b.warm.open = 4;
    a.allowances[0] = {Rational(1), Rational(1)};
    b.allowances[0] = {Rational(9), Rational(0)};
    a.points = 3;
    b.points_open = 2;
    a.lowest = 1;
    a.highest = 5;
    b.lowest = 2;
    b.highest = 7;
    a.use_by = 500;
    a.places = {"x"};
    b.places = {"y"};
    b.held_by = {8};
    const History both = join(a, b);
    CHECK(both.warm.total.estimate == Rational(10));
    CHECK(both.warm.open == Rational(4));
    CHECK(both.allowances[0].used == Rational(9));
    CHECK(both.allowances[0].open == Rational(1));
    CHECK(both.points == 3);
    CHECK(both.points_open == 2);
    CHECK(both.lowest == Rational(1));
    CHECK(both.highest == Rational(7));
    CHECK(both.use_by == 500);
    CHECK(both.places == std::set<std::string>{"x", "y"});
    CHECK(both.held_by == std::set<std::int64_t>{8});
}

TEST_CASE("second: guidance clears what its issuer was told of", "[second]") {
    Guidance guidance;
    guidance.told = Told{2000, 0, 2};
    std::vector<Event> events = {{10, 0, Receive{in("counter"), 5, {}}}, {11, 2000, guidance}};
    // At 2000: 2000 s and the readings of 0 and 1000; that of 2000 is not before it, and is open afterwards.
    State state = at(2500, lot_of(events));
    CHECK(held(state, in("counter")).history.warm.total.estimate == Rational(2500));
    CHECK(held(state, in("counter")).history.warm.open == Rational(500));
    CHECK(held(state, in("counter")).history.beyond_warm_open == Rational(500));
    CHECK(held(state, in("counter")).history.points == 3);
    CHECK(held(state, in("counter")).history.points_open == 1);

    SECTION("told a second less") {
        guidance.told = Told{1999, 0, 2};
        events[1].what = guidance;
        CHECK(held(at(2500, lot_of(events)), in("counter")).history.warm.open == Rational(2500));
    }
    SECTION("told of both sides together") {
        // Off the counter at 1000 with 1000 s too warm and one reading; then, at 0 °C for 500 s, too cold.
        Records records = steady();
        for (const Instant t : {0, 1000, 2000}) records.readings.push_back({"r", t, Rational(0)});
        records.probes.push_back({"r", Scale::C});
        records.assigns.push_back({3, "r", 0, "box"});
        std::vector<Place> places = two_places();
        places.push_back({"box", {}, 3600, 259200});
        for (const bool enough : {false, true}) {
            guidance.told = Told{enough ? 1500 : 1499, 0, 2};
            const Lot lot = lot_of({{10, 0, Receive{in("counter"), 5, {}}},
                                    {11, 1000, Move{in("counter"), in("box"), 5}},
                                    {12, 1500, guidance}});
            const History h = held(histories(records, places, lot, 0, 1500), in("box")).history;
            CHECK(h.cold.total.estimate == Rational(500));
            CHECK(h.cold.open == (enough ? Rational(0) : Rational(500)));
            CHECK(h.warm.open == (enough ? Rational(0) : Rational(1000)));
        }
    }
    SECTION("told a point less, with a use-by: not cleared, shortened all the same") {
        guidance.told = Told{2000, 0, 1};
        guidance.verdict = Verdict::use_by;
        guidance.use_by = 2400;
        events[1].what = guidance;
        state = at(2500, lot_of(events));
        CHECK(held(state, in("counter")).history.warm.open == Rational(2500));
        CHECK(held(state, in("counter")).discard == words({"expired"}));
        CHECK(held(at(2399, lot_of(events)), in("counter")).discard.empty());
    }
    SECTION("discard is not lifted by a later use; another place or mark is not touched") {
        guidance.verdict = Verdict::discard;
        events[1].what = guidance;
        events.push_back({12, 2100, Guidance{}});
        Guidance elsewhere;
        elsewhere.mark = "bag";
        elsewhere.verdict = Verdict::discard;
        events.push_back({13, 2200, elsewhere});
        state = at(2500, lot_of(events));
        CHECK(held(state, in("counter")).discard == words({"condemned"}));
        CHECK(held(state, in("counter")).history.condemned_by == std::set<std::int64_t>{11});
        CHECK(held(state, in("counter")).history.warm.open == Rational(400));
    }
}

TEST_CASE("second: an allowance that is used up", "[second]") {
    Lot lot = lot_of({{10, 0, Receive{in("counter"), 5, {}}}});
    lot.product.allowances = {{in_C("8"), in_C("10"), 2000}};
    CHECK(held(at(2000, lot), in("counter")).quarantine.empty());
    CHECK(held(at(2001, lot), in("counter")).quarantine == words({"over-allowance"}));
    // Cleared at 2500, and over again one second later.
    lot.events.push_back({11, 2500, Guidance{}});
    CHECK(held(at(2500, lot), in("counter")).quarantine.empty());
    CHECK(held(at(2501, lot), in("counter")).quarantine == words({"over-allowance"}));
}

TEST_CASE("second: holds", "[second]") {
    Hold of_bag;
    of_bag.mark = "bag";
    Hold unmarked;
    unmarked.mark = "";
    const std::vector<Event> start = {{10, 0, Receive{in("fridge"), 5, {}}},
                                      {11, 0, Receive{in("fridge", "bag"), 5, {}}}};
    const auto with = [&](std::vector<Event> more) {
        std::vector<Event> all = start;
        all.insert(all.end(), more.begin(), more.end());
        return at(900, lot_of(all));
    };
    using Numbers = std::set<std::int64_t>;

    State state = with({{12, 100, of_bag}});
    CHECK(held(state, in("fridge", "bag")).quarantine == words({"held"}));
    CHECK(held(state, in("fridge")).quarantine.empty());
    state = with({{12, 100, unmarked}, {13, 200, Receive{in("fridge", "new"), 1, {}}}});
    CHECK(held(state, in("fridge")).history.held_by == Numbers{12});
    CHECK(held(state, in("fridge", "new")).history.held_by.empty());

    // A recall stands: what comes later is held too, also once guidance has let the others go; what leaves the
    // place takes it along as part of its history.
    state = with({{12, 100, Hold{}},
                  {13, 200, Guidance{}},
                  {14, 300, Receive{in("fridge", "new"), 1, {}}},
                  {15, 400, Move{in("fridge"), in("counter"), 1}},
                  {16, 500, Move{in("fridge", "new"), in("fridge", "bag"), 1}}});
    CHECK(held(state, in("fridge")).history.held_by.empty());
    CHECK(held(state, in("counter")).history.held_by.empty());
    CHECK(held(state, in("fridge", "bag")).history.held_by == Numbers{12});

    // In one instant the numbers decide.
    state = with({{13, 100, Hold{}},
                  {12, 100, Receive{in("fridge", "x"), 1, {}}},
                  {14, 100, Receive{in("fridge", "y"), 1, {}}}});
    CHECK(held(state, in("fridge", "x")).history.held_by == Numbers{13});
    CHECK(held(state, in("fridge", "y")).history.held_by == Numbers{13});
    state = with({{14, 100, of_bag}, {15, 100, Receive{in("counter", "bag"), 1, {}}}});
    CHECK(held(state, in("counter", "bag")).history.held_by.empty());
}

TEST_CASE("second: use-by and expiry", "[second]") {
    Lot lot = lot_of({{10, 0, Receive{in("fridge"), 5, {}}},
                      {11, 10, BeyondUse{in("fridge"), 700}},
                      {12, 20, BeyondUse{in("fridge"), 900}},
                      {13, 30, BeyondUse{in("counter"), 40}}});
    CHECK(held(at(699, lot), in("fridge")).discard.empty());
    CHECK(held(at(700, lot), in("fridge")).discard == words({"expired"}));
    lot.expires = 600;
    CHECK(held(at(599, lot), in("fridge")).discard.empty());
    CHECK(held(at(600, lot), in("fridge")).discard == words({"expired"}));
}

TEST_CASE("second: a handover is what the doses come with", "[second]") {
    History before;
    before.warm.total.estimate = 40;
    before.warm.open = 30;
    before.places = {"north/fridge 2"};
    before.highest = 12;
    before.lowest = 3;
    const State state = at(1000, lot_of({{10, 500, Receive{in("counter"), 5, before}}}));
    const History& h = held(state, in("counter")).history;
    CHECK(h.warm.total.estimate == Rational(540));
    CHECK(h.warm.open == Rational(530));
    CHECK(h.highest == Rational(12));
    CHECK(h.places == std::set<std::string>{"counter", "north/fridge 2"});
}

TEST_CASE("second: what is open is of the estimate", "[second]") {
    // 7 to 11 °C over 600 s: 450 s, at most 600.
    const Lot lot = lot_of({{10, 0, Receive{in("fridge"), 5, {}}}});
    const History h = held(at(600, lot, celsius_probe({{0, "7"}, {600, "11"}})), in("fridge")).history;
    CHECK(h.warm.total.at_most == Rational(600));
    CHECK(h.warm.open == Rational(450));
    CHECK(h.beyond_warm_open == Rational(450));
}

TEST_CASE("second: what a give is judged by", "[second]") {
    Give certain{in("fridge"), 1, true};
    Give uncertain{in("fridge"), 1, false};
    const State state = at(9000, lot_of({{10, 0, Receive{in("fridge"), 5, {}}},
                                         {11, 0, Receive{in("counter"), 5, {}}},
                                         {12, 1000, certain},
                                         {13, 1000, uncertain},
                                         {14, 2000, TakeOut{in("counter"), 5}},
                                         {15, 3000, uncertain}}));
    REQUIRE(state.gives.size() == 3);
    CHECK(state.gives[0].quarantine.empty());
    CHECK(state.gives[0].history.points == 0);
    // Perhaps from the counter: 1000 s at 9 °C, and its reading of 0; that of 1000 is not before the give.
    CHECK(state.gives[1].quarantine == words({"warm", "point"}));
    CHECK(state.gives[1].history.warm.open == Rational(1000));
    CHECK(state.gives[1].history.points == 1);
    CHECK(state.gives[1].history.places.size() == 2);
    // The counter has none any more.
    CHECK(state.gives[2].quarantine.empty());
    CHECK(state.holdings.size() == 1);
    CHECK(state.holdings[0].doses == 2);
}

TEST_CASE("second: unmonitored time", "[second]") {
    // The last reading is at 10000. Asked for 10000 + 86400 it is still being waited for; a second later nothing
    // is known since then, and a limit of as many seconds allows it.
    const Lot lot = lot_of({{10, 10000, Receive{in("fridge"), 5, {}}}});
    CHECK(held(at(96400, lot), in("fridge")).history.coverage.awaiting == Rational(86400));
    const State later = at(96401, lot);
    CHECK(held(later, in("fridge")).history.unmonitored_open == Rational(86401));
    CHECK(held(later, in("fridge")).quarantine == words({"unmonitored"}));
    CHECK(histories(steady(), two_places(), lot, 86401, 96401).holdings.at(0).quarantine.empty());
    CHECK(!histories(steady(), two_places(), lot, 86400, 96401).holdings.at(0).quarantine.empty());
}

namespace {

std::vector<Excursion> found(const Records& records, Instant from, Instant until, Instant A = 1'000'000,
                             const Place& place = fridge()) {
    return excursions(trace_of(records, place, A), place.range, {Rational(from), Rational(until)});
}

}  // namespace

TEST_CASE("second: excursions on a line", "[second]") {
    // 6, 10, 8, 10, 6 at 400 s: above 8 from 200 to 1400 (touching 8 at 800 s does not part it). Triangles of
    // 2 degrees: 200 + 400 + 400 + 200 °C·s.
    const Records records = celsius_probe({{0, "6"}, {400, "10"}, {800, "8"}, {1200, "10"}, {1600, "6"}});
    std::vector<Excursion> all = found(records, 0, 5000);
    REQUIRE(all.size() == 1);
    CHECK(all[0].side == ExcursionSide::warm);
    CHECK(all[0].kind == ExcursionKind::line);
    CHECK(all[0].from == Rational(200));
    CHECK(all[0].until == Rational(1400));
    CHECK(all[0].duration == Rational(1200));
    CHECK(all[0].degree_seconds == Rational(1200));
    CHECK(all[0].peak == Rational(10));
    CHECK(!all[0].open);

    // Cut to [300, 350): from 9 to 9.5, 50 s at 1.25 above on average.
    all = found(records, 300, 350);
    REQUIRE(all.size() == 1);
    CHECK(all[0].from == Rational(300));
    CHECK(all[0].until == Rational(350));
    CHECK(all[0].degree_seconds == ratio(125, 2));
    CHECK(all[0].peak == decimal("9.5"));

    CHECK(found(records, 1400, 5000).empty());
    CHECK(found(records, 300, 300).empty());
    CHECK(found(records, 5000, 300).empty());

    // Asked for the instant 400 alone: nothing of the excursion is left, and its readings are no points.
    CHECK(found(records, 400, 400, 400).empty());
}

TEST_CASE("second: an excursion that nothing ends is open", "[second]") {
    // 8 is passed half way, at 300 s.
    Records records = celsius_probe({{0, "7"}, {600, "9"}});
    std::vector<Excursion> all = found(records, 0, 5000);
    REQUIRE(all.size() == 1);
    CHECK(all[0].from == Rational(300));
    CHECK(all[0].open);
    CHECK(!found(records, 0, 599).at(0).open);
    CHECK(found(records, 0, 600).at(0).open);
    // Cut by the instant asked about.
    CHECK(found(records, 0, 5000, 500).at(0).until == Rational(500));
    CHECK(!found(records, 0, 5000, 500).at(0).open);

    // It ends at the limit: 9 down to 8, the last reading in range.
    CHECK(!found(celsius_probe({{0, "9"}, {600, "8"}}), 0, 5000).at(0).open);
    // A reading of another probe's spell follows at once: known again, so not open.
    records.probes.push_back({"q", Scale::C});
    records.checks = {check(5, 600, "5"), check(6, 700, "5")};
    CHECK(!found(records, 0, 5000).at(0).open);
}

TEST_CASE("second: bounded excursions and points", "[second]") {
    // Checks at 0, 1000 (1 to 9 °C) and 2000 (3 to 7 °C), readings of 5 logged 400-600; readings of 12 at 701 and
    // 1500, alone with gaps above 100 s. Bounded 0-400 and 600-1000, both sides: 800 s, 1 degree each.
    Records records = celsius_probe({{400, "5"}, {500, "5"}, {600, "5"}, {701, "12"}, {1500, "12"}});
    records.checks = {check(3, 0, "5"), check(4, 1000, "5", "1", "9"), check(5, 2000, "9", "3", "7")};
    const Place place = fridge(100);
    std::vector<Excursion> all = found(records, 0, 5000, 1'000'000, place);
    REQUIRE(all.size() == 4);
    CHECK(all[0].side == ExcursionSide::cold);
    CHECK(all[0].peak == Rational(1));
    CHECK(all[0].degree_seconds == Rational(800));
    CHECK(all[1].side == ExcursionSide::warm);
    CHECK(all[1].kind == ExcursionKind::bounded);
    CHECK(all[1].from == Rational(0));
    CHECK(all[1].until == Rational(1000));
    CHECK(all[1].duration == Rational(800));
    CHECK(all[1].peak == Rational(9));
    CHECK(!all[1].open);
    // 600-1000 is in two pieces, since a reading lies inside.
    CHECK(all[1].stretches.size() == 3);
    // The 12 at 701 lies in the warm excursion, that of 1500 and the check of 2000 in none.
    CHECK(all[2].kind == ExcursionKind::point);
    CHECK(all[2].from == Rational(1500));
    CHECK(all[2].duration == Rational(0));
    CHECK(all[2].peak == Rational(12));
    CHECK(!all[2].of_check);
    CHECK(all[3].from == Rational(2000));
    CHECK(all[3].of_check);

    // [450, 700) leaves 600-700 of each; [450, 550) leaves nothing; 701 is no point, though only the uncut
    // excursion holds it.
    all = found(records, 450, 700, 1'000'000, place);
    REQUIRE(all.size() == 2);
    CHECK(all[1].from == Rational(600));
    CHECK(all[1].duration == Rational(100));
    CHECK(found(records, 450, 550, 1'000'000, place).empty());
    CHECK(found(records, 701, 701, 701, place).empty());

    // A point belongs to the window of its instant, and to one that ends at A there.
    CHECK(found(records, 1100, 1500, 1'000'000, place).empty());
    CHECK(found(records, 1100, 1500, 1500, place).size() == 1);
    CHECK(found(records, 1500, 1501, 1'000'000, place).size() == 1);
    CHECK(found(records, 1500, 1500, 1500, place).size() == 1);
    CHECK(found(records, 1501, 1501, 1500, place).empty());

    // Each pair of checks by itself. A reading too warm within an excursion on the cold side is a point.
    records = celsius_probe({{500, "12"}});
    records.checks = {check(3, 0, "5"), check(4, 1000, "5", "1", "7"), check(5, 2000, "5", "0", "7")};
    all = found(records, 0, 5000);
    REQUIRE(all.size() == 3);
    CHECK(all[0].until == Rational(1000));
    CHECK(all[0].peak == Rational(1));
    CHECK(all[1].side == ExcursionSide::warm);
    CHECK(all[1].kind == ExcursionKind::point);
    CHECK(all[2].from == Rational(1000));
    CHECK(all[2].peak == Rational(0));
}

TEST_CASE("second: a reading's point comes before a check's", "[second]") {
    Records records = celsius_probe({{100, "9"}});
    records.checks = {check(3, 100, "10")};
    const std::vector<Excursion> all = found(records, 0, 5000);
    REQUIRE(all.size() == 2);
    CHECK(all[0].peak == Rational(9));
    CHECK(all[1].peak == Rational(10));
}

TEST_CASE("second: conditions of a place", "[second]") {
    // 4 to 8 °C over 100 s, then 8 for 300 s: (6 * 100 + 8 * 300) / 400 = 7.5.
    Records records = celsius_probe({{0, "4"}, {100, "8"}, {400, "8"}});
    Conditions c = conditions(trace_of(records, fridge(), 1000), refrigerator(), {Rational(0), Rational(1000)});
    CHECK(c.mean == decimal("7.5"));
    CHECK(c.coverage.logged == Rational(400));
    CHECK(c.coverage.awaiting == Rational(600));
    CHECK(c.lowest == Rational(4));
    CHECK(c.highest == Rational(8));
    CHECK(c.excursions == 0);

    // Cut to [50, 100): 6 to 8, mean 7; the 8 is the line's end there, though its reading is outside.
    c = conditions(trace_of(records, fridge(), 1000), refrigerator(), {Rational(50), Rational(100)});
    CHECK(c.mean == Rational(7));
    CHECK(c.lowest == Rational(6));
    CHECK(c.highest == Rational(8));

    // The instant A alone: no time, one reading.
    c = conditions(trace_of(records, fridge(), 100), refrigerator(), {Rational(100), Rational(100)});
    CHECK(c.highest == Rational(8));
    CHECK(c.lowest == Rational(8));
    CHECK(!c.mean);
    // Before A the same window is empty, and so is one after A.
    c = conditions(trace_of(records, fridge(), 101), refrigerator(), {Rational(100), Rational(100)});
    CHECK(!c.highest);
    c = conditions(trace_of(records, fridge(), 99), refrigerator(), {Rational(100), Rational(400)});
    CHECK(!c.highest);
    CHECK(c.coverage.logged == Rational(0));
}
