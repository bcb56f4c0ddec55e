#include "answers/lists.hpp"

#include <algorithm>
#include <iterator>
#include <map>
#include <string>

#include "answers/reasons.hpp"

namespace coldtally::answers {

ListsAnswer::Row judge(World& w, const ledger::Store::LotRow& lot, const timeline::Holding& h, const Stays& stays) {
    const Product& product = *w.known.product(lot.product);
    ListsAnswer::Row row;
    row.holding = h.key;
    row.doses = Doses(h.doses);
    row.expiry = w.expiry(lot);
    if (is_expired(h.history, w.expired_from(lot), w.head.at)) row.reasons.emplace_back("expired");
    if (!h.history.condemned_by.empty()) row.reasons.emplace_back("condemned");
    const bool discard = !row.reasons.empty();
    const auto quarantine = quarantine_reasons(h.history, product, w.known.unmonitored_limit());
    row.reasons.insert(row.reasons.end(), quarantine.begin(), quarantine.end());
    row.list = discard ? List::discard : quarantine.empty() ? List::keep : List::quarantine;
    row.allowance_seconds = ledger::allowance_seconds(product);
    row.history = h.history;
    row.notes = notes(w, row, stays);
    return row;
}

std::vector<ListsAnswer::Row> listed(World& w, const ledger::Store::LotRow& lot) {
    timeline::LotTimeline timeline(w.store, w.known, w.engine, lot);
    StayCollector stays;
    timeline.run(w.at, true, &stays);
    std::vector<ListsAnswer::Row> out;
    for (const auto& [id, h] : timeline.holdings())
        if (h.doses > 0) out.push_back(judge(w, lot, h, stays.stays));
    std::ranges::sort(out, {}, &ListsAnswer::Row::holding);
    return out;
}

ListsAnswer lists(World& w) {
    ListsAnswer out;
    out.head = w.head;
    const auto lots = w.lots_with_doses();
    // a place matters from when the first of the lots that ever were in it came to the site
    std::map<std::string, std::int64_t> first_in;
    for (const auto& lot : lots) {
        const std::int64_t t = std::min(w.at, w.store.first_movement(lot.lot).value_or(w.at));
        for (const auto& h : w.store.holdings(lot.lot)) {
            const auto it = first_in.try_emplace(h.place, t).first;
            it->second = std::min(it->second, t);
        }
    }
    for (const auto& [place, t] : first_in) w.engine.look_back_to(place, t);
    for (const auto& lot : lots) std::ranges::move(listed(w, lot), std::back_inserter(out.holdings));
    std::ranges::sort(out.holdings, {}, &ListsAnswer::Row::holding);
    return out;
}

}  // namespace coldtally::answers
