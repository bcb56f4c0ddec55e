// Exposure of a product during a stay. Every number is worked by hand beside its row.
// A question at an instant sees the reading that stands there, so that most rows have a point more than the line alone.
#include <catch2/catch.hpp>

#include "site.hpp"

using scenarios::scenario;

TEST_CASE("exposure: the estimate is the time above the high limit, and the degrees above it", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  7 11  # 4 degrees in 600 s: past 8 after 150 s; 450 s above it, by 1.5 on average: 675
        08:10  ? warm main flu A1           = 0 450 600, 675 Cs, open 450
        08:10  ? cold main flu A1           = 0 0 0, 0 Cs, open 0
        08:10  ? beyond main flu A1         = warm 450, open 450; cold 0, open 0
        08:10  ? extremes main flu A1       = 7 to 11
        08:10  ? history main flu A1        = logged 600; warm 0 450 600, 675 Cs, open 450; beyond warm 450, open 450; \
                                              cold 0, open 0; points 1, open 1; 7 to 11; in main
    )");
}

TEST_CASE("exposure: the estimate is the time below the low limit, and the degrees below it", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  3 -1              # past 2 after 150 s; 450 s below it, by 1.5 on average
        08:10  ? cold main flu A1           = 0 450 600, 675 Cs, open 450
        08:10  ? warm main flu A1           = 0 0 0, 0 Cs, open 0
        08:10  ? beyond main flu A1         = warm 0, open 0; cold 450, open 450
        08:10  ? lists main flu A1          = quarantine-pending-guidance: cold, point
    )");
}

TEST_CASE("exposure: a range is closed, its limits are inside", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  8 8 2 2
        08:30  ? history main flu A1        = logged 1800; 2 to 8; in main
        08:30  ? lists main flu A1          = keep
    )");
}

TEST_CASE("exposure: an exact fraction of a second stays exact", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  6 9.5  # 3.5 degrees in 600 s, 2 of them to 8: 600 * 1.5/3.5 = 1800/7 s above, by 0.75: 1350/7
        08:10  ? warm main flu A1           = 0 1800/7 600, 1350/7 Cs, open 1800/7
    )");
}

TEST_CASE("exposure: a limit given in both scales is taken in the scale of the reading", "[scenarios]") {
    // 46 °F is 7.78 °C: the sheet in °F is judged by 46, not by 46.4
    scenario(R"(
        07:00  assign f main
        08:00  receive main flu A1 10
        08:00  log f 600  45 49             # past 46 after 150 s; 450 s by 1.5 °F on average: 675 °F s = 375 Cs
        08:10  ? warm main flu A1           = 0 450 600, 375 Cs, open 450
        08:10  ? extremes main flu A1       = 65/9 to 85/9
    )");
}

TEST_CASE("exposure: a limit given in one scale alone is converted exactly", "[scenarios]") {
    scenario(R"(
        00:00  product cel 2 8              # °C alone: 46.4 °F
        00:00  product fah 36F 46F          # °F alone: 70/9 °C
        00:00  lot cel A1 2026-12-31
        00:00  lot fah A1 2026-12-31
        07:00  assign f spare
        08:00  receive main fah A1 10
        08:00  receive spare cel A1 10
        08:00  log p 600  7 8               # 70/9 after 7/9 of 600 s: 600 * 2/9 = 400/3 s, by 1/9 on average: 400/27
        08:00  log f 600  45 49             # 46.4 after 0.35 of 600 s: 390 s, by 1.3 °F on average: 507 °F s = 845/3 Cs
        08:10  ? warm main fah A1           = 0 400/3 600, 400/27 Cs, open 400/3
        08:10  ? warm spare cel A1          = 0 390 600, 845/3 Cs, open 390
    )");
}

TEST_CASE("exposure: a range may leave out one side, which then exposes to nothing", "[scenarios]") {
    scenario(R"(
        00:00  product top - 8
        00:00  product bottom 2 -
        00:00  lot top A1 2026-12-31
        00:00  lot bottom A1 2026-12-31
        08:00  receive main top A1 10
        08:00  receive main bottom A1 10
        08:00  log p 600  -40 -40 40 40     # -40 to 40 in 600 s: 2 after 315 s, 8 after 360 s
        08:30  ? warm main top A1           = 600 840 1200, 23040 Cs, open 840      # 240 s by 16 and 600 s by 32
        08:30  ? cold main top A1           = 0 0 0, 0 Cs, open 0
        08:30  ? cold main bottom A1        = 600 915 1200, 31815 Cs, open 915      # 600 s by 42 and 315 s by 21
        08:30  ? warm main bottom A1        = 0 0 0, 0 Cs, open 0
    )");
}

TEST_CASE("exposure: at least takes both readings beyond the limit and the tolerance, at most one within it",
          "[scenarios]") {
    scenario(R"(
        00:00  certificate p 2027-01-01 tolerance 0.5
        08:00  receive main flu A1 10
        08:00  log p 300  7.6 8.4 8.6 8.6 7.5 7.5
        # parts:           1   2   3   4   5    at least: both above 8.5: part 3; at most: one above 7.5: parts 1 to 4
        # estimate: half of 1, 2, 3 and 300 * 0.6/1.1 = 1800/11 of 4: 750 + 1800/11 = 10050/11
        # degrees: 150 * 0.2 + 300 * 0.5 + 300 * 0.6 + 1800/11 * 0.3 = 360 + 540/11 = 4500/11
        08:25  ? warm main flu A1           = 300 10050/11 1200, 4500/11 Cs, open 10050/11
    )");
    scenario(R"(
        00:00  certificate p 2027-01-01 tolerance 0.5
        08:00  receive main flu A1 10
        08:00  log p 300  2.4 1.6 1.4 1.4 2.5 2.5
        08:25  ? cold main flu A1           = 300 10050/11 1200, 4500/11 Cs, open 10050/11
    )");
}

TEST_CASE("exposure: each reading is judged with its own tolerance", "[scenarios]") {
    scenario(R"(
        00:00  certificate p 2027-01-01 tolerance 0.5
        08:05  certificate p 2028-01-01 tolerance 0.2
        08:00  receive main flu A1 10
        08:00  log p 300  8.3 8.3 8.3
        # above 8.2, not above 8.5: the first reading of the first part is not surely warm
        08:10  ? warm main flu A1           = 300 600 600, 180 Cs, open 600
    )");
}

TEST_CASE("exposure: frozen is at or below the freeze limit", "[scenarios]") {
    scenario(R"(
        00:00  product pf 2 8 freeze -0.5
        00:00  lot pf A1 2026-12-31
        08:00  receive main pf A1 10
        08:00  log p 400  1.5 -2.5          # at -0.5 after 200 s; 200 s below it, by 1 on average
        08:06:40 ? frozen main pf A1        = 0 200 400, 200 Cs, open 200
        08:06:40 ? cold main pf A1          = 400 400 400, 1000 Cs, open 400
        08:06:40 ? lists main pf A1         = quarantine-pending-guidance: cold, frozen, point
    )");
    scenario(R"(
        00:00  product pf 2 8 freeze -0.5
        00:00  lot pf A1 2026-12-31
        08:00  receive main pf A1 10
        08:00  log p 400  -0.5 -0.5 -0.4    # the limit itself is frozen, by no degree; rising from it is no time
        08:13:20 ? frozen main pf A1        = 400 400 800, 0 Cs, open 400
    )");
}

TEST_CASE("exposure: frozen within the tolerance of the probe", "[scenarios]") {
    scenario(R"(
        00:00  product pf 2 8 freeze -0.5
        00:00  lot pf A1 2026-12-31
        00:00  certificate p 2027-01-01 tolerance 0.5
        08:00  receive main pf A1 10
        08:00  log p 100  -1 -1 0.0 0.1     # at least: both at most -1: the first; at most: one at most 0: all three
        # estimate: 100, then -1 to 0 passes -0.5 after 50 s; degrees 100 * 0.5 + 50 * 0.25
        08:05  ? frozen main pf A1          = 100 150 300, 125/2 Cs, open 150
    )");
}

TEST_CASE("exposure: freezing counts in range as well", "[scenarios]") {
    scenario(R"(
        00:00  product deep -10 8 freeze -2
        00:00  lot deep A1 2026-12-31
        08:00  receive main deep A1 10
        08:00  log p 100  -3 -3
        08:01:40 ? history main deep A1     = logged 100; frozen 100 100 100, 100 Cs, open 100; points 2, open 2; \
                                              -3 to -3; in main
        08:01:40 ? lists main deep A1       = quarantine-pending-guidance: frozen, point
    )");
}

TEST_CASE("exposure: allowances take the time of their band, each time the first that holds it", "[scenarios]") {
    scenario(R"(
        00:00  product al 2 8 allow 8 10 1000 allow 0 15 1000
        00:00  lot al A1 2026-12-31
        08:00  receive main al A1 10
        08:00  log p 1000  7 17             # 8 after 100 s, 10 after 300, 15 after 800
        08:16:40 ? warm main al A1          = 0 900 1000, 4050 Cs, open 900
        08:16:40 ? allowances main al A1    = 200 of 1000, open 200; 500 of 1000, open 500
        08:16:40 ? beyond main al A1        = warm 200, open 200; cold 0, open 0
    )");
    scenario(R"(
        00:00  product al 2 8 allow 8 10 1000 allow 0 15 1000
        00:00  lot al A1 2026-12-31
        08:00  receive main al A1 10
        08:00  log p 400  3 -1              # 2 after 100 s, 0 after 300: the second band serves the cold side, too
        08:06:40 ? allowances main al A1    = 0 of 1000, open 0; 200 of 1000, open 200
        08:06:40 ? beyond main al A1        = warm 0, open 0; cold 100, open 100
    )");
}

TEST_CASE("exposure: bands are closed, and take no time inside the range", "[scenarios]") {
    scenario(R"(
        00:00  product al 2 8 allow 5 10 1000 allow 10 15 1000
        00:00  lot al A1 2026-12-31
        08:00  receive main al A1 10
        08:00  log p 100  6 6 10 10 10.001 10.001 15 15 15.001 15.001
        # 6 to 10 passes 8 half way: 50 s; 100 s at 10. Rising from 10 to 15: 300 s (two rises and a level).
        # 200 s beyond 15.
        08:15  ? allowances main al A1      = 150 of 1000, open 150; 400 of 1000, open 400
        08:15  ? beyond main al A1          = warm 200, open 200; cold 0, open 0
    )");
}

TEST_CASE("exposure: a stay cuts a part, but the readings at its ends judge it", "[scenarios]") {
    scenario(R"(
        08:00  log p 600  7 11
        08:05  receive main flu A1 10       # 9 at 300 s: to 11 by 2 on average above 8, all 300 s
        08:10  ? warm main flu A1           = 0 300 300, 600 Cs, open 300
        08:10  ? extremes main flu A1       = 9 to 11
    )");
    scenario(R"(
        08:00  log p 600  7 11
        08:00  receive main flu A1 10
        08:01:40 ? warm main flu A1  = 0 0 100, 0 Cs, open 0  # 100 s, to 7.667: in range, but one end may not be
        08:01:40 ? extremes main flu A1     = 7 to 23/3
        08:01:40 ? lists main flu A1        = keep
    )");
}

TEST_CASE("exposure: a bounded part is judged as a whole by minimum and maximum", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  check main 5
        08:10  check main 5 min 1 max 9     # 600 s: perhaps all of it at 9, perhaps all of it at 1, surely neither
        08:10  ? history main flu A1        = bounded 600; warm 0 600 600, 600 Cs, open 600; \
                                              cold 0 600 600, 600 Cs, open 600; beyond warm 600, open 600; \
                                              cold 600, open 600; 1 to 9; in main
        08:10  ? lists main flu A1          = quarantine-pending-guidance: warm, cold
    )");
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  check main 9
        08:10  check main 9 min 8.1 max 10  # never in range
        08:10  ? warm main flu A1           = 600 600 600, 1200 Cs, open 600
    )");
    scenario(R"(
        00:00  certificate p 2027-01-01 tolerance 0.5
        08:00  receive main flu A1 10
        08:00  check main 5
        08:10  check main 5 min 2.5 max 7.6 probe p        # 7.6 may be 8.1; 2.5 is at least 2
        08:10  ? warm main flu A1           = 0 0 600, 0 Cs, open 0
        08:10  ? cold main flu A1           = 0 0 0, 0 Cs, open 0
        08:10  ? lists main flu A1          = keep
    )");
}

TEST_CASE("exposure: a bounded part and the freeze limit", "[scenarios]") {
    scenario(R"(
        00:00  product pf 2 8 freeze -1
        00:00  lot pf A1 2026-12-31
        08:00  receive main pf A1 10
        08:00  check main 3
        08:10  check main 3 min -3 max 3    # 5 below 2, 2 below -1, for 600 s
        08:10  ? cold main pf A1            = 0 600 600, 3000 Cs, open 600
        08:10  ? frozen main pf A1          = 0 600 600, 1200 Cs, open 600
        08:20  check main -1 min -2 max -1  # at most -1 all the time: surely frozen
        08:20  ? frozen main pf A1          = 600 1200 1200, 1800 Cs, open 1200
    )");
}

TEST_CASE("exposure: a bounded part uses the allowance of its maximum and again of its minimum", "[scenarios]") {
    scenario(R"(
        00:00  product al 2 8 allow 8 10 1000 allow 0 15 1000
        00:00  lot al A1 2026-12-31
        08:00  receive main al A1 10
        08:00  check main 5
        08:10  check main 5 min 1 max 9
        08:10  ? allowances main al A1      = 600 of 1000, open 600; 600 of 1000, open 600
        08:10  ? lists main al A1           = keep
        08:20  check main 5 min -1 max 16   # in no band on either side
        08:20  ? beyond main al A1          = warm 600, open 600; cold 600, open 600
    )");
}

TEST_CASE("exposure: a bounded part counts in every stay it touches, also before its later check", "[scenarios]") {
    scenario(R"(
        08:00  check main 5
        08:10  check main 5 min 1 max 9
        08:04  receive main flu A1 10
        08:06  move flu A1 4 main > spare
        08:05  ? history main flu A1        = bounded 60; warm 0 60 60, 60 Cs, open 60; cold 0 60 60, 60 Cs, open 60; \
                                              beyond warm 60, open 60; cold 60, open 60; 1 to 9; in main
        08:10  ? coverage main flu A1       = bounded 360
        08:06  ? coverage spare flu A1      = bounded 120
        08:06  ? extremes spare flu A1      = 1 to 9
    )");
}

TEST_CASE("exposure: checks in two scales are joined in Celsius", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  check main 41F               # 5 °C
        08:08:20 check main 10              # 5 degrees in 500 s: past 8 °C after 300 s; 200 s by 1 on average
        08:08:20 ? warm main flu A1         = 0 200 500, 200 Cs, open 200
        08:08:20 ? extremes main flu A1     = 5 to 10
    )");
    scenario(R"(
        00:00  certificate f 2027-01-01 tolerance 0.9
        08:00  receive main flu A1 10
        08:00  check main 45.5F probe f     # 7.5 °C, tolerance 0.5 °C: not above 7.5
        08:10  check main 7
        08:20  check main 45.6F probe f     # 7.56 °C
        08:20  ? warm main flu A1           = 0 0 600, 0 Cs, open 0
    )");
}

TEST_CASE("exposure: two checks in °F are judged in °F", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  check main 46.2F             # 7.9 °C: above 46, not above 8
        08:10  check main 46.2F
        08:10  ? warm main flu A1           = 600 600 600, 200/3 Cs, open 600        # 120 °F s
        08:10  ? points main flu A1         = 2, open 2
    )");
}

TEST_CASE("exposure: a stay of no length adds the place and nothing else", "[scenarios]") {
    scenario(R"(
        00:00  log r 60  20 20
        08:00  log p 600  5 5
        08:00  log q 600  5 5
        08:00  receive main flu A1 10
        08:05  move flu A1 10 main > counter
        08:05  move flu A1 10 counter > spare
        08:10  ? history spare flu A1       = logged 600; 5 to 5; in counter main spare
    )");
}

TEST_CASE("exposure: points are readings and checks out of range and in no band", "[scenarios]") {
    scenario(R"(
        00:00  product al 2 8 allow 8 10 1000
        00:00  lot al A1 2026-12-31
        08:00  receive main flu A1 10
        08:00  receive main al A1 10
        08:00  log p 7200  5 9 11 1 5       # too far apart to be joined
        16:00  ? points main flu A1         = 3, open 3
        16:00  ? points main al A1          = 2, open 2
        16:00  ? extremes main flu A1       = 1 to 11
        16:00  ? lists main al A1           = quarantine-pending-guidance: point, unmonitored
    )");
}

TEST_CASE("exposure: at or below the freeze limit every reading is a point, in a band as well", "[scenarios]") {
    scenario(R"(
        00:00  product pf 2 8 freeze 0 allow -5 2 1000
        00:00  lot pf A1 2026-12-31
        08:00  receive main pf A1 10
        08:00  log p 7200  1 0 -1           # 1 is in the band, 0 and -1 are, too, but frozen
        12:00  ? points main pf A1          = 2, open 2
    )");
}

TEST_CASE("exposure: a check counts by its temperature alone, its minimum and maximum are no points", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  check main 9 min 0 max 20    # the first: its extremes are nobody's
        08:10  check main 5 min 1 max 9
        08:10  ? points main flu A1         = 1, open 1
        08:10  ? extremes main flu A1       = 1 to 9
    )");
}

TEST_CASE("exposure: a reading and a check at one instant are two points", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 60  9
        08:00  check main 10
        08:00  ? points main flu A1         = 2, open 2
        08:00  ? extremes main flu A1       = 9 to 10
    )");
}

TEST_CASE("exposure: the instant asked about belongs to the stay, the instant at which it ended does not",
          "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5 9 5
        08:10  ? points main flu A1         = 1, open 1
        08:09:59 ? points main flu A1       = 0, open 0
        08:10  move flu A1 10 main > spare
        08:10  ? points spare flu A1        = 0, open 0
        08:10  ? extremes spare flu A1      = 5 to 9        # the line got there
    )");
}

TEST_CASE("exposure: seconds of each class of trace", "[scenarios]") {
    scenario(R"(
        07:00  receive main flu A1 10
        08:00  log p 600  5 5
        08:00  check main 5
        08:30  check main 5 min 4 max 6     # bounded but for what is logged: 1200 s
        08:40  check main 5                 # checked 600 s
        08:50  ? coverage main flu A1 = logged 600, bounded 1200, checked 600, awaiting 600, unmonitored 3600, open 3600
    )");
}

TEST_CASE("exposure: a stay sees the reading at its first instant, not that at its last", "[scenarios]") {
    scenario(R"(
        08:00  log p 600  4 5
        08:10  receive main flu A1 10
        08:15  move flu A1 4 main > counter
        08:20  ? extremes main flu A1       = 5 to 5        # the last reading, with which the stay begins
        08:20  ? extremes counter flu A1    = 5 to 5
        08:10  ? extremes main flu A1       = 5 to 5
    )");
    scenario(R"(
        08:10  log p 600  4 5
        08:00  receive main flu A1 10
        08:10  move flu A1 4 main > counter
        08:10  ? extremes main flu A1       = 4 to 4        # the instant of the question is inside
        08:20  ? extremes counter flu A1    = nothing known
    )");
}

TEST_CASE("exposure: at the first instant of a stay a line between two readings says nothing yet", "[scenarios]") {
    scenario(R"(
        08:00  log p 600  5 9
        08:05  receive main flu A1 10
        08:05  ? history main flu A1        = no time; nothing known; in main
        08:05:01 ? extremes main flu A1     = 7 to 1051/150         # 4 degrees in 600 s: 1/150 more in a second
    )");
    scenario(R"(
        08:00  check main 5
        08:10  check main 9
        08:05  receive main flu A1 10
        08:05  ? history main flu A1        = no time; nothing known; in main
    )");
}

TEST_CASE("exposure: a line of years between two checks, cut to a stay", "[scenarios]") {
    scenario(R"(
        2037-03-01T00:00  recorded
        00:00  lot flu FAR 2040-12-31
        00:00  place main 2C/36F 8C/46F checkgap 400000000
        2026-03-02T08:00  check main 5
        2028-11-26T08:00  receive main flu FAR 10      # 1,000 of 4,000 days
        2037-02-12T08:00  check main 9                 # past 8 after 3,000
        2037-02-12T08:00  ? warm main flu FAR          = 0 86400000 259200000, 43200000 Cs, open 86400000
        2037-02-12T08:00  ? coverage main flu FAR      = checked 259200000
    )");
}

TEST_CASE("exposure: a line of years from far below the range to far above it, whose squares pass 128 bits",
          "[scenarios]") {
    scenario(R"(
        2037-03-01T00:00  recorded
        00:00  lot flu FAR 2040-12-31
        00:00  place main 2C/36F 8C/46F checkgap 400000000
        2026-03-02T08:00  check main -92
        2028-11-26T08:00  receive main flu FAR 10      # 1,000 of 4,000 days
        2037-02-12T08:00  check main 108
        # 2 after 1,880 days and 8 after 2,000; 50 above it in the mean of the 2,000 left
        2037-02-12T08:00  ? warm main flu FAR          = 0 172800000 259200000, 8640000000 Cs, open 172800000
        2037-02-12T08:00  ? coverage main flu FAR      = checked 259200000
    )");
}

TEST_CASE("exposure: a history that ends at the first reading does not hold it, though the next line begins there",
          "[scenarios]") {
    scenario(R"(
        07:59  receive main flu A1 10
        08:00  log p 600  9
        08:10  log p 600  5 5
        08:00  give main flu A1 1 P1
        08:00  give main flu A1 1 P2 uncertain
        09:00  ? given P1 extremes          = nothing known
        09:00  ? given P2 extremes          = nothing known
    )");
}
