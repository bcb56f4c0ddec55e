#include "answers/vial_in_use.hpp"

namespace coldtally::answers {

std::optional<FirstDose> first_dose_of_vial(const World& w, const HoldingKey& key) {
    const Product* product = w.known.product(key.product);
    if (!product || !product->doses_per_vial || product->doses_per_vial->count() <= 1) return std::nullopt;
    const std::int64_t vial = product->doses_per_vial->count();
    std::optional<FirstDose> out;
    for (const auto& lot : w.lots_of(key.lot, key.product)) {
        std::int64_t holding = 0;
        for (const auto& h : w.store.holdings(lot.lot))
            if (h.place == key.place && h.fund == key.fund && h.mark == key.mark) holding = h.holding;
        if (holding == 0) continue;
        ledger::StockWalk walk;
        for (const auto& m : w.store.movements(lot.lot)) {
            if (m.at > w.at || !w.known.is_known(m.entry)) continue;
            const std::int64_t begun = walk.doses(holding) % vial;  // what the vial in use holds; 0: none is in use
            walk.apply(m);
            if (m.source != holding && m.target != holding) continue;
            const bool taken = m.source == holding &&
                               (m.op == ledger::MovementOp::give || m.op == ledger::MovementOp::waste);
            if (walk.doses(holding) % vial == 0)
                out.reset();
            else if (taken && m.doses % vial != 0 && (!out || begun == 0 || m.doses > begun))
                out = FirstDose{Instant(m.at), m.entry};
        }
    }
    return out;
}

}  // namespace coldtally::answers
