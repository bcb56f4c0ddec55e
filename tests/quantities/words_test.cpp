// Durations and local days as people meet them.
#include <catch2/catch.hpp>

#include "coldtally/quantities.hpp"

using namespace coldtally;

TEST_CASE("durations are rounded away from false comfort") {
    CHECK(duration_words(Rational(0), true) == "0 s");
    CHECK(duration_words(Rational(1, 1000), true) == "1 s");
    CHECK(duration_words(Rational(1, 1000), false) == "0 s");
    CHECK(duration_words(Rational(45), true) == "45 s");
    CHECK(duration_words(Rational(320), true) == "5 min 20 s");
    CHECK(duration_words(Rational(12000), true) == "3 h 20 min");
    CHECK(duration_words(Rational(12001), true) == "3 h 21 min");
    CHECK(duration_words(Rational(12059), false) == "3 h 20 min");
    CHECK(duration_words(Rational(2 * 86400 + 4 * 3600), true) == "2 d 4 h");
    CHECK(duration_words(Rational(3599) + Rational(1, 2), true) == "1 h");
}

TEST_CASE("days end where the clock of the zone ends them") {
    // computed with Python's zoneinfo (tzdata 2025b): the first instant of the next local day
    CHECK(Zone("America/New_York").end_of_day({2026, 3, 7}).text() == "2026-03-08T05:00:00Z");
    CHECK(Zone("America/New_York").end_of_day({2026, 3, 8}).text() == "2026-03-09T04:00:00Z");
    CHECK(Zone("America/Havana").end_of_day({2026, 3, 7}).text() == "2026-03-08T05:00:00Z");    // midnight is skipped
    CHECK(Zone("America/Havana").end_of_day({2025, 11, 1}).text() ==
          "2025-11-02T04:00:00Z");  // midnight comes before the repeated hour
    CHECK(Zone("Australia/Lord_Howe").end_of_day({2026, 4, 5}).text() == "2026-04-05T13:30:00Z");
    CHECK(Zone("America/New_York").end_of_day({2050, 6, 30}).text() ==
          "2050-07-01T04:00:00Z");  // after the changes a zone file lists
    CHECK(Zone("America/New_York").end_of_day({2199, 12, 31}).text() == "2200-01-01T05:00:00Z");
    CHECK_THROWS(Zone("Mars/Base"));
    CHECK_THROWS(Zone("../../etc/passwd"));
    CHECK_THROWS(Zone("America"));
    CHECK_THROWS(Zone("zone.tab"));
}
