// Readiness: vials of several doses that must have been opened, and nothing says when.
#include <algorithm>
#include <set>

#include "coldtally/quantities.hpp"
#include "question/said.hpp"
#include "stock/last_use.hpp"
#include "stock/loans.hpp"
#include "stock/opened_vials.hpp"
#include "stock/vial_in_use.hpp"
#include "upkeep/readiness.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

namespace {

using Matter = ReadinessAnswer::Matter;

/// Since when the doses of a holding are in no whole vials.
Instant not_whole_since(const World& w, const ledger::Store::LotRow& lot, std::int64_t holding,
                        const Product& product) {
    ledger::StockWalk walk;
    std::optional<std::int64_t> since;
    for (const auto& m : w.store.movements(lot.lot)) {
        if (m.at > w.at || !w.known.is_known(m.entry)) continue;
        walk.apply(m);
        if (m.source != holding && m.target != holding) continue;
        if (beside_whole_vials(product, walk.doses(holding)) == 0)
            since.reset();
        else if (!since)
            since = m.at;
    }
    return Instant(since.value_or(w.at));
}

bool has_doses(const World& w, const ledger::Store::LotRow& lot) {
    const auto walk = w.stock(lot);
    return std::any_of(walk.all().begin(), walk.all().end(), [](const auto& h) { return h.second > 0; });
}

/// Gives of which a step is noted.
std::set<EntryNumber> followed_gives(World& w) {
    std::set<EntryNumber> out;
    for (const auto& e : duties(w, FollowUp::kind)) out.insert(std::get<FollowUp>(e.fact).give);
    return out;
}

/// Doses given when the vial would have been past its use, of which no step is noted.
void inspect_given(Inspection& in, const ledger::Store::LotRow& lot, const std::set<EntryNumber>& followed) {
    for (const auto& past : given_past_by_the_book(in.w, lot)) {
        std::int64_t doses = 0;
        std::vector<Remark> details;
        for (const auto& one : past.given) {
            if (followed.contains(one.entry)) continue;
            doses += one.doses.count();
            details.push_back(words::entry_given(one.entry, in.local(one.at)));
        }
        in.looked(details.empty());
        if (details.empty()) continue;
        in.find(Inspection::Urgency::act, words::lot_of(lot.product, lot.number),
                words::given_from_vial_past(words::doses(doses), in.local(past.first.at), past.first.entry,
                                            usable_words(past.usable_until, in.w.known.zone())),
                past.usable_until)
            .details = std::move(details);
    }
}

}  // namespace

void inspect_vials(Inspection& in) {
    World& w = in.w;
    const auto lots = w.lots_with_doses();
    std::set<std::string> without;  // products whose period nobody has stated
    bool any = false;
    for (const auto& lot : lots) {
        const Product& product = *w.known.product(lot.product);
        if (opening_period(product))
            any = true;
        else if (product.doses_per_vial && product.doses_per_vial->count() > 1 && has_doses(w, lot))
            without.insert(lot.product);
    }
    std::optional<Remark> no_period;
    if (!without.empty()) no_period = words::no_period_of(words::names(without));
    if (!any && no_period) return in.not_judged(Matter::opened_vials, *no_period);
    in.topic(Matter::opened_vials,
             no_period ? words::semicolon(words::rule_opened_vials(), *no_period) : words::rule_opened_vials(),
             words::things_holdings);
    for (const auto& lot : lots) {
        const Product& product = *w.known.product(lot.product);
        const auto period = opening_period(product);
        if (!period) continue;
        const auto walk = w.stock(lot);
        const auto use = use_of(w, lot);
        for (const auto& h : w.store.holdings(lot.lot)) {
            const std::int64_t doses = walk.doses(h.holding);
            if (doses == 0) continue;
            const HoldingKey key{h.place, lot.product, lot.number, h.fund, h.mark};
            const auto missing = vial_without_opening(product, doses, use.limits(key));
            in.looked(!missing);
            if (!missing) continue;
            in.find(Inspection::Urgency::act, said::holding_words(key), *missing,
                    not_whole_since(w, lot, h.holding, product))
                .details = {words::good_after_event(duration_words(Rational(period->period.seconds()), false),
                                                    period->event),
                            words::note_opening_or_count};
        }
    }
    const auto followed = followed_gives(w);
    for (const auto& lot : w.lots()) inspect_given(in, lot, followed);
}

}  // namespace coldtally::answers
