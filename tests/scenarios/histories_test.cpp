// Histories: what doses take along, what joins them, and what takes them out.
#include <catch2/catch.hpp>

#include "site.hpp"

using scenarios::scenario;

TEST_CASE("histories: doses received come with nothing but the place", "[scenarios]") {
    scenario(R"(
        08:00  log p 600  12 5
        08:10  receive main flu A1 10
        08:10  ? history main flu A1        = no time; 5 to 5; in main
    )");
}

TEST_CASE("histories: a handover is what the doses come with, its places kept and the new one added", "[scenarios]") {
    scenario(R"(
        08:00  log p 600  9 9
        08:00  receive main flu A1 10 handover {"warm": {"at_least_s": "30", "estimate_s": "40", "at_most_s": "50", \
               "degree_Cs": "80", "open_s": "30"}, "beyond": {"warm_s": "40", "warm_open_s": "30"}, "points": 3, \
               "points_open": 1, "coverage": {"logged_s": "1000"}, "lowest_C": "3", "highest_C": "12", \
               "places": ["north/fridge 2"], "use_by": "2026-03-09T00:00:00Z"}
        08:10  ? history main flu A1        = logged 1600; warm 630 640 650, 680 Cs, open 630; \
                                              beyond warm 640, open 630; cold 0, open 0; points 5, open 3; 3 to 12; \
                                              in main north/fridge 2; use-by 03-09T00:00
    )");
}

TEST_CASE("histories: a handover's allowances equal the product's in number and seconds", "[scenarios]") {
    scenario(R"(
        00:00  product al 2 8 allow 8 10 1000
        00:00  lot al A1 2026-12-31
        08:00  ! receive main al A1 10 handover {}  = handover-differs: allowances
        08:00  ! receive main al A1 10 handover {"allowances": [{"seconds": 999, "used_s": "0", "open_s": "0"}]} \
               = handover-differs: allowances
        08:00  receive main al A1 10 handover {"allowances": [{"seconds": 1000, "used_s": "70", "open_s": "20"}]}
        08:00  ? allowances main al A1      = 70 of 1000, open 20
        08:00  ! product al 2 8 allow 8 10 2000  = handover-differs
        08:00  ! product al 2 8  = handover-differs
        08:00  product al 2 8 allow 8 12 1000       # another band, of the same seconds
    )");
}

TEST_CASE("histories: a handover that cannot be is refused", "[scenarios]") {
    scenario(R"(
        08:00  ! receive main flu A1 1 handover {"warm": {"at_least_s": "2", "estimate_s": "1", "at_most_s": "3"}} \
               = handover-differs: warm
        08:00  ! receive main flu A1 1 handover {"warm": {"estimate_s": "4", "at_most_s": "3"}} \
               = handover-differs: warm
        08:00  ! receive main flu A1 1 handover {"cold": {"estimate_s": "1", "at_most_s": "3", "open_s": "2"}} \
               = handover-differs: cold
        08:00  ! receive main flu A1 1 handover {"points": 1, "points_open": 2}  = handover-differs: points
        08:00  ! receive main flu A1 1 handover {"lowest_C": "5", "highest_C": "4"}  = handover-differs: lowest_C
        08:00  ! receive main flu A1 1 handover {"coverage": {"unmonitored_s": "1", "unmonitored_open_s": "2"}} \
               = handover-differs: unmonitored
        08:00  ! receive main flu A1 1 handover {"frozen": {"at_least_s": "-1"}}  = bad-value: at_least_s
        08:00  ! receive main flu A1 1 handover {"condemned_by": [3]}  = handover-differs: condemned_by
        08:00  ! receive main flu A1 1 handover {"held_by": [3]}  = handover-differs: held_by
        08:00  ! receive main flu A1 1 handover {"places": ["fridge"]}  = bad-value: places
    )");
}

TEST_CASE("histories: doses moved take a copy along, and the new place", "[scenarios]") {
    scenario(R"(
        00:00  log p 3600  5 5 5 5 5 5 5 5 5 5 5 5 5
        00:00  log q 3600  9 9 9 9 9 9 9 9 9 9 9 9 9
        08:00  receive main flu A1 10
        09:00  move flu A1 4 main > spare
        10:00  ? stock                      = main flu A1: 6, expiry 2026-12-31
                                            = spare flu A1: 4, expiry 2026-12-31
        10:00  ? history main flu A1        = logged 7200; 5 to 5; in main
        10:00  ? history spare flu A1       = logged 7200; warm 3600 3600 3600, 3600 Cs, open 3600; \
                                              beyond warm 3600, open 3600; cold 0, open 0; points 2, open 2; 5 to 9; \
                                              in main spare
    )");
}

TEST_CASE("histories: a move to the holding itself is refused, one to another mark is not", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        09:00  ! move flu A1 4 main > main  = contradiction: to
        09:00  move flu A1 4 main > main:bag
        09:00  ? stock                      = main flu A1: 6, expiry 2026-12-31
                                            = main:bag flu A1: 4, expiry 2026-12-31
    )");
}

TEST_CASE("histories: doses that join take the larger of each, a total and its open part apart", "[scenarios]") {
    // In main 100 s at 9, then to 5 in a second: above 8 for 1/4 s, by 1/2 on average; cleared by guidance.
    // In spare 40 s at 10, then to 3 in a second: above 8 for 2/7 s; open.
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  receive spare flu A1 10
        08:00  log p 100  9 9
        08:01:41 log p 1  5
        08:00  log q 40  10 10
        08:00:41 log q 1  3
        08:05  guidance flu A1 use in main
        08:10  move flu A1 10 spare > main
        08:09  ? warm main flu A1           = 100 401/4 101, 801/8 Cs, open 0
        08:09  ? warm spare flu A1          = 40 282/7 41, 562/7 Cs, open 282/7
        08:10  ? warm main flu A1           = 100 401/4 101, 801/8 Cs, open 282/7
        08:10  ? places main flu A1         = main spare
        08:10  ? extremes main flu A1       = 3 to 10
        08:10  ? stock                      = main flu A1: 20, expiry 2026-12-31
    )");
}

TEST_CASE("histories: joining an empty holding replaces what it had been through", "[scenarios]") {
    scenario(R"(
        08:00  log p 600  12 12 5 5
        08:00  receive main flu A1 1
        08:15  give main flu A1 1 P1
        08:20  receive main flu A1 5
        08:30  ? history main flu A1        = logged 600; 5 to 5; in main
    )");
}

TEST_CASE("histories: a discard, a hold and a use-by go into the join", "[scenarios]") {
    scenario(R"(
        00:00  site unmonitored 1000000
        08:00  receive main flu A1 10
        08:00  receive spare flu A1 10
        08:10  guidance flu A1 discard in spare    as D
        08:11  hold flu in spare                   as H
        08:12  beyond-use spare flu A1 until 03-04T12:00
        08:13  beyond-use main flu A1 until 03-05T12:00
        08:20  move flu A1 1 spare > main
        08:20  ? condemned main flu A1      = D
        08:20  ? held main flu A1           = H
        08:20  ? use-by main flu A1         = 03-04T12:00
        08:20  ? lists main flu A1          = discard: condemned, held
    )");
}

TEST_CASE("histories: give, waste, return and transfer take doses out", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 20
        09:00  give main flu A1 1 P1
        09:00  waste main flu A1 2
        09:00  return main flu A1 3
        09:00  transfer main flu A1 4
        09:00  ? stock main flu A1          = 10
        09:00  ? accounts                   = supplier -20, patient 1, wasted 2, returned 3, transferred 4, on hand 10
    )");
}

TEST_CASE("histories: a count sets the doses, what is found shares the history, variance is lost less found",
          "[scenarios]") {
    scenario(R"(
        08:00  log p 600  9 9 9
        08:00  receive main flu A1 10
        08:00  receive main flu B2 10
        08:10  count main flu A1 8
        08:10  count main flu B2 11
        08:20  ? stock                      = main flu A1: 8, expiry 2026-12-31
                                            = main flu B2: 11, expiry 2026-12-31
        08:20  ? accounts                   = supplier -20, variance 1, on hand 19
        08:20  ? warm main flu B2           = 1200 1200 1200, 1200 Cs, open 1200
    )");
}

TEST_CASE("histories: a count of nothing there", "[scenarios]") {
    scenario(R"(
        08:00  ! count main flu A1 1        = not-there: doses
        08:00  count main flu A1 0          # changes nothing
        08:00  ? accounts                   = supplier 0
        09:00  receive main flu A1 10       as R
        10:00  count main flu A1 10
        11:00  ! void R                     = not-there
        11:00  ! json {"kind": "waste", "at": "2026-03-02T09:30:00Z", "by": "AB", "place": "main", "product": "flu", \
               "lot": "A1", "doses": 10, "reason": "late"} = not-there
    )");
}

TEST_CASE("histories: no holding falls below 0, also by a late entry or a void", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10       as R
        10:00  give main flu A1 8 P1
        11:00  receive main flu A1 10
        12:00  ! waste main flu A1 13       = not-enough: doses
        09:00  ! waste main flu A1 3        = not-enough: doses
        07:00  ! waste main flu A1 1        = not-enough: doses
        12:00  ! void R                     = not-enough
        09:00  waste main flu A1 2
        09:00  ? stock main flu A1          = 8
        10:00  ? stock                      = none
        11:00  ? stock main flu A1          = 10
    )");
}

TEST_CASE("histories: doses of another fund are another holding", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10 fund state
        08:00  receive main flu A1 5
        09:00  ! move flu A1 11 main > spare fund state = not-enough: doses
        09:00  move flu A1 4 main > spare fund state
        09:00  ? stock                      = main flu A1: 5, expiry 2026-12-31
                                            = main flu A1 fund state: 6, expiry 2026-12-31
                                            = spare flu A1 fund state: 4, expiry 2026-12-31
    )");
}

TEST_CASE("histories: entries of one instant act in the order of their numbers", "[scenarios]") {
    scenario(R"(
        08:00  ! give main flu A1 1 P1      = not-enough: doses
        08:00  receive main flu A1 1
        08:00  give main flu A1 1 P1
        08:00  ? stock                      = none
        08:00  ? accounts                   = supplier -1, patient 1
    )");
}

TEST_CASE("histories: beyond-use shortens, and never lengthens", "[scenarios]") {
    scenario(R"(
        00:00  log p 3600  5 5 5 5 5 5 5 5 5 5 5 5 5
        08:00  receive main flu A1 10
        09:00  beyond-use main flu A1 until 11:00
        09:30  beyond-use main flu A1 until 12:00
        10:00  ? use-by main flu A1         = 11:00
        10:59:59 ? lists main flu A1        = keep
        11:00  ? lists main flu A1          = discard: expired
        10:00  beyond-use main flu A1 until 10:30
        10:30  ? lists main flu A1          = discard: expired
    )");
}

TEST_CASE("histories: beyond-use to a date means the end of that day", "[scenarios]") {
    scenario(R"(
        00:00  site unmonitored 1000000
        08:00  receive main flu A1 10
        09:00  beyond-use main flu A1 until 2026-03-03
        09:00  ? use-by main flu A1         = 03-04T00:00
    )");
}

TEST_CASE("histories: beyond-use by an event adds the product's period", "[scenarios]") {
    scenario(R"(
        00:00  product thaw 2 8 event thaw 3600 event puncture 600
        00:00  lot thaw A1 2026-12-31
        08:00  receive main thaw A1 10
        09:00  beyond-use main thaw A1 thaw
        09:00  ? use-by main thaw A1        = 10:00
        09:00  ! beyond-use main thaw A1 mixing  = not-defined: mixing
        09:10  product thaw 2 8 event puncture 600
        09:10  ? use-by main thaw A1        = none          # the product has no such event any more
        09:10  product thaw 2 8 event thaw 7200
        09:10  ? use-by main thaw A1        = 11:00         # nor was it ever another period
    )");
}

TEST_CASE("histories: beyond-use needs doses when it is posted, and does nothing where a late entry takes them",
          "[scenarios]") {
    scenario(R"(
        08:00  ! beyond-use main flu A1 until 11:00  = not-there
        08:00  receive main flu A1 10
        09:00  beyond-use main flu A1 until 11:00
        08:30  waste main flu A1 10
        10:00  receive main flu A1 5
        10:00  ? use-by main flu A1         = none
    )");
}

TEST_CASE("histories: the places visited are a set", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        09:00  move flu A1 10 main > counter
        10:00  move flu A1 10 counter > main
        10:00  ? places main flu A1         = counter main
    )");
}

TEST_CASE("holds: a hold adds itself to the holdings with doses that match", "[scenarios]") {
    scenario(R"(
        00:00  site unmonitored 1000000
        08:00  receive main flu A1 10
        08:00  receive main:bag flu A1 10
        08:00  receive spare flu A1 10
        08:00  receive main flu B2 10
        09:00  hold flu lot A1 in main      as H
        09:00  ? lists                      = main flu A1: quarantine-pending-guidance: held
                                            = main:bag flu A1: quarantine-pending-guidance: held
                                            = main flu B2: keep
                                            = spare flu A1: keep
    )");
    scenario(R"(
        08:00  receive main flu A1 10
        08:00  receive main:bag flu A1 10
        09:00  hold flu in :bag             as BAG
        09:00  hold flu in :                as UNMARKED
        09:00  ? held main flu A1           = UNMARKED
        09:00  ? held main:bag flu A1       = BAG
    )");
}

TEST_CASE("holds: one that names neither place nor mark stands, for every later receive", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        09:00  hold flu                     as RECALL
        10:00  receive spare flu A1 10
        10:00  receive spare flu B2 10
        11:00  guidance flu A1 use
        12:00  receive main:new flu A1 1
        12:00  ? held main flu A1           = no            # guidance has let them go
        12:00  ? held spare flu A1          = no
        12:00  ? held spare flu B2          = RECALL
        12:00  ? held main:new flu A1       = RECALL
        12:00  move flu A1 1 main > counter
        12:00  ? held counter flu A1        = no            # a move brings it by copying alone
        12:10  move flu A1 1 main:new > counter
        12:10  ? held counter flu A1        = RECALL
        12:30  void RECALL
        12:30  ? held counter flu A1        = no
        12:30  ? held spare flu B2          = no
    )");
}

TEST_CASE("holds: one that names a place or a mark, also an empty one, does not stand", "[scenarios]") {
    scenario(R"(
        08:00  hold flu in main             as P
        08:00  hold flu in :                as M
        09:00  receive main flu A1 10
        09:00  ? held main flu A1           = no
    )");
}

TEST_CASE("holds: at the instant of a recall the numbers decide", "[scenarios]") {
    scenario(R"(
        09:00  receive main:before flu A1 1
        09:00  hold flu                     as RECALL
        09:00  receive main:after flu A1 1
        09:00  ? held main:before flu A1    = RECALL
        09:00  ? held main:after flu A1     = RECALL
        09:00  move flu A1 1 main:before > main:same
        09:00  ? held main:same flu A1      = RECALL
    )");
    scenario(R"(
        08:59:59 receive main flu A1 1
        08:59:59 waste main flu A1 1
        09:00  hold flu                     as RECALL
        09:00  ? stock                      = none
        08:59:59 receive spare flu A1 1     # posted later, happened before: held as the others were
        09:00  ? held spare flu A1          = RECALL
    )");
}

TEST_CASE("void: it removes its entry for every instant", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10
        09:00  waste main flu A1 4          as W
        10:00  ? stock main flu A1          = 6
        12:00  void W
        10:00  ? stock main flu A1          = 10
        10:00  ? accounts                   = supplier -10, on hand 10
    )");
}

TEST_CASE("void: what cannot be voided", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 10       as R
        09:00  hold flu                     as H
        09:00  void H                       as V
        10:00  ! void V                     = not-voidable
        10:00  ! void 1                     = not-voidable       # the first site entry
        10:00  ! void H                     = not-voidable       # voided already
        10:00  ! void 99                    = not-voidable: 99
        10:00  ! void 2                     = in-use             # the product, which lots and entries name
        10:00  ! void 3                     = in-use             # the lot
        10:00  ! void 5                     = in-use             # the place
        10:00  lot flu A1 2026-11-30        as AGAIN
        10:00  ? stock                      = main flu A1: 10, expiry 2026-11-30
        10:00  void AGAIN
        10:00  ? stock                      = main flu A1: 10, expiry 2026-12-31
        10:00  void 4                       # lot B2, which nothing names
    )");
}

TEST_CASE("histories: nothing counted where there was nothing left makes no dose", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 5
        08:10  give main flu A1 5 P
        08:20  count main flu A1 0
        08:30  ? stock main flu A1          = none
        08:30  ? lists main flu A1          = none
    )");
}

TEST_CASE("histories: the notes look at all the time in which doses of the lot were in a place that these were in",
          "[scenarios]") {
    // two of five doses go to spare while the certificate of main's probe holds; the other three stay until it has run
    // out
    scenario(R"(
        00:00  certificate p 2026-03-02
        00:00  certificate q 2027-01-01
        08:00  receive main flu A1 5
        10:00  move flu A1 2 main > spare
        03-03T10:00  give main flu A1 3 P
        03-03T12:00  ? notes spare flu A1   = temperature not known for 28 h        # nothing was logged
          = readings of main without a valid certificate: probe p: certificate expired, \
            2026-03-03 00:00 to 2026-03-03 10:00
    )");
}

TEST_CASE("histories: doses that come to others of that very instant bring what they used of an allowance",
          "[scenarios]") {
    scenario(R"(
        00:00  product al 2 8 allow 8 25 1000
        00:00  lot al A1 2026-12-31
        08:00  receive main al A1 10
        08:00  log p 600  5 9               # above 8 for 150 s
        08:10  receive spare al A1 5
        08:10  move al A1 5 main > spare
        08:10  ? allowances spare al A1     = 150 of 1000, open 150
    )");
}
