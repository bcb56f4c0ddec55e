// Logger: the phrases of how a logger's file was read: what was guessed of its layout, what of that could be otherwise,
// and what was settled. Names of a layout's fields stand in them as a layout file has them.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// where something stands in a file
inline constexpr Says<1> column{"column", "column {number}"};
inline constexpr Says<2> column_titled{"column-titled", "column {number} ({title})"};
inline constexpr Says<0> the_layout{"the-layout", "the layout"};
inline constexpr Says<0> the_units_in_cells{"the-units-in-cells", "the units in the cells"};
inline constexpr Says<1> the_title{"the-title", "the title {title}"};

// guessed: cells and rows
inline constexpr Says<1> delimiter_is{"delimiter-is", "delimiter: {delimiter}"};
inline constexpr Says<0> tab{"tab", "tab"};
inline constexpr Says<1> instant_column_is{"instant-column-is", "date with time: {column}"};
inline constexpr Says<1> date_column_is{"date-column-is", "date: {column}"};
inline constexpr Says<1> time_column_is{"time-column-is", "time: {column}"};
inline constexpr Says<1> temperature_column_is{"temperature-column-is", "temperature: {column}"};
inline constexpr Says<1> scale_column_is{"scale-column-is", "scale: {column}"};
inline constexpr Says<1> lines_before_rows{"lines-before-rows", "lines before the rows: {number}"};

// guessed: patterns and the clock
inline constexpr Says<1> date_pattern_is{"date-pattern-is", "date_pattern: {pattern}"};
inline constexpr Says<1> time_pattern_is{"time-pattern-is", "time_pattern: {pattern}"};
inline constexpr Says<1> instant_pattern_is{"instant-pattern-is", "instant_pattern: {pattern}"};
inline constexpr Says<2> settled_by_line{"settled-by-line", "{guess} (line {line} can be nothing else)"};
inline constexpr Says<1> settled_by_steps{
    "settled-by-steps", "{guess} (only so do the rows follow one another without gaps of weeks)"};
inline constexpr Says<2> clock_at_offset{"clock-at-offset", "clock: at offset {offset}, from the title {title}"};
inline constexpr Says<1> clock_of_site{"clock-of-site", "clock: in the site's zone, {zone}"};

// guessed: degrees
inline constexpr Says<1> decimal_is{"decimal-is", "decimal: {sign}"};
inline constexpr Says<2> scale_from{"scale-from", "scale: {scale}, from {where}"};
inline constexpr Says<1> scale_of_probe_alone{"scale-of-probe-alone",
                                              "scale: {scale}, the probe's; the file states none"};
inline constexpr Says<3> resolution_shown{
    "resolution-shown",
    "resolution: readings rounded to {resolution}, as their digits show (line {line}: {cell})"};

// what could be otherwise
inline constexpr Says<2> could_be{"could-be", "{guess}, could be {other}"};
inline constexpr Says<1> looks_like_another{"looks-like-another", "{guess}, but it looks like something else"};
inline constexpr Says<2> could_be_decimal_commas{
    "could-be-decimal-commas",
    "{guess} with whole degrees, could be decimal commas ({cells}) that the delimiter \",\" takes apart; then the "
    "logger has to write the file with another delimiter"};
inline constexpr Says<3> date_could_be{"date-could-be", "{guess}, could be {others} ({cell})"};
inline constexpr Says<4> clock_could_be{"clock-could-be",
                                        "{guess}, could be at offset {offset} (line {line}: {text})"};
inline constexpr Says<4> scale_could_be_titled{
    "scale-could-be-titled", "scale: {scale} from {where}, could be {other} (title {title})"};
inline constexpr Says<3> scale_could_be_other{
    "scale-could-be-other",
    "scale: {scale}, the probe's, could be {other} (the median reading is {degrees}, and the file states no scale)"};
inline constexpr Says<1> could_be_finer{"could-be-finer", "{guess}, could be finer or coarser"};
inline constexpr Says<1> could_be_other_pass{
    "could-be-other-pass", "{settled}, going by the usual step between rows; could be the other pass"};

// what was settled
inline constexpr Says<0> read_as_latin1{"read-as-latin1", "is not UTF-8; read as ISO 8859-1 (Latin-1)"};
inline constexpr Says<0> newest_row_first{"newest-row-first", "the newest row is first; read from the end"};
inline constexpr Says<3> hour_shown_twice{"hour-shown-twice",
                                          "line {line}: the clock of {zone} shows this hour twice: {rows}"};
inline constexpr Says<2> row_at_offset{"row-at-offset", "line {line} at {offset}"};
inline constexpr Says<3> rows_at_offset{"rows-at-offset", "lines {first} to {last} at {offset}"};
inline constexpr Says<2> goes_back_by_clock{
    "goes-back-by-clock",
    "line {line}: goes back to {at} (local time of the site); the clock is stated to be another there, and the rows "
    "were sorted"};
inline constexpr Says<2> goes_back_and_fits{
    "goes-back-and-fits",
    "line {line}: goes back to {at} (local time of the site); the parts fit one another and were sorted"};
inline constexpr Says<1> more_steps_back{"more-steps-back", "and {number} more steps back of this kind"};
inline constexpr Says<3> readings_of_no_place{
    "readings-of-no-place",
    "{number} of {all} readings count for no place: probe {probe} was in none then; if it was, say where since when "
    "(assign, with its instant)"};
inline constexpr Says<3> second_pass_from{
    "second-pass-from", "{zone} shows the hour of {time} twice: {row} is the first row of its second pass"};

}  // namespace coldtally::words
