#include "stock/stays.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "coldtally/error.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

StaysAnswer stays(World& w, const std::string& product, const std::string& lot) {
    StaysAnswer out;
    out.head = w.head;
    out.product = product;
    out.lot = lot;
    const auto id = w.store.lot(product, lot);
    if (!id || w.known.expiry(w.store.lot_definitions(*id)).empty())
        throw Error(Code::not_known, "lot: " + text::quoted(lot) + ": no lot of this number is known for product " +
                                         text::quoted(product));
    std::map<std::int64_t, HoldingKey> keys;
    for (const auto& h : w.store.holdings(*id)) keys[h.holding] = {h.place, product, lot, h.fund, h.mark};

    std::map<std::int64_t, StaysAnswer::Row> open;
    ledger::StockWalk walk;
    for (const auto& m : w.store.movements(*id)) {
        if (m.at > w.at || !w.known.is_known(m.entry)) continue;
        walk.apply(m);
        for (const std::int64_t holding : {m.source, m.target}) {
            if (holding == 0) continue;
            const auto doses = walk.doses(holding);
            const auto there = open.find(holding);
            if (there == open.end()) {
                if (doses > 0) open[holding] = {keys.at(holding), Instant(m.at), {}, Doses(doses)};
            } else if (doses > 0) {
                there->second.most = std::max(there->second.most, Doses(doses));
            } else {
                there->second.until = Instant(m.at);
                if (*there->second.until > there->second.from) out.stays.push_back(std::move(there->second));
                open.erase(there);
            }
        }
    }
    for (auto& [holding, row] : open) out.stays.push_back(std::move(row));
    std::ranges::sort(out.stays, {}, [](const auto& s) { return std::tie(s.from, s.holding); });
    return out;
}

}  // namespace coldtally::answers
