// The trace of a place: what is known of its temperature, and from what.
#include <catch2/catch.hpp>

#include <string>

#include "ledger/blocks.hpp"
#include "site.hpp"

using namespace coldtally;
using scenarios::scenario;

TEST_CASE("trace: two readings are joined up to max_gap_s apart, an hour where the place says nothing", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  receive spare flu A1 10
        08:00  log p 3600  5 5              # an hour
        08:00  log q 3601  5 5              # and a second
        10:00  ? coverage main flu A1       = logged 3600, awaiting 3600
        10:00  ? coverage spare flu A1      = awaiting 3599, unmonitored 3601, open 3601
        10:00  place main 2C/36F 8C/46F gap 3599
        10:00  place spare 2C/36F 8C/46F gap 3601
        10:00  ? coverage main flu A1       = awaiting 3600, unmonitored 3600, open 3600
        10:00  ? coverage spare flu A1      = logged 3601, awaiting 3599
    )");
}

TEST_CASE("trace: two checks are joined up to max_check_gap_s apart, 18 hours where the place says nothing",
          "[scenarios]") {
    scenario(R"(
        14:00  receive main flu A1 10
        14:00  receive spare flu A1 10
        14:00  check main 5
        14:00  check spare 5
        03-03T08:00     check main 5        # 18 hours
        03-03T08:00:01  check spare 5       # and a second
        03-03T08:00:01 ? coverage main flu A1  = checked 64800, awaiting 1
        03-03T08:00:01 ? coverage spare flu A1 = unmonitored 64801, open 64801
        14:00  place main 2C/36F 8C/46F checkgap 64799
        14:00  place spare 2C/36F 8C/46F checkgap 64801
        03-03T08:00:01 ? coverage main flu A1  = awaiting 1, unmonitored 64800, open 64800
        03-03T08:00:01 ? coverage spare flu A1 = checked 64801
    )");
}

TEST_CASE("trace: two bare checks do not make a weekend in range", "[scenarios]") {
    scenario(R"(
        03-06T16:30  receive main flu A1 10      # a Friday
        03-06T16:30  check main 5
        03-09T08:00  check main 5                # the Monday after: 63 h 30 min
        03-09T08:00  ? lists main flu A1         = quarantine-pending-guidance: unmonitored
        03-09T08:00  ? coverage main flu A1      = unmonitored 228600, open 228600
        03-09T08:00  place main 2C/36F 8C/46F near usual
        03-09T08:00  ? coverage main flu A1      = near 3600, unmonitored 225000, open 225000
    )");
}

TEST_CASE(
    "trace: near is from near_s before a check in range to near_s after it, 30 minutes where the place says nothing",
    "[scenarios]") {
    scenario(R"(
        07:00  place main 2C/36F 8C/46F near usual
        08:00  receive main flu A1 10            # the first check five minutes later
        08:05  check main 5
        08:05  ? coverage main flu A1            = near 300
        08:05  ? lists main flu A1               = keep
        09:00  ? coverage main flu A1            = near 2100, awaiting 1500
        07:34:59  receive main flu B2 10         # 30 minutes and a second before it
        08:05  ? coverage main flu B2            = near 1800, unmonitored 1, open 1
        08:05  ? lists main flu B2               = quarantine-pending-guidance: unmonitored
    )");
}

TEST_CASE("trace: doses that leave seconds after the last check are no reason for quarantine", "[scenarios]") {
    scenario(R"(
        07:00  place main 2C/36F 8C/46F near 60
        08:00  receive main flu A1 10
        08:00  check main 5
        09:00  check main 5
        09:00:01  move flu A1 10 main > spare    # near is not that of the place they go to
        09:00:01  check spare 5
        03-04T09:00  check spare 5 min 4 max 6
        03-04T09:00  ? coverage spare flu A1     = bounded 172799, checked 3600, near 1
        03-04T09:00  ? lists spare flu A1        = keep
    )");
}

TEST_CASE("trace: near ends before its last second, and with near_s 0 it is nowhere", "[scenarios]") {
    scenario(R"(
        07:00  place main 2C/36F 8C/46F near 60 gap 300
        08:00  receive main flu A1 10
        08:00  log p 600  5 5                    # ten minutes apart: not joined
        08:10  ? coverage main flu A1            = near 120, unmonitored 480, open 480
        07:00  place main 2C/36F 8C/46F gap 300
        08:10  ? coverage main flu A1            = unmonitored 600, open 600
        07:00  place main 2C/36F 8C/46F gap 300 near 300
        08:10  ? coverage main flu A1            = near 600
    )");
}

TEST_CASE("trace: what is out of the place's range makes nothing near, and takes nothing away", "[scenarios]") {
    scenario(R"(
        07:00  place main 2C/36F 8C/46F near 60
        08:00  receive main flu A1 10
        08:01  check main 8                      # the limit is in range
        08:01:30  log p 600  8.001               # out of range
        03-04T08:00  check main 1.9
        03-04T08:00  ? coverage main flu A1      = near 120, unmonitored 172680, open 172680
        03-04T08:00  log f 600  47               # a probe that is nowhere says nothing
        03-04T08:00  ? coverage main flu A1      = near 120, unmonitored 172680, open 172680
    )");
}

TEST_CASE(
    "trace: a check of min and max is near by its temperature alone, as corrected; of two at one instant the later "
    "number",
    "[scenarios]") {
    scenario(R"(
        07:00  place main 2C/36F 8C/46F near 60
        07:00  place spare 2C/36F 8C/46F near 60
        01-02T00:00  certificate p 2026-12-31 tolerance 1 correct 0:-0.5
        08:00  receive main flu A1 10
        08:00  receive spare flu A1 10
        08:01  check main 8.5 min 2 max 12 probe p   # 8 as corrected: the tolerance does not apply
        08:01  check spare 5
        08:01  check spare 9                     # holds
        08:01  ? coverage main flu A1            = near 60
        08:01  ? coverage spare flu A1           = unmonitored 60, open 60
    )");
}

TEST_CASE("trace: near comes before awaiting and after what is measured, also beyond the assignment of its probe",
          "[scenarios]") {
    scenario(R"(
        07:00  place main 2C/36F 8C/46F near 600
        08:00  receive main flu A1 10
        08:00  log p 600  5 5
        08:10:01  assign p -
        08:30  ? coverage main flu A1            = logged 600, near 600, awaiting 600
        08:10:02  check main 9
        08:30  ? coverage main flu A1            = logged 600, near 600, awaiting 600
    )");
}

TEST_CASE("trace: near is judged by the place's range in the reading's own scale, not the product's", "[scenarios]") {
    scenario(R"(
        07:00  place main 2C/36F 8C/46F near 60
        07:00  product cool 3C/37F 5C/41F
        07:00  lot cool K 2026-12-31
        08:00  receive main cool K 10
        08:01  check main 46F                    # 7.8 °C: out of the product's range, in the place's
        08:01  ? coverage main cool K            = near 60
        08:02  check main 46.1F                  # 7.83 °C, and out of the place's: the sheet is in °F
        08:03  ? coverage main cool K            = checked 60, near 60, awaiting 60
    )");
}

TEST_CASE("trace: minimum and maximum bound the time since the check before, whatever its length", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  check main 5
        04-01T08:00  check main 5 min 3 max 7
        04-01T08:00  ? coverage main flu A1 = bounded 2592000
        04-01T08:00  ? extremes main flu A1 = 3 to 7
        04-01T08:00  ? lists main flu A1    = keep
    )");
}

TEST_CASE("trace: the minimum and maximum of a place's first check are not used", "[scenarios]") {
    scenario(R"(
        07:00  receive main flu A1 10
        08:00  check main 5 min -20 max 40
        08:00  ? history main flu A1        = unmonitored 3600, open 3600; 5 to 5; in main
    )");
}

TEST_CASE("trace: logged comes before bounded, bounded before checked", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  check main 5
        08:00  log p 600  5 5
        08:20  check main 5 min 1 max 9
        08:30  check main 5
        08:30  ? coverage main flu A1       = logged 600, bounded 600, checked 600
    )");
}

TEST_CASE("trace: awaiting lasts up to stale_after_s, a day where the site says nothing", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5 5
        03-03T08:10     ? coverage main flu A1 = logged 600, awaiting 86400
        03-03T08:10     ? lists main flu A1    = keep
        03-03T08:10:01  ? coverage main flu A1 = logged 600, unmonitored 86401, open 86401
        03-03T08:10:01  ? lists main flu A1    = quarantine-pending-guidance: unmonitored
        00:00  site stale 60
        08:11     ? coverage main flu A1       = logged 600, awaiting 60
        08:11:01  ? coverage main flu A1       = logged 600, unmonitored 61, open 61
    )");
}

TEST_CASE("trace: nothing is awaited where a later reading is known", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 14400  5 5             # four hours apart: nothing known between
        09:00  ? coverage main flu A1       = unmonitored 3600, open 3600
        12:00  ? coverage main flu A1       = unmonitored 14400, open 14400
        13:00  ? coverage main flu A1       = awaiting 3600, unmonitored 14400, open 14400
    )");
}

TEST_CASE("trace: a check ends what is awaited as a reading does", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5
        09:00  check main 5
        10:00  ? coverage main flu A1       = awaiting 3600, unmonitored 3600, open 3600
    )");
}

TEST_CASE("trace: awaiting is judged by the instant of the question, also at a give", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5
        09:00  give main flu A1 1 P1
        10:00           ? given P1 coverage    = awaiting 3600
        10:00           ? review all           = P1 clear
        03-03T08:00     ? review all           = P1 clear
        03-03T08:00:01  ? given P1 coverage    = unmonitored 3600, open 3600
        03-03T08:00:01  ? review               = P1 pending guidance: unmonitored
    )");
}

TEST_CASE("trace: parts are known from readings and checks after the instant asked about, too", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  7 11
        08:05  ? warm main flu A1           = 0 150 300, 75 Cs, open 150
        08:05  ? coverage main flu A1       = logged 300
    )");
}

TEST_CASE("trace: a reading counts where its probe is assigned at that instant", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  receive spare flu A1 10
        08:00  log p 600  5 5 5 5
        08:10  assign p spare               # the reading of 08:10 is spare's, and ends main's
        08:30  ? extremes main flu A1       = 5 to 5
        08:30  ? coverage main flu A1       = awaiting 1800       # one reading, at 08:00, and none to join it with
        08:30  ? coverage spare flu A1      = logged 1200, unmonitored 600, open 600
    )");
}

TEST_CASE("trace: assigning a probe ends that of the place's former probe", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5 5 5 5
        08:00  log q 600  6 6 6 6
        08:10  assign q main                # p goes out, q was in spare: 5 at 08:00, then 6 6 6
        08:30  ? history main flu A1        = logged 1200, unmonitored 600, open 600; 5 to 6; in main
    )");
}

TEST_CASE("trace: a probe that is taken out counts nowhere", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5 5 12 12
        08:15  assign p -
        08:30  ? history main flu A1        = logged 600, awaiting 1200; 5 to 5; in main
    )");
}

TEST_CASE("trace: a probe that was never assigned counts nowhere", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log f 600  60 60
        08:10  ? history main flu A1        = unmonitored 600, open 600; nothing known; in main
    )");
}

TEST_CASE("trace: assigning a probe to the place where it is changes nothing", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5 5
        08:05  assign p main
        08:10  ? coverage main flu A1       = logged 600
    )");
}

TEST_CASE("trace: out and back in one instant is a break", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5 5
        08:05  assign p -
        08:05  assign p main
        08:10  ? coverage main flu A1       = unmonitored 600, open 600
    )");
}

TEST_CASE("trace: an assignment of no length ends what it follows", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5 5 5
        08:05  assign q main                # p goes out, and q with it
        08:05  assign q -
        08:20  ? coverage main flu A1       = awaiting 1200
    )");
}

TEST_CASE("trace: readings of two probes are not joined", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5
        08:05  assign q main
        08:10  log q 600  5
        08:10  ? coverage main flu A1       = unmonitored 600, open 600
    )");
}

TEST_CASE("trace: a certificate's correction is linear between its rows and constant beyond", "[scenarios]") {
    scenario(R"(
        00:00  certificate p 2027-01-01 correct 0:0.5 10:-0.5
        08:00  receive main flu A1 10
        08:00  log p 7200  4 12 -1 0 10     # 4 + 0.1; 12 - 0.5; -1 + 0.5; 0 + 0.5; 10 - 0.5
        08:00  ? extremes main flu A1       = 41/10 to 41/10
        10:00  ? extremes main flu A1       = 41/10 to 23/2
        12:00  ? extremes main flu A1       = -1/2 to 23/2
        16:00  ? points main flu A1         = 4, open 4      # 11.5, -0.5, 0.5, 9.5
    )");
}

TEST_CASE("trace: a corrected reading is rounded to a thousandth, halves away from zero", "[scenarios]") {
    scenario(R"(
        00:00  certificate p 2027-01-01 correct 0:0.5 10:-0.5
        08:00  receive main flu A1 10
        08:00  log p 60  4.005              # 0.5 - 0.4005 = 0.0995; 4.1045, to 4.105
        08:00  ? extremes main flu A1       = 821/200 to 821/200
    )");
    scenario(R"(
        00:00  certificate p 2027-01-01 correct -10:0.5 0:-0.5
        08:00  receive main flu A1 10
        08:00  log p 60  -4.005             # 0.5 - 0.5995 = -0.0995; -4.1045, to -4.105
        08:00  ? extremes main flu A1       = -821/200 to -821/200
    )");
}

TEST_CASE("trace: a certificate holds from its instant until the next", "[scenarios]") {
    scenario(R"(
        08:10  certificate p 2027-01-01 correct 0:1
        08:30  certificate p 2027-01-01     # no correction
        08:00  receive main flu A1 10
        08:00  log p 600  5 5 5 5           # 5, 6, 6, 5
        08:00  ? extremes main flu A1       = 5 to 5
        08:10  ? extremes main flu A1       = 5 to 6
        08:30  ? extremes main flu A1       = 5 to 6
        08:25  receive main flu B2 10       # half way down from 6 to 5
        08:30  ? extremes main flu B2       = 5 to 11/2
    )");
}

TEST_CASE("trace: of two certificates of one instant the later posted holds", "[scenarios]") {
    scenario(R"(
        07:00  certificate p 2027-01-01 correct 0:1
        07:00  certificate p 2027-01-01 correct 0:2
        08:00  receive main flu A1 10
        08:00  log p 600  5
        08:00  ? extremes main flu A1       = 7 to 7
    )");
}

TEST_CASE("trace: a correction that would turn the order of temperatures round is refused", "[scenarios]") {
    scenario(R"(
        07:00  ! certificate p 2027-01-01 correct 0:0 10:-10.001   = contradiction: correction
        07:00  ! certificate p 2027-01-01 correct 5:0 5:0          = contradiction: correction
        07:00  certificate p 2027-01-01 correct 0:0 10:-10         # level is allowed: everything from 0 to 10 is 0
        08:00  receive main flu A1 10
        08:00  log p 600  9
        08:00  ? extremes main flu A1       = 0 to 0
    )");
}

TEST_CASE("trace: a check read from a probe has its correction and tolerance in all three numbers", "[scenarios]") {
    scenario(R"(
        00:00  certificate p 2027-01-01 tolerance 0.3 correct 0:1
        08:00  receive main flu A1 10
        08:00  check main 4
        08:10  check main 4 min 3 max 6.8 probe p          # 5, 4 to 7.8: not above 8, but above 8 - 0.3
        08:10  ? history main flu A1        = bounded 600; warm 0 0 600, 0 Cs, open 0; 4 to 39/5; in main
    )");
}

TEST_CASE("trace: of two checks of a place at one instant the later number holds", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  check main 4
        08:10  check main 5 min 1 max 13
        08:10  check main 12                # no extremes: a line from 4 to 12, past 8 half way
        08:10  ? history main flu A1        = checked 600; warm 0 300 600, 600 Cs, open 300; \
                                              beyond warm 300, open 300; cold 0, open 0; points 1, open 1; 4 to 12; \
                                              in main
    )");
}

TEST_CASE("trace: equal readings of one instant count once, unequal ones are refused", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  9 9
        08:00  log p 600  9.0 9 9           # the same, and one more
        08:20  ? points main flu A1         = 3, open 3
        08:10  ! log p 600  9.1             = readings-differ: 08:10:00
        08:30  ! json {"kind": "readings", "probe": "p", "scale": "C", "by": "AB", \
               "rows": [["2026-03-02T08:30:00Z", "5"], ["2026-03-02T08:30:00Z", "6"]]} = readings-differ: 08:30:00
    )");
}

TEST_CASE("trace: a reading may be set right once the batch that holds it is voided", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  50 50             as WRONG
        08:20  void WRONG
        08:00  log p 600  5 5
        08:10  ? history main flu A1        = logged 600; 5 to 5; in main
    )");
}

TEST_CASE("trace: the rows of a batch may come in any order", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  json {"kind": "readings", "probe": "p", "scale": "C", "by": "AB", \
               "rows": [["2026-03-02T08:20:00Z", "7"], ["2026-03-02T08:00:00Z", "5"], ["2026-03-02T08:10:00Z", "6"]]}
        08:20  ? history main flu A1        = logged 1200; 5 to 7; in main
    )");
}

TEST_CASE("trace: readings and checks in another scale than their probe's are refused", "[scenarios]") {
    scenario(R"(
        08:00  ! json {"kind": "readings", "probe": "p", "scale": "F", "by": "AB", \
               "rows": [["2026-03-02T08:00:00Z", "41"]]} = wrong-scale: scale
        08:00  ! check main 5 probe f       = wrong-scale: scale
        08:00  check main 41F probe f
        08:00  ! probe p F                  = wrong-scale: scale
    )");
}

TEST_CASE("trace: a pair of checks of which the later is a second after the logger's last reading", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  check main 5
        08:00  log p 600  5 5
        08:10:01  check main 5
        09:00  check main 5 min 4 max 6
        09:00  ? coverage main flu A1       = logged 600, bounded 2999, checked 1
    )");
}

TEST_CASE("trace: batches that overlap one that began long before", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5 5 5 5 5 5 5
        08:05  log p 600  5
        08:35  log p 600  9                 # 5, 9, 5 in 300 s each: above 8 for 75 s before it and 75 s after
        09:00  ? coverage main flu A1       = logged 3600
        09:00  ? warm main flu A1           = 0 150 600, 75 Cs, open 150
    )");
}

TEST_CASE("trace: overlapping batches that fill a block of the file to its last reading, and by one more",
          "[scenarios]") {
    for (const std::size_t all : {ledger::readings_per_block, ledger::readings_per_block + 1}) {
        std::string table =
            "08:00  receive main flu A1 10\n08:00:01  log p 1  5\n08:00  log p 2 ";  // one between the others
        for (std::size_t i = 0; i + 2 < all; ++i) table += " 5";
        table += " 7\n12:00  ? extremes main flu A1       = 5 to 7\n12:00  ? points main flu A1         = 0, open 0\n";
        scenario(table);
    }
}

TEST_CASE("trace: the last reading of a batch, with which an assignment ends, is not the place's", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5 5 5
        08:20  assign p -
        08:20  ? coverage main flu A1       = logged 600, awaiting 600
    )");
}

TEST_CASE("trace: more batches than are kept decoded", "[scenarios]") {
    std::string table = "00:00  receive main flu A1 10\n";
    for (int i = 0; i < 140; ++i)
        table += std::string(i / 6 < 10 ? "0" : "") + std::to_string(i / 6) + ":" + std::to_string(i % 6) +
                 "0  log p 300  9 5\n";
    // 140 lines from 9 down to 5 and 139 up again, of 300 s each, a quarter of it above 8 by half a degree in the mean
    table +=
        "23:15  ? warm main flu A1         = 0 20925 83700, 20925/2 Cs, open 20925\n23:15  ? points main flu A1       "
        "= 140, open 140\n";
    scenario(table);
}

TEST_CASE("trace: a reading that ends one batch and begins the next counts once", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  log p 600  5 9
        08:10  log p 600  9 5
        08:20  ? points main flu A1         = 1, open 1
        08:20  ? coverage main flu A1       = logged 1200
    )");
}
