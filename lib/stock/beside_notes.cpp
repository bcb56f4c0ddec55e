#include "stock/beside_notes.hpp"

#include <algorithm>

#include "conditions/fit.hpp"
#include "stock/doubt.hpp"
#include "stock/may_be_more.hpp"
#include "stock/notes.hpp"
#include "stock/restated.hpp"
#include "stock/sender_note.hpp"
#include "stock/way_note.hpp"
#include "words/stock.hpp"

namespace coldtally::answers {

namespace {

/// Guidance has cleared these doses, and since what it answered nothing is unsure of the places where their lot was.
bool is_cleared(World& w, const ListsAnswer::Row& row, const Product& product, const StayCollector& seen) {
    const OpenExposure& open = row.history.open;
    if ((open.warm + open.cold + open.frozen).sign() > 0 || open.points > 0) return false;
    const auto cleared = seen.clearings.all_through(row.holding);
    if (!cleared) return false;
    for (const auto& [place, stays] : seen.stays) {
        if (!row.history.places.contains(place)) continue;
        for (const auto& [from, until] : stays) {
            if (until <= *cleared) continue;
            const Exposure since =
                w.engine.over(product, place, std::max(from, *cleared), until, until == w.at);
            for (const SideExposure* side : {&since.warm, &since.cold, &since.frozen})
                if (side->at_most > side->estimate) return false;
        }
    }
    return true;
}

void uncertain(World& w, const ListsAnswer::Row& row, const Product& product, const StayCollector& seen,
               std::vector<Remark>& out) {
    if (row.list != List::keep || is_cleared(w, row, product, seen)) return;
    for (auto& said : more_words(row.history, product)) out.push_back(std::move(said));
}

void still_out(World& w, const ListsAnswer::Row& row, std::vector<Remark>& out) {
    const std::string& place = row.holding.place;
    const auto last = last_out_of_range(w, place);
    const std::int64_t since = last ? w.awaited(place).seconds() : 0;
    if (since <= 0) return;
    out.push_back(words::out_when_last_read(place, *last, duration_words(Rational(since), true)));
}

void suits(const World& w, const ListsAnswer::Row& row, const Product& product, std::vector<Remark>& out) {
    const Place* place = w.known.place(row.holding.place);
    if (!place) return;
    const FitResult fits = fit(place->range, product);
    if (fits.fit == Fit::suited) return;
    const auto said = [&] {
        const Field there = range_words(place->range), wanted = range_words(product.range);
        if (fits.fit != Fit::allowance)
            return words::does_not_suit(row.holding.place, there, row.holding.product, wanted);
        const std::size_t i = *fits.allowance;
        const auto& used = row.history.total.allowances;
        // thawed stock stands there by right, and must not be put back
        return (is_frozen(product) ? words::counts_against_thawed : words::counts_against_allowance)(
            i + 1, row.holding.place, there, row.holding.product, wanted,
            duration_words(i < used.size() ? used[i] : Rational(0), true),
            duration_words(Rational((*product.allowances)[i].seconds.seconds()), false));
    }();
    const bool near = row.history.total.seconds[static_cast<std::size_t>(Class::near)].sign() > 0;
    out.push_back(near ? words::near_says_nothing(said) : said);
}

/// Receives that brought a history of which all places are among those of these doses.
void ways(const World& w, const ListsAnswer::Row& row, std::vector<Remark>& out) {
    const auto& been = row.history.places;
    if (std::none_of(been.begin(), been.end(), [](const auto& p) { return p.find('/') != std::string::npos; })) return;
    const auto id = w.store.lot(row.holding.product, row.holding.lot);
    if (!id) return;
    for (const auto& m : w.store.movements(*id)) {
        if (m.op != ledger::MovementOp::receive || !m.flag || m.at > w.at || !w.known.is_known(m.entry)) continue;
        const auto entry = w.store.entry(m.entry, false);
        const auto& receive = std::get<Receive>(entry->fact);
        const auto& places = receive.handover->history.places;
        if (!std::includes(been.begin(), been.end(), places.begin(), places.end()) || !been.contains(receive.place))
            continue;
        if (const auto way = way_of(entry->note)) out.push_back(words::way_in_no_figure(m.entry, *way));
    }
}

Remark condemning(const ledger::Dated<Guidance>& g, const Zone& zone) {
    const Guidance& f = g.fact;
    const std::string through = zone.local_text(f.through);
    const bool mark = f.mark && !f.mark->empty();
    if (f.place && mark)
        return words::condemning_in_mark(f.issuer, f.reference, through, *f.place, *f.mark, g.entry);
    if (f.place) return words::condemning_in(f.issuer, f.reference, through, *f.place, g.entry);
    if (mark) return words::condemning_mark(f.issuer, f.reference, through, *f.mark, g.entry);
    return words::condemning(f.issuer, f.reference, through, g.entry);
}

}  // namespace

std::vector<Remark> condemned_elsewhere(const World& w, const std::string& product, const std::string& lot,
                                        const std::set<EntryNumber>& but) {
    std::vector<Remark> out;
    for (const auto& g : w.known.guidance)
        if (g.fact.product == product && g.fact.lot == lot && g.fact.verdict == Verdict::discard &&
            g.fact.through <= w.head.at && !but.contains(g.entry))
            out.push_back(condemning(g, w.known.zone()));
    return out;
}

void besides_of_history(World& w, const HoldingKey& holding, const History& history, const StayCollector& seen,
                        std::int64_t at, std::vector<Remark>& out) {
    const auto id = w.store.lot(holding.product, holding.lot);
    if (!id) return;
    const ledger::Store::LotRow lot{*id, holding.product, holding.lot};
    const auto& clearings = seen.clearings.of(holding);
    for (auto& said : lapsed_of(w, holding, history, seen)) out.push_back(std::move(said));
    for (auto& said : learnt_after(w, lot, clearings)) out.push_back(std::move(said));
    for (auto& held : held_after(w, history, clearings)) out.push_back(std::move(held.said));
    for (auto& said : displays_shown(w, lot, history.places, at, clearings)) out.push_back(std::move(said));
    for (auto& said : restated_since(w, holding, history)) out.push_back(std::move(said));
    if (came_from_elsewhere(history))
        for (auto& said : sender_words(sender_said(w, *id), holding, history, seen.clearings))
            out.push_back(std::move(said));
    for (const Settled& settled : settled_of(w, holding, history, seen)) out.push_back(settled_words(settled));
}

std::vector<Remark> beside_notes(World& w, const ListsAnswer::Row& row, const StayCollector& seen) {
    std::vector<Remark> out;
    const Product* product = w.known.product(row.holding.product);
    if (!product || row.list == List::discard) return out;
    besides_of_history(w, row.holding, row.history, seen, w.at, out);
    uncertain(w, row, *product, seen, out);
    if (const auto unknown = unknown_let_pass(row.history, w.known.unmonitored_limit())) out.push_back(*unknown);
    still_out(w, row, out);
    suits(w, row, *product, out);
    for (const auto& said : condemned_elsewhere(w, row.holding.product, row.holding.lot, row.history.condemned_by))
        out.push_back(words::condemned_elsewhere(said));
    ways(w, row, out);
    if (const auto* came = seen.not_come.of(row.holding))
        for (const auto& [entry, time] : *came)
            if (!time.cleared) out.push_back(not_come_words(entry, time.seconds));
    return out;
}

}  // namespace coldtally::answers
