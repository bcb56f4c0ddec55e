// What was known on an instant, and how things stood at one.
#include <catch2/catch.hpp>

#include "site.hpp"

using scenarios::scenario;

TEST_CASE("known-on: entries recorded later are not seen", "[scenarios]") {
    scenario(R"(
        08:00  recorded
        08:00  receive main flu A1 10
        09:00  recorded
        08:30  give main flu A1 1 P1
        09:00  ? stock main flu A1                       = 9
        09:00  ? known 08:59:59 stock main flu A1        = 10
        09:00  ? known 09:00 stock main flu A1           = 9
        08:29  ? known 09:00 stock main flu A1           = 10
    )");
}

TEST_CASE("known-on: before the first entry nothing can be asked", "[scenarios]") {
    scenario(R"(
        08:00  recorded
        08:00  receive main flu A1 10
        09:00  ? known 07:59:59 stock                    = refused: not-known
        07:00  ? known 08:00 stock                       = none
    )");
}

TEST_CASE("known-on: readings that come late change what was so, not what was known", "[scenarios]") {
    scenario(R"(
        08:00  recorded
        08:00  receive main flu A1 10
        08:00  log p 600  5
        12:00  recorded
        08:00  log p 600  5 9 5
        12:00  ? known 11:00 coverage main flu A1        = awaiting 14400
        12:00  ? known 11:00 lists main flu A1           = keep
        12:00  ? coverage main flu A1                    = logged 1200, awaiting 13200
        12:00  ? lists main flu A1                       = quarantine-pending-guidance: warm, point
    )");
}

TEST_CASE("known-on: a void is not known before it is recorded", "[scenarios]") {
    scenario(R"(
        08:00  recorded
        08:00  receive main flu A1 10
        08:00  waste main flu A1 4                       as W
        09:00  recorded
        09:00  void W
        09:00  ? stock main flu A1                       = 10
        09:00  ? known 08:30 stock main flu A1           = 6
    )");
}

TEST_CASE("known-on: of several definitions the last known holds, for the whole timeline", "[scenarios]") {
    scenario(R"(
        08:10  recorded
        08:00  receive main flu A1 10
        08:00  log p 600  9 9
        09:00  recorded
        09:00  product flu 2 10
        09:00  ? known 08:30 warm main flu A1            = 600 600 600, 600 Cs, open 600
        08:10  ? known 09:00 warm main flu A1            = 0 0 0, 0 Cs, open 0
        08:10  ? known 08:59 lists main flu A1           = quarantine-pending-guidance: warm, point
        09:00  lot flu A1 2026-03-01
        08:10  ? lists main flu A1                       = discard: expired
        08:10  ? known 08:59 stock                       = main flu A1: 10, expiry 2026-12-31
    )");
}

TEST_CASE("known-on: days end in the zone of the site entry that was known", "[scenarios]") {
    scenario(R"(
        00:00  recorded
        00:00  site unmonitored 1000000
        00:00  lot flu X 2026-03-02
        00:00  receive main flu X 10
        01:00  recorded
        01:00  site zone Pacific/Auckland unmonitored 1000000                # 2 March ends there at 11:00 UTC
        12:00  ? known 00:30 lists main flu X            = keep
        12:00  ? known 01:00 lists main flu X            = discard: expired
        10:59:59 ? known 01:00 lists main flu X          = keep
        11:00  ? known 01:00 lists main flu X            = discard: expired
    )");
}

TEST_CASE("known-on: guidance acts at its through once it is known", "[scenarios]") {
    scenario(R"(
        08:20  recorded
        08:00  receive main flu A1 10
        08:00  log p 600  9 9 5
        10:00  recorded
        10:00  guidance flu A1 use through 08:20
        08:20  ? known 09:00 lists main flu A1           = quarantine-pending-guidance: warm, point
        08:20  ? known 10:00 lists main flu A1           = keep
    )");
}

TEST_CASE("known-on: nothing happens after it was recorded", "[scenarios]") {
    scenario(R"(
        08:00  recorded
        08:00  receive main flu A1 10
        08:00:01 ! waste main flu A1 1                   = too-late: at
        08:00:01 ! log p 600  5                          = too-late
        08:00  waste main flu A1 1
        08:00  ? stock main flu A1                       = 9
    )");
}
