// Doses lent by one fund to another. Invented clinic, worked by hand from lib/stock/README.md (Loans).
#include <catch2/catch.hpp>

#include "site.hpp"

using scenarios::scenario;

TEST_CASE("loans: a loan stays open until it is repaid, is overdue from the day after, and opens again",
          "[scenarios]") {
    // given on 2 March in Chicago; 30 days later is 1 April, whose end there is 05:00 UTC of the 2nd (UTC-5 by then)
    scenario(R"(
        07:00  clock
        07:00  site zone America/Chicago
        07:00  check main 5
        08:00  receive main flu A1 10 fund state
        09:00  give main flu A1 2 P1 fund state   as G
        09:05  ! loan G state delayed       = contradiction: nothing is owed
        09:05  ! loan 1 private delayed     = not-defined: must be the number of a give
        09:10  loan G private delayed       as L
        09:10  ! loan G other delayed       = contradiction: is lent already
        09:10  ? stock main flu A1 fund state = 8            # a loan moves nothing
        03-12T09:00 ? loans                 = L private owes state 2 of 2, 10 d
                                            = in all private owes state 2 of flu
        03-12T09:00 ? ready loans           = not judged: no rule is known that says how soon loans are to be repaid
        03-12T09:00 rules loans 30
        03-12T09:00 ? loans                 = L private owes state 2 of 2, 10 d, due before 04-02T05:00
                                            = in all private owes state 2 of flu
        # one dose comes back
        03-20T09:00 receive main flu A1 1 fund state   as B
        03-20T09:05 ! repayment L 3         = not-enough: at most the 2
        03-20T09:05 ! repayment L 2 with B  = not-enough: only 1 doses left
        03-20T09:05 ! repayment L 1 with 1  = not-defined: must be a receive
        03-20T09:10 repayment L 1 with B    as R
        03-20T09:10 ? loans                 = L private owes state 1 of 2, 18 d, due before 04-02T05:00
                                            = in all private owes state 1 of flu
        04-02T04:59:59 ? ready loans        = 1 of 1 in order
        04-02T05:00 ? loans                 = L private owes state 1 of 2, 30 d, OVERDUE since 04-02T05:00
                                            = in all private owes state 1 of flu
        04-02T05:00 ? ready loans           = 0 of 1 in order
                                            = overdue, loan of entry ..., since 04-02T05:00: 1 of flu not repaid
        04-03T09:00 ! repayment L 2         = not-enough: at most the 1
        04-03T09:00 repayment L 1
        04-05T09:00 ? loans                 = none
        04-05T09:00 ? loans all             = L private owes state 0 of 2, 32 d, due before 04-02T05:00
        04-05T09:00 ? ready loans           = 0 of 0 in order
        # taking a repayment back opens it again, taking the give back undoes it
        04-05T09:00 void R
        04-05T09:00 ? loans                 = L private owes state 1 of 2, 34 d, OVERDUE since 04-02T05:00
                                            = in all private owes state 1 of flu
        04-05T09:10 void G
        04-05T09:10 ? loans all             = none
    )");
}

TEST_CASE("loans: the balance between two funds is of all that is open, product by product", "[scenarios]") {
    scenario(R"(
        07:00  clock
        07:00  product mmr 2 8
        07:00  lot mmr M1 2026-12-31
        07:00  check main 5
        08:00  receive main flu A1 10 fund state
        08:00  receive main mmr M1 10 fund private
        09:00  give main flu A1 1 P1 fund state   as G1
        09:10  give main flu A1 3 P2 fund state   as G2
        09:20  give main mmr M1 1 P3 fund private as G3
        09:30  loan G1 private delayed      as L1
        09:30  loan G2 private delayed      as L2
        09:30  loan G3 state delayed        as L3
        10:00  ? loans                      = L1 private owes state 1 of 1, 0 d
                                            = L2 private owes state 3 of 3, 0 d
                                            = L3 state owes private 1 of 1, 0 d
                                            = in all private owes state 4 of flu
                                            = in all state owes private 1 of mmr
        # a dose of the owing fund given to somebody of the lending one pays back, too
        11:00  receive main flu A1 5 fund private
        11:10  give main flu A1 1 P4 fund private as G4
        11:10  repayment L2 1 with G4
        11:10  ? loans                      = L1 private owes state 1 of 1, 0 d
                                            = L2 private owes state 2 of 3, 0 d
                                            = L3 state owes private 1 of 1, 0 d
                                            = in all private owes state 3 of flu
                                            = in all state owes private 1 of mmr
    )");
}
