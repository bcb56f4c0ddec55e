#include "drafts/come_back.hpp"

#include <algorithm>

#include "stock/departed.hpp"
#include "stock/handover.hpp"
#include "stock/lists.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

namespace {

/// Why these doses are not as those that were never exposed; empty: they are.
std::string why(const std::vector<std::string>& reasons, const std::vector<std::string>& in_doubt,
                const History& history) {
    std::string out;
    const auto add = [&](const std::string& one) { out += (out.empty() ? "" : ", ") + one; };
    for (const auto& reason : reasons)
        if (reason != "expired") add(reason);
    for (const auto& incident : in_doubt) add("in doubt of incident " + incident);
    if (was_exposed(history)) add(exposure_words(history));
    return out;
}

}  // namespace

std::vector<std::string> may_come_back(World& w, const Receive& r) {
    std::vector<std::string> out;
    if (r.handover) return out;
    for (const auto& lot : w.lots_of(r.lot, r.product)) {
        if (!w.store.first_movement(lot.lot)) continue;
        for (const auto& d : departed(w, lot)) {
            std::string what = why(d.reasons, d.in_doubt, d.history);
            for (const auto& one : d.since) what += (what.empty() ? "" : ", ") + one.text;
            if (!what.empty()) out.push_back(left_words(d.departure, w.known.zone()) + ", " + what);
        }
        const HoldingKey target{r.place, r.product, r.lot, r.fund, r.mark};  // joined, they count as those do
        for (const auto& row : listed(w, lot))
            if (row.holding == target)
                continue;
            else if (const std::string what = why(row.reasons, row.in_doubt, row.history); !what.empty())
                out.push_back(std::to_string(row.doses.count()) +
                              (row.doses.count() == 1 ? " dose" : " doses") + " of lot " + text::quoted(r.lot) +
                              " in " + text::quoted(row.holding.place) +
                              (row.holding.mark.empty() ? "" : ", mark " + text::quoted(row.holding.mark)) + ", " +
                              what);
    }
    return out;
}

}  // namespace coldtally::answers
