// The three lists.
#include <catch2/catch.hpp>

#include "site.hpp"

using scenarios::scenario;

TEST_CASE("lists: an expiry is usable through the end of its day in the site's zone", "[scenarios]") {
    scenario(R"(
        00:00  site zone America/New_York unmonitored 1000000000
        00:00  lot flu X 2026-03-03
        08:00  receive main flu X 10
        03-04T04:59:59 ? lists main flu X   = keep               # 23:59:59 of 3 March in New York
        03-04T05:00    ? lists main flu X   = discard: expired
    )");
}

TEST_CASE("lists: a month without a day means its last day", "[scenarios]") {
    scenario(R"(
        00:00  site unmonitored 1000000000
        00:00  lot flu FEB 2028-02
        08:00  receive main flu FEB 10
        08:00  ? stock                      = main flu FEB: 10, expiry 2028-02-29
        2028-02-29T23:59:59 ? lists main flu FEB = keep
        2028-03-01T00:00    ? lists main flu FEB = discard: expired
    )");
}

TEST_CASE("lists: a day ends at the first instant of the next that exists, at the earlier where it occurs twice",
          "[scenarios]") {
    // Beirut went from 26 March 2022 23:59:59 to 27 March 01:00 (+02:00 to +03:00): 22:00 UTC.
    // Havana went back from 6 November 2022 01:00 to 00:00 (-04:00 to -05:00): midnight first at 04:00 UTC.
    scenario(R"(
        00:00  site zone Asia/Beirut unmonitored 1000000000
        00:00  lot flu X 2022-03-26
        2022-03-01T00:00 receive main flu X 10
        2022-03-26T21:59:59 ? lists main flu X = keep
        2022-03-26T22:00    ? lists main flu X = discard: expired
    )");
    scenario(R"(
        00:00  site zone America/Havana unmonitored 1000000000
        00:00  lot flu X 2022-11-05
        2022-03-01T00:00 receive main flu X 10
        2022-11-06T03:59:59 ? lists main flu X = keep
        2022-11-06T04:00    ? lists main flu X = discard: expired
    )");
}

TEST_CASE("lists: exposure alone never discards", "[scenarios]") {
    scenario(R"(
        00:00  product pf 2 8 freeze -0.5
        00:00  lot pf A1 2026-12-31
        08:00  receive main pf A1 10
        08:00  log p 3600  60 60 -40 -40
        11:00  ? lists main pf A1           = quarantine-pending-guidance: warm, cold, frozen, point
    )");
}

TEST_CASE("lists: warm and cold are out-of-range time in no allowance", "[scenarios]") {
    scenario(R"(
        00:00  product al 2 8 allow 8 10 1000
        00:00  lot al A1 2026-12-31
        08:00  receive main al A1 10
        08:00  log p 500  9 9 9 9
        08:08:20 ? lists main al A1         = keep
        08:16:40 ? lists main al A1         = keep               # 1000 s of 1000
        08:16:41 ? lists main al A1         = quarantine-pending-guidance: over-allowance
        08:16:41 ? beyond main al A1        = warm 0, open 0; cold 0, open 0
    )");
}

TEST_CASE("lists: after a clearing one more second in an exhausted allowance is over again", "[scenarios]") {
    scenario(R"(
        00:00  product al 2 8 allow 8 10 1000
        00:00  lot al A1 2026-12-31
        08:00  receive main al A1 10
        08:00  log p 1500  9 9 9
        08:25  guidance al A1 use
        08:25  ? lists main al A1           = keep
        08:25:01 ? lists main al A1         = quarantine-pending-guidance: over-allowance
    )");
}

TEST_CASE("lists: unmonitored time up to the site's limit is let pass", "[scenarios]") {
    scenario(R"(
        00:00  site unmonitored 3600
        08:00  receive main flu A1 10
        09:00  log p 60  5
        09:00  ? lists main flu A1          = keep
        07:59:59 receive main flu B2 10
        09:00  ? lists main flu B2          = quarantine-pending-guidance: unmonitored
    )");
}

TEST_CASE("lists: reasons of discard come before those of quarantine, each once", "[scenarios]") {
    scenario(R"(
        00:00  product pf 2 8 freeze -0.5 allow 8 9 1
        00:00  lot pf A1 2026-03-02
        00:00  receive main pf A1 10
        08:00  log p 3600  12 12 -1 -1
        10:00  hold pf
        10:00  guidance pf A1 discard
        10:00  guidance pf A1 discard
        10:00  beyond-use main pf A1 until 10:00
        03-03T00:00 ? lists main pf A1 = discard: expired, condemned, warm, cold, frozen, over-allowance, point, \
                                         unmonitored, held
    )");
}

TEST_CASE("lists: only holdings with doses are listed, ordered by place, product, lot, fund, mark", "[scenarios]") {
    scenario(R"(
        00:00  site unmonitored 1000000
        00:00  product Zoster 2 8
        00:00  lot Zoster A1 2026-12-31
        08:00  receive spare flu A1 1
        08:00  receive main:b flu A1 1
        08:00  receive main flu A1 1 fund state
        08:00  receive main:a flu A1 1
        08:00  receive main flu B2 1
        08:00  receive main Zoster A1 1
        08:00  receive counter flu A1 1
        08:00  give counter flu A1 1 P1
        08:00  ? lists                      = main Zoster A1: keep       # as bytes: capitals first
                                            = main:a flu A1: keep
                                            = main:b flu A1: keep
                                            = main flu A1 fund state: keep
                                            = main flu B2: keep
                                            = spare flu A1: keep
    )");
}

TEST_CASE("lists: notes tell of allowances, guidance, tolerance, certificates, awaited data and a near expiry",
          "[scenarios]") {
    scenario(R"(
        00:00  product al 2 8 allow 8 10 7200
        00:00  lot al A1 2026-03-20
        00:00  certificate p 2026-03-01 tolerance 0.5
        08:00  receive main al A1 10
        08:00  log p 1500  9 9
        08:25  guidance al A1 use           as G
        08:30  ? notes main al A1           = OUT OF RANGE WHEN LAST READ: main was 9 °C at 2026-03-02 08:25, \
                                              nothing was read in the 5 min since, and no figure counts that time: \
                                              read it now
                                            = allowance 1: 25 min used, 1 h 35 min left
                                            = guidance of entry 20 (use): maker, M-1
                                            = the last that was read in main is out of range, 9 °C at 2026-03-02 08:25
                                            = no readings yet for the last 5 min
                                            = readings of main without a valid certificate: probe p: \
                                              certificate expired, 2026-03-02 08:00 to 2026-03-02 08:30
                                            = expires on 2026-03-20
    )");
    scenario(R"(
        00:00  certificate p 2027-01-01 tolerance 0.5
        08:00  receive main flu A1 10
        08:00  log p 600  7.6 7.6
        08:10  ? notes main flu A1          = MAY HAVE BEEN OUT OF RANGE: too warm for at most 10 min by the values \
                                              around it, none by the estimate, which alone decides the list
                                            = within the probe's tolerance: too warm for at most 10 min
    )");
    // from 5 to 9 in four hours: above 8 for the last of them by the estimate, and for all of them at most
    scenario(R"(
        00:00  product al 2 8 allow 8 10 7200
        00:00  lot al A1 2026-12-31
        00:00  certificate p 2027-01-01
        08:00  check main 5
        08:00  receive main al A1 10
        12:00  check main 9
        12:00  ? notes main al A1           = MAY BE OVER ITS ALLOWANCE: too warm for at most 4 h by the values \
                                              around it, 1 h by the estimate, which alone decides the list; \
                                              allowance 1 permits 2 h
                                            = allowance 1: 1 h used, 1 h left
                                            = out of range at most 4 h: it may have been more than allowance 1 allows
                                            = the last that was read in main is out of range, 9 °C at 2026-03-02 12:00
                                            = nothing is known between plain checks, 4 h in all
    )");
}

TEST_CASE("lists: what the first of the lots in a place went through is looked back to", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5 9 5
        18:00  receive main flu B2 10
        18:00  log p 600  5 5
        18:10  ? warm main flu A1           = 0 300 1200, 150 Cs, open 300
        18:10  ? warm main flu B2           = 0 0 0, 0 Cs, open 0
        18:10  ? lists                      = main flu A1: quarantine-pending-guidance: warm, point, unmonitored
                                            = main flu B2: keep
    )");
}
