// Excursions of a place, against its own range, and who was inside.
#include <catch2/catch.hpp>

#include "site.hpp"

using scenarios::scenario;

TEST_CASE("excursions: a line above the limit, touching it does not part it", "[scenarios]") {
    scenario(R"(
        08:00  log p 400  6 10 8 10 6       # above 8 from 200 to 1400 s; four triangles: 200 + 400 + 400 + 200
        12:00  ? excursions main 08:00 09:00          = warm line 08:03:20 to 08:23:20, 1200 s, 1200 Cs, peak 10
        12:00  ? excursions main 08:05 08:05:50  = warm line 08:05 to 08:05:50, 50 s, 125/2 Cs, peak 19/2  # 9 to 9.5
        12:00  ? excursions main 08:23:20 09:00       = none
        12:00  ? excursions main 08:05 08:05          = none
        12:00  ? excursions main 08:05 08:00          = refused: contradiction
        12:00  ? excursions cellar 08:00 09:00        = refused: not-known
        07:00  ? excursions cellar 08:00 09:00  = refused: not-known  # though nothing of the window has come yet
        07:00  ? excursions main 08:00 09:00          = none
    )");
}

TEST_CASE("excursions: below the limit, and crossings that are no whole second", "[scenarios]") {
    scenario(R"(
        08:00  log p 600  5 1.5 1.5 5
        # below 2 after 600 * 3/3.5 = 514 2/7 s, for 600/7 s by 1/4, 600 s by 1/2, 600/7 s by 1/4
        12:00  ? excursions main 08:00 09:00  = cold line 08:08:34+2/7 to 08:21:25+5/7, 5400/7 s, 2400/7 Cs, peak 3/2
    )");
}

TEST_CASE("excursions: one that nothing is known to end is open", "[scenarios]") {
    scenario(R"(
        08:00  log p 600  7 9               # past 8 half way
        12:00  ? excursions main 08:00 09:00          = warm line 08:05 to 08:10, 300 s, 150 Cs, peak 9, open
        12:00  ? excursions main 08:00 08:09          = warm line 08:05 to 08:09, 240 s, 96 Cs, peak 44/5        # cut
        08:09  ? excursions main 08:00 09:00  = warm line 08:05 to 08:09, 240 s, 96 Cs, peak 44/5  # cut by the question
        08:10  log p 7200  - 5                        # more is known, but not what follows
        12:00  ? excursions main 08:00 09:00          = warm line 08:05 to 08:10, 300 s, 150 Cs, peak 9, open
    )");
    scenario(R"(
        08:00  log p 600  9 8                         # it ends in range
        12:00  ? excursions main 08:00 09:00          = warm line 08:00 to 08:10, 600 s, 300 Cs, peak 9
    )");
    scenario(R"(
        08:00  log p 600  7 9
        08:10  check main 5                           # a line between checks begins where it ends
        08:20  check main 5
        12:00  ? excursions main 08:00 09:00          = warm line 08:05 to 08:10, 300 s, 150 Cs, peak 9
    )");
}

TEST_CASE("excursions: bounded time is an excursion of its own for each side, of its remainders", "[scenarios]") {
    scenario(R"(
        00:00  place main 2C/36F 8C/46F gap 100 checkgap 1
        08:00  check main 5
        08:06:40  log p 100  5 5 5                    # logged 400 to 600 s
        08:11:41  log p 1  12                         # alone, within the bounded time
        08:16:40  check main 5 min 1 max 9            # bounded 0 to 400 and 600 to 1000 s: 800 s
        08:25  log p 1  12
        08:33:20  check main 9
        12:00  ? excursions main 08:00 09:00          = cold bounded 08:00 to 08:16:40, 800 s, 800 Cs, peak 1
                                                      = warm bounded 08:00 to 08:16:40, 800 s, 800 Cs, peak 9
                                                      = warm point 08:25 to 08:25, 0 s, 0 Cs, peak 12
                                                      = warm point 08:33:20 to 08:33:20, 0 s, 0 Cs, peak 9
        12:00  ? excursions main 08:07:30 08:11:40    = cold bounded 08:10 to 08:11:40, 100 s, 100 Cs, peak 1
                                                      = warm bounded 08:10 to 08:11:40, 100 s, 100 Cs, peak 9
        12:00  ? excursions main 08:07:30 08:09       = none                  # logged all of it
        12:00  ? excursions main 08:16:40 08:20       = none                  # it ended where the window begins
    )");
}

TEST_CASE("excursions: each pair of checks is one", "[scenarios]") {
    scenario(R"(
        08:00  check main 5
        08:10  check main 5 min 3 max 9
        08:20  check main 5 min 3 max 10
        12:00  ? excursions main 08:00 09:00          = warm bounded 08:00 to 08:10, 600 s, 600 Cs, peak 9
                                                      = warm bounded 08:10 to 08:20, 600 s, 1200 Cs, peak 10
    )");
}

TEST_CASE("excursions: a point belongs to the window of its instant, that of the question included", "[scenarios]") {
    scenario(R"(
        00:00  place main 2C/36F 8C/46F gap 1
        08:10  log p 1  12
        12:00  ? excursions main 08:00 08:10          = none
        12:00  ? excursions main 08:10 08:11          = warm point 08:10 to 08:10, 0 s, 0 Cs, peak 12
        08:10  ? excursions main 08:00 08:10          = warm point 08:10 to 08:10, 0 s, 0 Cs, peak 12
        08:10  ? excursions main 08:10 08:10          = warm point 08:10 to 08:10, 0 s, 0 Cs, peak 12
        08:09:59 ? excursions main 08:00 09:00        = none
    )");
}

TEST_CASE("excursions: a point of a reading comes before that of a check", "[scenarios]") {
    scenario(R"(
        08:10  check main 10
        08:10  log p 1  9
        12:00  ? excursions main 08:00 09:00          = warm point 08:10 to 08:10, 0 s, 0 Cs, peak 9
                                                      = warm point 08:10 to 08:10, 0 s, 0 Cs, peak 10
    )");
}

TEST_CASE("excursions: a reading in the closure of one, of which the window leaves nothing, is no point",
          "[scenarios]") {
    scenario(R"(
        08:00  log p 600  7 9
        08:10  ? excursions main 08:10 08:10          = none
        12:00  ? excursions main 08:10 08:20          = none
    )");
}

TEST_CASE("excursions: a reading out on the other side than the excursion it lies in is a point", "[scenarios]") {
    scenario(R"(
        08:00  check main 5
        08:05  log p 1  12
        08:10  check main 5 min 1 max 7
        12:00  ? excursions main 08:00 09:00          = cold bounded 08:00 to 08:10, 600 s, 600 Cs, peak 1
                                                      = warm point 08:05 to 08:05, 0 s, 0 Cs, peak 12
    )");
}

TEST_CASE("excursions: they are judged by the place's range as it is defined now", "[scenarios]") {
    scenario(R"(
        08:00  log p 600  9 9
        12:00  ? excursions main 08:00 08:05          = warm line 08:00 to 08:05, 300 s, 300 Cs, peak 9
        09:00  place main 2 8.5                       as WIDER
        12:00  ? excursions main 08:00 08:05          = warm line 08:00 to 08:05, 300 s, 150 Cs, peak 9
        09:00  place main 2 9
        12:00  ? excursions main 08:00 08:05          = none
    )");
}

TEST_CASE("excursions: the doses inside for a positive time, and what it did to them", "[scenarios]") {
    // 7 9 9 5 every 600 s: above 8 from 300 to 1350 s; 300 s by 1/2, 600 s by 1, 150 s by 1/2: 825 Cs
    scenario(R"(
        08:00  log p 600  7 9 9 5
        08:00  receive main flu A1 10                 # through all of it; 10 at its first instant, though 4 leave later
        08:12  move flu A1 4 main > spare
        08:10  receive main flu B2 5                  # for 600 s, with the reading of 08:10, without that of 08:20
        08:20  move flu B2 5 main > counter
        08:00  receive main:gone flu A1 1             # out before
        08:05  move flu A1 1 main:gone > spare
        08:22:30 receive main:late flu A1 1           # in after
        12:00  ? inside main 08:00 09:00              = warm line 08:05 to 08:22:30, 1050 s, 825 Cs, peak 9
          = main flu A1, 10: logged 1050; warm 600 1050 1050, 825 Cs; beyond warm 1050; points 2; 8 to 9
          = main flu B2, 5: logged 600; warm 600 600 600, 600 Cs; beyond warm 600; points 1; 9 to 9
    )");
}

TEST_CASE("excursions: the exposure is of the product, not of the place's range", "[scenarios]") {
    scenario(R"(
        00:00  product al 2 8.5 allow 8.5 10 5000
        00:00  lot al A1 2026-12-31
        08:00  log p 600  9 9
        08:00  receive main al A1 10
        12:00  ? inside main 08:00 08:10              = warm line 08:00 to 08:10, 600 s, 600 Cs, peak 9, open
          = main al A1, 10: logged 600; warm 600 600 600, 300 Cs; allowance 600 of 5000; 9 to 9
    )");
}

TEST_CASE("excursions: a point is of the holdings with doses after all entries of its instant", "[scenarios]") {
    scenario(R"(
        00:00  place main 2C/36F 8C/46F gap 1
        08:00  receive main flu B2 5
        08:10  log p 1  12
        08:10  check main 13
        08:10  receive main flu A1 10
        08:10  move flu B2 5 main > spare
        12:00  ? inside main 08:00 09:00              = warm point 08:10 to 08:10, 0 s, 0 Cs, peak 12
          = main flu A1, 10: no time; points 2; 12 to 13
          = warm point 08:10 to 08:10, 0 s, 0 Cs, peak 13
          = main flu A1, 10: no time; points 2; 12 to 13
    )");
}

TEST_CASE("excursions: one holding twice inside is listed once, with both times", "[scenarios]") {
    scenario(R"(
        08:00  log p 600  9 9 9
        08:00  receive main flu A1 10
        08:05  move flu A1 10 main > spare
        08:15  move flu A1 3 spare > main
        12:00  ? inside main 08:00 08:20              = warm line 08:00 to 08:20, 1200 s, 1200 Cs, peak 9, open
          = main flu A1, 10: logged 600; warm 600 600 600, 600 Cs; beyond warm 600; points 1; 9 to 9
    )");
}

TEST_CASE("excursions: a single dose is inside as well as many, and one that comes later is not", "[scenarios]") {
    scenario(R"(
        00:00  place main 2C/36F 8C/46F gap 1
        08:00  receive main flu A1 1
        08:10  log p 1  12
        08:20  receive main flu B2 5
        12:00  ? inside main 08:00 09:00              = warm point 08:10 to 08:10, 0 s, 0 Cs, peak 12
          = main flu A1, 1: no time; points 1; 12 to 12
    )");
    scenario(R"(
        08:00  log p 600  9 9 9
        08:00  receive main flu A1 2
        08:05  give main flu A1 1 t1                  # the last one stays to the end
        12:00  ? inside main 08:00 08:20              = warm line 08:00 to 08:20, 1200 s, 1200 Cs, peak 9, open
          = main flu A1, 2: logged 1200; warm 1200 1200 1200, 1200 Cs; beyond warm 1200; points 2; 9 to 9
    )");
}

TEST_CASE("excursions: who was inside at the instant of the question, with the entries of that instant",
          "[scenarios]") {
    scenario(R"(
        00:00  place main 2C/36F 8C/46F gap 1
        08:10  log p 1  12
        08:10  receive main flu A1 3
        08:10  ? inside main 08:00 08:10              = warm point 08:10 to 08:10, 0 s, 0 Cs, peak 12
          = main flu A1, 3: no time; points 1; 12 to 12
    )");
}

TEST_CASE("excursions: a line between two certificates goes on or is open as any other", "[scenarios]") {
    scenario(R"(
        08:05  certificate p 2027-01-01
        08:15  certificate p 2027-01-01
        08:00  log p 600  5 5 9                       # 5 to 9: above 8 from 08:17:30
        12:00  ? excursions main 08:00 09:00          = warm line 08:17:30 to 08:20, 150 s, 75 Cs, peak 9, open
        08:25  certificate p 2027-01-01
        08:30  log p 600  9
        12:00  ? excursions main 08:00 09:00          = warm line 08:17:30 to 08:30, 750 s, 675 Cs, peak 9, open
        08:40  log p 600  5                           # back at 8 after 150 s
        12:00  ? excursions main 08:00 09:00          = warm line 08:17:30 to 08:32:30, 900 s, 750 Cs, peak 9
    )");
}
