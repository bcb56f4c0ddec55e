// Definitions: what a definition says, by name and value, and in which way one is looser than the one before.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// by what name it says it
inline constexpr Says<0> stated_name{"stated-name", "name"};
inline constexpr Says<0> stated_zone{"stated-zone", "time zone"};
inline constexpr Says<0> stated_unmonitored_limit{
    "stated-unmonitored-limit", "time without known temperature that does not yet mean quarantine"};
inline constexpr Says<0> stated_stale_after{"stated-stale-after", "data that have not come count as not known after"};
inline constexpr Says<0> stated_range{"stated-range", "range"};
inline constexpr Says<0> stated_low{"stated-low", "low"};
inline constexpr Says<0> stated_high{"stated-high", "high"};
inline constexpr Says<0> stated_freeze_limit{"stated-freeze-limit", "freeze limit"};
inline constexpr Says<0> stated_allowance{"stated-allowance", "allowance"};
inline constexpr Says<0> stated_allowances{"stated-allowances", "allowances"};
inline constexpr Says<1> stated_period{"stated-period", "beyond-use after {event}"};
inline constexpr Says<0> stated_cvx{"stated-cvx", "CVX"};
inline constexpr Says<0> stated_gtin{"stated-gtin", "GTIN"};
inline constexpr Says<0> stated_doses_per_vial{"stated-doses-per-vial", "doses in a vial"};
inline constexpr Says<0> stated_type{"stated-type", "type"};
inline constexpr Says<0> stated_max_gap{"stated-max-gap", "longest step between two readings"};
inline constexpr Says<0> stated_max_check_gap{"stated-max-check-gap", "longest step between two checks"};
inline constexpr Says<0> stated_near{"stated-near", "a reading or check in range speaks for the time around it up to"};
inline constexpr Says<0> stated_scale{"stated-scale", "reads in"};
inline constexpr Says<0> stated_serial{"stated-serial", "serial number"};
inline constexpr Says<0> stated_last_day{"stated-last-day", "valid through"};
inline constexpr Says<0> stated_number{"stated-number", "number"};
inline constexpr Says<0> stated_tolerance{"stated-tolerance", "tolerance"};
inline constexpr Says<0> stated_place{"stated-place", "place"};
inline constexpr Says<0> stated_contact{"stated-contact", "contact"};
inline constexpr Says<0> stated_phone{"stated-phone", "telephone"};
inline constexpr Says<0> stated_email{"stated-email", "email"};

// what it says
inline constexpr Says<1> usual_time{"usual-time", "{time}, the usual, since none is stated"};
inline constexpr Says<1> range_without_upper{"range-without-upper", "at least {limit}, with no upper limit"};
inline constexpr Says<1> range_without_lower{"range-without-lower", "at most {limit}, with no lower limit"};
inline constexpr Says<1> frozen_at{"frozen-at", "frozen at or below {limit}"};
inline constexpr Says<0> no_freeze_limit{"no-freeze-limit",
                                         "none: no temperature counts as freezing, only as too cold"};
inline constexpr Says<3> allowance_by{"allowance-by", "{time} in all from {range}, by {source}"};
inline constexpr Says<0> no_allowances{"no-allowances", "none: all time out of range waits for guidance"};
inline constexpr Says<0> no_periods{
    "no-periods", "not stated, no period after any event: nothing would say how long an opened vial is good"};
inline constexpr Says<0> no_doses_per_vial{
    "no-doses-per-vial",
    "not stated: a vial of several doses would be taken as single doses, and nothing would ask when it was opened"};
inline constexpr Says<1> used_through{"used-through", "may be used through {day}"};
inline constexpr Says<0> no_tolerance{"no-tolerance", "none stated: readings are taken as exact"};
inline constexpr Says<2> correction_at{"correction-at", "at {indicated} add {correction}"};
inline constexpr Says<0> in_no_place{"in-no-place", "none: it is taken out, and its readings are no place's"};

// what was kept of the definition before, where it is not called as above
inline constexpr Says<0> kept_zone{"kept-zone", "zone"};
inline constexpr Says<0> kept_unmonitored_limit{"kept-unmonitored-limit", "unmonitored limit"};
inline constexpr Says<0> kept_stale_after{"kept-stale-after", "stale after"};
inline constexpr Says<0> kept_periods{"kept-periods", "beyond use"};
inline constexpr Says<1> kept_period{"kept-period", "beyond use {event}"};
inline constexpr Says<0> kept_doses_per_vial{"kept-doses-per-vial", "doses per vial"};
inline constexpr Says<0> kept_max_gap{"kept-max-gap", "max gap"};
inline constexpr Says<0> kept_max_check_gap{"kept-max-check-gap", "max check gap"};
inline constexpr Says<0> kept_near{"kept-near", "near"};
inline constexpr Says<0> kept_scale{"kept-scale", "scale"};
inline constexpr Says<0> kept_serial{"kept-serial", "serial"};
inline constexpr Says<0> kept_phone{"kept-phone", "phone"};
inline constexpr Says<2> kept_allowance{"kept-allowance", "allowance of {time} from {range}"};

// what cannot be dropped, since it is a name
inline constexpr Says<3> name_to_drop{
    "name-to-drop",
    "name: {name}: is what can be dropped of a {kind}, and no name; to drop it state it in without, which is written "
    "once for each ({option})"};

// in which way it is looser
inline constexpr Says<3> loosened{"loosened", "{what} {before} -> {after}"};
inline constexpr Says<2> allowance_of{"allowance-of", "{time} from {range}"};
inline constexpr Says<2> where_other_counts{"where-other-counts", "{allowance}, where {other} counts first or alone"};
inline constexpr Says<1> gone_where_other_counts{"gone-where-other-counts", "none, where {other} counts"};
inline constexpr Says<0> reading_speaks{"reading-speaks", "a reading speaks for the time around it up to"};
inline constexpr Says<0> unknown_without_quarantine{"unknown-without-quarantine", "time not known without quarantine"};
inline constexpr Says<1> condition_named{"condition-named", "condition {rule}"};
inline constexpr Says<0> as_it_is{"as-it-is", "as it is"};
inline constexpr Says<0> of_another_form{"of-another-form", "of another form"};
inline constexpr Says<0> the_places_limit{"the-places-limit", "the place's own limit"};
inline constexpr Says<1> within_time{"within-time", "within {time}"};
inline constexpr Says<0> within_any_time{"within-any-time", "within any time"};
inline constexpr Says<1> also_of_a{"also-of-a", "also of a {types}"};
inline constexpr Says<1> also_of{"also-of", "also of {products}"};
inline constexpr Says<0> every_product{"every-product", "all products"};
inline constexpr Says<0> no_longer{"no-longer", "no longer"};
inline constexpr Says<0> none_of_this_name{"none-of-this-name", "none of this name"};
inline constexpr Says<1> step_due{"step-due", "{step}: due"};
inline constexpr Says<1> step_due_within{"step-due-within", "{step}: due within"};
inline constexpr Says<0> always{"always", "always"};
inline constexpr Says<0> where_condition_met{"where-condition-met", "where a condition is met"};
inline constexpr Says<0> never{"never", "never"};
inline constexpr Says<1> every_so_many_days{"every-so-many-days", "every {number} day|every {number} days"};
inline constexpr Says<0> longest_trip{"longest-trip", "longest trip"};
inline constexpr Says<0> of_any_length{"of-any-length", "of any length"};
inline constexpr Says<0> as_often_as_stated{"as-often-as-stated", "as often as stated"};
inline constexpr Says<3> type_asks_less{"type-asks-less",
                                        "type {before} -> {after}, of which the programme no longer asks: {what}"};

// the question before it is posted
inline constexpr Says<1> loosening_not_meant{
    "loosening-not-meant",
    "yes: must be stated: {loosens}. NOT WRITTEN: read what it changes, and post it again with yes if that is meant"};
inline constexpr Says<1> import_loosens{
    "import-loosens",
    "loosen: must be stated: {loosens}. NOT WRITTEN: read what the readings change, and import them again with loosen "
    "if that is meant"};

}  // namespace coldtally::words
