// Loans as JSON and as a table.
#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"
#include "forms/fund_words.hpp"
#include "forms/table.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

std::string to_json(const LoansAnswer& a) {
    Json out = json_head(a.head);
    out["repay_within_days"] = json_or_null(a.repay_within_days);
    out["loans"] = Json::array();
    for (const auto& r : a.loans) {
        Json one{{"loan", r.loan}, {"give", r.give}, {"given", r.given.text()}};
        one.update(holding_json(r.holding));
        one["owed_by"] = r.owed_by;
        one["patient"] = r.patient.empty() ? Json() : Json(r.patient);
        one["reason"] = r.reason;
        one["lent"] = r.lent.count();
        one["open"] = r.open.count();
        one["repayments"] = Json::array();
        for (const auto& p : r.payments)
            one["repayments"].push_back(
                {{"entry", p.entry}, {"at", p.at.text()}, {"doses", p.doses.count()}, {"with", json_or_null(p.with)}});
        one["age_s"] = r.age.seconds();
        one["due"] = json_or_null(r.due);
        one["overdue"] = r.overdue;
        out["loans"].push_back(std::move(one));
    }
    out["balances"] = Json::array();
    for (const auto& b : a.balances)
        out["balances"].push_back(
            {{"product", b.product}, {"lent_by", b.lent_by}, {"owed_by", b.owed_by}, {"open", b.open.count()}});
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

namespace {

Remark state_words(const LoansAnswer::Row& r, const Zone& zone) {
    if (r.open.count() == 0) return words::loan_repaid;
    if (r.overdue) return words::loan_overdue(zone.local_text(*r.due));
    return r.due ? words::loan_open_until(zone.local_text(*r.due)) : words::is_open();
}

void add_row(TableLayout& table, const LoansAnswer::Row& r, const TableStyle& style) {
    table.row({r.loan, style.zone.local_text(r.given), r.holding.product, r.holding.lot, fund_words(r.holding.fund),
               fund_words(r.owed_by), r.lent.count(), r.open.count(),
               duration_words(Rational(r.age.seconds()), false), state_words(r, style.zone)});
    Remark give = words::entry(r.give);
    if (!r.patient.empty()) give = words::comma(give, words::patient_named(r.patient));
    if (!r.reason.empty()) give = words::colon(give, r.reason);
    table.text(give, 6, 2);
    for (const auto& p : r.payments) {
        Remark by = words::entry(p.entry);
        if (p.with) by = words::comma(by, words::with_entry(*p.with));
        table.text(words::repaid_on(words::doses(p.doses.count()), style.zone.local_text(p.at), by), 6, 2);
    }
}

}  // namespace

std::string to_table(const LoansAnswer& a, const TableStyle& style) {
    TableLayout table(*style.book, {{words::title_loan(), Kind::number},
                                    {words::title_given(), Kind::fixed},
                                    {words::title_product()},
                                    {words::title_lot(), Kind::fixed},
                                    {words::title_lent_by()},
                                    {words::title_owed_by()},
                                    {words::title_doses(), Kind::number},
                                    {words::title_open(), Kind::number},
                                    {words::title_age()},
                                    {words::title_state()}});
    add_head(table, a.head, words::title_loans(), style);
    table.text(a.repay_within_days ? words::repay_within(*a.repay_within_days) : words::repay_not_known());
    table.blank();
    if (a.loans.empty())
        table.text(words::no_loans());
    else
        table.titles();
    for (const auto& r : a.loans) add_row(table, r, style);
    table.blank();
    for (const auto& b : a.balances)
        table.text(words::fund_owes(fund_words(b.owed_by), fund_words(b.lent_by), words::doses(b.open.count()),
                                    b.product));
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
