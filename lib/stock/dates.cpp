#include "stock/dates.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "stock/lists.hpp"

namespace coldtally::answers {

namespace {

using Of = std::pair<std::string, std::string>;  // product and fund

/// How far those on keep, in their order, will be used up: at each one's end so many will have been given as the rate
/// says.
void forecast(const std::vector<DatesAnswer::Row*>& in_order, std::int64_t given, std::int64_t at) {
    std::int64_t used = 0;
    for (auto* row : in_order) {
        const std::int64_t left_s = std::max<std::int64_t>(0, row->limits.front().until.seconds_since_1970() - at);
        const std::int64_t by_then = (Rational(given) * Rational(left_s) / Rational(use_rate_days * 86400)).floor();
        const std::int64_t use = std::clamp<std::int64_t>(by_then - used, 0, row->doses.count());
        used += use;
        row->left_over = Doses(row->doses.count() - use);
    }
}

}  // namespace

DatesAnswer dates(World& w) {
    DatesAnswer out;
    out.head = w.head;
    std::map<Of, DatesAnswer::Use> use;
    for (const auto& lot : w.lots()) {
        std::map<std::int64_t, std::string> fund_of;
        for (const auto& h : w.store.holdings(lot.lot)) fund_of[h.holding] = h.fund;
        for (const auto& m : w.store.movements(lot.lot)) {
            if (!w.known.is_known(m.entry) || m.at > w.at) continue;
            auto& u = use[{lot.product, fund_of[m.source ? m.source : m.target]}];
            if (m.op == ledger::MovementOp::receive && (!u.first_received || Instant(m.at) < *u.first_received))
                u.first_received = Instant(m.at);
            if (m.op == ledger::MovementOp::give && m.at > w.at - use_rate_days * 86400)
                u.given = u.given + Doses(m.doses);
        }
    }
    for (const auto& lot : w.lots_with_doses()) {
        timeline::LotTimeline timeline(w.store, w.known, w.engine, lot);
        UseCollector collector(w.store, w.known);
        timeline.run(w.at, true, &collector);
        for (const auto& [id, h] : timeline.holdings()) {
            if (h.doses == 0) continue;
            const auto judged = judge(w, lot, h, collector);
            DatesAnswer::Row row;
            row.holding = h.key;
            row.doses = judged.doses;
            row.list = judged.list;
            row.in_doubt = judged.in_doubt;
            row.notes = said_of(judged.told, {Note::Kind::beside, Note::Kind::vial});
            row.out_of_range_s = h.history.total.warm.estimate + h.history.total.cold.estimate;
            row.limits = in_order(w.expired_from(lot), collector.limits(h.key));
            row.last_use = judged.last_use;
            out.holdings.push_back(std::move(row));
        }
    }
    const auto rank = [](const DatesAnswer::Row& r) {
        return std::make_tuple(r.holding.product, r.holding.fund, do_not_use(r.list, r.in_doubt, r.notes),
                               r.limits.front().until, -r.out_of_range_s, r.holding);
    };
    std::sort(out.holdings.begin(), out.holdings.end(),
              [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
    std::map<Of, std::vector<DatesAnswer::Row*>> in_order;
    for (auto& row : out.holdings) {
        if (do_not_use(row.list, row.in_doubt, row.notes)) continue;
        auto& rows = in_order[{row.holding.product, row.holding.fund}];
        rows.push_back(&row);
        row.order = static_cast<std::int64_t>(rows.size());
    }
    for (auto& [of, u] : use) {
        u.product = of.first;
        u.fund = of.second;
        forecast(in_order[of], u.given.count(), w.at);
        for (const auto* row : in_order[of]) {
            u.on_keep = u.on_keep + row->doses;
            u.left_over = u.left_over + row->left_over;
        }
        if (u.given.count() > 0 || u.on_keep.count() > 0) out.use.push_back(u);
    }
    return out;
}

}  // namespace coldtally::answers
