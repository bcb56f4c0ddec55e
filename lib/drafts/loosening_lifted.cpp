// Of loosening: holds of a time through which guidance judges that was posted before them. They tighten nothing that a
// list shows.
#include <algorithm>
#include <tuple>

#include "drafts/comparison.hpp"
#include "stock/cleared.hpp"
#include "stock/notes.hpp"
#include "words/loosening.hpp"

namespace coldtally::answers {

namespace {

/// Of one lot, each hold once: those posted after an entry.
void add_lifted(World& w, const ledger::Store::LotRow& lot, EntryNumber after, std::vector<HeldAfter>& out) {
    timeline::LotTimeline timeline(w.store, w.known, w.engine, lot);
    StayCollector seen;
    timeline.run(w.at, false, &seen);
    for (const auto& [id, h] : timeline.holdings()) {
        if (h.doses == 0) continue;
        for (auto& held : held_after(w, h.history, seen.clearings.of(h.key)))
            if (held.hold->entry > after && std::ranges::none_of(out, [&](const auto& one) {
                    return one.hold == held.hold && one.said == held.said;
                }))
                out.push_back(std::move(held));
    }
}

}  // namespace

void compare_lifted(Comparison& c) {
    const EntryNumber after = c.before.snapshot.lists.head.last_entry;
    std::vector<HeldAfter> all;
    for (const auto& lot : c.w.lots())
        if (std::ranges::any_of(c.w.known.holds, [&](const auto& h) {
                return h.entry > after && h.fact.product == lot.product && (!h.fact.lot || *h.fact.lot == lot.number);
            }))
            add_lifted(c.w, lot, after, all);
    for (const auto& held : all) {
        c.out.says.push_back(words::lifted_at_once(held.hold->fact.reason,
                                                   c.w.known.zone().local_text(Instant(held.hold->at)),
                                                   held.said.fields[2], held.said.fields[3]));
        const auto is_it = [&](const Hold& h) {
            const Hold& one = held.hold->fact;
            return std::tie(h.reason, h.product, h.lot, h.place, h.mark) ==
                   std::tie(one.reason, one.product, one.lot, one.place, one.mark);
        };
        if (std::ranges::none_of(c.out.holds, is_it)) c.out.holds.push_back(held.hold->fact);
    }
}

}  // namespace coldtally::answers
