#include "stock/beside_notes.hpp"

#include <algorithm>

#include "conditions/fit.hpp"
#include "stock/doubt.hpp"
#include "stock/may_be_more.hpp"
#include "stock/notes.hpp"

namespace coldtally::answers {

namespace {

/// What came with a note of a receive, by which the way is found again.
constexpr std::string_view way_start = "the way: ";
constexpr std::string_view no_way = "none, received at the instant they left";

/// Guidance has cleared these doses, and since what it answered nothing is unsure of the places where their lot was.
bool is_cleared(World& w, const ListsAnswer::Row& row, const Product& product, const StayCollector& seen) {
    const OpenExposure& open = row.history.open;
    if ((open.warm + open.cold + open.frozen).sign() > 0 || open.points > 0) return false;
    const auto cleared = seen.cleared_through.find(row.holding);
    if (cleared == seen.cleared_through.end()) return false;
    for (const auto& [place, stays] : seen.stays) {
        if (!row.history.places.contains(place)) continue;
        for (const auto& [from, until] : stays) {
            if (until <= cleared->second) continue;
            const Exposure since =
                w.engine.over(product, place, std::max(from, cleared->second), until, until == w.at);
            for (const SideExposure* side : {&since.warm, &since.cold, &since.frozen})
                if (side->at_most > side->estimate) return false;
        }
    }
    return true;
}

void uncertain(World& w, const ListsAnswer::Row& row, const Product& product, const StayCollector& seen,
               std::vector<std::string>& out) {
    if (row.list != List::keep || is_cleared(w, row, product, seen)) return;
    for (auto& said : more_words(row.history, product)) out.push_back(std::move(said));
}

void still_out(World& w, const ListsAnswer::Row& row, std::vector<std::string>& out) {
    const std::string& place = row.holding.place;
    const auto last = last_out_of_range(w, place);
    const std::int64_t since = last ? w.awaited(place).seconds() : 0;
    if (since <= 0) return;
    out.push_back("OUT OF RANGE WHEN LAST READ: " + place + " was " + *last + ", nothing was read in the " +
                  duration_words(Rational(since), true) + " since, and no figure counts that time: read it now");
}

void suits(const World& w, const ListsAnswer::Row& row, const Product& product, std::vector<std::string>& out) {
    const Place* place = w.known.place(row.holding.place);
    if (!place) return;
    const FitResult fits = fit(place->range, product);
    if (fits.fit == Fit::suited) return;
    const std::string ranges = row.holding.place + " is kept at " + range_words(place->range) + ", ";
    std::string text;
    if (fits.fit == Fit::allowance) {  // thawed stock stands there by right, and must not be put back
        const std::size_t i = *fits.allowance;
        const auto& used = row.history.total.allowances;
        text = "COUNTS AGAINST ALLOWANCE " + std::to_string(i + 1) + ": " + ranges + row.holding.product +
               " is stored at " + range_words(product.range) + "; " +
               duration_words(i < used.size() ? used[i] : Rational(0), true) + " used of " +
               duration_words(Rational((*product.allowances)[i].seconds.seconds()), false) + " in all";
        if (is_frozen(product)) text += ". What has thawed is not frozen again";
    } else {
        text = "DOES NOT SUIT: " + ranges + row.holding.product + " must be at " + range_words(product.range);
    }
    if (row.history.total.seconds[static_cast<std::size_t>(Class::near)].sign() > 0)
        text += "; time near a reading is near one in the range of the place, which says nothing of this product's";
    out.push_back(std::move(text));
}

/// Receives that brought a history of which all places are among those of these doses.
void ways(const World& w, const ListsAnswer::Row& row, std::vector<std::string>& out) {
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
        const std::string note = entry->note.value_or("");
        const auto at = note.rfind(way_start);  // the last words of a note that receiving made
        const std::string said =
            at == std::string::npos ? "how long it was is not known" : note.substr(at + way_start.size());
        if (said == no_way) continue;
        out.push_back("THE WAY FROM ANOTHER SITE IS IN NO FIGURE (entry " + std::to_string(m.entry) + "): " + said);
    }
}

}  // namespace

std::vector<std::string> condemned_elsewhere(const World& w, const std::string& product, const std::string& lot,
                                             const std::set<EntryNumber>& but) {
    std::vector<std::string> out;
    for (const auto& g : w.known.guidance)
        if (g.fact.product == product && g.fact.lot == lot && g.fact.verdict == Verdict::discard &&
            g.fact.through <= w.head.at && !but.contains(g.entry))
            out.push_back(g.fact.issuer + ", " + g.fact.reference + ", through " +
                          w.known.zone().local_text(g.fact.through) + (g.fact.place ? ", in " + *g.fact.place : "") +
                          (g.fact.mark && !g.fact.mark->empty() ? ", mark " + *g.fact.mark : "") + " (entry " +
                          std::to_string(g.entry) + ")");
    return out;
}

std::string way_words(Instant left, Instant received, const Zone& zone) {
    if (left == received) return std::string(way_start) + std::string(no_way);
    if (left > received)
        return std::string(way_start) + "not known: by the handover they left later than they were received";
    return std::string(way_start) + duration_words(Rational((received - left).seconds()), true) + " from " +
           zone.local_text(left) + ", of which nothing is known";
}

void besides_of_history(World& w, const HoldingKey& holding, const History& history, const StayCollector& seen,
                        std::int64_t at, std::vector<std::string>& out) {
    const auto id = w.store.lot(holding.product, holding.lot);
    if (!id) return;
    const ledger::Store::LotRow lot{*id, holding.product, holding.lot};
    const auto& clearings = seen.clearings.of(holding);
    for (auto& said : learnt_after(w, lot, clearings)) out.push_back(std::move(said));
    for (auto& said : displays_shown(w, lot, history.places, at, clearings)) out.push_back(std::move(said));
    for (const Settled& settled : settled_of(w, holding, history, seen)) out.push_back(settled_words(settled));
}

std::vector<std::string> beside_notes(World& w, const ListsAnswer::Row& row, const StayCollector& seen) {
    std::vector<std::string> out;
    const Product* product = w.known.product(row.holding.product);
    if (!product || row.list == List::discard) return out;
    besides_of_history(w, row.holding, row.history, seen, w.at, out);
    uncertain(w, row, *product, seen, out);
    still_out(w, row, out);
    suits(w, row, *product, out);
    for (const auto& said :
         condemned_elsewhere(w, row.holding.product, row.holding.lot, row.history.condemned_by))
        out.push_back("CONDEMNED ELSEWHERE: guidance says discard for other doses of this lot: " + said +
                      ". Ask its issuer about these before they are used");
    ways(w, row, out);
    if (const auto* came = seen.not_come.of(row.holding))
        for (const auto& [entry, time] : *came)
            if (!time.cleared) out.push_back(not_come_words(entry, time.seconds));
    return out;
}

}  // namespace coldtally::answers
