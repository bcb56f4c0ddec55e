#include "stock/vial_in_use.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "stock/given_doses.hpp"
#include "stock/last_use.hpp"
#include "stock/opened_vials.hpp"
#include "text/json_text.hpp"
#include "words/review.hpp"

namespace coldtally::answers {

namespace {

using Op = ledger::MovementOp;

/// The vials in use of a lot, movement by movement: vials are used up one after the other.
class VialWalk {
public:
    explicit VialWalk(std::int64_t vial) : vial_(vial) {}

    /// After it: of a give or waste, the first dose of the vial that it was out of; none where it is of whole vials.
    std::optional<FirstDose> apply(const ledger::Movement& m) {
        // what the vial in use holds; 0: none is in use
        const std::int64_t left = m.source ? walk_.doses(m.source) % vial_ : 0;
        const bool had = m.target && walk_.doses(m.target) % vial_ != 0;
        const auto before = begun_.find(m.source);
        std::optional<FirstDose> of;
        if (m.source && left != 0 && before != begun_.end()) of = before->second;
        walk_.apply(m);
        const bool broken = m.doses % vial_ != 0;
        const FirstDose now{Instant(m.at), m.entry, false};
        if (broken && (m.op == Op::give || m.op == Op::waste)) {
            const auto [it, is_new] = begun_.try_emplace(m.source, now);
            if (!is_new && (left == 0 || m.doses > left)) it->second = now;  // from the next vial, too
            if (!of) of = now;
        }
        if (broken && (m.op == Op::move || m.op == Op::receive)) {
            FirstDose there{Instant(m.at), m.entry, true};
            if (const auto from = begun_.find(m.source); m.op == Op::move && from != begun_.end()) there = from->second;
            const auto [it, is_new] = begun_.try_emplace(m.target, there);
            if (!is_new && (!had || there.at < it->second.at)) it->second = there;
        }
        if (broken && m.op == Op::count) begun_.try_emplace(m.source, FirstDose{Instant(m.at), m.entry, true});
        for (const std::int64_t h : {m.source, m.target})
            if (h && walk_.doses(h) % vial_ == 0) begun_.erase(h);
        return of;
    }
    std::optional<FirstDose> in_use(std::int64_t holding) const {
        const auto it = begun_.find(holding);
        return it == begun_.end() ? std::nullopt : std::optional(it->second);
    }
    std::int64_t doses(std::int64_t holding) const { return walk_.doses(holding); }

private:
    const std::int64_t vial_;
    ledger::StockWalk walk_;
    std::map<std::int64_t, FirstDose> begun_;  // by holding
};

std::int64_t doses_of_vial(const Product* product) {
    return product && product->doses_per_vial ? product->doses_per_vial->count() : 0;
}

}  // namespace

std::optional<FirstDose> first_dose_of_vial(const World& w, const HoldingKey& key) {
    const std::int64_t vial = doses_of_vial(w.known.product(key.product));
    if (vial <= 1) return std::nullopt;
    for (const auto& lot : w.lots_of(key.lot, key.product)) {
        const auto holding = w.store.holding(lot.lot, key.place, key.fund, key.mark);
        if (!holding) continue;
        VialWalk walk(vial);
        for (const auto& m : w.store.movements(lot.lot))
            if (m.at <= w.at && w.known.is_known(m.entry)) walk.apply(m);
        if (const auto first = walk.in_use(*holding)) return first;
    }
    return std::nullopt;
}

std::vector<GivenPast> given_past_by_the_book(const World& w, const ledger::Store::LotRow& lot) {
    std::vector<GivenPast> out;
    const Product* product = w.known.product(lot.product);
    const auto period = product ? opening_period(*product) : std::nullopt;
    if (!period) return out;
    const std::int64_t vial = doses_of_vial(product);
    VialWalk walk(vial);
    std::set<std::int64_t> opened;  // holdings of vials of which that is noted
    for (const auto& m : w.store.movements(lot.lot)) {
        if (m.at > w.at || !w.known.is_known(m.entry)) continue;
        const bool into_empty = m.target && walk.doses(m.target) <= 0;
        const auto first = walk.apply(m);
        if (m.op == Op::beyond_use) {
            const auto use = w.store.fact<BeyondUse>(m.entry);
            if (use.event ? opens_vial(*use.event) : walk.doses(m.source) <= vial) opened.insert(m.source);
        }
        if (m.op == Op::move && opened.contains(m.source)) opened.insert(m.target);
        if (m.op == Op::move && into_empty && !opened.contains(m.source)) opened.erase(m.target);
        if (m.op == Op::give && first && !opened.contains(m.source) && Instant(m.at) >= first->at + period->period) {
            const auto same = std::ranges::find_if(out, [&](const GivenPast& one) {
                return one.holding == m.source && one.first.entry == first->entry;
            });
            auto& past = same == out.end() ? out.emplace_back(GivenPast{m.source, *first, {}, {}}) : *same;
            past.usable_until = first->at + period->period;
            past.given.push_back({m.entry, Instant(m.at), Doses(m.doses)});
        }
        if (m.source && walk.doses(m.source) <= 0) opened.erase(m.source);
    }
    return out;
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

namespace {

/// Of openings that are dated back; `named`: gains the gives.
std::vector<Remark> past_noted_vials(const World& w, const ledger::Store::LotRow& lot, std::set<EntryNumber>& named) {
    std::vector<Remark> out;
    const Product* product = w.known.product(lot.product);
    if (!product || !opening_period(*product)) return out;
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
                known(m)) {
                given.add(m.entry, m.doses);
                named.insert(m.entry);
            }
        if (given.any())
            out.push_back(words::given_past_vial(given.words(), lot.product, lot.number, from.place,
                                                 text::quoted(to.mark), usable_words(*until, w.known.zone()),
                                                 w.known.zone().local_text(Instant(vial.at)), vial.entry));
    }
    return out;
}

/// Where no opening is noted.
std::vector<Remark> past_by_the_book(const World& w, const ledger::Store::LotRow& lot,
                                     const std::set<EntryNumber>& but) {
    std::vector<Remark> out;
    const auto holdings = w.store.holdings(lot.lot);
    for (const GivenPast& past : given_past_by_the_book(w, lot)) {
        GivenDoses given;
        for (const auto& one : past.given)
            if (!but.contains(one.entry)) given.add(one.entry, one.doses.count());
        if (!given.any()) continue;
        const auto there = std::ranges::find(holdings, past.holding, &ledger::HoldingRow::holding);
        out.push_back(words::given_past_by_the_book(
            given.words(), lot.product, lot.number, there == holdings.end() ? std::string() : there->place,
            w.known.zone().local_text(past.first.at), past.first.entry,
            usable_words(past.usable_until, w.known.zone())));
    }
    return out;
}

}  // namespace

std::vector<Remark> given_past_vials(const World& w, const ledger::Store::LotRow& lot) {
    std::set<EntryNumber> named;
    auto out = past_noted_vials(w, lot, named);
    std::ranges::move(past_by_the_book(w, lot, named), std::back_inserter(out));
    return out;
}

}  // namespace coldtally::answers
