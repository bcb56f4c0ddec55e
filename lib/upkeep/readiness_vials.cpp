// Readiness: vials of several doses that must have been opened, and nothing says when.
#include <algorithm>
#include <set>

#include "coldtally/quantities.hpp"
#include "stock/last_use.hpp"
#include "stock/opened_vials.hpp"
#include "upkeep/readiness.hpp"

namespace coldtally::answers {

namespace {

std::string holding_words(const HoldingKey& k) {
    return k.product + " lot " + k.lot + " in " + k.place + (k.fund.empty() ? "" : ", fund " + k.fund) +
           (k.mark.empty() ? "" : ", mark " + k.mark);
}

/// Since when the doses of a holding are in no whole vials.
Instant not_whole_since(const World& w, const ledger::Store::LotRow& lot, std::int64_t holding,
                        const Product& product) {
    ledger::StockWalk walk;
    std::optional<std::int64_t> since;
    for (const auto& m : w.store.movements(lot.lot)) {
        if (m.at > w.at || !w.known.is_known(m.entry)) continue;
        walk.apply(m);
        if (m.source != holding && m.target != holding) continue;
        if (beside_whole_vials(product, walk.doses(holding)) == 0)
            since.reset();
        else if (!since)
            since = m.at;
    }
    return Instant(since.value_or(w.at));
}

bool has_doses(const World& w, const ledger::Store::LotRow& lot) {
    const auto walk = w.stock(lot);
    return std::any_of(walk.all().begin(), walk.all().end(), [](const auto& h) { return h.second > 0; });
}

}  // namespace

void inspect_vials(Inspection& in) {
    World& w = in.w;
    const auto lots = w.lots_with_doses();
    std::set<std::string> without;  // products whose period nobody has stated
    bool any = false;
    for (const auto& lot : lots) {
        const Product& product = *w.known.product(lot.product);
        if (opening_period(product))
            any = true;
        else if (product.doses_per_vial && product.doses_per_vial->count() > 1 && has_doses(w, lot))
            without.insert(lot.product);
    }
    std::string no_period;
    for (const auto& id : without) no_period += (no_period.empty() ? "" : ", ") + id;
    if (!no_period.empty()) no_period = "no period after first puncture is stated of " + no_period;
    if (!any && !no_period.empty()) return in.not_judged("opened vials", no_period);
    in.topic("opened vials",
             "a vial of several doses gets its use-by when it is opened" + (no_period.empty() ? "" : "; " + no_period),
             "holdings");
    for (const auto& lot : lots) {
        const Product& product = *w.known.product(lot.product);
        const auto period = opening_period(product);
        if (!period) continue;
        const auto walk = w.stock(lot);
        const auto use = use_of(w, lot);
        for (const auto& h : w.store.holdings(lot.lot)) {
            const std::int64_t doses = walk.doses(h.holding);
            if (doses == 0) continue;
            const HoldingKey key{h.place, lot.product, lot.number, h.fund, h.mark};
            const auto missing = vial_without_opening(product, doses, use.limits(key));
            in.looked(!missing);
            if (!missing) continue;
            in.find(Inspection::Urgency::act, holding_words(key), *missing,
                    not_whole_since(w, lot, h.holding, product))
                .details = {
                "good for " + duration_words(Rational(period->period.seconds()), false) + " after " + period->event,
                "note the opening when it was (beyond-use, with vial and at), or count the doses if none is open"};
        }
    }
}

}  // namespace coldtally::answers
