#include "drafts/come_back.hpp"

#include <algorithm>

#include "drafts/naming.hpp"
#include "question/said.hpp"
#include "stock/departed.hpp"
#include "stock/handover.hpp"
#include "stock/lists.hpp"
#include "words/drafts_warnings.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

namespace {

/// Why these doses are not as those that were never exposed; empty: they are.
std::vector<Field> why(const std::vector<Reason>& reasons, const std::vector<std::string>& in_doubt,
                       const History& history) {
    std::vector<Field> out;
    for (const Reason reason : reasons)
        if (reason != Reason::expired) out.push_back(said::reason_words(reason));
    for (const auto& incident : in_doubt) out.push_back(words::in_doubt_of(incident));
    if (was_exposed(history)) out.push_back(exposure_words(history).value_or(words::how_far_not_known()));
    return out;
}

}  // namespace

std::vector<Remark> may_come_back(World& w, const Receive& r) {
    std::vector<Remark> out;
    if (r.handover) return out;
    for (const auto& lot : w.lots_of(r.lot, r.product)) {
        if (!w.store.first_movement(lot.lot)) continue;
        for (const auto& d : departed(w, lot)) {
            std::vector<Field> what = why(d.reasons, d.in_doubt, d.history);
            for (const auto& one : d.since) what.push_back(one.text);
            if (!what.empty())
                out.push_back(words::comma(left_words(d.departure, w.known.zone()), words::listed(what)));
        }
        const HoldingKey target{r.place, r.product, r.lot, r.fund, r.mark};  // joined, they count as those do
        for (const auto& row : listed(w, lot))
            if (row.holding == target)
                continue;
            else if (const auto what = why(row.reasons, row.in_doubt, row.history); !what.empty())
                out.push_back(words::comma(
                    words::doses_of(words::doses(row.doses.count()), lot_in(row.holding)), words::listed(what)));
    }
    return out;
}

}  // namespace coldtally::answers
