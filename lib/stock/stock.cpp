#include "stock/stock.hpp"

#include <algorithm>
#include <utility>

#include "stock/lists.hpp"

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
        for (const auto& h : w.store.holdings(lot.lot)) {
            const auto doses = walk.doses(h.holding);
            if (doses == 0) continue;
            accounts.on_hand += doses;
        }
    }
    auto rows = listed(w, w.lots_with_doses());
    std::ranges::sort(rows, {}, &ListsAnswer::Row::holding);
    for (auto& row : rows)  // the lists have it among their notes
        out.holdings.push_back({row.holding, row.doses, row.expiry, row.last_use, row.list, std::move(row.in_doubt),
                                said_of(row.told, {Note::Kind::beside, Note::Kind::vial})});
    return out;
}

std::vector<Present> doses_present(const World& w) {
    std::vector<Present> out;
    for (const auto& lot : w.lots_with_doses()) {
        const auto walk = w.stock(lot);
        for (const auto& h : w.store.holdings(lot.lot))
            if (const auto doses = walk.doses(h.holding); doses != 0)
                out.push_back({lot, {h.place, lot.product, lot.number, h.fund, h.mark}, Doses(doses)});
    }
    std::ranges::sort(out, {}, &Present::holding);
    return out;
}

}  // namespace coldtally::answers
