#include "drafts/changes.hpp"

#include <algorithm>
#include <iterator>
#include <map>

#include "conditions/incidents.hpp"
#include "stock/lists.hpp"
#include "stock/review.hpp"

namespace coldtally::answers {

Snapshot::OfPlace excursions_of(World& w, const std::string& place) {
    World fresh(w.store, w.head, w.known);  // the traces of the lists may be read from a later instant on
    auto found = incidents(fresh, place, std::nullopt, Instant(0), w.head.at);
    Snapshot::OfPlace out;
    out.excursions = std::move(found.without_incident);
    for (auto& row : found.incidents) {
        const bool of = std::find(row.places.begin(), row.places.end(), place) != row.places.end();
        if (row.open && (of || row.places.empty()))
            out.open_incidents[row.incident] = std::ssize(row.excursions);
        std::move(row.excursions.begin(), row.excursions.end(), std::back_inserter(out.excursions));
    }
    return out;
}

Changes::OfPlace compare(const std::string& place, const Snapshot::OfPlace& before, const Snapshot::OfPlace& after) {
    Changes::OfPlace out{place, std::ssize(before.excursions), 0, 0, {}};
    for (const auto& was : before.excursions) {
        bool is_there = false;
        Rational left;
        for (const auto& is : after.excursions) {
            if (is.side != was.side || is.until_s < was.from_s || is.from_s > was.until_s) continue;
            is_there = true;
            left += is.duration_s;
        }
        if (!is_there)
            ++out.vanish;
        else if (left < was.duration_s)
            ++out.shortened;
    }
    for (const auto& [incident, count] : before.open_incidents) {
        const auto it = after.open_incidents.find(incident);
        out.open_incidents.push_back({incident, count, it == after.open_incidents.end() ? 0 : it->second});
    }
    return out;
}

namespace {

/// What is in `before` and not in `after`.
std::vector<Reason> lost(const std::vector<Reason>& before, const std::vector<Reason>& after) {
    std::vector<Reason> out;
    for (const auto& one : before)
        if (std::find(after.begin(), after.end(), one) == after.end()) out.push_back(one);
    return out;
}

}  // namespace

Snapshot snapshot(World& w, const std::vector<Entry>& entries) {
    Snapshot out{lists(w), review(w, true), departed(w), {}};
    for (const Entry& e : entries)
        if (const auto* p = std::get_if<Place>(&e.fact); p && w.known.place(p->place))
            out.places.try_emplace(p->place, excursions_of(w, p->place));
    return out;
}

Changes changes(const Snapshot& before, const Snapshot& after) {
    Changes out;
    out.head = before.lists.head;

    std::map<HoldingKey, Changes::Holding> holdings;
    const auto state = [](const ListsAnswer::Row& row) {
        return Changes::State{row.doses, row.list, row.reasons, row.history, row.in_doubt};
    };
    for (const auto& row : before.lists.holdings) holdings[row.holding].before = state(row);
    for (const auto& row : after.lists.holdings) holdings[row.holding].after = state(row);
    for (auto& [key, holding] : holdings) {
        if (holding.before == holding.after) continue;
        holding.holding = key;
        out.holdings.push_back(std::move(holding));
    }

    std::map<std::pair<Instant, EntryNumber>, Changes::Dose> doses;
    const auto fill = [&](const ReviewAnswer::Row& row, std::optional<Finding> Changes::Dose::*side) {
        auto& dose = doses[{row.at, row.entry}];
        dose.entry = row.entry;
        dose.at = row.at;
        dose.patient = row.patient;
        dose.holding = row.holding;
        dose.*side = row.finding;
    };
    for (const auto& row : before.review.doses) fill(row, &Changes::Dose::before);
    for (const auto& row : after.review.doses) fill(row, &Changes::Dose::after);
    for (auto& [key, dose] : doses)
        if (dose.before != dose.after) out.doses.push_back(std::move(dose));

    std::map<EntryNumber, const std::vector<Reason>*> reasons;
    for (const auto& row : after.review.doses) reasons[row.entry] = &row.reasons;
    for (const auto& row : before.review.doses) {
        const auto it = reasons.find(row.entry);
        if (it == reasons.end()) continue;
        if (auto gone = lost(row.reasons, *it->second); !gone.empty())
            out.gives.push_back({row.entry, std::move(gone)});
    }
    std::map<EntryNumber, const DepartedDoses*> left;
    for (const auto& d : after.left) left[d.departure.entry] = &d;
    const auto same = [](const DepartedDoses& a, const DepartedDoses& b) {
        return a.list == b.list && a.reasons == b.reasons && a.in_doubt == b.in_doubt && a.since == b.since &&
               a.history == b.history;
    };
    for (const auto& d : before.left)
        if (const auto it = left.find(d.departure.entry); it != left.end() && !same(d, *it->second))
            out.left.push_back({d, *it->second});
    for (const auto& [place, of] : before.places)
        if (const auto it = after.places.find(place); it != after.places.end())
            out.places.push_back(compare(place, of, it->second));
    return out;
}

}  // namespace coldtally::answers
