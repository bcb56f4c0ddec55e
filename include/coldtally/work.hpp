// Work: everyday work on a ledger, one call each for whoever types and whoever programs: made whole, asked about where
// it loosens anything, posted, and said with what it changes.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/definition_work.hpp"
#include "coldtally/forms.hpp"
#include "coldtally/handover_work.hpp"
#include "coldtally/incident_work.hpp"
#include "coldtally/ledger.hpp"

namespace coldtally {

/// What whoever posts says besides the entry.
struct Meant {
    bool yes = false;      ///< that it loosens something is meant
    bool dry_run = false;  ///< everything is checked and said, nothing is written
};

/// What was posted, or would be.
struct WorkDone {
    Posted posted;                   ///< dry_run: nothing of it is written, as was wished or since it is asked about
    std::optional<Changes> changes;  ///< on stock, lists and review, where they are to be shown
    /// Why nothing is written though that was not wished: what it would loosen. Empty: it is posted, or a dry run.
    std::vector<Remark> asks;
    std::optional<MoveListAnswer> lid;  ///< of packing: what is in the container then
    Zone zone;                          ///< the site's, also of one that a dry run does not make
};
std::string to_json(const WorkDone&);
std::string to_table(const WorkDone&, const TableStyle&);
/// A Refusal of Code::missing_field, with all that is asked, where anything is.
void require_meant(const WorkDone& done);

/// A step of an incident that was posted, or would be; of a notice the incident with it.
struct StepDone {
    Posted posted;
    std::string incident;
    IncidentStep step = IncidentStep::noticed;
    bool held = true;                      ///< of a notice: its doses are put on hold
    std::optional<Remark> doses;           ///< of a notice in a place: what becomes of them
    std::vector<Remark> still_open;        ///< of a closing: what is open in the incident
    std::vector<Remark> beside;            ///< of a notice: other incidents of the place that are open
    std::optional<IncidentAnswer> answer;  ///< of a notice that was posted
};
/// What was posted; of a closing, its warnings say what is still open, too.
Posted posted_of(StepDone done);
/// The incident of a notice that was posted; else posted_of.
std::string to_json(const StepDone&);
std::string to_table(const StepDone&, const TableStyle&);

struct ReportDone {
    Posted posted;
    IncidentAnswer answer;  ///< with the figures that were told
};
/// The incident alone.
std::string to_json(const ReportDone&);
std::string to_table(const ReportDone&, const TableStyle&);

struct AnswerDone {
    AnswerDraft draft;
    std::vector<EntryNumber> posted;  ///< none: nothing was written
    /// It was to be posted, and does not cover all that is known, nor did a note say why it is posted all the same.
    bool refused = false;
};
std::string to_json(const AnswerDone&);
std::string to_table(const AnswerDone&, const TableStyle&);

struct ImportDone {
    ImportReport report;
    bool dry_run = false;
    std::optional<IncidentsAnswer> found;  ///< which incidents the excursions in what was read belong to
    std::vector<Remark> next_steps;        ///< what to know and do after that
};
std::string to_json(const ImportDone&);
std::string to_table(const ImportDone&, const TableStyle&);

/// What of a clinic's file was posted, or would be.
struct StartDone {
    std::string file;   ///< its name
    StartDraft draft;   ///< its entries carry their numbers; with mistakes nothing was posted
    bool dry_run = false;            ///< nothing was written
    std::optional<Changes> changes;  ///< on stock, lists and review, where it loosens anything
    /// Why nothing is written though that was not wished. Empty: it is posted, a dry run, or has mistakes.
    std::vector<Remark> asks;
};
std::string to_json(const StartDone&);
std::string to_table(const StartDone&, const TableStyle&);
/// Error where there are mistakes, `each` of them in a line; a Refusal where something must be meant.
void require_taken(const StartDone& done, bool each = true);
/// What stands before a mistake: "line 12, [places], type".
Remark mistake_words(const StartMistake& mistake);

/// Everyday work on one ledger, which it must not outlive and of which it keeps nothing. `now`: the instant of the
/// clock; what is known is what was recorded up to it, or up to the last entry where that is later. A call that throws
/// has written nothing, unless its message says that IT IS POSTED and as what: then what follows from it could not be
/// asked. Each has the errors of Ledger::draft and Ledger::post, and Code::machine for a ledger open for reading alone.
class Work {
public:
    Work(Ledger& ledger, Instant now) : ledger_(ledger), now_(now) {}

    /// An everyday entry, by the JSON of its fields (Ledger::draft). Of a check out of range the next steps say which
    /// incident it belongs to.
    WorkDone post(std::string_view json, Meant meant);
    /// A definition, certificate, assignment or taking back, with what it changes where it can change anything.
    WorkDone define(std::string_view json, Meant meant);
    /// Guidance, with what it changes, which is what it is for: nothing is asked.
    WorkDone judge(std::string_view json, Meant meant);

    WorkDone pack(const PackRequest& request, Meant meant);
    WorkDone unpack(const UnpackRequest& request, Meant meant);

    /// A transfer, with its handover: post_transfer, whose errors it has; a Refusal where it loosens what is not meant.
    PostedTransfer transfer(std::string_view json, const std::optional<std::string>& file, bool unasked, Meant meant,
                            const TableStyle& style);
    /// The gives of another system's records; a Refusal where they loosen what is not meant.
    PostedRecords give_records(const RecordsRequest& request, std::string_view text, Meant meant);

    /// A step of an incident, dated `at`; errors of step_draft.
    StepDone step(const StepRequest& request, Instant at, bool dry_run);
    /// A report that is sent, with the figures of `at`; errors of report_draft. `patients`: with their tokens.
    ReportDone report(const ReportRequest& request, Instant at, bool patients, bool dry_run);
    /// Guidance that answers a report (Ledger::answer_draft), posted where `yes` says so and it covers all that is
    /// known or its note says why not.
    AnswerDone answer(EntryNumber report, const Entry& guidance, bool yes);

    /// A clinic's file (Ledger::start_draft), all of it or nothing.
    StartDone start(const StartRequest& request, Meant meant);

    /// Ledger::import_readings, and what was found in what was read.
    ImportDone import_readings(const ImportRequest& request, const std::function<std::optional<LoggerFile>()>& next,
                               bool dry_run);

private:
    WorkDone finish(DefinitionDraft draft, Meant meant);
    WorkDone post(Drafted drafted, Meant meant);
    Ledger& ledger_;
    Instant now_;
};

}  // namespace coldtally
