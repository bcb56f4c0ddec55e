#include "stock/loans.hpp"

#include <algorithm>
#include <map>
#include <tuple>

namespace coldtally::answers {

std::vector<Entry> duties(World& w, std::string_view kind) {
    std::vector<Entry> out;
    w.store.for_each_duty(kind, w.head.last_entry, [&](Entry e) {
        if (w.known.is_known(e.number) && *e.at <= w.head.at) out.push_back(std::move(e));
    });
    std::sort(out.begin(), out.end(),
              [](const Entry& a, const Entry& b) { return std::pair(*a.at, a.number) < std::pair(*b.at, b.number); });
    return out;
}

std::set<EntryNumber> gives_on_loan(World& w) {
    std::set<EntryNumber> out;
    for (const auto& e : duties(w, Loan::kind)) out.insert(std::get<Loan>(e.fact).give);
    return out;
}

namespace {

Date days_after(Date date, std::int64_t days) {
    for (std::int64_t i = 0; i < days; ++i) date = date.next();
    return date;
}

}  // namespace

LoansAnswer loans(World& w, bool all) {
    LoansAnswer out;
    out.head = w.head;
    if (const auto* rules = w.known.rules()) out.repay_within_days = rules->fact.repay_loans_within_days;
    std::map<EntryNumber, std::vector<LoansAnswer::Payment>> payments;
    for (const auto& e : duties(w, Repayment::kind)) {
        const auto& r = std::get<Repayment>(e.fact);
        payments[r.loan].push_back({e.number, *e.at, r.doses, r.with});
    }
    std::map<std::tuple<std::string, std::string, std::string>, Doses> open;
    for (const auto& e : duties(w, Loan::kind)) {
        const auto& loan = std::get<Loan>(e.fact);
        if (!w.known.is_known(loan.give)) continue;  // the give is void: nothing was lent
        const auto given = w.store.named_entry(loan.give);
        const auto& give = std::get<Give>(given.fact);
        LoansAnswer::Row row;
        row.loan = e.number;
        row.give = loan.give;
        row.given = *given.at;
        row.holding = {give.place, give.product, give.lot, give.fund, give.mark};
        row.owed_by = loan.eligible;
        row.patient = give.patient;
        row.reason = loan.reason;
        row.lent = row.open = give.doses;
        row.payments = payments[e.number];
        for (const auto& p : row.payments) row.open = row.open - p.doses;
        const bool repaid = row.open.count() <= 0;
        row.age = (repaid && !row.payments.empty() ? row.payments.back().at : w.head.at) - row.given;
        if (out.repay_within_days) {
            row.due =
                w.known.zone().end_of_day(days_after(w.known.zone().local(row.given).date, *out.repay_within_days));
            row.overdue = !repaid && w.head.at >= *row.due;
        }
        if (!repaid) {
            auto& sum = open[{give.product, give.fund, loan.eligible}];
            sum = sum + row.open;
        }
        if (all || !repaid) out.loans.push_back(std::move(row));
    }
    std::sort(out.loans.begin(), out.loans.end(),
              [](const auto& a, const auto& b) { return std::pair(a.given, a.loan) < std::pair(b.given, b.loan); });
    for (const auto& [key, doses] : open)
        out.balances.push_back({std::get<0>(key), std::get<1>(key), std::get<2>(key), doses});
    return out;
}

}  // namespace coldtally::answers
