// Conditions of a place in a window.
#include <catch2/catch.hpp>

#include "site.hpp"

using scenarios::scenario;

TEST_CASE("conditions: the mean is weighted by time, along the lines", "[scenarios]") {
    // 4 to 8 over 100 s, then 8 for 300 s: (6 * 100 + 8 * 300) / 400 = 7.5.
    // Kinetic, with e(t) = exp(-10000 / (t + 273.15)): (100 (e(4) + e(8)) / 2 + 300 e(8)) / 400. Here and below by
    // Python's decimal module with 50 digits.
    scenario(R"(
        08:00  log p 100  4 8 - - 8
        09:00  ? conditions main 08:00 08:06:40       = logged 400; 4 to 8; mean 15/2; kinetic 7.593570; excursions 0
        09:00  ? conditions main 08:00:50 08:01:40    = logged 50; 6 to 8; mean 7; kinetic 7.059980; excursions 0
    )");
}

TEST_CASE("conditions: the mean kinetic temperature of steady times agrees with published examples", "[scenarios]") {
    // MeanKineticTemperatureCalculatorTest, a public unit test in PHP of the formula of USP 29 <1160>: equal weights of
    // 20, 20, 40, 25 give 30.208237; of 20, 40 give 34.3579. Breaks between the steady times: the probe is taken out
    // and put back.
    scenario(R"(
        08:00  log p 600  20 20 20 40 40 - 25 25
        08:25  assign p -
        08:25  assign p main
        08:45  assign p -
        08:45  assign p main
        09:10  ? conditions main 08:00 09:10 = logged 2400, unmonitored 1800; 20 to 40; mean 105/4; kinetic 30.208237; \
                                               excursions 3
        09:10  ? conditions main 08:10 08:40 = logged 1200, unmonitored 600; 20 to 40; mean 30; kinetic 34.357880; \
                                               excursions 2
    )");
}

TEST_CASE("conditions: seconds of each class", "[scenarios]") {
    scenario(R"(
        08:00  log p 600  5 5
        08:00  check main 5
        08:30  check main 5 min 1 max 9
        08:40  check main 6
        09:00  ? conditions main 07:50 09:00          = logged 600, bounded 1200, checked 600, awaiting 1200, \
                                                        unmonitored 600; 1 to 9; mean 21/4; kinetic 5.261637; \
                                                        excursions 2
    )");
}

TEST_CASE("conditions: a window that begins at the question holds that instant alone", "[scenarios]") {
    scenario(R"(
        08:00  log p 600  5 9
        08:10  ? conditions main 08:10 08:10          = no time; 9 to 9; excursions 0
        08:10  ? conditions main 08:10 09:00          = no time; 9 to 9; excursions 0
    )");
}

TEST_CASE("conditions: a window after the question, or of no length before it, is empty", "[scenarios]") {
    scenario(R"(
        08:00  log p 600  5 9
        08:10  ? conditions main 08:05 08:05          = no time; excursions 0
        08:09  ? conditions main 08:10 09:00          = no time; excursions 0
    )");
}

TEST_CASE("conditions: a window is cut to the question", "[scenarios]") {
    scenario(R"(
        08:00  log p 600  5 9
        08:05  ? conditions main 08:00 09:00          = logged 300; 5 to 7; mean 6; kinetic 6.060422; excursions 0
    )");
}

TEST_CASE("conditions: without logged or checked time there is no mean", "[scenarios]") {
    scenario(R"(
        08:00  check main 5
        08:10  check main 5 min 1 max 7
        08:10  ? conditions main 08:00 08:10          = bounded 600; 1 to 7; excursions 1
    )");
}
