// Drafts, warnings: what a careful person wants to know of an entry before it is posted.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// what to do, after why
inline constexpr Says<1> take_from_elsewhere{
    "take-from-elsewhere",
    "{why}: DO NOT USE these yet: take doses from elsewhere until it is known what they have been through"};
inline constexpr Says<1> wait_or_take_another{"wait-or-take-another",
                                              "{why}: wait until it is in range, or take another"};
inline constexpr Says<1> receiver_must_be_told{"receiver-must-be-told", "{why}: the receiver must be told"};
inline constexpr Says<1> wait_for_the_answer{
    "wait-for-the-answer",
    "{why}: an answer is awaited, and may be that these doses can be used: throw nothing away and send nothing back "
    "before it has come"};
inline constexpr Says<0> if_given_already{
    "if-given-already",
    "If it has not been given yet, do not give it; if it has, it stands on the review list, and a clinician decides "
    "with the health department"};
inline constexpr Says<0> exposure_goes_with_them{"exposure-goes-with-them",
                                                 "The receiver must be told, and their exposure goes with the doses"};

// lists
inline constexpr Says<4> not_on_keep{"not-on-keep",
                                     "NOT ON KEEP: {doses} was on the list {list} then ({reasons}). {then}"};
inline constexpr Says<2> on_list_quarantine{"on-list-quarantine", "{doses} is on the list quarantine ({reasons})"};
inline constexpr Says<2> was_then{"was-then", "{doses} was then {what}"};
inline constexpr Says<1> do_not_use_was_then{"do-not-use-was-then", "DO NOT USE: {what}"};
inline constexpr Says<0> past_their_expiry{"past-their-expiry", "past its expiry"};
inline constexpr Says<1> past_their_use_by{"past-their-use-by", "past its use-by of {at}"};
inline constexpr Says<1> condemned_by{"condemned-by", "condemned ({entry})"};
inline constexpr Says<1> on_hold_by{"on-hold-by", "on hold ({entry})"};
inline constexpr Says<2> nothing_was_read{
    "nothing-was-read",
    "NOTHING WAS READ in {place} for {time}: look at its display first, and note what it shows"};
inline constexpr Says<2> mark_lost{"mark-lost",
                                   "the doses lose their mark {mark} while they are on the list {list}"};

// lots
inline constexpr Says<3> easily_taken_for{
    "easily-taken-for", "lot {lot} is easily taken for lot {other} of {product}: read the label again"};
inline constexpr Says<3> lot_of_another_product{
    "lot-of-another-product",
    "ANOTHER PRODUCT HAS A LOT OF THIS NUMBER: lot {lot} of product {other} is known; this makes one of {product}: "
    "read the box again, and take this back if it is the wrong product"};
inline constexpr Says<2> expires_late{
    "expires-late", "lot {lot} would expire on {day}, more than ten years from now: read the year again"};
inline constexpr Says<3> expiry_replaced{
    "expiry-replaced",
    "EXPIRY DIFFERS: lot {lot} was known with expiry {before}; {now} replaces it, for all that was and will be asked"};
inline constexpr Says<1> lot_has_expired{"lot-has-expired", "lot {lot} has expired already"};
inline constexpr Says<2> lot_expired_on{"lot-expired-on", "lot {lot} expired on {day}"};

// other entries
inline constexpr Says<2> given_before{
    "given-before",
    "entry {entry} gave the same patient of this lot at {at} already: if it is the same dose, take one back"};
inline constexpr Says<1> same_entry{
    "same-entry", "entry {entry} is the same, at the same instant: if it is the same doses, take one back"};
inline constexpr Says<3> counted_later{
    "counted-later", "entry {entry} counted lot {lot} later, at {at}: its count then shows another difference"};
inline constexpr Says<1> matches_none_held{"matches-none-held",
                                           "no doses of {doses} are or were known: it holds none now"};
inline constexpr Says<1> matches_none_judged{"matches-none-judged",
                                             "no doses of {doses} are or were known: it judges none"};

// where they come to
inline constexpr Says<5> not_its_storage{
    "not-its-storage",
    "{place} ({place_range}) is not the storage of {product} ({product_range}): time there counts against its "
    "allowance of {time}"};
inline constexpr Says<4> place_freezes{
    "place-freezes",
    "FREEZES: {place} ({place_range}) does not suit {product} ({product_range}): freezing can ruin doses that look as "
    "they always did"};
inline constexpr Says<4> place_unsuited{
    "place-unsuited",
    "{place} ({place_range}) does not suit {product} ({product_range}), and no allowance covers it: time out of range "
    "puts it into quarantine"};
inline constexpr Says<1> room_without_logger{
    "room-without-logger",
    "no logger is in {place}: the time there is not known, and puts the doses into quarantine unless checks are made"};
inline constexpr Says<2> comes_into_doubt{
    "comes-into-doubt",
    "IN DOUBT: incident {incident} is open, and {place} is not known to be good again: what comes in now is in doubt, "
    "too, and is on no hold"};
inline constexpr Says<2> joins_there{
    "joins-there",
    "joins {number} dose of the lot that is in {where}: from then on all of them count as exposed to the worse of "
    "the two; a mark of its own keeps them apart|joins {number} doses of the lot that are in {where}: from then on "
    "all of them count as exposed to the worse of the two; a mark of its own keeps them apart"};
inline constexpr Says<3> joins_there_sooner{
    "joins-there-sooner",
    "joins {number} dose of the lot that is in {where}: from then on all of them count as exposed to the worse of "
    "the two; ALL would be usable {until}, as the first to end; a mark of its own keeps them apart|joins {number} "
    "doses of the lot that are in {where}: from then on all of them count as exposed to the worse of the two; ALL "
    "would be usable {until}, as the first to end; a mark of its own keeps them apart"};
inline constexpr Says<1> there_without_mark{"there-without-mark", "{place} without a mark"};
inline constexpr Says<2> there_under_mark{"there-under-mark", "{place} under mark {mark}"};

// receiving, giving, sending, counting
inline constexpr Says<1> readings_were_missing{
    "readings-were-missing",
    "READINGS WERE MISSING when the sender stated this history, for {time}: ask for it anew once they are read, and "
    "note that one in place of this"};
inline constexpr Says<2> recall_holds_it{"recall-holds-it",
                                       "DO NOT USE: a recall of this lot stands (entry {entry}): {reason}"};
inline constexpr Says<2> lot_condemned{
    "lot-condemned",
    "CONDEMNED: guidance says discard for doses of lot {lot} that were here: {guidance}. It does not hold for what "
    "comes now unless its issuer says so: keep these apart, and ask"};
inline constexpr Says<1> the_same_doses{
    "the-same-doses", "THE SAME DOSES? {doses}: received without a history they count as never exposed"};
inline constexpr Says<0> lot_and_not_box{
    "lot-and-not-box", "the chart names the lot and not the box: review judges by the worst of its holdings"};
inline constexpr Says<2> lot_may_be_of{
    "lot-may-be-of", "NOT CERTAIN: it may have come out of {place}: {why}"};
inline constexpr Says<3> given_in_later_doubt{
    "given-in-later-doubt",
    "IN DOUBT: these doses were given out of {place} in the time in doubt of incident {incident}, which was noticed "
    "{noticed}: its report has them, see what a clinician decides"};
inline constexpr Says<3> may_be_in_later_doubt{
    "may-be-in-later-doubt",
    "IN DOUBT, not certain: doses of this lot were in {place} in the time in doubt of incident {incident}, which was "
    "noticed {noticed}: its report has them, see what a clinician decides"};
inline constexpr Says<2> have_been_out_of_range{
    "have-been-out-of-range",
    "WERE OUT OF RANGE: the doses of {doses} were {exposure}, since receipt: their history must go with them "
    "(handover)"};
inline constexpr Says<0> how_far_not_known{"how-far-not-known", "out of range, how far is not known"};
inline constexpr Says<0> condemned_not_to_be_sent{
    "condemned-not-to-be-sent",
    "guidance said discard for these doses: they are not to be transferred for use"};
inline constexpr Says<2> count_missing{
    "count-missing",
    "the book says {number}: {difference} missing, kept as variance; look for the reason before it is called waste"};
inline constexpr Says<2> count_found{
    "count-found",
    "the book says {number}: {difference} found, kept as variance; look for the reason before it is called waste"};

}  // namespace coldtally::words
