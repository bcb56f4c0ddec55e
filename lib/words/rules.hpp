// Rules: the phrases of a programme's conditions, and of what became of them.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// conditions
inline constexpr Says<0> no_condition_named{"no-condition-named",
                                            "the programme's rules name no condition of what must be reported"};
inline constexpr Says<1> no_condition_for_type{"no-condition-for-type",
                                               "no condition of the programme is for a place of the type {type}"};
inline constexpr Says<0> out_of_own_range{"out-of-own-range", "out of the place's own range"};
inline constexpr Says<1> above{"above", "above {limit}"};
inline constexpr Says<1> at_or_above{"at-or-above", "at or above {limit}"};
inline constexpr Says<1> below{"below", "below {limit}"};
inline constexpr Says<1> at_or_below{"at-or-below", "at or below {limit}"};
inline constexpr Says<0> the_places_highest{"the-places-highest", "the place's highest"};
inline constexpr Says<0> the_places_lowest{"the-places-lowest", "the place's lowest"};
inline constexpr Says<1> more_than{"more-than", "more than {amount}"};
inline constexpr Says<2> without_a_break{"without-a-break", "{temperature} for {time} without a break"};
inline constexpr Says<3> in_all_within{"in-all-within", "{temperature} for {time} in all within any {span}"};
inline constexpr Says<1> any_reading{"any-reading", "any reading {temperature}"};
inline constexpr Says<2> excursions_ever{
    "excursions-ever", "{number} excursion {temperature} ever|{number} excursions {temperature} ever"};
inline constexpr Says<3> excursions_within{
    "excursions-within",
    "{number} excursion {temperature} within any {span}|{number} excursions {temperature} within any {span}"};
inline constexpr Says<1> while_it_holds{"while-it-holds", "while it holds {products}"};
inline constexpr Says<2> condition_worded{"condition-worded", "{condition} (\"{text}\")"};

// what became of one
inline constexpr Says<3> rule_finding{"rule-finding", "{rule}: {state} ({figures})"};
inline constexpr Says<1> rule_met{"rule-met", "MET, at the latest on {at}"};
inline constexpr Says<1> rule_met_by_estimate{"rule-met-by-estimate",
                                              "MET by the readings on {at}, not beyond the probe's tolerance"};
inline constexpr Says<1> rule_perhaps_met{"rule-perhaps-met", "PERHAPS MET on {at}, within the probe's tolerance"};
inline constexpr Says<1> rule_cannot_be_said{"rule-cannot-be-said",
                                             "CANNOT BE SAID: {unknown}, in which it may have been met"};
inline constexpr Says<0> rule_not_met{"rule-not-met", "not met"};
inline constexpr Says<1> unknown_between_checks{"unknown-between-checks",
                                                "nothing is known for {time} between plain checks"};
inline constexpr Says<1> longest_run{"longest-run", "longest {time}"};
inline constexpr Says<1> largest_sum{"largest-sum", "most {time}"};
inline constexpr Says<1> number_of_readings{"number-of-readings", "readings {number}"};
inline constexpr Says<1> most_together{"most-together", "most together {number}"};
inline constexpr Says<2> by_tolerances{"by-tolerances", "at least {at_least}, at most {at_most}"};
inline constexpr Says<1> with_what_is_not_known{"with-what-is-not-known", "up to {most} with what is not known"};

// the table
inline constexpr Says<0> rules_title{"rules-title", "the programme's rules"};
inline constexpr Says<0> rules_not_known{
    "rules-not-known",
    "No rules of a programme are known here: what must be reported, and how soon, is not in this ledger. Post a rules "
    "entry."};
inline constexpr Says<4> programme_line{"programme-line", "{programme} ({source}, dated {date}; entry {entry})"};
inline constexpr Says<0> to_be_reported{"to-be-reported", "To be reported:"};
inline constexpr Says<0> nothing_is_said{"nothing-is-said", "nothing is said"};
inline constexpr Says<2> duty_within{"duty-within", "{step}: within {time} from being noticed"};
inline constexpr Says<2> duty_answered_within{"duty-answered-within",
                                              "{step}: due within {time} from when it was asked for"};
inline constexpr Says<1> where_reportable{"where-reportable", "{duty}, where it must be reported"};
inline constexpr Says<1> conditions_in_window{"conditions-in-window", "Conditions {window}:"};
inline constexpr Says<2> unknown_hides_more{"unknown-hides-more",
                                            "{place}: the temperature is NOT KNOWN for {time}, which may hide more"};

}  // namespace coldtally::words
