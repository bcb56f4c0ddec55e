#include "stock/vial_in_use.hpp"

#include <map>

namespace coldtally::answers {

std::optional<FirstDose> first_dose_of_vial(const World& w, const HoldingKey& key) {
    const Product* product = w.known.product(key.product);
    if (!product || !product->doses_per_vial || product->doses_per_vial->count() <= 1) return std::nullopt;
    const std::int64_t vial = product->doses_per_vial->count();
    for (const auto& lot : w.lots_of(key.lot, key.product)) {
        std::int64_t holding = 0;
        for (const auto& h : w.store.holdings(lot.lot))
            if (h.place == key.place && h.fund == key.fund && h.mark == key.mark) holding = h.holding;
        if (holding == 0) continue;
        ledger::StockWalk walk;
        std::map<std::int64_t, FirstDose> begun;  // by holding
        for (const auto& m : w.store.movements(lot.lot)) {
            if (m.at > w.at || !w.known.is_known(m.entry)) continue;
            using Op = ledger::MovementOp;
            // what the vial in use holds; 0: none is in use
            const std::int64_t left = m.source ? walk.doses(m.source) % vial : 0;
            const bool had = m.target && walk.doses(m.target) % vial != 0;
            walk.apply(m);
            const bool broken = m.doses % vial != 0;
            const FirstDose now{Instant(m.at), m.entry, false};
            if (broken && (m.op == Op::give || m.op == Op::waste)) {
                const auto [it, is_new] = begun.try_emplace(m.source, now);
                if (!is_new && (left == 0 || m.doses > left)) it->second = now;  // from the next vial, too
            }
            if (broken && (m.op == Op::move || m.op == Op::receive)) {
                FirstDose there{Instant(m.at), m.entry, true};
                if (const auto from = begun.find(m.source); m.op == Op::move && from != begun.end())
                    there = from->second;
                const auto [it, is_new] = begun.try_emplace(m.target, there);
                if (!is_new && (!had || there.at < it->second.at)) it->second = there;
            }
            if (broken && m.op == Op::count) begun.try_emplace(m.source, FirstDose{Instant(m.at), m.entry, true});
            for (const std::int64_t h : {m.source, m.target})
                if (h && walk.doses(h) % vial == 0) begun.erase(h);
        }
        if (const auto it = begun.find(holding); it != begun.end()) return it->second;
    }
    return std::nullopt;
}

}  // namespace coldtally::answers
