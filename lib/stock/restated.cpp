#include "stock/restated.hpp"

#include <algorithm>

#include "stock/given_doses.hpp"
#include "stock/handover.hpp"
#include "stock/how_far.hpp"
#include "stock/review.hpp"
#include "stock/way_note.hpp"
#include "words/stock.hpp"

namespace coldtally::answers {

namespace {

bool is_same(const Handover& a, const Handover& b) {
    return a.history == b.history && a.allowance_seconds == b.allowance_seconds;
}

/// Does a history hold all that another tells of time out of range?
bool holds(const History& whole, const History& part) {
    const Exposure &a = whole.total, &b = part.total;
    const auto side = [](const SideExposure& x, const SideExposure& y) {
        return x.estimate >= y.estimate && x.at_most >= y.at_most;
    };
    bool out = side(a.warm, b.warm) && side(a.cold, b.cold) && side(a.frozen, b.frozen) && a.points >= b.points &&
               !goes_beyond(a, b) &&
               a.seconds[static_cast<std::size_t>(Class::unmonitored)] >=
                   b.seconds[static_cast<std::size_t>(Class::unmonitored)];
    for (std::size_t i = 0; i < b.allowances.size(); ++i)
        out = out && (i < a.allowances.size() ? a.allowances[i] >= b.allowances[i] : b.allowances[i].sign() == 0);
    return out;
}

/// Is that of a receive among what these doses have been through?
bool came_by(const History& history, const Received& r) {
    const auto& from = r.receive.handover->history.places;
    return history.places.contains(r.receive.place) &&
           std::includes(history.places.begin(), history.places.end(), from.begin(), from.end());
}

/// Receives of a lot with handovers that name a transfer, by number.
std::vector<Received> received(const World& w, std::int64_t lot) {
    std::vector<Received> out;
    for (const auto& m : w.store.movements(lot)) {
        if (m.op != ledger::MovementOp::receive || !m.flag || !w.known.is_known(m.entry)) continue;
        const auto entry = w.store.entry(m.entry, false);
        if (std::string name = handover_of_note(entry->note); !name.empty())
            out.push_back({m.entry, Instant(m.at), std::move(name), std::get<Receive>(entry->fact)});
    }
    std::ranges::sort(out, {}, &Received::entry);
    return out;
}

/// Pairs of an older and the last of one transfer, where they differ.
std::vector<std::pair<Received, Received>> restated(const World& w, std::int64_t lot) {
    const auto all = received(w, lot);
    std::vector<std::pair<Received, Received>> out;
    for (auto older = all.begin(); older != all.end(); ++older) {
        const auto last = std::find_if(all.rbegin(), all.rend(),
                                       [&](const Received& r) { return r.handover == older->handover; });
        if (last->entry != older->entry && !is_same(*older->receive.handover, *last->receive.handover))
            out.emplace_back(*older, *last);
    }
    return out;
}

}  // namespace

std::vector<Received> received_otherwise(const World& w, const std::string& product, const std::string& lot,
                                         const std::string& name, const Handover& handover) {
    std::vector<Received> out;
    const auto id = w.store.lot(product, lot);
    if (!id || name.empty()) return out;
    for (auto& r : received(w, *id))
        if (r.handover == name && !is_same(*r.receive.handover, handover)) out.push_back(std::move(r));
    return out;
}

Remark told_words(const History& history) {
    const auto out = exposure_words(history);
    return out ? *out : words::nothing_out_of_range_told();
}

std::vector<std::pair<EntryNumber, Doses>> given_by_older(World& w, const Received& r, const Handover& newer) {
    std::vector<std::pair<EntryNumber, Doses>> out;
    for (const auto& lot : w.lots_of(r.receive.lot, r.receive.product))
        for (const auto& row : review_lot(w, lot, true))
            if (row.at >= r.at && came_by(row.history, r) && !holds(row.history, newer.history))
                out.emplace_back(row.entry, row.doses);
    return out;
}

std::vector<Remark> restated_since(const World& w, const HoldingKey& holding, const History& history) {
    std::vector<Remark> out;
    const auto& been = history.places;
    const auto elsewhere = [](const std::string& place) { return place.find('/') != std::string::npos; };
    if (std::ranges::none_of(been, elsewhere)) return out;
    const auto lot = w.store.lot(holding.product, holding.lot);
    if (!lot) return out;
    for (const auto& [older, last] : restated(w, *lot))
        if (came_by(history, older) && !holds(history, last.receive.handover->history))
            out.push_back(words::handover_restated(older.entry, last.entry,
                                                   told_words(last.receive.handover->history)));
    return out;
}

std::vector<Remark> given_before_restated(World& w, const ledger::Store::LotRow& lot) {
    std::vector<Remark> out;
    for (const auto& [older, last] : restated(w, lot.lot)) {
        GivenDoses given;
        for (const auto& [entry, doses] : given_by_older(w, older, *last.receive.handover))
            given.add(entry, doses.count());
        if (given.any())
            out.push_back(words::given_before_restated(given.words(), older.entry, last.entry,
                                                       told_words(last.receive.handover->history)));
    }
    return out;
}

}  // namespace coldtally::answers
