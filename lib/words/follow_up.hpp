// Follow-up: the phrases of doses given that are followed to their end, and of a recall.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// where a dose stands, where something was noted for it
inline constexpr Says<0> standing_decided{"standing-decided", "decided"};
inline constexpr Says<0> standing_told{"standing-told", "told"};
inline constexpr Says<0> standing_no_answer{"standing-no-answer", "no answer"};
inline constexpr Says<0> standing_answered{"standing-answered", "answered"};
inline constexpr Says<0> standing_repeated{"standing-repeated", "repeated"};
inline constexpr Says<0> standing_tested{"standing-tested", "tested"};
inline constexpr Says<0> standing_not_needed{"standing-not-needed", "not needed"};

inline constexpr Says<2> title_recall{"title-recall", "recall of {product} lot {lot}, every dose given of it"};
inline constexpr Says<0> title_follow_up{"title-follow-up", "doses under review, followed to their end"};
inline constexpr Says<0> title_give{"title-give", "Give"};
inline constexpr Says<0> title_review{"title-review", "Review"};
inline constexpr Says<0> title_standing{"title-standing", "Standing"};
inline constexpr Says<1> gives{"gives", "{number} give|{number} gives"};
inline constexpr Says<1> whole_list{"whole-list", "Whole list: {count}"};
inline constexpr Says<1> where_each_stands{"where-each-stands", "Where each stands (adds up to the whole): {counts}"};
inline constexpr Says<1> ever_stood{"ever-stood", "Ever (a dose may have had several steps): {counts}"};
inline constexpr Says<0> no_steps_yet{"no-steps-yet", "no steps yet"};
inline constexpr Says<2> plus{"plus", "{first} + {second}"};
inline constexpr Says<2> standing_count{"standing-count", "{standing} {count}"};
inline constexpr Says<0> lot_alone_known{"lot-alone-known", "the chart names the lot, not the box"};
inline constexpr Says<4> step_noted{"step-noted", "{when} {step} ({by}, entry {entry})"};
inline constexpr Says<0> no_dose_given{"no-dose-given", "No dose of it was given."};
inline constexpr Says<0> review_list_empty{"review-list-empty", "No dose is on the review list."};
inline constexpr Says<3> decided_before{
    "decided-before", "DECIDED BEFORE THIS WAS KNOWN ({step}, {when}): {news}. Look at it again"};
inline constexpr Says<1> look_again{
    "look-again", "DECIDED BEFORE WHAT IS KNOWN NOW, look at them again (counted above as they stand): {count}"};
inline constexpr Says<1> recalled_since{"recalled-since", "RECALLED since: {recall}"};
inline constexpr Says<0> followed_apart{"followed-apart",
                                        "Apart, in no count: followed up, and no longer on this list"};
inline constexpr Says<0> left_of_recall{"left-of-recall", "Left this site, in no count: tell who has them"};
inline constexpr Says<0> left_with_news{"left-with-news",
                                        "Left this site, and worse is known of them since: tell who has them"};
inline constexpr Says<1> told_by_entry{"told-by-entry", "told of, entry {entry}"};
inline constexpr Says<1> learnt_since{"learnt-since", "since then: {what}"};

}  // namespace coldtally::words
