#include "answers/beside_notes.hpp"

#include <algorithm>

#include "answers/fit.hpp"
#include "answers/notes.hpp"

namespace coldtally::answers {

namespace {

constexpr std::string_view starts[] = {"MAY BE OVER ",    "MAY HAVE BEEN ", "MAY HAVE FROZEN", "OUT OF RANGE WHEN ",
                                       "DOES NOT SUIT: ", "CONDEMNED ",     "THE WAY "};

/// What came with a note of a receive, by which the way is found again.
constexpr std::string_view way_start = "the way: ";

bool is_cleared(const World& w, const ListsAnswer::Row& row) {
    const OpenExposure& open = row.history.open;
    if ((open.warm + open.cold + open.frozen).sign() > 0 || open.points > 0) return false;
    return std::any_of(w.known.guidance.begin(), w.known.guidance.end(), [&](const auto& g) {
        return g.fact.product == row.holding.product && g.fact.lot == row.holding.lot && g.fact.through <= w.head.at &&
               g.fact.verdict != Verdict::discard;
    });
}

/// Does a band lie beyond the range on this side?
bool is_of_side(const Allowance& a, const Range& range, bool warm) {
    if (warm) return range.high && a.high.in(Scale::C) > range.high->in(Scale::C);
    return range.low && a.low.in(Scale::C) < range.low->in(Scale::C);
}

void side_note(const ListsAnswer::Row& row, const Product& product, bool warm, std::vector<std::string>& out) {
    const Exposure& total = row.history.total;
    const SideExposure& side = warm ? total.warm : total.cold;
    if (side.at_most <= side.estimate) return;
    const std::string what = warm ? "too warm" : "too cold";
    const std::string figures = what + " for at most " + duration_words(side.at_most, true) +
                                " by the values around it, " +
                                (side.estimate.sign() > 0 ? duration_words(side.estimate, true) : std::string("none")) +
                                " by the estimate, which alone decides the list";
    const auto bands = product.allowances.value_or(std::vector<Allowance>());
    std::optional<std::size_t> used;  // the first of this side that was, else the first there is
    for (const bool any : {false, true})
        for (std::size_t i = 0; i < bands.size() && !used; ++i)
            if (is_of_side(bands[i], product.range, warm) &&
                (any || (i < total.allowances.size() && total.allowances[i].sign() > 0)))
                used = i;
    if (!used) {
        if (side.estimate.sign() == 0) out.push_back("MAY HAVE BEEN OUT OF RANGE: " + figures);
        return;
    }
    const Rational allowed(bands[*used].seconds.seconds());
    if (side.at_most > allowed)
        out.push_back("MAY BE OVER ITS ALLOWANCE: " + figures + "; allowance " + std::to_string(*used + 1) +
                      " permits " + duration_words(allowed, false));
}

void uncertain(const World& w, const ListsAnswer::Row& row, const Product& product, std::vector<std::string>& out) {
    if (row.list != List::keep || is_cleared(w, row)) return;
    side_note(row, product, true, out);
    side_note(row, product, false, out);
    const SideExposure& frozen = row.history.total.frozen;
    if (frozen.estimate.sign() == 0 && frozen.at_most.sign() > 0)
        out.push_back("MAY HAVE FROZEN: at or below the freeze limit for at most " +
                      duration_words(frozen.at_most, true) + " by the values around it, which no list counts");
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
    std::string text = "DOES NOT SUIT: " + row.holding.place + " is kept at " + range_words(place->range) + ", " +
                       row.holding.product + " must be at " + range_words(product.range);
    if (fits.fit == Fit::allowance)
        text += "; time there counts against allowance " + std::to_string(*fits.allowance + 1);
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
        const auto at = note.find(way_start);
        const std::string said =
            at == std::string::npos ? "how long it was is not known"
                                    : note.substr(at + way_start.size(), note.find(';', at) - at - way_start.size());
        if (said.starts_with("none")) continue;
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
    if (left == received) return std::string(way_start) + "none, received at the instant they left";
    if (left > received)
        return std::string(way_start) + "not known: by the handover they left later than they were received";
    return std::string(way_start) + duration_words(Rational((received - left).seconds()), true) + " from " +
           zone.local_text(left) + ", of which nothing is known";
}

std::vector<std::string> beside_notes(World& w, const ListsAnswer::Row& row) {
    std::vector<std::string> out;
    const Product* product = w.known.product(row.holding.product);
    if (!product || row.list == List::discard) return out;
    uncertain(w, row, *product, out);
    still_out(w, row, out);
    suits(w, row, *product, out);
    for (const auto& said :
         condemned_elsewhere(w, row.holding.product, row.holding.lot, row.history.condemned_by))
        out.push_back("CONDEMNED ELSEWHERE: guidance says discard for other doses of this lot: " + said +
                      ". Ask its issuer about these before they are used");
    ways(w, row, out);
    return out;
}

bool is_beside_note(std::string_view note) {
    return std::any_of(std::begin(starts), std::end(starts), [&](auto start) { return note.starts_with(start); });
}

}  // namespace coldtally::answers
