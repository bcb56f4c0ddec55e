// Journeys: the phrases of move lists and trips, of handovers, and of doses that left.
#pragma once

#include "words/general.hpp"

namespace coldtally::words {

// which doses

// what happened on a journey
inline constexpr Says<2> check_read{"check-read", "check of {place}: {degrees}"};
inline constexpr Says<2> first_reading{"first-reading", "first logger reading of {place}: {degrees}"};
inline constexpr Says<2> lowest_reading{"lowest-reading", "lowest logger reading of {place}: {degrees}"};
inline constexpr Says<2> highest_reading{"highest-reading", "highest logger reading of {place}: {degrees}"};
inline constexpr Says<2> last_reading{"last-reading", "last logger reading of {place}: {degrees}"};
inline constexpr Says<2> last_good_reading{"last-good-reading", "last good reading of {place}: {degrees}"};
inline constexpr Says<1> no_good_reading{"no-good-reading",
                                         "no reading of {place} in range is known before the departure"};
inline constexpr Says<2> noticed_then{"noticed-then", "noticed (incident {incident}): {text}"};
inline constexpr Says<2> departure_to{"departure-to", "departure to {destination} ({reason})"};
inline constexpr Says<0> arrival{"arrival", "arrival"};

// a trip as a table
inline constexpr Says<3> title_trip{"title-trip", "journey of {container} to {destination} ({reason})"};
inline constexpr Says<0> title_back{"title-back", "Back"};
inline constexpr Says<0> title_aboard{"title-aboard", "Aboard"};
inline constexpr Says<1> packed_by{"packed-by", "Packed by {who}"};
inline constexpr Says<1> approval_is{"approval-is", "Approval: {text}"};
inline constexpr Says<1> coolant_is{"coolant-is", "Coolant: {text}"};
inline constexpr Says<1> conditioning_is{"conditioning-is", "Conditioning: {text}"};
inline constexpr Says<1> received_by{"received-by", "Received by {who}"};
inline constexpr Says<1> trip_lasted{"trip-lasted", "Lasted {time}"};
inline constexpr Says<1> trip_on_the_way{"trip-on-the-way", "ON THE WAY for {time}"};
inline constexpr Says<2> trip_with_limit{"trip-with-limit", "{lasted}, limit {limit}"};
inline constexpr Says<2> trip_over_limit{"trip-over-limit", "{lasted}, OVER the limit of {limit}"};
inline constexpr Says<2> trip_event{"trip-event", "{when}  {what}"};
inline constexpr Says<1> in_container{"in-container", "in the container: {known}"};
inline constexpr Says<1> out_of_range_there{"out-of-range-there", "out of range: {what}"};
inline constexpr Says<0> nothing_known{"nothing-known", "nothing known"};

// a move list as a table
inline constexpr Says<1> title_move_list{"title-move-list", "what is in {place}, in the order in which to move it"};
inline constexpr Says<2> title_move_list_into{
    "title-move-list-into", "what is in {place}, in the order in which to move it, into {container}"};
inline constexpr Says<0> title_now{"title-now", "Now"};
inline constexpr Says<0> title_container{"title-container", "Container"};
inline constexpr Says<0> fit_suited{"fit-suited", "yes"};
inline constexpr Says<0> fit_allowance{"fit-allowance", "USES UP ITS ALLOWANCE"};
inline constexpr Says<0> fit_unsuited{"fit-unsuited", "NOT SUITED"};
inline constexpr Says<0> must_go{"must-go", "MUST GO"};
inline constexpr Says<1> product_frozen{"product-frozen", "{product} (frozen)"};
inline constexpr Says<2> out_of_range_now{"out-of-range-now",
                                          "OUT OF RANGE NOW: the last that was read in {place} is {reading}."};
inline constexpr Says<1> must_go_now{
    "must-go-now",
    "{doses} MUST GO NOW: what was read last there is out of the range of their own product. Move them to a unit that "
    "suits them (what has thawed is not frozen again), mark them DO NOT USE, throw nothing away."};
inline constexpr Says<0> in_range_of_each{
    "in-range-of-each", "It is in the range of each product that is in it and not to be discarded."};
inline constexpr Says<0> no_doses_in_it{"no-doses-in-it", "No doses in it."};
inline constexpr Says<2> doses_in_holdings{"doses-in-holdings", "{doses} in {holdings}."};

// what doses that left have been through
inline constexpr Says<2> exposed_for{"exposed-for", "{side} for {time}"};
inline constexpr Says<1> exposed_points{"exposed-points",
                                        "{points} out of range in no allowance, or at or below the freeze limit"};

// what goes with a handover
inline constexpr Says<2> to_hold_in_doubt{"to-hold-in-doubt",
                                          "in doubt: incident {incident} is open, and they stood in {place}"};
inline constexpr Says<2> handover_in_doubt{
    "handover-in-doubt",
    "INCIDENT {incident} IS OPEN: these doses stood in {place} in the time in doubt. The receiver must keep them from "
    "use until it is settled"};
inline constexpr Says<2> to_hold_closed{
    "to-hold-closed", "in doubt: incident {incident} was closed without an answer for them, and they stood in {place}"};
inline constexpr Says<2> handover_closed{
    "handover-closed",
    "INCIDENT {incident} WAS CLOSED WITHOUT AN ANSWER FOR THESE DOSES: they stood in {place} in the time in doubt, and "
    "no release says that nothing was out of range. The receiver must keep them from use until it is settled"};
inline constexpr Says<3> handover_condemned{
    "handover-condemned",
    "GUIDANCE SAYS DISCARD: {issuer}, {reference} (entry {entry}). These doses must not be used, and no history of "
    "them is handed over for use"};
inline constexpr Says<2> handover_held{
    "handover-held",
    "HELD: {reason} (entry {entry}). The receiver must hold them, too, until it is lifted: a receive by the file does, "
    "one that takes the history alone does not"};
inline constexpr Says<1> since_left_discard{
    "since-left-discard",
    "SAID SINCE THEY LEFT: {what}. These doses must not be used, and no history of them is handed over for use: tell "
    "the receiver"};
inline constexpr Says<1> since_left_hold{
    "since-left-hold", "SAID SINCE THEY LEFT: {what}. The receiver must hold them, too, until it is lifted"};
inline constexpr Says<1> since_left_use{
    "since-left-use", "SAID SINCE THEY LEFT: {what}. It changes nothing at the receiver by itself: tell it"};
inline constexpr Says<2> handover_readings_missing{
    "handover-readings-missing",
    "READINGS ARE MISSING for {time} of the time before they left, and what they will tell is not in this history: "
    "read the loggers, then state the handover of entry {entry} anew; the receiver takes this one back and notes that "
    "one"};
inline constexpr Says<2> history_ends{"history-ends",
                                      "The history ends when they left, at {local} ({utc}). The way is not in it"};

// a handover as a sheet
inline constexpr Says<1> title_handover{"title-handover", "handover of doses that leave for {to}"};
inline constexpr Says<4> handed_over{"handed-over", "{doses} of {product} ({name}), lot {lot}"};
inline constexpr Says<7> handed_over_from{
    "handed-over-from", "Out of {place} of {site}, at {local} ({utc}), entry {entry} by {by}: {reason}"};
inline constexpr Says<1> usable_until{"usable-until", "Usable {until}"};
inline constexpr Says<1> usable_not_known{
    "usable-not-known",
    "Usable: NOT KNOWN, since the opening of a vial among them is not noted; expiry on the box {expiry}"};
inline constexpr Says<2> usable_until_expiry{"usable-until-expiry", "Usable {until}; expiry on the box {expiry}"};
inline constexpr Says<0> were_out_of_range{
    "were-out-of-range", "THESE DOSES WERE OUT OF RANGE, or may have been. All they have been through so far:"};
inline constexpr Says<0> been_through{"been-through", "All that these doses have been through so far:"};
inline constexpr Says<1> they_were_in{"they-were-in", "They were in: {places}"};
inline constexpr Says<0> receiver_does{"receiver-does", "The receiver:"};
inline constexpr Says<0> receiver_keeps_apart{
    "receiver-keeps-apart",
    "Does not use these doses, keeps them apart and marked DO NOT USE, and asks the sender."};
inline constexpr Says<0> receiver_takes_file{
    "receiver-takes-file",
    "Notes them as received with their history: the file that came with this sheet is what the receive entry takes as "
    "its handover; without it they would count as never exposed."};
inline constexpr Says<0> receiver_notes_way{
    "receiver-notes-way",
    "Notes the way, too: received at the instant above into the container they travel in, with its readings or checks, "
    "they lose no time of it. Otherwise no figure of theirs holds it: that nothing is known of it is noted beside the "
    "doses."};
inline constexpr Says<0> receiver_marks{
    "receiver-marks",
    "Gives them a mark of their own where doses of this lot are there already: joined, all of them count as exposed to "
    "the worse of the two."};
inline constexpr Says<0> receiver_counts_allowances{
    "receiver-counts-allowances",
    "Counts what is left of each allowance from the numbers above, not from nothing."};
inline constexpr Says<0> handover_signatures{
    "handover-signatures",
    "Sent by ______________________   Received by ______________________   Date and time ________________"};

// a transfer that is posted with its handover
inline constexpr Says<2> send_handover{
    "send-handover",
    "Send with the doses: {file}, the handover that the other site's receive takes, and {sheet}, the sheet for people. "
    "What travels without them counts there as never exposed."};
inline constexpr Says<2> would_send_handover{
    "would-send-handover",
    "Would be written, to be sent with the doses: {file}, the handover that the other site's receive takes, and "
    "{sheet}, the sheet for people. What travels without them counts there as never exposed."};
inline constexpr Says<1> no_handover_written{
    "no-handover-written",
    "NO HANDOVER IS WRITTEN, and these doses need one: what travels without it counts there as never exposed. Name a "
    "file for it with the transfer (handover), or have it written for entry {entry} (handover of that entry, with a "
    "file)"};
inline constexpr Says<1> no_handover_would_be_written{
    "no-handover-would-be-written",
    "NO HANDOVER WOULD BE WRITTEN, and these doses need one: what travels without it counts there as never exposed. "
    "Name a file for it with the transfer (handover), or have it written for entry {entry} (handover of that entry, "
    "with a "
    "file)"};

// doses that left, and what was learnt of them since
inline constexpr Says<5> left_sent{"left-sent",
                                   "{doses} of {lot}, sent from {place} to {to} {departure}"};
inline constexpr Says<4> left_returned{"left-returned", "{doses} of {lot}, returned from {place} {departure}"};
inline constexpr Says<3> tell_site{
    "tell-site",
    "{to} must be told: `{task}` states their history anew; once they are, note a step with {parameter}"};
inline constexpr Says<1> tell_who_has_them{
    "tell-who-has-them", "who has them must be told; once they are, note a step with {parameter}"};
inline constexpr Says<4> guidance_says{"guidance-says",
                                       "guidance says {verdict}: {issuer}, {reference} (entry {entry})"};
inline constexpr Says<5> guidance_says_by{"guidance-says-by",
                                          "guidance says {verdict} {day}: {issuer}, {reference} (entry {entry})"};
inline constexpr Says<3> becomes_for{"becomes-for", "{before} -> {after} for {reasons}"};
inline constexpr Says<2> with_new_reasons{"with-new-reasons", "{list}; new: {reasons}"};
inline constexpr Says<1> now_in_doubt{"now-in-doubt",
                                      "in the time in doubt of incident {incident}, which is open"};
inline constexpr Says<1> now_known{"now-known", "now known: {exposure}"};
inline constexpr Says<2> now_known_before{"now-known-before", "now known: {exposure}, before: {before}"};

}  // namespace coldtally::words
