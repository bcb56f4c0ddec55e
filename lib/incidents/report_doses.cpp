#include <algorithm>

#include "conditions/incidents.hpp"
#include "incidents/investigation.hpp"
#include "stock/departed.hpp"
#include "stock/lists.hpp"
#include "stock/review.hpp"
#include "words/incidents.hpp"

namespace coldtally::answers {

namespace {

/// Has anything worse been learnt of them since they were told of?
bool is_overtaken(World& w, const ledger::Store::LotRow& lot, const Departure& d) {
    auto all = departed(w, lot, d.entry);
    if (all.empty()) return false;
    all.front().departure.told = d.told;
    return !learnt_since(w, all.front()).empty();
}

/// The last entry by which the times in doubt were noticed that begin before these doses were given.
EntryNumber noticed_by(const Investigation& i, const ReviewAnswer::Row& row) {
    EntryNumber out = i.span.notice;
    for (const auto& [place, windows] : i.windows)
        for (std::size_t k = 0; k < windows.size() && row.history.places.contains(place); ++k)
            if (windows[k].from <= row.at.seconds_since_1970())
                out = std::max(out, i.span.noticed_by(place, windows[k].from,
                                                      k + 1 < windows.size() ? windows[k + 1].from : INT64_MAX));
    return out;
}

/// Since when the doses of the holding that it came out of stood in it; where the chart names the lot alone, those of
/// any that it may have come out of. None: they did not.
std::optional<std::int64_t> stood_since(const Investigation& i, const ReviewAnswer::Row& row) {
    std::optional<std::int64_t> out;
    for (const auto& [key, since] : i.followed) {
        const bool may_be = !row.certain && key.product == row.holding.product && key.lot == row.holding.lot &&
                            row.history.places.contains(key.place);
        if (key == row.holding || may_be) out = std::min(out.value_or(since), since);
    }
    return out;
}

}  // namespace

void add_given(Investigation& i) {
    for (auto& row : review(i.w, true).doses) {
        if (row.at.seconds_since_1970() < i.begins || !i.affects(row.holding, row.history)) continue;
        const auto stood = stood_since(i, row);
        const bool since = stood && row.at.seconds_since_1970() >= *stood &&
                           (!i.out.closed || row.at <= *i.out.closed);
        const bool settled = row.finding == Finding::clear || row.finding == Finding::cleared;
        if (since && settled && row.guidance && *row.guidance < noticed_by(i, row))
            row.beside.insert(row.beside.begin(),
                              words::given_in_doubt_noticed_after(i.out.incident, *row.guidance));
        if (since || row.finding != Finding::clear) i.out.given.push_back(std::move(row));
    }
    std::set<std::string_view> patients;
    for (const auto& row : i.out.given) patients.insert(row.patient);
    i.out.patients = std::ssize(patients);
}

/// Doses that were in it and are at another site now, or with those who take them back.
void add_left(Investigation& i) {
    const auto steps = incident_steps(i.w);
    for (const auto& [product, number] : i.lots)
        for (const auto& lot : i.w.lots_of(number, product))
            for (auto& d : departures(i.w, lot)) {
                const auto since = i.followed.find(d.holding);
                if (since == i.followed.end() || d.at.seconds_since_1970() < since->second) continue;
                if (i.out.closed && d.at > *i.out.closed) continue;
                d.told = told_of(i.w, steps, d, i.out.incident);
                if (d.told && is_overtaken(i.w, lot, d)) d.told.reset();
                i.out.left.push_back(std::move(d));
            }
    std::ranges::sort(i.out.left, {}, [](const auto& l) { return std::pair(l.at, l.entry); });
}

void add_now(Investigation& i) {
    for (auto& row : lists(i.w).holdings)
        if (i.affects(row.holding, row.history)) i.out.now.push_back(std::move(row));
}

}  // namespace coldtally::answers
