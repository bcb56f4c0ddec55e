// Drafts, records: the phrases of doses given by the records of others, and of what makes no entry of them.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

inline constexpr Says<1> records{"records", "{number} record|{number} records"};
inline constexpr Says<2> records_noted{"records-noted", "{noted} noted, {left_out} left out."};
inline constexpr Says<2> records_noted_but{"records-noted-but", "{noted} noted, {left_out} left out:"};
inline constexpr Says<2> records_would_be_noted{"records-would-be-noted",
                                                "{noted} would be noted, {left_out} left out."};
inline constexpr Says<2> records_would_be_noted_but{"records-would-be-noted-but",
                                                    "{noted} would be noted, {left_out} left out:"};
inline constexpr Says<2> record_at{"record-at", "{where}, Immunization/{id}"};

// what was passed over
inline constexpr Says<2> passed_over{"passed-over", "{number} {type} passed over: only Immunization is read"};
inline constexpr Says<2> lot_of_several_products{"lot-of-several-products",
                                                 "lotNumber: {lot} is a lot of {products}; state the product"};
inline constexpr Says<1> one_page_of_several{
    "one-page-of-several", "{where}: the Bundle is one page of several; the others are not in it"};

// why a record makes no entry
inline constexpr Says<1> state_with_give{"state-with-give", "{why}: state it with give"};
inline constexpr Says<2> but_noted_as_given{
    "but-noted-as-given",
    "{status}; but entry {entry} notes it as given: look at it, and take that back if it is wrong"};
inline constexpr Says<0> no_record_id{"no-record-id", "has no id, by which it would be known again"};
inline constexpr Says<1> same_record_as{"same-record-as", "the same as {where}"};
inline constexpr Says<1> already_noted{"already-noted", "already noted as entry {entry}"};
inline constexpr Says<2> already_noted_but{"already-noted-but",
                                           "already noted as entry {entry}, which has {differences}: look at both"};
inline constexpr Says<1> another_lot{"another-lot", "another lot ({lot})"};
inline constexpr Says<0> another_patient{"another-patient", "another patient (the tokens differ)"};
inline constexpr Says<1> another_instant{"another-instant", "another instant ({at})"};
inline constexpr Says<1> meaning_changed{"meaning-changed",
                                         "{field} changes what it means, and is not understood here"};
inline constexpr Says<0> of_elsewhere{"of-elsewhere",
                                      "primarySource false: reported from elsewhere, no dose of this site"};
inline constexpr Says<0> no_lot_number{"no-lot-number", "no lotNumber"};
inline constexpr Says<1> occurrence_in_words{"occurrence-in-words", "occurrenceString {text}: no instant"};
inline constexpr Says<0> no_instant{"no-instant", "no instant"};
inline constexpr Says<1> date_without_time{"date-without-time", "occurrenceDateTime {date}: a date without a time"};
inline constexpr Says<0> no_token{"no-token", "patient without identifier.value and reference: no token"};
inline constexpr Says<0> points_into_record{"points-into-record",
                                            "patient.reference: points into the record, and is no token"};
inline constexpr Says<1> lot_never_here{"lot-never-here", "lot {lot} was never held here"};
inline constexpr Says<2> lot_never_here_is_it{"lot-never-here-is-it",
                                              "lot {lot} was never held here; is it {others}?"};

}  // namespace coldtally::words
