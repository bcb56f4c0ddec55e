// Readiness: incidents, the plan, training, patients, loans, and how long records must be kept.
#include <algorithm>
#include <map>

#include "conditions/incidents.hpp"
#include "incidents/follow_up.hpp"
#include "incidents/incident_report.hpp"
#include "incidents/overtaken.hpp"
#include "quantities/calendar.hpp"
#include "quantities/rounding.hpp"
#include "stock/departed.hpp"
#include "stock/loans.hpp"
#include "upkeep/plan.hpp"
#include "upkeep/readiness.hpp"
#include "upkeep/training.hpp"

namespace coldtally::answers {

namespace {

using Urgency = ReadinessAnswer::Urgency;

std::string excursion_words(const Inspection& in, const IncidentExcursion& e) {
    return "too " + std::string(side_name(e.side)) + ", " + in.local(quantities::shown_begin(e.from_s)) +
           (e.kind == ExcursionKind::point ? "" : " to " + in.local(quantities::shown_end(e.until_s)));
}

/// The same day so many years later; of 29 February the last of February.
Date years_after(Date date, std::int64_t years) {
    date.year += static_cast<int>(years);
    date.day = std::min(date.day, calendar::days_in_month(date.year, date.month));
    return date;
}

void inspect_plan(Inspection& in) {
    const auto days = in.every_days("plan review");
    const auto plan = answers::plan(in.w);
    in.topic("plan",
             std::string("the contingency plan names what a person needs at night in front of a warm refrigerator, and "
                         "is reviewed") +
                 (days ? "; reviewed " + in.every_words(*days) : "; no rule is known that says how often"),
             "plans");
    in.looked(plan.findings.empty());
    // a ledger that begins now says nothing of the time before
    for (const auto& f : plan.findings)
        in.find(Urgency::overdue, f.of, f.text, f.since < in.w.head.at ? std::optional(f.since) : std::nullopt);
}

void inspect_training(Inspection& in) {
    const auto days = in.every_days("training");
    const auto training = answers::training(in.w);
    const bool stated = std::any_of(training.training.begin(), training.training.end(),
                                    [](const auto& r) { return r.due.has_value(); });
    if (!days && !stated)
        return in.not_judged("training",
                             "no rule is known that says how often, and no training states the date of the next");
    in.topic("training", days ? in.every_words(*days) : "the date of the next as each training states it",
             "trainings and people");
    for (const auto& r : training.training) {
        if (!r.due) continue;
        in.looked(!r.lapsed);
        if (r.lapsed)
            in.find(Urgency::overdue, r.person, "training in " + r.topic + " lapsed, last " + in.local(r.at), *r.due);
        else if (*r.due <= in.w.head.at + Duration(ReadinessAnswer::soon_days * 86400))
            in.find(Urgency::soon, r.person, "training in " + r.topic + " to be repeated before " + in.local(*r.due),
                    *r.due);
    }
    if (days && training.training.empty() && training.without.empty()) {
        in.looked(false);
        in.find(Urgency::overdue, "", "no training of anybody is known", std::nullopt);
    }
    for (const auto& person : training.without) {
        in.looked(!days);
        if (days) in.find(Urgency::overdue, person, "of the plan's people, without any training known", std::nullopt);
    }
}

void inspect_followed(Inspection& in) {
    const auto answer = answers::follow_up(in.w, std::nullopt, std::nullopt);
    in.topic("doses followed up", "each dose of the review list is followed to its end", "doses given");
    for (const auto& d : answer.doses) {
        in.looked(d.standing != "none yet");
        if (d.standing == "none yet")
            in.find(Urgency::act, "entry " + std::to_string(d.give),
                    d.holding.product + " lot " + d.holding.lot + ", " + d.finding +
                        ": nothing noted of what was done with the patient",
                    d.given);
    }
    const auto is_of_incident = [](const DepartedDoses& d) { return !d.in_doubt.empty() && d.since.empty(); };
    if (std::ranges::all_of(answer.left, is_of_incident)) return;  // the incident names those
    in.topic("doses that left", "who has doses that left is told what was learnt of them since", "departures");
    for (const auto& d : answer.left) {
        if (is_of_incident(d)) continue;
        in.looked(false);
        in.find(Urgency::act, "entry " + std::to_string(d.departure.entry),
                left_words(d.departure, in.w.known.zone()) + ": not told of what was learnt since", d.departure.at)
            .details = d.news;
        in.out.findings.back().details.push_back(left_advice(d.departure));
    }
}

void inspect_loans(Inspection& in) {
    const auto loans = answers::loans(in.w, false);
    if (!loans.repay_within_days)
        return in.not_judged("loans", "no rule is known that says how soon loans are to be repaid");
    in.topic("loans", "repaid within " + std::to_string(*loans.repay_within_days) + " days, " + in.by_programme(),
             "open loans");
    for (const auto& l : loans.loans) {
        in.looked(!l.overdue);
        if (l.overdue)
            in.find(Urgency::overdue, "loan of entry " + std::to_string(l.loan),
                    std::to_string(l.open.count()) + " of " + l.holding.product + " not repaid", *l.due);
    }
}

/// Of an incident that was reported and is closed: was anything posted since, that was read before it was closed?
bool read_late(World& w, const IncidentsAnswer::Row& row) {
    if (std::ranges::none_of(w.known.reports, [&](const auto& r) { return r.fact.incident == row.incident; }))
        return false;
    EntryNumber closing = 0;
    for (const auto& s : incident_steps(w))
        if (s.fact.incident == row.incident && s.fact.step == "closed") closing = s.entry;
    const std::int64_t closed = row.closed->seconds_since_1970();
    const auto is_late = [&](EntryNumber entry) { return entry > closing && w.known.is_known(entry); };
    for (const auto& a : w.engine.assignments()) {
        const bool of = row.places.empty() || std::ranges::find(row.places, a.place) != row.places.end();
        const auto probe = of && a.from < closed ? w.store.probe(a.probe) : std::nullopt;
        if (!probe) continue;
        for (const auto& block : w.store.blocks(*probe, a.from))
            if (is_late(block.entry) && block.summary.first_at < closed) return true;
    }
    for (const auto& [place, definitions] : w.known.places) {
        if (!row.places.empty() && std::ranges::find(row.places, place) == row.places.end()) continue;
        for (const auto& check : w.store.checks(place, row.since.seconds_since_1970() - joined_within.seconds()))
            if (check.at < closed && is_late(check.entry)) return true;
    }
    return false;
}

}  // namespace

void inspect_incidents(Inspection& in) {
    const auto all = answers::incidents(in.w, std::nullopt, std::nullopt, in.out.from, in.w.head.at);
    in.topic("incidents", "an incident that was noticed is followed until it is closed", "incidents");
    for (const auto& row : all.incidents) {
        if (!row.open && !read_late(in.w, row)) {
            in.looked(true);
            continue;
        }
        std::vector<std::string> details;
        std::int64_t overdue = 0;
        auto whole = answers::incident(in.w, row.incident, std::nullopt);
        add_overtaken(in.w, whole);
        if (!row.open) {
            const auto reported = overtaken(whole);
            in.looked(reported.empty());
            if (!reported.empty())
                in.find(Urgency::act, "incident " + row.incident, "closed, reported with other figures", *row.closed)
                    .details = reported;
            continue;
        }
        in.looked(false);
        for (const auto& l : whole.left)
            if (!l.told) details.push_back(left_words(l, in.w.known.zone()) + ": " + left_advice(l));
        const bool untold = !details.empty();
        const auto reported = overtaken(whole);
        details.insert(details.end(), reported.begin(), reported.end());
        for (const auto& d : whole.duties)
            if (d.state == DutyClock::State::overdue) {
                ++overdue;
                details.push_back(d.step + (d.who.empty() ? "" : ", " + d.who) + ": overdue since " + in.local(*d.due));
            }
        const bool act = overdue > 0 || untold || !reported.empty();
        in.find(act ? Urgency::act : Urgency::overdue, "incident " + row.incident,
                std::string("open") + (untold ? ", doses that left are not told of" : "") +
                    (reported.empty() ? "" : ", reported with other figures") +
                    (overdue > 0 ? ", " + std::to_string(overdue) + (overdue == 1 ? " duty overdue" : " duties overdue")
                                 : ""),
                row.since)
            .details = std::move(details);
    }
    in.topic("excursions", "an excursion belongs to an incident, in which somebody says what was done about it",
             "excursions");
    for (const auto& row : all.incidents)
        for (std::size_t i = 0; i < row.excursions.size(); ++i) in.looked(true);
    std::map<std::string, std::vector<const IncidentExcursion*>> places;
    for (const auto& e : all.without_incident) {
        in.looked(false);
        places[e.place].push_back(&e);
    }
    for (const auto& [place, excursions] : places) {
        const auto n = excursions.size();
        const auto first = *std::min_element(excursions.begin(), excursions.end(),
                                             [](const auto* a, const auto* b) { return a->from_s < b->from_s; });
        auto& found = in.find(
            Urgency::overdue, place,
            std::to_string(n) + (n == 1 ? " excursion that belongs" : " excursions that belong") + " to no incident",
            quantities::shown_begin(first->from_s));
        for (const auto* e : excursions) found.details.push_back(excursion_words(in, *e));
    }
}

void inspect_papers(Inspection& in) {
    inspect_plan(in);
    inspect_training(in);
    inspect_followed(in);
    inspect_loans(in);
    for (const char* thing : {"log review", "service", "self-audit"})
        if (const auto days = in.every_days(thing))
            in.not_judged(thing, in.every_words(*days) + "; a ledger keeps no record of it: see the site's own papers");
}

void inspect_retention(Inspection& in) {
    World& w = in.w;
    in.out.first_record = first_record(w);
    if (!in.rules() || in.rules()->retention.empty())
        return in.not_judged(
            "retention", "no rule is known that says how long records are kept; nothing in a ledger is ever deleted");
    const Zone& zone = w.known.zone();
    for (const auto& r : in.rules()->retention)
        in.out.retention.push_back({r.records, r.years, years_after(zone.local(in.out.first_record).date, r.years),
                                    years_after(zone.local(w.head.at).date, r.years)});
    std::stable_sort(in.out.retention.begin(), in.out.retention.end(),
                     [](const auto& a, const auto& b) { return a.years > b.years; });
    in.topic("retention",
             "nothing in a ledger is ever deleted; the longest of the programme's times holds for all of it, " +
                 in.by_programme(),
             "times");
    for (std::size_t i = 0; i < in.out.retention.size(); ++i) in.looked(true);
}

}  // namespace coldtally::answers
