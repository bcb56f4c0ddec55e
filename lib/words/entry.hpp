// Entry: the phrases of what an entry says in one line.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// definitions
inline constexpr Says<2> entry_site{"entry-site", "site {site}, time zone {zone}"};
inline constexpr Says<2> entry_product{"entry-product", "product {product}: {name}"};
inline constexpr Says<3> entry_lot{"entry-lot", "lot {lot} of {product}, expiry {day}"};
inline constexpr Says<3> entry_place{"entry-place", "place {place}: {name}, {type}"};
inline constexpr Says<2> entry_probe{"entry-probe", "probe {probe}, °{scale}"};
inline constexpr Says<2> entry_certificate{"entry-certificate", "certificate of probe {probe}, until {day}"};
inline constexpr Says<2> probe_put_into{"probe-put-into", "probe {probe} put into {place}"};
inline constexpr Says<1> probe_taken_out{"probe-taken-out", "probe {probe} taken out"};
inline constexpr Says<2> entry_maker{"entry-maker", "maker of {product}: {name}"};
inline constexpr Says<1> entry_rules{"entry-rules", "rules of {programme}"};
inline constexpr Says<3> entry_report{"entry-report", "report of incident {incident} to the {to}, {recipient}"};

// temperatures
inline constexpr Says<2> readings_of_probe{"readings-of-probe", "{readings} of probe {probe}"};
inline constexpr Says<3> entry_check{"entry-check", "check of {place}: {temperature} °{scale}"};
inline constexpr Says<5> entry_check_min_max{
    "entry-check-min-max", "check of {place}: {temperature}, minimum {minimum}, maximum {maximum} °{scale}"};

// doses
inline constexpr Says<2> received_doses{"received-doses", "received {doses} of {holding}"};
inline constexpr Says<4> moved_doses{"moved-doses", "moved {doses} of {lot} from {from} to {to}"};
inline constexpr Says<2> gave_doses{"gave-doses", "gave {doses} of {holding}"};
inline constexpr Says<3> wasted_doses{"wasted-doses", "wasted {doses} of {holding}: {reason}"};
inline constexpr Says<3> returned_doses{"returned-doses", "returned {doses} of {holding}: {reason}"};
inline constexpr Says<4> transferred_doses{"transferred-doses", "transferred {doses} of {holding} to {to}: {reason}"};
inline constexpr Says<2> counted_doses{"counted-doses", "counted {doses} of {holding}"};
inline constexpr Says<2> entry_beyond_use{"entry-beyond-use", "beyond-use of {holding}: {event}"};
inline constexpr Says<2> entry_hold{"entry-hold", "hold on {what}: {reason}"};
inline constexpr Says<2> what_with_mark{"what-with-mark", "{what}, mark \"{mark}\""};
inline constexpr Says<5> entry_guidance{"entry-guidance",
                                        "guidance {verdict} for {what}, through {through}, by {issuer}, {reference}"};

// people, papers, journeys
inline constexpr Says<3> entry_incident{"entry-incident", "incident {incident}, {step}: {text}"};
inline constexpr Says<2> entry_follow_up{"entry-follow-up", "follow-up of give {give}, {step}"};
inline constexpr Says<2> entry_training{"entry-training", "training of {person} in {topic}"};
inline constexpr Says<1> next_due{"next-due", "next due {day}"};
inline constexpr Says<1> proof_is{"proof-is", "proof: {reference}"};
inline constexpr Says<1> arrival_of{"arrival-of", "arrival of {container}"};
inline constexpr Says<1> is_received_by{"is-received-by", "received by {person}"};
inline constexpr Says<3> departure_of{"departure-of", "departure of {container} to {destination} ({reason})"};
inline constexpr Says<1> is_packed_by{"is-packed-by", "packed by {person}"};
inline constexpr Says<2> took_back_entry{"took-back-entry", "took back entry {entry}: {reason}"};
inline constexpr Says<3> entry_loan{"entry-loan", "loan: give {give} is owed by {fund}: {reason}"};
inline constexpr Says<2> repaid_of_loan{"repaid-of-loan", "repaid {doses} of loan {loan}"};
inline constexpr Says<3> repaid_with{"repaid-with", "repaid {doses} of loan {loan} with entry {entry}"};
inline constexpr Says<2> entry_said_at{"entry-said-at", "{entry}, at {when}"};

}  // namespace coldtally::words
