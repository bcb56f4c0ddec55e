// General: the phrases that every room uses: numbers of things, lists of names, where doses are, lists and findings.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// what a list of things is made of
inline constexpr Says<2> comma{"comma", "{first}, {second}"};
inline constexpr Says<2> both{"both", "{first} and {second}"};
inline constexpr Says<2> either{"either", "{first} or {second}"};
inline constexpr Says<2> semicolon{"semicolon", "{first}; {second}"};
inline constexpr Says<2> colon{"colon", "{what}: {is}"};
inline constexpr Says<2> becomes{"becomes", "{before} -> {after}"};
inline constexpr Says<2> in_brackets{"in-brackets", "{what} ({more})"};
inline constexpr Says<1> sentence{"sentence", "{text}."};
inline constexpr Says<0> none{"none", "none"};
inline constexpr Says<0> nothing{"nothing", "nothing"};

// numbers of things
inline constexpr Says<1> doses{"doses", "{number} dose|{number} doses"};
inline constexpr Says<0> no_doses{"no-doses", "no doses"};
inline constexpr Says<1> holdings{"holdings", "{number} holding|{number} holdings"};
inline constexpr Says<1> patients{"patients", "{number} patient|{number} patients"};
inline constexpr Says<1> readings{"readings", "{number} reading|{number} readings"};
inline constexpr Says<1> readings_or_checks{"readings-or-checks",
                                            "{number} reading or check|{number} readings or checks"};
inline constexpr Says<1> findings{"findings", "{number} finding|{number} findings"};
inline constexpr Says<1> entry{"entry", "entry {entry}"};
inline constexpr Says<1> entries{"entries", "entries {entries}"};

// where doses are
inline constexpr Says<3> holding{"holding", "{product} lot {lot} in {place}"};
inline constexpr Says<2> place_fund{"place-fund", "{place}, fund {fund}"};
inline constexpr Says<2> place_mark{"place-mark", "{place}, mark {mark}"};
inline constexpr Says<3> place_fund_mark{"place-fund-mark", "{place}, fund {fund}, mark {mark}"};

// lists, sides, how the temperature is known
inline constexpr Says<0> keep{"keep", "keep"};
inline constexpr Says<0> do_not_use_discard{"do-not-use-discard", "DO NOT USE (discard)"};
inline constexpr Says<0> do_not_use_quarantine{"do-not-use-quarantine", "DO NOT USE (quarantine)"};
inline constexpr Says<0> do_not_use_warned{"do-not-use-warned", "DO NOT USE (read why)"};
inline constexpr Says<0> do_not_use_in_doubt{"do-not-use-in-doubt", "DO NOT USE (in doubt)"};
inline constexpr Says<0> heading_discard{"heading-discard", "DO NOT USE - discard"};
inline constexpr Says<0> heading_quarantine{"heading-quarantine", "DO NOT USE - quarantined, waiting for guidance"};
inline constexpr Says<0> heading_in_doubt{"heading-in-doubt", "DO NOT USE YET - in doubt, an incident is open"};
inline constexpr Says<0> heading_warned{"heading-warned",
                                        "DO NOT USE YET - more is known than when they were cleared; read why"};
inline constexpr Says<0> heading_keep{"heading-keep", "Nothing found against use; read the notes"};
inline constexpr Says<1> in_doubt_one{"in-doubt-one", "IN DOUBT: incident {incident} is open"};
inline constexpr Says<1> in_doubt_several{"in-doubt-several", "IN DOUBT: incidents {incidents} are open"};
inline constexpr Says<1> in_doubt_cell{"in-doubt-cell", "IN DOUBT: {incidents}"};
inline constexpr Says<0> too_warm{"too-warm", "too warm"};
inline constexpr Says<0> too_cold{"too-cold", "too cold"};
inline constexpr Says<0> at_freeze_limit{"at-freeze-limit", "at or below the freeze limit"};
inline constexpr Says<0> by_logger{"by-logger", "measured by a logger"};
inline constexpr Says<0> by_minimum_maximum{"by-minimum-maximum", "between min and max only"};
inline constexpr Says<0> by_plain_checks{"by-plain-checks", "between plain checks, nothing known between them"};
inline constexpr Says<0> near_reading{"near-reading", "near a reading in range, the temperature itself not known"};
inline constexpr Says<0> awaiting_data{"awaiting-data", "AWAITING DATA"};
inline constexpr Says<0> not_known{"not-known", "NOT KNOWN"};

// what is done about an incident, and who is told
inline constexpr Says<0> step_noticed{"step-noticed", "noticed"};
inline constexpr Says<0> step_supervisor_told{"step-supervisor-told", "supervisor told"};
inline constexpr Says<0> step_health_department_told{"step-health-department-told", "health department told"};
inline constexpr Says<0> step_manufacturer_told{"step-manufacturer-told", "manufacturer told"};
inline constexpr Says<0> step_answer{"step-answer", "answer"};
inline constexpr Says<0> step_cause{"step-cause", "cause"};
inline constexpr Says<0> step_action{"step-action", "action"};
inline constexpr Says<0> step_closed{"step-closed", "closed"};
inline constexpr Says<0> to_supervisor{"to-supervisor", "supervisor"};
inline constexpr Says<0> to_health_department{"to-health-department", "health department"};
inline constexpr Says<0> to_manufacturer{"to-manufacturer", "manufacturer"};
inline constexpr Says<2> lot_of{"lot-of", "{product} lot {lot}"};
inline constexpr Says<2> doses_of{"doses-of", "{doses} of {what}"};
inline constexpr Says<1> lots{"lots", "{number} lot|{number} lots"};

// findings
inline constexpr Says<0> finding_expired{"finding-expired", "given past expiry or use-by"};
inline constexpr Says<0> finding_not_viable{"finding-not-viable", "NOT VIABLE by guidance"};
inline constexpr Says<0> finding_condemned_later{"finding-condemned-later",
                                                 "CONDEMNED LATER, nothing found when given"};
inline constexpr Says<0> finding_pending{"finding-pending", "waiting for guidance"};
inline constexpr Says<0> finding_cleared{"finding-cleared", "cleared by guidance"};
inline constexpr Says<0> finding_clear{"finding-clear", "nothing found"};

// times, numbered things, what is not there
inline constexpr Says<2> from_to{"from-to", "{from} to {until}"};
inline constexpr Says<1> days{"days", "{number} day|{number} days"};
inline constexpr Says<2> numbered{"numbered", "{number}. {what}"};
inline constexpr Says<0> places{"places", "places"};
inline constexpr Says<1> as_said{"as-said", "{text}"};  // a text of an error or of an entry, as it is
inline constexpr Says<0> not_stated{"not-stated", "not stated"};

// cautions
inline constexpr Says<0> caution{
    "caution",
    "This supports and does not replace the manufacturer's and the health department's guidance, local rules and "
    "licensed judgement. Exposure alone never decides discard or revaccination."};
inline constexpr Says<0> caution_review{
    "caution-review",
    "A dose listed here is not thereby invalid, and one not listed is not thereby valid: a clinician decides, with the "
    "health department."};

// what a cell of a table says
inline constexpr Says<0> value_not_known{"value-not-known", "not known"};
inline constexpr Says<0> all_of_them{"all-of-them", "all"};

// windows of time
inline constexpr Says<1> window_instant{"window-instant", "the instant {at}"};
inline constexpr Says<2> window_until{"window-until", "from {from} until {until}"};
inline constexpr Says<2> window_through{"window-through", "from {from} through the end of {day}"};
inline constexpr Says<2> window_seen{"window-seen", "{window}, seen up to {at}"};
inline constexpr Says<1> window_no_time{"window-no-time",
                                        "the instant {at}, WHICH HOLDS NO TIME: nothing was looked at"};
inline constexpr Says<2> window_later{
    "window-later", "from {from}, AFTER THE INSTANT ASKED ABOUT, {asked}: nothing was looked at"};

// one after the other
inline constexpr Says<2> comma_and{"comma-and", "{first}, and {second}"};

// amounts, with their unit
inline constexpr Says<1> at_least{"at-least", "at least {amount}"};
inline constexpr Says<1> at_most{"at-most", "at most {amount}"};
inline constexpr Says<1> highest{"highest", "highest {degrees}"};
inline constexpr Says<1> lowest{"lowest", "lowest {degrees}"};

// types of places
inline constexpr Says<0> refrigerator{"refrigerator", "refrigerator"};
inline constexpr Says<0> freezer{"freezer", "freezer"};
inline constexpr Says<0> ultra_cold_freezer{"ultra-cold-freezer", "ultra-cold freezer"};
inline constexpr Says<0> transport_container{"transport-container", "transport container"};
inline constexpr Says<0> room{"room", "room"};

// no time, and doses held back
inline constexpr Says<0> no_time{"no-time", "no time"};
inline constexpr Says<1> held_for{"held-for", "held: {reason}"};

// the names of the model, as people are told them
inline constexpr Says<0> name_expired{"name-expired", "expired"};
inline constexpr Says<0> name_condemned{"name-condemned", "condemned"};
inline constexpr Says<0> name_warm{"name-warm", "warm"};
inline constexpr Says<0> name_cold{"name-cold", "cold"};
inline constexpr Says<0> name_frozen{"name-frozen", "frozen"};
inline constexpr Says<0> name_over_allowance{"name-over-allowance", "over-allowance"};
inline constexpr Says<0> name_point{"name-point", "point"};
inline constexpr Says<0> name_unmonitored{"name-unmonitored", "unmonitored"};
inline constexpr Says<0> name_held{"name-held", "held"};
inline constexpr Says<0> name_discard{"name-discard", "discard"};
inline constexpr Says<0> name_quarantine{"name-quarantine", "quarantine-pending-guidance"};
inline constexpr Says<0> name_use{"name-use", "use"};
inline constexpr Says<0> name_use_by{"name-use-by", "use-by"};
inline constexpr Says<1> use_by_on{"use-by-on", "use-by {day}"};
inline constexpr Says<0> name_expiry{"name-expiry", "expiry"};
inline constexpr Says<0> name_beyond_use{"name-beyond-use", "beyond-use"};
inline constexpr Says<0> name_guidance{"name-guidance", "guidance"};
inline constexpr Says<0> name_handover{"name-handover", "handover"};
inline constexpr Says<0> name_clear{"name-clear", "clear"};
inline constexpr Says<0> name_cleared{"name-cleared", "cleared"};
inline constexpr Says<0> name_condemned_later{"name-condemned-later", "condemned later"};
inline constexpr Says<0> name_pending_guidance{"name-pending-guidance", "pending guidance"};
inline constexpr Says<0> name_not_viable{"name-not-viable", "not viable"};
inline constexpr Says<0> finding_taken_back{"finding-taken-back", "void"};
inline constexpr Says<0> finding_given_later{"finding-given-later", "given later"};

// what was read, and when; more of a list than is named
inline constexpr Says<2> degrees_at{"degrees-at", "{degrees} at {when}"};
inline constexpr Says<2> and_more{"and-more", "{what} and {number} more"};

// what is named, each with its value
inline constexpr Says<1> place_named{"place-named", "place {place}"};
inline constexpr Says<1> product_named{"product-named", "product {product}"};
inline constexpr Says<1> lot_named{"lot-named", "lot {lot}"};
inline constexpr Says<1> fund_named{"fund-named", "fund {fund}"};
inline constexpr Says<1> mark_named{"mark-named", "mark {mark}"};
inline constexpr Says<1> by_person{"by-person", "by {person}"};
inline constexpr Says<1> incident_named{"incident-named", "incident {incident}"};
inline constexpr Says<0> is_open{"is-open", "open"};
inline constexpr Says<1> usable_is{"usable-is", "usable {until}"};
inline constexpr Says<0> the_empty_fund{"the-empty-fund", "the empty fund"};
inline constexpr Says<1> probe_named{"probe-named", "probe {probe}"};
inline constexpr Says<1> line_named{"line-named", "line {line}"};

// which one of several: each as what is to be stated for it
inline constexpr Says<1> choice{"choice", "`{options}`"};
inline constexpr Says<2> choice_of{"choice-of", "`{options}`: {what}"};
inline constexpr Says<2> choices_more{"choices-more", "{number} more, which `{task}` lists"};
inline constexpr Says<2> name_and_expiry{"name-and-expiry", "{name}, expiry {day}"};
inline constexpr Says<2> lot_of_products{"lot-of-products", "lot: {lot}: is a lot of {products}; state the product"};

}  // namespace coldtally::words
