// Attribution: whose doses an excursion is laid to where it begins or ends between two whole seconds, or in the very
// second of an entry. Doses are in a place from the second of the entry that brings them to that of the entry that
// takes them, the latter not included. Every number is worked by hand beside its row; the rules are those of the model,
// the arithmetic is that of a triangle.
#include <catch2/catch.hpp>

#include "scenarios/site.hpp"

using scenarios::scenario;

// 6 to 9.5 and back, 3.5 degrees in 600 s each way. Past 8 after 600 * 2/3.5 = 2400/7 = 342 6/7 s, back at 600 + 600
// * 1.5/3.5 = 6000/7 = 857 1/7 s: 3600/7 s above, by 3/4 on average: 2700/7 Cs. In one second the line climbs
// by 3.5/600 = 7/1200; 1/7 s from the crossing it stands 1/1200 above 8, and that little triangle is 1/2 * 1/7 * 1/1200
// = 1/16800 Cs.

TEST_CASE("attribution: a stay that holds the whole of it, from the second before the crossing to the second after",
          "[answers][attribution]") {
    scenario(R"(
        08:00     log p 600  6 9.5 6
        08:05:42  receive main flu A1 10            # 6/7 s before the crossing
        08:14:18  move flu A1 10 main > spare       # 6/7 s after the line is back at 8
        12:00  ? inside main 08:00 09:00            = warm line 08:05:42+6/7 to 08:14:17+1/7, 3600/7 s, 2700/7 Cs, )"
             R"(peak 19/2
          = main flu A1, 10: logged 3600/7; warm 0 3600/7 3600/7, 2700/7 Cs; beyond warm 3600/7; points 1; 8 to 19/2
    )");
}

TEST_CASE("attribution: a stay that begins in the second after the crossing lacks the fraction before it",
          "[answers][attribution]") {
    scenario(R"(
        08:00     log p 600  6 9.5 6
        08:05:43  receive main flu A1 10            # 3600/7 - 1/7 = 3599/7 s; 2700/7 - 1/16800 = 6480000/16800 - )"
             R"(1/16800
        12:00  ? inside main 08:00 09:00            = warm line 08:05:42+6/7 to 08:14:17+1/7, 3600/7 s, 2700/7 Cs, )"
             R"(peak 19/2
          = main flu A1, 10: logged 3599/7; warm 0 3599/7 3599/7, )"
             R"(6479999/16800 Cs; beyond warm 3599/7; points 1; 8 to 19/2
    )");
}

TEST_CASE("attribution: a stay that ends in the second before the line is back lacks the fraction after it",
          "[answers][attribution]") {
    scenario(R"(
        08:00     log p 600  6 9.5 6
        08:00     receive main flu A1 10
        08:14:17  move flu A1 10 main > spare       # the same by the other end
        12:00  ? inside main 08:00 09:00            = warm line 08:05:42+6/7 to 08:14:17+1/7, 3600/7 s, 2700/7 Cs, )"
             R"(peak 19/2
          = main flu A1, 10: logged 3599/7; warm 0 3599/7 3599/7, )"
             R"(6479999/16800 Cs; beyond warm 3599/7; points 1; 8 to 19/2
    )");
}

TEST_CASE(
    "attribution: a seventh of a second is enough to be inside, and a stay that ends or begins that second is not",
    "[answers][attribution]") {
    scenario(R"(
        08:00     log p 600  6 9.5 6
        08:00     receive main:a flu A1 1
        08:05:42  move flu A1 1 main:a > spare      # gone 6/7 s before the crossing
        08:00     receive main:b flu A1 2
        08:05:43  move flu A1 2 main:b > spare      # inside for the first 1/7 s, to 8 + 1/1200
        08:14:17  receive main:c flu A1 3           # inside for the last 1/7 s, from 8 + 1/1200
        08:14:18  receive main:d flu A1 4           # 6/7 s late
        12:00  ? inside main 08:00 09:00            = warm line 08:05:42+6/7 to 08:14:17+1/7, 3600/7 s, 2700/7 Cs, )"
             R"(peak 19/2
          = main:b flu A1, 2: logged 1/7; warm 0 1/7 1/7, 1/16800 Cs; beyond warm 1/7; 8 to 9601/1200
          = main:c flu A1, 3: logged 1/7; warm 0 1/7 1/7, 1/16800 Cs; beyond warm 1/7; 8 to 9601/1200
    )");
}

TEST_CASE("attribution: the doses are those after all entries of the second in which the crossing falls",
          "[answers][attribution]") {
    scenario(R"(
        08:00     log p 600  6 9.5 6
        08:00     receive main flu A1 10
        08:05:42  give main flu A1 1 t1             # in the second of the crossing: 9 are left
        08:05:43  give main flu A1 1 t2             # in the next: it was inside
        12:00  ? inside main 08:00 09:00            = warm line 08:05:42+6/7 to 08:14:17+1/7, 3600/7 s, 2700/7 Cs, )"
             R"(peak 19/2
          = main flu A1, 9: logged 3600/7; warm 0 3600/7 3600/7, 2700/7 Cs; beyond warm 3600/7; points 1; 8 to 19/2
    )");
}

// 7 to 9 and back, 2 degrees in 600 s each way: above 8 from 300 to 900 s, 600 s by 1/2 on average, 300 Cs; the
// crossings are whole seconds.

TEST_CASE("attribution: doses that leave in the very second of the crossing are not inside, those that come in it are",
          "[answers][attribution]") {
    scenario(R"(
        08:00  log p 600  7 9 7
        08:00  receive main:a flu A1 1
        08:05  move flu A1 1 main:a > main:b        # one second: out of one box, into the other
        08:00  receive main:c flu A1 3
        08:15  move flu A1 3 main:c > main:d        # all of it before, nothing after
        12:00  ? inside main 08:00 09:00            = warm line 08:05 to 08:15, 600 s, 300 Cs, peak 9
          = main:b flu A1, 1: logged 600; warm 0 600 600, 300 Cs; beyond warm 600; points 1; 8 to 9
          = main:c flu A1, 3: logged 600; warm 0 600 600, 300 Cs; beyond warm 600; points 1; 8 to 9
    )");
}

TEST_CASE("attribution: a move in the second of a reading leaves the reading to the stay that begins there",
          "[answers][attribution]") {
    scenario(R"(
        08:00  log p 600  7 9 7
        08:00  receive main:a flu A1 6
        08:10  move flu A1 6 main:a > main:b        # at the peak: half of it each, 300 s and 150 Cs
        12:00  ? inside main 08:00 09:00            = warm line 08:05 to 08:15, 600 s, 300 Cs, peak 9
          = main:a flu A1, 6: logged 300; warm 0 300 300, 150 Cs; beyond warm 300; 8 to 9
          = main:b flu A1, 6: logged 300; warm 0 300 300, 150 Cs; beyond warm 300; points 1; 8 to 9
    )");
}

TEST_CASE("attribution: what is given in the second of the crossing was not in it, a second later it was for a second",
          "[answers][attribution]") {
    scenario(R"(
        08:00     log p 600  7 9 7
        08:00     receive main:a flu A1 1
        08:00     receive main:b flu A1 1
        08:05     give main:a flu A1 1 t1
        08:05:01  give main:b flu A1 1 t2           # in one second the line climbs by 1/300: 1/600 Cs
        12:00  ? inside main 08:00 09:00            = warm line 08:05 to 08:15, 600 s, 300 Cs, peak 9
          = main:b flu A1, 1: logged 1; warm 0 1 1, 1/600 Cs; beyond warm 1; 8 to 2401/300
    )");
}

// 7, 9, 7 a second apart: above 8 from 1/2 to 3/2 s, 1 s by 1/2.

TEST_CASE("attribution: an excursion of one second is halved by a move in the middle of it", "[answers][attribution]") {
    scenario(R"(
        08:00     log p 1  7 9 7
        08:00     receive main:a flu A1 6
        08:00:01  move flu A1 2 main:a > main:b     # main:a keeps 4, )"
             R"(and all of it; what moved has the half after the peak
        08:00:02  receive main:c flu A1 1           # 1/2 s late
        12:00  ? inside main 08:00 09:00            = warm line 08:00+1/2 to 08:00:01+1/2, 1 s, 1/2 Cs, peak 9
          = main:a flu A1, 6: logged 1; warm 0 1 1, 1/2 Cs; beyond warm 1; points 1; 8 to 9
          = main:b flu A1, 2: logged 1/2; warm 0 1/2 1/2, 1/4 Cs; beyond warm 1/2; points 1; 8 to 9
    )");
}

TEST_CASE("attribution: from below to above within one second, each side has its fraction", "[answers][attribution]") {
    // -1 to 11, 12 degrees in 1 s: below 2 for 3/12 s by 3/2: 3/8 Cs; above 8 for the last 3/12 s by 3/2.
    // At most goes by the readings at the two ends of the line, of which one is out on either side
    scenario(R"(
        08:00     log p 1  -1 11
        08:00     receive main:a flu A1 1           # there for the reading of 08:00
        08:00:01  move flu A1 1 main:a > main:b     # not for that of 08:00:01, )"
             R"(which main:b begins with: out of range, but no time
        12:00  ? inside main 08:00 09:00            = cold line 08:00 to 08:00+1/4, 1/4 s, 3/8 Cs, peak -1
          = main:a flu A1, 1: logged 1/4; warm 0 0 1/4, 0 Cs; cold 0 1/4 1/4, 3/8 Cs; beyond cold 1/4; points 1; -1 to 2
          = warm line 08:00+3/4 to 08:00:01, 1/4 s, 3/8 Cs, peak 11, open
          = main:a flu A1, 1: logged 1/4; warm 0 1/4 1/4, 3/8 Cs; cold 0 0 1/4, 0 Cs; beyond warm 1/4; 8 to 11
    )");
}

TEST_CASE("attribution: in and out again, with fractions at both ends", "[answers][attribution]") {
    scenario(R"(
        08:00     log p 600  6 9.5 6
        08:00     receive main flu A1 10
        08:05:43  move flu A1 10 main > spare       # 1/7 s, 1/16800 Cs
        08:10     move flu A1 10 spare > main       # back at the peak: 1800/7 s by 3/4, 1350/7 Cs
        12:00  ? inside main 08:00 09:00            = warm line 08:05:42+6/7 to 08:14:17+1/7, 3600/7 s, 2700/7 Cs, )"
             R"(peak 19/2
          = main flu A1, 10: logged 1801/7; warm 0 1801/7 1801/7, )"
             R"(3240001/16800 Cs; beyond warm 1801/7; points 1; 8 to 19/2
    )");
}

TEST_CASE("attribution: a whole line out of range is above at least, cut at whole seconds alone",
          "[answers][attribution]") {
    // 9 to 9.5 in 600 s: by 5/4 on average
    scenario(R"(
        08:00     log p 600  9 9.5
        08:00:01  receive main flu A1 10            # at 9 + 1/1200; 599 s by 1/2 * (1 + 1/1200 + 3/2) = 3001/2400: )"
             R"(1797599/2400 Cs
        08:10     move flu A1 10 main > spare       # the reading of 08:10 belongs to spare, where it is not
        12:00  ? inside main 08:00 09:00            = warm line 08:00 to 08:10, 600 s, 750 Cs, peak 19/2, open
          = main flu A1, 10: logged 599; warm 599 599 599, 1797599/2400 Cs; beyond warm 599; 10801/1200 to 19/2
    )");
}

TEST_CASE(
    "attribution: guidance through the second before a crossing leaves all of it open, through the next all but a "
    "fraction",
    "[answers][attribution]") {
    scenario(R"(
        08:00     log p 600  6 9.5
        08:00     receive main flu A1 10
        08:10  ? warm main flu A1                   = 0 1800/7 600, 1350/7 Cs, open 1800/7      # 600 s less 2400/7 s
        08:11     guidance flu A1 use through 08:05:42
        08:10  ? warm main flu A1                   = 0 1800/7 600, 1350/7 Cs, open 1800/7
        08:12     guidance flu A1 use through 08:05:43
        08:10  ? warm main flu A1                   = 0 1800/7 600, 1350/7 Cs, open 257         # 1800/7 - 1/7
    )");
}

TEST_CASE("attribution: the reading at the instant that guidance reaches through is after it",
          "[answers][attribution]") {
    scenario(R"(
        08:00  log p 600  9 9 9
        08:00  receive main flu A1 10
        08:30  guidance flu A1 use through 08:10    # 600 s and the reading of 08:00 are cleared
        08:20  ? warm main flu A1                   = 1200 1200 1200, 1200 Cs, open 600
        08:20  ? points main flu A1                 = 3, open 2
    )");
}

TEST_CASE("attribution: a fraction of the second between the readings of two certificates", "[answers][attribution]") {
    scenario(R"(
        00:00     certificate p 2027-01-01
        08:00:01  certificate p 2027-01-01          # a probe that was calibrated between the two readings
        08:00     log p 1  7 9 7
        08:00     receive main flu A1 10
        12:00  ? inside main 08:00 09:00            = warm line 08:00+1/2 to 08:00:01+1/2, 1 s, 1/2 Cs, peak 9
          = main flu A1, 10: logged 1; warm 0 1 1, 1/2 Cs; beyond warm 1; points 1; 8 to 9
    )");
}

TEST_CASE("attribution: fractions of a line between checks", "[answers][attribution]") {
    // 6 to 9.5 in 600 s as above, of checks
    scenario(R"(
        08:00     check main 6
        08:10     check main 9.5
        08:00     receive main flu A1 10
        08:05:43  move flu A1 4 main > main:b       # main:b lacks 1/7 s and 1/16800 Cs: 3239999/16800
        12:00  ? inside main 08:00 09:00            = warm line 08:05:42+6/7 to 08:10, 1800/7 s, 1350/7 Cs, )"
             R"(peak 19/2, open
          = main flu A1, 10: checked 1800/7; warm 0 1800/7 1800/7, 1350/7 Cs; beyond warm 1800/7; 8 to 19/2
          = main:b flu A1, 4: checked 257; warm 0 257 257, 462857/2400 Cs; beyond warm 257; 9601/1200 to 19/2
    )");
}
