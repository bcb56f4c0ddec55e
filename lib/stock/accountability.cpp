#include "stock/accountability.hpp"

#include <map>
#include <tuple>

#include "stock/loans.hpp"

namespace coldtally {

void AccountabilityAnswer::Figures::add(const Figures& o) {
    start += o.start;
    received += o.received;
    transferred_in += o.transferred_in;
    found += o.found;
    given += o.given;
    wasted += o.wasted;
    returned += o.returned;
    transferred_out += o.transferred_out;
    lost += o.lost;
    end += o.end;
    given_on_loan += o.given_on_loan;
}

bool AccountabilityAnswer::Figures::adds_up() const {
    return start + received + transferred_in + found == given + wasted + returned + transferred_out + lost + end;
}

namespace answers {

namespace {

using Figures = AccountabilityAnswer::Figures;
using ledger::MovementOp;

std::string reason_of(const ledger::Store& store, EntryNumber number) {
    const auto entry = store.named_entry(number);
    if (const auto* waste = std::get_if<Waste>(&entry.fact)) return waste->reason;
    return store.fact<Return>(number).reason;
}

/// `before`: doses of the holding just before the movement.
void add(Figures& f, const ledger::Movement& m, std::int64_t before, bool on_loan) {
    switch (m.op) {
        case MovementOp::receive: (m.flag ? f.transferred_in : f.received) += m.doses; break;
        case MovementOp::give:
            f.given += m.doses;
            if (on_loan) f.given_on_loan += m.doses;
            break;
        case MovementOp::waste: f.wasted += m.doses; break;
        case MovementOp::give_back: f.returned += m.doses; break;
        case MovementOp::transfer: f.transferred_out += m.doses; break;
        case MovementOp::count:
            if (before > 0)
                (m.doses > before ? f.found : f.lost) += m.doses > before ? m.doses - before : before - m.doses;
            break;
        case MovementOp::move:
        case MovementOp::beyond_use: break;
    }
}

}  // namespace

AccountabilityAnswer accountability(World& w, Instant from, Instant until) {
    AccountabilityAnswer out;
    out.head = w.head;
    out.from = from;
    out.until = until;
    out.head.window = window_words(from, until, w.head.at, w.known.zone());
    const Window window = window_of(w, from, until);
    const auto lent = gives_on_loan(w);
    std::map<std::pair<std::string, std::string>, Figures> by_fund;
    std::map<std::tuple<std::string, std::string, std::string>, AccountabilityAnswer::Loss> losses;
    for (const auto& lot : w.lots()) {
        std::map<std::int64_t, std::string> fund_of;
        for (const auto& h : w.store.holdings(lot.lot)) fund_of[h.holding] = h.fund;
        std::map<std::string, Figures> by_name;
        ledger::StockWalk walk;
        for (const auto& m : w.store.movements(lot.lot)) {
            if (!w.known.is_known(m.entry) || m.at > w.at) continue;
            if (m.at >= window.until && !(window.with_end && m.at == window.until) && m.at >= window.from) break;
            const std::string& fund = fund_of[m.source ? m.source : m.target];
            const std::int64_t before = m.source ? walk.doses(m.source) : 0;
            walk.apply(m);
            if (m.at >= window.from) {
                add(by_name[fund], m, before, lent.contains(m.entry));
                if (m.op == MovementOp::waste || m.op == MovementOp::give_back) {
                    auto& loss = losses[{lot.product, fund, reason_of(w.store, m.entry)}];
                    (m.op == MovementOp::waste ? loss.wasted : loss.returned) += m.doses;
                }
            } else if (m.op != MovementOp::move && m.op != MovementOp::beyond_use) {
                const std::int64_t target = m.target ? m.doses : 0;
                by_name[fund].start += target + (m.source ? walk.doses(m.source) - before : 0);
            }
        }
        for (const auto& [holding, doses] : walk.all()) by_name[fund_of[holding]].end += doses;
        for (const auto& [fund, figures] : by_name) {
            const bool any =
                figures.start || figures.received || figures.transferred_in || figures.found || figures.end;
            if (!any) continue;
            out.lots.push_back({lot.product, lot.number, fund, figures});
            by_fund[{lot.product, fund}].add(figures);
            out.total.add(figures);
        }
    }
    for (const auto& [key, figures] : by_fund) out.funds.push_back({key.first, "", key.second, figures});
    for (const auto& [key, loss] : losses)
        out.losses.push_back({std::get<0>(key), std::get<1>(key), std::get<2>(key), loss.wasted, loss.returned});
    return out;
}

}  // namespace answers
}  // namespace coldtally
