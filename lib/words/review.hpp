// Review: the phrases of doses given: what a review says beside its findings, and what goes with their record.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

inline constexpr Says<2> doses_given{"doses-given", "{doses} given ({entries})"};

// doses of which the finding does not say all; each where only those with a finding are listed, and where all are
inline constexpr Says<1> not_sure_unlisted{
    "not-sure-unlisted",
    "NOT SURE, and not listed here: {given} may have been out of range for longer than is permitted, or have frozen, "
    "by the values around it; the finding counts the estimate alone. They are listed where all are asked for"};
inline constexpr Says<1> not_sure_listed{
    "not-sure-listed",
    "NOT SURE, and listed as nothing found: {given} may have been out of range for longer than is permitted, or have "
    "frozen, by the values around it; the finding counts the estimate alone"};
inline constexpr Says<1> unknown_given_unlisted{
    "unknown-given-unlisted",
    "NOT KNOWN, and not listed here: {given} had been for hours where nothing is known of the temperature, which the "
    "site's own limit lets pass. They are listed where all are asked for"};
inline constexpr Says<1> unknown_given_listed{
    "unknown-given-listed",
    "NOT KNOWN, and listed as nothing found: {given} had been for hours where nothing is known of the temperature, "
    "which the site's own limit lets pass"};
inline constexpr Says<1> not_come_unlisted{
    "not-come-unlisted",
    "NOT KNOWN, and not listed here: {given} came from another site with time whose readings were missing there and "
    "have not come here: ask for their handover anew. They are listed where all are asked for"};
inline constexpr Says<1> not_come_listed{
    "not-come-listed",
    "NOT KNOWN, and listed as nothing found: {given} came from another site with time whose readings were missing "
    "there and have not come here: ask for their handover anew"};
inline constexpr Says<1> learnt_later_unlisted{
    "learnt-later-unlisted",
    "LEARNT AFTER GUIDANCE, whatever the finding is: {given} that had been out of range as nobody knew when guidance "
    "was posted that clears them all the same: ask its issuer again. What it was is said where all are asked for"};
inline constexpr Says<1> learnt_later_listed{
    "learnt-later-listed",
    "LEARNT AFTER GUIDANCE, whatever the finding is: {given} that had been out of range as nobody knew when guidance "
    "was posted that clears them all the same: ask its issuer again"};
inline constexpr Says<1> held_later_unlisted{
    "held-later-unlisted",
    "HELD AFTER GUIDANCE, whatever the finding is: {given} that a hold is of which was posted after guidance that "
    "lifts or covers it: ask its issuer again. Which it is is said where all are asked for"};
inline constexpr Says<1> held_later_listed{
    "held-later-listed",
    "HELD AFTER GUIDANCE, whatever the finding is: {given} that a hold is of which was posted after guidance that "
    "lifts or covers it: ask its issuer again"};
inline constexpr Says<1> display_more_unlisted{
    "display-more-unlisted",
    "A DISPLAY SHOWED MORE, whatever the finding is: {given} that had been in a place of which the first check has a "
    "minimum or maximum out of range: since when is not known, and it is in no figure. What it was is said where all "
    "are asked for"};
inline constexpr Says<1> display_more_listed{
    "display-more-listed",
    "A DISPLAY SHOWED MORE, whatever the finding is: {given} that had been in a place of which the first check has a "
    "minimum or maximum out of range: since when is not known, and it is in no figure"};
inline constexpr Says<8> given_past_vial{
    "given-past-vial",
    "NOT SURE: {given} out of doses of {product} lot {lot} in {place} that were not opened, when the vial {mark} was "
    "past its use, {usable}; that it was opened {opened} was noted later (entry {entry}). If they were of it, take "
    "them back and give them out of that mark"};
inline constexpr Says<7> given_past_by_the_book{
    "given-past-by-the-book",
    "NOT SURE: {given} out of doses of {product} lot {lot} in {place} of which no opening is noted: by the book the "
    "first "
    "dose of that vial was taken {begun}, entry {entry}, and opened then it was usable {usable}: PAST. A clinician "
    "decides with the health department; was it another vial, note its opening, and give them out of its mark"};

inline constexpr Says<1> sender_more_unlisted{
    "sender-more-unlisted",
    "FROM THE SENDER, whatever the finding is: {given} of which the site that sent the doses said what no figure here "
    "holds. What it was is said where all are asked for"};
inline constexpr Says<1> sender_more_listed{
    "sender-more-listed",
    "FROM THE SENDER, whatever the finding is: {given} of which the site that sent the doses said what no figure here "
    "holds"};
/// Of a recall, which is of every dose of a lot, whatever it went through.
inline constexpr Says<4> recalled_unlisted{
    "recalled-unlisted",
    "RECALLED, and not listed here: {given} of {lot}; {recall}: `{task}` lists every dose given of it"};
inline constexpr Says<4> recalled_listed{
    "recalled-listed",
    "RECALLED, and listed as nothing found: {given} of {lot}; {recall}: `{task}` lists every dose given of it"};
inline constexpr Says<2> recalled_dose{"recalled-dose", "RECALLED: {lot}; {recall}"};

// the review as a table
inline constexpr Says<0> review_title{"review-title", "doses given that may need review"};
inline constexpr Says<0> title_finding{"title-finding", "Finding"};
inline constexpr Says<0> title_patient{"title-patient", "Patient"};
inline constexpr Says<0> no_doses_to_list{"no-doses-to-list", "No doses to list."};
inline constexpr Says<1> given_out_of{"given-out-of", "Out of {place}"};
inline constexpr Says<0> judged_by_worst{
    "judged-by-worst",
    "Not certain: the chart names the lot, not the box. Judged by the worst of all boxes of the lot that were there."};
inline constexpr Says<0> not_certain_which{
    "not-certain-which", "Not certain: the chart names the lot, not the box; judged by the worst of them"};
inline constexpr Says<2> cleared_left_out{
    "cleared-left-out",
    "Left out here: {number} dose cleared by guidance, and what each dose has been through; `{why}` shows them.|"
    "Left out here: {number} doses cleared by guidance, and what each dose has been through; `{why}` shows them."};
inline constexpr Says<1> review_left_out{"review-left-out",
                                         "Left out here: what each dose has been through; `{why}` shows it."};
inline constexpr Says<1> covered_by{"covered-by", "Guidance that covers it: {guidance}"};
inline constexpr Says<0> none_yet{"none-yet", "none yet"};

// the record of a dose
inline constexpr Says<3> storage_before{"storage-before",
                                        "Storage before it was given, as {site} has it on {when}: {finding}"};
inline constexpr Says<4> guidance_of_record{"guidance-of-record",
                                            "{issuer}, {reference} ({verdict}; entry {entry})"};
inline constexpr Says<5> guidance_of_record_use_by{"guidance-of-record-use-by",
                                                   "{issuer}, {reference} ({verdict} {day}; entry {entry})"};

}  // namespace coldtally::words
