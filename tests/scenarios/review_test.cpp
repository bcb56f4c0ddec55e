// Review: doses given that may need a second look.
#include <catch2/catch.hpp>

#include "site.hpp"

using scenarios::scenario;

TEST_CASE("review: clear doses are shown only when asked for", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5 5
        08:10  give main flu A1 1 P1
        08:10  ? review                     = none
        08:10  ? review all                 = P1 clear
        08:09  ? review all                 = none
    )");
}

TEST_CASE("review: a dose is judged by the history just before it left", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5 9 9
        08:07:30 give main flu A1 1 P1      # 5 to 9 in 600 s: 8 at 450 s
        08:10  give main flu A1 1 P2        # 150 s above 8; the reading of 9 at 08:10 is not before it
        08:20  ? review all                 = P1 clear
                                            = P2 pending guidance: warm
        08:20  ? given P1 history           = logged 450; warm 0 0 450, 0 Cs, open 0; 5 to 8; in main
        08:20  ? given P2 history           = logged 600; warm 0 150 600, 75 Cs, open 150; beyond warm 150, open 150; \
                                              cold 0, open 0; 5 to 9; in main
    )");
}

TEST_CASE("review: a dose given past its expiry or its use-by", "[scenarios]") {
    scenario(R"(
        00:00  site unmonitored 1000000
        00:00  lot flu X 2026-03-02
        03-01T00:00  receive main flu X 10
        03-01T00:00  receive main flu A1 10
        03-02T23:00  log p 1800  5 5 5 5 5
        03-02T23:59:59  give main flu X 1 P1
        03-03T00:00  give main flu X 1 P2
        03-02T23:30  beyond-use main flu A1 until 03-03T00:10
        03-03T00:10  give main flu A1 1 P3
        03-03T01:00  ? review               = P2 expired
                                            = P3 expired
    )");
}

TEST_CASE("review: a condemned dose, and one that a later discard covers, are not viable", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  receive main flu B2 10
        08:00  log p 600  5 5 5 5 5 5 5
        08:10  give main flu A1 1 P1
        08:20  guidance flu A1 discard      as D
        08:30  give main flu A1 1 P2
        08:30  give main flu B2 1 P3
        09:00  ? review                     = P1 condemned later; by D   # nothing was found on it
                                            = P2 not viable  # condemned; no guidance through the give or later
    )");
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 9 9
        08:10  give main flu A1 1 P1
        08:20  guidance flu A1 discard      as D
        09:00  ? review                     = P1 not viable: warm, point; by D
    )");
}

TEST_CASE("review: a discard after a failure does not call doses not viable that were given weeks before it",
          "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 3600  5 5
        08:30  give main flu A1 1 P1
        09:00  check main 5
        03-20T08:00  check main 5 min 4 max 6
        03-20T16:00  check main 12 min 5 max 12  # the failure
        03-20T17:00  give main flu A1 1 P2
        03-21T08:00  guidance flu A1 discard through 03-20T18:00 as D
        03-21T08:00  ? review               = P1 condemned later; by D
                                            = P2 not viable: warm, point; by D
    )");
}

TEST_CASE("review: exposure that guidance had cleared before the give shows all the same", "[scenarios]") {
    // each reason once: what was open is closed before the give, and a discard follows it
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 5 5 5 5
        08:25  guidance flu A1 use          as U
        08:30  give main flu A1 1 P1
        08:40  guidance flu A1 discard      as D
        08:50  ? review                     = P1 not viable; by D
    )");
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  hold flu lot A1              # a hold that guidance has emptied shows nothing
        08:00  log p 600  5 5 5 5 5 5
        08:25  guidance flu A1 use          as U
        08:30  give main flu A1 1 P1
        08:40  guidance flu A1 discard      as D
        08:50  ? review                     = P1 condemned later; by D
    )");
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  hold flu lot A1              # one that stands at the give does
        08:00  log p 600  5 5 5 5 5 5
        08:30  give main flu A1 1 P1
        08:40  guidance flu A1 discard      as D
        08:50  ? review                     = P1 not viable: held; by D
    )");
    scenario(R"(
        07:00  product flu 2C 8C allow 8C 25C 600
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 9 5 5 5 5
        08:15  give main flu A1 1 P1        # 15 minutes of 10
        08:25  guidance flu A1 use          as U
        08:40  give main flu A1 1 P2
        08:50  guidance flu A1 discard      as D
        09:00  ? review                     = P1 not viable: over-allowance; by D
                                            = P2 not viable; by D
        07:00  product flu 2C 8C allow 8C 25C 6000
        09:00  ? review                     = P1 condemned later; by D
                                            = P2 condemned later; by D
    )");
    scenario(R"(
        08:00  receive main flu A1 10
        08:10  log p 600  5 5 5 5           # ten minutes not known
        08:15  guidance flu A1 use          as U
        08:20  give main flu A1 1 P1
        08:40  guidance flu A1 discard      as D
        08:40  ? review                     = P1 not viable; by D
        00:00  site unmonitored 600
        08:40  ? review                     = P1 condemned later; by D
    )");
}

TEST_CASE("review: guidance covers no dose given before the instant since which it judges", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 9 9 9 9 9
        08:10  give main flu A1 1 P1
        08:20  give main flu A1 1 P2
        08:30  guidance flu A1 use since 08:20  as G
        09:00  ? review                     = P1 pending guidance: warm, point
                                            = P2 cleared: warm, point; by G
    )");
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5 5 5 5 5 5 5
        08:10  give main flu A1 1 P1
        08:20  give main flu A1 1 P2
        08:30  guidance flu A1 discard since 08:20  as D
        09:00  ? review                     = P2 condemned later; by D
        09:00  ? lists main flu A1          = discard: condemned   # stock is condemned whatever was judged since when
        09:00  ! guidance flu A1 use through 08:30 since 08:30:01 = contradiction: since
    )");
}

TEST_CASE("review: guidance through the give or later covers it", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 9 9 9 9 9
        08:10  give main flu A1 1 P1
        08:20  give main flu A1 1 P2
        08:30  give main flu A1 1 P3
        09:00  guidance flu A1 use through 08:20    as G
        # P3: open again since 08:20
        09:00  ? review                     = P1 cleared: warm, point; by G
                                            = P2 cleared: warm, point; by G
                                            = P3 pending guidance: warm, point
    )");
}

TEST_CASE("review: the same instant counts as not before, whatever the numbers", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 9
        08:10  guidance flu A1 use told 0 0 0       as LESS     # told less: does not clear, does not cover
        08:10  guidance flu A1 use in main          as G
        08:10  log p 600  9
        08:10  give main flu A1 1 P1
        08:20  ? review  = none  # the guidance came first in its instant, and left nothing open
        08:20  ? review all                 = P1 clear; by G
    )");
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 9
        08:10  give main flu A1 1 P1
        08:10  guidance flu A1 use          as G
        08:20  ? review                     = P1 cleared: warm, point; by G
    )");
}

TEST_CASE("review: guidance counts whatever its own instant, and even after the one asked about", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 9
        08:10  give main flu A1 1 P1
        03-09T08:00  guidance flu A1 use through 08:15 as G
        08:10  ? review                     = P1 cleared: warm, point; by G
    )");
}

TEST_CASE("review: guidance covers the mark it names, and the places the dose has been", "[scenarios]") {
    scenario(R"(
        08:00  receive main:bag flu A1 10
        08:00  log p 600  9 9 9 9
        08:00  log q 600  5 5 5 5
        08:10  move flu A1 10 main:bag > spare:bag
        08:20  give spare:bag flu A1 1 P1
        08:30  guidance flu A1 use in counter       as ELSEWHERE
        08:30  ? review                     = P1 pending guidance: warm, point
        08:30  guidance flu A1 use in :             as UNMARKED
        08:30  ? review                     = P1 pending guidance: warm, point
        08:30  guidance flu A1 use in main          as WAS      # it has been there
        08:30  ? review                     = P1 cleared: warm, point; by WAS
        08:30  guidance flu A1 use in :bag          as BAG
        08:30  ? review                     = P1 cleared: warm, point; by BAG
        08:30  guidance flu B2 use                  as OTHER
        08:30  ? review                     = P1 cleared: warm, point; by BAG
    )");
}

TEST_CASE("review: the last guidance by instant and number is relied on", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 9
        08:10  give main flu A1 1 P1
        08:40  guidance flu A1 use through 08:10    as LATE
        08:30  guidance flu A1 use through 08:20    as EARLY
        08:40  ? review                     = P1 cleared: warm, point; by LATE
        08:40  guidance flu A1 use through 08:15    as LAST
        08:40  ? review                     = P1 cleared: warm, point; by LAST
    )");
}

TEST_CASE("review: guidance told less than is open does not cover, unless it says discard", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 9
        08:10  give main flu A1 1 P1        # 600 s, one point
        08:20  guidance flu A1 use through 08:15 told 599 0 9
        08:20  guidance flu A1 use through 08:15 told 600 0 0
        08:20  ? review                     = P1 pending guidance: warm, point
        08:20  guidance flu A1 use through 08:15 told 600 0 1       as ENOUGH
        08:20  ? review                     = P1 cleared: warm, point; by ENOUGH
        08:20  guidance flu A1 discard through 08:15 told 0 0 0     as D
        08:20  ? review                     = P1 not viable: warm, point; by D
    )");
}

TEST_CASE("review: use-by covers a dose given before the end of its date", "[scenarios]") {
    scenario(R"(
        03-01T00:00  receive main flu A1 10
        03-01T23:50  log p 600  9 9 9
        03-01T23:59:59  give main flu A1 1 P1
        03-02T00:00  give main flu A1 1 P2
        03-05T00:00  guidance flu A1 use-by 2026-03-01 through 00:00:10    as G
        03-05T00:00  ? review               = P1 cleared: warm, point, unmonitored; by G
                                            = P2 pending guidance: warm, point, unmonitored
    )");
}

TEST_CASE("review: expired comes before not viable", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5 5 5
        08:05  beyond-use main flu A1 until 08:10
        08:05  guidance flu A1 discard
        08:10  give main flu A1 1 P1
        08:10  ? review                     = P1 expired
    )");
}

TEST_CASE("review: a dose that is not certain is judged by the join of all holdings of its lot", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  receive spare:bag flu A1 10
        08:00  receive counter flu B2 10
        08:00  log p 600  5 5 5 5
        08:00  log q 600  9 9 9 9
        08:10  give main flu A1 1 P1
        08:10  give main flu A1 1 P2 uncertain
        08:10  ? review all                 = P1 clear
                                            = P2 pending guidance: warm, point
        08:10  ? given P2 places            = main spare
        08:10  ? stock main flu A1          = 8                 # booked from the holding named
        08:30  guidance flu A1 use through 08:20 in spare
        08:30  guidance flu A1 use through 08:20 in :bag
        08:30  guidance flu A1 use through 08:20 in :
        08:30  ? review  = P2 pending guidance: warm, point  # one that names a place or a mark does not cover it
        08:30  guidance flu A1 use through 08:20            as G
        08:30  ? review                     = P2 cleared: warm, point; by G
    )");
}

TEST_CASE("review: a voided dose is not reviewed", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:10  give main flu A1 1 P1        as GIVEN
        08:10  ? review                     = P1 pending guidance: unmonitored
        08:20  void GIVEN
        08:10  ? review all                 = none
    )");
}

TEST_CASE("review: doses are listed by instant, then number", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5 5 5
        08:20  give main flu A1 1 P1
        08:10  give main flu A1 1 P2
        08:20  give main flu A1 2 P3
        08:20  ? review all                 = P2 clear
                                            = P1 clear
                                            = P3 clear
    )");
}

// Two certificates part the readings; the line between the two is one as any other.

TEST_CASE("review: the line between two certificates is judged by the reading after it", "[scenarios]") {
    scenario(R"(
        08:05  certificate p 2027-01-01
        08:15  certificate p 2027-01-01
        08:00  log p 600  5 5 9
        08:00  receive main flu A1 10
        08:17:30 give main flu A1 1 P1      # 5 to 9 in 600 s: 8 after 450 s
        08:20  give main flu A1 1 P2        # 150 s above it
        09:00  ? review all                 = P1 clear
                                            = P2 pending guidance: warm
        09:00  ? review                     = P2 pending guidance: warm     # by the short way through quiet time
    )");
}

TEST_CASE("review: doses that come in the second of the last reading before a certificate, or between the two readings",
          "[scenarios]") {
    scenario(R"(
        08:05  certificate p 2027-01-01
        08:15  certificate p 2027-01-01
        08:00  log p 600  5 5 9
        08:10  receive main flu A1 5
        08:12  receive main:late flu A1 5
        08:18  give main flu A1 1 P1        # 8 after 450 s, at 08:17:30: 30 s above
        08:18  give main:late flu A1 1 P2
        09:00  ? review all                 = P1 pending guidance: warm
                                            = P2 pending guidance: warm
        09:00  ? review                     = P1 pending guidance: warm
                                            = P2 pending guidance: warm
    )");
    scenario(R"(
        08:15  certificate p 2027-01-01
        08:00  log p 600  5 5 6
        08:12  receive main flu A1 5
        08:18  give main flu A1 1 P1
        09:00  ? review all                 = P1 clear
    )");
}

TEST_CASE("review: time between readings too far apart is unmonitored, though those after it are near each other",
          "[scenarios]") {
    scenario(R"(
        10:05  certificate p 2027-01-01
        10:15  certificate p 2027-01-01
        08:00  log p 600  5
        10:00  log p 600  5 5 5
        09:00  receive main flu A1 5
        09:30  give main flu A1 1 P1
        11:00  ? review all                 = P1 pending guidance: unmonitored
        11:00  ? review                     = P1 pending guidance: unmonitored
    )");
}
