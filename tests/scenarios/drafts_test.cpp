// Drafts: what a give, a move, a delivery fills in, asks and warns of. Invented clinics, worked by hand from
// lib/drafts/README.md and lib/stock/README.md (Opened vials). That a careful person wants these warnings is common
// practice, no source.
#include <catch2/catch.hpp>

#include "site.hpp"

using scenarios::scenario;

TEST_CASE("drafts: what has one meaning is filled in, and a lot in two places is asked about", "[scenarios]") {
    scenario(R"(
        08:00  clock
        08:00  check main 5
        08:00  check spare 5
        08:00  receive main flu A1 10
        08:00  receive main flu B2 5
        08:00  receive spare flu B2 6
        09:00  ? fills give lot A1 patient P1 = at 2026-03-02 09:00
                                            = place "main"
                                            = product "flu"
        09:00  ? makes give lot A1 patient P1 = give at 09:00: main flu A1 1
        09:00  ? makes give lot A1 patient P1 at 08:30 doses 2 = give at 08:30: main flu A1 2
        09:00  ? warns give lot A1 patient P1 = none
        09:00  ! do give lot B2 patient P1  = ambiguous: 2 holdings match; state the place: `--place main`: 5 doses, \
                                              usable through 2026-12-31; `--place spare`: 6 doses, usable through \
                                              2026-12-31
        09:00  ? makes give lot B2 place spare patient P1 = give at 09:00: spare flu B2 1
        09:00  ! do give lot A7 patient P1  = not-defined: no lot of this number is known
        09:00  ! do give lot A1 place spare patient P1 = not-there: there are: `--place main`: 10 doses
        09:00  ! do give lot A1 patient P1 at 07:59 = not-there: no doses at 2026-03-02 07:59
        09:00  do give lot A1 patient P1    as G
        09:00  ? stock main flu A1          = 9
        09:30  ? warns give lot A1 patient P1 = entry ... gave the same patient of this lot at 2026-03-02 09:00 \
                                              already: if it is the same dose, take one back
        # twelve hours after the last that was read, somebody is asked to look first
        20:00  ? warns give lot A1 patient P2 = none
        20:00:01 ? warns give lot A1 patient P2 = NOTHING WAS READ in "main" for 12 h 1 min: look at its display \
                                              first, and note what it shows
    )");
}

TEST_CASE("drafts: a move takes all there is, keeps its mark, and says what it joins", "[scenarios]") {
    scenario(R"(
        08:00  clock
        08:00  check main 5
        08:00  check spare 5
        08:00  receive main flu B2 5
        08:00  receive spare flu B2 6
        09:00  ? fills move lot B2 from spare to main = at 2026-03-02 09:00
                                            = product "flu"
                                            = doses 6, all that are there
        09:00  ? makes move lot B2 from spare to main = move at 09:00: 6 of spare flu B2 > main
        09:00  ? warns move lot B2 from spare to main = joins 5 doses of the lot that are in "main" without a mark: \
                                              from then on all of them count as exposed to the worse of the two; a \
                                              mark of its own keeps them apart
        09:00  ? warns move lot B2 from spare to main:bag = none
        09:00  do move lot B2 from spare to main:bag
        09:00  ? stock                      = main flu B2: 5, expiry 2026-12-31
                                            = main:bag flu B2: 6, expiry 2026-12-31
        09:10  ! do move lot B2 to spare    = ambiguous: 2 holdings match; state the mark
        09:10  ? makes move lot B2 from :bag to spare = move at 09:10: 6 of main:bag flu B2 > spare:bag
        09:10  ? fills move lot B2 from :bag to spare = at 2026-03-02 09:10
                                            = place "main"
                                            = product "flu"
                                            = the mark stays "bag"
                                            = doses 6, all that are there
        09:20  hold flu lot B2 in main:bag
        09:20  ? warns move lot B2 from :bag to main: = ...joins 5 doses of the lot...
                                            = the doses lose their mark "bag" while they are on the list \
                                              quarantine-pending-guidance
                                            = DO NOT USE: lot "B2" comes to "main" as it is, on the list \
                                              quarantine-pending-guidance (held)...
        # a unit that was read out of range takes none
        09:30  check spare 9
        09:30  ? warns move lot B2 from main: to spare = the last that was read in "spare" is out of range, 9 °C at \
                                              2026-03-02 09:30: wait until it is in range, or take another
        09:40  check spare 5
        09:40  ? warns move lot B2 from main: to spare doses 1 = none
    )");
}

TEST_CASE("drafts: doses that must not be used are warned of, whichever way they go", "[scenarios]") {
    scenario(R"(
        08:00  clock
        08:00  lot flu X 2026-03-02
        08:00  check main 5
        08:00  receive main flu A1 10
        08:00  receive main flu X 4
        09:00  ? warns give lot A1 patient P1 = none
        09:00  ? warns waste lot A1 doses 1 reason dropped = none
        09:00  hold flu lot A1 in main      as H
        09:10  ? warns give lot A1 patient P1 = NOT ON KEEP: lot "A1" in "main" was on the list \
                                              quarantine-pending-guidance then (held). If it has not been given yet, \
                                              do not give it; if it has, it stands on the review list, and a \
                                              clinician decides with the health department
        09:10  ? warns waste lot A1 doses 1 reason dropped = lot "A1" in "main" is on the list quarantine (held): an \
                                              answer is awaited, and may be that these doses can be used: throw \
                                              nothing away and send nothing back before it has come
        09:10  ? warns return lot A1 doses 1 reason recalled = lot "A1" in "main" is on the list quarantine (held): \
                                              an answer is awaited...
        09:10  ? warns transfer lot A1 doses 2 to Harbour reason short = NOT ON KEEP: lot "A1" in "main" was on the \
                                              list quarantine-pending-guidance then (held). The receiver must be told, \
                                              and their exposure goes with the doses
        # dated before the hold it was all right
        09:10  ? warns give lot A1 patient P1 at 08:59 = none
        # taking the hold back is asked about
        09:20  ? asks void voids H reason mistaken = LOOSENS: 10 doses would come off a list of what must not be \
                                              used: ...A1...
        09:20  ! do void voids H reason mistaken = missing-field: LOOSENS
        09:20  ? lists main flu A1          = quarantine-pending-guidance: held
        09:20  do void voids H reason mistaken meant
        09:20  ? lists main flu A1          = keep
        23:50  check main 5
        23:59:59 ? warns give lot X patient P1 = none
        03-03T00:00 ? warns give lot X patient P1 = NOT ON KEEP: lot "X" in "main" was on the list discard then \
                                              (expired)...
    )");
}

TEST_CASE("drafts: an open incident is named where doses are taken that stood in its time in doubt", "[scenarios]") {
    scenario(R"(
        07:00  clock
        07:00  check main 5
        07:00  check spare 5
        07:00  receive main flu A1 10
        07:00  receive spare flu B2 5
        10:00  notice main unheld the-alarm-is-being-tested
        10:05  ? warns give lot A1 patient P1 = ...incident 2026-1 is open; doses of this lot were in main in its \
                                              time in doubt...DO NOT USE these yet...
        10:05  ? warns give lot B2 patient P1 = none
        10:05  ? warns move lot B2 to main  = ...IN DOUBT: incident 2026-1 is open, and "main" is not known to be \
                                              good again: what comes in now is in doubt, too, and is on no hold...
        10:10  check main 5
        10:10  ? warns move lot B2 to main  = none
    )");
}

TEST_CASE("drafts: an opening is offered, noted with the give, and its use-by is minded", "[scenarios]") {
    scenario(R"(
        08:00  clock
        08:00  product flu 2 8 event puncture 86400 vial 10
        08:00  check main 5
        08:00  receive main flu A1 30
        09:10  ? warns give lot A1 patient P1 = NO OPENING IS NOTED: "flu" comes in vials of 10 doses, good for 24 h \
                                              after puncture, and nothing says when the vial of lot "A1" in "main" was \
                                              opened. Opened at 2026-03-02 09:10 it would be usable until 2026-03-03 \
                                              09:10, by beyond-use. Note it with this entry...
        09:10  ? warns waste lot A1 doses 10 reason dropped = none           # a whole vial
        09:10  ? warns waste lot A1 doses 3 reason drawn-up = NO OPENING IS NOTED...
        09:10  ? makes give lot A1 patient P1 opened 09:00 vial v1 = move at 09:00: 10 of main flu A1 > main:v1
                                            = beyond-use at 09:00: main:v1 flu A1 puncture
                                            = give at 09:10: main:v1 flu A1 1
        09:10  ? then give lot A1 patient P1 opened 09:00 vial v1 = Write on the vial: opened 2026-03-02 09:00, use \
                                              until 2026-03-03 09:00, by beyond-use (24 h after puncture); its mark \
                                              here is "v1".
        09:10  ! do give lot A1 patient P1 opened 09:20 vial v1 = contradiction: must not be after at, 2026-03-02 09:10
        09:10  do give lot A1 patient P1 opened 09:00 vial v1
        09:10  ? stock                      = main flu A1: 20, expiry 2026-12-31
                                            = main:v1 flu A1: 9, expiry 2026-12-31
        09:20  ? warns give lot A1 mark v1 patient P2 = none
        09:20  ? makes give lot A1 patient P2 vial v2 = move at 09:20: 10 of main flu A1 > main:v2   # a new vial
                                            = beyond-use at 09:20: main:v2 flu A1 puncture
                                            = give at 09:20: main:v2 flu A1 1
        09:20  ! do give lot A1 patient P2  = ambiguous: 2 holdings match; state the mark
        09:20  ! do give lot A1 patient P2 vial v1 = contradiction: doses of this lot have that mark there already
        # one dose out of a vial that nobody noted: of 19, the next opening may be of a full vial or of this one
        09:30  do give lot A1 mark - patient P3   as G
        09:40  ! do beyond-use lot A1 mark - vial v2 at 09:30 = ambiguous: must be what was in this one when it was \
                                              opened: `--vial-doses 10`: it was full; `--vial-doses 9`: it is the one \
                                              in use already
        09:40  ? warns give lot A1 mark - patient P4 = NO OPENING IS NOTED...By the book the first dose of this vial \
                                              was taken 2026-03-02 09:30, entry ...: opened then it was usable until \
                                              2026-03-03 09:30...
        09:40  do beyond-use lot A1 mark - vial v2 vial_doses 9 at 09:30
        09:40  ? stock                      = main flu A1: 10, expiry 2026-12-31
                                            = main:v1 flu A1: 9, expiry 2026-12-31
                                            = main:v2 flu A1: 9, expiry 2026-12-31
        # the next day the first vial is past its use at 09:00, the second at 09:30
        20:00  check main 5
        03-03T08:00 check main 5
        03-03T08:59:59 ? warns give lot A1 mark v1 patient P5 = none
        03-03T09:00 ? warns give lot A1 mark v1 patient P5 = NOT ON KEEP: ... was on the list discard then (expired)...
        03-03T09:00 ? warns give lot A1 mark v2 patient P5 = none
        03-03T09:00 ? warns give lot A1 patient P5 opened 03-02T08:30 vial v3 = GIVEN SINCE THEN out of the doses \
                                              that were not opened: entry ... at 2026-03-02 09:30...
                                            = PAST ITS USE: this vial was usable until 2026-03-03 08:30, by \
                                              beyond-use...
        03-03T09:30 ? warns give lot A1 mark v2 patient P5 = NOT ON KEEP: ... was on the list discard then (expired)...
    )");
}

TEST_CASE("drafts: a delivery defines its lot, and says where box and book do not agree", "[scenarios]") {
    scenario(R"(
        08:00  clock
        08:00  check main 5
        08:00  receive main flu A1 10
        09:00  ? makes receive place main product flu lot C3 doses 5 expiry 2027-01-31 = lot: flu C3 2027-01-31
                                            = receive at 09:00: main flu C3 5
        09:00  ! do receive place main lot C3 doses 5 = not-defined: no lot of this number is known
        09:00  ! do receive place main lot A1 doses 5 expiry 2026-11-30 = contradiction: read the label again
        09:00  ? warns receive place main lot A1 doses 5 expiry 2026-12-31 = joins 10 doses of the lot that are in \
                                              "main" without a mark...
        09:00  ! do receive lot A1 doses 5  = ambiguous: must be one of these: `--place counter`: counter; \
                                              `--place main`: main; `--place spare`: spare
        09:00  do receive place main product flu lot C3 doses 5 expiry 2027-01-31
        09:00  ? stock main flu C3          = 5
        09:05  ? warns receive place main product flu lot c3 doses 5 expiry 2027-01-31 = lot "c3" is easily taken for \
                                              lot "C3" of "flu": read the label again
        # stocks of two funds are never one: once there are two, it must be said which
        10:00  receive main flu B2 5 fund state
        10:10  ! do receive place main lot A1 doses 5 = ambiguous: this site keeps stocks apart: must be one \
                                              of these, or another: `--fund state`
        10:10  ? makes receive place main lot A1 doses 5 fund - = receive at 10:10: main flu A1 5
        # a recall that stands holds what comes
        11:00  hold flu lot A1
        11:10  ! do receive place main:new lot A1 doses 5 fund - = missing-field: Received without a history they \
                                              would count as never exposed
        11:10  ? warns receive place main:new lot A1 doses 5 fund - note another-box = DO NOT USE: a recall of this \
                                              lot stands (entry ...): recall
                                            = THE SAME DOSES? ...
    )");
}

TEST_CASE("drafts: doses that left exposed do not come back without their history", "[scenarios]") {
    // 5, 9, 5 °C in steps of half an hour: above 8 from 08:22:30 to 08:37:30
    scenario(R"(
        08:00  clock
        09:00  log p 1800  5 9 5  at 08:00
        09:00  receive main flu A1 10       at 08:00
        09:10  transfer main flu A1 10
        09:20  log p 1800  5  at 09:20
        09:30  ! do receive place main lot A1 doses 10 = missing-field: Received without a history they would count \
                                              as never exposed
        09:30  ? warns receive place main lot A1 doses 10 note another-box = THE SAME DOSES? ...
        09:30  ? makes receive place main lot B2 doses 10 = receive at 09:30: main flu B2 10
    )");
}
