// What was done in everyday work, as JSON and in lines.
#include <variant>

#include "coldtally/work.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "words/general.hpp"
#include "words/incidents.hpp"
#include "words/tables.hpp"
#include "words/work.hpp"

namespace coldtally {

using namespace forms;
using Paint = TableLayout::Paint;

std::string to_json(const WorkDone& done) {
    return done.changes ? to_json(done.posted, *done.changes) : to_json(done.posted);
}

std::string to_table(const WorkDone& done, const TableStyle& style) {
    std::string out =
        done.changes ? to_table(done.posted, *done.changes, style) : to_table(done.posted, style);
    if (!done.lid) return out;
    TableLayout between(*style.book);
    between.blank();
    between.text(words::for_the_lid());
    return out + render(between, style) + to_table(*done.lid, style);
}

namespace {

/// Which entries hold the doses of a notice.
Field holds_of(const std::vector<Entry>& entries) {
    if (entries.size() == 2) return words::entry(entries.back().number);
    return words::entries_from_to(entries[1].number, entries.back().number);
}

void add_notice(TableLayout& table, const StepDone& done) {
    const auto& what = done.posted.what;
    const Field held = done.doses ? Field(*done.doses) : Field(words::no_place_named());
    if (done.posted.dry_run) {
        table.text(words::would_open(done.incident, held), 0, 2);
        for (const auto& open : done.beside) table.text(words::note_line(open), 0, 2);
        return;
    }
    table.text(words::opened(done.incident, what.entries.front().number,
                             what.entries.size() > 1 ? Field(words::in_brackets(held, holds_of(what.entries)))
                                                     : held),
               0, 2);
    // what came since is on hold, too: from now on
    for (std::size_t i = 1; done.held && i < what.filled.size(); ++i) table.text(words::sentence(what.filled[i]), 2, 2);
    const auto& now = done.held ? words::notice_now : words::notice_now_not_held;
    table.text(now(words::task("check")), 0, 2);
    for (const auto& open : done.beside)
        table.text(words::note_other_incident(
                       open, words::task("takeback", {{"", std::to_string(what.entries.front().number)},
                                                      {"", english().say(words::belongs_to_another())}})),
                   0, 2);
    table.blank();
}

void add_step(TableLayout& table, const StepDone& done, const TableStyle& style) {
    const auto& warns = done.step == IncidentStep::closed ? words::still_open_line : words::warning;
    for (const auto* all : {&done.posted.what.warnings, &done.still_open})
        for (const auto& one : *all)  // some of what is still open says so itself
            table.text(one.is(words::still_open) ? warns(one.fields.front()) : warns(one), 0, 2);
    for (const auto& entry : done.posted.what.entries) {
        const Field what = std::holds_alternative<Incident>(entry.fact)
                               ? Field(words::incident_step(done.incident, answers::said::step_words(done.step)))
                               : Field(entry_words(entry, style.zone));
        table.text(done.posted.dry_run ? words::would_be_noted(what) : words::noted_as(what, entry.number), 0, 2);
    }
    if (done.step == IncidentStep::closed) add_caution(table, words::caution_review());
}

}  // namespace

Posted posted_of(StepDone done) {
    for (auto& what : done.still_open) done.posted.what.warnings.push_back(words::still_open(std::move(what)));
    return std::move(done.posted);
}

std::string to_json(const StepDone& done) { return done.answer ? to_json(*done.answer) : to_json(posted_of(done)); }

std::string to_table(const StepDone& done, const TableStyle& style) {
    TableLayout table(*style.book);
    if (done.step == IncidentStep::noticed)
        add_notice(table, done);
    else
        add_step(table, done, style);
    return render(table, style) + (done.answer ? to_table(*done.answer, style) : "");
}

std::string to_json(const ReportDone& done) { return to_json(done.answer); }

std::string to_table(const ReportDone& done, const TableStyle& style) {
    const Entry& entry = done.posted.what.entries.front();
    TableLayout table(*style.book);
    table.text(done.posted.dry_run ? words::nothing_written()
                                   : words::report_posted(std::get<Report>(entry.fact).recipient, entry.number));
    table.blank();
    return render(table, style) + to_report(done.answer, style);
}

std::string to_json(const AnswerDone& done) { return to_json(done.draft, done.posted); }

std::string to_table(const AnswerDone& done, const TableStyle& style) {
    return to_table(done.draft, done.posted, style);
}

std::string to_json(const ImportDone& done) {
    return to_json(done.report, done.dry_run, done.found ? &*done.found : nullptr);
}

std::string to_table(const ImportDone& done, const TableStyle& style) {
    std::string out = to_table(done.report, style, done.dry_run);
    if (!done.found) return out;
    TableLayout table(*style.book);
    table.blank();
    for (const auto& step : done.next_steps) table.text(step);
    return out + "\n" + to_short_table(*done.found, style) + render(table, style);
}

}  // namespace coldtally
