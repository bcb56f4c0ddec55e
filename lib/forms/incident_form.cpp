#include "forms/incident_form.hpp"

#include <algorithm>

#include "forms/rules_form.hpp"
#include "incidents/incident_report.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"

namespace coldtally {

using namespace forms;
using Paint = TableLayout::Paint;

void forms::add_heading(TableLayout& table, const Remark& heading) {
    table.blank();
    table.text(heading, 0, 0, Paint::bold);
}

namespace {

Json step_json(const IncidentAnswer::Step& s) {
    return {{"entry", s.entry},
            {"at", s.at.text()},
            {"by", s.by},
            {"step", incident_step_name(s.step)},
            {"text", s.text},
            {"place", json_or_null(s.place)},
            {"note", json_or_null(s.note)}};
}

}  // namespace

Json forms::duty_json(const DutyClock& d) {
    Json out{{"step", duty_step_name(d.step)}};
    out["who"] = english().say(answers::who_words(d).value_or(Field()));
    out["since"] = json_or_null(d.since);
    out["due"] = json_or_null(d.due);
    out["done"] = json_or_null(d.done);
    out["state"] = duty_state_name(d.state);
    set_remarks(out, "since_done", d.since_done);
    set_remarks(out, "beside", d.beside);
    return out;
}

std::string to_json(const IncidentAnswer& a) {
    Json out = json_head(a.head);
    out["incident"] = a.incident;
    out["maker"] = json_or_null(a.maker);
    out["noticed"] = json_or_null(a.noticed);
    out["closed"] = json_or_null(a.closed);
    out["steps"] = list_json(a.steps, step_json);
    out["units"] = list_json(a.units, unit_json);
    out["rules_entry"] = json_or_null(a.rules_entry);
    out["findings"] = list_json(a.findings, finding_json);
    out["counted"] = a.counted;
    out["lines"] = list_json(a.lines, line_json);
    out["patients"] = a.patients;
    out["given"] = list_json(a.given, given_json);
    out["left"] = list_json(a.left, left_json);
    out["now"] = list_json(a.now, now_json);
    set_remarks(out, "moved", a.moved);
    out["makers"] = list_json(a.makers, asked_json);
    out["reports"] = list_json(a.reports, sent_json);
    out["duties"] = list_json(a.duties, duty_json);
    out["holds"] = list_json(a.holds, held_json);
    set_remarks(out, "against_release", a.against_release);
    out["release_from"] = json_or_null(a.release_from);
    out["release_until"] = json_or_null(a.release_until);
    out["told"] = list_json(a.told, told_json);
    set_remarks(out, "missing", a.missing);
    out["caution"] = cautions({words::caution, words::caution_review});
    return json_line(out);
}

namespace {

void add_happened(TableLayout& table, const IncidentAnswer& a, const TableStyle& style) {
    add_heading(table, words::heading_happened);
    for (const auto& s : a.steps) {
        table.text(words::step_line(style.zone.local_text(s.at), step_words(s.step), s.by,
                                    step_text_words(s.text, style.zone)),
                   2, 2);
        if (s.note) table.text(words::note(*s.note), 4, 2);
    }
    for (const auto& m : a.moved) table.text(words::moved_line(m), 2, 2);
}

void add_missing(TableLayout& table, const IncidentAnswer& a) {
    add_heading(table, words::heading_lacks);
    std::vector<Remark> said;  // of two holdings in one place the same can be lacking
    for (const auto& m : a.missing)
        if (std::ranges::find(said, m) == said.end()) {
            table.text(m, 2, 2);
            said.push_back(m);
        }
}

std::string incident_table(const IncidentAnswer& a, const TableStyle& style, bool to_do) {
    TableLayout table(*style.book, vaccine_columns());
    add_head(table, a.head,
             a.maker ? words::incident_title_maker(a.incident, *a.maker) : words::incident_named(a.incident), style);
    add_in_short(table, a, style);
    if (to_do) add_duties(table, a, style);
    add_happened(table, a, style);
    add_units(table, a, style);
    add_conditions(table, a, style);
    add_vaccine(table, a);
    add_given(table, a, style);
    add_left(table, a, style);
    add_now(table, a, style);
    add_holds(table, a, style);
    add_makers(table, a);
    add_reports(table, a, style);
    add_figures(table, a);
    add_missing(table, a);
    add_caution(table, words::caution_review());
    return render(table, style);
}

}  // namespace

std::string to_table(const IncidentAnswer& a, const TableStyle& style) { return incident_table(a, style, true); }

std::string to_report(const IncidentAnswer& a, const TableStyle& style) { return incident_table(a, style, false); }

}  // namespace coldtally
