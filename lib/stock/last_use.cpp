#include "stock/last_use.hpp"

#include <algorithm>

#include "quantities/calendar.hpp"
#include "question/said.hpp"
#include "stock/opened_vials.hpp"
#include "words/general.hpp"
#include "words/stock.hpp"

namespace coldtally::answers {

void UseCollector::receives(const ledger::Movement& m, const timeline::Holding& target, const History& incoming) {
    StayCollector::receives(m, target, incoming);
    UseLimits own;
    if (incoming.use_by) own.push_back({{UseLimitKind::handover, m.entry, *incoming.use_by}, false});
    put_in(target, own);
}

void UseCollector::moves(const ledger::Movement& m, const timeline::Holding& source, const timeline::Holding& target) {
    StayCollector::moves(m, source, target);
    put_in(target, UseLimits(of_[source.key]));
}

void UseCollector::shortens(const ledger::Movement& m, const timeline::Holding& h, Instant use_by) {
    const auto use = store_.fact<BeyondUse>(m.entry);
    const Product* product = known_.product(h.key.product);
    // a use-by in words of its own is a vial's where no more doses than one vial holds were there
    const bool one_vial = product && product->doses_per_vial && h.doses <= product->doses_per_vial->count();
    of_[h.key].push_back({{UseLimitKind::beyond_use, m.entry, use_by}, use.event ? opens_vial(*use.event) : one_vial});
}

void UseCollector::guides(const ledger::Dated<Guidance>& g, const timeline::Holding& h, bool clears) {
    StayCollector::guides(g, h, clears);
    if (g.fact.verdict == Verdict::use_by)
        of_[h.key].push_back({{UseLimitKind::guidance, g.entry, known_.zone().end_of_day(*g.fact.use_by)}, false});
}

UseLimits UseCollector::limits(const HoldingKey& holding) const {
    const auto found = of_.find(holding);
    return found == of_.end() ? UseLimits() : found->second;
}

void UseCollector::put_in(const timeline::Holding& target, const UseLimits& more) {
    auto& there = of_[target.key];
    if (target.doses == 0) there.clear();
    for (const auto& limit : more)
        if (std::none_of(there.begin(), there.end(), [&](const auto& l) { return l.entry == limit.entry; }))
            there.push_back(limit);
}

UseCollector use_of(const World& w, const ledger::Store::LotRow& lot) {
    UseCollector out(w.store, w.known);
    timeline::LotTimeline timeline(w.store, w.known, lot);
    timeline.run(w.at, false, &out);
    return out;
}

std::vector<DatesAnswer::Limit> in_order(Instant expired_from, const UseLimits& limits) {
    std::vector<DatesAnswer::Limit> out{{UseLimitKind::expiry, std::nullopt, expired_from}};
    out.insert(out.end(), limits.begin(), limits.end());
    std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.until < b.until; });
    return out;
}

LastUse last_use(const Zone& zone, const DatesAnswer::Limit& first) {
    LastUse out;
    out.until = first.until;
    out.day = zone.local(first.until - Duration(1)).date;
    out.whole_day = zone.end_of_day(out.day) == first.until;
    out.set_by = first.what;
    out.entry = first.entry;
    return out;
}

LastUse last_use(const Zone& zone, Instant expired_from, const UseLimits& limits) {
    return last_use(zone, in_order(expired_from, limits).front());
}

namespace {

bool is_whole_day(Instant until, const Zone& zone) {
    return last_use(zone, {UseLimitKind::expiry, std::nullopt, until}).whole_day;
}

}  // namespace

Field last_day_words(Instant until, const Zone& zone) {
    const std::string last = last_day_text(until, zone);
    return is_whole_day(until, zone) ? Field(last) : Field(words::until(last));
}

std::string last_day_text(Instant until, const Zone& zone) {
    if (is_whole_day(until, zone)) return zone.local(until - Duration(1)).date.text();
    return zone.local_text(until - Duration(zone.local(until).second_of_day % 60));
}

Remark usable_words(Instant until, const Zone& zone) {
    const LastUse use = last_use(zone, {UseLimitKind::expiry, std::nullopt, until});
    return use.whole_day ? words::through(use.day.text()) : words::until(zone.local_text(until));
}

Remark set_by_words(const LastUse& use) {
    const Remark limit = said::use_limit_words(use.set_by);
    return use.entry ? words::in_brackets(limit, words::entry(*use.entry)) : limit;
}

Remark last_use_words(const LastUse& use, const Zone& zone) {
    const Remark usable = usable_words(use.until, zone);
    return use.set_by == UseLimitKind::expiry ? words::usable_by_expiry(usable)
                                              : words::usable_by(usable, set_by_words(use));
}

}  // namespace coldtally::answers
