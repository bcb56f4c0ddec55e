#include "upkeep/today.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "conditions/incidents.hpp"
#include "conditions/rule_times.hpp"
#include "exposure/limits.hpp"
#include "incidents/incident_report.hpp"
#include "stock/lists.hpp"
#include "upkeep/check_days.hpp"
#include "upkeep/readiness.hpp"

namespace coldtally {

Doses TodayAnswer::DosesIn::not_to_use() const { return discard + quarantine + held + in_doubt; }
Doses TodayAnswer::DosesIn::all() const { return not_to_use() + warned + nothing_found; }

std::string_view asked_state_name(TodayAnswer::Checks::AskedCheck::State state) noexcept {
    using State = TodayAnswer::Checks::AskedCheck::State;
    return state == State::made ? "made" : state == State::missed ? "missed" : "to make";
}

namespace answers {

namespace {

using Unit = TodayAnswer::Unit;

bool is_vial(const Note& note) { return note.kind == Note::Kind::vial; }

bool is_warned(const Judged& row) {
    return !do_not_use(row.list, row.in_doubt, row.beside) &&
           (!row.beside.empty() || std::ranges::any_of(row.told, is_vial));
}

Doses& count_of(TodayAnswer::DosesIn& in, const Judged& row) {
    if (row.list == List::discard) return in.discard;
    if (row.list == List::quarantine) return row.reasons == std::vector{Reason::held} ? in.held : in.quarantine;
    if (do_not_use(row.list, row.in_doubt, row.beside)) return in.in_doubt;
    return is_warned(row) ? in.warned : in.nothing_found;
}

void add_doses(TodayAnswer& out, const std::vector<Judged>& rows) {
    std::map<std::string, TodayAnswer::DosesIn> places;
    for (const auto& row : rows) {
        auto& in = places[row.holding.place];
        in.place = row.holding.place;
        Doses& count = count_of(in, row);
        count = count + row.doses;
    }
    for (auto& [place, in] : places) out.doses.push_back(std::move(in));
}

void add_use(TodayAnswer& out, const std::vector<Judged>& rows) {
    for (const auto& row : rows) {
        if (row.list == List::discard) continue;
        for (const auto& note : row.told)
            if (is_vial(note)) out.vials.push_back({row.holding, note.said});
        if (row.last_use.until <= out.use_until)
            out.use.push_back({row.holding, row.doses, row.last_use, row.list, row.in_doubt, row.beside,
                               row.opened, is_warned(row)});
    }
    std::ranges::sort(out.vials, {}, &TodayAnswer::Vial::holding);
    std::ranges::sort(out.use, {}, [](const TodayAnswer::Use& u) {
        return std::tuple(u.last_use.until, !u.opened, u.holding);
    });
}

/// Of a place in use.
Unit unit_of(World& w, const std::string& id) {
    const Place& place = w.place(id);
    Unit out;
    out.place = id;
    out.range = place.range;
    out.silent_after = w.engine.trace_of(id).checks().empty()
                           ? place.max_gap.value_or(Place::usual_max_gap)
                           : place.max_check_gap.value_or(Place::usual_max_check_gap);
    out.silent = true;
    const auto last = last_read(w, id);
    if (!last) return out;
    out.last = Instant(last->at);
    out.last_C = Temperature(last->scale, last->value).celsius();
    out.silent = w.at - last->at > out.silent_after.seconds();
    const exposure::LimitsOf limits(place.range);
    const auto& in = limits.in(last->scale);
    const auto degrees = exposure::ticks(last->value);
    if (in.is_warm(degrees)) out.out = Side::warm;
    if (in.is_cold(degrees)) out.out = Side::cold;
    return out;
}

void add_units(World& w, TodayAnswer& out, const std::vector<std::string>& in_use) {
    for (const auto& place : in_use) {
        Unit unit = unit_of(w, place);
        const auto doses = std::ranges::find(out.doses, place, &TodayAnswer::DosesIn::place);
        if (doses != out.doses.end()) unit.doses = doses->all();
        out.units.push_back(std::move(unit));
    }
    std::ranges::sort(out.units, {}, [](const Unit& u) {
        return std::tuple(!u.out.has_value(), !u.silent, u.last, u.place);
    });
}

void add_incidents(World& w, TodayAnswer& out) {
    out.excursions_from = w.head.at - usual_window;
    const auto all = incidents(w, std::nullopt, std::nullopt, out.excursions_from, w.head.at);
    out.without_incident = all.without_incident;
    for (const auto& row : all.incidents) {
        if (!row.open) continue;
        const auto whole = incident(w, row.incident, std::nullopt);
        TodayAnswer::Incident one{row.incident, row.since, row.places, {}, 0, whole.counted};
        for (const auto& duty : whole.duties)
            if (!duty.done) one.duties.push_back(duty);
        one.untold = std::ranges::count_if(whole.left, [](const auto& left) { return !left.told; });
        out.incidents.push_back(std::move(one));
    }
}

/// The time within today in which a place was in use.
using Times = std::vector<std::pair<std::int64_t, std::int64_t>>;

void add_asked(World& w, const ProgrammeRules::Checks& rule, const Times& in_use, const TodayAnswer& today,
               TodayAnswer::Checks& out) {
    using State = TodayAnswer::Checks::AskedCheck::State;
    const CheckDays days(w, rule, out.place, w.at);
    const auto [begins, ends] = day_of(w.known.zone(), today.day);
    for (const auto& one : days.asked(today.day)) {
        const bool past = one.deadline <= w.at;
        // as readiness has it: of a check whose time is over, the place was in use from the beginning of the day
        if (past && std::ranges::none_of(in_use, [&, from = begins](const auto& t) {
                return t.first <= from && one.deadline <= t.second;
            }))
            continue;
        const bool unfinished = rule.min_max && !one.made && days.count(one.after, one.by, false) > 0;
        out.asked.push_back({Instant(one.deadline), one.made ? State::made : past ? State::missed : State::to_make,
                             rule.min_max, unfinished});
    }
}

void add_checks(World& w, TodayAnswer& out, const std::map<std::string, Times>& in_use) {
    const auto [begins, ends] = day_of(w.known.zone(), out.day);
    const auto* rules = w.known.rules();
    for (const auto& [place, times] : in_use) {
        TodayAnswer::Checks checks;
        checks.place = place;
        checks.judged = false;
        for (const auto& row : w.store.checks(place, begins))
            if (row.at <= w.at && w.known.is_known(row.entry))
                checks.made.push_back({Instant(row.at), row.lowest.has_value()});
        if (rules)
            for (const auto& rule : rules->fact.checks) {
                if (!is_for(rule.places, w.place(place).type)) continue;
                checks.judged = true;
                add_asked(w, rule, times, out, checks);
            }
        std::ranges::stable_sort(checks.asked, {}, &TodayAnswer::Checks::AskedCheck::by);
        out.checks.push_back(std::move(checks));
    }
}

/// What papers and devices have due, by readiness itself.
void add_due(World& w, TodayAnswer& out) {
    ReadinessAnswer found;
    found.head = w.head;
    found.from = w.head.at - Duration(TodayAnswer::soon_days * 86400);
    Inspection inspection(w, found);
    for (const auto inspect : {inspect_devices, inspect_counts, inspect_plan, inspect_training, inspect_loans,
                               inspect_unrecorded})
        inspect(inspection);
    sort_findings(found.findings);
    out.due = std::move(found.findings);
    out.topics = std::move(found.topics);
}

/// Places in use at the instant, with when they were today.
std::map<std::string, Times> in_use_now(World& w, const TodayAnswer& out) {
    ReadinessAnswer day;
    // a place that comes into use in this very second is in use, and so is one at the day's first instant
    day.from = std::min(Instant(day_of(w.known.zone(), out.day).first), w.head.at - Duration(1));
    Inspection inspection(w, day);
    std::map<std::string, Times> in_use;
    for (const auto& [place, definitions] : w.known.places) {
        if (definitions.empty()) continue;
        const auto doses = std::ranges::find(out.doses, place, &TodayAnswer::DosesIn::place);
        auto times = inspection.in_use(place);
        if (doses != out.doses.end() || (!times.empty() && times.back().second == w.at))
            in_use.emplace(place, std::move(times));
    }
    return in_use;
}

}  // namespace

TodayAnswer today(World& w) {
    TodayAnswer out;
    out.head = w.head;
    out.day = w.known.zone().local(w.head.at).date;
    out.use_until = w.head.at + Duration(TodayAnswer::soon_days * 86400);
    const auto rows = listed(w, w.lots_with_doses());
    add_doses(out, rows);
    add_use(out, rows);
    const auto in_use = in_use_now(w, out);
    std::vector<std::string> places;
    for (const auto& [place, times] : in_use) places.push_back(place);
    add_units(w, out, places);
    add_incidents(w, out);
    add_checks(w, out, in_use);
    add_due(w, out);
    return out;
}

}  // namespace answers
}  // namespace coldtally
