// Conditions: the phrases of what places were like: excursions, certificates, devices that disagree, the history of a
// unit.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// the range of a place or product; with one limit: words::at_least, words::at_most
inline constexpr Says<3> range_between{"range-between", "{low} to {high} {unit}"};

// when a probe had no valid certificate
inline constexpr Says<2> probe_uncertified{"probe-uncertified", "probe {probe}: no certificate, {time}"};
inline constexpr Says<2> probe_certificate_expired{"probe-certificate-expired",
                                                   "probe {probe}: certificate expired, {time}"};
inline constexpr Says<1> lapse_check{"lapse-check", "a check, {at}"};
inline constexpr Says<3> lapse_checks{"lapse-checks", "{number} checks, {from} to {until}"};

// marks of an excursion
inline constexpr Says<1> marked{"marked", "Marked: {mark}"};
inline constexpr Says<1> uncertified_readings{"uncertified-readings", "readings without a valid certificate: {lapse}"};
inline constexpr Says<0> peak_within_tolerance{
    "peak-within-tolerance", "within the probe's tolerance of the limit: it may not have been out of range"};
inline constexpr Says<1> cut_by_window{
    "cut-by-window",
    "cut by the window {where}: it lasted longer, and what is beyond the window is in no figure here"};
inline constexpr Says<0> at_its_beginning{"at-its-beginning", "at its beginning"};
inline constexpr Says<0> at_its_end{"at-its-end", "at its end"};
inline constexpr Says<0> at_both_ends{"at-both-ends", "at its beginning and its end"};
inline constexpr Says<4> end_unread{
    "end-unread",
    "{what} on a straight line between values, and nobody read when: out of range for at most {time} between {from} "
    "and {until}"};
inline constexpr Says<0> it_began{"it-began", "it began"};
inline constexpr Says<0> it_ended{"it-ended", "it ended"};
inline constexpr Says<0> it_began_and_ended{"it-began-and-ended", "it began and ended"};
inline constexpr Says<3> lot_out_at_most{
    "lot-out-at-most", "{product} lot {lot}: out of its own range for at most {time} in that time"};

// how long an excursion was
inline constexpr Says<1> length_by_readings{"length-by-readings", "{time} by readings"};
inline constexpr Says<1> length_between_checks{
    "length-between-checks", "{time} on a line between plain checks, where nothing is known"};
inline constexpr Says<2> length_by_both{
    "length-by-both",
    "{time} by readings and checks, of it {checked} on a line between plain checks, where nothing is known"};
inline constexpr Says<1> length_still_out{"length-still-out", "{length}, STILL OUT when they end"};
inline constexpr Says<1> length_bounded{"length-bounded",
                                        "some time in {time} (min and max only; all of it is counted)"};
inline constexpr Says<0> length_point{"length-point", "one reading; how long is not known"};

// the table of excursions
inline constexpr Says<1> excursions_title{"excursions-title", "excursions of {place}"};
inline constexpr Says<0> title_exposed{"title-exposed", "Exposed in this excursion"};
inline constexpr Says<2> excursions_in_window{"excursions-in-window",
                                              "{number} excursion {window}.|{number} excursions {window}."};
inline constexpr Says<2> hidden_and_known{"hidden-and-known", "{hidden} Known how: {how}."};
inline constexpr Says<5> excursion_head{"excursion-head", "{number}. {side}, {when}: {length}; {peak}"};
inline constexpr Says<1> at_instant{"at-instant", "at {at}"};
inline constexpr Says<2> inside{"inside", "Inside: {doses} in {holdings}"};
inline constexpr Says<0> no_doses_inside{"no-doses-inside", "No doses were inside."};
inline constexpr Says<0> within_own_range{"within-own-range", "within its own range"};
inline constexpr Says<0> within_own_range_at_checks{"within-own-range-at-checks",
                                                    "within its own range at the checks"};
inline constexpr Says<2> in_allowance{"in-allowance", "in {allowance}: {time}"};

// the table of conditions
inline constexpr Says<1> conditions_title{"conditions-title", "conditions of {place}"};
inline constexpr Says<1> window_line{"window-line", "Time {window}."};
inline constexpr Says<0> title_known_how{"title-known-how", "How it is known"};
inline constexpr Says<0> title_time{"title-time", "Time"};
inline constexpr Says<0> title_share{"title-share", "Share"};
inline constexpr Says<0> title_temperature{"title-temperature", "Temperature"};
inline constexpr Says<0> title_value{"title-value", "Value"};
inline constexpr Says<0> lowest_known{"lowest-known", "lowest known"};
inline constexpr Says<0> highest_known{"highest-known", "highest known"};
inline constexpr Says<0> mean_of_known{"mean-of-known", "mean of the logged and checked time"};
inline constexpr Says<0> kinetic_of_known{"kinetic-of-known", "mean kinetic temperature of that time"};
inline constexpr Says<0> window_cuts_lines{
    "window-cuts-lines",
    "Lowest and highest count the straight line between two readings or checks where the window cuts it: nobody read "
    "that value."};
inline constexpr Says<1> means_rest_on{"means-rest-on", "The means rest on {time} that a logger measured."};
inline constexpr Says<2> means_rest_on_checks{
    "means-rest-on-checks",
    "The means rest on {time} that a logger measured and {checked} on a line between plain checks, where nothing is "
    "known."};
inline constexpr Says<2> excursions_of_range{
    "excursions-of-range",
    "{number} excursion out of the place's range. {caution}|{number} excursions out of the place's range. {caution}"};

// what a display showed
inline constexpr Says<5> display_showed{
    "display-showed",
    "A DISPLAY SHOWED {degrees} in {place} at {at} (entry {entry}), as {what} of its first check: since when is not "
    "known, and it is in no figure"};
inline constexpr Says<2> both_shown{"both-shown", "{lowest} AND {highest}"};
inline constexpr Says<0> the_minimum{"the-minimum", "the minimum"};
inline constexpr Says<0> the_maximum{"the-maximum", "the maximum"};
inline constexpr Says<0> the_minimum_and_maximum{"the-minimum-and-maximum", "the minimum and maximum"};
inline constexpr Says<3> display_not_reset{
    "display-not-reset",
    "THE DISPLAY MAY HAVE SEEN IT EARLIER: the minimum and maximum count since the check of {at} (entry {entry}), "
    "which states none: a glance does not reset the display. They can be of any time since {earliest}, or since a "
    "reset after it: take back the check that was a glance, if no reset came with it"};
inline constexpr Says<2> last_check_that_states{"last-check-that-states",
                                                "the last check that states them, that of {at} (entry {entry})"};
inline constexpr Says<0> last_reset{"last-reset", "the display was reset last; no check before states them"};

// devices that disagree
inline constexpr Says<1> devices_disagree{"devices-disagree", "DISAGREE: {what}"};
inline constexpr Says<6> readings_differ{
    "readings-differ",
    "in {place} {device} says {degrees} at {at}, and {other} {other_degrees}: at least one of them is wrong"};
inline constexpr Says<7> minimum_differs{
    "minimum-differs",
    "in {place} {device} says minimum {degrees} between {from} and {until}, and the lowest of {logger} is {lowest} in "
    "that time: at least one of them is wrong, and where readings stand they count"};
inline constexpr Says<7> maximum_differs{
    "maximum-differs",
    "in {place} {device} says maximum {degrees} between {from} and {until}, and the highest of {logger} is {highest} "
    "in that time: at least one of them is wrong, and where readings stand they count"};
inline constexpr Says<1> the_check{"the-check", "the check of entry {entry}"};
inline constexpr Says<2> the_check_by_probe{"the-check-by-probe", "the check of entry {entry} of probe {probe}"};
inline constexpr Says<0> the_reading{"the-reading", "the reading of a logger"};
inline constexpr Says<1> the_reading_by_probe{"the-reading-by-probe", "the reading of probe {probe}"};
inline constexpr Says<0> the_logger{"the-logger", "the logger"};
inline constexpr Says<1> the_logger_probe{"the-logger-probe", "the logger, probe {probe},"};

// out of range, told line by line
inline constexpr Says<5> between_readings{"between-readings",
                                          "{from} {first_degrees}, {until} {second_degrees}: {what}"};
inline constexpr Says<3> part_of_it{"part-of-it", "of it {from} to {until}: {what}"};
inline constexpr Says<2> above_range_for{"above-range-for", "above the range for {seconds} s of {all} s"};
inline constexpr Says<2> below_range_for{"below-range-for", "below the range for {seconds} s of {all} s"};
inline constexpr Says<0> in_range_between{"in-range-between", "in range between"};
inline constexpr Says<6> readings_above{
    "readings-above",
    "{from} to {until}: {number} readings, all above the range, highest {degrees}: {seconds} s ({time})"};
inline constexpr Says<6> readings_below{
    "readings-below",
    "{from} to {until}: {number} readings, all below the range, lowest {degrees}: {seconds} s ({time})"};
inline constexpr Says<8> extremes_alone{
    "extremes-alone",
    "{from} to {until}: only minimum {lowest} and maximum {highest} of the check of {at} (entry {entry}) are known: "
    "all {seconds} s count as {sides}"};
inline constexpr Says<0> warm_and_as_cold{"warm-and-as-cold", "warm and as cold"};

// excursions that a list of incidents does not show
inline constexpr Says<1> no_excursion{"no-excursion", "no excursion {where}"};
inline constexpr Says<1> only_excursions{"only-excursions", "only excursions {where} are listed"};
inline constexpr Says<1> in_place{"in-place", "in {place}"};
inline constexpr Says<1> where_probe_was{"where-probe-was", "where probe {probe} was"};
inline constexpr Says<1> others_elsewhere{"others-elsewhere",
                                          "{number} elsewhere is not shown|{number} elsewhere are not shown"};
inline constexpr Says<1> others_at_other_times{
    "others-at-other-times", "{number} earlier or later is not shown|{number} earlier or later are not shown"};
inline constexpr Says<1> others_at_other_times_or_elsewhere{
    "others-at-other-times-or-elsewhere",
    "{number} earlier or later, or elsewhere, is not shown|{number} earlier or later, or elsewhere, are not shown"};
inline constexpr Says<2> of_them_without_incident{"of-them-without-incident",
                                                  "{not_shown}, {number} of them without an incident"};

// the history of a unit
inline constexpr Says<1> unit_title{"unit-title", "history of {place}"};
inline constexpr Says<0> title_month{"title-month", "Month"};
inline constexpr Says<0> title_excursions{"title-excursions", "Exc."};
inline constexpr Says<0> title_longest{"title-longest", "Longest"};
inline constexpr Says<0> title_warm{"title-warm", "Warm"};
inline constexpr Says<0> title_cold{"title-cold", "Cold"};
inline constexpr Says<0> title_logged{"title-logged", "Logged"};
inline constexpr Says<0> title_in_range{"title-in-range", "In range"};
inline constexpr Says<0> title_unknown{"title-unknown", "Unknown"};
inline constexpr Says<0> title_mean{"title-mean", "Mean"};
inline constexpr Says<0> title_kinetic{"title-kinetic", "Kinetic"};
inline constexpr Says<0> title_lowest{"title-lowest", "Lowest"};
inline constexpr Says<0> title_highest{"title-highest", "Highest"};
inline constexpr Says<0> title_differ{"title-differ", "Differ"};
inline constexpr Says<0> title_hour{"title-hour", "Hour"};
inline constexpr Says<0> title_begun{"title-begun", "Exc. begun"};
inline constexpr Says<4> cut_excursion{"cut-excursion", "{side} from {from} to {until}: {cut}"};
inline constexpr Says<0> no_time_to_tell_of{"no-time-to-tell-of", "No time to tell of."};
inline constexpr Says<0> a_point{"a-point", "a point"};
inline constexpr Says<0> not_measured{"not-measured", "not measured"};
inline constexpr Says<2> in_range_is_of{
    "in-range-is-of",
    "Known how: {how}. In range is the share of the time that a logger measured, which is {measured}; between plain "
    "checks nothing is known, and such time counts as neither."};
inline constexpr Says<3> warm_by_tolerances{
    "warm-by-tolerances", "Too warm {time} (at least {at_least}, at most {at_most}), by the probes' tolerances."};
inline constexpr Says<3> cold_by_tolerances{
    "cold-by-tolerances", "Too cold {time} (at least {at_least}, at most {at_most}), by the probes' tolerances."};
inline constexpr Says<0> by_the_hour{"by-the-hour", "By the hour of the day (local), over all of the time:"};
inline constexpr Says<0> hour_not_known{"hour-not-known", "hour not known: minimum or maximum alone"};
inline constexpr Says<0> same_months_in_range{
    "same-months-in-range", "The same month over the years, in range, of the time that a logger measured:"};
inline constexpr Says<0> same_months_kinetic{"same-months-kinetic",
                                             "The same month over the years, mean kinetic temperature:"};
inline constexpr Says<0> january{"january", "January"};
inline constexpr Says<0> february{"february", "February"};
inline constexpr Says<0> march{"march", "March"};
inline constexpr Says<0> april{"april", "April"};
inline constexpr Says<0> may{"may", "May"};
inline constexpr Says<0> june{"june", "June"};
inline constexpr Says<0> july{"july", "July"};
inline constexpr Says<0> august{"august", "August"};
inline constexpr Says<0> september{"september", "September"};
inline constexpr Says<0> october{"october", "October"};
inline constexpr Says<0> november{"november", "November"};
inline constexpr Says<0> december{"december", "December"};
inline constexpr Says<0> disagreements_head{
    "disagreements-head",
    "DEVICES THAT DISAGREE: at least one of the two is wrong. Have both looked at; they are not averaged."};
inline constexpr Says<0> no_disagreement{"no-disagreement",
                                         "No two devices were seen to disagree beyond their tolerances."};
inline constexpr Says<4> last_of_disagreements{
    "last-of-disagreements",
    "The last {number} of {all}; a shorter time ({shorter}) or {whole} shows the others."};
inline constexpr Says<3> differ_at{"differ-at", "{at}: at one time, {check}; {other}"};
inline constexpr Says<4> differ_minimum{"differ-minimum", "{at}: minimum since {from}, {check}; {other}"};
inline constexpr Says<4> differ_maximum{"differ-maximum", "{at}: maximum since {from}, {check}; {other}"};
inline constexpr Says<2> logger_says{"logger-says", "logger {probe} {degrees}"};
inline constexpr Says<1> some_logger_says{"some-logger-says", "logger {degrees}"};
inline constexpr Says<2> check_says{"check-says", "check {entry} {degrees}"};
inline constexpr Says<3> check_by_probe_says{"check-by-probe-says", "check {entry} ({probe}) {degrees}"};
inline constexpr Says<1> tolerance_not_known{"tolerance-not-known", "{device}, tolerance not known"};

}  // namespace coldtally::words
