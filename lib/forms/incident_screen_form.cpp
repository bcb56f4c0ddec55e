// The first screen of an incident: what it is, what must not be used, what is to be done by when.
#include <algorithm>
#include <map>

#include "forms/incident_form.hpp"
#include "forms/incidents_form.hpp"
#include "incidents/incident_report.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"
#include "words/rules.hpp"
#include "words/stock.hpp"

namespace coldtally::forms {

using Paint = TableLayout::Paint;

namespace {

Paint paint_of(DutyClock::State s) {
    switch (s) {
        case DutyClock::State::overdue: return Paint::stop;
        case DutyClock::State::due:
        case DutyClock::State::no_limit: return Paint::wait;
        default: return Paint::plain;
    }
}

bool is_done(const DutyClock& d) { return d.state == DutyClock::State::done || d.state == DutyClock::State::done_late; }

/// "manufacturer told (M Works)", "answer of M Works"; where another answered, "answer for va lot A1".
Remark duty_of(const DutyClock& d) {
    if (is_done(d) && !d.beside.empty()) {
        std::vector<Field> lots;
        for (const auto& one : d.beside) lots.push_back(one.fields.front());
        return words::answer_for(words::listed(lots));
    }
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

/// What was out of range when, of one unit.
void add_unit_in_short(TableLayout& table, const IncidentAnswer::Unit& u, const TableStyle& style) {
    if (u.excursions.empty()) {
        const auto out = out_of_range_words(u.exposure);
        table.text(words::colon(u.place, out ? words::out_in_all(*out) : words::out_in_all_not_known()), 2, 2);
    } else if (u.excursions.size() > 1) {
        const ExcursionsInShort s = coldtally::in_short(u.excursions);
        table.text(words::colon(u.place, words::excursions(s.count)), 2, 2);
        table.text(words::the_longest(excursion_words(*s.longest, style)), 4, 2);
    } else {
        table.text(excursion_words(u.excursions.front(), style), 2, 2);
    }
    for (const auto& what : u.beside) table.text(what, 4, 2, Paint::wait);
    table.text(u.back_in_range ? words::back_in_range(style.zone.local_text(*u.back_in_range))
                               : words::back_in_range_not_known(),
               4, 2, u.back_in_range ? Paint::plain : Paint::stop);
}

/// Which of the programme's conditions were met, or may have been.
void add_conditions_in_short(TableLayout& table, const IncidentAnswer& a) {
    using State = RuleFinding::State;
    std::vector<Field> met, perhaps;
    for (const auto& f : a.findings) {
        const Field one = words::in_brackets(f.rule, f.place);
        if (f.estimate.met)
            met.push_back(one);
        else if (f.state() != State::not_met)
            perhaps.push_back(one);
    }
    if (!met.empty()) table.text(words::conditions_met(words::listed(met)), 2, 2, Paint::stop);
    if (!perhaps.empty()) table.text(words::conditions_not_sure(words::listed(perhaps)), 2, 2, Paint::wait);
    if (!a.rules_entry) table.text(words::no_rules_here(), 2, 2);
    for (const auto& none : a.not_judged) table.text(none, 2, 2, Paint::wait);
}

/// How many of its doses are here, and may not be used; how many were given, and left.
void add_doses_in_short(TableLayout& table, const IncidentAnswer& a) {
    std::map<List, std::int64_t> doses;
    std::int64_t in_doubt = 0, warned = 0, given = 0, left = 0;
    for (const auto& row : a.now) {
        const bool doubt = row.list == List::keep && do_not_use(row.list, row.in_doubt, row.beside);
        (doubt ? in_doubt : doses[row.list]) += row.doses.count();
        if (row.list == List::keep && !doubt && !row.beside.empty()) warned += row.doses.count();
    }
    for (const auto& row : a.given) given += row.doses.count();
    for (const auto& one : a.left)
        if (!one.told) left += one.doses.count();
    std::vector<Field> kept_from_use;
    if (doses[List::discard] > 0) kept_from_use.emplace_back(words::doses_to_discard(doses[List::discard]));
    if (doses[List::quarantine] > 0) kept_from_use.emplace_back(words::doses_in_quarantine(doses[List::quarantine]));
    if (in_doubt > 0) kept_from_use.emplace_back(words::doses_in_doubt(in_doubt));
    if (!kept_from_use.empty())
        table.text(words::its_doses_not_to_use(words::listed(kept_from_use)), 2, 2, Paint::stop);
    if (doses[List::keep] > 0)
        table.text(warned > 0 ? words::its_doses_on_keep_warned(words::doses(doses[List::keep]), warned)
                              : words::its_doses_on_keep(words::doses(doses[List::keep])),
                   2, 2);
    if (a.now.empty()) table.text(words::its_doses_are_gone(), 2, 2);
    if (given > 0) table.text(words::its_doses_given(words::doses(given), words::patients(a.patients)), 2, 2);
    if (left > 0) table.text(words::its_doses_left(left), 2, 2, Paint::stop);
}

}  // namespace

void add_in_short(TableLayout& table, const IncidentAnswer& a, const TableStyle& style) {
    std::vector<Field> places;
    for (const auto& u : a.units) places.emplace_back(u.place);
    const Remark noticed = a.noticed ? words::noticed_at(style.zone.local_text(*a.noticed)) : words::not_noticed();
    const Remark closed = a.closed ? words::closed_at(style.zone.local_text(*a.closed)) : words::is_open();
    table.blank();
    const Remark since = words::comma(noticed, closed);
    table.text(places.empty() ? since : words::colon(words::listed(places), since), 0, 2, Paint::bold);
    for (const auto& u : a.units) add_unit_in_short(table, u, style);
    if (a.unread_s.sign() > 0) table.text(words::not_yet_read(duration_words(a.unread_s, true)), 2, 2, Paint::wait);
    add_conditions_in_short(table, a);
    add_doses_in_short(table, a);
}

void add_duties(TableLayout& table, const IncidentAnswer& a, const TableStyle& style) {
    add_heading(table, words::heading_duties);
    std::int64_t done = 0;
    for (const auto& d : a.duties) {
        if (is_done(d) && d.since_done.empty() && d.beside.empty()) {
            ++done;
            continue;
        }
        table.text(clock_words(d, a.head, style.zone), 2, 2, paint_of(d.state));
        for (const auto& what : d.beside) table.text(what, 6, 2, Paint::wait);
        for (const auto& what : d.since_done) table.text(words::since_then(what), 6, 2, Paint::wait);
    }
    if (!a.counted) table.text(words::doses_not_counted(), 2, 2, Paint::wait);
    if (done > 0) table.text(words::duties_done(done), 2, 2);
}

}  // namespace coldtally::forms
