// Drafts: the phrases of what a draft fills in, and of what is done with it.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// what is named, each with its value
inline constexpr Says<1> site_named{"site-named", "site {site}"};
inline constexpr Says<1> maker_named{"maker-named", "maker of {product}"};

// doses and where they are
inline constexpr Says<2> lot_in{"lot-in", "lot {lot} in {place}"};
inline constexpr Says<2> lot_in_place{"lot-in-place", "{doses} in {place}"};
inline constexpr Says<1> in_doubt_of{"in-doubt-of", "in doubt of incident {incident}"};
inline constexpr Says<1> in_doubt_of_open{"in-doubt-of-open", "in doubt of incident {incident}, which is open"};

// filled in
inline constexpr Says<1> kept_as_it_was{"kept-as-it-was", "kept as it was: {names}"};
inline constexpr Says<1> lot_is_new{"lot-is-new", "lot {lot} is new and defined with it"};
inline constexpr Says<0> to_the_same_place{"to-the-same-place", "to the same place"};
inline constexpr Says<1> mark_stays{"mark-stays", "the mark stays {mark}"};
inline constexpr Says<1> all_doses_there{"all-doses-there", "doses {number}, all that are there"};
inline constexpr Says<2> all_lots_there{"all-lots-there", "all that is in {place}: {lots}"};
inline constexpr Says<1> scale_of_probe{"scale-of-probe", "scale {scale} (that of the probe)"};
inline constexpr Says<1> scale_of_check{"scale-of-check", "scale {scale} (that of its check before)"};
inline constexpr Says<1> scale_of_probe_in_it{"scale-of-probe-in-it", "scale {scale} (that of the probe in it)"};
inline constexpr Says<1> lot_from_code{"lot-from-code", "lot {lot}, from the code"};
inline constexpr Says<1> product_from_code{"product-from-code", "product {product}, from the code"};
inline constexpr Says<1> expiry_from_code{"expiry-from-code", "expiry {expiry}, from the code"};
inline constexpr Says<4> give_named{"give-named", "give {entry} ({at}, {lot}, {finding})"};
inline constexpr Says<0> not_on_review_list{"not-on-review-list", "not on the review list"};

// refused, with the way out
inline constexpr Says<4> unsuited_doses{"unsuited-doses",
                                        "container: {container}: its range is not the storage of {doses}: say whether "
                                        "they are taken all the same or left ({take}, {leave})"};

// which one of several, before the choices
inline constexpr Says<0> nothing_stated{"nothing-stated", "nothing is stated"};
inline constexpr Says<3> holdings_match{"holdings-match", "lot: {stated}: {holdings} match; state the {parts}"};
inline constexpr Says<2> no_doses_then{"no-doses-then", "lot: {stated}: no doses at {when}"};
inline constexpr Says<0> lot_nowhere_then{"lot-nowhere-then", "that lot has no doses anywhere then"};
inline constexpr Says<1> but_there_are{"but-there-are", "{refused}; there are"};
inline constexpr Says<2> code_of_products{"code-of-products",
                                          "product: GTIN {gtin} is that of {products}; state the product"};
inline constexpr Says<0> place_not_stated{"place-not-stated", "place: not stated; must be one of these"};
inline constexpr Says<0> fund_not_stated{
    "fund-not-stated", "fund: not stated; this site keeps stocks apart: must be one of these, or another"};
inline constexpr Says<2> vial_doses_not_stated{
    "vial-doses-not-stated",
    "vial_doses: not stated, and the {there} doses there are in no whole vials of {vial}: must be what was in this "
    "one when it was opened"};
inline constexpr Says<0> vial_was_full{"vial-was-full", "it was full"};
inline constexpr Says<0> vial_was_in_use{"vial-was-in-use", "it is the one in use already"};
inline constexpr Says<1> patient_doses{
    "patient-doses", "patient: may be {number} doses: state the give or the lot, or that it is of every one"};
inline constexpr Says<0> each_of_these{"each-of-these", "each of these"};
inline constexpr Says<1> counted_which{"counted-which", "count: {lot}: is there more than once; state one of these"};
inline constexpr Says<1> doses_opened{"doses-opened", "{doses}, opened"};
inline constexpr Says<1> doses_in_book{"doses-in-book", "{number} in the book"};

// the code on a box
inline constexpr Says<1> reads_like_a_code{"reads-like-a-code",
                                           "lot {lot} reads like the code on a box: is it the lot's number?"};
inline constexpr Says<2> expiry_of_product{"expiry-of-product", "{expiry} of product {product}"};
inline constexpr Says<3> code_and_ledger_differ{"code-and-ledger-differ",
                                                "the code says {code}, the ledger {expiry}, lot {lot}"};
inline constexpr Says<1> box_apart{"box-apart",
                                   "EXPIRY DIFFERS: {differ}: keep the box apart until it is settled which is right"};

// packing and unpacking
inline constexpr Says<1> departure_not_measured{"departure-not-measured",
                                                "the temperature of {place} at departure is not stated"};
inline constexpr Says<1> arrival_not_measured{"arrival-not-measured",
                                              "the temperature of {place} at arrival is not stated"};
inline constexpr Says<2> noted_a_second_before{
    "noted-a-second-before",
    "the temperature of {place} is noted a second before, at {at}, because it is of the doses that leave"};
inline constexpr Says<2> left_unsuited{"left-unsuited",
                                       "left in {place}, because the container does not suit them: {doses}"};
inline constexpr Says<1> container_not_known{
    "container-not-known",
    "no logger is in {container}, and no temperature of it is stated: the time in it is not known, and puts the doses "
    "into quarantine unless checks are made"};
inline constexpr Says<2> mark_keeps_apart{"mark-keeps-apart",
                                          "mark {mark} keeps lot {lot} apart from what did not travel"};
inline constexpr Says<2> joins_two{
    "joins-two", "joins two holdings of lot {lot} in {place}: all count as exposed to the worse of the two"};
inline constexpr Says<2> in_the_book{"in-the-book", "{doses} ({number} in the book)"};

// what is asked about whatever the lists show
inline constexpr Says<2> counts_as_certified{
    "counts-as-certified",
    "readings of probe {probe} from {at} on, which are known, would count as made with this certificate"};
inline constexpr Says<5> would_not_have_left{
    "would-not-have-left",
    "{doses} of {product} lot {lot} would not have left for {to}, which would be told no more of what they have been "
    "through; here they would be in {place}, or missing"};

// a late entry that movements after it contradict
inline constexpr Says<1> late_asks{
    "late-asks",
    "LATE: {number} later entry cannot stand as it is with this one; it is taken back and posted again after it|LATE: "
    "{number} later entries cannot stand as they are with this one; they are taken back and posted again after it"};
inline constexpr Says<3> late_changed{"late-changed", "the move of entry {entry} is of {after} doses, not {before}"};
inline constexpr Says<1> late_dropped{"late-dropped", "the move of entry {entry} is not posted again: nothing is left"};

// what was posted, in lines
inline constexpr Says<0> dry_run_would_be{"dry-run-would-be",
                                          "DRY RUN: nothing has been written. This is what would be."};
inline constexpr Says<2> entry_line{"entry-line", "Entry {entry}: {what}."};
inline constexpr Says<1> warning_line{"warning-line", "WARNING: {text}."};
inline constexpr Says<1> filled_in{"filled-in", "Filled in: {what}."};
inline constexpr Says<1> looser_than_before{"looser-than-before", "LOOSER: {how}"};
inline constexpr Says<1> with_these_entries{"with-these-entries", "with these entries: {what}"};

}  // namespace coldtally::words
