// Drafts, limits: the phrases of limits that may have been typed wrong, of what a definition loses, and of tokens.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// which limit
inline constexpr Says<0> lower_limit{"lower-limit", "the lower limit"};
inline constexpr Says<0> upper_limit{"upper-limit", "the upper limit"};
inline constexpr Says<0> freeze_limit{"freeze-limit", "the freeze limit"};
inline constexpr Says<1> lower_limit_of_allowance{"lower-limit-of-allowance",
                                                  "the lower limit of allowance {number}"};
inline constexpr Says<1> upper_limit_of_allowance{"upper-limit-of-allowance",
                                                  "the upper limit of allowance {number}"};
inline constexpr Says<1> limit_of_rule{"limit-of-rule", "the limit of rule {rule}"};
inline constexpr Says<4> range_published{"range-published", "{low_C} to {high_C} °C ({low_F} to {high_F} °F)"};

// limits that may be a slip
inline constexpr Says<5> two_temperatures{
    "two-temperatures",
    "{limit} is stated as {C} °C and as {F} °F, which are not one temperature: {C} °C = {converted} °F, {apart} °F "
    "apart"};
inline constexpr Says<0> no_lower_limit{"no-lower-limit", "no lower limit is stated: nothing in it is ever too cold"};
inline constexpr Says<0> no_upper_limit{"no-upper-limit", "no upper limit is stated: nothing in it is ever too warm"};
inline constexpr Says<3> allowance_hot{"allowance-hot", "allowance {number} reaches to {limit}, above {hottest} °C"};
inline constexpr Says<5> allowance_long{"allowance-long",
                                        "allowance {number} permits {time} up to {limit}, more than {most} above "
                                        "{room} °C"};
inline constexpr Says<2> allowance_freezes{
    "allowance-freezes",
    "allowance {number} reaches down to {limit}, and no freeze limit is stated: doses that froze would count as within "
    "the allowance"};
inline constexpr Says<2> allowance_never_counts{
    "allowance-never-counts",
    "allowance {number} never counts: its band is inside that of allowance {other}, which takes all of the time"};
inline constexpr Says<2> unknown_may_last{
    "unknown-may-last",
    "a temperature that is not known for {time} would keep no doses from use, longer than {most}: they would stand "
    "under nothing found although nobody looked"};
inline constexpr Says<2> data_may_be_late{
    "data-may-be-late",
    "data that have not come for {time} would still be awaited, longer than {most}: until then the time counts as no "
    "time without known temperature"};
inline constexpr Says<2> reading_speaks_far{
    "reading-speaks-far",
    "a reading in range would speak for {time} before and after it, the usual is {most}: the time in it counts as "
    "known"};
inline constexpr Says<4> allowance_of_months{
    "allowance-of-months", "allowance {number} permits {time} from {range}, longer than {most}"};
inline constexpr Says<2> line_between_readings{
    "line-between-readings",
    "a line is drawn between readings up to {time} apart, the usual is {usual}: the time between them counts as known"};
inline constexpr Says<2> line_between_checks{
    "line-between-checks",
    "a line is drawn between plain checks up to {time} apart, the usual is {usual}: the time between them counts as "
    "known"};
inline constexpr Says<1> allowance_without_source{
    "allowance-without-source",
    "allowance {number} names no source: which document of the product permits it?"};
inline constexpr Says<2> lower_far_from_refrigerator{
    "lower-far-from-refrigerator", "its lower limit, {limit}, is far from that of a refrigerator, {published}"};
inline constexpr Says<2> upper_far_from_refrigerator{
    "upper-far-from-refrigerator", "its upper limit, {limit}, is far from that of a refrigerator, {published}"};
inline constexpr Says<2> upper_above_freezer{"upper-above-freezer",
                                             "its upper limit, {limit}, is above that of a freezer, {published}"};
inline constexpr Says<2> upper_above_ultra_cold{
    "upper-above-ultra-cold", "its upper limit, {limit}, is above that of an ultra-cold freezer, {published}"};
inline constexpr Says<3> range_far{
    "range-far", "the range {range} is far from every published one, such as {refrigerator} or {freezer}"};
inline constexpr Says<3> range_unpublished{
    "range-unpublished",
    "the range {range} is none of the published ones ({refrigerator}, {freezer} and others): read its document again"};
inline constexpr Says<2> place_unpublished{
    "place-unpublished",
    "the range {range} is none of the published ones: it reaches beyond that of a refrigerator, {published}"};
inline constexpr Says<1> freeze_limit_low{
    "freeze-limit-low", "the freeze limit, {limit}, is far below freezing, 0 °C (32 °F): is its scale right?"};
inline constexpr Says<1> freeze_limit_in_range{
    "freeze-limit-in-range",
    "the freeze limit, {limit}, reaches into the range: doses in range would count as frozen"};
inline constexpr Says<3> correction_large{
    "correction-large",
    "a reading of {reading} counts as {corrected}, a correction of more than {most}, which a certified thermometer is "
    "not expected to need"};

// temperatures between limits
inline constexpr Says<5> hole_in_one_scale{
    "hole-in-one-scale",
    "in {scale} readings above {low} and below {high} ({low_other} and {high_other}) are out of range and in no "
    "allowance"};
inline constexpr Says<4> hole{"hole",
                              "readings above {low} and below {high}, and above {low_F} and below {high_F}, are out of "
                              "range and in no allowance"};
inline constexpr Says<2> hole_of_product{"hole-of-product", "HOLE between the limits of product {product}: {hole}"};

// limits that were taken to meet
inline constexpr Says<1> begins_at_range{"begins-at-range",
                                         "the allowance begins where the range ends, at {limit}"};
inline constexpr Says<1> ends_at_range{"ends-at-range", "the allowance ends where the range begins, at {limit}"};
inline constexpr Says<1> begins_at_another{"begins-at-another",
                                           "the allowance begins where another ends, at {limit}"};
inline constexpr Says<1> ends_at_another{"ends-at-another", "the allowance ends where another begins, at {limit}"};

// what another definition of a known thing loses
inline constexpr Says<2> definition_loses{"definition-loses",
                                          "{what} loses, for all that was and will be asked: {lost}"};
inline constexpr Says<2> certificate_loses{
    "certificate-loses", "the certificate before of probe {probe} states {lost}, and this one does not"};
inline constexpr Says<2> certificate_doubt{"certificate-doubt", "certificate of probe {probe}: {doubt}"};
inline constexpr Says<1> lost_lower_limit{"lost-lower-limit", "the lower limit {limit}"};
inline constexpr Says<1> lost_upper_limit{"lost-upper-limit", "the upper limit {limit}"};
inline constexpr Says<1> lost_freeze_limit{"lost-freeze-limit", "the freeze limit {limit}"};
inline constexpr Says<2> lost_allowance{"lost-allowance", "the allowance of {time} from {range}"};
inline constexpr Says<3> shorter_allowance{"shorter-allowance", "the allowance of {time} from {range} (now {now})"};
inline constexpr Says<1> lost_period{"lost-period", "the period of beyond-use after {event}"};
inline constexpr Says<0> lost_cvx{"lost-cvx", "the CVX code"};
inline constexpr Says<1> lost_gtin{"lost-gtin", "the GTIN {gtin}"};
inline constexpr Says<0> lost_doses_per_vial{"lost-doses-per-vial", "the doses in a vial"};
inline constexpr Says<0> lost_max_gap{"lost-max-gap", "the longest step between two readings"};
inline constexpr Says<0> lost_max_check_gap{"lost-max-check-gap", "the longest step between two checks"};
inline constexpr Says<0> lost_near{"lost-near", "how far a reading in range speaks for the time around it"};
inline constexpr Says<0> lost_serial{"lost-serial", "the serial number"};
inline constexpr Says<0> lost_unmonitored_limit{
    "lost-unmonitored-limit", "the time without known temperature that does not yet mean quarantine"};
inline constexpr Says<0> lost_stale_after{"lost-stale-after",
                                          "the time after which data that have not come count as not known"};
inline constexpr Says<0> lost_contact{"lost-contact", "the contact"};
inline constexpr Says<0> lost_phone{"lost-phone", "the telephone number"};
inline constexpr Says<0> lost_email{"lost-email", "the email address"};
inline constexpr Says<0> lost_tolerance{"lost-tolerance", "a tolerance"};
inline constexpr Says<0> lost_corrections{"lost-corrections", "corrections"};

// patients' tokens
inline constexpr Says<0> an_email_address{"an-email-address", "an e-mail address"};
inline constexpr Says<0> a_name{"a-name", "a name"};
inline constexpr Says<0> a_date_of_birth{"a-date-of-birth", "a date of birth"};
inline constexpr Says<0> a_telephone_number{"a-telephone-number", "a telephone number"};
inline constexpr Says<0> a_record_number{"a-record-number", "a record number"};
inline constexpr Says<1> token_looks_like{
    "token-looks-like",
    "patient: the token looks like {what}: nothing is ever removed from a ledger. Take a token that only the chart can "
    "resolve, such as a number that is drawn for it; if this one was posted, take it back and ask who must be told"};

}  // namespace coldtally::words
