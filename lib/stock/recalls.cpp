#include "stock/recalls.hpp"

#include <algorithm>
#include <set>

#include "timeline/lot_timeline.hpp"
#include "words/general.hpp"
#include "words/stock.hpp"

namespace coldtally::answers {

std::vector<ledger::Dated<Hold>> recalls(const World& w, const std::string& product, const std::string& lot) {
    std::vector<ledger::Dated<Hold>> out;
    for (const auto& h : w.known.holds)
        if (h.at <= w.at && h.fact.product == product && (!h.fact.lot || *h.fact.lot == lot) && !h.fact.place &&
            !h.fact.mark)
            out.push_back(h);
    return out;
}

Remark recall_words(const ledger::Dated<Hold>& h) {
    return words::in_brackets(words::held_for(h.fact.reason), words::entry(h.entry));
}

std::vector<Remark> recalls_lifted(World& w, const Guidance& g) {
    std::vector<Remark> out;
    if (g.verdict == Verdict::discard) return out;
    const std::int64_t through = std::min(g.through.seconds_since_1970(), w.at);
    auto standing = recalls(w, g.product, g.lot);
    std::erase_if(standing, [&](const auto& h) { return h.at > through; });
    if (standing.empty()) return out;
    std::set<std::int64_t> holding;
    for (const auto& lot : w.lots_of(g.lot, g.product)) {
        timeline::LotTimeline timeline(w.store, w.known, w.engine, lot);
        timeline.run(through, false);
        for (const auto& [id, h] : timeline.holdings())
            if (h.doses > 0 && (!g.place || *g.place == h.key.place) && (!g.mark || *g.mark == h.key.mark))
                holding.insert(h.history.held_by.begin(), h.history.held_by.end());
    }
    for (const auto& h : standing)
        if (holding.contains(h.entry)) out.push_back(words::recall_stands(h.entry, h.fact.reason, g.issuer));
    return out;
}

}  // namespace coldtally::answers
