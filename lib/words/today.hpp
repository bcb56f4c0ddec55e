// Today: the phrases of the screen with which a day begins and ends.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

inline constexpr Says<2> answer_today{"answer-today", "today, {weekday} {day}"};

// doses that must not be used
inline constexpr Says<3> today_do_not_use{"today-do-not-use",
                                          "DO NOT USE {number} of {all} doses: see `{task}`"};
inline constexpr Says<4> today_do_not_use_warned{
    "today-do-not-use-warned",
    "DO NOT USE {number} of {all} doses, {warned} more WITH A WARNING: see `{task}`"};
inline constexpr Says<2> today_none_not_to_use{
    "today-none-not-to-use",
    "Not to be used: none of the {all} doses here is known to be for discard, in quarantine, on hold or in doubt; "
    "what else is to be known of them: `{task}`"};
inline constexpr Says<0> today_no_doses{"today-no-doses", "No doses are here, as far as is known."};
inline constexpr Says<1> today_warned{
    "today-warned",
    "WITH A WARNING, to be read before use: {number} dose|WITH A WARNING, to be read before use: {number} doses"};
inline constexpr Says<0> title_discard{"title-discard", "Discard"};
inline constexpr Says<0> title_quarantine{"title-quarantine", "Quarantine"};
inline constexpr Says<0> title_on_hold{"title-on-hold", "On hold"};
inline constexpr Says<0> title_in_doubt{"title-in-doubt", "In doubt"};
inline constexpr Says<0> title_warning{"title-warning", "Warning"};
inline constexpr Says<0> title_nothing_found{"title-nothing-found", "Nothing found"};
inline constexpr Says<1> more_places{"more-places", "{number} more place|{number} more places"};

// units
inline constexpr Says<2> today_units_wrong{"today-units-wrong",
                                           "OUT OF RANGE OR SILENT: {number} of {all} place in use|"
                                           "OUT OF RANGE OR SILENT: {number} of {all} places in use"};
inline constexpr Says<1> today_units_none{
    "today-units-none",
    "Units: {number} place in use, which was in range when it was last read|"
    "Units: all {number} places in use were in range when they were last read"};
inline constexpr Says<0> today_no_units{"today-no-units", "Units: no place is in use, as far as is known."};
inline constexpr Says<4> unit_out{"unit-out",
                                  "{place}: {side} when last read, {degrees}, {ago} ago: read it now"};
inline constexpr Says<4> unit_out_silent{
    "unit-out-silent",
    "{place}: {side} when last read, {degrees}, and NOTHING READ for {ago}: read it now"};
inline constexpr Says<3> units_silent{
    "units-silent", "{places}: NOTHING READ for {ago}, since {when}: NOT KNOWN how it is (in range then)"};
inline constexpr Says<1> units_never_read{"units-never-read",
                                          "{places}: NOTHING was ever READ there: NOT KNOWN how it is"};
inline constexpr Says<3> unit_last_read{"unit-last-read", "{place} {degrees} {ago} ago"};
inline constexpr Says<1> units_in_range{"units-in-range", "In range when last read: {units}"};
inline constexpr Says<2> more_units{"more-units", "{units}, and {number} more, none of them read longer ago"};

// incidents and excursions
inline constexpr Says<2> today_incidents{"today-incidents",
                                         "OPEN INCIDENTS: {number}; what is due, and all of one: `{task}`"};
inline constexpr Says<0> today_no_incidents{"today-no-incidents", "Incidents: none is open."};
inline constexpr Says<1> overdue_list{"overdue-list", "OVERDUE {duties}"};
inline constexpr Says<1> due_list{"due-list", "to be done: {duties}"};
inline constexpr Says<1> no_time_list{"no-time-list", "to do, no rule says by when: {duties}"};
inline constexpr Says<0> nothing_due{"nothing-due", "open, nothing is due by any rule that is known"};
inline constexpr Says<2> duty_times{"duty-times", "{duty} ({number} makers)"};
inline constexpr Says<2> duty_since{"duty-since", "{duty} since {when}"};
inline constexpr Says<2> duty_until{"duty-until", "{duty} (due {when})"};
inline constexpr Says<1> left_untold{"left-untold",
                                     "{number} departure NOT TOLD of|{number} departures NOT TOLD of"};
inline constexpr Says<0> doses_uncounted{"doses-uncounted", "NOT counted"};
inline constexpr Says<2> today_no_incident_of{
    "today-no-incident-of", "EXCURSIONS that belong to NO INCIDENT: {number}; `{task}` opens one"};
inline constexpr Says<2> excursions_latest{"excursions-latest", "{number} of them, the latest {latest}"};
inline constexpr Says<3> more_excursions{"more-excursions", "{number} more, in {places} other places: `{task}`"};
inline constexpr Says<1> today_excursions_none{
    "today-excursions-none", "Excursions without an incident: none is known since {from}, in what was recorded."};

// what is to be used soon
inline constexpr Says<2> today_use{"today-use", "USE SOON, the last day is by {day}: {holdings}"};
inline constexpr Says<1> today_use_none{"today-use-none", "Use soon: no doses have their last day by {day}."};
inline constexpr Says<0> opened_vial{"opened-vial", "opened vial"};
inline constexpr Says<0> with_a_warning{"with-a-warning", "WITH A WARNING"};
inline constexpr Says<3> more_to_use{"more-to-use", "{number} more by {day}: `{task}`"};
inline constexpr Says<2> vial_day_not_known{"vial-day-not-known", "LAST DAY NOT KNOWN: {holding}: {why}"};
inline constexpr Says<2> more_vials{"more-vials", "{number} more of which it is not known: `{task}`"};

// checks
inline constexpr Says<1> today_checks_open{"today-checks-open", "CHECKS still to make today, or missed: {number}"};
inline constexpr Says<1> today_checks_done{"today-checks-done", "Checks: none is still to make today ({places})"};
inline constexpr Says<0> today_checks_none{"today-checks-none", "Checks: the rules ask for none today"};
inline constexpr Says<0> today_checks_not_judged{
    "today-checks-not-judged",
    "Checks: NOT JUDGED what is still to make, no rule is known that says how often to check"};
inline constexpr Says<1> checks_made_at{"checks-made-at", "done {times}"};
inline constexpr Says<0> checks_none_made{"checks-none-made", "none made today"};
inline constexpr Says<2> checks_to_make{"checks-to-make", "{number} still to make, by {times}"};
inline constexpr Says<2> checks_missed{"checks-missed", "{number} MISSED, due by {times}"};
inline constexpr Says<1> checks_unfinished{"checks-unfinished", "{check}, WITHOUT minimum and maximum so far"};
inline constexpr Says<1> checks_all_made{"checks-all-made", "none still to make: {places}"};
inline constexpr Says<0> checks_none_asked{"checks-none-asked", "the rules ask for none today"};
inline constexpr Says<0> checks_no_rule{"checks-no-rule", "NOT JUDGED, no rule is known that asks for any there"};
inline constexpr Says<0> end_of_day{"end-of-day", "the end of the day"};

// papers and devices
inline constexpr Says<2> today_due{"today-due", "OVERDUE, or due by {day}; all of it: `{task}`"};
inline constexpr Says<2> today_due_none{"today-due-none",
                                        "Papers and devices: nothing is overdue or due by {day} of {matters}."};
inline constexpr Says<2> due_overdue{"due-overdue", "{number} OVERDUE since {since}"};
inline constexpr Says<2> due_of_plan{"due-of-plan", "{number} missing or old since {since}"};
inline constexpr Says<1> due_missing{"due-missing", "{number} missing"};
inline constexpr Says<2> due_soon{"due-soon", "{number} due by {when}"};

// what was looked at
inline constexpr Says<1> today_looked_at{"today-looked-at",
                                         "Looked at: what stands above, excursions since {from}."};
inline constexpr Says<2> today_not_given{"today-not-given", "doses given (`{review}`, `{follow_up}`)"};
inline constexpr Says<1> today_not_record{"today-not-record",
                                          "times when nobody measured, and what was missed before today (`{task}`)"};
inline constexpr Says<1> today_not_looked_at{"today-not-looked-at", "NOT looked at: {what}."};
inline constexpr Says<1> today_not_judged{"today-not-judged", "NOT JUDGED, for want of a rule or a record: {matters}."};
inline constexpr Says<0> today_no_clearance{
    "today-no-clearance", "A quiet day says that nothing was found, not that doses may be used."};

}  // namespace coldtally::words
