#include "answers/stock.hpp"

#include <algorithm>

#include "answers/last_use.hpp"

namespace coldtally::answers {

using ledger::MovementOp;

StockAnswer stock(World& w) {
    StockAnswer out;
    out.head = w.head;
    auto& accounts = out.accounts;
    for (const auto& lot : w.lots()) {
        ledger::StockWalk walk;
        for (const auto& m : w.store.movements(lot.lot)) {
            if (m.at > w.at || !w.known.is_known(m.entry)) continue;
            switch (m.op) {
                case MovementOp::receive: accounts.supplier -= m.doses; break;
                case MovementOp::give: accounts.patient += m.doses; break;
                case MovementOp::waste: accounts.wasted += m.doses; break;
                case MovementOp::give_back: accounts.returned += m.doses; break;
                case MovementOp::transfer: accounts.transferred += m.doses; break;
                case MovementOp::count:
                    accounts.variance += walk.doses(m.source) - (walk.doses(m.source) > 0 ? m.doses : 0);
                    break;
                case MovementOp::move: case MovementOp::beyond_use: break;
            }
            walk.apply(m);
        }
        std::optional<UseCollector> use;
        for (const auto& h : w.store.holdings(lot.lot)) {
            const auto doses = walk.doses(h.holding);
            if (doses == 0) continue;
            if (!use) use.emplace(use_of(w, lot));
            const HoldingKey key{h.place, lot.product, lot.number, h.fund, h.mark};
            out.holdings.push_back({key,
                                    Doses(doses),
                                    w.expiry(lot),
                                    last_use(w.known.zone(), w.expired_from(lot), use->limits(key)),
                                    {}});
            accounts.on_hand += doses;
        }
    }
    std::sort(out.holdings.begin(), out.holdings.end(),
              [](const auto& a, const auto& b) { return a.holding < b.holding; });
    return out;
}

}  // namespace coldtally::answers
