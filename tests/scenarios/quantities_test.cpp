// Instants, temperatures, limits and doses as they are posted; definitions.
#include <catch2/catch.hpp>

#include "site.hpp"

using scenarios::scenario;

TEST_CASE("quantities: a local time is read in the site's zone, once, when it is posted", "[scenarios]") {
    // New York: 5 h behind UTC in winter, 4 in summer; the clock skips 8 March 02:00 to 03:00 and repeats 1 November
    // 01:00 to 02:00
    scenario(R"(
        12-01T00:00  recorded
        00:00  site zone America/New_York unmonitored 1000000000
        08:00  json {"kind": "receive", "at": "2026-03-02T08:00:00", "by": "AB", "place": "main", "product": "flu", \
               "lot": "A1", "doses": 10}
        12:59:59  ? stock                   = none
        13:00     ? stock main flu A1       = 10
        08:00  ! json {"kind": "waste", "at": "2026-03-08T02:30:00", "by": "AB", "place": "main", "product": "flu", \
               "lot": "A1", "doses": 1, "reason": "broken"} = bad-value: 2026-03-08T02:30:00
        08:00  ! json {"kind": "waste", "at": "2026-11-01T01:30:00", "by": "AB", "place": "main", "product": "flu", \
               "lot": "A1", "doses": 1, "reason": "broken"} = ambiguous: 2026-11-01T01:30:00
        08:00  json {"kind": "waste", "at": "2026-11-01T01:30:00-05:00", "by": "AB", "place": "main", \
               "product": "flu", "lot": "A1", "doses": 1, "reason": "broken"}
        11-01T06:29:59  ? stock main flu A1 = 10
        11-01T06:30     ? stock main flu A1 = 9
        00:00  site zone Pacific/Auckland unmonitored 1000000000       # resolved already
        12:59:59  ? stock                   = none
        13:00     ? stock main flu A1       = 10
    )");
}

TEST_CASE("quantities: second 60, and a fraction that is not zero, are refused", "[scenarios]") {
    scenario(R"(
        08:00  ! json {"kind": "receive", "at": "2026-03-02T08:00:60Z", "by": "AB", "place": "main", "product": "flu", \
               "lot": "A1", "doses": 1} = bad-value: at
        08:00  ! json {"kind": "receive", "at": "2026-03-02T08:00:00.5Z", "by": "AB", "place": "main", \
               "product": "flu", "lot": "A1", "doses": 1} = bad-value: at
        08:00  json {"kind": "receive", "at": "2026-03-02T08:00:00Z", "by": "AB", "place": "main", "product": "flu", \
               "lot": "A1", "doses": 1}
        08:00  ? stock main flu A1          = 1
    )");
}

TEST_CASE("quantities: temperatures have at most three fractional digits, and lie between absolute zero and 1000 °C",
          "[scenarios]") {
    scenario(R"(
        08:00  ! log p 60  4.0001           = bad-value: 4.0001
        08:00  ! log p 60  -273.151         = bad-value: -273.151
        08:00  ! log p 60  1000.001         = bad-value: 1000.001
        08:00  ! log f 60  -459.671         = bad-value: -459.671
        08:00  ! log p 60  1e1              = bad-value: 1e1
        08:00  ! json {"kind": "readings", "probe": "p", "scale": "C", "by": "AB", \
               "rows": [["2026-03-02T08:00:00Z", 4.5]]} = bad-value: rows
        08:00  log p 7200  -273.15 1000
        10:00  ? conditions main 08:00 10:00 = unmonitored 7200; -5463/20 to 1000; excursions 2
    )");
}

TEST_CASE("quantities: a range or a band with low above high is refused", "[scenarios]") {
    scenario(R"(
        08:00  ! place main 8 2             = contradiction: range
        08:00  ! place main 2C/46F 8C/36F   = contradiction: range
        08:00  ! place main 5C 40F          = contradiction: range     # 40 °F is 4.44 °C
        08:00  ! product flu 2 8 allow 10 9 60 = contradiction: band
        08:00  place main 5C 41F            # 41 °F is 5 °C
        08:00  log p 60  5 5
        08:01  ? conditions main 08:00 08:01 = logged 60; 5 to 5; mean 5; kinetic 5.000000; excursions 0
    )");
}

TEST_CASE("quantities: doses are whole numbers from 1, to a thousand million", "[scenarios]") {
    scenario(R"(
        08:00  ! receive main flu A1 0      = bad-value: doses
        08:00  ! receive main flu A1 -1     = bad-value: doses
        08:00  ! receive main flu A1 1000000001 = bad-value: doses
        08:00  receive main flu A1 1000000000
        08:00  ? accounts                   = supplier -1000000000, on hand 1000000000
    )");
}

TEST_CASE("quantities: every movement leaves one account for another", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 100
        08:00  receive main flu B2 50
        09:00  move flu A1 10 main > spare
        09:00  give main flu A1 1 P1
        09:00  waste main flu A1 2
        09:00  return main flu B2 3
        09:00  transfer main flu B2 4
        09:00  count main flu A1 80         # 87 on the books: 7 lost
        09:00  count main flu B2 45         # 43 on the books: 2 found
        # -150 + 1 + 2 + 3 + 4 + (7 - 2) + (80 + 10 + 45) = 0
        09:00  ? accounts  = supplier -150, patient 1, wasted 2, returned 3, transferred 4, variance 5, on hand 135
        08:59  ? accounts                   = supplier -150, on hand 150
        07:59  ? accounts                   = supplier 0
    )");
}

TEST_CASE("quantities: things must be defined before they are named", "[scenarios]") {
    scenario(R"(
        08:00  ! receive cellar flu A1 10   = not-defined: cellar
        08:00  ! receive main mmr A1 10     = not-defined: mmr
        08:00  ! receive main flu C3 10     = not-defined: C3
        08:00  ! assign z main              = not-defined: z
        08:00  ! check cellar 5             = not-defined: cellar
        08:00  ! log z 60 5                 = not-defined: z
        08:00  ! lot mmr A1 2026-12-31      = not-defined: mmr
    )");
}

TEST_CASE("quantities: of several definitions the last holds, for the whole timeline; a voided one gives way",
          "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9
        08:10  ? warm main flu A1           = 600 600 600, 600 Cs, open 600
        09:00  product flu 2 8.5            as NEW
        08:10  ? warm main flu A1           = 600 600 600, 300 Cs, open 600
        09:30  void NEW
        08:10  ? warm main flu A1           = 600 600 600, 600 Cs, open 600
    )");
}

TEST_CASE("quantities: half of a batch is never posted", "[scenarios]") {
    scenario(R"(
        08:00  ! log p 600  5 5 1001        = bad-value: 1001
        08:00  receive main flu A1 10
        08:20  ? coverage main flu A1       = unmonitored 1200, open 1200
    )");
}
