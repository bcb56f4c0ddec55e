// Loosening: what entries would let be used that could not be, what they show that is worse, and what is known by them.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

inline constexpr Says<1> loosens{"loosens", "LOOSENS: {what}"};
inline constexpr Says<1> known_now{"known-now", "KNOWN NOW: {what}"};
inline constexpr Says<1> between_checks_now{"between-checks-now", "NOT MEASURED: {what}"};

// reasons and sums that change
inline constexpr Says<1> time_in_doubt_of{"time-in-doubt-of", "the doubt of incident {incident}"};
inline constexpr Says<1> loses_reasons{"loses-reasons", "loses {reasons}"};
inline constexpr Says<2> loses_reasons_on{"loses-reasons-on", "loses {reasons}; on {list}"};
inline constexpr Says<3> loses_reasons_on_for{"loses-reasons-on-for", "loses {reasons}; on {list} for {left}"};
inline constexpr Says<1> reasons_gone{"reasons-gone", "no longer {reasons}"};
inline constexpr Says<1> followed_already{
    "followed-already", "followed up already, {step}: look at it again"};
inline constexpr Says<1> reasons_new{"reasons-new", "new: {reasons}"};
inline constexpr Says<1> still_on{"still-on", "still on {list}"};
inline constexpr Says<2> still_on_new{"still-on-new", "still on {list}; new: {reasons}"};
inline constexpr Says<5> exposure_less{"exposure-less",
                                       "{side} {before}, at most {before_most} -> {after}, at most {after_most}"};
inline constexpr Says<1> so_far{"so-far", "{what} so far"};
inline constexpr Says<3> so_many_so_far{"so-many-so-far", "{number}, {side} at most {time} so far"};

// holdings and lots; each is named with how many doses it has
inline constexpr Says<3> so_many_of{"so-many-of", "{holding} ({number}, {what})"};
inline constexpr Says<2> would_come_off{"would-come-off",
                                        "{doses} would come off a list of what must not be used: {which}"};
inline constexpr Says<2> would_lose_a_reason{"would-lose-a-reason",
                                             "{doses} would lose a reason not to be used: {which}"};
inline constexpr Says<2> would_be_usable_longer{"would-be-usable-longer",
                                                "{doses} would be usable for longer: {which}"};
inline constexpr Says<1> some_usable_longer{"some-usable-longer", "doses would be usable for longer: {which}"};
inline constexpr Says<1> less_out_of_range{"less-out-of-range", "less would have been out of range: {which}"};
inline constexpr Says<2> come_off_known_now{
    "come-off-known-now",
    "{number} dose comes off a list of what must not be used, or loses a reason, because time that was not known is "
    "known now: {which}|{number} doses come off a list of what must not be used, or lose a reason, because time that "
    "was not known is known now: {which}"};
inline constexpr Says<2> come_off_between_checks{
    "come-off-between-checks",
    "{number} dose comes off a list of what must not be used, or loses a reason, because time that was not known "
    "lies between plain checks now, of which nothing is known: {which}|{number} doses come off a list of what must "
    "not be used, or lose a reason, because time that was not known lies between plain checks now, of which nothing "
    "is known: {which}"};
inline constexpr Says<1> less_at_most{
    "less-at-most",
    "the most that they may have been out of range is less than before, within the tolerance or beside what is worse: "
    "{which}"};
inline constexpr Says<1> not_where_they_come{
    "not-where-they-come",
    "doses would not be where they come to be on a list of what must not be used: {which}"};
inline constexpr Says<1> doses_worse_now{
    "doses-worse-now",
    "WORSE NOW: these doses come on a list of what must not be used, or have one more reason not to be used: {which}"};
inline constexpr Says<1> doses_further_now{
    "doses-further-now", "WORSE NOW: these doses have been further out of range than was known: {which}"};
inline constexpr Says<4> lifted_at_once{
    "lifted-at-once",
    "NO LIST SHOWS THIS HOLD ({reason}, of {at}): {guidance} was posted before it, judges through {through} and lifts "
    "it. Hold them from now on"};
inline constexpr Says<1> held_from_now{
    "held-from-now", "since guidance lifts that hold, they are put on hold again from now on with this: {lots}"};

// gives
inline constexpr Says<2> gives_come_off{
    "gives-come-off",
    "{number} give would come off the review list: entry {entries}|{number} gives would come off the review list: "
    "entries {entries}"};
inline constexpr Says<2> gives_better{"gives-better",
                                      "{number} give would have a better finding, or fewer reasons: {which}|{number} "
                                      "gives would have a better finding, or fewer reasons: {which}"};
inline constexpr Says<2> gives_less_before{"gives-less-before",
                                           "{number} give would have had less out of range before: {which}|{number} "
                                           "gives would have had less out of range before: {which}"};
inline constexpr Says<2> gives_known_now{
    "gives-known-now",
    "{number} give has a better finding, or fewer reasons, because time that was not known is known now: "
    "{which}|{number} gives have a better finding, or fewer reasons, because time that was not known is known now: "
    "{which}"};
inline constexpr Says<2> gives_between_checks{
    "gives-between-checks",
    "{number} give has a better finding, or fewer reasons, because its time lies between plain checks now, of which "
    "nothing is known: {which}|{number} gives have a better finding, or fewer reasons, because their time lies between "
    "plain checks now, of which nothing is known: {which}"};
inline constexpr Says<3> gives_leave_doubt{
    "gives-leave-doubt",
    "{number} give would leave the time in doubt of incident {incident}, although not all was measured between it and "
    "the reading in range that this would begin with: {entries}|{number} gives would leave the time in doubt of "
    "incident {incident}, although not all was measured between them and the reading in range that this would begin "
    "with: {entries}"};
inline constexpr Says<3> gives_left_doubt{
    "gives-left-doubt",
    "{number} give leaves the time in doubt of incident {incident}, since all was measured from then to the reading in "
    "range that this begins with: {entries}|{number} gives leave the time in doubt of incident {incident}, since all "
    "was measured from then to the reading in range that this begins with: {entries}"};
inline constexpr Says<2> gives_worse_now{
    "gives-worse-now",
    "WORSE NOW: {number} give comes on the review list, to a worse finding or one more reason, or was further out of "
    "range: {which}|WORSE NOW: {number} gives come on the review list, to a worse finding or one more reason, or were "
    "further out of range: {which}"};
inline constexpr Says<1> given_by_entry{"given-by-entry", "given, entry {entry}"};

// doses that left
inline constexpr Says<1> left_worse_now{"left-worse-now", "WORSE NOW, AND NOT HERE ANY MORE: {what}"};
inline constexpr Says<1> left_less_known{
    "left-less-known",
    "of doses that left, less would be known against their use than who has them may have been told: {which}"};
inline constexpr Says<1> left_known_now{
    "left-known-now", "of doses that left, time that was not known is known now: {which}"};
inline constexpr Says<3> transfers_leave_doubt{
    "transfers-leave-doubt",
    "doses that left by {number} entry would leave the time in doubt of incident {incident}, although not all was "
    "measured between that and the reading in range that this would begin with, and who has them may have been told: "
    "{entries}|doses that left by {number} entries would leave the time in doubt of incident {incident}, although not "
    "all was measured between that and the reading in range that this would begin with, and who has them may have been "
    "told: {entries}"};
inline constexpr Says<3> transfers_left_doubt{
    "transfers-left-doubt",
    "doses that left by {number} entry leave the time in doubt of incident {incident}, since all was measured from "
    "then "
    "to the reading in range that this begins with: {entries}|doses that left by {number} entries leave the time in "
    "doubt of incident {incident}, since all was measured from then to the reading in range that this begins with: "
    "{entries}"};

// the excursions of a place, and open incidents there
inline constexpr Says<1> so_many_vanish{"so-many-vanish", "{number} vanishes|{number} vanish"};
inline constexpr Says<1> so_many_shortened{"so-many-shortened", "{number} is shortened|{number} are shortened"};
inline constexpr Says<2> excursions_stay{
    "excursions-stay", "of {excursions} recorded in {place} none vanishes or is shortened"};
inline constexpr Says<4> excursions_get_less{"excursions-get-less",
                                             "of {excursions} recorded in {place} {vanish} and {shortened}"};
inline constexpr Says<1> incident_has_none{"incident-has-none",
                                           "open incident {incident}, noticed there, has no excursion there"};
inline constexpr Says<2> incident_loses_all{
    "incident-loses-all",
    "open incident {incident}, noticed there, would find nothing out of range there: {excursions} -> none"};
inline constexpr Says<3> incident_would_have{
    "incident-would-have", "open incident {incident}, noticed there, would have {before} -> {excursions} there"};

// releases of closed incidents
inline constexpr Says<1> release_rested_on{"release-rested-on", "a release rested on this. {release}"};
inline constexpr Says<2> release_rested_on_doses{"release-rested-on-doses",
                                                 "a release rested on this, that of {which}. {release}"};
inline constexpr Says<1> held_again{
    "held-again", "what that release let go is put on hold again with this: {lots}"};

// what a programme asks of open incidents
inline constexpr Says<2> programme_asks_less{
    "programme-asks-less", "of open incident {incident} the programme would ask less: {which}"};
inline constexpr Says<3> condition_not_asked{"condition-not-asked",
                                             "{condition} in {place}, {state}, would no longer be asked"};
inline constexpr Says<4> condition_would_be{"condition-would-be",
                                            "{condition} in {place}, {state}, would be {after}"};
inline constexpr Says<2> duty_overdue_since{"duty-overdue-since", "{duty}, OVERDUE since {at}"};
inline constexpr Says<2> duty_due_at{"duty-due-at", "{duty}, due {at}"};
inline constexpr Says<1> duty_not_due{"duty-not-due", "{duty}, would no longer be due"};
inline constexpr Says<2> duty_due_later{"duty-due-later", "{duty}, would be due {at}"};

}  // namespace coldtally::words
