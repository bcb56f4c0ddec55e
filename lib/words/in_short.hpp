// In short: what tables of a line each say of what must be known though list or finding does not say it. Each stands
// for a longer phrase, whose fields it takes.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// beside lists
inline constexpr Says<1> short_learnt_after_guidance{
    "short-learnt-after-guidance", "LEARNT AFTER GUIDANCE: {what}: ask its issuer again before use"};
inline constexpr Says<3> short_display_showed{"short-display-showed",
                                              "A DISPLAY SHOWED {degrees} in {place} at {at}, in no figure"};
inline constexpr Says<0> short_handover_restated{"short-handover-restated",
                                                 "ANOTHER HANDOVER CAME: DO NOT USE before it is put right"};
inline constexpr Says<1> short_incident_settled{"short-incident-settled",
                                                "INCIDENT {incident} IS OPEN: settled by guidance for these doses"};
inline constexpr Says<2> short_may_have_been_out{"short-may-have-been-out",
                                                 "MAY HAVE BEEN OUT OF RANGE: {side} for at most {time}"};
inline constexpr Says<3> short_may_be_over_allowance{
    "short-may-be-over-allowance",
    "MAY BE OVER ITS ALLOWANCE: {side} for at most {time}, {allowed} permitted"};
inline constexpr Says<1> short_may_have_frozen{
    "short-may-have-frozen", "MAY HAVE FROZEN: at or below the freeze limit for at most {time}"};
inline constexpr Says<1> short_unknown_let_pass{"short-unknown-let-pass",
                                                "NOT KNOWN FOR {time}, which the site's own limit lets pass"};
inline constexpr Says<2> short_out_when_last_read{"short-out-when-last-read",
                                                  "OUT OF RANGE WHEN LAST READ: {place} was {reading}: read it now"};
inline constexpr Says<3> short_counts_against_allowance{"short-counts-against-allowance",
                                                        "COUNTS AGAINST ALLOWANCE {number}: {used} used of {allowed}"};
inline constexpr Says<3> short_does_not_suit{"short-does-not-suit",
                                             "DOES NOT SUIT: {product} must be at {range}, {place} is not"};
inline constexpr Says<0> short_condemned_elsewhere{
    "short-condemned-elsewhere",
    "CONDEMNED ELSEWHERE: guidance says discard for other doses of this lot: ask about these before use"};
inline constexpr Says<1> short_way_in_no_figure{"short-way-in-no-figure",
                                                "THE WAY FROM ANOTHER SITE IS IN NO FIGURE: {way}"};
inline constexpr Says<1> short_readings_not_come{
    "short-readings-not-come", "THE SENDER'S READINGS HAVE NOT COME: {time} not known, in no list"};
inline constexpr Says<1> short_release_lapsed{
    "short-release-lapsed",
    "THE RELEASE DOES NOT HOLD ANY MORE (incident {incident}): do not use before it is settled"};

// beside doses given
inline constexpr Says<1> short_given_in_doubt_covered{"short-given-in-doubt-covered",
                                                      "IN DOUBT: incident {incident} is open; guidance covers them"};
inline constexpr Says<1> short_given_in_doubt_closed{"short-given-in-doubt-closed",
                                                     "IN DOUBT: incident {incident} was closed without an answer"};

// doses given that are not listed
inline constexpr Says<2> short_in_doubt_unlisted{
    "short-in-doubt-unlisted", "IN DOUBT, and not listed here: {given}; incident {incident} is open"};
inline constexpr Says<2> short_in_doubt_closed_unlisted{
    "short-in-doubt-closed-unlisted",
    "IN DOUBT, and not listed here: {given}; incident {incident} was closed without an answer for them"};
inline constexpr Says<1> short_not_sure_unlisted{
    "short-not-sure-unlisted",
    "NOT SURE, and not listed here: {given}; may have been out of range too long, or have frozen"};
inline constexpr Says<1> short_unknown_given_unlisted{
    "short-unknown-given-unlisted", "NOT KNOWN, and not listed here: {given}, for hours where nothing is known"};
inline constexpr Says<1> short_not_come_unlisted{
    "short-not-come-unlisted",
    "NOT KNOWN, and not listed here: {given}, from another site whose readings have not come"};
inline constexpr Says<1> short_learnt_later_unlisted{
    "short-learnt-later-unlisted", "LEARNT AFTER GUIDANCE, whatever the finding is: {given}: ask its issuer again"};
inline constexpr Says<1> short_display_more_unlisted{
    "short-display-more-unlisted",
    "A DISPLAY SHOWED MORE, whatever the finding is: {given}, in a place whose first check is out of range"};
inline constexpr Says<1> doses_were_given{"doses-were-given", "{doses} given"};

}  // namespace coldtally::words
