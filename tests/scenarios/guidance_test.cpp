// Guidance: what a maker's or health department's answer clears, shortens or condemns.
#include <catch2/catch.hpp>

#include "site.hpp"

using scenarios::scenario;

TEST_CASE("guidance: use clears every open part and the holds, up to its through", "[scenarios]") {
    scenario(R"(
        00:00  product al 2 8 freeze -5 allow 8 10 300
        00:00  lot al A1 2026-12-31
        08:00  receive main al A1 10
        08:00  log p 600  9 12 -6 -6 5
        08:20  hold al                      as H
        08:40  guidance al A1 use through 08:30
        # 12 to -6 in 600 s is at or below -5 for 100/3 s, by 1/2; then 600 s by 1
        08:30  ? frozen main al A1          = 600 1900/3 1200, 1850/3 Cs, open 0
        08:30  ? points main al A1          = 3, open 1          # the reading at 08:30 is not before it
        08:30  ? held main al A1            = no
        08:29:59 ? held main al A1          = H
        08:40  ? allowances main al A1      = 800/3 of 300, open 0      # 9 to 10 in 200 s, 10 to 8 in 200/3
    )");
}

TEST_CASE("guidance: what comes after it is open again", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 9
        08:10  guidance flu A1 use          as G
        08:20  ? warm main flu A1           = 1200 1200 1200, 1200 Cs, open 600
        08:20  ? beyond main flu A1         = warm 1200, open 600; cold 0, open 0
        08:20  ? points main flu A1         = 3, open 2
        08:10  ? lists main flu A1          = quarantine-pending-guidance: point
        08:20  void G
        08:20  ? warm main flu A1           = 1200 1200 1200, 1200 Cs, open 1200
    )");
}

TEST_CASE("guidance: it acts at its through, whatever its own instant", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 9
        03-04T10:00  guidance flu A1 use through 08:10
        08:20  ? warm main flu A1           = 1200 1200 1200, 1200 Cs, open 600
    )");
}

TEST_CASE("guidance: its through is not after its own instant", "[scenarios]") {
    scenario(R"(
        08:00  ! guidance flu A1 use through 08:01  = contradiction: through
    )");
}

TEST_CASE("guidance: use-by also shortens, to the end of its date", "[scenarios]") {
    scenario(R"(
        00:00  site unmonitored 1000000
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 5
        08:20  guidance flu A1 use-by 2026-03-05
        08:20  ? use-by main flu A1         = 03-06T00:00
        08:20  ? warm main flu A1           = 600 750 1200, 675 Cs, open 0      # 9 to 5 is above 8 for 150 s, by 0.5
    )");
}

TEST_CASE("guidance: discard condemns; a later use does not lift it, voiding does", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 5
        08:20  guidance flu A1 discard      as D
        08:20  ? warm main flu A1           = 600 750 1200, 675 Cs, open 750        # a discard clears nothing
        08:20  ? lists main flu A1          = discard: condemned, warm, point
        08:21  guidance flu A1 use
        08:21  ? lists main flu A1          = discard: condemned
        08:22  void D
        08:22  ? lists main flu A1          = keep
    )");
}

TEST_CASE("guidance: it acts on the place and mark it names, on all where it names none", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 1
        08:00  receive main:bag flu A1 1
        08:00  receive main flu A1 1 fund state
        08:00  receive spare:bag flu A1 1
        08:00  receive main flu B2 1
        08:10  guidance flu A1 discard in main      as PLACE
        08:10  guidance flu A1 discard in :bag      as MARK
        08:10  guidance flu A1 discard in :         as UNMARKED
        08:10  guidance flu A1 discard in spare:bag as BOTH
        08:10  guidance flu A1 discard              as ALL
        08:10  ? condemned main flu A1              = PLACE UNMARKED ALL
        08:10  ? condemned main:bag flu A1          = PLACE MARK ALL
        08:10  ? condemned main flu A1 fund state   = PLACE UNMARKED ALL       # the fund is never matched
        08:10  ? condemned spare:bag flu A1         = MARK BOTH ALL
        08:10  ? condemned main flu B2              = no
    )");
}

TEST_CASE("guidance: it acts on holdings with doses at its through", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:10  guidance flu A1 discard      as D
        08:20  receive spare flu A1 10
        08:20  move flu A1 5 main > counter
        08:30  ? condemned spare flu A1     = no
        08:30  ? condemned counter flu A1   = D             # they take it along
    )");
}

TEST_CASE("guidance: told less out-of-range time than is open, it does not clear", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 9
        08:20  guidance flu A1 use told 1199 0 2
        08:20  ? warm main flu A1           = 1200 1200 1200, 1200 Cs, open 1200
        08:20  guidance flu A1 use told 1200 0 2
        08:20  ? warm main flu A1           = 1200 1200 1200, 1200 Cs, open 0
    )");
}

TEST_CASE("guidance: told out-of-range time is of both sides, and of the time in allowances, too", "[scenarios]") {
    scenario(R"(
        00:00  product al 2 8 allow 8 10 10000 allow 0 2 10000
        00:00  lot al A1 2026-12-31
        08:00  receive main al A1 10
        08:00  log p 600  9 9
        08:10:01 log p 600  1 1
        # warm 600, then 9 to 1 in a second: 1/8 s above 8, 1/8 s below 2; cold 600 up to 08:20:01
        08:20:01 guidance al A1 use told 1200 0 0       as LESS
        08:20:01 ? allowances main al A1    = 4801/8 of 10000, open 4801/8; 4801/8 of 10000, open 4801/8
        08:20:01 guidance al A1 use told 1201 0 0
        08:20:01 ? allowances main al A1    = 4801/8 of 10000, open 0; 4801/8 of 10000, open 0
    )");
}

TEST_CASE("guidance: told fewer points or less unknown time than is open, it does not clear", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 7200  9 9
        10:00  guidance flu A1 use told 0 7200 0        # one point (08:00), that of 10:00 is not before it
        10:00  ? points main flu A1         = 2, open 2
        10:00  guidance flu A1 use told 0 7199 1
        10:00  ? points main flu A1         = 2, open 2
        10:00  guidance flu A1 use told 0 7200 1
        10:00  ? points main flu A1         = 2, open 1
        10:00  ? coverage main flu A1       = unmonitored 7200, open 0
    )");
}

TEST_CASE("guidance: what its issuer was not told is not compared; told may be the issuer's own ceiling",
          "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 9 5           # 1350 s too warm by 08:30, three points
        08:30  guidance flu A1 use told 1349 - -        as LESS
        08:30  ? lists main flu A1          = quarantine-pending-guidance: warm, point
        08:30  guidance flu A1 use told 1350 - -        # nothing is said of points or of time not known
        08:30  ? lists main flu A1          = keep
    )");
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 9 5
        08:30  guidance flu A1 use told - - 2           as LESS
        08:30  ? lists main flu A1          = quarantine-pending-guidance: warm, point
        08:30  guidance flu A1 use told - 0 3
        08:30  ? lists main flu A1          = keep
        08:30  ! json {"kind": "guidance", "at": "2026-03-02T08:30:00Z", "by": "AB", "product": "flu", "lot": "A1", \
               "through": "2026-03-02T08:30:00Z", "verdict": "use", "issuer": "maker", "reference": "M-2", "told": {}} \
               = bad-value: told
    )");
}

TEST_CASE("guidance: told too little, its use-by shortens and its discard acts all the same", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 9
        08:20  hold flu                     as H
        08:20  guidance flu A1 use-by 2026-03-05 told 0 0 0
        08:20  ? use-by main flu A1         = 03-06T00:00
        08:20  ? warm main flu A1           = 1200 1200 1200, 1200 Cs, open 1200
        08:20  ? held main flu A1           = H
        08:20  guidance flu A1 discard told 0 0 0       as D
        08:20  ? condemned main flu A1      = D
    )");
}

TEST_CASE("guidance: later data may show more than its issuer was told", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9
        08:10  guidance flu A1 use told 600 0 1
        08:10  ? warm main flu A1           = 600 600 600, 600 Cs, open 0
        08:05  log p 60  9                  # changes nothing but the points: two before 08:10
        08:10  ? warm main flu A1           = 600 600 600, 600 Cs, open 600
    )");
}
