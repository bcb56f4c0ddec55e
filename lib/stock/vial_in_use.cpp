#include "stock/vial_in_use.hpp"

#include <map>

#include "stock/given_doses.hpp"
#include "stock/last_use.hpp"
#include "stock/opened_vials.hpp"
#include "text/json_text.hpp"

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

std::vector<GivenOut> given_since(const World& w, const HoldingKey& key, Instant from) {
    std::vector<GivenOut> out;
    const auto lot = w.store.lot(key.product, key.lot);
    const auto holding = lot ? w.store.holding(*lot, key.place, key.fund, key.mark) : std::nullopt;
    if (!holding) return out;
    for (const auto& m : w.store.movements(*lot))
        if (m.op == ledger::MovementOp::give && m.source == *holding && Instant(m.at) >= from &&
            w.known.is_known(m.entry))
            out.push_back({m.entry, Instant(m.at), Doses(m.doses)});
    return out;
}

std::vector<std::string> given_past_vials(const World& w, const ledger::Store::LotRow& lot) {
    std::vector<std::string> out;
    const Product* product = w.known.product(lot.product);
    if (!product || !opening_period(*product)) return out;
    using Op = ledger::MovementOp;
    const auto movements = w.store.movements(lot.lot);
    const auto known = [&](const ledger::Movement& m) { return m.at <= w.at && w.known.is_known(m.entry); };
    std::map<std::int64_t, HoldingKey> where;
    for (const auto& h : w.store.holdings(lot.lot))
        where[h.holding] = {h.place, lot.product, lot.number, h.fund, h.mark};
    for (const auto& vial : movements) {
        if (vial.op != Op::move || !known(vial)) continue;
        const HoldingKey &from = where[vial.source], &to = where[vial.target];
        if (from.place != to.place || from.mark == to.mark) continue;
        std::optional<Instant> until;  // of a vial that was opened as it was put apart
        for (const auto& m : movements) {
            if (m.op != Op::beyond_use || m.source != vial.target || m.at != vial.at || !known(m)) continue;
            const auto use = w.store.fact<BeyondUse>(m.entry);
            if (!use.event || !opens_vial(*use.event)) continue;
            if (const auto period = product->beyond_use->find(*use.event); period != product->beyond_use->end())
                until = Instant(m.at) + period->second;
        }
        if (!until) continue;
        GivenDoses given;
        for (const auto& m : movements)
            if (m.op == Op::give && m.source == vial.source && Instant(m.at) >= *until && m.entry < vial.entry &&
                known(m))
                given.add(m.entry, m.doses);
        if (given.any())
            out.push_back("NOT SURE: " + given.words() + " out of doses of " + lot.product + " lot " + lot.number +
                          " in " + from.place + " that were not opened, when the vial " + text::quoted(to.mark) +
                          " was past its use, " + usable_words(*until, w.known.zone()) + "; that it was opened " +
                          w.known.zone().local_text(Instant(vial.at)) + " was noted later (entry " +
                          std::to_string(vial.entry) + "). If they were of it, take them back and give them out of "
                          "that mark");
    }
    return out;
}

}  // namespace coldtally::answers
