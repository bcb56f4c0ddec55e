// Explanation: the phrases of why doses are on their list, in the order of time.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

inline constexpr Says<3> at_entry{"at-entry", "{when}  entry {entry}: {what}"};

// a stay in a place, and how its time is known
inline constexpr Says<4> stayed{"stayed", "{from} to {until}  in {place}: {known}"};
inline constexpr Says<1> time_logged{"time-logged", "logged {time}"};
inline constexpr Says<1> time_bounded{"time-bounded", "bounded {time}"};
inline constexpr Says<1> time_checked{"time-checked", "checked {time}, where nothing is known between the checks"};
inline constexpr Says<1> time_near{"time-near", "near {time}, the temperature itself not known"};
inline constexpr Says<1> time_awaiting{"time-awaiting", "awaiting {time}"};
inline constexpr Says<1> time_unmonitored{"time-unmonitored", "unmonitored {time}"};

// sums
inline constexpr Says<0> sum_warm_in_none{"sum-warm-in-none", "warm in no allowance"};
inline constexpr Says<0> sum_cold_in_none{"sum-cold-in-none", "cold in no allowance"};
inline constexpr Says<2> sum_allowance_of{"sum-allowance-of", "allowance {number} of {seconds} s"};
inline constexpr Says<5> adds{"adds",
                              "adds {what}: {estimate} (at least {at_least} s, at most {at_most} s), {degrees} °C·s"};
inline constexpr Says<2> adds_in_allowance{"adds-in-allowance", "of it in allowance {number}: {time}"};
inline constexpr Says<1> adds_warm_in_none{"adds-warm-in-none", "of it warm in no allowance: {time}"};
inline constexpr Says<1> adds_cold_in_none{"adds-cold-in-none", "of it cold in no allowance: {time}"};
inline constexpr Says<1> adds_points{
    "adds-points", "readings and checks out of range and in no allowance, or frozen: {points}"};

// what happened to the doses
inline constexpr Says<2> received_into{"received-into", "received {doses} into {place}"};
inline constexpr Says<2> received_with_history{
    "received-with-history", "received {doses} into {place}, with the history that the sender states"};
inline constexpr Says<1> held_by_recall{"held-by-recall", "held by entry {entry}, a recall that stands"};
inline constexpr Says<3> moved_from_to{"moved-from-to",
                                       "moved {doses} from {from} to {to}; their history goes with them"};
inline constexpr Says<3> given_of{"given-of", "given {doses} of {place}, which had {before}"};
inline constexpr Says<3> wasted_of{"wasted-of", "wasted {doses} of {place}, which had {before}"};
inline constexpr Says<3> returned_of{"returned-of", "returned {doses} of {place}, which had {before}"};
inline constexpr Says<3> transferred_of{"transferred-of", "transferred {doses} of {place}, which had {before}"};
inline constexpr Says<3> counted_of{"counted-of", "counted {doses} of {place}, which had {before}"};
inline constexpr Says<1> shortened{"shortened", "beyond-use: usable {until}"};
inline constexpr Says<1> joins{"joins", "joins {doses} there; of each number the larger stands from now on:"};
inline constexpr Says<3> joins_sum{"joins-sum", "{what}: there {there} s, coming in {incoming} s"};

// guidance
inline constexpr Says<3> guided{"guided", "guidance of {issuer} ({reference}): {verdict}, for all up to this instant"};
inline constexpr Says<1> judged_from{"judged-from", "it judged what happened from {when} on"};
inline constexpr Says<1> told_out_of_range{"told-out-of-range", "out of range {seconds} s"};
inline constexpr Says<1> told_not_known{"told-not-known", "not known {seconds} s"};
inline constexpr Says<1> told_points{"told-points", "points {points}"};
inline constexpr Says<4> told_and_open{
    "told-and-open",
    "told: {told}; open: out of range {out_of_range} s, not known {not_known} s, points {points}"};
inline constexpr Says<0> clears_all{"clears-all", "clears all that was open, and the holds"};
inline constexpr Says<0> does_not_clear{"does-not-clear",
                                        "does not clear: more is open than its issuer was told"};

// what they are now
inline constexpr Says<2> now_with_totals{
    "now-with-totals", "{when}  now {doses}; totals since receipt, and what is open of them:"};
inline constexpr Says<3> total_and_open{"total-and-open", "{what}: {total}, open {open}"};
inline constexpr Says<2> points_and_open{"points-and-open",
                                         "readings and checks out of range: {points}, open {open}"};
inline constexpr Says<2> usable_is_expiry{"usable-is-expiry", "usable {until}; expiry {expiry}"};
inline constexpr Says<2> reason_is{"reason-is", "reason {reason}: {why}"};
inline constexpr Says<0> because_expired{"because-expired", "past its expiry or its beyond-use"};
inline constexpr Says<0> because_warm{"because-warm", "open time warm in no allowance is above 0"};
inline constexpr Says<0> because_cold{"because-cold", "open time cold in no allowance is above 0"};
inline constexpr Says<0> because_frozen{"because-frozen", "open time at or below the freeze limit is above 0"};
inline constexpr Says<0> because_over_allowance{"because-over-allowance", "an allowance is used beyond its seconds"};
inline constexpr Says<0> because_point{"because-point", "an open reading or check is out of range"};
inline constexpr Says<1> because_unmonitored{"because-unmonitored",
                                             "open time not known is above the site's limit of {seconds} s"};
inline constexpr Says<0> because_held{"because-held", "a hold is open"};
inline constexpr Says<1> noted{"noted", "note: {text}"};
inline constexpr Says<1> list_is_warned{"list-is-warned", "list: {list}; DO NOT USE: a note above forbids it"};
inline constexpr Says<1> list_is{"list-is", "list: {list}"};
inline constexpr Says<2> list_is_in_doubt{"list-is-in-doubt", "list: {list}; IN DOUBT, open: {incidents}"};

inline constexpr Says<5> no_such_holding{
    "no-such-holding",
    "holding: {lot} of {product} in \"{place}\": no such doses at {at}; `{task}` lists those there are"};

// the answer as a table
inline constexpr Says<1> title_explanation{"title-explanation", "why {holding} is on its list"};

}  // namespace coldtally::words
