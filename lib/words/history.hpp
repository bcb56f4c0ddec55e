// History: the phrases of what doses have been through, and of why they are on their list.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

inline constexpr Says<2> allowance_named{"allowance-named", "allowance {number} ({time})"};
inline constexpr Says<2> perhaps{"perhaps", "perhaps {side}, at most {time}"};
inline constexpr Says<2> for_time{"for-time", "{side} {time}"};
inline constexpr Says<4> for_time_between{"for-time-between",
                                          "{side} {time} (at least {at_least}, at most {at_most})"};
inline constexpr Says<1> points_out{"points-out", "{points} out of range or at the freeze limit"};
inline constexpr Says<1> nothing_between_checks{"nothing-between-checks",
                                                "nothing is known between plain checks, {time} in all"};

// reasons, each after its stable name
inline constexpr Says<1> past_expiry_on{"past-expiry-on", "past the lot's expiry, {day}"};
inline constexpr Says<0> past_expiry{"past-expiry", "past the lot's expiry"};
inline constexpr Says<1> past_use_by{"past-use-by", "past its use-by, {day}"};
inline constexpr Says<1> reason_condemned{"reason-condemned", "guidance says discard ({entries})"};
inline constexpr Says<0> because_condemned{"because-condemned", "guidance says discard"};
inline constexpr Says<1> reason_warm{"reason-warm", "too warm for {time} that no allowance covers"};
inline constexpr Says<1> reason_cold{"reason-cold", "too cold for {time} that no allowance covers"};
inline constexpr Says<1> reason_frozen{"reason-frozen", "at or below the freeze limit for {time}"};
inline constexpr Says<2> reason_over_allowance{"reason-over-allowance", "{allowance} is used up: {time} used"};
inline constexpr Says<0> some_allowance_used_up{"some-allowance-used-up", "an allowance is used up"};
inline constexpr Says<1> reason_point{"reason-point",
                                      "{points} out of range that no allowance covers, or at the freeze limit"};
inline constexpr Says<1> reason_unmonitored{"reason-unmonitored", "the temperature is not known for {time}"};
inline constexpr Says<1> reason_held{"reason-held", "held back ({entries})"};
inline constexpr Says<0> reason_held_unnamed{"reason-held-unnamed", "held back"};

// the lines of a history
inline constexpr Says<1> out_of_range_is{"out-of-range-is", "Out of range: {what}"};
inline constexpr Says<0> no_record{"no-record", "not known, there is no record"};
inline constexpr Says<0> none_seen{"none-seen", "none seen"};
inline constexpr Says<0> none_seen_by_logger_or_check{"none-seen-by-logger-or-check", "none seen by logger or check"};
inline constexpr Says<0> not_every_hour{"not-every-hour", "not every hour is known"};
inline constexpr Says<1> out_of_range_for{"out-of-range-for", "out of range {time}"};
inline constexpr Says<1> things_out_of_range{"things-out-of-range", "{what} out of range"};
inline constexpr Says<1> not_known_for{"not-known-for", "not known {time}"};
inline constexpr Says<0> all_before_guidance{"all-before-guidance", "All of this was before guidance that cleared it"};
inline constexpr Says<1> since_guidance{"since-guidance", "Since guidance cleared it: {what}"};
inline constexpr Says<1> known_how{"known-how", "Known how: {how}"};
inline constexpr Says<0> no_time_passed{"no-time-passed", "no time has passed in this ledger"};
inline constexpr Says<4> allowance_line{"allowance-line", "Allowance {number} of {time}: {used} used, {left} left"};
inline constexpr Says<4> allowance_line_unsure{
    "allowance-line-unsure",
    "Allowance {number} of {time}: {used} used, {left} left by the estimate, PERHAPS NOTHING by the values around it"};
inline constexpr Says<2> lowest_highest{"lowest-highest", "Lowest {lowest}, highest {highest}"};
inline constexpr Says<0> no_temperature{"no-temperature", "Lowest and highest: no temperature known"};
inline constexpr Says<1> use_by_is{"use-by-is", "Use-by: {when}"};

// in what two histories differ
inline constexpr Says<0> differs_out_of_range{"differs-out-of-range", "out of range"};
inline constexpr Says<1> allowance_numbered{"allowance-numbered", "allowance {number}"};
inline constexpr Says<0> differs_not_cleared{"differs-not-cleared", "not cleared by guidance"};
inline constexpr Says<0> differs_known_how{"differs-known-how", "known how"};
inline constexpr Says<0> differs_extremes{"differs-extremes", "lowest to highest"};
inline constexpr Says<0> differs_held_by{"differs-held-by", "held by"};
inline constexpr Says<0> differs_condemned_by{"differs-condemned-by", "condemned by"};
inline constexpr Says<0> differs_usable{"differs-usable", "usable by what they have been through"};
inline constexpr Says<0> differs_by_less{"differs-by-less",
                                         "what they have been through, by less than the figures here show"};
inline constexpr Says<1> time_used{"time-used", "{time} used"};

}  // namespace coldtally::words
