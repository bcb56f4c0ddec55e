// Answer draft: what guidance that answers a report does not cover, and of which doses its issuer may not have thought.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// what its issuer was told, and what is known now
inline constexpr Says<3> more_than_told{
    "more-than-told",
    "doses in {place}: told of {told}, now known: {now}; they are not covered: tell it and ask again"};
inline constexpr Says<1> time_unknown{"time-unknown", "{time} of unknown temperature"};
inline constexpr Says<1> readings_out{"readings-out", "{number} reading out of range|{number} readings out of range"};
inline constexpr Says<2> so_much_more{"so-much-more", "{now}, {more} more"};
inline constexpr Says<2> doses_not_told{
    "doses-not-told", "{number} dose in {place} was not told of|{number} doses in {place} were not told of"};
inline constexpr Says<2> worse_than_told{"worse-than-told",
                                         "{holding}: known now, and not when it was reported: {what}"};
inline constexpr Says<3> fewer_were_told{
    "fewer-were-told",
    "told of {told} dose in {place}, {number} were there: the answer is not for the rest|told of {told} doses in "
    "{place}, {number} were there: the answer is not for the rest"};
inline constexpr Says<0> told_different_figures{
    "told-different-figures",
    "the holdings were told of with different figures: one guidance for each; none of them covers a dose whose chart "
    "names the lot alone"};

// other doses of the lot
inline constexpr Says<1> answer_to_who_has_them{
    "answer-to-who-has-them", "{left}: tell who has them of this answer, too: it changes nothing there"};
inline constexpr Says<2> answer_to_site{"answer-to-site",
                                        "{left}: tell {to} of this answer, too: it changes nothing there"};
inline constexpr Says<3> of_an_opened_vial{
    "of-an-opened-vial",
    "{number} dose in {place} is of a vial that was opened: was {issuer} asked about it?|{number} doses in {place} "
    "are of a vial that was opened: was {issuer} asked about those?"};

// whether it is meant
inline constexpr Says<2> condemned_as_well{
    "condemned-as-well",
    "{number} dose of {holding}, that may be used as far as is known, is condemned as well: ask whether it is "
    "meant|{number} doses of {holding}, that may be used as far as is known, are condemned as well: ask whether it "
    "is meant"};
inline constexpr Says<3> given_found_against{
    "given-found-against",
    "of the dose given {at} (entry {entry}) nothing was found, and with this answer it is \"{finding}\": ask whether "
    "it is meant; stated since when it judges (since), an answer leaves out what was given before"};

}  // namespace coldtally::words
