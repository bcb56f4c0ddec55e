// Forms: answers as JSON and as tables for people.
#pragma once

#include <string>
#include <vector>

#include "coldtally/conditions.hpp"
#include "coldtally/copies.hpp"
#include "coldtally/drafts.hpp"
#include "coldtally/entered.hpp"
#include "coldtally/handovers.hpp"
#include "coldtally/immunizations.hpp"
#include "coldtally/incidents.hpp"
#include "coldtally/journeys.hpp"
#include "coldtally/logger.hpp"
#include "coldtally/question.hpp"
#include "coldtally/stewardship.hpp"
#include "coldtally/stock.hpp"
#include "coldtally/today.hpp"
#include "coldtally/upkeep.hpp"
#include "coldtally/verification.hpp"
#include "coldtally/words.hpp"

namespace coldtally {

/// JSON of an answer in one line with a line end; the same bytes on every machine.
std::string to_json(const StockAnswer&);
std::string to_json(const ListsAnswer&);
std::string to_json(const ScanAnswer&);
std::string to_json(const ReviewAnswer&);
std::string to_json(const ExcursionsAnswer&);
std::string to_json(const ConditionsAnswer&);
std::string to_json(const Explanation&);
std::string to_json(const RulesAnswer&);
std::string to_json(const Changes&);
std::string to_json(const IncidentsAnswer&);
std::string to_json(const ExcursionsInShort&);
std::string to_json(const IncidentAnswer&);
/// `posted`: the numbers of its entries; none where nothing was posted.
std::string to_json(const AnswerDraft&, const std::vector<EntryNumber>& posted);
std::string to_json(const DatesAnswer&);
std::string to_json(const LoansAnswer&);
std::string to_json(const AccountabilityAnswer&);
std::string to_json(const PlanAnswer&);
std::string to_json(const FollowUpAnswer&);
std::string to_json(const TrainingAnswer&);
std::string to_json(const UnitAnswer&);
std::string to_json(const ReadinessAnswer&);
std::string to_json(const TodayAnswer&);
std::string to_json(const EnteredAnswer&);
std::string to_json(const ShownAnswer&);
std::string to_json(const ReadingsAnswer&);
std::string to_json(const TraceAnswer&);
std::string to_json(const StaysAnswer&);
std::string to_json(const Verification&);
std::string to_json(const LedgerCopy&);
std::string to_json(const Posted&);
/// What was posted, and what it changes.
std::string to_json(const Posted&, const Changes&);
std::string to_json(const MoveListAnswer&);
std::string to_json(const TripAnswer&);
std::string to_json(const HandoverAnswer&);
/// What goes with the doses as a file, which the receiving site's draft of a receive takes in: its JSON, bound to
/// product, lot and number of doses. Code::contradiction where guidance condemned the doses.
std::string handover_file(const HandoverAnswer&);
/// What a receive entry takes in: the history alone. Errors as above.
std::string handover_json(const HandoverAnswer&);
/// `dry_run`: says that nothing was written, and means its entries as those that would be.
/// `found`: which incident the excursions of what was read belong to; null where that was not asked.
std::string to_json(const ImportReport&, bool dry_run = false, const IncidentsAnswer* found = nullptr);
/// The JSON of a history, as a transfer hands it over and a receive takes it in. A part of an entry: without line end.
/// `allowance_seconds` are the product's, as many as the history has allowances.
std::string to_json(const History&, const std::vector<Duration>& allowance_seconds);
/// The code of what is said, with its fields, as it stands beside the sentence. A part of an answer: without line end.
std::string to_json(const Remark&);

/// How a table is to look, and how much of it.
struct TableStyle {
    Zone zone;               ///< local times are shown in it, and days end in it
    Scale scale = Scale::C;  ///< temperatures are shown in it
    int columns = 100;       ///< width to fit, in character cells; less than 60 is taken as 60
    bool color = false;      ///< adds terminal colours; words say the same without
    const Phrasebook* book = &english();  ///< says it; never null, and outlives the call
    /// Lists, review and readiness: with all reasons, notes and figures below each line; else a line each, with what
    /// must be known before doses are used, and the number of what is left out.
    bool why = false;
};

/// Tables for people: lines that fit style.columns, with a line end each. What is too long for its column goes on in
/// the next line; nothing is cut off. Control characters are shown as U+FFFD. Answers end with the caution.
std::string to_table(const StockAnswer&, const TableStyle&);
std::string to_table(const ListsAnswer&, const TableStyle&);
std::string to_table(const ScanAnswer&, const TableStyle& style);
std::string to_table(const ReviewAnswer&, const TableStyle&);
std::string to_table(const ExcursionsAnswer&, const TableStyle&);
std::string to_table(const ConditionsAnswer&, const TableStyle&);
std::string to_table(const Explanation&, const TableStyle&);
std::string to_table(const RulesAnswer&, const TableStyle&);
std::string to_table(const Changes&, const TableStyle&);
std::string to_table(const IncidentsAnswer&, const TableStyle&);
/// After an import: of more than ten excursions how many, the longest and the latest.
std::string to_short_table(const IncidentsAnswer&, const TableStyle&);
/// What it is, what is to be done by when and what must not be used, then the report.
std::string to_table(const IncidentAnswer&, const TableStyle&);
/// The report alone, for those who are told.
std::string to_report(const IncidentAnswer&, const TableStyle&);
std::string to_table(const AnswerDraft&, const std::vector<EntryNumber>& posted, const TableStyle&);
std::string to_table(const DatesAnswer&, const TableStyle&);
std::string to_table(const LoansAnswer&, const TableStyle&);
std::string to_table(const AccountabilityAnswer&, const TableStyle&);
std::string to_table(const PlanAnswer&, const TableStyle&);
std::string to_table(const FollowUpAnswer&, const TableStyle&);
std::string to_table(const TrainingAnswer&, const TableStyle&);
std::string to_table(const UnitAnswer&, const TableStyle&);
std::string to_table(const ReadinessAnswer&, const TableStyle&);
std::string to_table(const TodayAnswer&, const TableStyle&);
std::string to_table(const EnteredAnswer&, const TableStyle&);
std::string to_table(const ShownAnswer&, const TableStyle&);
std::string to_table(const Verification&, const TableStyle&);
std::string to_table(const LedgerCopy&, const TableStyle&);
std::string to_table(const Posted&, const TableStyle&);
std::string to_table(const Posted&, const Changes&, const TableStyle&);
std::string to_table(const PostedRecords&, const TableStyle&);
std::string to_table(const MoveListAnswer&, const TableStyle&);
std::string to_table(const TripAnswer&, const TableStyle&);
/// The sheet that goes with the doses.
std::string to_table(const HandoverAnswer&, const TableStyle&);
/// What an entry says, as a line: "gave 1 dose of mmr lot K0123 from main at 2026-03-02 08:05".
Remark entry_words(const Entry&, const Zone&);
std::string to_table(const ImportReport&, const TableStyle&, bool dry_run = false);

/// Which way a number shown to people is rounded.
enum class Rounding {
    up,       ///< for a highest
    down,     ///< for a lowest
    nearest,  ///< for a mean, halves away from zero; never for what is compared with a limit
};
/// "4.2 °C" or "39.6 °F": one fractional digit of the exact conversion. A highest rounded up and a lowest rounded
/// down never look better than they are.
Field temperature_words(const Rational& celsius, Scale scale, Rounding rounding);

/// The caution that every list and paper ends with.
extern const char* const caution;
/// What a list of doses given says besides.
extern const char* const review_caution;

/// The records, one for each row; see lib/standards/README.md for what each field is made of.
std::vector<Immunization> immunization_records(const ImmunizationsAnswer&);
/// As application/fhir+ndjson: a resource a line, each with a line end (LF).
std::string to_ndjson(const ImmunizationsAnswer&);
/// {"ledger", "at", "known_on", "last_entry", "immunizations": [...]} with the same resources.
std::string to_json(const ImmunizationsAnswer&);

}  // namespace coldtally
