#include "ledger/funds.hpp"

namespace coldtally::ledger {

std::set<std::string> funds_used(const Store& store, const Known& known) {
    std::vector<std::string> named;
    auto all = store.database().statement("SELECT DISTINCT fund FROM holding");
    while (all.step()) named.emplace_back(all.text(0));
    std::set<std::string> out;
    for (const auto& fund : named) {
        auto s = store.database().statement(
            "SELECT m.entry FROM holding h JOIN movement m ON m.lot = h.lot AND m.target = h.holding WHERE h.fund = ? "
            "AND m.op = 1");  // receive
        s.bind(fund);
        while (s.step())
            if (known.is_known(s.integer(0))) {
                out.insert(fund);
                break;
            }
    }
    return out;
}

}  // namespace coldtally::ledger
