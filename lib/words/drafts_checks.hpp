// Drafts, checks: what is said of checks, holds, guidance and definitions before they are posted, and what to do at
// once.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// checks
inline constexpr Says<1> temperature_is{"temperature-is", "temperature {value}"};
inline constexpr Says<1> minimum_is{"minimum-is", "minimum {value}"};
inline constexpr Says<1> maximum_is{"maximum-is", "maximum {value}"};
inline constexpr Says<2> in_range_in_other_scale{
    "in-range-in-other-scale",
    "{value} would be in range in °{scale}: read the scale again; if it was mistyped, take this check back"};
inline constexpr Says<1> not_plausible{
    "not-plausible",
    "{value} is beyond what vaccines are ever kept at: read it again; if it was mistyped, take this check back"};
inline constexpr Says<3> act_now_below{"act-now-below", "ACT NOW: {value} is below the range of {place}, {range}"};
inline constexpr Says<3> act_now_above{"act-now-above", "ACT NOW: {value} is above the range of {place}, {range}"};
inline constexpr Says<3> act_now_freezing{"act-now-freezing",
                                          "ACT NOW: {value} is below the range of {place}, {range}, and FREEZING"};
inline constexpr Says<1> first_check{
    "first-check",
    "the first check of {place}: its minimum and maximum are kept and not used, because nothing says since when they "
    "stand"};
inline constexpr Says<2> check_at_once{
    "check-at-once",
    "entry {entry} is a check of {place} at that instant already: of the two the later entry holds"};

// what to do at once
inline constexpr Says<0> mark_the_doses{"mark-the-doses",
                                        "Mark the doses DO NOT USE; keep them in range; throw nothing away."};
inline constexpr Says<0> freezing_can_ruin{"freezing-can-ruin",
                                           "Freezing can ruin doses that look as they always did: none is used before "
                                           "its manufacturer has answered."};
inline constexpr Says<0> look_at_the_unit{"look-at-the-unit", "Look at door, plug, power and setting."};
inline constexpr Says<1> look_and_move{
    "look-and-move",
    "Look at door, plug, power and setting. Does the unit not come back soon, move the doses: {task}"};
inline constexpr Says<0> read_the_logger{
    "read-the-logger",
    "Read the logger and import its file: it tells since when, and which doses were inside."};
inline constexpr Says<0> tell_the_supervisor{
    "tell-the-supervisor",
    "Tell the supervisor; then the health department and the manufacturers, as local rules say. Note each as an "
    "incident step."};

// beyond-use
inline constexpr Says<1> shortens_nothing{
    "shortens-nothing", "changes nothing: these doses are usable no longer than that as it is, {last_use}"};
inline constexpr Says<2> shortens_all{
    "shortens-all",
    "shortens the use of all {number} doses there, more than the {vial} of one vial: if one vial was opened, state a "
    "mark for it (vial), which keeps its doses apart"};
inline constexpr Says<3> use_by_after_expiry{
    "use-by-after-expiry",
    "the use-by, {until}, is after the expiry of lot {lot}, {expiry}: the expiry stays the last day; a longer one is "
    "the lot's, defined anew by the maker's letter"};
inline constexpr Says<2> called_expired_usable{
    "called-expired-usable",
    "the reason says expired, and these doses of lot {lot} may be used {until}: read the label again"};
inline constexpr Says<2> called_expired{
    "called-expired", "the reason says expired, and lot {lot} may be used through {day}: read the label again"};
inline constexpr Says<2> called_expired_unless{
    "called-expired-unless",
    "the reason says expired, and lot {lot} may be used through {day}, unless these doses had a use-by of their own: "
    "read the label again"};

// holds, guidance and incidents
inline constexpr Says<2> have_left{"have-left", "NOT HERE ANY MORE: {doses}: {advice}"};
inline constexpr Says<2> more_departures{
    "more-departures",
    "NOT HERE ANY MORE: {number} more departure of this product: `{task}` with its lot lists it|NOT HERE ANY MORE: "
    "{number} more departures of this product: `{task}` with each lot lists them"};
inline constexpr Says<0> stands_as_recall{
    "stands-as-recall",
    "names neither place nor mark: it stands as a recall, also for doses received later, until it is voided"};
inline constexpr Says<2> given_of_lot{"given-of-lot",
                                      "{number} dose of this lot given: `{task}` lists to whom|"
                                      "{number} doses of this lot given: `{task}` lists to whom"};
inline constexpr Says<1> no_figures_told{
    "no-figures-told",
    "no figures are stated that the issuer was told: it clears all that these doses have been through until {until}, "
    "and what is learnt of that time later, freezing as well. Where the issuer knew of less, state what was told"};
inline constexpr Says<1> holds_still_stand{
    "holds-still-stand",
    "the holds that came with this notice stand ({entries}), and no incident says why any more: take them back, too, "
    "if nothing was wrong"};
inline constexpr Says<3> noticed_already{
    "noticed-already", "incident {incident} was noticed already, at {at} (entry {entry}): the earlier notice counts"};
inline constexpr Says<3> another_notice{
    "another-notice",
    "{open} is open since {since}: a second notice of one place is a second incident; if it is the same, note a step "
    "of {incident} instead"};
inline constexpr Says<2> incident_of_place{"incident-of-place", "incident {incident} of {place}"};

// probes, sites, products, funds
inline constexpr Says<2> ends_time_of_probe{"ends-time-of-probe", "ends the time of probe {probe} in {place}"};
inline constexpr Says<2> not_certified_then{"not-certified-then",
                                            "probe {probe} has no certificate then; its first is of {day}"};
inline constexpr Says<1> not_certified{"not-certified", "probe {probe} has no certificate"};
inline constexpr Says<2> certificate_ended{"certificate-ended", "the certificate of probe {probe} expired on {day}"};
inline constexpr Says<0> certificate_has_ended{"certificate-has-ended", "that certificate has expired already"};
inline constexpr Says<1> zone_changes{
    "zone-changes", "the time zone changes from {zone}: local times and days of expiry are read in the new one"};
inline constexpr Says<1> gtin_not_read{
    "gtin-not-read",
    "GTIN {gtin} has not 8, 12, 13 or 14 digits with a right check digit: no scanned code will be found by it"};
inline constexpr Says<2> fund_never_used{
    "fund-never-used",
    "{fund} has never been used here; used are {others}: read it again, since stocks of two funds are never one"};
inline constexpr Says<0> the_empty_one{"the-empty-one", "the empty one"};

// definitions
inline constexpr Says<0> says_nothing_new{"says-nothing-new", "says nothing that is not known already"};
inline constexpr Says<3> changes_definition{
    "changes-definition",
    "CHANGES the definition for all that was and will be asked: {name}: {before} -> {now}"};

}  // namespace coldtally::words
