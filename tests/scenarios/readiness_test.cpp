// Readiness for an inspection, topic by topic. Invented clinics, worked by hand from the table of lib/upkeep/README.md.
#include <catch2/catch.hpp>

#include "site.hpp"

using scenarios::scenario;

TEST_CASE("readiness: a certificate that runs out, has run out, was renewed late, or never was", "[scenarios]") {
    // good through 10 March; 30 days before its end, 11 March 00:00, is 9 February 00:00
    scenario(R"(
        02-08T08:00    clock
        02-08T08:00    certificate p 2026-03-10 at 01-01T00:00
        02-08T08:00    certificate q 2027-01-31 at 01-01T00:00
        02-08T08:00    assign r -
        02-08T23:59:59 ? ready certificates = 2 of 2 in order
        02-09T00:00    ? ready certificates = 2 of 2 in order, due soon 1
                                            = due soon, probe p, since 03-11T00:00: certificate expires on \
                                              2026-03-10, in main
        03-10T23:59:59 ? ready certificates = 2 of 2 in order, due soon 1
                                            = due soon, probe p, since 03-11T00:00: certificate expires on \
                                              2026-03-10, in main
        03-11T00:00    ? ready certificates = 1 of 2 in order
                                            = overdue, probe p, since 03-11T00:00: certificate expired on \
                                              2026-03-10, in main
        03-12T09:00    certificate p 2027-03-31
        03-12T09:00    ? ready certificates = 1 of 2 in order
                                            = overdue, probe p, since 03-11T00:00: was without a valid certificate \
                                              for a time
                                            = - in main, certificate expired, 2026-03-11 00:00 to 2026-03-12 09:00
        # looked at from later on, that time is over
        03-20T09:00    ? ready certificates from 03-12T09:00 = 2 of 2 in order
        03-20T09:00    assign r counter
        03-21T09:00    ? ready certificates from 03-12T09:00 = 2 of 3 in order
                                            = overdue, probe r, since 03-20T09:00: no certificate, in counter
                                            = - in counter, no certificate, 2026-03-20 09:00 to 2026-03-21 09:00
    )");
}

TEST_CASE("readiness: a count is overdue from the day after the programme's last, and a new mark is no delivery",
          "[scenarios]") {
    scenario(R"(
        08:00          clock
        08:00          rules every count 10
        08:00          check main 5
        08:00          receive main flu A1 10
        03-12T23:59:59 ? ready counts       = 1 of 1 in order
        03-13T00:00    ? ready counts       = 0 of 1 in order
                                            = overdue, main, since 03-13T00:00: count overdue of 1 holding
                                            = - flu lot A1 in main: never counted since it came 2026-03-02 08:00
        03-13T09:00    count main flu A1 9
        03-13T09:00    ? ready counts       = 1 of 1 in order
        03-14T09:00    move flu A1 4 main > main:short
        03-15T09:00    receive main flu B2 5
        03-23T23:59:59 ? ready counts       = 3 of 3 in order
        03-24T00:00    ? ready counts       = 1 of 3 in order
                                            = overdue, main, since 03-24T00:00: count overdue of 2 holdings
                                            = - flu lot A1 in main: last counted 2026-03-13 09:00
                                            = - flu lot A1 in main, mark short: last counted 2026-03-13 09:00
        03-26T00:00    ? ready counts       = 0 of 3 in order
                                            = overdue, main, since 03-24T00:00: count overdue of 3 holdings
                                            = - flu lot A1 in main: last counted 2026-03-13 09:00
                                            = - flu lot A1 in main, mark short: last counted 2026-03-13 09:00
                                            = - flu lot B2 in main: never counted since it came 2026-03-15 09:00
    )");
    scenario(R"(
        08:00          clock            # it goes out and comes back: where it never was, the clock runs anew
        08:00          rules every count 10
        08:00          check main 5
        08:00          receive main flu A1 10
        03-10T09:00    move flu A1 10 main > spare
        03-20T23:59:59 ? ready counts       = 1 of 1 in order
        03-21T00:00    ? ready counts       = 0 of 1 in order
                                            = overdue, spare, since 03-21T00:00: count overdue of 1 holding
                                            = - flu lot A1 in spare: never counted since it came 2026-03-10 09:00
    )");
}

TEST_CASE("readiness: a unit that falls silent", "[scenarios]") {
    // what was not read yet counts after a day: 08:00 to 08:00 of the next. The other places may be silent for long.
    scenario(R"(
        08:00          clock
        08:00          rules every logger-reading 7
        08:00          place spare 2 8 gap 10000000
        08:00          place counter 15 25 gap 10000000
        08:00          assign q -
        08:00          assign r -
        08:00          log p 1800  5 5 5  at 07:00
        08:00          receive main flu A1 10
        03-03T08:00    ? ready temperature-record = 3 of 3 in order
        03-03T09:00    ? ready temperature-record = 2 of 3 in order
                                            = act now, main, since 08:00: 1 logger gap, 25 h of which nothing is \
                                              known; it goes on
                                            = - logger gap, 2026-03-02 08:00 to 2026-03-03 09:00: 25 h
        # read: what was missing is there
        03-03T10:00    log p 3600  5 5 5 5 5 5 5 5 5 5 5 5 5 5 5 5 5 5 5 5 5 5 5 5 5 5  at 09:00
        03-03T10:00    ? ready temperature-record = 3 of 3 in order
        03-03T10:00    ? ready logger-readings = 1 of 1 in order
        03-10T23:59:59 ? ready logger-readings = 1 of 1 in order
        03-11T00:00    ? ready logger-readings = 0 of 1 in order
                                            = overdue, probe p, since 03-11T00:00: last read 2026-03-03 10:00, in main
    )");
    // a check stands for the time of a gap, if it has its minimum and maximum; a plain one leaves a guess
    scenario(R"(
        07:00          clock
        07:00          place spare 2 8 gap 10000000
        07:00          place counter 15 25 gap 10000000
        07:00          assign q -
        07:00          assign r -
        08:00          log p 1800  5 5 5  at 07:00
        08:00          check main 5 min 4 max 6
        08:00          receive main flu A1 10
        12:00          check main 5 min 4 max 6
        12:00          log p 1800  5  at 12:00
        12:00          ? ready temperature-record = 2 of 3 in order
                                            = overdue, main, since 08:00: 1 logger gap, for which checks stand
                                            = - logger gap, 2026-03-02 08:00 to 2026-03-02 12:00: 4 h, for which \
                                              checks stand
        12:30          log p 1800  5  at 12:30
        12:30          ? ready temperature-record = 2 of 3 in order
                                            = overdue, main, since 08:00: 1 logger gap, for which checks stand
                                            = - logger gap, 2026-03-02 08:00 to 2026-03-02 12:00: 4 h, for which \
                                              checks stand
    )");
}

TEST_CASE("readiness: training lapses, and a person of the plan without any is named", "[scenarios]") {
    scenario(R"(
        08:00          clock
        08:00          ? ready training     = not judged: no rule is known that says how often, and no training \
                                              states the date of the next
        08:00          rules every training 365
        08:00          ? ready training     = 0 of 1 in order
                                            = overdue: no training of anybody is known
        08:00          plan Ada Bo
        08:00          ? ready training     = 0 of 2 in order
                                            = overdue, Ada: of the plan's people, without any training known
                                            = overdue, Bo: of the plan's people, without any training known
        09:00          training Ada storage
        09:00          training Bo storage due 2026-03-31
        # good through 31 March, within 30 days; the other through 2 March of the next year, 365 days on
        09:00          ? ready training     = 2 of 2 in order, due soon 1
                                            = due soon, Bo, since 04-01T00:00: training in storage to be repeated \
                                              before 2026-04-01 00:00
        04-01T00:00    ? ready training     = 1 of 2 in order
                                            = overdue, Bo, since 04-01T00:00: training in storage lapsed, last \
                                              2026-03-02 09:00
        04-01T09:00    training Bo storage
        04-01T09:00    ? ready training     = 2 of 2 in order
        2027-03-02T23:59:59 ? ready training = 2 of 2 in order, due soon 1
                                            = due soon, Ada, since 2027-03-03T00:00: training in storage to be \
                                              repeated before 2027-03-03 00:00
        2027-03-03T00:00 ? ready training   = 1 of 2 in order, due soon 1
                                            = overdue, Ada, since 2027-03-03T00:00: training in storage lapsed, last \
                                              2026-03-02 09:00
                                            = due soon, Bo, since 2027-04-02T00:00: ...
    )");
}

TEST_CASE("readiness: an opened vial of which no entry says when, and what was given past its use", "[scenarios]") {
    scenario(R"(
        08:00          clock
        08:00          product flu 2 8 event puncture 86400 vial 10
        08:00          check main 5
        08:00          receive main flu A1 20
        08:00          ? ready opened-vials = 1 of 1 in order
        09:00          give main flu A1 1 P1
        09:30          give main flu A1 1 P2
        10:00          ? ready opened-vials = 0 of 1 in order
                                            = act now, flu lot A1 in main, since 09:00: 18 doses are in no whole vials \
                                              of 10, and no entry says when one was opened: its use-by is not known
                                            = - good for 24 h after puncture
                                            = - note the opening when it was (beyond-use, with vial and at), or count \
                                              the doses if none is open
        # opened with its first dose at the latest, it was good until 09:00 of the next day
        03-03T08:59:59 give main flu A1 1 P3
        03-03T09:00    give main flu A1 1 P4        as G
        03-03T09:00    ? ready opened-vials = 0 of 2 in order
                                            = act now, flu lot A1 in main, since 09:00: 16 doses are in no whole \
                                              vials...
                                            = - good for 24 h after puncture
                                            = - note the opening...
                                            = act now, flu lot A1, since 03-03T09:00: 1 dose given out of a vial of \
                                              which no opening is noted: its first dose was taken 2026-03-02 09:00, \
                                              entry ..., and opened then it was usable until 2026-03-03 09:00...
                                            = - entry ..., given 2026-03-03 09:00
        # a clinician decides of the dose given, and the rest of the vial is thrown away
        03-03T10:00    follow-up G decided
        03-03T10:00    count main flu A1 10
        03-03T10:00    ? ready opened-vials = 2 of 2 in order
    )");
}

TEST_CASE("readiness: doses past their expiry are on the shelf from the first instant of the next day", "[scenarios]") {
    scenario(R"(
        00:00          lot flu X 2026-03-02
        08:00          receive main flu X 10
        23:59:59       ? ready doses-to-discard = 1 of 1 in order
        03-03T00:00    ? ready doses-to-discard = 0 of 1 in order
                                            = act now, flu lot X in main, since 03-03T00:00: 10 doses past the expiry \
                                              or use-by date still on the shelf
                                            = - expiry of the lot 2026-03-02
    )");
    scenario(R"(
        08:00          receive main flu A1 10
        08:00          log p 600  5 5 5
        08:10          guidance flu A1 discard
        08:20          ? ready doses-to-discard = 0 of 1 in order
                                            = act now, flu lot A1 in main, since 08:10: 10 doses that guidance said \
                                              to discard still on the shelf
                                            = - expiry of the lot 2026-12-31
    )");
}

TEST_CASE("readiness: doses that wait, here and given, an excursion of no incident, and a patient nobody was told of",
          "[scenarios]") {
    // 5, 9, 9, 5 °C every half hour from 09:30 on: above 8 from 09:52:30 to 10:37:30, so that at 09:52:31 there is a
    // second of it
    scenario(R"(
        07:00  clock
        07:00  check main 5
        07:00  receive main flu A1 10
        10:15  give main flu A1 1 P1        as G
        12:00  log p 1800  5 5 5 5 5 5 9 9 5 5 5  at 07:00
        12:00  ? ready guidance             = 0 of 1 in order
                                            = act now, flu lot A1, since 09:52:31: 9 doses wait for guidance
                                            = - main: 9 doses, warm, point
                                            = act now, flu lot A1, since 10:15: 1 dose given waits for guidance
                                            = - entry ..., given 2026-03-02 10:15
        12:00  ? ready excursions           = 0 of 1 in order
                                            = overdue, main, since 09:52:30: 1 excursion that belongs to no incident
                                            = - too warm, 2026-03-02 09:52:30 to 2026-03-02 10:37:30
        12:00  ? ready doses-followed-up    = 0 of 1 in order
                                            = act now, entry ..., since 10:15: flu lot A1, pending guidance: nothing \
                                              noted of what was done with the patient
        12:30  notice main
        12:30  ? ready excursions           = 1 of 1 in order
        12:30  ? ready incidents            = 0 of 1 in order
                                            = overdue, incident 2026-1, since 12:30: open
        12:32  check main 5                 # the notice has a time in doubt of its own, which ends here
        12:35  follow-up G told
        12:35  ? ready doses-followed-up    = 1 of 1 in order
        12:40  guidance flu A1 use through 12:35 told 2700 0 2
        12:40  ? ready guidance             = 1 of 1 in order
        12:45  close 2026-1
        12:45  ? ready incidents            = 1 of 1 in order
    )");
}

TEST_CASE("readiness: doses have waited since the last instant at which none did", "[scenarios]") {
    // two mornings of 5, 9, 5 °C an hour apart: above 8 from 07:45 to 08:15
    scenario(R"(
        00:00          site unmonitored 100000000
        02-10T06:00    receive main flu A1 10
        02-10T07:00    log p 3600  5 9 5
        02-12T07:00    log p 3600  5 9 5
        02-13T00:00    ? ready guidance     = 0 of 1 in order
                                            = act now, flu lot A1, since 02-10T07:45:01: 10 doses wait for guidance
                                            = - main: 10 doses, warm, point
        # an answer for other doses ends no waiting, and those that were put apart wait on
        02-11T00:00    guidance flu A1 use in main:trip
        02-11T06:00    move flu A1 10 main > main:apart                 as M
        02-13T00:00    ? ready guidance     = 0 of 1 in order
                                            = act now, flu lot A1, since 02-10T07:45:01: 10 doses wait for guidance
                                            = - main, mark apart: 10 doses, warm, point
        02-13T00:00    void M
        02-11T00:00    guidance flu A1 use                              as G
        02-13T00:00    ? ready guidance     = 0 of 1 in order
                                            = act now, flu lot A1, since 02-12T07:45:01: 10 doses wait for guidance
                                            = - main: 10 doses, warm, point
        02-13T00:00    void G
        # those that waited were spent; others came a day later, and it is they that wait
        02-11T00:00    waste main flu A1 10
        02-11T12:00    receive main flu A1 10
        02-13T00:00    ? ready guidance     = 0 of 1 in order
                                            = act now, flu lot A1, since 02-12T07:45:01: 10 doses wait for guidance
                                            = - main: 10 doses, warm, point
    )");
}

TEST_CASE("readiness: what could not be judged is named, and a rule makes it judged", "[scenarios]") {
    scenario(R"(
        08:00  clock
        08:00  ? not-judged                 = checks, logger readings, counts, training, loans, retention
        08:00  ? ready counts               = not judged: no rule is known that says how often to count
        08:00  rules every count 30 every training 365 loans 30
        08:00  ? not-judged                 = checks, logger readings, retention
        08:00  ? ready counts               = 0 of 0 in order           # judged, and nothing there to count
        # what leaves no record in a ledger is named where the programme asks for it
        08:00  rules every count 30 every service 365
        08:00  ? not-judged                 = checks, logger readings, training, loans, service, retention
    )");
}

TEST_CASE("readiness: a check is made in time, late, or not at all", "[scenarios]") {
    // 2 March 2026 is a Monday. Two checks a workday, by 09:00 and by 17:00, with minimum and maximum; a day counts
    // where the doses were there from its beginning on
    scenario(R"(
        02-28T08:00    clock
        02-28T08:00    rules checks 09:00,17:00
        02-28T08:00    place spare 2 8 type room
        02-28T08:00    place counter 15 25 type room
        02-28T08:00    receive main flu A1 10
        03-02T09:00    check main 5 min 4 max 6
        03-02T17:00    check main 5 min 4 max 6
        03-02T17:00    ? ready checks       = 2 of 2 in order           # none is asked for on the weekend
        03-03T08:00    check main 5 min 4 max 6
        03-03T17:00:01 check main 5 min 4 max 6
        03-03T18:00    ? ready checks       = 3 of 4 in order
                                            = overdue, main, since 03-03T17:00: ...
                                            = - 2026-03-03: 1 made late
        03-04T08:00    check main 5
        03-04T18:00    ? ready checks       = 3 of 6 in order
                                            = overdue, main, since 03-03T17:00: ...
                                            = - 2026-03-03: 1 made late
                                            = - 2026-03-04: 2 of 2 missing
    )");
}
