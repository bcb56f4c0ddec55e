// Today as JSON and as a table: one screen. What does not fit is told by its number, with the command that has it.
#include <algorithm>
#include <map>
#include <set>

#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"
#include "forms/incident_form.hpp"
#include "forms/incidents_form.hpp"
#include "forms/readiness_form.hpp"
#include "forms/table.hpp"
#include "stock/last_use.hpp"
#include "upkeep/check_days.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"
#include "words/today.hpp"
#include "words/upkeep.hpp"

namespace coldtally {

using namespace forms;
using answers::clock_text;
using Kind = TableLayout::Column::Kind;
using Paint = TableLayout::Paint;
using Matter = ReadinessAnswer::Matter;

namespace {

/// What of one thing a screen shows; the rest is told by its number. A choice of ours.
constexpr std::size_t most_places = 10, most_units = 8, most_use = 6, most_duties = 4,
                      most_excursions = 4;

Json checks_json(const TodayAnswer::Checks& c) {
    return {{"place", c.place},
            {"judged", c.judged},
            {"made", list_json(c.made,
                               [](const auto& m) {
                                   return Json{{"at", m.at.text()}, {"min_max", m.min_max}};
                               })},
            {"asked", list_json(c.asked, [](const auto& one) {
                 return Json{{"by", one.by.text()},
                             {"state", asked_state_name(one.state)},
                             {"min_max", one.min_max},
                             {"unfinished", one.unfinished}};
             })}};
}

Json doses_json(const TodayAnswer::DosesIn& d) {
    return {{"place", d.place},
            {"discard", d.discard.count()},
            {"quarantine", d.quarantine.count()},
            {"held", d.held.count()},
            {"in_doubt", d.in_doubt.count()},
            {"warned", d.warned.count()},
            {"nothing_found", d.nothing_found.count()}};
}

Json place_in_use_json(const TodayAnswer::Unit& u) {
    return {{"place", u.place},
            {"last", json_or_null(u.last)},
            {"last_C", json_or_null(u.last_C)},
            {"out", u.out ? Json(side_name(*u.out)) : Json(nullptr)},
            {"silent", u.silent},
            {"silent_after_s", u.silent_after.seconds()},
            {"doses", u.doses.count()}};
}

Json use_json(const TodayAnswer::Use& u) {
    Json out = holding_json(u.holding);
    out["doses"] = u.doses.count();
    out["last_use"] = last_use_json(u.last_use);
    out["list"] = list_name(u.list);
    out["do_not_use"] = do_not_use(u.list, u.in_doubt, u.beside);
    out["in_doubt"] = Json(u.in_doubt);
    out["opened"] = u.opened;
    out["warned"] = u.warned;
    return out;
}

std::vector<Matter> not_judged(const TodayAnswer& a) {
    std::vector<Matter> out;
    for (const auto& t : a.topics)
        if (!t.judged) out.push_back(t.topic);
    return out;
}

std::vector<Remark> not_looked_at() {
    return {words::today_not_given(words::task("review"), words::task("follow_up")),
            words::today_not_record(words::task("readiness"))};
}

}  // namespace

std::string to_json(const TodayAnswer& a) {
    Json out = json_head(a.head);
    out["day"] = a.day.text();
    out["doses"] = list_json(a.doses, doses_json);
    out["units"] = list_json(a.units, place_in_use_json);
    out["incidents"] = list_json(a.incidents, [](const TodayAnswer::Incident& i) {
        return Json{{"incident", i.incident},
                    {"since", i.since.text()},
                    {"places", i.places},
                    {"duties", list_json(i.duties, duty_json)},
                    {"untold", i.untold},
                    {"counted", i.counted}};
    });
    out["excursions_from"] = a.excursions_from.text();
    out["without_incident"] = list_json(a.without_incident, excursion_json);
    out["use_until"] = a.use_until.text();
    out["use"] = list_json(a.use, use_json);
    out["vials"] = list_json(a.vials, [](const TodayAnswer::Vial& v) {
        Json one = holding_json(v.holding);
        set_remark(one, "text", v.text);
        return one;
    });
    out["checks"] = list_json(a.checks, checks_json);
    out["due"] = list_json(a.due, finding_json);
    out["topics"] = list_json(a.topics, topic_json);
    out["not_judged"] = list_json(not_judged(a), matter_name);
    set_remarks(out, "not_looked_at", not_looked_at());
    out["caution"] = cautions({words::today_no_clearance(), words::caution});
    return json_line(out);
}

namespace {

/// "08:02" of the site's clock.
std::string clock_of(Instant t, const Zone& zone) { return clock_text(zone.local(t).second_of_day); }

void add_doses(TableLayout& table, const TodayAnswer& a) {
    std::int64_t all = 0, bad = 0, warned = 0;
    for (const auto& d : a.doses) all += d.all().count(), bad += d.not_to_use().count(), warned += d.warned.count();
    if (all == 0)
        table.text(words::today_no_doses(), 0, 2);
    else if (bad == 0)
        table.text(words::today_none_not_to_use(all, words::task("lists")), 0, 2);
    else
        table.text(warned > 0 ? words::today_do_not_use_warned(bad, all, warned, words::task("lists"))
                              : words::today_do_not_use(bad, all, words::task("lists")),
                   0, 2, Paint::stop);
    if (bad == 0 && warned > 0) table.text(words::today_warned(warned), 2, 2, Paint::stop);
    if (bad == 0) return;
    table.titles();
    // the worst first where not all fit; what is left out stands in the last line, added up
    auto rows = a.doses;
    if (rows.size() > most_places)
        std::ranges::stable_sort(rows, std::greater(), &TodayAnswer::DosesIn::not_to_use);
    const auto number = [](Doses d) { return d.count() == 0 ? Field() : Field(d.count()); };
    const auto add = [&](const Field& name, const TodayAnswer::DosesIn& d) {
        table.row({name, number(d.discard), number(d.quarantine), number(d.held), number(d.in_doubt),
                   number(d.warned), number(d.nothing_found)});
    };
    const std::size_t shown = rows.size() > most_places ? most_places - 1 : rows.size();
    for (std::size_t i = 0; i < shown; ++i) add(rows[i].place, rows[i]);
    TodayAnswer::DosesIn rest;
    for (std::size_t i = shown; i < rows.size(); ++i) {
        const auto& d = rows[i];
        rest.discard = rest.discard + d.discard;
        rest.quarantine = rest.quarantine + d.quarantine;
        rest.held = rest.held + d.held;
        rest.in_doubt = rest.in_doubt + d.in_doubt;
        rest.warned = rest.warned + d.warned;
        rest.nothing_found = rest.nothing_found + d.nothing_found;
    }
    if (shown < rows.size()) add(words::more_places(rows.size() - shown), rest);
}

/// Never nearer to the middle of the range than it is.
Field degrees_words(const TodayAnswer::Unit& u, Scale scale) {
    const bool low = u.range.low.has_value(), high = u.range.high.has_value();
    bool up = high;
    if (low && high) {
        const Rational middle = (u.range.low->in(Scale::C) + u.range.high->in(Scale::C)) / Rational(2);
        up = *u.last_C > middle;
    }
    return temperature_words(*u.last_C, scale, up ? Rounding::up : Rounding::down);
}

void add_units(TableLayout& table, const TodayAnswer& a, const TableStyle& style) {
    const auto wrong = std::ranges::count_if(a.units, [](const auto& u) { return u.out || u.silent; });
    if (a.units.empty()) return table.text(words::today_no_units(), 0, 2, Paint::wait);
    if (wrong > 0)
        table.text(words::today_units_wrong(wrong, a.units.size()), 0, 2, Paint::stop);
    else
        table.text(words::today_units_none(a.units.size()), 0, 2);
    std::vector<Field> in_range, never;
    std::size_t more = 0;
    std::map<Instant, std::vector<Field>> silent;
    const auto ago = [&](Instant t) { return duration_words(Rational((a.head.at - t).seconds()), true); };
    for (const auto& u : a.units) {
        if (u.out)
            table.text((u.silent ? words::unit_out_silent : words::unit_out)(
                           u.place, side_words(*u.out), degrees_words(u, style.scale), ago(*u.last)),
                       2, 2, Paint::stop);
        else if (!u.last)
            never.emplace_back(u.place);
        else if (u.silent)
            silent[*u.last].emplace_back(u.place);
        else if (in_range.size() < most_units)
            in_range.emplace_back(words::unit_last_read(u.place, degrees_words(u, style.scale), ago(*u.last)));
        else
            ++more;
    }
    if (!never.empty()) table.text(words::units_never_read(words::listed(never)), 2, 2, Paint::stop);
    for (const auto& [since, places] : silent)
        table.text(words::units_silent(words::listed(places), ago(since), style.zone.local_text(since)), 2, 2,
                   Paint::stop);
    if (in_range.empty()) return;
    Field units = words::listed(in_range);
    if (more > 0) units = words::more_units(units, more);
    table.text(wrong > 0 ? Field(words::units_in_range(units)) : units, 2, 2);
}

/// What is past: of today the hour, else the day is enough.
std::string past_text(Instant t, Date day, const Zone& zone) {
    const Date then = zone.local(t).date;
    return then == day ? zone.local_text(t) : then.text();
}

/// Duties of one state, those of one step together: "manufacturer told (2 makers) since 2026-02-11".
std::vector<Field> duties_of(const TodayAnswer::Incident& i, DutyClock::State state, Date day, const Zone& zone) {
    using State = DutyClock::State;
    struct Step {
        DutyStep step;
        std::int64_t number = 0;
        std::optional<Instant> due;
    };
    std::vector<Step> steps;
    for (const auto& d : i.duties) {
        if (d.state != state || (state == State::no_limit && !d.since)) continue;  // an answer nobody was asked for
        auto at = std::ranges::find(steps, d.step, &Step::step);
        if (at == steps.end()) at = steps.insert(steps.end(), {d.step, 0, d.due});
        ++at->number;
    }
    std::vector<Field> out;
    for (const Step& s : steps) {
        Remark duty = duty_words(s.step);
        if (s.number > 1) duty = words::duty_times(std::move(duty), s.number);
        if (state == State::overdue)
            duty = words::duty_since(std::move(duty), past_text(*s.due, day, zone));
        else if (state == State::due)
            duty = words::duty_until(std::move(duty), zone.local_text(*s.due));
        out.emplace_back(std::move(duty));
    }
    if (out.size() > most_duties) {
        const auto more = out.size() - (most_duties - 1);
        out.resize(most_duties - 1);
        out = {words::and_more(words::listed(out), more)};
    }
    return out;
}

void add_incident(TableLayout& table, const TodayAnswer::Incident& i, Date day, const Zone& zone) {
    using State = DutyClock::State;
    std::vector<Remark> parts;
    const auto overdue = duties_of(i, State::overdue, day, zone), due = duties_of(i, State::due, day, zone),
               free = duties_of(i, State::no_limit, day, zone);
    if (!overdue.empty()) parts.push_back(words::overdue_list(words::listed(overdue)));
    if (!due.empty()) parts.push_back(words::due_list(words::listed(due)));
    if (!free.empty()) parts.push_back(words::no_time_list(words::listed(free)));
    if (parts.empty()) parts.push_back(words::nothing_due);
    if (i.untold > 0) parts.push_back(words::left_untold(i.untold));
    if (!i.counted) parts.push_back(words::doses_uncounted);
    table.text(words::colon(i.incident, *words::semicolons(parts)), 2, 2,
               overdue.empty() && i.untold == 0 ? Paint::wait : Paint::stop);
}

void add_incidents(TableLayout& table, const TodayAnswer& a, const TableStyle& style) {
    if (a.incidents.empty())
        table.text(words::today_no_incidents(), 0, 2);
    else
        table.text(words::today_incidents(a.incidents.size(), words::task("incident", {{"", "ID"}})), 0, 2,
                   Paint::stop);
    for (const auto& i : a.incidents) add_incident(table, i, a.day, style.zone);
    if (a.without_incident.empty())
        return table.text(words::today_excursions_none(style.zone.local_text(a.excursions_from)), 0, 2);
    table.text(words::today_no_incident_of(a.without_incident.size(), words::task("notice")), 0, 2, Paint::stop);
    std::map<std::string, std::vector<IncidentExcursion>> places;
    for (const auto& e : a.without_incident) places[e.place].push_back(e);
    std::vector<std::pair<std::int64_t, IncidentExcursion>> latest;  // how many, and the last to end of them
    for (const auto& [place, all] : places) latest.emplace_back(std::ssize(all), *in_short(all).latest);
    std::ranges::stable_sort(latest, std::greater(), [](const auto& one) { return one.second.until_s; });
    for (std::size_t i = 0; i < latest.size() && i < most_excursions; ++i) {
        const IncidentExcursion& e = latest[i].second;
        const Remark said = words::colon(e.place, excursion_when_words(e, style.zone));
        table.text(latest[i].first > 1 ? words::excursions_latest(latest[i].first, said) : said, 2, 2);
    }
    if (latest.size() > most_excursions) {
        std::int64_t more = 0;
        for (std::size_t i = most_excursions; i < latest.size(); ++i) more += latest[i].first;
        table.text(words::more_excursions(more, latest.size() - most_excursions, words::task("incident")), 2, 2);
    }
}

void add_use(TableLayout& table, const TodayAnswer& a, const TableStyle& style) {
    const std::string until = style.zone.local(a.use_until).date.text();
    for (std::size_t i = 0; i < a.vials.size() && i < most_use; ++i)
        table.text(words::vial_day_not_known(holding_words(a.vials[i].holding), a.vials[i].text), 0, 2, Paint::stop);
    if (a.vials.size() > most_use)
        table.text(words::more_vials(a.vials.size() - most_use, words::task("readiness")), 2, 2, Paint::stop);
    if (a.use.empty()) return table.text(words::today_use_none(until), 0, 2);
    table.text(words::today_use(until, words::holdings(a.use.size())), 0, 2, Paint::wait);
    std::size_t shown = 0;
    for (const auto& u : a.use) {
        // those of today are all there
        if (shown >= most_use && u.last_use.day > a.day) break;
        ++shown;
        std::vector<Field> marks;
        if (u.opened) marks.emplace_back(words::opened_vial());
        if (do_not_use(u.list, u.in_doubt, u.beside)) marks.emplace_back(list_cell(u.list, u.in_doubt, u.beside));
        if (u.warned) marks.emplace_back(words::with_a_warning());
        Remark what = words::comma(words::doses(u.doses.count()), holding_words(u.holding));
        if (!marks.empty()) what = words::comma(std::move(what), words::listed(marks));
        table.text(words::colon(answers::last_day_words(u.last_use.until, style.zone), std::move(what)), 2, 2,
                   u.last_use.day <= a.day ? Paint::stop : Paint::plain);
    }
    if (shown < a.use.size())
        table.text(words::more_to_use(a.use.size() - shown, until, words::task("dates")), 2, 2);
}

Remark checks_state(const TodayAnswer::Checks& c, const TodayAnswer& a, const Zone& zone) {
    using State = TodayAnswer::Checks::AskedCheck::State;
    std::vector<Field> made;
    for (const auto& m : c.made) made.emplace_back(clock_of(m.at, zone));
    Remark out = made.empty() ? words::checks_none_made() : words::checks_made_at(words::listed(made));
    if (!c.judged) return words::semicolon(std::move(out), words::checks_no_rule());
    if (c.asked.empty()) return words::semicolon(std::move(out), words::checks_none_asked());
    const auto by = [&](Instant t) {
        return zone.local(t).date == a.day ? Field(clock_of(t, zone)) : Field(words::end_of_day());
    };
    for (const State state : {State::missed, State::to_make}) {
        std::vector<Field> times;
        bool unfinished = false;
        std::int64_t number = 0;
        for (const auto& one : c.asked) {
            if (one.state != state) continue;
            ++number;
            unfinished = unfinished || one.unfinished;
            const Field time = by(one.by);
            if (std::ranges::find(times, time) == times.end()) times.push_back(time);
        }
        if (number == 0) continue;
        Remark said = (state == State::missed ? words::checks_missed : words::checks_to_make)(number,
                                                                                             words::listed(times));
        if (unfinished) said = words::checks_unfinished(std::move(said));
        out = words::semicolon(std::move(out), std::move(said));
    }
    return out;
}

void add_checks(TableLayout& table, const TodayAnswer& a, const TableStyle& style) {
    using State = TodayAnswer::Checks::AskedCheck::State;
    const auto is_open = [](const auto& one) { return one.state != State::made; };
    std::int64_t open = 0;
    bool judged = false;
    for (const auto& c : a.checks) {
        judged = judged || c.judged;
        open += std::ranges::count_if(c.asked, is_open);
    }
    // places of which the same is to be said share a line: what is still to do first, what is done last and in short
    std::vector<std::pair<std::vector<Field>, Remark>> lines;
    std::vector<Field> done;
    for (const bool with_open : {true, false})
        for (const auto& c : a.checks) {
            if (std::ranges::any_of(c.asked, is_open) != with_open) continue;
            if (!with_open && !c.asked.empty()) {
                done.emplace_back(c.place);
                continue;
            }
            const Remark state = checks_state(c, a, style.zone);
            auto at = std::ranges::find(lines, state, &std::pair<std::vector<Field>, Remark>::second);
            if (at == lines.end()) at = lines.insert(lines.end(), {{}, state});
            at->first.emplace_back(c.place);
        }
    const bool quiet = judged && open == 0;
    table.text(!judged        ? words::today_checks_not_judged()
               : open > 0     ? words::today_checks_open(open)
               : done.empty() ? words::today_checks_none()
                              : words::today_checks_done(words::listed(done)),
               0, 2, quiet ? Paint::plain : Paint::wait);
    for (const auto& [places, state] : lines) table.text(words::colon(words::listed(places), state), 2, 2);
    if (!quiet && !done.empty()) table.text(words::checks_all_made(words::listed(done)), 2, 2);
}

/// What is due of one topic, as one line; one thing alone is told whole.
Remark due_of(const std::vector<const ReadinessAnswer::Finding*>& all, Date day, const Zone& zone) {
    const Matter topic = all.front()->topic;
    const bool somewhere = topic != Matter::plan;  // what the plan lacks says itself of whom it is
    if (all.size() == 1) {
        const auto& f = *all.front();
        return somewhere && f.where != Field() ? words::colon(f.where, f.text) : f.text;
    }
    std::int64_t overdue = 0, soon = 0;
    std::optional<Instant> since, when;
    std::vector<Field> where;
    for (const auto* f : all) {
        auto& first = f->urgency == ReadinessAnswer::Urgency::soon ? when : since;
        ++(f->urgency == ReadinessAnswer::Urgency::soon ? soon : overdue);
        if (f->since && (!first || *f->since < *first)) first = f->since;
        if (somewhere && f->where != Field() && std::ranges::find(where, f->where) == where.end())
            where.push_back(f->where);
    }
    std::vector<Remark> parts;
    if (overdue > 0)
        parts.push_back(!since ? words::due_missing(overdue)
                               : (topic == Matter::plan ? words::due_of_plan : words::due_overdue)(
                                     overdue, past_text(*since, day, zone)));
    if (soon > 0) parts.push_back(words::due_soon(soon, zone.local_text(*when)));
    const Remark said = *words::semicolons(parts);
    return where.empty() ? said : words::in_brackets(said, words::listed(where));
}

void add_due(TableLayout& table, const TodayAnswer& a, const TableStyle& style) {
    const std::string until = style.zone.local(a.use_until).date.text();
    if (a.due.empty()) {
        std::vector<Field> judged;
        for (const auto& t : a.topics)
            if (t.judged) judged.emplace_back(matter_words(t.topic));
        return table.text(words::today_due_none(until, words::listed(judged)), 0, 2);
    }
    table.text(words::today_due(until, words::task("readiness")), 0, 2, Paint::wait);
    std::map<Matter, std::vector<const ReadinessAnswer::Finding*>> topics;
    for (const auto& f : a.due) topics[f.topic].push_back(&f);
    for (const auto& [topic, all] : topics)
        table.text(words::colon(matter_words(topic), due_of(all, a.day, style.zone)), 2, 2);
}

void add_end(TableLayout& table, const TodayAnswer& a, const TableStyle& style) {
    table.blank();
    table.text(words::today_looked_at(style.zone.local_text(a.excursions_from)));
    std::vector<Field> unseen, unjudged;
    for (const Remark& r : not_looked_at()) unseen.emplace_back(r);
    table.text(words::today_not_looked_at(words::listed(unseen)), 0, 0, Paint::wait);
    for (const Matter m : not_judged(a)) unjudged.emplace_back(matter_words(m));
    if (!unjudged.empty()) table.text(words::today_not_judged(words::listed(unjudged)), 0, 0, Paint::wait);
    table.text(words::today_no_clearance(), 0, 0, Paint::bold);
    table.text(words::caution());
}

}  // namespace

std::string to_table(const TodayAnswer& a, const TableStyle& style) {
    TableLayout table(*style.book, {{words::title_place()},
                                    {words::title_discard(), Kind::number},
                                    {words::title_quarantine(), Kind::number},
                                    {words::title_on_hold(), Kind::number},
                                    {words::title_in_doubt(), Kind::number},
                                    {words::title_warning(), Kind::number},
                                    {words::title_nothing_found(), Kind::number}});
    add_head(table, a.head, words::answer_today(answers::weekday_words(answers::weekday_of(a.day)), a.day.text()),
             style);
    table.blank();
    add_doses(table, a);
    add_units(table, a, style);
    add_incidents(table, a, style);
    add_use(table, a, style);
    add_checks(table, a, style);
    add_due(table, a, style);
    add_end(table, a, style);
    return render(table, style);
}

}  // namespace coldtally
