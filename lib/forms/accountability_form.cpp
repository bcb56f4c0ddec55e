// Accountability as JSON and as a table.
#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"
#include "forms/fund_words.hpp"
#include "forms/table.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;
using Figures = AccountabilityAnswer::Figures;

namespace {

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

void add_row(TableLayout& table, const Field& product, const Field& lot, const Field& fund, const Figures& f) {
    table.row({product, lot, fund, f.start, f.received, f.transferred_in, f.found, f.given, f.wasted, f.returned,
               f.transferred_out, f.lost, f.end});
    if (f.given_on_loan > 0) table.text(words::given_on_loan(words::doses(f.given_on_loan)), 6, 2);
    if (!f.adds_up()) table.text(words::figures_do_not_add_up(), 6, 2, TableLayout::Paint::stop);
}

Remark counts_of(const AccountabilityAnswer::Loss& l) {
    if (l.returned == 0) return words::loss_wasted(words::doses(l.wasted));
    if (l.wasted == 0) return words::loss_returned(words::doses(l.returned));
    return words::loss_both(words::doses(l.wasted), l.returned);
}

}  // namespace

std::string to_json(const AccountabilityAnswer& a) {
    Json out = json_head(a.head);
    out["from"] = a.from.text();
    out["until"] = a.until.text();
    set_window(out, a.head);
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
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

std::string to_table(const AccountabilityAnswer& a, const TableStyle& style) {
    TableLayout table(*style.book, {{words::title_product()},
                                    {words::title_lot(), Kind::fixed},
                                    {words::title_fund(), Kind::fixed},
                                    {words::title_start(), Kind::number},
                                    {words::title_received_short(), Kind::number},
                                    {words::title_in(), Kind::number, 2},
                                    {words::title_found(), Kind::number, 4},
                                    {words::title_given(), Kind::number},
                                    {words::title_wasted(), Kind::number},
                                    {words::title_returned_short(), Kind::number, 3},
                                    {words::title_out(), Kind::number, 1},
                                    {words::title_lost(), Kind::number},
                                    {words::title_end(), Kind::number}});
    add_head(table, a.head, words::title_accountability(), style);
    table.text(words::period(window_words(a.from, a.until, a.head.at, style.zone)), 0, 2);
    table.blank();
    table.titles();
    for (const auto& r : a.lots) add_row(table, r.product, r.lot, r.fund, r.figures);
    table.blank();
    for (const auto& r : a.funds) add_row(table, r.product, words::all_lots(), r.fund, r.figures);
    table.blank();
    add_row(table, words::all_of_them(), "", "", a.total);
    if (!a.losses.empty()) {
        table.blank();
        table.text(words::losses_by_reason());
        for (const auto& l : a.losses)
            table.text(words::loss_line(l.product, fund_words(l.fund), counts_of(l), l.reason), 2, 2);
    }
    table.blank();
    table.text(words::accountability_sum(), 0, 2);
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
