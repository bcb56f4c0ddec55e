#include "answers/journeys.hpp"

#include <algorithm>
#include <tuple>

#include "answers/beside_notes.hpp"
#include "answers/fit.hpp"
#include "answers/lists.hpp"

namespace coldtally {

std::string_view fit_name(Fit fit) noexcept {
    constexpr std::string_view names[] = {"suited", "allowance", "unsuited"};
    return names[static_cast<int>(fit)];
}

}  // namespace coldtally

namespace coldtally::answers {

MoveListAnswer move_list(World& w, const std::string& place, const std::optional<std::string>& container) {
    MoveListAnswer out;
    out.head = w.head;
    out.place = place;
    out.container = container;
    w.place(place);
    const Place* into = container ? &w.place(*container) : nullptr;
    for (const auto& row : lists(w).holdings) {
        if (row.holding.place != place) continue;
        const Product& product = *w.known.product(row.holding.product);
        MoveListAnswer::Row one{row.holding, row.doses, row.expiry, row.last_use, row.list, row.reasons, is_frozen(product), std::nullopt, row.in_doubt, beside_notes(w, row)};
        if (into) one.fit = fit(into->range, product).fit;
        out.holdings.push_back(std::move(one));
    }
    const auto order = [](const MoveListAnswer::Row& r) { return std::tuple(r.list == List::discard, !r.frozen, r.last_use.until, r.holding); };
    std::sort(out.holdings.begin(), out.holdings.end(), [&](const auto& a, const auto& b) { return order(a) < order(b); });
    return out;
}

/// No doses in a place just before an instant.
static bool is_empty_before(const World& w, const std::string& place, std::int64_t t) {
    for (const auto& lot : w.store.lots_in_place(place)) {
        ledger::StockWalk walk;
        for (const auto& m : w.store.movements(lot.lot))
            if (m.at < t && w.known.is_known(m.entry)) walk.apply(m);
        for (const auto& h : w.store.holdings(lot.lot))
            if (h.place == place && walk.doses(h.holding) > 0) return false;
    }
    return true;
}

std::vector<const ledger::Dated<Trip>*> departures(const World& w, const std::string& container) {
    std::vector<const ledger::Dated<Trip>*> out;
    bool arrived = false;
    for (const auto& t : w.known.trips) {
        if (t.fact.container != container || t.at > w.at) continue;
        if (t.fact.step == TripStep::departure) {
            if (arrived || (!out.empty() && out.back()->at < t.at && is_empty_before(w, container, t.at))) out.clear();
            out.push_back(&t);
        }
        arrived = t.fact.step == TripStep::arrival;
    }
    return out;
}

}  // namespace coldtally::answers
