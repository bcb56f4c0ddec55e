#include "forms/incident_form.hpp"

#include "forms/rules_form.hpp"
#include "incidents/incident_report.hpp"
#include "words/incidents.hpp"

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

Json duty_json(const DutyClock& d) {
    Json out{{"step", duty_step_name(d.step)}};
    out["who"] = english().say(answers::who_words(d).value_or(Field()));
    out["since"] = json_or_null(d.since);
    out["due"] = json_or_null(d.due);
    out["done"] = json_or_null(d.done);
    out["state"] = duty_state_name(d.state);
    set_remarks(out, "since_done", d.since_done);
    return out;
}

}  // namespace

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

Paint paint_of(DutyClock::State s) {
    switch (s) {
    case DutyClock::State::overdue: return Paint::stop;
    case DutyClock::State::due:
    case DutyClock::State::no_limit: return Paint::wait;
    default: return Paint::plain;
    }
}

/// "manufacturer told (M Works)", "answer of M Works".
Remark duty_of(const DutyClock& d) {
    const Remark duty = duty_words(d.step);
    const auto who = answers::who_words(d);
    if (!who) return duty;
    if (d.step != DutyStep::answer) return words::in_brackets(duty, *who);
    return d.who.empty() ? words::answer_of_unknown_maker(d.product) : words::answer_of(*who);
}

Remark clock_words(const DutyClock& d, const AnswerHead& head, const Zone& zone) {
    const Remark duty = duty_of(d);
    const auto time = [](Duration t, bool up) { return duration_words(Rational(t.seconds()), up); };
    switch (d.state) {
    case DutyClock::State::overdue:
        return words::duty_overdue(duty, time(head.at - *d.due, true), zone.local_text(*d.due));
    case DutyClock::State::due:
        return words::duty_due(duty, zone.local_text(*d.due), time(*d.due - head.at, false));
    case DutyClock::State::no_limit: return d.since ? words::duty_not_done(duty) : words::duty_not_asked(duty);
    case DutyClock::State::done_late:
        return words::duty_done_late(duty, zone.local_text(*d.done), zone.local_text(*d.due));
    case DutyClock::State::done: break;
    }
    return words::duty_done(duty, zone.local_text(*d.done));
}

void add_duties(TableLayout& table, const IncidentAnswer& a, const TableStyle& style) {
    add_heading(table, words::heading_duties);
    for (const auto& d : a.duties) {
        table.text(clock_words(d, a.head, style.zone), 2, 2, paint_of(d.state));
        for (const auto& what : d.since_done) table.text(words::since_then(what), 6, 2, Paint::wait);
    }
    if (!a.counted) table.text(words::doses_not_counted(), 2, 2, Paint::wait);
}

void add_happened(TableLayout& table, const IncidentAnswer& a, const TableStyle& style) {
    add_heading(table, words::heading_happened);
    for (const auto& s : a.steps) {
        table.text(words::step_line(style.zone.local_text(s.at), step_words(s.step), s.by, s.text), 2, 2);
        if (s.note) table.text(words::note(*s.note), 4, 2);
    }
    for (const auto& m : a.moved) table.text(words::moved_line(m), 2, 2);
}

void add_missing(TableLayout& table, const IncidentAnswer& a) {
    add_heading(table, words::heading_lacks);
    for (const auto& m : a.missing) table.text(m, 2, 2);
}

}  // namespace

std::string to_table(const IncidentAnswer& a, const TableStyle& style) {
    TableLayout table(*style.book, vaccine_columns());
    add_head(table, a.head,
             a.maker ? words::incident_title_maker(a.incident, *a.maker) : words::incident_named(a.incident), style);
    // what must be done at once comes first, then the report as those who are told ask for it
    add_duties(table, a, style);
    add_given(table, a, style);
    add_left(table, a, style);
    add_happened(table, a, style);
    add_units(table, a, style);
    add_conditions(table, a, style);
    add_vaccine(table, a);
    add_now(table, a, style);
    add_holds(table, a, style);
    add_makers(table, a);
    add_reports(table, a, style);
    add_figures(table, a);
    add_missing(table, a);
    add_caution(table, words::caution_review());
    return render(table, style);
}

}  // namespace coldtally
