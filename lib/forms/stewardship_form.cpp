// Dates, loans and accountability as JSON and as tables.
#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "stock/last_use.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;
using Figures = AccountabilityAnswer::Figures;

namespace {

std::string fund_words(const std::string& fund) { return fund.empty() ? "(no fund)" : fund; }
std::string text_of(std::int64_t n) { return std::to_string(n); }

std::string limit_words(const DatesAnswer::Limit& l, const Zone& zone) {
    return answers::last_day_words(l.until, zone) + ", " + l.what +
           (l.entry ? " (entry " + text_of(*l.entry) + ")" : "");
}

Json figures_json(const Figures& f) {
    return {{"start", f.start},
            {"received", f.received},
            {"transferred_in", f.transferred_in},
            {"found", f.found},
            {"given", f.given},
            {"wasted", f.wasted},
            {"returned", f.returned},
            {"transferred_out", f.transferred_out},
            {"lost", f.lost},
            {"end", f.end},
            {"given_on_loan", f.given_on_loan}};
}

}  // namespace

std::string to_json(const DatesAnswer& a) {
    Json out = json_head(a.head);
    out["holdings"] = Json::array();
    for (const auto& r : a.holdings) {
        Json one = holding_json(r.holding);
        one["doses"] = r.doses.count();
        one["list"] = list_name(r.list);
        one["do_not_use"] = do_not_use(r.list, r.in_doubt);
        one["usable_until"] = r.limits.front().until.text();
        one["binding"] = r.limits.front().what;
        one["last_use"] = last_use_json(r.last_use);
        one["limits"] = Json::array();
        for (const auto& l : r.limits)
            one["limits"].push_back({{"what", l.what}, {"entry", json_or_null(l.entry)}, {"until", l.until.text()}});
        one["out_of_range_s"] = r.out_of_range_s.text();
        one["order"] = json_or_null(r.order);
        one["left_over"] = r.left_over.count();
        one["in_doubt"] = r.in_doubt;
        one["notes"] = r.notes;
        out["holdings"].push_back(std::move(one));
    }
    out["use"] = Json::array();
    for (const auto& u : a.use)
        out["use"].push_back({{"product", u.product},
                              {"fund", u.fund},
                              {"given", u.given.count()},
                              {"days", use_rate_days},
                              {"per_day", Rational(u.given.count(), use_rate_days).text()},
                              {"first_received", json_or_null(u.first_received)},
                              {"on_keep", u.on_keep.count()},
                              {"left_over", u.left_over.count()}});
    out["caution"] = std::string(dates_caution) + " " + caution;
    return json_line(out);
}

std::string to_table(const DatesAnswer& a, const TableStyle& style) {
    TableLayout table({{"Use", Kind::number},
                       {"Product"},
                       {"Fund"},
                       {"Lot"},
                       {"Place"},
                       {"Mark"},
                       {"Doses", Kind::number},
                       {"Last day", Kind::fixed},
                       {"Set by"},
                       {"Left over", Kind::number},
                       {"Incident"}});
    add_head(table, a.head, "until when doses may be used, and in which order", style);
    table.blank();
    if (a.holdings.empty()) table.text("No doses on hand.");
    else table.titles();
    for (const auto& r : a.holdings) {
        const auto& k = r.holding;
        table.row({r.order ? text_of(*r.order) : "", k.product, k.fund, k.lot, k.place, k.mark,
                   text_of(r.doses.count()), answers::last_day_words(r.last_use.until, style.zone),
                   answers::set_by_words(r.last_use), r.order ? text_of(r.left_over.count()) : "",
                   in_doubt_cell(r.list, r.in_doubt)});
        if (r.list != List::keep)
            table.text(std::string(list_heading(r.list)), 6, 2,
                       r.list == List::discard ? TableLayout::Paint::stop : TableLayout::Paint::wait);
        if (is_kept_in_doubt(r.list, r.in_doubt))
            table.text(std::string(in_doubt_heading), 6, 2, TableLayout::Paint::wait);
        for (const auto& note : r.notes) table.text("Note: " + note, 6, 2, TableLayout::Paint::wait);
        for (std::size_t i = 1; i < r.limits.size(); ++i)
            table.text("later: " + limit_words(r.limits[i], style.zone), 6, 2);
    }
    table.blank();
    for (const auto& u : a.use) {
        std::string line = u.product + ", " + fund_words(u.fund) + ": " + doses_words(u.given.count()) +
                           " given in the last " + text_of(use_rate_days) + " days; " + doses_words(u.on_keep.count()) +
                           " to use, of which " + text_of(u.left_over.count()) +
                           " will not be used in time at that rate";
        if (u.first_received && *u.first_received > a.head.at - Duration(use_rate_days * 86400))
            line += " (first received on " + style.zone.local_text(*u.first_received) + ": the rate says little yet)";
        table.text(line, 0, 2, u.left_over.count() > 0 ? TableLayout::Paint::wait : TableLayout::Paint::plain);
    }
    add_caution(table, dates_caution);
    return render(table, style);
}

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
    out["caution"] = caution;
    return json_line(out);
}

std::string to_table(const LoansAnswer& a, const TableStyle& style) {
    TableLayout table({{"Loan", Kind::number},
                       {"Given", Kind::fixed},
                       {"Product"},
                       {"Lot"},
                       {"Lent by"},
                       {"Owed by"},
                       {"Doses", Kind::number},
                       {"Open", Kind::number},
                       {"Age"},
                       {"State"}});
    add_head(table, a.head, "doses lent between funds", style);
    table.text(a.repay_within_days
                   ? "The programme wants them repaid within " + text_of(*a.repay_within_days) + " days."
                   : "No programme's time for repaying is known here: nothing is called overdue.");
    table.blank();
    if (a.loans.empty()) table.text("No loans to list.");
    else table.titles();
    for (const auto& r : a.loans) {
        const std::string state = r.open.count() == 0 ? "repaid"
                                  : r.overdue         ? "OVERDUE since " + style.zone.local_text(*r.due)
                                  : r.due             ? "open, overdue from " + style.zone.local_text(*r.due)
                                                      : "open";
        table.row({text_of(r.loan), style.zone.local_text(r.given), r.holding.product, r.holding.lot,
                   fund_words(r.holding.fund), fund_words(r.owed_by), text_of(r.lent.count()), text_of(r.open.count()),
                   duration_words(Rational(r.age.seconds()), false), state});
        table.text("entry " + text_of(r.give) + (r.patient.empty() ? "" : ", patient " + r.patient) +
                       (r.reason.empty() ? "" : ": " + r.reason),
                   6, 2);
        for (const auto& p : r.payments)
            table.text("repaid " + doses_words(p.doses.count()) + " on " + style.zone.local_text(p.at) + " (entry " +
                           text_of(p.entry) + (p.with ? ", with entry " + text_of(*p.with) : "") + ")",
                       6, 2);
    }
    table.blank();
    for (const auto& b : a.balances)
        table.text(fund_words(b.owed_by) + " owes " + fund_words(b.lent_by) + " " + doses_words(b.open.count()) +
                   " of " + b.product + ".");
    add_caution(table);
    return render(table, style);
}

std::string to_json(const AccountabilityAnswer& a) {
    Json out = json_head(a.head);
    out["from"] = a.from.text();
    out["until"] = a.until.text();
    out["window"] = a.head.window;
    out["lots"] = Json::array();
    for (const auto& r : a.lots) {
        Json one{{"product", r.product}, {"lot", r.lot}, {"fund", r.fund}};
        one.update(figures_json(r.figures));
        out["lots"].push_back(std::move(one));
    }
    out["funds"] = Json::array();
    for (const auto& r : a.funds) {
        Json one{{"product", r.product}, {"fund", r.fund}};
        one.update(figures_json(r.figures));
        out["funds"].push_back(std::move(one));
    }
    out["total"] = figures_json(a.total);
    out["losses"] = Json::array();
    for (const auto& l : a.losses)
        out["losses"].push_back({{"product", l.product},
                                 {"fund", l.fund},
                                 {"reason", l.reason},
                                 {"wasted", l.wasted},
                                 {"returned", l.returned}});
    out["caution"] = caution;
    return json_line(out);
}

std::string to_table(const AccountabilityAnswer& a, const TableStyle& style) {
    TableLayout table({{"Product"},
                       {"Lot"},
                       {"Fund"},
                       {"Start", Kind::number},
                       {"Rcvd", Kind::number},
                       {"In", Kind::number},
                       {"Found", Kind::number},
                       {"Given", Kind::number},
                       {"Wasted", Kind::number},
                       {"Retd", Kind::number},
                       {"Out", Kind::number},
                       {"Lost", Kind::number},
                       {"End", Kind::number}});
    add_head(table, a.head, "dose accountability", style);
    table.text("Period " + window_words(a.from, a.until, a.head.at, style.zone) + ".", 0, 2);
    table.blank();
    table.titles();
    const auto row = [&](const std::string& product, const std::string& lot, const std::string& fund,
                         const Figures& f) {
        table.row({product, lot, fund, text_of(f.start), text_of(f.received), text_of(f.transferred_in),
                   text_of(f.found), text_of(f.given), text_of(f.wasted), text_of(f.returned),
                   text_of(f.transferred_out), text_of(f.lost), text_of(f.end)});
        if (f.given_on_loan > 0)
            table.text(
                "of those given, " + doses_words(f.given_on_loan) + " to people another fund should have paid for", 6,
                2);
        if (!f.adds_up()) table.text("DOES NOT ADD UP: verify the ledger.", 6, 2, TableLayout::Paint::stop);
    };
    for (const auto& r : a.lots) row(r.product, r.lot, r.fund, r.figures);
    table.blank();
    for (const auto& r : a.funds) row(r.product, "all lots", r.fund, r.figures);
    table.blank();
    row("all", "", "", a.total);
    if (!a.losses.empty()) {
        table.blank();
        table.text("Wasted and returned, by reason:");
        for (const auto& l : a.losses) {
            const std::string counts = l.returned == 0 ? doses_words(l.wasted) + " wasted"
                                       : l.wasted == 0
                                           ? doses_words(l.returned) + " returned"
                                           : doses_words(l.wasted) + " wasted, " + text_of(l.returned) + " returned";
            table.text(l.product + ", " + fund_words(l.fund) + ": " + counts + ": " + l.reason, 2, 2);
        }
    }
    table.blank();
    table.text(
        "Start + received + in (with a history from another site) + found in counts = given + wasted + returned + out "
        "(to other sites) + lost in counts + end. Lost doses are missing, not wasted.",
        0, 2);
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
