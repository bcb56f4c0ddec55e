// Tables: the titles of columns and the lines that tables of several answers share. What one answer alone says stands
// with its room.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// titles of columns
inline constexpr Says<0> title_place{"title-place", "Place"};
inline constexpr Says<0> title_product{"title-product", "Product"};
inline constexpr Says<0> title_lot{"title-lot", "Lot"};
inline constexpr Says<0> title_fund{"title-fund", "Fund"};
inline constexpr Says<0> title_mark{"title-mark", "Mark"};
inline constexpr Says<0> title_doses{"title-doses", "Doses"};
inline constexpr Says<0> title_last_day{"title-last-day", "Last day"};
inline constexpr Says<0> title_expiry{"title-expiry", "Expiry"};
inline constexpr Says<0> title_list{"title-list", "List"};
inline constexpr Says<0> title_incident{"title-incident", "Incident"};
inline constexpr Says<0> title_entry{"title-entry", "Entry"};
inline constexpr Says<0> title_given{"title-given", "Given"};
inline constexpr Says<0> title_wasted{"title-wasted", "Wasted"};
inline constexpr Says<0> title_returned{"title-returned", "Returned"};
inline constexpr Says<0> title_sent{"title-sent", "Sent"};
inline constexpr Says<0> title_missing{"title-missing", "Missing"};
inline constexpr Says<0> title_found{"title-found", "Found"};
inline constexpr Says<0> title_out{"title-out", "Out"};
inline constexpr Says<0> title_state{"title-state", "State"};

// what every answer begins with
inline constexpr Says<2> head_title{"head-title", "{site}: {title}"};
inline constexpr Says<3> head_when{"head-when", "As of {at} ({zone}), entries up to {entry}."};
inline constexpr Says<4> head_when_known{"head-when-known",
                                         "As of {at}, known on {known_on} ({zone}), entries up to {entry}."};

// details below a row
inline constexpr Says<1> why{"why", "Why: {reason}"};
inline constexpr Says<1> note{"note", "Note: {text}"};
inline constexpr Says<1> warning{"warning", "WARNING: {text}"};

// what single answers say before the caution
inline constexpr Says<0> caution_hidden{
    "caution-hidden",
    "Only what has been recorded shows here: time between checks and without data may hide excursions."};
inline constexpr Says<0> caution_stock{"caution-stock",
                                       "On hand does not mean fit for use: the lists say what must not be used."};
inline constexpr Says<0> caution_scan{
    "caution-scan", "A code tells the box as the maker labelled it, not what was done with it."};
inline constexpr Says<0> caution_mean{"caution-mean", "A mean hides excursions and excuses none."};
inline constexpr Says<0> caution_dates{
    "caution-dates",
    "Use in the order given: what ends first goes first, and of equal dates what has been out of range longer. A last "
    "day is used to its end; where a time stands, not from that time on."};

}  // namespace coldtally::words
