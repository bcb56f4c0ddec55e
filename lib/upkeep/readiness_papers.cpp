// Readiness: incidents, the plan, training, patients, loans, and how long records must be kept.
#include <algorithm>
#include <map>

#include "conditions/incidents.hpp"
#include "incidents/follow_up.hpp"
#include "incidents/incident_report.hpp"
#include "incidents/overtaken.hpp"
#include "quantities/calendar.hpp"
#include "quantities/rounding.hpp"
#include "question/said.hpp"
#include "stock/departed.hpp"
#include "stock/loans.hpp"
#include "stock/recalls.hpp"
#include "upkeep/plan.hpp"
#include "upkeep/readiness.hpp"
#include "upkeep/training.hpp"
#include "words/general.hpp"
#include "words/incidents.hpp"

namespace coldtally::answers {

namespace {

using Urgency = ReadinessAnswer::Urgency;
using Matter = ReadinessAnswer::Matter;

Remark excursion_words(const Inspection& in, const IncidentExcursion& e) {
    const std::string from = in.local(quantities::shown_begin(e.from_s));
    if (e.kind == ExcursionKind::point) return words::comma(said::side_words(e.side), from);
    return words::comma(said::side_words(e.side), words::from_to(from, in.local(quantities::shown_end(e.until_s))));
}

/// The same day so many years later; of 29 February the last of February.
Date years_after(Date date, std::int64_t years) {
    date.year += static_cast<int>(years);
    date.day = std::min(date.day, calendar::days_in_month(date.year, date.month));
    return date;
}

/// Doses given of recalled lots that the review list does not hold, and of which nothing was noted since.
void inspect_recalled(Inspection& in, const FollowUpAnswer& listed) {
    for (const auto& lot : in.w.lots()) {
        const auto recalls = answers::recalls(in.w, lot.product, lot.number);
        if (recalls.empty()) continue;
        std::int64_t doses = 0;
        std::vector<Remark> details;
        for (const auto& d : answers::follow_up(in.w, lot.number, lot.product).doses) {
            if (std::ranges::find(listed.doses, d.give, &FollowUpAnswer::Dose::give) != listed.doses.end()) continue;
            const bool open = d.standing == Standing::none_yet || !d.news.empty();
            in.looked(!open);
            if (!open) continue;
            doses += d.doses.count();
            details.push_back(words::entry_given(d.give, in.local(d.given)));
        }
        if (doses == 0) continue;
        in.find(Urgency::act, words::lot_of(lot.product, lot.number),
                words::recalled_not_followed(words::doses(doses), recall_words(recalls.back())),
                Instant(recalls.back().at))
            .details = std::move(details);
    }
}

void inspect_followed(Inspection& in) {
    const auto answer = answers::follow_up(in.w, std::nullopt, std::nullopt);
    in.topic(Matter::doses_followed_up, words::rule_followed_up, words::things_doses_given);
    for (const auto& d : answer.doses) {
        in.looked(d.standing != Standing::none_yet && d.news.empty());
        const Remark finding = said::finding_name_words(d.finding);
        if (d.standing == Standing::none_yet)
            in.find(Urgency::act, words::entry(d.give),
                    words::nothing_noted_of_patient(d.holding.product, d.holding.lot, finding), d.given);
        else if (!d.news.empty())
            in.find(Urgency::act, words::entry(d.give),
                    words::decided_before_known(d.holding.product, d.holding.lot, finding,
                                                said::standing_words(d.standing)),
                    d.given)
                .details = d.news;
    }
    inspect_recalled(in, answer);
    const auto is_of_incident = [](const DepartedDoses& d) { return !d.in_doubt.empty() && d.since.empty(); };
    if (std::ranges::all_of(answer.left, is_of_incident)) return;  // the incident names those
    in.topic(Matter::doses_that_left, words::rule_doses_that_left, words::things_departures);
    for (const auto& d : answer.left) {
        if (is_of_incident(d)) continue;
        in.looked(false);
        auto& found = in.find(Urgency::act, words::entry(d.departure.entry),
                              words::colon(left_words(d.departure, in.w.known.zone()), words::not_told_since()),
                              d.departure.at);
        found.details = d.news;
        found.details.push_back(left_advice(d.departure));
    }
}

/// Of an incident that was reported and is closed: was anything posted since, that was read before it was closed?
bool read_late(World& w, const IncidentsAnswer::Row& row) {
    if (std::ranges::none_of(w.known.reports, [&](const auto& r) { return r.fact.incident == row.incident; }))
        return false;
    EntryNumber closing = 0;
    for (const auto& s : incident_steps(w))
        if (s.fact.incident == row.incident && s.fact.step == IncidentStep::closed) closing = s.entry;
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

void inspect_closed(Inspection& in, const IncidentsAnswer::Row& row, const std::vector<Departure>& untold,
                    const std::vector<Remark>& reported) {
    in.looked(reported.empty() && untold.empty());
    if (reported.empty() && untold.empty()) return;
    Remark text = words::step_closed();
    if (!untold.empty()) text = words::comma(std::move(text), words::doses_not_told_of());
    if (!reported.empty()) text = words::comma(std::move(text), words::reported_otherwise());
    std::vector<Remark> details;
    for (const auto& l : untold) details.push_back(words::colon(left_words(l, in.w.known.zone()), left_advice(l)));
    details.insert(details.end(), reported.begin(), reported.end());
    in.find(Urgency::act, words::incident_named(row.incident), std::move(text), *row.closed).details =
        std::move(details);
}

void inspect_open(Inspection& in, const IncidentsAnswer::Row& row, const IncidentAnswer& whole,
                  const std::vector<Remark>& reported) {
    in.looked(false);
    std::vector<Remark> details;
    for (const auto& l : whole.left)
        if (!l.told) details.push_back(words::colon(left_words(l, in.w.known.zone()), left_advice(l)));
    const bool untold = !details.empty();
    details.insert(details.end(), reported.begin(), reported.end());
    std::int64_t overdue = 0;
    for (const auto& d : whole.duties)
        if (d.state == DutyClock::State::overdue) {
            ++overdue;
            const Remark duty = said::duty_words(d.step);
            const auto who = who_words(d);
            details.push_back(
                words::colon(who ? words::comma(duty, *who) : duty, words::overdue_since(in.local(*d.due))));
        }
    Remark text = words::is_open;
    if (untold) text = words::comma(std::move(text), words::doses_not_told_of());
    if (!reported.empty()) text = words::comma(std::move(text), words::reported_otherwise());
    if (overdue > 0) text = words::comma(std::move(text), words::duties_overdue(overdue));
    const bool act = overdue > 0 || untold || !reported.empty();
    in.find(act ? Urgency::act : Urgency::overdue, words::incident_named(row.incident), std::move(text), row.since)
        .details = std::move(details);
}

void inspect_excursions(Inspection& in, const IncidentsAnswer& all) {
    in.topic(Matter::excursions, words::rule_excursions, words::matter_excursions);
    for (const auto& row : all.incidents)
        for (std::size_t i = 0; i < row.excursions.size(); ++i) in.looked(true);
    std::map<std::string, std::vector<const IncidentExcursion*>> places;
    for (const auto& e : all.without_incident) {
        in.looked(false);
        places[e.place].push_back(&e);
    }
    for (const auto& [place, excursions] : places) {
        const auto first = *std::min_element(excursions.begin(), excursions.end(),
                                             [](const auto* a, const auto* b) { return a->from_s < b->from_s; });
        auto& found = in.find(Urgency::overdue, place, words::excursions_of_no_incident(excursions.size()),
                              quantities::shown_begin(first->from_s));
        for (const auto* e : excursions) found.details.push_back(excursion_words(in, *e));
    }
}

}  // namespace

void inspect_incidents(Inspection& in) {
    const auto all = answers::incidents(in.w, std::nullopt, std::nullopt, excursions_from(in.out), in.w.head.at);
    in.topic(Matter::incidents, words::rule_incidents, words::incidents_title);
    const auto left = left_unanswered(in.w);
    const auto untold = [&](const std::string& incident) {
        const auto it = left.find(incident);
        return it == left.end() ? std::vector<Departure>() : it->second;
    };
    for (const auto& row : all.incidents) {
        if (!row.open && !read_late(in.w, row)) {
            inspect_closed(in, row, untold(row.incident), {});
            continue;
        }
        auto whole = answers::incident(in.w, row.incident, std::nullopt);
        add_overtaken(in.w, whole);
        if (row.open)
            inspect_open(in, row, whole, overtaken(whole));
        else
            inspect_closed(in, row, untold(row.incident), overtaken(whole));
    }
    inspect_excursions(in, all);
}

void inspect_plan(Inspection& in) {
    const auto days = in.every_days("plan review");
    const auto plan = answers::plan(in.w);
    in.topic(Matter::plan,
             words::semicolon(words::rule_plan(),
                              days ? words::rule_reviewed(in.every_words(*days)) : words::no_rule_how_often()),
             words::things_plans);
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
    if (!days && !stated) return in.not_judged(Matter::training, words::no_rule_training);
    in.topic(Matter::training, days ? in.every_words(*days) : words::rule_training_stated(),
             words::things_trainings_and_people);
    for (const auto& r : training.training) {
        if (!r.due) continue;
        in.looked(!r.lapsed);
        if (r.lapsed)
            in.find(Urgency::overdue, r.person, words::training_in_lapsed(r.topic, in.local(r.at)), *r.due);
        else if (*r.due <= in.w.head.at + Duration(ReadinessAnswer::soon_days * 86400))
            in.find(Urgency::soon, r.person, words::training_to_repeat(r.topic, in.local(*r.due)), *r.due);
    }
    if (days && training.training.empty() && training.without.empty()) {
        in.looked(false);
        in.find(Urgency::overdue, {}, words::training_of_nobody, std::nullopt);
    }
    for (const auto& person : training.without) {
        in.looked(!days);
        if (days) in.find(Urgency::overdue, person, words::plan_person_untrained, std::nullopt);
    }
}

void inspect_loans(Inspection& in) {
    const auto loans = answers::loans(in.w, false);
    if (!loans.repay_within_days) return in.not_judged(Matter::loans, words::no_rule_loans);
    in.topic(Matter::loans, words::rule_loans(*loans.repay_within_days, in.by_programme()), words::things_open_loans);
    for (const auto& l : loans.loans) {
        in.looked(!l.overdue);
        if (l.overdue)
            in.find(Urgency::overdue, words::where_loan(l.loan),
                    words::loan_not_repaid(l.open.count(), l.holding.product), *l.due);
    }
}

void inspect_unrecorded(Inspection& in) {
    for (const Matter matter : {Matter::log_review, Matter::service, Matter::self_audit})
        if (const auto days = in.every_days(std::string(matter_name(matter))))  // the rules name them so, too
            in.not_judged(matter, words::no_record_of_it(in.every_words(*days)));
}

void inspect_papers(Inspection& in) {
    inspect_plan(in);
    inspect_training(in);
    inspect_followed(in);
    inspect_loans(in);
    inspect_unrecorded(in);
}

void inspect_retention(Inspection& in) {
    World& w = in.w;
    in.out.first_record = first_record(w);
    if (!in.rules() || in.rules()->retention.empty())
        return in.not_judged(Matter::retention, words::no_rule_retention);
    const Zone& zone = w.known.zone();
    for (const auto& r : in.rules()->retention)
        in.out.retention.push_back({r.records, r.years, years_after(zone.local(in.out.first_record).date, r.years),
                                    years_after(zone.local(w.head.at).date, r.years)});
    std::stable_sort(in.out.retention.begin(), in.out.retention.end(),
                     [](const auto& a, const auto& b) { return a.years > b.years; });
    in.topic(Matter::retention, words::rule_retention(in.by_programme()), words::things_times);
    for (std::size_t i = 0; i < in.out.retention.size(); ++i) in.looked(true);
}

}  // namespace coldtally::answers
