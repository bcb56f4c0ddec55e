#include "coldtally/work.hpp"

#include <algorithm>
#include <variant>

#include "coldtally/entry_work.hpp"
#include "coldtally/error.hpp"
#include "put_back.hpp"
#include "words/incidents.hpp"
#include "words/loosening.hpp"

namespace coldtally {

void require_meant(const WorkDone& done) {
    if (done.asks.empty()) return;
    ask_before_loosening(DefinitionDraft{{}, std::nullopt, done.asks}, false);
}

namespace {

/// Asks what follows from what is in the ledger. That this fails must not be read as "not written": a give that is
/// posted again is given twice.
template <class Ask>
auto after_posting(const std::string& as, bool dry_run, Ask ask) {
    try {
        return ask();
    } catch (const Error& error) {
        if (dry_run) throw;
        throw Error(error.code(),
                    "IT IS POSTED" + as + ", and what follows from it could not be asked: " + error.what());
    }
}

std::string numbers_of(const std::vector<Entry>& entries) {
    std::string out;
    for (const Entry& e : entries) out += (out.empty() ? ", as entry " : ", ") + std::to_string(e.number);
    return out;
}

template <class Ask>
auto after_posting(const Posted& posted, Ask ask) {
    return after_posting(numbers_of(posted.what.entries), posted.dry_run, ask);
}

/// A notice of a time through which guidance judges that was posted before it: the doses are held from now on, too.
void hold_from_now(Ledger& ledger, Drafted& drafted, Instant now) {
    const auto found = ledger.loosening(drafted.entries, now);
    if (!found) return;
    for (const Remark& said : found->says)
        if (said.is(words::lifted_at_once)) drafted.warnings.push_back(said);
    put_back_holds(ledger, found->holds, drafted, now);
}

}  // namespace

WorkDone Work::finish(DefinitionDraft draft, Meant meant) {
    const bool asked = !draft.loosens.empty() && !meant.yes;
    Posted posted{std::move(draft.drafted), meant.dry_run || asked};
    ledger_.post(posted.what, now_, posted.dry_run);
    if (!posted.dry_run) after_posting(posted, [&] { add_incidents(ledger_, posted.what, now_); });
    // a ledger that a dry run does not make has no zone to ask
    const auto* site = std::get_if<Site>(&posted.what.entries.front().fact);
    Zone zone = site ? Zone(site->zone) : ledger_.zone();
    return {std::move(posted), std::move(draft.changes),
            asked && !meant.dry_run ? std::move(draft.loosens) : std::vector<Remark>(), std::nullopt, std::move(zone)};
}

WorkDone Work::post(Drafted drafted, Meant meant) {
    const bool is_site = std::holds_alternative<Site>(drafted.entries.front().fact);  // of a ledger that may be new
    return finish(is_site ? DefinitionDraft{std::move(drafted), std::nullopt, {}}
                          : entry_draft(ledger_, std::move(drafted), now_),
                  meant);
}

WorkDone Work::post(std::string_view json, Meant meant) {
    Drafted drafted = ledger_.draft(json, now_);
    auto late = ledger_.late_correction(drafted, now_);
    if (!late) return post(std::move(drafted), meant);
    // one computation: what is shown is what is posted
    drafted.entries = std::move(late->entries);
    DefinitionDraft draft = entry_draft(ledger_, std::move(drafted), now_);
    if (!draft.changes) draft.changes = ledger_.changes(draft.drafted.entries, now_);
    draft.drafted.warnings.insert(draft.drafted.warnings.begin(), late->asks);
    draft.loosens.insert(draft.loosens.begin(), std::move(late->asks));
    return finish(std::move(draft), meant);
}

WorkDone Work::define(std::string_view json, Meant meant) {
    DefinitionDraft draft = definition_draft(ledger_, json, now_);
    return draft.changes ? finish(std::move(draft), meant) : post(std::move(draft.drafted), meant);
}

WorkDone Work::judge(std::string_view json, Meant meant) {
    Drafted drafted = ledger_.draft(json, now_);
    Changes changes = ledger_.changes(drafted.entries, now_);
    WorkDone out = post(std::move(drafted), meant);
    out.changes = std::move(changes);
    return out;
}

WorkDone Work::pack(const PackRequest& request, Meant meant) {
    Drafted drafted = ledger_.pack(request, now_);
    const Instant at = *drafted.entries.back().at;  // of the moves
    std::optional<MoveListAnswer> would_be;  // asked before, since the entries go with the posting
    if (meant.dry_run) would_be = ledger_.move_list_after(drafted.entries, request.container, at, now_);
    WorkDone out = post(std::move(drafted), meant);
    if (!out.asks.empty()) return out;  // a lid of what is not packed would be taken for one
    out.lid = would_be ? std::move(would_be) : after_posting(out.posted, [&] {
        return std::optional(ledger_.move_list(request.container, std::nullopt, Question{at, std::nullopt}, now_));
    });
    return out;
}

WorkDone Work::unpack(const UnpackRequest& request, Meant meant) { return post(ledger_.unpack(request, now_), meant); }

PostedTransfer Work::transfer(std::string_view json, const std::optional<std::string>& file, bool unasked, Meant meant,
                              const TableStyle& style) {
    DefinitionDraft draft = entry_draft(ledger_, ledger_.draft(json, now_), now_);
    if (!meant.dry_run) ask_before_loosening(draft, meant.yes);
    PostedTransfer out = post_transfer(ledger_, std::move(draft.drafted), file, unasked, now_, meant.dry_run, style);
    if (!meant.dry_run) after_posting(out.posted, [&] { add_incidents(ledger_, out.posted.what, now_); });
    return out;
}

PostedRecords Work::give_records(const RecordsRequest& request, std::string_view text, Meant meant) {
    PostedRecords out{ledger_.give_records(request, text, now_), meant.dry_run};
    if (!out.records.what.entries.empty()) {
        DefinitionDraft draft = entry_draft(ledger_, std::move(out.records.what), now_);
        if (!meant.dry_run) ask_before_loosening(draft, meant.yes);
        out.records.what = std::move(draft.drafted);
    }
    ledger_.post(out.records.what, now_, meant.dry_run);
    if (!meant.dry_run)
        after_posting(numbers_of(out.records.what.entries), false,
                      [&] { add_incidents(ledger_, out.records.what, now_); });
    return out;
}

StepDone Work::step(const StepRequest& request, Instant at, bool dry_run) {
    StepDone out;
    out.posted = {step_draft(ledger_, request, at, now_), dry_run};
    out.step = request.step;
    out.held = !request.no_hold;
    if (request.step == IncidentStep::noticed) hold_from_now(ledger_, out.posted.what, now_);
    for (const Entry& entry : out.posted.what.entries)
        if (const auto* step = std::get_if<Incident>(&entry.fact)) out.incident = step->incident;
    const bool notice = request.step == IncidentStep::noticed;
    if (notice && request.place) {
        out.beside = open_beside(ledger_, out.incident, *request.place, now_);
        const auto& said = out.held ? out.posted.what.filled : out.posted.what.warnings;
        const auto it = std::ranges::find_if(
            said, [&](const Remark& r) { return out.held || r.is(words::not_put_on_hold); });
        if (it != said.end()) out.doses = *it;
    }
    ledger_.post(out.posted.what, now_, dry_run);
    after_posting(out.posted, [&] {
        if (request.step == IncidentStep::closed) out.still_open = still_open(ledger_, out.incident, now_);
        if (notice && !dry_run) out.answer = ledger_.incident(out.incident, std::nullopt, {}, now_);
    });
    return out;
}

ReportDone Work::report(const ReportRequest& request, Instant at, bool patients, bool dry_run) {
    ReportDone out;
    out.posted.dry_run = dry_run;
    out.posted.what.entries.push_back(report_draft(ledger_, request, at, now_));
    ledger_.post(out.posted.what, now_, dry_run);
    const std::optional<std::string> maker =
        request.to == Recipient::manufacturer ? std::optional(request.recipient) : std::nullopt;
    out.answer = after_posting(out.posted, [&] {
        return ledger_.incident(request.incident, maker, {at, std::nullopt}, now_, patients);
    });
    return out;
}

AnswerDone Work::answer(EntryNumber report, const Entry& guidance, bool yes) {
    AnswerDone out;
    out.draft = ledger_.answer_draft(report, guidance, now_);
    const bool clear = out.draft.concerns.empty() || guidance.note;
    out.refused = yes && !clear;
    if (yes && clear) out.posted = ledger_.post(out.draft.entries, now_);
    return out;
}

ImportDone Work::import_readings(const ImportRequest& request, const std::function<std::optional<LoggerFile>()>& next,
                                 bool dry_run) {
    ImportDone out;
    out.dry_run = dry_run;
    out.report = ledger_.import_readings(request, next, now_, dry_run);
    if (dry_run) return out;
    after_posting("", false, [&] {
        // an old file may hold what nobody noticed
        out.found = incidents_found(ledger_, request.probe, out.report, now_);
        if (out.found) out.next_steps = steps_after_import(ledger_, *out.found, request.by, now_);
    });
    return out;
}

}  // namespace coldtally
