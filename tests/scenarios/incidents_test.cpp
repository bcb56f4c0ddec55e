// Incidents, from the notice to the closing. Invented clinics; every figure is worked by hand from the rules of
// lib/incidents/README.md. A refrigerator that is read as 5, 9, 9, 5 °C every half hour is above 8 °C from three
// quarters of the first half hour on until one quarter of the third: 450 + 1800 + 450 s.
#include <catch2/catch.hpp>

#include "site.hpp"

using scenarios::scenario;

TEST_CASE("incidents: a warm morning from the notice to the closing", "[scenarios]") {
    scenario(R"(
        07:00  clock
        07:00  maker flu Firm
        07:00  rules warm 2400 told supervisor 3600 told manufacturer 14400 answer 172800
        07:00  check main 5
        07:00  check spare 5
        07:00  receive main flu A1 20
        07:00  receive spare flu B2 5
        08:00  check main 5
        09:00  give main flu A1 1 P1
        09:55  give main flu A1 1 P2
        # somebody hears the alarm: nothing is known since the check of 08:00, and both doses stand in that time
        10:00  notice main
        10:00  ? incident 2026-1 doubt      = main 08:00 to now
        10:00  ? incident 2026-1 given      = P1 clear
                                            = P2 clear
        10:00  ? lists                      = main flu A1: quarantine-pending-guidance: held
                                            = spare flu B2: keep
        10:00  ? incident 2026-1 conditions = main warm: cannot be said
        10:00  ? incident 2026-1 duties     = supervisor told: due 11:00
                                            = manufacturer told Firm: due 14:00
                                            = health department told: no limit
                                            = answer Firm: no limit          # runs from when it is asked
        10:30  step 2026-1 supervisor-told
        # the logger is read: in range until 09:30, and from 11:00 on; P1 was given before that, P2 at 8 1/3 °C
        12:00  log p 1800  5 5 5 5 5 5 9 9 5 5 5  at 07:00
        12:00  ? incident 2026-1 doubt      = main 09:30 to 11:00
        12:00  ? incident 2026-1 given      = P2 pending guidance: warm
        12:00  ? incident 2026-1 doses      = main flu A1: 19, given 1; warm 1800 2700 5400, 2250 Cs
        12:00  ? incident 2026-1 conditions = main warm: met by the estimate  # 40 min; sure are 30, as estimated 45
        12:00  ? incidents                  = 2026-1 main, open since 10:00, excursions 1
        12:00  ? lists main flu A1          = quarantine-pending-guidance: warm, point, held
        12:05  count main flu A1 18
        12:05  ? incident 2026-1 doses      = main flu A1: 19, given 1; warm 1800 2700 5400, 2250 Cs; counted 12:05
        12:10  ? incident 2026-1 figures    = main flu A1: 18, given 1; out 2700, unknown 0, points 2
        12:10  report 2026-1 to manufacturer Firm  as R
        12:10  ? incident 2026-1 duties     = answer Firm: due 03-04T12:10
                                            = health department told: no limit
                                            = supervisor told: done 10:30
                                            = manufacturer told Firm: done 12:10
        12:10  ? incident 2026-1 answers    = Firm flu A1: awaited
        12:10  check spare 5
        # the maker says that they may be used, told of these figures
        03-03T09:00 ? concerns R flu A1 use = none
        03-03T09:00 answer R flu A1 use     as A
        03-03T09:00 ? lists main flu A1     = keep
        03-03T09:00 ? review                = P2 cleared: warm; by A
        03-03T09:00 ? doubts                = main flu A1: keep
                                            = spare flu B2: keep
        03-03T09:00 ? incident 2026-1 answers = Firm flu A1: A covers all
        03-03T09:00 ? incident 2026-1 duties = health department told: no limit
                                            = supervisor told: done 10:30
                                            = manufacturer told Firm: done 12:10
                                            = answer Firm: done 03-03T09:00
        03-03T09:30 close 2026-1
        03-03T09:30 ? incident 2026-1 open  = not done: health department told
        03-03T09:30 ? incidents             = 2026-1 main, closed 03-03T09:30, excursions 1
        03-03T09:30 ? unlisted              = none
    )");
}

TEST_CASE("incidents: each duty has its clock, and what is done late stays late", "[scenarios]") {
    scenario(R"(
        07:00  clock
        07:00  maker flu Firm
        07:00  rules told supervisor 3600 told manufacturer 14400 answer 172800
        07:00  check main 5
        07:00  receive main flu A1 10
        10:00  notice main
        11:00  ? incident 2026-1 duties     = supervisor told: due 11:00     # an hour: until its end
                                            = manufacturer told Firm: due 14:00
                                            = health department told: no limit
                                            = answer Firm: no limit
        11:00:01 ? incident 2026-1 duties   = supervisor told: overdue 11:00
                                            = manufacturer told Firm: due 14:00
                                            = health department told: no limit
                                            = answer Firm: no limit
        11:30  step 2026-1 supervisor-told
        14:00:01 ? incident 2026-1 duties   = manufacturer told Firm: overdue 14:00
                                            = health department told: no limit
                                            = answer Firm: no limit
                                            = supervisor told: done late 11:30
        14:00:01 ? ready incidents          = 0 of 1 in order
                                            = act now, incident 2026-1, since 10:00: open, 1 duty overdue
                                            = - manufacturer told, Firm: overdue since 2026-03-02 14:00
        15:00  step 2026-1 manufacturer-told        # the only maker there is
        15:00  ? incident 2026-1 duties     = answer Firm: due 03-04T15:00   # two days from then
                                            = health department told: no limit
                                            = supervisor told: done late 11:30
                                            = manufacturer told Firm: done late 15:00
        03-04T15:00:01 ? incident 2026-1 duties = answer Firm: overdue 03-04T15:00
                                            = health department told: no limit
                                            = supervisor told: done late 11:30
                                            = manufacturer told Firm: done late 15:00
    )");
    scenario(R"(
        07:00  clock                        # without a programme's rules no limit is made up
        07:00  maker flu Firm
        07:00  check main 5
        07:00  receive main flu A1 10
        10:00  notice main
        03-30T10:00 ? incident 2026-1 duties = supervisor told: no limit
                                            = health department told: no limit
                                            = manufacturer told Firm: no limit
                                            = answer Firm: no limit
    )");
}

TEST_CASE("incidents: closing releases where all of the time is known and was in range", "[scenarios]") {
    scenario(R"(
        07:00  clock
        07:00  check main 5
        07:00  receive main flu A1 10
        08:05  log p 1800  5 5 5  at 07:00
        09:10  notice main                  # the door stood open
        09:10  ? lists                      = main flu A1: quarantine-pending-guidance: held
        09:20  ! close 2026-1 release       = contradiction: no reading in range is known since it was noticed
        10:05  log p 1800  5 5 5 5  at 08:30
        10:05  ? incident 2026-1 doubt      = main 09:00 to 09:30
        10:05  ? incident 2026-1 release    = none
        10:05  close 2026-1 release
        10:05  ? lists                      = main flu A1: keep
        10:05  ? incidents                  = 2026-1 main, closed 10:05, excursions 0
    )");
}

TEST_CASE("incidents: a release is refused over time that was out of range, or of which nothing is known",
          "[scenarios]") {
    scenario(R"(
        07:00  clock
        07:00  check main 5
        07:00  receive main flu A1 10
        08:05  log p 1800  5 5 5  at 07:00
        09:10  notice main
        10:05  log p 1800  5 5 9 5  at 08:30
        10:05  ! close 2026-1 release       = contradiction: it was out of range, as the excursions of this incident say
        10:05  close 2026-1                 # without a release the holds stand
        10:05  ? lists                      = main flu A1: quarantine-pending-guidance: warm, point, held
    )");
    scenario(R"(
        08:00  clock                        # a line between two plain checks is a guess
        08:00  check spare 5
        08:00  receive spare flu A1 10
        09:00  notice spare
        09:30  check spare 5
        09:30  ! close 2026-1 release       = contradiction: 1 h 30 min of it known between plain checks only
    )");
    scenario(R"(
        08:00  clock                        # minimum and maximum stand for all of the time between
        08:00  check spare 5 min 4 max 6
        08:30  check spare 5 min 4 max 6
        08:30  receive spare flu A1 10
        09:00  notice spare
        09:30  check spare 5 min 4 max 8.5
        09:30  ! close 2026-1 release       = contradiction: it was out of range
    )");
    scenario(R"(
        08:00  clock
        08:00  check spare 5 min 4 max 6
        08:30  check spare 5 min 4 max 6
        08:30  receive spare flu A1 10
        09:00  notice spare
        09:30  check spare 5 min 4 max 8
        09:30  close 2026-1 release
        09:30  ? lists                      = spare flu A1: keep
    )");
}

TEST_CASE("incidents: a release is refused over a gap, a tolerance, a narrower range, and a logger not read since",
          "[scenarios]") {
    scenario(R"(
        07:00  clock                        # readings more than an hour apart say nothing of the time between
        07:00  check main 5
        07:00  receive main flu A1 10
        08:05  log p 1800  5 5 5  at 07:00
        08:10  notice main
        10:35  log p 1800  5 5  at 10:00
        10:35  ! close 2026-1 release       = contradiction: main: 2 h of it not known
    )");
    scenario(R"(
        07:00  clock                        # 7.6 °C by a probe that may be off by half a degree
        07:00  certificate p 2027-01-31 tolerance 0.5  at 01-01T00:00
        07:00  check main 5
        07:00  receive main flu A1 10
        09:10  notice main
        10:35  log p 1800  5 5 5 5 5 7.6 5 5  at 07:00
        10:35  ! close 2026-1 release       = contradiction: too warm for at most 1 h
    )");
    scenario(R"(
        07:00  clock                        # in range for the place, and not for one of the products in it
        07:00  product mmr 2 6
        07:00  lot mmr M1 2026-12-31
        07:00  check main 5
        07:00  receive main flu A1 10
        07:00  receive main mmr M1 10
        09:10  notice main
        10:35  log p 1800  5 5 5 5 5 7 5 5  at 07:00
        10:35  ! close 2026-1 release       = contradiction: for mmr: too warm
    )");
    scenario(R"(
        07:00  clock                        # a reading of an hour ago is new enough, an older one is not
        07:00  check main 5
        07:00  receive main flu A1 10
        09:10  notice main
        10:05  log p 1800  5 5 5 5 5 5 5  at 07:00
        11:00  ? incident 2026-1 release    = none
        11:00:01 ! close 2026-1 release     = contradiction: its last reading in range is of 2026-03-02 10:00
    )");
    scenario(R"(
        07:00  clock                        # a display kept a maximum that no reading of the logger shows
        07:00  check main 5
        07:00  receive main flu A1 10
        09:10  notice main
        10:00  check main 5 min 4 max 9
        10:05  log p 1800  5 5 5 5 5 5 5  at 07:00
        10:05  ! close 2026-1 release       = contradiction: the minimum or maximum of the check of entry
    )");
    scenario(R"(
        07:00  clock                        # once the doses have left, the time after that is of no account
        07:00  check main 5
        07:00  check spare 5
        07:00  receive main flu A1 10
        08:10  notice main
        09:00  move flu A1 10 main > spare
        09:35  log p 1800  5 5 5 5 5 5  at 07:00
        12:00  ? incident 2026-1 release    = none
    )");
}

TEST_CASE("incidents: closing is no answer for doses given, or sent away, in the time in doubt", "[scenarios]") {
    scenario(R"(
        07:00  clock
        07:00  check main 5
        07:00  receive main flu A1 10
        09:00  give main flu A1 1 P1
        09:00  transfer main flu A1 3       as T
        10:00  notice main
        10:30  check main 5
        10:30  ? incident 2026-1 doubt      = main 07:00 to 10:30
        10:30  ? incident 2026-1 given      = P1 clear
        10:30  ? incident 2026-1 left       = T main flu A1: 3 to the other clinic
        10:30  ? review                     = none      # a review finds nothing on P1, and says what it does not list
        10:30  ? unlisted                   = IN DOUBT, and not listed here: 1 dose given ... of incident 2026-1; it \
                                              is open, and its report lists them
        10:40  ! close 2026-1               = contradiction: 1 dose given
        10:40  close 2026-1 despite the-patient-was-called
        10:45  ? unlisted                   = IN DOUBT, and not listed here: 1 dose given ... of incident 2026-1; it \
                                              was closed without an answer for them, and its report lists them
        10:45  ? ready incidents            = 0 of 1 in order
                                            = act now, incident 2026-1, since 10:40: closed, doses that left are not \
                                              told of
                                            = - 3 doses of flu lot A1, sent from main to the other clinic ...
        10:50  step 2026-1 action told T    as S
        10:50  ? incident 2026-1 left       = T main flu A1: 3 to the other clinic; told by S
        10:50  ? ready incidents            = 1 of 1 in order
        11:00  give main flu A1 1 P2        # after the closing: not of it
        11:00  ? unlisted                   = IN DOUBT, and not listed here: 1 dose given ...
        11:10  guidance flu A1 use through 11:05
        11:10  ? unlisted                   = none
    )");
    scenario(R"(
        07:00  clock                        # a release says that nothing was out of range
        07:00  check main 5 min 4 max 6
        07:30  check main 5 min 4 max 6
        07:30  receive main flu A1 10
        09:00  give main flu A1 1 P1
        10:00  notice main
        10:30  check main 5 min 4 max 6
        10:40  close 2026-1 release
        10:40  ? unlisted                   = none
    )");
}

TEST_CASE("incidents: excursions three days apart are of one incident, a second more and they are not", "[scenarios]") {
    // 5, 9, 5 °C in steps of 600 s: above 8 °C from 450 to 750 s
    scenario(R"(
        02-24T10:00    log p 600  5 9 5     # until 10:12:30
        02-27T10:05    log p 600  5 9 5     # from 10:12:30 on
        03-02T10:00    log p 600  5 9 5
        03-05T10:12:30 notice main
        03-06T00:00    ? incidents          = 2026-1 main, open since 03-05T10:12:30, excursions 3
        03-06T00:00    ? incident 2026-1 doubt = main 02-24T10:00 to now      # nothing was read since the notice
    )");
    scenario(R"(
        02-24T10:00    log p 600  5 9 5
        02-27T10:05:01 log p 600  5 9 5
        03-02T10:00    log p 600  5 9 5
        03-05T10:12:30 notice main
        03-06T00:00    ? incidents          = 2026-1 main, open since 03-05T10:12:30, excursions 2
                                            = no incident: main warm 02-24T10:07:30 to 02-24T10:12:30
    )");
    scenario(R"(
        03-02T10:00    log p 600  5 9 5
        03-05T10:12:31 notice main
        03-06T00:00    ? incidents          = 2026-1 main, open since 03-05T10:12:31, excursions 0
                                            = no incident: main warm 10:07:30 to 10:12:30
    )");
    scenario(R"(
        03-02T10:00    log p 600  5 9 5     # a file read weeks later: the notice says since when
        03-20T09:00    notice main since 10:07:30
        03-20T09:00    ? incidents          = 2026-1 main, open since 03-20T09:00, excursions 1
    )");
}

TEST_CASE("incidents: the doubt goes where the doses go, and not to those that come when it is over", "[scenarios]") {
    scenario(R"(
        07:00  clock
        07:00  check main 5
        07:00  check spare 5
        07:00  receive main flu A1 10
        07:00  receive spare flu B2 5
        10:00  notice main unheld the-alarm-is-being-tested
        10:05  move flu A1 4 main > spare
        10:10  check main 5
        10:20  receive main flu B2 2
        10:20  check spare 5
        10:30  ? doubts                     = main flu A1: keep, in doubt 2026-1
                                            = main flu B2: keep
                                            = spare flu A1: keep, in doubt 2026-1
                                            = spare flu B2: keep
        # an answer through 10:04 is not of all the time in doubt, 07:00 to 10:10, nor through when four doses left it
        10:30  guidance flu A1 use through 10:04  as G
        10:30  ? doubts                     = main flu A1: keep, in doubt 2026-1
                                            = main flu B2: keep
                                            = spare flu A1: keep, in doubt 2026-1
                                            = spare flu B2: keep
        10:40  guidance flu A1 use through 10:10
        10:40  ? doubts                     = main flu A1: keep
                                            = main flu B2: keep
                                            = spare flu A1: keep
                                            = spare flu B2: keep
    )");
    scenario(R"(
        07:00  clock                        # through 10:05: of all the time that doses of the lot were there
        07:00  check main 5
        07:00  check spare 5
        07:00  receive main flu A1 10
        10:00  notice main unheld the-alarm-is-being-tested
        10:05  move flu A1 10 main > spare
        10:10  check main 5
        10:20  check spare 5
        10:30  guidance flu A1 use through 10:04
        10:30  ? doubts                     = spare flu A1: keep, in doubt 2026-1
        10:40  guidance flu A1 use through 10:05
        10:40  ? doubts                     = spare flu A1: keep
    )");
}

TEST_CASE("incidents: a report that later readings overtake is sent again", "[scenarios]") {
    scenario(R"(
        07:00  clock
        07:00  maker flu Firm
        07:00  check main 5
        07:00  receive main flu A1 10
        08:00  log p 1800  5 5 5  at 07:00
        08:30  notice main
        08:40  report 2026-1 to health-department County uncounted  as R
        08:40  ? incident 2026-1 duties     = supervisor told: no limit
                                            = manufacturer told Firm: no limit
                                            = answer Firm: no limit
                                            = health department told: done 08:40
        10:00  log p 1800  9 9 5 5  at 08:30
        10:00  ? incident 2026-1 duties     = supervisor told: no limit
                                            = manufacturer told Firm: no limit
                                            = answer Firm: no limit
                                            = health department told: done 08:40; overtaken
        10:00  ? ready incidents            = 0 of 1 in order
                                            = act now, incident 2026-1, since 08:30: open, reported with other figures
                                            = - REPORTED WITH OTHER FIGURES: County was told 2026-03-02 08:40 ... \
                                              out of range 0 s, now 45 min...
        10:10  report 2026-1 to health-department County uncounted
        10:10  ? incident 2026-1 duties     = supervisor told: no limit
                                            = manufacturer told Firm: no limit
                                            = answer Firm: no limit
                                            = health department told: done 08:40
    )");
}

TEST_CASE("incidents: an answer is for what was told, and for no more", "[scenarios]") {
    // told of 450 s on the way up and half an hour; a file read late has it at 9 °C from 08:10 on: in place of those
    // 450 s 150 s on the way up (5 to 9 in ten minutes passes 8 after 450 s of 600), and 20 min
    scenario(R"(
        07:00  clock
        07:00  maker flu Firm
        07:00  check main 5
        07:00  receive main flu A1 10
        09:00  log p 1800  5 5 5 9 9  at 07:00
        09:00  notice main
        09:00  ? incident 2026-1 figures    = main flu A1: 10; out 2250, unknown 0, points 2
        09:00  report 2026-1 to manufacturer Firm uncounted  as R
        09:30  log p 1800  5  at 09:30
        09:30  ? concerns R flu A1 use      = none
        10:00  log p 600  9  at 08:10
        10:00  ? warm main flu A1           = 3000 3600 5400, 3300 Cs, open 3600
        10:00  ? concerns R flu A1 use      = doses in main: told of 37 min 30 s out of range, now known: 52 min \
                                              30 s...
        10:00  answer R flu A1 use note posted-as-it-came
        10:00  ? lists main flu A1          = quarantine-pending-guidance: warm, point, held
    )");
    scenario(R"(
        07:00  clock                        # told of ten doses, and twelve were there
        07:00  maker flu Firm
        07:00  check main 5
        07:00  receive main flu A1 10
        09:00  log p 1800  5 5 5 9 9  at 07:00
        09:00  notice main
        09:10  report 2026-1 to manufacturer Firm uncounted  as R
        09:20  ? concerns R flu A1 use      = none
        09:20  count main flu A1 12         at 09:05
        09:20  ? concerns R flu A1 use      = told of 10 doses in main, 12 were there: the answer is not for the rest
    )");
    // a second excursion, 12:52:30 to 13:07:30, while the answer is awaited: it joins the incident, and stays open
    scenario(R"(
        07:00  clock
        07:00  maker flu Firm
        07:00  check main 5
        07:00  receive main flu A1 10
        12:00  log p 1800  5 5 5 5 5 5 9 9 5 5 5  at 07:00
        12:00  notice main
        12:10  report 2026-1 to manufacturer Firm uncounted  as R
        15:00  log p 1800  5 9 5 5 5 5  at 12:30
        15:00  answer R flu A1 use          as A
        15:00  ? incidents                  = 2026-1 main, open since 12:00, excursions 2
        15:00  ? warm main flu A1           = 1800 3600 9000, 2700 Cs, open 900
        15:00  ? lists main flu A1          = quarantine-pending-guidance: warm, point
        15:00  ? incident 2026-1 answers    = Firm flu A1: A covers less than all
    )");
}

TEST_CASE("incidents: nothing known before the notice, and nothing after, is said as it is", "[scenarios]") {
    scenario(R"(
        07:00  clock
        07:00  receive main flu A1 10
        10:00  notice main
        10:00  ? incident 2026-1 doubt      = main not known to now
        10:00  ! close 2026-1 release       = contradiction: no reading in range is known from before it was noticed
    )");
}
