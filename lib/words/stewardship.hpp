// Stewardship: the phrases of dates, of loans between funds, and of dose accountability.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

inline constexpr Says<0> no_fund{"no-fund", "(no fund)"};

// dates
inline constexpr Says<0> title_dates{"title-dates", "until when doses may be used, and in which order"};
inline constexpr Says<0> title_use{"title-use", "Use"};
inline constexpr Says<0> title_set_by{"title-set-by", "Shortened by"};
inline constexpr Says<0> title_left_over{"title-left-over", "Left over"};
inline constexpr Says<2> later_limit{"later-limit", "later: {day}, {limit}"};
inline constexpr Says<6> rate_of_use{
    "rate-of-use",
    "{product}, {fund}: {given} given in the last {days} days; {to_use} to use, of which {left_over} will not be used "
    "in time at that rate"};
inline constexpr Says<2> rate_says_little{"rate-says-little",
                                          "{rate} (first received on {when}: the rate says little yet)"};

// loans
inline constexpr Says<0> title_loans{"title-loans", "doses lent between funds"};
inline constexpr Says<0> title_loan{"title-loan", "Loan"};
inline constexpr Says<0> title_lent_by{"title-lent-by", "Lent by"};
inline constexpr Says<0> title_owed_by{"title-owed-by", "Owed by"};
inline constexpr Says<0> title_open{"title-open", "Open"};
inline constexpr Says<0> title_age{"title-age", "Age"};
inline constexpr Says<1> repay_within{
    "repay-within",
    "The programme wants them repaid within {days} day.|The programme wants them repaid within {days} days."};
inline constexpr Says<0> repay_not_known{
    "repay-not-known", "No programme's time for repaying is known here: nothing is called overdue."};
inline constexpr Says<0> no_loans{"no-loans", "No loans to list."};
inline constexpr Says<0> loan_repaid{"loan-repaid", "repaid"};
inline constexpr Says<1> loan_open_until{"loan-open-until", "open, overdue from {when}"};
inline constexpr Says<1> loan_overdue{"loan-overdue", "OVERDUE since {when}"};
inline constexpr Says<1> patient_named{"patient-named", "patient {patient}"};
inline constexpr Says<3> repaid_on{"repaid-on", "repaid {doses} on {when} ({entry})"};
inline constexpr Says<1> with_entry{"with-entry", "with entry {entry}"};
inline constexpr Says<4> fund_owes{"fund-owes", "{owed_by} owes {lent_by} {doses} of {product}."};

// accountability
inline constexpr Says<0> title_accountability{"title-accountability", "dose accountability"};
inline constexpr Says<0> title_start{"title-start", "Start"};
inline constexpr Says<0> title_received_short{"title-received-short", "Rcvd"};
inline constexpr Says<0> title_in{"title-in", "In"};
inline constexpr Says<0> title_returned_short{"title-returned-short", "Retd"};
inline constexpr Says<0> title_lost{"title-lost", "Lost"};
inline constexpr Says<0> title_end{"title-end", "End"};
inline constexpr Says<1> period{"period", "Period {window}."};
inline constexpr Says<1> given_on_loan{"given-on-loan",
                                       "of those given, {doses} to people another fund should have paid for"};
inline constexpr Says<0> figures_do_not_add_up{"figures-do-not-add-up", "DOES NOT ADD UP: verify the ledger."};
inline constexpr Says<0> all_lots{"all-lots", "all lots"};
inline constexpr Says<0> losses_by_reason{"losses-by-reason", "Wasted and returned, by reason:"};
inline constexpr Says<4> loss_line{"loss-line", "{product}, {fund}: {counts}: {reason}"};
inline constexpr Says<1> loss_wasted{"loss-wasted", "{doses} wasted"};
inline constexpr Says<1> loss_returned{"loss-returned", "{doses} returned"};
inline constexpr Says<2> loss_both{"loss-both", "{wasted} wasted, {returned} returned"};
inline constexpr Says<0> accountability_sum{
    "accountability-sum",
    "Start + received + in (with a history from another site) + found in counts = given + wasted + returned + out (to "
    "other sites) + lost in counts + end. Lost doses are missing, not wasted."};

}  // namespace coldtally::words
