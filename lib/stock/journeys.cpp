#include "stock/journeys.hpp"

#include <algorithm>
#include <set>
#include <tuple>

#include "conditions/fit.hpp"
#include "stock/lists.hpp"

namespace coldtally {

std::string_view fit_name(Fit fit) noexcept {
    constexpr std::string_view names[] = {"suited", "allowance", "unsuited"};
    return names[static_cast<int>(fit)];
}

}  // namespace coldtally

namespace coldtally::answers {

namespace {

/// The rows of the lists that are in a place.
std::vector<Judged> listed_in(World& w, const std::string& place) {
    std::set<std::int64_t> there;
    for (const auto& lot : w.store.lots_in_place(place)) there.insert(lot.lot);
    auto lots = w.lots_with_doses();
    std::erase_if(lots, [&](const auto& lot) { return !there.contains(lot.lot); });
    auto out = listed(w, lots);
    std::erase_if(out, [&](const auto& row) { return row.holding.place != place; });
    return out;
}

}  // namespace

MoveListAnswer move_list(World& w, const std::string& place, const std::optional<std::string>& container) {
    MoveListAnswer out;
    out.head = w.head;
    out.place = place;
    out.container = container;
    w.place(place);
    const Place* into = container ? &w.place(*container) : nullptr;
    out.out_of_range = last_out_of_range(w, place);
    const auto last = last_read(w, place);
    for (const auto& row : listed_in(w, place)) {
        const Product& product = *w.known.product(row.holding.product);
        MoveListAnswer::Row one;
        one.holding = row.holding;
        one.doses = row.doses;
        one.expiry = row.expiry;
        one.last_use = row.last_use;
        one.list = row.list;
        one.reasons = row.reasons;
        one.frozen = is_frozen(product);
        one.in_doubt = row.in_doubt;
        // where an allowance covers a place that is in range, doses stand there by right: they may have thawed
        const bool by_right = !out.out_of_range && fit(w.place(place).range, product).fit == Fit::allowance;
        one.must_go =
            row.list != List::discard && last && !by_right && !is_in(product.range, last->scale, last->value);
        one.notes = said_of(row.told, {Note::Kind::beside, Note::Kind::vial});
        if (into) one.fit = fit(into->range, product).fit;
        out.holdings.push_back(std::move(one));
    }
    const auto order = [](const MoveListAnswer::Row& r) {
        return std::tuple(r.list == List::discard, !r.must_go, !r.frozen, r.last_use.until, r.holding);
    };
    std::sort(out.holdings.begin(), out.holdings.end(),
              [&](const auto& a, const auto& b) { return order(a) < order(b); });
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
