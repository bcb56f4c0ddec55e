#include "stock/lists.hpp"

#include <algorithm>
#include <iterator>
#include <map>
#include <string>

#include "stock/beside_notes.hpp"
#include "stock/doubt.hpp"
#include "stock/opened_vials.hpp"
#include "stock/reasons.hpp"

namespace coldtally::answers {

Judged judge(World& w, const ledger::Store::LotRow& lot, const timeline::Holding& h, const UseCollector& seen) {
    const Product& product = *w.known.product(lot.product);
    Judged row;
    row.holding = h.key;
    row.doses = Doses(h.doses);
    row.expiry = w.expiry(lot);
    row.last_use = last_use(w.known.zone(), w.expired_from(lot), seen.limits(h.key));
    if (is_expired(h.history, w.expired_from(lot), w.head.at)) row.reasons.push_back(Reason::expired);
    if (!h.history.condemned_by.empty()) row.reasons.push_back(Reason::condemned);
    const bool discard = !row.reasons.empty();
    const auto quarantine = quarantine_reasons(h.history, product, w.known.unmonitored_limit());
    row.reasons.insert(row.reasons.end(), quarantine.begin(), quarantine.end());
    row.list = discard ? List::discard : quarantine.empty() ? List::keep : List::quarantine;
    row.allowance_seconds = ledger::allowance_seconds(product);
    row.history = h.history;
    const auto doubts = doubts_of(w, row.holding, row.history, seen);
    row.in_doubt = incidents_of(doubts);
    row.beside = beside_notes(w, row, seen);
    for (const auto& note : row.beside) row.told.push_back({Note::Kind::beside, note});
    auto others = notes(w, row, seen.stays, doubts);
    row.told.insert(row.told.end(), others.begin(), others.end());
    if (const auto vial = vial_without_opening(product, h.doses, seen.limits(h.key)))
        row.told.push_back({Note::Kind::vial, *vial});
    row.notes = said_of(row.told);
    row.opened = is_opened(seen.limits(h.key));
    return row;
}

std::vector<Judged> listed(World& w, const ledger::Store::LotRow& lot) {
    timeline::LotTimeline timeline(w.store, w.known, w.engine, lot);
    UseCollector seen(w.store, w.known);
    timeline.run(w.at, true, &seen);
    std::vector<Judged> out;
    for (const auto& [id, h] : timeline.holdings())
        if (h.doses > 0) out.push_back(judge(w, lot, h, seen));
    std::ranges::sort(out, {}, &ListsAnswer::Row::holding);
    return out;
}

std::vector<Judged> listed(World& w, const std::vector<ledger::Store::LotRow>& lots) {
    // a place matters from when the first of the lots that ever were in it came to the site
    std::map<std::string, std::int64_t> first_in;
    for (const auto& lot : lots) {
        const std::int64_t t = std::min(w.at, w.store.first_movement(lot.lot).value_or(w.at));
        for (const auto& h : w.store.holdings(lot.lot)) {
            const auto it = first_in.try_emplace(h.place, t).first;
            it->second = std::min(it->second, t);
        }
    }
    for (const auto& [place, t] : first_in) w.engine.expect_back_to(place, t);
    std::vector<Judged> out;
    for (const auto& lot : lots) std::ranges::move(listed(w, lot), std::back_inserter(out));
    return out;
}

ListsAnswer lists(World& w) {
    ListsAnswer out;
    out.head = w.head;
    for (auto& row : listed(w, w.lots_with_doses())) out.holdings.push_back(std::move(row));
    std::ranges::sort(out.holdings, {}, &ListsAnswer::Row::holding);
    return out;
}

}  // namespace coldtally::answers
