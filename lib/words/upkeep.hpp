// Upkeep: the phrases of the contingency plan, of training, and of what an inspector would find missing.
#pragma once

#include "words/phrase.hpp"

namespace coldtally::words {

// who says how long a thing is good
inline constexpr Says<0> as_stated_there{"as-stated-there", "as stated there"};
inline constexpr Says<1> by_rules_every_days{
    "by-rules-every-days", "by the programme's rules, every {days} day|by the programme's rules, every {days} days"};
inline constexpr Says<2> so_say_rules{"so-say-rules", "so say the rules of {programme} (entry {entry})"};
inline constexpr Says<2> every_days{"every-days", "every {days} day, {by}|every {days} days, {by}"};

// what a plan lacks
inline constexpr Says<0> no_plan{"no-plan", "there is no contingency plan"};
inline constexpr Says<0> no_people{"no-people", "nobody is named to be called"};
inline constexpr Says<1> no_number_for{"no-number-for", "no number is stated for {person}"};
inline constexpr Says<0> no_number_at_night{
    "no-number-at-night", "nobody has a number at home or a mobile: outside office hours nobody can be called"};
inline constexpr Says<0> no_alternate{"no-alternate", "nobody is marked as the coordinator's alternate"};
inline constexpr Says<0> no_backup{"no-backup", "no backup place is named that could take the stock"};
inline constexpr Says<1> no_contact{"no-contact", "no contact and no telephone are stated for {backup}"};
inline constexpr Says<1> no_agreement{"no-agreement", "no agreement is stated with {backup}"};
inline constexpr Says<1> agreement_without_date{"agreement-without-date", "the agreement with {backup} has no date"};
inline constexpr Says<2> agreement_to_come{"agreement-to-come",
                                           "the agreement with {backup} is dated {day}, a day that has not come"};
inline constexpr Says<3> agreement_ran_out{"agreement-ran-out",
                                           "the agreement with {backup} ran out on {day} ({said_by})"};
inline constexpr Says<1> no_power{"no-power", "it is not said whether {backup} has alternate power"};
inline constexpr Says<1> no_distance{"no-distance", "no distance is stated to {backup}"};
inline constexpr Says<1> no_capacity{"no-capacity", "it is not said how much {backup} can take"};
inline constexpr Says<0> no_services{"no-services", "no utility and no repair service is named"};
inline constexpr Says<0> nobody_to_notify{"nobody-to-notify", "nobody is named who must be told"};
inline constexpr Says<0> no_containers{"no-containers", "it is not said where containers and coolants are"};
inline constexpr Says<0> no_packing{"no-packing", "no way of packing is stated"};
inline constexpr Says<0> no_first_steps{"no-first-steps", "it is not said what to do first"};
inline constexpr Says<0> no_review{"no-review", "no date of a review is stated"};
inline constexpr Says<1> review_to_come{"review-to-come", "the review is dated {day}, a day that has not come"};
inline constexpr Says<2> review_was_due{"review-was-due", "the review was due on {day} ({said_by})"};
inline constexpr Says<0> no_reviewer{"no-reviewer", "it is not said who reviewed the plan"};
inline constexpr Says<0> no_signatures{"no-signatures", "nobody has signed the plan"};
inline constexpr Says<1> no_signature_of{"no-signature-of", "{person} has not signed the plan"};
inline constexpr Says<2> signature_to_come{"signature-to-come",
                                           "the signature of {person} is dated {day}, a day that has not come"};
inline constexpr Says<3> signed_before_review{"signed-before-review",
                                              "{person} signed on {day}, before the review of {reviewed}"};

// the plan as a table
inline constexpr Says<0> answer_plan{"answer-plan", "contingency plan"};
inline constexpr Says<3> plan_of{"plan-of", "Plan of {at}, by {by} (entry {entry})."};
inline constexpr Says<0> title_call{"title-call", "Call"};
inline constexpr Says<0> title_role{"title-role", "Role"};
inline constexpr Says<0> title_mobile{"title-mobile", "Mobile"};
inline constexpr Says<0> title_home{"title-home", "Home"};
inline constexpr Says<0> title_office{"title-office", "Office"};
inline constexpr Says<0> title_email{"title-email", "E-mail"};
inline constexpr Says<0> heading_first{"heading-first", "First"};
inline constexpr Says<0> heading_call{"heading-call", "Call in this order"};
inline constexpr Says<0> heading_backups{"heading-backups", "Where stock can go, in the order of choice"};
inline constexpr Says<0> heading_containers{"heading-containers", "Containers and coolants"};
inline constexpr Says<0> heading_packing{"heading-packing", "How to pack"};
inline constexpr Says<0> heading_services{"heading-services", "Utilities and repair"};
inline constexpr Says<0> heading_notify{"heading-notify", "Who must be told, in this order"};
inline constexpr Says<0> heading_review{"heading-review", "Review and signatures"};
inline constexpr Says<0> heading_missing{"heading-missing", "Missing or old"};
inline constexpr Says<0> alternate{"alternate", "alternate"};
inline constexpr Says<0> no_telephone{"no-telephone", "no telephone stated"};
inline constexpr Says<1> backup_takes{"backup-takes", "takes: {capacity}"};
inline constexpr Says<2> backup_distance_power{"backup-distance-power",
                                               "distance: {distance}; alternate power: {power}"};
inline constexpr Says<1> backup_agreement{"backup-agreement", "agreement: {agreement}"};
inline constexpr Says<1> agreed_on{"agreed-on", "of {day}"};
inline constexpr Says<1> agreed_until{"agreed-until", "good through {day}"};
inline constexpr Says<2> reviewed_lapses{"reviewed-lapses", "Reviewed: {when}; lapses at {due}"};
inline constexpr Says<1> reviewed_no_period{"reviewed-no-period",
                                            "Reviewed: {when}; nobody says how often it is due"};
inline constexpr Says<2> signed_on{"signed-on", "Signed: {person}, {day}"};
inline constexpr Says<2> plan_old{"plan-old", "OLD: {finding}, since {since}"};
inline constexpr Says<2> plan_missing{"plan-missing", "MISSING: {finding}, since {since}"};

// training as a table
inline constexpr Says<0> title_person{"title-person", "Person"};
inline constexpr Says<0> title_topic{"title-topic", "Topic"};
inline constexpr Says<0> title_trained{"title-trained", "Trained"};
inline constexpr Says<0> title_lapses{"title-lapses", "Lapses"};
inline constexpr Says<0> title_proof{"title-proof", "Proof"};
inline constexpr Says<1> training_every{
    "training-every", "The programme wants it every {days} day.|The programme wants it every {days} days."};
inline constexpr Says<0> training_no_period{
    "training-no-period", "No programme's period for training is known here: only what an entry states lapses."};
inline constexpr Says<0> training_none{"training-none", "No training is known."};
inline constexpr Says<0> training_lapsed{"training-lapsed", "LAPSED"};
inline constexpr Says<0> training_good{"training-good", "good"};
inline constexpr Says<0> training_not_said{"training-not-said", "not said how long"};
inline constexpr Says<1> not_trained{"not-trained",
                                     "NOT TRAINED as far as is known here: {person}, of the contingency plan"};

// readiness: what is looked at
inline constexpr Says<0> matter_doses_to_discard{"matter-doses-to-discard", "doses to discard"};
inline constexpr Says<0> matter_opened_vials{"matter-opened-vials", "opened vials"};
inline constexpr Says<0> matter_excursions{"matter-excursions", "excursions"};
inline constexpr Says<0> matter_temperature_record{"matter-temperature-record", "temperature record"};
inline constexpr Says<0> matter_checks{"matter-checks", "checks"};
inline constexpr Says<0> matter_certificates{"matter-certificates", "certificates"};
inline constexpr Says<0> matter_logger_readings{"matter-logger-readings", "logger readings"};
inline constexpr Says<0> matter_counts{"matter-counts", "counts"};
inline constexpr Says<0> matter_plan{"matter-plan", "plan"};
inline constexpr Says<0> matter_training{"matter-training", "training"};
inline constexpr Says<0> matter_doses_followed_up{"matter-doses-followed-up", "doses followed up"};
inline constexpr Says<0> matter_doses_that_left{"matter-doses-that-left", "doses that left"};
inline constexpr Says<0> matter_loans{"matter-loans", "loans"};
inline constexpr Says<0> matter_log_review{"matter-log-review", "log review"};
inline constexpr Says<0> matter_service{"matter-service", "service"};
inline constexpr Says<0> matter_self_audit{"matter-self-audit", "self-audit"};
inline constexpr Says<0> matter_retention{"matter-retention", "retention"};

// readiness: what was counted of it
inline constexpr Says<0> things_holdings{"things-holdings", "holdings"};
inline constexpr Says<0> things_lots{"things-lots", "lots"};
inline constexpr Says<0> things_probes{"things-probes", "probes"};
inline constexpr Says<0> things_probes_in_a_place{"things-probes-in-a-place", "probes in a place"};
inline constexpr Says<0> things_plans{"things-plans", "plans"};
inline constexpr Says<0> things_trainings_and_people{"things-trainings-and-people", "trainings and people"};
inline constexpr Says<0> things_doses_given{"things-doses-given", "doses given"};
inline constexpr Says<0> things_departures{"things-departures", "departures"};
inline constexpr Says<0> things_open_loans{"things-open-loans", "open loans"};
inline constexpr Says<0> things_times{"things-times", "times"};

// readiness: by what rule
inline constexpr Says<0> rule_doses_to_discard{
    "rule-doses-to-discard", "expired or condemned doses must not stand with those that may be used"};
inline constexpr Says<0> rule_guidance{
    "rule-guidance",
    "doses with exposure that no allowance covers wait, apart and marked, for the manufacturer's or health "
    "department's answer"};
inline constexpr Says<0> rule_opened_vials{"rule-opened-vials",
                                           "a vial of several doses gets its use-by when it is opened"};
inline constexpr Says<1> no_period_of{"no-period-of", "no period after first puncture is stated of {products}"};
inline constexpr Says<0> rule_incidents{"rule-incidents",
                                        "an incident that was noticed is followed until it is closed"};
inline constexpr Says<0> rule_excursions{
    "rule-excursions", "an excursion belongs to an incident, in which somebody says what was done about it"};
inline constexpr Says<0> rule_temperature_record{
    "rule-temperature-record",
    "a place in use has no time without its logger, or of which nothing is known, longer than the longest step that "
    "its readings may have, and none between plain checks"};
inline constexpr Says<0> no_rule_checks{"no-rule-checks",
                                        "no rule is known that says how often to check which places"};
inline constexpr Says<1> checks_a_day{"checks-a-day", "{number} check a day|{number} checks a day"};
inline constexpr Says<2> checks_by{"checks-by", "{checks} by {times}"};
inline constexpr Says<1> checks_with_min_max{"checks-with-min-max", "{checks} with minimum and maximum"};
inline constexpr Says<3> checks_on{"checks-on", "{checks} on {weekdays}, {by}"};
inline constexpr Says<0> monday{"monday", "Monday"};
inline constexpr Says<0> tuesday{"tuesday", "Tuesday"};
inline constexpr Says<0> wednesday{"wednesday", "Wednesday"};
inline constexpr Says<0> thursday{"thursday", "Thursday"};
inline constexpr Says<0> friday{"friday", "Friday"};
inline constexpr Says<0> saturday{"saturday", "Saturday"};
inline constexpr Says<0> sunday{"sunday", "Sunday"};
inline constexpr Says<0> rule_certificates{"rule-certificates", "a certificate holds through its last day"};
inline constexpr Says<0> no_rule_logger_readings{"no-rule-logger-readings",
                                                 "no rule is known that says how often to read the loggers"};
inline constexpr Says<0> no_rule_counts{"no-rule-counts", "no rule is known that says how often to count"};
inline constexpr Says<0> rule_plan{
    "rule-plan",
    "the contingency plan names what a person needs at night in front of a warm refrigerator, and is reviewed"};
inline constexpr Says<1> rule_reviewed{"rule-reviewed", "reviewed {every}"};
inline constexpr Says<0> no_rule_how_often{"no-rule-how-often", "no rule is known that says how often"};
inline constexpr Says<0> no_rule_training{
    "no-rule-training", "no rule is known that says how often, and no training states the date of the next"};
inline constexpr Says<0> rule_training_stated{"rule-training-stated",
                                              "the date of the next as each training states it"};
inline constexpr Says<4> decided_before_known{
    "decided-before-known",
    "{product} lot {lot}, {finding}: decided before this was known (last step: {step}): look at it again"};
inline constexpr Says<2> recalled_not_followed{
    "recalled-not-followed",
    "recalled, and nothing noted since of {doses} given of it: {recall}"};
inline constexpr Says<0> rule_followed_up{"rule-followed-up", "each dose of the review list is followed to its end"};
inline constexpr Says<0> rule_doses_that_left{"rule-doses-that-left",
                                              "who has doses that left is told what was learnt of them since"};
inline constexpr Says<0> no_rule_loans{"no-rule-loans", "no rule is known that says how soon loans are to be repaid"};
inline constexpr Says<2> rule_loans{"rule-loans", "repaid within {days} day, {by}|repaid within {days} days, {by}"};
inline constexpr Says<1> no_record_of_it{
    "no-record-of-it", "{every}; a ledger keeps no record of it: see the site's own papers"};
inline constexpr Says<0> no_rule_retention{
    "no-rule-retention", "no rule is known that says how long records are kept; nothing in a ledger is ever deleted"};
inline constexpr Says<1> rule_retention{
    "rule-retention",
    "nothing in a ledger is ever deleted; the longest of the programme's times holds for all of it, {by}"};

// readiness: where
inline constexpr Says<1> where_loan{"where-loan", "loan of entry {entry}"};

// readiness: doses
inline constexpr Says<1> expired_on_shelf{"expired-on-shelf",
                                          "{doses} past the expiry or use-by date still on the shelf"};
inline constexpr Says<1> condemned_on_shelf{"condemned-on-shelf",
                                            "{doses} that guidance said to discard still on the shelf"};
inline constexpr Says<1> expiry_of_lot{"expiry-of-lot", "expiry of the lot {day}"};
inline constexpr Says<1> doses_wait{"doses-wait",
                                    "{number} dose waits for guidance|{number} doses wait for guidance"};
inline constexpr Says<1> doses_given_wait{
    "doses-given-wait", "{number} dose given waits for guidance|{number} doses given wait for guidance"};
inline constexpr Says<2> entry_given{"entry-given", "entry {entry}, given {when}"};
inline constexpr Says<2> good_after_event{"good-after-event", "good for {time} after {event}"};
inline constexpr Says<4> given_from_vial_past{
    "given-from-vial-past",
    "{doses} given out of a vial of which no opening is noted: its first dose was taken {begun}, entry {entry}, and "
    "opened then it was usable {usable}: a clinician decides, and a step notes it; was it another vial, note its "
    "opening, and give them out of its mark"};
inline constexpr Says<0> note_opening_or_count{
    "note-opening-or-count",
    "note the opening when it was (beyond-use, with vial and at), or count the doses if none is open"};
inline constexpr Says<1> count_overdue{"count-overdue", "count overdue of {holdings}"};
inline constexpr Says<1> last_counted{"last-counted", "last counted {when}"};
inline constexpr Says<1> never_counted{"never-counted", "never counted since it came {when}"};

// readiness: the temperature record and its devices
inline constexpr Says<1> between_plain_checks{
    "between-plain-checks", "{time} between plain checks: a straight line is counted, and nothing is known"};
inline constexpr Says<1> gaps{"gaps", "{number} gap|{number} gaps"};
inline constexpr Says<1> logger_gaps{"logger-gaps", "{number} logger gap|{number} logger gaps"};
inline constexpr Says<1> gap_with_checks{"gap-with-checks", "{gap}, for which checks stand"};
inline constexpr Says<2> gap_unknown{"gap-unknown", "{gap}, {time} of which nothing is known"};
inline constexpr Says<2> gap_partly_unknown{"gap-partly-unknown", "{gap}, of it unknown {time}"};
inline constexpr Says<1> gap_goes_on{"gap-goes-on", "{gap}; it goes on"};
inline constexpr Says<1> last_gap_goes_on{"last-gap-goes-on", "{gaps}; the last goes on"};
inline constexpr Says<3> logger_gap{"logger-gap", "logger gap, {from} to {until}: {time}"};
inline constexpr Says<3> no_logger_no_check{"no-logger-no-check", "no logger and no check, {from} to {until}: {time}"};
inline constexpr Says<2> checks_missing{"checks-missing", "{number} of {asked} missing"};
inline constexpr Says<1> checks_late{"checks-late", "{number} made late"};
inline constexpr Says<1> checks_without_min_max{"checks-without-min-max",
                                                "{number} without minimum and maximum, or late"};
inline constexpr Says<2> checks_not_made{"checks-not-made",
                                         "{number} check not made as the rule says, on {days}|"
                                         "{number} checks not made as the rule says, on {days}"};
inline constexpr Says<2> lapse_without_certificate{"lapse-without-certificate", "in {place}, no certificate, {time}"};
inline constexpr Says<2> lapse_expired{"lapse-expired", "in {place}, certificate expired, {time}"};
inline constexpr Says<1> no_certificate{"no-certificate", "no certificate, in {place}"};
inline constexpr Says<2> certificate_expired{"certificate-expired", "certificate expired on {day}, in {place}"};
inline constexpr Says<2> certificate_expires{"certificate-expires", "certificate expires on {day}, in {place}"};
inline constexpr Says<1> not_calibrated_in_time{"not-calibrated-in-time",
                                                "not calibrated again in time, in {place}"};
inline constexpr Says<0> was_without_certificate{"was-without-certificate",
                                                 "was without a valid certificate for a time"};
inline constexpr Says<2> to_be_calibrated{"to-be-calibrated", "to be calibrated again before {when}, in {place}"};
inline constexpr Says<2> logger_last_read{"logger-last-read", "last read {when}, in {place}"};
inline constexpr Says<2> logger_never_read{"logger-never-read",
                                           "never read since it was put there, {when}, in {place}"};

// readiness: people and papers
inline constexpr Says<2> training_in_lapsed{"training-in-lapsed", "training in {topic} lapsed, last {when}"};
inline constexpr Says<2> training_to_repeat{"training-to-repeat", "training in {topic} to be repeated before {due}"};
inline constexpr Says<0> training_of_nobody{"training-of-nobody", "no training of anybody is known"};
inline constexpr Says<0> plan_person_untrained{"plan-person-untrained",
                                               "of the plan's people, without any training known"};
inline constexpr Says<3> nothing_noted_of_patient{
    "nothing-noted-of-patient", "{product} lot {lot}, {finding}: nothing noted of what was done with the patient"};
inline constexpr Says<0> not_told_since{"not-told-since", "not told of what was learnt since"};
inline constexpr Says<2> loan_not_repaid{"loan-not-repaid", "{number} of {product} not repaid"};
inline constexpr Says<0> reported_otherwise{"reported-otherwise", "reported with other figures"};
inline constexpr Says<0> doses_not_told_of{"doses-not-told-of", "doses that left are not told of"};
inline constexpr Says<1> duties_overdue{"duties-overdue", "{number} duty overdue|{number} duties overdue"};
inline constexpr Says<1> overdue_since{"overdue-since", "overdue since {when}"};
inline constexpr Says<1> excursions_of_no_incident{
    "excursions-of-no-incident",
    "{number} excursion that belongs to no incident|{number} excursions that belong to no incident"};

// readiness as a table
inline constexpr Says<0> answer_readiness{"answer-readiness", "what an inspector would find missing"};
inline constexpr Says<1> looked_at_since{
    "looked-at-since",
    "Checks, the temperature record, certificates and excursions since {from}; all else as it stands."};
inline constexpr Says<2> looked_at_since_both{
    "looked-at-since-both",
    "Checks, the temperature record and certificates since {from}, excursions since {before}; all else as it stands."};
inline constexpr Says<0> no_rules_known{
    "no-rules-known", "No programme's rules are known: what only they could ask for is not judged."};
inline constexpr Says<0> nothing_missing{"nothing-missing",
                                         "Nothing found missing in what could be judged, below."};
inline constexpr Says<3> readiness_counts{"readiness-counts",
                                          "{act} where doses may be at stake now, {overdue} overdue, {soon} due soon."};
inline constexpr Says<2> matters_not_judged{"matters-not-judged",
                                            "{number} matter could NOT be judged: {matters}.|"
                                            "{number} matters could NOT be judged: {matters}."};
inline constexpr Says<2> findings_since{"findings-since", "{findings}, the oldest since {since}."};
inline constexpr Says<2> findings_since_some{"findings-since-some",
                                             "{findings}, the oldest known since {since}, of some it is not known."};
inline constexpr Says<3> readiness_left_out{
    "readiness-left-out",
    "{number} matters were looked at, {good} are in order. Left out here: the details of each finding, by what rule it "
    "is due, and how long records are kept; `{why}` shows them."};
inline constexpr Says<0> heading_act{"heading-act", "ACT NOW"};
inline constexpr Says<0> heading_overdue{"heading-overdue", "OVERDUE"};
inline constexpr Says<0> heading_soon{"heading-soon", "DUE SOON"};
inline constexpr Says<2> finding_since{"finding-since", "{finding}. Since {since}."};
inline constexpr Says<1> finding_since_not_known{"finding-since-not-known", "{finding}. Since when is not known."};
inline constexpr Says<0> title_looked_at{"title-looked-at", "Looked at"};
inline constexpr Says<0> title_things{"title-things", "Things"};
inline constexpr Says<0> title_in_order{"title-in-order", "In order"};
inline constexpr Says<0> title_findings{"title-findings", "Findings"};
inline constexpr Says<0> title_due_soon{"title-due-soon", "Due soon"};
inline constexpr Says<0> title_by_what_rule{"title-by-what-rule", "By what rule"};
inline constexpr Says<0> cell_not_judged{"cell-not-judged", "NOT JUDGED"};
inline constexpr Says<1> first_record_is{
    "first-record-is", "The first record is of {when}. Nothing in a ledger is ever deleted."};
inline constexpr Says<1> years{"years", "{number} year|{number} years"};
inline constexpr Says<4> kept_until{
    "kept-until", "{records}: {years}; the first records until {first}, those of today until {today}."};
inline constexpr Says<1> kept_longest{"kept-longest", "{kept} As the longest it holds for all of the ledger."};

}  // namespace coldtally::words
