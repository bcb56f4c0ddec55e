// The rule at the end of a zone file, for forms that the system's zones do not use today; those that they use are
// compared with another reader of the same files in tests/reference.
#include <catch2/catch.hpp>

#include "coldtally/quantities.hpp"
#include "quantities/yearly_rule.hpp"

using namespace coldtally;

namespace {
std::int64_t utc(const char* text) { return parse_instant(text, Zone("UTC")).seconds_since_1970(); }
std::int64_t offset(const char* rule, const char* at) { return YearlyRule::parse(rule).value().offset_at(utc(at)); }
}  // namespace

TEST_CASE("yearly rule: the examples of RFC 8536, section 3.3.1", "[quantities]") {  // from memory
    // Greenland: from the Saturday before March's last Sunday at 22:00 to that before October's at 23:00, standard and
    // summer time
    const char* greenland = "WGT3WGST,M3.5.0/-2,M10.5.0/-1";
    CHECK(offset(greenland, "2040-03-25T00:59:59Z") == -3 * 3600);
    CHECK(offset(greenland, "2040-03-25T01:00:00Z") == -2 * 3600);
    CHECK(offset(greenland, "2040-10-28T00:59:59Z") == -2 * 3600);
    CHECK(offset(greenland, "2040-10-28T01:00:00Z") == -3 * 3600);
    // all the year summer
    for (const char* t : {"2040-01-01T04:59:59Z", "2040-01-01T05:00:00Z", "2040-07-01T00:00:00Z",
                          "2040-12-31T23:59:59Z", "2041-01-01T04:00:00Z"})
        CHECK(offset("EST5EDT,0/0,J365/25", t) == -4 * 3600);
}

TEST_CASE("yearly rule: days of the year, with and without 29 February", "[quantities]") {
    // J60 is 1 March in every year, day 59 (from 0) is 29 February in a leap year
    CHECK(offset("AAA0BBB,J60/0,J300/0", "2040-02-29T23:59:59Z") == 0);
    CHECK(offset("AAA0BBB,J60/0,J300/0", "2040-03-01T00:00:00Z") == 3600);
    CHECK(offset("AAA0BBB,J60/0,J300/0", "2041-03-01T00:00:00Z") == 3600);
    CHECK(offset("AAA0BBB,J60/0,J300/0", "2041-02-28T23:59:59Z") == 0);
    CHECK(offset("AAA0BBB,J59/0,J300/0", "2040-02-28T00:00:00Z") == 3600);
    CHECK(offset("AAA0BBB,J59/0,J300/0", "2040-02-27T23:59:59Z") == 0);
    CHECK(offset("AAA0BBB,59/0,300/0", "2040-02-29T00:00:00Z") == 3600);
    CHECK(offset("AAA0BBB,59/0,300/0", "2040-02-28T23:59:59Z") == 0);
    CHECK(offset("AAA0BBB,59/0,300/0", "2041-02-28T23:59:59Z") == 0);
    CHECK(offset("AAA0BBB,59/0,300/0", "2041-03-01T00:00:00Z") == 3600);
}

TEST_CASE("yearly rule: offsets", "[quantities]") {
    CHECK(offset("UTC0", "2040-01-01T00:00:00Z") == 0);
    CHECK(offset("<+0545>-5:45", "2040-01-01T00:00:00Z") == 5 * 3600 + 45 * 60);
    CHECK(offset("LMT+0:01:15", "2040-01-01T00:00:00Z") == -75);
    CHECK(offset("<+1030>-10:30<+11>-11,M10.1.0,M4.1.0", "2041-01-01T00:00:00Z") == 11 * 3600);
    CHECK(offset("<+1030>-10:30<+11>-11,M10.1.0,M4.1.0", "2041-07-01T00:00:00Z") == 10 * 3600 + 1800);
    // the fifth Sunday of a month that has four is its fourth: 22 February 2037; and 26 February 2040 is a fourth too
    CHECK(offset("AAA0BBB,M2.5.0/0,M10.5.0/0", "2037-02-22T00:00:00Z") == 3600);
    CHECK(offset("AAA0BBB,M2.5.0/0,M10.5.0/0", "2037-02-21T23:59:59Z") == 0);
    CHECK(offset("AAA0BBB,M2.4.0/0,M10.5.0/0", "2040-02-26T00:00:00Z") == 3600);
    CHECK(offset("AAA0BBB,M2.4.0/0,M10.5.0/0", "2040-02-25T23:59:59Z") == 0);
}

TEST_CASE("yearly rule: what is none", "[quantities]") {
    for (const char* text :
         {"", "UT0", "UTC", "UTC0BBB", "UTC168", "UTC0:60", "<+05-5", "AAA0BBB,M3.2.0", "AAA0BBB,M13.2.0,M11.1.0",
          "AAA0BBB,M3.6.0,M11.1.0", "AAA0BBB,M3.2.7,M11.1.0", "AAA0BBB,M3.2.0,M11.1.0x", "AAA0BBB,J0,J300",
          "AAA0BBB,J366,J300", "AAA0BBB,366,300", "AAA0BBB,M3.2.0/,M11.1.0", "AAA0BBB,M3.0.0,M11.1.0",
          "AAA0BBB,M0.1.0,M11.1.0", "AAA0BBB1M3.2.0,M11.1.0"}) {
        INFO(text);
        CHECK_FALSE(YearlyRule::parse(text));
    }
}
