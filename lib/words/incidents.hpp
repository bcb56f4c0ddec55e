// Incidents: the phrases of incidents: what is due, the report and what it lacks, releases, and what changes.
#pragma once

#include "words/general.hpp"

namespace coldtally::words {

// what is due
inline constexpr Says<1> answer_of{"answer-of", "answer of {maker}"};
inline constexpr Says<1> answer_of_unknown_maker{"answer-of-unknown-maker",
                                                 "answer of a maker that is not known ({product})"};
inline constexpr Says<3> duty_overdue{"duty-overdue", "{duty}: OVERDUE for {time}, was due {due}"};
inline constexpr Says<3> duty_due{"duty-due", "{duty}: due {due}, in {time}"};
inline constexpr Says<1> duty_not_done{"duty-not-done", "{duty}: not done; no rule known here says by when"};
inline constexpr Says<1> duty_not_asked{"duty-not-asked", "{duty}: not asked for yet"};
inline constexpr Says<3> duty_done_late{"duty-done-late", "{duty}: done {done}, after it was due {due}"};
inline constexpr Says<2> duty_done{"duty-done", "{duty}: done {done}"};
inline constexpr Says<1> answer_for{"answer-for", "answer for {lots}"};
inline constexpr Says<3> answered_by_other{
    "answered-by-other", "{lot}: {answer}; by its name not from {maker}"};
inline constexpr Says<3> answered_by_other_untold{
    "answered-by-other-untold", "{lot}: {answer}; by its name not from {maker}, which HAS NOT BEEN ASKED"};
inline constexpr Says<1> since_then{"since-then", "since then {what}"};

// a report that was overtaken
inline constexpr Says<4> overtaken{
    "overtaken",
    "REPORTED WITH OTHER FIGURES: {recipient} was told {at} (entry {entry}): {figures}. Report again"};
inline constexpr Says<2> now_out_of_range{"now-out-of-range", "out of range {before}, now {after}"};
inline constexpr Says<2> now_not_known{"now-not-known", "not known {before}, now {after}"};
inline constexpr Says<2> now_readings{"now-readings",
                                      "readings out of range that no allowance covers {before}, now {after}"};
inline constexpr Says<1> now_also{"now-also", "now {side}, too"};
inline constexpr Says<3> now_given{"now-given", "doses given {before}, now {after} ({entries})"};
inline constexpr Says<3> now_left{"now-left", "doses that left {before}, now {after} ({entries})"};
inline constexpr Says<4> now_condition{"now-condition",
                                       "the condition \"{rule}\" in {place} was \"{before}\", now \"{after}\""};
inline constexpr Says<0> state_met{"state-met", "met"};
inline constexpr Says<0> state_met_by_estimate{"state-met-by-estimate", "met by the estimate"};
inline constexpr Says<0> state_perhaps_met{"state-perhaps-met", "perhaps met"};
inline constexpr Says<0> state_cannot_be_said{"state-cannot-be-said", "cannot be said"};
inline constexpr Says<2> and_others{"and-others", "{what}; and {number} more"};

// doses in doubt, in a review
inline constexpr Says<1> given_in_doubt{
    "given-in-doubt", "IN DOUBT: incident {incident} is open, and these doses stood in its time in doubt"};
inline constexpr Says<2> given_in_doubt_covered{
    "given-in-doubt-covered",
    "IN DOUBT: incident {incident} is open, and these doses stood in its time in doubt; guidance of entry {entry} "
    "covers them"};
inline constexpr Says<2> given_in_doubt_noticed_after{
    "given-in-doubt-noticed-after",
    "IN DOUBT: these doses stood in the time in doubt of incident {incident}, which was noticed after guidance of "
    "entry {entry} was posted: that answers nothing of it"};
inline constexpr Says<2> in_doubt_unlisted{
    "in-doubt-unlisted",
    "IN DOUBT, and not listed here: {given} that stood in the time in doubt of incident {incident}; it is open, and "
    "its report lists them"};
inline constexpr Says<2> in_doubt_listed{
    "in-doubt-listed",
    "IN DOUBT, and listed as nothing found: {given} that stood in the time in doubt of incident {incident}; it is "
    "open, and its report lists them"};
inline constexpr Says<1> given_in_doubt_closed{
    "given-in-doubt-closed",
    "IN DOUBT: incident {incident} was closed without an answer for these doses, which stood in its time in doubt"};
inline constexpr Says<2> in_doubt_closed_unlisted{
    "in-doubt-closed-unlisted",
    "IN DOUBT, and not listed here: {given} that stood in the time in doubt of incident {incident}; it was closed "
    "without an answer for them, and its report lists them"};
inline constexpr Says<2> in_doubt_closed_listed{
    "in-doubt-closed-listed",
    "IN DOUBT, and listed as nothing found: {given} that stood in the time in doubt of incident {incident}; it was "
    "closed without an answer for them, and its report lists them"};

/// Of doses whose finding is "cleared by guidance".
inline constexpr Says<2> in_doubt_cleared{
    "in-doubt-cleared",
    "IN DOUBT, whatever the finding is: {given} that stood in the time in doubt of incident {incident}, which was "
    "noticed after the guidance that covers them was posted: ask its issuer about it"};

// what stands against a release
inline constexpr Says<0> release_excursions{"release-excursions",
                                            "it was out of range, as the excursions of this incident say"};
inline constexpr Says<1> release_read_later{
    "release-read-later",
    "readings or checks of after the closing are known, up to {at}: date it after them"};
inline constexpr Says<0> release_none_before{"release-none-before",
                                             "no reading in range is known from before it was noticed"};
inline constexpr Says<1> release_before_unmeasured{
    "release-before-unmeasured",
    "the time before its last reading in range before it was noticed, that of {at}, was not measured"};
inline constexpr Says<1> release_checked{
    "release-checked", "{time} of it known between plain checks only, which does not count as known here"};
inline constexpr Says<1> release_awaiting{"release-awaiting", "{time} of it awaiting data"};
inline constexpr Says<1> release_not_known{"release-not-known", "{time} of it not known"};
inline constexpr Says<1> release_near{"release-near", "{time} of it near a reading in range, itself not known"};
inline constexpr Says<2> side_at_most{"side-at-most", "{side} for at most {time}"};
inline constexpr Says<2> release_of_product{"release-of-product", "for {product}: {what}"};
inline constexpr Says<4> release_lapsed{
    "release-lapsed",
    "THE RELEASE DOES NOT HOLD ANY MORE: incident {incident} was closed {at} (entry {entry}) and its holds on these "
    "doses were taken back; by what is known now, {against}. Do not use them until it is settled"};
inline constexpr Says<0> release_none_since{
    "release-none-since", "no reading in range is known since it was noticed: read its logger first"};
inline constexpr Says<1> release_old_reading{"release-old-reading",
                                             "its last reading in range is of {at}: read its logger first"};
inline constexpr Says<1> release_extremes{"release-extremes",
                                          "the minimum or maximum of the check of entry {entry} is out of range"};
inline constexpr Says<4> released{
    "released",
    "incident {incident} is closed: nothing was out of {range}, the range of the place, from {from} to {until}, all "
    "of it by a logger or within the minimum and maximum of checks"};

// the report: what is to be done, doses given and left
inline constexpr Says<2> incident_title_maker{"incident-title-maker", "incident {incident}, for {maker}"};
inline constexpr Says<0> heading_duties{"heading-duties", "To be done, overdue first"};
inline constexpr Says<1> duties_done{"duties-done", "{number} more is done.|{number} more are done."};
inline constexpr Says<1> conditions_met{"conditions-met",
                                        "TO BE REPORTED, by the programme's conditions: {conditions}"};
inline constexpr Says<1> conditions_not_sure{"conditions-not-sure",
                                             "PERHAPS TO BE REPORTED, or it cannot be said: {conditions}"};
inline constexpr Says<1> doses_to_discard{"doses-to-discard",
                                          "{number} dose to discard|{number} doses to discard"};
inline constexpr Says<1> doses_in_quarantine{"doses-in-quarantine",
                                             "{number} dose in quarantine|{number} doses in quarantine"};
inline constexpr Says<1> doses_in_doubt{"doses-in-doubt", "{number} dose in doubt|{number} doses in doubt"};
inline constexpr Says<1> its_doses_not_to_use{"its-doses-not-to-use", "DO NOT USE, of its doses here: {what}"};
inline constexpr Says<1> its_doses_on_keep{"its-doses-on-keep", "on keep, of its doses here: {doses}"};
inline constexpr Says<2> its_doses_on_keep_warned{"its-doses-on-keep-warned",
                                                  "on keep, of its doses here: {doses}, {warned} WITH A WARNING"};
inline constexpr Says<0> its_doses_are_gone{"its-doses-are-gone", "none of its doses are here any more"};
inline constexpr Says<2> its_doses_given{"its-doses-given",
                                         "given since the last good reading: {doses}, to {patients}"};
inline constexpr Says<1> its_doses_left{
    "its-doses-left",
    "LEFT SINCE THEN: {number} dose, and who has it was not told|"
    "LEFT SINCE THEN: {number} doses, and who has them was not told"};
inline constexpr Says<0> doses_not_counted{
    "doses-not-counted",
    "The doses of the affected places have NOT been counted since it was noticed: count them before the report."};
inline constexpr Says<0> heading_given{"heading-given", "Doses given since the last good reading"};
inline constexpr Says<0> none_known{"none-known", "none known"};
inline constexpr Says<1> to_patients{"to-patients", "to {patients}"};
inline constexpr Says<0> given_until_back{"given-until-back", "given until it was back in range:"};
inline constexpr Says<0> given_until_back_none{"given-until-back-none",
                                               "given until it was back in range: none known"};
inline constexpr Says<0> given_after_back{"given-after-back",
                                          "given after it was back in range, of doses that had been in it:"};
inline constexpr Says<3> given_line_of_lot{"given-line-of-lot", "{doses} of {lot}: {finding}"};
inline constexpr Says<3> given_line_of_them{"given-line-of-them", "of them {doses} from {from}: {what}"};
inline constexpr Says<1> task_lists_each{"task-lists-each", "`{task}` lists each of them."};
inline constexpr Says<5> given_line{"given-line", "{at} entry {entry}, {doses}, {holding}: {finding}"};
inline constexpr Says<6> given_line_to{"given-line-to",
                                       "{at} entry {entry}, {doses} to {patient}, {holding}: {finding}"};
inline constexpr Says<1> lot_alone{"lot-alone", "{holding} (not certain: the chart names the lot alone)"};
inline constexpr Says<0> heading_left{"heading-left",
                                      "Doses that left since the last good reading: tell those who have them"};
inline constexpr Says<2> left_told{"left-told", "{left}; told of, entry {entry}"};

// the report: what happened, and the units
inline constexpr Says<0> heading_happened{"heading-happened", "What happened"};
inline constexpr Says<4> step_line{"step-line", "{at} {step} ({by}): {text}"};
inline constexpr Says<2> out_since_text{"out-since-text", "out of range since {moment}: {text}"};
inline constexpr Says<1> moved_line{"moved-line", "moved: {what}"};
inline constexpr Says<6> moved{"moved", "{doses} of {lot} from {from} to {to} at {at} (entry {entry})"};
inline constexpr Says<3> heading_unit{"heading-unit", "Unit {place}: {name} ({type})"};
inline constexpr Says<2> last_in_range{"last-in-range", "last reading in range: {at}, {degrees}"};
inline constexpr Says<0> last_in_range_not_known{"last-in-range-not-known", "last reading in range: not known"};
inline constexpr Says<1> out_in_all{"out-in-all", "out of range in all: {what}"};
inline constexpr Says<0> out_in_all_not_known{"out-in-all-not-known", "out of range in all: not known to be"};
inline constexpr Says<1> known_by{"known-by", "known: {how}"};
inline constexpr Says<1> back_in_range{"back-in-range", "back in range: {at}"};
inline constexpr Says<0> back_in_range_not_known{"back-in-range-not-known", "back in range: not known to be"};
inline constexpr Says<1> in_doubt_in_parts{"in-doubt-in-parts", "IN DOUBT, PART BY PART: {parts}"};
inline constexpr Says<2> in_doubt_part{"in-doubt-part", "{from} until {until}, in range before and after"};
inline constexpr Says<2> in_doubt_part_not_over{
    "in-doubt-part-not-over", "{from} until {until}, in range before and not known to be since"};
inline constexpr Says<1> not_read_since_notice{
    "not-read-since-notice",
    "its excursions were over at {at}; nothing in range was read since it was noticed"};
inline constexpr Says<1> probe_serial{"probe-serial", "serial {serial}"};
inline constexpr Says<2> probe_certificate{"probe-certificate", "certificate {certificate} until {day}"};
inline constexpr Says<1> probe_certified{"probe-certified", "certificate until {day}"};
inline constexpr Says<1> probe_tolerance{"probe-tolerance", "tolerance {degrees}"};
inline constexpr Says<1> earlier_incident{"earlier-incident", "earlier incident: {incident}"};
inline constexpr Says<1> earlier_excursions{
    "earlier-excursions", "earlier excursions of this place that belong to no incident: {number}"};

// the report: conditions, vaccine
inline constexpr Says<0> heading_conditions{"heading-conditions", "The programme's conditions"};
inline constexpr Says<0> no_rules_here{"no-rules-here", "No rules of a programme are known here."};
inline constexpr Says<0> heading_vaccine_counted{"heading-vaccine-counted",
                                                 "Vaccine in the affected places (counted since)"};
inline constexpr Says<0> heading_vaccine_by_book{"heading-vaccine-by-book",
                                                 "Vaccine in the affected places (NOT counted since: by the book)"};
inline constexpr Says<0> vaccine_columns{
    "vaccine-columns",
    "Given and the rest: since then, of these doses and of those that came to them; found and missing by counts."};
inline constexpr Says<2> product_maker{"product-maker", "{name}; maker: {maker}"};
inline constexpr Says<1> out_this_time{"out-this-time", "this time: {what}"};
inline constexpr Says<1> out_before{"out-before", "before it was in this: {what}"};
inline constexpr Says<0> not_known_out{"not-known-out", "not known to be out of range"};
inline constexpr Says<0> not_exposed{"not-exposed", "not exposed, as far as is known"};
inline constexpr Says<2> also_in_line_of{
    "also-in-line-of",
    "{number} dose came to it out of {place} and is counted in that line, too, with what became of it|{number} doses "
    "came to it out of {place} and are counted in that line, too, with what became of them"};
inline constexpr Says<0> heading_now{"heading-now", "Where these doses are now"};
inline constexpr Says<0> none_left{"none-left", "none left"};
inline constexpr Says<1> out_since_it_came{"out-since-it-came", "since it came: {what}"};

// the report: holds, makers, reports
inline constexpr Says<0> heading_holds{"heading-holds", "Holds that came with its notice"};
inline constexpr Says<3> hold_stands{
    "hold-stands",
    "{number} dose of {holding} stays DO NOT USE (entry {entry})|{number} doses of {holding} stay DO NOT USE (entry "
    "{entry})"};
inline constexpr Says<2> hold_holds_none{"hold-holds-none", "{holding} has no doses any more (entry {entry})"};
inline constexpr Says<3> can_be_released{
    "can-be-released",
    "Closing it can release them: nothing was out of range ({ranges}) from {from} to {until}, all of that time by a "
    "logger or within the minimum and maximum of checks."};
inline constexpr Says<1> against_release{"against-release", "against a release by closing it: {why}"};
inline constexpr Says<0> heading_makers{"heading-makers", "Makers"};
inline constexpr Says<1> maker_not_known{"maker-not-known", "maker not known ({product})"};
inline constexpr Says<3> answer_said{"answer-said", "{verdict}, {issuer}, {reference}"};
inline constexpr Says<2> said_by_entry{"said-by-entry", "{what} (entry {entry})"};
inline constexpr Says<1> answer_is{"answer-is", "answer: {what}"};
inline constexpr Says<0> answer_awaited{"answer-awaited", "answer awaited"};
inline constexpr Says<1> answer_not_all{"answer-not-all", "{answer}; NOT COVERED by it: doses still wait"};
inline constexpr Says<1> not_of_this_answer{"not-of-this-answer", "not of this answer: {what}"};
inline constexpr Says<2> waits_for_later{
    "waits-for-later", "a dose given {at} (entry {entry}) waits for what came after"};
inline constexpr Says<3> holding_waits_for_later{
    "holding-waits-for-later",
    "{number} dose in {place} waits for what came after: {reasons}|{number} doses in {place} wait for what came "
    "after: {reasons}"};
inline constexpr Says<3> noticed_since_answer{
    "noticed-since-answer",
    "{number} dose in {place}: what was noticed by entry {entry} was not known when it was posted|{number} doses in "
    "{place}: what was noticed by entry {entry} was not known when it was posted"};
inline constexpr Says<3> known_since_answer{"known-since-answer",
                                            "{number} dose in {place}: {what}|{number} doses in {place}: {what}"};
inline constexpr Says<2> nothing_read_since{"nothing-read-since", "nothing of {place} has been read since {at}"};
inline constexpr Says<0> heading_reports{"heading-reports", "Reports sent"};
inline constexpr Says<3> report_to{"report-to", "{at} to {recipient} ({to})"};
inline constexpr Says<1> report_case{"report-case", "their case {reference}"};
inline constexpr Says<0> report_not_counted{"report-not-counted", "the doses not counted before"};

// the report: figures to tell
inline constexpr Says<0> heading_figures{
    "heading-figures", "Figures to tell: what no guidance covers yet, time in an allowance included"};
inline constexpr Says<1> not_yet_read{"not-yet-read", "NOT YET READ: {time}, which no figure counts"};
inline constexpr Says<1> between_checks_uncounted{
    "between-checks-uncounted", "NOTHING IS KNOWN between plain checks, {time}: no figure counts it"};
inline constexpr Says<0> nothing_open{"nothing-open", "nothing is left open"};
inline constexpr Says<0> nothing_open_by_estimate{
    "nothing-open-by-estimate",
    "nothing is left open by the estimates; what may be more stands with the doses above"};
inline constexpr Says<1> given_out_of_it{"given-out-of-it", "{doses} given out of it"};
inline constexpr Says<0> all_in_allowance{"all-in-allowance", "all of it in an allowance"};
inline constexpr Says<0> none_in_allowance{"none-in-allowance", "none of it in an allowance"};
inline constexpr Says<1> in_no_allowance{"in-no-allowance", "of it {time} in no allowance"};
inline constexpr Says<4> more_than_allowance{"more-than-allowance",
                                             "{time} MORE than the {permitted} of allowance {number} ({source})"};
inline constexpr Says<1> at_most_since_receipt{"at-most-since-receipt", "AT MOST {time} since receipt"};
inline constexpr Says<1> unknown_for{"unknown-for", "unknown {time}"};
inline constexpr Says<1> unknown_since_receipt{
    "unknown-since-receipt", "nothing known for {time} between plain checks since receipt"};

// the report: what it lacks
inline constexpr Says<0> heading_lacks{"heading-lacks", "Asked for, and not known to this ledger"};
inline constexpr Says<0> lacks_site{
    "lacks-site",
    "who: programme number, address, telephone and e-mail of the site, kind of facility, contact person"};
inline constexpr Says<0> lacks_reporter{
    "lacks-reporter",
    "who: title of the person reporting, signature; the programme's consultant and zone"};
inline constexpr Says<0> lacks_model{
    "lacks-model", "unit: model and grade; what else was inside (water bottles, coolant)"};
inline constexpr Says<0> lacks_position{
    "lacks-position",
    "device: position and medium of the probe; the logs of the weeks before, to be attached"};
inline constexpr Says<0> lacks_room{"lacks-room", "time: temperature of the room; whether there was light"};
inline constexpr Says<0> lacks_labels{"lacks-labels", "story: whether the doses are apart and labelled"};
inline constexpr Says<0> lacks_value{
    "lacks-value", "vaccine: presentation, unit price and value; opened vials, vial monitors"};
inline constexpr Says<0> lacks_decision{"lacks-decision", "end: the programme's decision; who signed for it"};
inline constexpr Says<0> lacks_notice{"lacks-notice", "time: when it was noticed"};
inline constexpr Says<0> lacks_cause{"lacks-cause", "story: the cause"};
inline constexpr Says<0> lacks_action{"lacks-action", "story: what was done, and what prevents it next time"};
inline constexpr Says<0> lacks_place{"lacks-place", "unit: which place it was"};
inline constexpr Says<1> lacks_last_good{"lacks-last-good", "time: the last reading in range of {place}"};
inline constexpr Says<1> lacks_back{"lacks-back", "time: when {place} was back in range"};
inline constexpr Says<2> lacks_temperature{"lacks-temperature", "time: the temperature of {place} for {time}"};
inline constexpr Says<2> lacks_between_checks{
    "lacks-between-checks",
    "time: the temperature of {place} for {time} between plain checks, where nothing is known"};
inline constexpr Says<1> lacks_device{"lacks-device", "device: what measured {place}"};
inline constexpr Says<6> lacks_which_check{
    "lacks-which-check",
    "which of two checks of {place} at {at} is right: entry {older} ({before}) or entry {newer} ({now}), which holds "
    "since it was noted later"};
inline constexpr Says<2> lacks_which_right{
    "lacks-which-right",
    "device: which of those in {place} was right: they differed by more than their tolerances at {at} (see unit "
    "{place})"};
inline constexpr Says<3> lacks_which_right_often{
    "lacks-which-right-often",
    "device: which of those in {place} was right: they differed by more than their tolerances {number} times, first "
    "at {at} (see unit {place})"};
inline constexpr Says<1> lacks_serial{"lacks-serial", "device: serial number of {probe}"};
inline constexpr Says<1> lacks_certificate{"lacks-certificate", "device: certificate of {probe}"};
inline constexpr Says<2> lacks_readings{
    "lacks-readings",
    "time: the readings of the last {time} of {holding}: they have not been read yet, and no figure above counts this "
    "time"};
inline constexpr Says<1> lacks_maker{"lacks-maker", "maker: who makes {product}"};
inline constexpr Says<1> lacks_answer{"lacks-answer", "maker: answer for {lot}"};
inline constexpr Says<1> lacks_whole_answer{
    "lacks-whole-answer",
    "maker: answer for all of {lot}: doses still wait, which the one that came does not cover"};
inline constexpr Says<1> lacks_count{"lacks-count", "vaccine: a count of {holding} after it was noticed"};
inline constexpr Says<1> lacks_judgement{"lacks-judgement", "rules: whether it must be reported; {why}"};
inline constexpr Says<0> lacks_rules{"lacks-rules",
                                     "rules: what the programme asks to be reported, and how soon"};

// the list of incidents
inline constexpr Says<0> incidents_title{"incidents-title", "incidents"};
inline constexpr Says<0> without_incident{"without-incident", "Excursions for which nobody has opened an incident:"};
inline constexpr Says<1> task_opens_one{"task-opens-one", "`{task}` opens one."};
inline constexpr Says<1> task_lists_all{"task-lists-all", "`{task}` lists them all."};
inline constexpr Says<1> not_all_listed{"not-all-listed", "NOT ALL: {what}."};
inline constexpr Says<0> no_incident{"no-incident", "No incident is known."};
inline constexpr Says<1> noticed_at{"noticed-at", "noticed {at}"};
inline constexpr Says<0> not_noticed{"not-noticed", "not noticed yet"};
inline constexpr Says<1> closed_at{"closed-at", "closed {at}"};
inline constexpr Says<1> excursions{"excursions", "{number} excursion|{number} excursions"};
inline constexpr Says<1> the_longest{"the-longest", "the longest: {excursion}"};
inline constexpr Says<1> the_latest{"the-latest", "the latest: {excursion}"};
inline constexpr Says<2> excursion_point{"excursion-point", "{side} at {at} (one reading)"};
inline constexpr Says<3> excursion_span{"excursion-span", "{side} {from} to {until}"};
inline constexpr Says<3> excursion_span_open{"excursion-span-open",
                                             "{side} {from} to {until} (not known to be over)"};
inline constexpr Says<1> excursion_bounded{"excursion-bounded", "{time} between minimum and maximum"};
inline constexpr Says<2> excursion_on_line{
    "excursion-on-line", "{time}, of it {checked} on a line between plain checks, where nothing is known"};

// what belongs to which, after an import or a check
inline constexpr Says<2> belongs{"belongs", "Incident {incident}. {given}"};
inline constexpr Says<2> belongs_closed{"belongs-closed", "Incident {incident}, which was closed. {given}"};
inline constexpr Says<2> check_belongs{"check-belongs", "The excursion belongs to incident {incident}. {given}"};
inline constexpr Says<2> check_belongs_closed{
    "check-belongs-closed", "The excursion belongs to incident {incident}, which was closed. {given}"};
inline constexpr Says<0> none_given_since{"none-given-since", "No dose was given since the last good reading."};
inline constexpr Says<1> given_since{"given-since", "Given since the last good reading: {given}."};
inline constexpr Says<3> given_named{"given-named", "entry {entry}, {product} lot {lot}"};
inline constexpr Says<3> left_since{"left-since", "{what} LEFT SINCE THEN: {left}: {advice}."};
inline constexpr Says<2> overtaken_since{"overtaken-since", "{what} {report}."};
inline constexpr Says<2> whole_report{"whole-report", "{what} All of it: {task}"};
inline constexpr Says<2> open_one_for{
    "open-one-for",
    "To open an incident for {place}, and see the doses given since the last good reading: {task}"};
inline constexpr Says<1> open_one{
    "open-one",
    "No incident is open for this excursion. Open one, and see at once the doses given since the last good reading: "
    "{task}"};
inline constexpr Says<2> incident_taken{
    "incident-taken",
    "incident: {incident}: is known already; must be a new name (`{task}` adds to one that is known)"};
inline constexpr Says<3> open_beside{"open-beside", "incident {incident} of {place} is open since {at}"};

// a report that is to be sent, and a step
inline constexpr Says<1> count_first{
    "count-first",
    "count: the doses of the affected places have not been counted since it was noticed: post the counts first, or "
    "say {parameter}"};
inline constexpr Says<1> nothing_to_hold{"nothing-to-hold", "no doses were in {place}: nothing to hold"};
inline constexpr Says<2> nothing_to_hold_then{"nothing-to-hold-then",
                                              "no doses were in {place} at {at}: nothing to hold"};
inline constexpr Says<2> all_on_hold{"all-on-hold", "all that is in {place} is on hold: {lots}"};
inline constexpr Says<3> all_then_on_hold{"all-then-on-hold", "all that was in {place} at {at} is on hold: {lots}"};
inline constexpr Says<1> came_on_hold{"came-on-hold", "what came there since is on hold from now on: {lots}"};
inline constexpr Says<2> not_put_on_hold{"not-put-on-hold",
                                         "NOT PUT ON HOLD: the doses in {place}, because: {why}"};
inline constexpr Says<1> note_closed_despite{"note-closed-despite", "closed all the same: {why}"};
inline constexpr Says<1> second_notice{
    "second-notice",
    "A SECOND NOTICE of one place: {open}; if it is the same, note a step of that one instead"};
inline constexpr Says<2> holds_stand{
    "holds-stand",
    "the holds of this incident stand: DO NOT USE goes on for {doses}, held by {entries}. Guidance lifts "
    "them; closing with release takes them back, since nothing was out of range and all of the time is known"};
inline constexpr Says<3> holds_stand_against{
    "holds-stand-against",
    "the holds of this incident stand: DO NOT USE goes on for {doses}, held by {entries}. Guidance lifts "
    "them; closing cannot: {against}"};
inline constexpr Says<1> stood_uncovered{"stood-uncovered",
                                         "{doses} stood in its time in doubt, on no hold and covered by no answer"};
inline constexpr Says<2> closed_despite{"closed-despite",
                                        "nothing keeps from use any more: {what}; closed because: {why}"};
inline constexpr Says<2> given_uncovered{
    "given-uncovered", "{doses} given ({entries}) stood in its time in doubt, and no answer covers them"};
inline constexpr Says<2> closed_despite_given{
    "closed-despite-given",
    "{what}; nothing was found of them, and a review names them still. Closed because: {why}"};

// what is still open
inline constexpr Says<1> still_open{"still-open", "still open: {what}"};
inline constexpr Says<1> not_done{"not-done", "not done: {duty}"};
inline constexpr Says<3> on_the_list{"on-the-list", "{doses} of {holding}: on the list {list}"};
inline constexpr Says<1> dose_waits{"dose-waits", "dose given, entry {entry}: waits for guidance"};
inline constexpr Says<1> place_not_back{"place-not-back", "{place}: not known to be back in range"};
inline constexpr Says<2> missing_in_count{"missing-in-count", "{doses} of {lot}: missing in a count"};

// what entries change
inline constexpr Says<0> changes_title{"changes-title", "what it changes"};
inline constexpr Says<1> as_before{"as-before", "{state} as before"};
inline constexpr Says<2> in_doubt_by{"in-doubt-by", "in doubt by {before} -> {after}"};
inline constexpr Says<0> no_holding_changes{"no-holding-changes", "No holding changes its list now."};
inline constexpr Says<4> dose_changes{"dose-changes", "dose given {at} (entry {entry}): {before} -> {after}"};
inline constexpr Says<0> not_given{"not-given", "not given"};
inline constexpr Says<0> no_dose_changes{"no-dose-changes", "No dose given changes its finding now."};
inline constexpr Says<3> not_here_any_more{"not-here-any-more", "NOT HERE ANY MORE: {left}: {change}: {advice}"};

// guidance that answers a report
inline constexpr Says<0> answer_draft_title{"answer-draft-title", "guidance that answers a report"};
inline constexpr Says<1> posted_entries{"posted-entries", "Posted: {entries}."};
inline constexpr Says<1> not_posted{"not-posted",
                                    "NOT POSTED: this is what it would change. {parameter} posts it."};
inline constexpr Says<2> not_posted_not_all{
    "not-posted-not-all",
    "NOT POSTED: this is what it would change. It does not cover all that is known, as said below: {parameter} with "
    "{why} posts it all the same."};
inline constexpr Says<0> heading_changes{"heading-changes", "Changes:"};
inline constexpr Says<0> heading_not_covered{"heading-not-covered", "Not covered:"};
inline constexpr Says<2> stay_in_quarantine{
    "stay-in-quarantine",
    "{number} dose of {holding} stays in quarantine|{number} doses of {holding} stay in quarantine"};
inline constexpr Says<2> dose_still_waits{"dose-still-waits", "dose given {at} (entry {entry}): still waits"};
inline constexpr Says<0> nothing_left_waiting{
    "nothing-left-waiting",
    "Nothing of this lot is left waiting, and what was told is still all that is known."};

}  // namespace coldtally::words
