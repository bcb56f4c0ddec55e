// Stock: the phrases of what is on hand: its lists and notes, what must be known beside them, its vials, its accounts,
// and the codes on its boxes.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// what sets the last day
inline constexpr Says<1> through{"through", "through {day}"};
inline constexpr Says<1> until{"until", "until {moment}"};
inline constexpr Says<1> usable_by_expiry{"usable-by-expiry", "{usable}, the expiry"};
inline constexpr Says<2> usable_by{"usable-by", "{usable}, by {limit}"};

// notes
inline constexpr Says<3> allowance_left{"allowance-left", "allowance {number}: {used} used, {left} left"};
inline constexpr Says<2> allowance_none_left{"allowance-none-left", "allowance {number}: {used} used, none left"};
inline constexpr Says<3> allowance_over{"allowance-over", "allowance {number}: {used} used, {over} over"};
inline constexpr Says<2> perhaps_over_allowance{
    "perhaps-over-allowance", "out of range at most {time}: it may have been more than allowance {number} allows"};
inline constexpr Says<2> within_tolerance{"within-tolerance",
                                          "within the probe's tolerance: {side} for at most {time}"};
inline constexpr Says<4> guidance_covers{"guidance-covers",
                                         "guidance of entry {entry} ({verdict}): {issuer}, {reference}"};
inline constexpr Says<2> last_read_out{"last-read-out",
                                       "the last that was read in {place} is out of range, {reading}"};
inline constexpr Says<1> no_readings_yet{"no-readings-yet", "no readings yet for the last {time}"};
inline constexpr Says<1> temperature_not_known{"temperature-not-known", "temperature not known for {time}"};
inline constexpr Says<1> near_reading_for{"near-reading-for",
                                          "near a reading in range, the temperature itself not known: {time}"};
inline constexpr Says<4> stood_in_doubt{
    "stood-in-doubt",
    "incident {incident} is open; doses of this lot were in {place} in its time in doubt, {from} to {until}"};
inline constexpr Says<3> stood_in_doubt_in_parts{
    "stood-in-doubt-in-parts",
    "incident {incident} is open; doses of this lot were in {place} in parts of its time in doubt, {parts}"};
inline constexpr Says<2> without_certificate{"without-certificate",
                                             "readings of {place} without a valid certificate: {lapse}"};
inline constexpr Says<1> expires_on{"expires-on", "expires on {day}"};

// what must be known though the list does not say it
inline constexpr Says<4> guidance_named{"guidance-named",
                                        "guidance of entry {entry} ({verdict}; {issuer}, {reference})"};
inline constexpr Says<3> learnt_after_guidance{
    "learnt-after-guidance",
    "LEARNT AFTER GUIDANCE: {what}, not known when {guidance} was posted, which was told {told} and clears it all the "
    "same: ask its issuer again before they are used"};
inline constexpr Says<4> held_after_guidance{
    "held-after-guidance",
    "HELD AFTER GUIDANCE: entry {entry} ({reason}) was posted after {guidance}, which judges through {through} and so "
    "lifts it: DO NOT USE before its issuer has answered for this, too; hold them again from now on"};
inline constexpr Says<0> sums_alone{"sums-alone", "sums of time and readings alone"};
inline constexpr Says<3> up_to_not{"up-to-not", "{side} at up to {degrees}, not {before}"};
inline constexpr Says<3> down_to_not{"down-to-not", "{side} down to {degrees}, not {before}"};
inline constexpr Says<2> highest_becomes{"highest-becomes", "highest {before} -> {now}"};
inline constexpr Says<2> lowest_becomes{"lowest-becomes", "lowest {before} -> {now}"};
inline constexpr Says<0> no_figures{"no-figures", "no figures"};
inline constexpr Says<0> no_figures_of_it{"no-figures-of-it", "no figures of it"};
inline constexpr Says<2> time_of_side{"time-of-side", "{time} {side}"};
inline constexpr Says<2> at_most_of_side{"at-most-of-side", "at most {time} {side}"};
inline constexpr Says<2> up_to_degrees{"up-to-degrees", "{what} at up to {degrees}"};
inline constexpr Says<2> down_to_degrees{"down-to-degrees", "{what} down to {degrees}"};
inline constexpr Says<1> points_uncovered{"points-uncovered", "{points} out of range that no allowance covers"};
inline constexpr Says<2> incident_settled{"incident-settled",
                                          "INCIDENT {incident} IS OPEN: for these doses it is settled by {guidance}"};
inline constexpr Says<3> may_have_been_out{
    "may-have-been-out",
    "MAY HAVE BEEN OUT OF RANGE: {side} for at most {at_most} by the values around it, {estimate} by the estimate, "
    "which alone decides the list"};
inline constexpr Says<5> may_be_over_allowance{
    "may-be-over-allowance",
    "MAY BE OVER ITS ALLOWANCE: {side} for at most {at_most} by the values around it, {estimate} by the estimate, "
    "which alone decides the list; allowance {number} permits {allowed}"};
inline constexpr Says<1> may_have_frozen{"may-have-frozen",
                                         "MAY HAVE FROZEN: at or below the freeze limit for at most {time} by the "
                                         "values around it, which no list counts"};
inline constexpr Says<3> out_when_last_read{
    "out-when-last-read",
    "OUT OF RANGE WHEN LAST READ: {place} was {reading}, nothing was read in the {time} since, and no figure counts "
    "that time: read it now"};
inline constexpr Says<7> counts_against_allowance{
    "counts-against-allowance",
    "COUNTS AGAINST ALLOWANCE {number}: {place} is kept at {place_range}, {product} is stored at {product_range}; "
    "{used} used of {allowed} in all"};
inline constexpr Says<7> counts_against_thawed{
    "counts-against-thawed",
    "COUNTS AGAINST ALLOWANCE {number}: {place} is kept at {place_range}, {product} is stored at {product_range}; "
    "{used} used of {allowed} in all. What has thawed is not frozen again"};
inline constexpr Says<4> does_not_suit{
    "does-not-suit", "DOES NOT SUIT: {place} is kept at {place_range}, {product} must be at {product_range}"};
inline constexpr Says<1> near_says_nothing{
    "near-says-nothing",
    "{what}; time near a reading is near one in the range of the place, which says nothing of this product's"};
inline constexpr Says<1> condemned_elsewhere{
    "condemned-elsewhere",
    "CONDEMNED ELSEWHERE: guidance says discard for other doses of this lot: {guidance}. Ask its issuer about these "
    "before they are used"};
inline constexpr Says<4> condemning{"condemning", "{issuer}, {reference}, through {when} (entry {entry})"};
inline constexpr Says<5> condemning_in{"condemning-in",
                                       "{issuer}, {reference}, through {when}, in {place} (entry {entry})"};
inline constexpr Says<5> condemning_mark{"condemning-mark",
                                         "{issuer}, {reference}, through {when}, mark {mark} (entry {entry})"};
inline constexpr Says<6> condemning_in_mark{
    "condemning-in-mark", "{issuer}, {reference}, through {when}, in {place}, mark {mark} (entry {entry})"};
inline constexpr Says<2> way_in_no_figure{"way-in-no-figure",
                                          "THE WAY FROM ANOTHER SITE IS IN NO FIGURE (entry {entry}): {way}"};
inline constexpr Says<0> way_not_told{"way-not-told", "how long it was is not known"};
inline constexpr Says<2> way_took{"way-took", "{time} from {left}, of which nothing is known"};
inline constexpr Says<0> way_left_later{"way-left-later",
                                        "not known: by the handover they left later than they were received"};
inline constexpr Says<2> readings_not_come{
    "readings-not-come",
    "THE SENDER'S READINGS HAVE NOT COME (entry {entry}): {time} before these doses left the sender are not known "
    "here, and no list counts them: ask for the handover anew, and note that one in place of this"};
/// What came with a handover: also its text, as the sender's ledger said it.
inline constexpr Says<3> sender_said{
    "sender-said", "FROM THE SENDER ({handover}, entry {entry}), in no figure here: {text}"};
inline constexpr Says<3> sender_forbids{
    "sender-forbids", "FROM THE SENDER, DO NOT USE ({handover}, entry {entry}), in no figure here: {text}"};
inline constexpr Says<2> unknown_let_pass{
    "unknown-let-pass", "NOT KNOWN FOR {time}, which the site's own limit of {limit} lets pass: nobody looked"};
inline constexpr Says<0> nothing_out_of_range_told{"nothing-out-of-range-told", "nothing out of range"};
inline constexpr Says<3> handover_restated{
    "handover-restated",
    "ANOTHER HANDOVER CAME: these doses came by entry {older}, and by entry {newer} the sender states another history "
    "of the same transfer, {told}, which they do not have here: DO NOT USE them before it is put right"};
inline constexpr Says<4> given_before_restated{
    "given-before-restated",
    "ANOTHER HANDOVER CAME, whatever the finding is: {given} came by entry {older}, and by entry {newer} the sender "
    "states another history of the same transfer, {told}, which no finding counts: receive them by the newer one at "
    "the instant and in the place of entry {older}"};
inline constexpr Says<2> vial_not_noted{
    "vial-not-noted",
    "{doses} dose is in no whole vials of {vial}, and no entry says when one was opened: its use-by is not known"
    "|{doses} doses are in no whole vials of {vial}, and no entry says when one was opened: its use-by is not known"};
inline constexpr Says<1> handover_vial_not_noted{
    "handover-vial-not-noted",
    "LAST DAY NOT KNOWN: {vial}. Ask the sender when it was opened, and use none of it before"};

// what guidance lifts
inline constexpr Says<3> recall_stands{
    "recall-stands",
    "A RECALL STANDS (entry {entry}: {reason}), and this answer lifts it for the doses that are here: was {issuer} "
    "asked about that, too? If not, hold them again after it"};

// the lists as a table
inline constexpr Says<0> lists_title{"lists-title", "what may be used and what must not"};
inline constexpr Says<3> list_section{"list-section", "{heading}: {doses} in {holdings}"};
inline constexpr Says<4> list_section_warned{"list-section-warned",
                                             "{heading}: {doses} in {holdings}, {warned} WITH A WARNING"};
inline constexpr Says<1> so_many_in_doubt{"so-many-in-doubt", "{number} in doubt"};
inline constexpr Says<2> in_doubt_and_known_since{
    "in-doubt-and-known-since", "{number} in doubt, {more} of which more is known than when they were cleared"};
inline constexpr Says<4> lists_counts{
    "lists-counts", "DO NOT USE: {discard} to discard, {quarantine} in quarantine, {doubt}. On keep: {keep}."};
inline constexpr Says<5> lists_counts_warned{
    "lists-counts-warned",
    "DO NOT USE: {discard} to discard, {quarantine} in quarantine, {doubt}. On keep: {keep}, {warned} WITH A WARNING."};
inline constexpr Says<0> title_why{"title-why", "Why"};
inline constexpr Says<3> lists_left_out{
    "lists-left-out",
    "Left out here: {reasons}, {notes}, and what the doses have been through; `{why}` shows all of it."};
inline constexpr Says<1> more_reasons{"more-reasons", "{number} more reason|{number} more reasons"};
inline constexpr Says<1> notes{"notes", "{number} note|{number} notes"};
inline constexpr Says<0> by_guidance{"by-guidance", "by guidance"};
inline constexpr Says<0> doubt_cell{"doubt-cell", "IN DOUBT"};
inline constexpr Says<0> allowance_used_up{"allowance-used-up", "allowance used up"};
inline constexpr Says<2> last_day_set_by{"last-day-set-by", "Last day set by {limit}; expiry of the lot: {day}"};
inline constexpr Says<1> expiry_decides{"expiry-decides", "{use_by}, after the expiry: the expiry decides"};

// stock as a table
inline constexpr Says<0> stock_title{"stock-title", "doses on hand"};
inline constexpr Says<0> no_doses_on_hand{"no-doses-on-hand", "No doses on hand."};
inline constexpr Says<0> title_account{"title-account", "Account"};
inline constexpr Says<0> title_means{"title-means", "Means"};
inline constexpr Says<0> account_supplier{"account-supplier", "supplier"};
inline constexpr Says<0> account_patient{"account-patient", "patient"};
inline constexpr Says<0> account_wasted{"account-wasted", "wasted"};
inline constexpr Says<0> account_returned{"account-returned", "returned"};
inline constexpr Says<0> account_transferred{"account-transferred", "transferred"};
inline constexpr Says<0> account_variance{"account-variance", "variance"};
inline constexpr Says<0> account_on_hand{"account-on-hand", "on hand"};
inline constexpr Says<0> means_supplier{"means-supplier", "received, counted as negative"};
inline constexpr Says<0> means_patient{"means-patient", "given"};
inline constexpr Says<0> means_returned{"means-returned", "sent back"};
inline constexpr Says<0> means_transferred{"means-transferred", "sent to other sites"};
inline constexpr Says<0> means_variance{"means-variance", "missing in counts, less those found"};
inline constexpr Says<0> means_on_hand{"means-on-hand", "the holdings above"};
inline constexpr Says<0> accounts_add_up{"accounts-add-up", "They add up to 0, as they must."};
inline constexpr Says<1> accounts_do_not_add_up{"accounts-do-not-add-up",
                                                "THEY ADD UP TO {sum}, NOT TO 0: verify the ledger."};

// the code on a box
inline constexpr Says<0> scan_title{"scan-title", "what the code on the box says"};
inline constexpr Says<3> scan_element{"scan-element", "({ai}) {title}: {value}"};
inline constexpr Says<2> scan_element_untitled{"scan-element-untitled", "({ai}) {value}"};
inline constexpr Says<1> scan_product{"scan-product", "Product {product}"};
inline constexpr Says<2> scan_product_lot{"scan-product-lot", "Product {product}, lot {lot}"};
inline constexpr Says<3> scan_product_lot_expires{"scan-product-lot-expires",
                                                  "Product {product}, lot {lot}, expires {day} by the ledger"};
inline constexpr Says<3> gtin_of_another{
    "gtin-of-another",
    "GTIN {gtin} on the box is none of product {product}, which has {gtins}: is it another product? Compare the names "
    "on box and screen"};
inline constexpr Says<2> gtin_not_known{
    "gtin-not-known",
    "GTIN {gtin} is of no product known here: compare the names on box and screen; where they agree, state it with the "
    "product ({parameter})"};
inline constexpr Says<1> separator_lost{
    "separator-lost",
    "the code may say {perhaps}: the scanner sent no separator; compare lot and serial number with what is printed on "
    "the box"};
inline constexpr Says<0> expires_at_an_hour{
    "expires-at-an-hour",
    "the code states an hour of expiry (7003), which a lot here cannot have: mind it yourself"};
inline constexpr Says<0> code_without_gtin{"code-without-gtin", "the code states no GTIN"};
inline constexpr Says<0> code_without_lot{"code-without-lot", "the code states no lot"};
inline constexpr Says<0> told_by_lot_alone{"told-by-lot-alone", "the product is told by the lot's number alone"};
inline constexpr Says<2> lot_of_several{"lot-of-several", "lot {lot} is of {products}: only the box says which"};
inline constexpr Says<2> gtin_of_several{"gtin-of-several", "GTIN {gtin} is of {products}: only the box says which"};
inline constexpr Says<2> lot_not_known{"lot-not-known",
                                       "lot {lot} of {product} is not known: a delivery defines it"};
inline constexpr Says<2> expiry_differs{
    "expiry-differs",
    "EXPIRY DIFFERS: the code says {code}, the ledger {ledger}; do not use before it is settled"};
inline constexpr Says<1> whatever_below{"whatever-below", "{what}, whatever stands below"};
inline constexpr Says<0> no_doses_of_lot{"no-doses-of-lot", "no doses of this lot are here by the ledger"};

}  // namespace coldtally::words
