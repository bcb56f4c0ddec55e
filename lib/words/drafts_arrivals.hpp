// Drafts, arrivals: what is said of doses that come in: from where they must not be used, late, back, with a handover.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// the list that they will be on
inline constexpr Says<3> arrives_not_known{
    "arrives-not-known",
    "NOT KNOWN YET: by what is known now {doses} is on the list {list} ({reasons}): read its logger or display, and "
    "use none of them before"};
inline constexpr Says<3> arrives_do_not_use{
    "arrives-do-not-use",
    "DO NOT USE: by what is known now {doses} is on the list {list} ({reasons}): mark the doses, keep them in range, "
    "throw nothing away"};
inline constexpr Says<3> moves_in_doubt{
    "moves-in-doubt",
    "IN DOUBT: lot {lot} comes to {place} {why}: take doses from elsewhere until it is known what these have been "
    "through"};
inline constexpr Says<3> moves_warned{"moves-warned", "DO NOT USE: lot {lot} comes to {place} with this: {what}"};
inline constexpr Says<4> moves_do_not_use{
    "moves-do-not-use",
    "DO NOT USE: lot {lot} comes to {place} as it is, on the list {list} ({why}): mark the doses, a good place does "
    "not make them good"};

// into an incident that was noticed since
inline constexpr Says<3> noticed_since{
    "noticed-since",
    "incident {incident} was noticed in {place} at {at}, after these doses came there, and is open"};
inline constexpr Says<2> late_not_held{"late-not-held", "NOT PUT ON HOLD, because: {why}. But {since}"};
inline constexpr Says<1> late_held{"late-held",
                                   "DO NOT USE: {since}: they are on hold with what was there. Mark them"};

// by the handover of another site
inline constexpr Says<0> nothing_binds{
    "nothing-binds",
    "NOTHING BINDS this history to these doses: it names no site, product, lot or number of doses, and cannot say that "
    "they are on hold or in doubt where they come from: ask the sender. How long they were on the way is not known "
    "either, and no figure holds it"};
inline constexpr Says<2> handover_named{"handover-named", "handover of {site}, transfer {transfer}"};
inline constexpr Says<4> handover_is_of{"handover-is-of", "{handover}, of {doses} to {to} that left at {at}"};
inline constexpr Says<2> for_another_site{
    "for-another-site",
    "FOR ANOTHER SITE? By the handover the doses were sent to {to}, and this ledger is of {site}: look whether it is "
    "of this delivery"};
inline constexpr Says<1> left_later{
    "left-later",
    "LEFT LATER: by the handover the doses left at {at}, after they are received: look whether it is of this delivery"};
inline constexpr Says<1> the_sender_says{"the-sender-says", "THE SENDER SAYS, and no figure here holds it: {text}"};
inline constexpr Says<1> use_is_shortened{
    "use-is-shortened",
    "THEIR USE IS SHORTENED: by the handover they are usable {until}, whatever the expiry says: write it on them"};
inline constexpr Says<1> use_is_past{
    "use-is-past", "THEIR USE IS SHORTENED: by the handover they are usable {until}: PAST, do not use"};
inline constexpr Says<1> history_in_quarantine{
    "history-in-quarantine",
    "DO NOT USE: by this history they are on the list quarantine here, too ({reasons}): mark them, keep them in range, "
    "and ask the sender for the answer"};
inline constexpr Says<2> handover_use_by_late{
    "handover-use-by-late",
    "by the handover they are usable {until}, which is after the expiry, {expiry}: THE EXPIRY STAYS THE LAST DAY, "
    "write no other on them"};
inline constexpr Says<2> held_at{"held-at", "held at {site}: {reasons}"};
inline constexpr Says<2> sent_not_held{"sent-not-held", "NOT PUT ON HOLD, because: {why}. They were {held}"};
inline constexpr Says<1> sent_held{
    "sent-held",
    "DO NOT USE: the doses are put on hold here, too, since they were {held}. Mark them, keep them in range, and ask "
    "the sender for the answer"};
inline constexpr Says<3> the_way_took{
    "the-way-took",
    "the way took {time}, from {from} to {to}: nothing is known of it, and no figure of this ledger holds it"};
inline constexpr Says<1> the_way{"the-way", "THE WAY: {way}"};
inline constexpr Says<3> sender_states_expiry{
    "sender-states-expiry",
    "the sender states {sent} for lot {lot}, this ledger {here}: read the label again"};
inline constexpr Says<1> sender_expiry_differs{"sender-expiry-differs", "EXPIRY DIFFERS: {how}"};
inline constexpr Says<2> fewer_than_sent{
    "fewer-than-sent",
    "FEWER THAN WERE SENT: {missing} of the {sent} are not received with this: ask where they are"};
inline constexpr Says<4> received_already{
    "received-already",
    "RECEIVED ALREADY: the {handover}, was received by entry {entries}: with this, {doses} of its {sent} doses. If "
    "these are the same doses, take one back"};
inline constexpr Says<4> received_more{
    "received-more",
    "RECEIVED ALREADY: the {handover}, was received by entry {entries}: with this, {doses} of its {sent} doses, MORE "
    "THAN WERE SENT. If these are the same doses, take one back"};
inline constexpr Says<4> received_otherwise{
    "received-otherwise",
    "ANOTHER HISTORY: the {handover}, was received by entry {entry}, which states: {then}. This one states: {now}. "
    "What came by entry {entry}, and what was given of it, has been through what the sender states now"};
inline constexpr Says<3> received_otherwise_elsewhere{
    "received-otherwise-elsewhere",
    "To put it right: receive it at {at} into {place}, as entry {entry} did, then take back entry {entry}"};
inline constexpr Says<2> take_back_the_older{
    "take-back-the-older",
    "Take back entry {entry} now: `{task}`. What was given or moved of it since then comes out of these doses"};
inline constexpr Says<0> same_transfer_restated{"same-transfer-restated", "the sender states its handover anew"};
inline constexpr Says<6> older_history_kept{
    "older-history-kept",
    "what came by entry {entry} would keep its history, {then}; of the same doses the sender states now: {now}. "
    "Meanwhile: {given}. Receive them at {at} into {place} instead, and take back entry {entry} then"};
inline constexpr Says<0> nothing_given_of_it{"nothing-given-of-it", "nothing given of it"};
inline constexpr Says<4> newer_history_lost{
    "newer-history-lost",
    "entry {newer} states of doses of the same transfer: {now}. Entry {older} states: {then}; that would be all that "
    "is known of them"};

// out of vials
inline constexpr Says<0> out_of_no_mark{"out-of-no-mark", "out of the doses without a mark, which were not opened"};
inline constexpr Says<1> out_of_mark{"out-of-mark", "out of mark {mark}, which was not opened"};
inline constexpr Says<1> vial_named{"vial-named", "vial {mark}"};
inline constexpr Says<1> whole_vial{"whole-vial", "{number} doses in the vial, a whole one"};
inline constexpr Says<1> vial_of_all{"vial-of-all", "{number} doses in the vial, all that are there"};
inline constexpr Says<1> event_named{"event-named", "event {event}"};
inline constexpr Says<2> time_after_event{"time-after-event", "{time} after {event}"};
inline constexpr Says<2> entry_at{"entry-at", "entry {entry} at {at}"};
inline constexpr Says<2> vial_was_begun{"vial-was-begun",
                                        "the first dose of this vial was taken {at}, entry {entry}"};
inline constexpr Says<2> vial_lacked_doses{"vial-lacked-doses", "doses of this vial were missing {at}, entry {entry}"};
inline constexpr Says<2> is_it_another_vial{
    "is-it-another-vial",
    "IS IT ANOTHER VIAL? By the book {begun}, before {opened}: if this is the same vial, it was opened then at the "
    "latest: state that as opened"};
inline constexpr Says<2> given_since_then{
    "given-since-then",
    "GIVEN SINCE THEN out of the doses that were not opened: {gives}. What of it was of this vial is to be taken back "
    "and given out of mark {mark}, or the vial holds too many in the book"};
inline constexpr Says<4> write_on_the_vial{
    "write-on-the-vial", "Write on the vial: opened {opened}, use {until} ({period}); its mark here is {mark}."};
inline constexpr Says<2> vial_past_its_use{"vial-past-its-use",
                                           "PAST ITS USE: this vial was usable {until}. {then}"};
inline constexpr Says<5> no_opening_is_noted{
    "no-opening-is-noted",
    "NO OPENING IS NOTED: {product} comes in vials of {number} doses, good for {period}, and nothing says when the "
    "vial of lot {lot} in {place} was opened."};
inline constexpr Says<2> note_the_opening{
    "note-the-opening",
    "{what} {then}. Note it with this entry (taken back first, if it is written): when it was opened (opened) and a "
    "mark for the vial (vial)"};
inline constexpr Says<2> by_the_book{"by-the-book", "By the book {begun}: opened then it was usable {until}"};
inline constexpr Says<1> opened_before_that{"opened-before-that", "{until}, and it was opened before that"};
inline constexpr Says<1> and_past{
    "and-past",
    "{what}: PAST. If this dose has not been given yet, do not give it; if it has, a clinician decides with the health "
    "department"};
inline constexpr Says<2> would_be_usable{"would-be-usable", "Opened at {at} it would be usable {until}"};

}  // namespace coldtally::words
