// Doses given, followed to their end, and doses that left. Invented clinics, worked by hand from the rules of
// lib/incidents/README.md (Follow-up) and lib/stock/README.md (Departed).
#include <catch2/catch.hpp>

#include "site.hpp"

using scenarios::scenario;

TEST_CASE("follow-up: every dose of a recalled lot stands at one place, and those that left are named", "[scenarios]") {
    scenario(R"(
        08:00  clock
        08:00  check main 5
        08:00  receive main flu A1 20
        09:00  give main flu A1 1 P1        as G1
        09:10  give main flu A1 2 P2        as G2
        09:20  give main flu A1 1 P3        as G3
        09:30  transfer main flu A1 4       as T
        09:40  return main flu A1 1         as B
        10:00  hold flu lot A1              # the recall: it holds what is here, and what was given was given before it
        10:00  ? lists                      = main flu A1: quarantine-pending-guidance: held
        10:00  ? follow-up                  = none
        10:00  ? follow-up flu A1           = P1 clear: none yet
                                            = P2 clear: none yet
                                            = P3 clear: none yet
        10:00  ? standing flu A1            = of 3 gives, 4 doses: none yet 3
        10:00  ? left flu A1                = T main flu A1: 4 to the other clinic; keep
                                            = - ...recall...
                                            = B main flu A1: 1 to supplier; keep
                                            = - ...recall...
        11:00  follow-up G1 decided
        11:30  follow-up G1 told            as F
        11:30  follow-up G2 told
        12:00  check main 5
        12:00  ? follow-up flu A1           = P3 clear: none yet
                                            = P1 clear: told (decided 11:00, told 11:30)
                                            = P2 clear: told (told 11:30)
        12:00  ? standing flu A1            = of 3 gives, 4 doses: none yet 1, told 2; ever decided 1, told 2
        03-09T08:00 follow-up G1 repeated
        03-09T08:00 follow-up G2 no-answer
        03-09T08:00 follow-up G3 not-needed
        03-09T08:00 ? standing flu A1       = of 3 gives, 4 doses: no answer 1, repeated 1, not needed 1; ever \
                                              decided 1, told 2, no answer 1, repeated 1, not needed 1
        # a step noted by mistake is gone; a give taken back is in no count, and what was done is not lost
        03-09T09:00 void F
        03-09T09:00 ? standing flu A1       = of 3 gives, 4 doses: no answer 1, repeated 1, not needed 1; ever \
                                              decided 1, told 1, no answer 1, repeated 1, not needed 1
        03-09T09:10 void G2
        03-09T09:10 ? follow-up flu A1      = P1 clear: repeated (decided 11:00, repeated 03-09T08:00)
                                            = P3 clear: not needed (not needed 03-09T08:00)
                                            = apart: P2 void: no answer (told 11:30, no answer 03-09T08:00)
        03-09T09:10 ? standing flu A1       = of 2 gives, 2 doses: repeated 1, not needed 1; ever decided 1, \
                                              repeated 1, not needed 1
        03-09T09:10 ? known 12:00 standing flu A1 = of 3 gives, 4 doses: none yet 1, told 2; ever \
                                              decided 1, told 2
    )");
}

TEST_CASE("follow-up: doses under review, and what left that list apart", "[scenarios]") {
    // 5, 9, 9, 5 °C every half hour from 09:30 on: above 8 from 09:52:30 to 10:37:30; at 10:15 1350 s of it
    scenario(R"(
        07:00  clock
        07:00  check main 5
        07:00  receive main flu A1 10
        09:00  give main flu A1 1 P1        as G1
        10:15  give main flu A1 1 P2        as G2
        12:00  ? follow-up                  = none
        12:00  log p 1800  5 5 5 5 5 5 9 9 5 5 5  at 07:00
        12:00  ? follow-up                  = P2 pending guidance: none yet
        12:00  ? given P2 warm              = 900 1350 2700, 1125 Cs, open 1350
        12:05  follow-up G2 told            as F
        12:05  follow-up G1 told
        12:05  ? follow-up                  = P2 pending guidance: told (told 12:05)
                                            = apart: P1 clear: told (told 12:05)
        12:05  ? standing                   = of 1 gives, 1 doses: told 1; ever told 1
        12:30  guidance flu A1 use through 12:00 told 2700 0 2
        12:30  ? follow-up                  = P2 cleared: told (told 12:05)
                                            = apart: P1 clear: told (told 12:05)
        12:40  void F
        12:40  ? follow-up                  = P2 cleared: none yet
                                            = apart: P1 clear: told (told 12:05)
        12:40  ? known 12:10 follow-up      = P2 pending guidance: told (told 12:05)
                                            = apart: P1 clear: told (told 12:05)
    )");
}

TEST_CASE("follow-up: who has doses that left is told what was learnt of them since", "[scenarios]") {
    scenario(R"(
        07:00  clock
        07:00  check main 5
        07:00  receive main flu A1 10
        08:00  check main 5
        10:15  transfer main flu A1 4       as T
        10:15  ? left                       = none          # nothing was known against them
        12:00  log p 1800  5 5 5 5 5 5 9 9 5 5 5  at 07:00
        12:00  ? left                       = T main flu A1: 4 to the other clinic; quarantine-pending-guidance: \
                                              warm, point
                                            = - keep -> quarantine-pending-guidance...warm, point...
                                            = - now known: too warm for at most 45 min at up to \
                                              9 °C (48.2 °F); 1 reading...  # since 09:30
        12:00  ? ready doses-that-left      = 0 of 1 in order
                                            = act now, entry ..., since 10:15: 4 doses of flu lot A1, sent from main \
                                              to the other clinic ...: not told of what was learnt since
                                            = - keep -> quarantine-pending-guidance...
                                            = - now known: too warm for at most 45 min at up to \
                                              9 °C (48.2 °F); 1 reading...
                                            = - the other clinic must be told: ...
        12:10  notice main
        12:20  step 2026-1 action told T    as S
        12:20  ? left                       = none
        12:20  ? left flu A1                = T main flu A1: 4 to the other clinic; told by S; \
                                              quarantine-pending-guidance: warm, point
        12:20  ? ready doses-that-left      = none
        # the maker condemns them: they must be told again
        13:00  guidance flu A1 discard through 12:30
        13:00  ? left                       = T main flu A1: 4 to the other clinic; told by S; \
                                              quarantine-pending-guidance: warm, point
                                            = - ...discard...
    )");
}
