#include <algorithm>

#include "conditions/display_memory.hpp"
#include "conditions/incidents.hpp"
#include "conditions/rule_times.hpp"
#include "conditions/time_in_doubt.hpp"
#include "incidents/began.hpp"
#include "incidents/investigation.hpp"
#include "trace/calibration.hpp"
#include "words/general.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

namespace {

std::vector<IncidentAnswer::Device> devices(World& w, const std::string& place, std::int64_t from, std::int64_t until) {
    std::vector<IncidentAnswer::Device> out;
    for (const auto& a : w.engine.assignments()) {
        if (a.place != place || a.until <= from || a.from > until || a.from == a.until) continue;
        if (std::any_of(out.begin(), out.end(), [&](const auto& d) { return d.probe == a.probe; })) continue;
        const Probe& probe = *w.known.probe(a.probe);
        IncidentAnswer::Device d{a.probe, probe.serial, {}, {}, {}};
        if (const Certificate* c = trace::Calibration(w.known, a.probe).at(std::max(from, a.from))) {
            d.certificate = c->number;
            d.certified_until = c->expires;
            if (c->tolerance) d.tolerance = c->tolerance->text() + " °" + scale_letter(probe.scale);
        }
        out.push_back(std::move(d));
    }
    return out;
}

/// Its places: that its steps name, and those of its excursions; where no step names one, all in which there ever were
/// doses.
std::set<std::string> places_of(const World& w, const IncidentsAnswer::Row& own) {
    std::set<std::string> out(own.places.begin(), own.places.end());
    for (const auto& e : own.excursions) out.insert(e.place);
    if (own.places.empty())
        for (const auto& [id, definitions] : w.known.places)
            if (!definitions.empty() && !w.store.lots_in_place(id).empty()) out.insert(id);
    return out;
}

/// What there was in this place before it was noticed.
void add_earlier(const Investigation& i, const IncidentsAnswer& all, IncidentAnswer::Unit& u) {
    for (const auto& e : all.without_incident)
        u.earlier_excursions += e.place == u.place && e.until_s < Rational(i.since);
    for (const auto& row : all.incidents) {
        const bool here = row.places.empty() || std::count(row.places.begin(), row.places.end(), u.place) > 0;
        if (row.incident != i.out.incident && here && row.noticed && row.noticed->seconds_since_1970() < i.since)
            u.earlier_incidents.push_back(row.incident);
    }
}

/// The times in doubt, where there are several, and what ended the excursions where nothing was read in range since the
/// notice.
void add_times(const World& w, const std::vector<Stretch>& doubt, IncidentAnswer::Unit& u) {
    const auto local = [&](std::int64_t t) { return w.known.zone().local_text(Instant(t)); };
    std::vector<Remark> parts;
    for (const Stretch& s : doubt)
        parts.push_back(s.back_in_range
                               ? words::in_doubt_part(local(s.window.from), local(s.window.until))
                               : words::in_doubt_part_not_over(local(s.window.from), local(s.window.until)));
    if (parts.size() > 1) u.beside.push_back(words::in_doubt_in_parts(*words::semicolons(parts)));
    const Stretch& last = doubt.back();
    if (last.after_excursions && !last.back_in_range)
        u.beside.push_back(words::not_read_since_notice(local(last.after_excursions->at)));
}

IncidentAnswer::Unit unit(Investigation& i, const std::string& id, const IncidentsAnswer::Row& own) {
    const Place& place = i.w.place(id);
    IncidentAnswer::Unit u;
    u.place = id;
    u.name = place.name;
    u.type = place.type;
    for (const auto& e : own.excursions)
        if (e.place == id) u.excursions.push_back(e);
    const std::vector<Stretch> doubt = time_in_doubt(i.w, id, u.excursions, i.span.noticed_in(id));
    if (const auto& first = doubt.front().last_good) {
        u.last_good = Instant(first->at);
        u.last_good_C = first->celsius;
    }
    if (const auto& last = doubt.back().back_in_range) u.back_in_range = Instant(last->at);
    add_times(i.w, doubt, u);
    const exposure::LimitsOf limits(place.range);
    auto& times = i.windows[id];
    for (const Stretch& s : doubt) {
        const Window& window = s.window;
        std::int64_t begun = may_have_begun(i.w, limits, id, window.from);
        if (!times.empty()) begun = std::max(begun, times.back().until);
        u.exposure.add(i.w.engine.over_range(place.range, id, begun, window.until, window.until == i.w.at));
        times.push_back(window);
    }
    i.begins = std::min(i.begins, times.front().from);
    u.devices = devices(i.w, id, times.front().from, times.back().until);
    return u;
}

/// Were doses of the incident's lots in the place before the instant?
bool were_here_before(const Investigation& i, const std::string& place, std::int64_t instant) {
    for (const auto& lot : i.w.store.lots_in_place(place)) {
        if (!i.lots.contains({lot.product, lot.number})) continue;
        std::set<std::int64_t> here;
        for (const auto& h : i.w.store.holdings(lot.lot))
            if (h.place == place) here.insert(h.holding);
        if (std::ranges::any_of(i.w.store.movements(lot.lot), [&](const auto& m) {
                return m.at < instant && i.w.known.is_known(m.entry) && here.contains(m.target);
            }))
            return true;
    }
    return false;
}

void keep_surer(RuleFinding::Level& into, const RuleFinding::Level& other) {
    into.met = into.met || other.met;
    if (other.first_s && (!into.first_s || *other.first_s < *into.first_s)) into.first_s = other.first_s;
    into.most = std::max(into.most, other.most);
}

/// The conditions in all of these times, each once: met where it was met in one of them.
std::vector<RuleFinding> findings_in(World& w, const ProgrammeRules& rules, const std::string& place,
                                     const std::vector<Window>& times) {
    std::int64_t looks_back = 0;
    for (const auto& r : rules.report) looks_back = std::max(looks_back, r.within ? r.within->seconds() : 0);
    std::vector<Window> apart;  // what a condition looks back over is not asked about twice
    for (const Window& t : times) {
        if (!apart.empty() && t.from - looks_back <= apart.back().until)
            apart.back().until = t.until, apart.back().with_end = t.with_end;
        else
            apart.push_back(t);
    }
    std::vector<RuleFinding> out;
    for (const Window& t : apart) {
        auto found = rule_findings(w, rules, place, t);
        if (out.empty()) {
            out = std::move(found);
            continue;
        }
        for (std::size_t k = 0; k < out.size(); ++k) {  // the same conditions, in the same order
            using Level = RuleFinding::Level RuleFinding::*;
            for (const Level level : {&RuleFinding::at_least, &RuleFinding::estimate, &RuleFinding::at_most,
                                      &RuleFinding::with_unknown})
                keep_surer(out[k].*level, found[k].*level);
            out[k].unknown_s += found[k].unknown_s;
            out[k].checked_s += found[k].checked_s;
        }
    }
    return out;
}

}  // namespace

void add_units(Investigation& i) {
    const auto all = incidents(i.w, std::nullopt, std::nullopt, Instant(0), i.w.head.at);
    const auto own = std::ranges::find(all.incidents, i.out.incident, &IncidentsAnswer::Row::incident);
    for (const auto& id : places_of(i.w, *own)) {
        IncidentAnswer::Unit u = unit(i, id, *own);
        add_earlier(i, all, u);
        i.out.units.push_back(std::move(u));
    }
}

void add_conditions(Investigation& i) {
    const auto* rules = i.w.known.rules();
    if (!rules) return;
    i.out.rules_entry = rules->entry;
    for (const auto& u : i.out.units)
        if (auto none = no_condition_for(rules->fact, u.type))
            i.out.not_judged.push_back(words::colon(u.place, std::move(*none)));
    for (const auto& [place, times] : i.windows)
        for (auto& f : findings_in(i.w, rules->fact, place, times)) i.out.findings.push_back(std::move(f));
}

/// What the display of a place showed at its first check, where the doubt or the doses were there before it.
void add_displays(Investigation& i) {
    for (auto& u : i.out.units) {
        const FirstDisplay* d = first_display(i.w, u.place);
        if (!d) continue;
        if (i.windows.at(u.place).front().from >= d->at && !were_here_before(i, u.place, d->at)) continue;
        if (auto said = shown_out(i.w, u.place)) u.beside.push_back(std::move(*said));
    }
}

}  // namespace coldtally::answers
