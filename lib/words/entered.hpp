// Entered: the phrases of what was entered, and of definitions as they hold.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// the list of entries
inline constexpr Says<0> title_entered{"title-entered", "what was entered"};
inline constexpr Says<0> title_number{"title-number", "No."};
inline constexpr Says<0> title_happened{"title-happened", "When"};
inline constexpr Says<0> title_entry_says{"title-entry-says", "What"};
inline constexpr Says<0> title_entered_by{"title-entered-by", "By"};
inline constexpr Says<2> entered_later{"entered-later", "{what}; entered {when}"};
inline constexpr Says<2> entered_note{"entered-note", "{what}. Note: {note}"};
inline constexpr Says<2> to_patient{"to-patient", "{what}, to {patient}"};
inline constexpr Says<4> readings_between{"readings-between", "{readings} of probe {probe}, {first} to {last}"};
inline constexpr Says<4> is_taken_back{"is-taken-back", "TAKEN BACK on {when} by {person}, entry {entry}: {reason}"};
inline constexpr Says<3> took_back_what{"took-back-what", "took back entry {entry} ({what}): {reason}"};
inline constexpr Says<2> earlier_entries{
    "earlier-entries", "{number} earlier entry is not shown: `{all}` shows it.|{number} earlier entries are not shown: "
                       "`{all}` shows them."};
inline constexpr Says<0> nothing_entered{"nothing-entered", "Nothing that was entered is as asked."};
inline constexpr Says<1> to_correct{
    "to-correct", "To take one back: `{task}`. It says what that changes, and asks before anything is loosened."};

// definitions as they hold
inline constexpr Says<0> shown_title{"shown-title", "as defined"};
inline constexpr Says<1> thing_site{"thing-site", "Site {name}"};
inline constexpr Says<1> thing_product{"thing-product", "Vaccine {name}"};
inline constexpr Says<2> thing_lot{"thing-lot", "Lot {name} of {product}"};
inline constexpr Says<1> thing_place{"thing-place", "Place {name}"};
inline constexpr Says<1> thing_probe{"thing-probe", "Probe {name}"};
inline constexpr Says<1> thing_certificate{"thing-certificate", "Certificate of probe {name}"};
inline constexpr Says<1> thing_assign{"thing-assign", "Where probe {name} is"};
inline constexpr Says<1> thing_maker{"thing-maker", "Maker of {name}"};
inline constexpr Says<0> thing_rules{"thing-rules", "The programme's rules"};
inline constexpr Says<1> thing_person{"thing-person", "Training of {name}"};
inline constexpr Says<0> nothing_holds{"nothing-holds", "NOT DEFINED NOW: all that was said of it was taken back."};
inline constexpr Says<0> history_heading{"history-heading", "How it came to be so:"};
inline constexpr Says<3> version_first{"version-first", "{when}, {by}: first stated (entry {entry})"};
inline constexpr Says<3> version_same{"version-same", "{when}, {by}: stated again, the same (entry {entry})"};
inline constexpr Says<3> version_changed{"version-changed", "{when}, {by}, entry {entry}:"};

inline constexpr Says<1> change_new{"change-new", "{what} (new)"};
inline constexpr Says<1> change_dropped{"change-dropped", "{what}: NOT STATED ANY MORE"};
inline constexpr Says<1> known_things{"known-things", "What is known here; `{task}` shows one of them:"};

inline constexpr Says<0> kind_site{"kind-site", "the site"};
inline constexpr Says<0> kind_products{"kind-products", "products"};
inline constexpr Says<0> kind_makers{"kind-makers", "makers of"};
inline constexpr Says<0> kind_rules{"kind-rules", "the programme's rules, as"};
inline constexpr Says<0> kind_people{"kind-people", "people who were trained"};

// rules, line by line
inline constexpr Says<0> rules_programme{"rules-programme", "programme"};
inline constexpr Says<0> rules_source{"rules-source", "source"};
inline constexpr Says<2> source_dated{"source-dated", "{source}, dated {day}"};
inline constexpr Says<0> rules_checks{"rules-checks", "checks of temperatures"};
inline constexpr Says<1> rules_checks_more{"rules-checks-more", "checks of temperatures ({number})"};
inline constexpr Says<2> checks_on_days{"checks-on-days", "{checks} on {days}"};
inline constexpr Says<0> rules_loans_repaid{"rules-loans-repaid", "loans repaid"};
inline constexpr Says<1> rules_kept{"rules-kept", "{records}: kept for"};

// training
inline constexpr Says<1> trained_on{"trained-on", "trained {day}"};
inline constexpr Says<3> trained_state{"trained-state", "{trained}, {state} (good until {until})"};

}  // namespace coldtally::words
