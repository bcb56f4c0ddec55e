#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "stock/last_use.hpp"
#include "words/stock.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

std::string to_json(const StockAnswer& answer) {
    Json out = json_head(answer.head);
    out["holdings"] = Json::array();
    for (const auto& row : answer.holdings) {
        Json one;
        one.update(holding_json(row.holding));
        one["doses"] = row.doses.count();
        one["expiry"] = row.expiry.text();
        one["last_use"] = last_use_json(row.last_use);
        one["list"] = list_name(row.list);
        one["do_not_use"] = do_not_use(row.list, row.in_doubt, row.beside);
        one["in_doubt"] = Json(row.in_doubt);
        set_remarks(one, "beside", row.beside);
        out["holdings"].push_back(std::move(one));
    }
    const auto& of = answer.accounts;
    out["accounts"] = {{"supplier", of.supplier}, {"patient", of.patient},         {"wasted", of.wasted},
                       {"returned", of.returned}, {"transferred", of.transferred}, {"variance", of.variance},
                       {"on_hand", of.on_hand}};
    out["caution"] = cautions({words::caution_stock, words::caution});
    return json_line(out);
}

std::string to_table(const StockAnswer& answer, const TableStyle& style) {
    TableLayout table(*style.book, {{words::title_place()},
                                    {words::title_product()},
                                    {words::title_lot(), Kind::fixed},
                                    {words::title_fund(), Kind::fixed, 1},
                                    {words::title_mark(), Kind::fixed, 3},
                                    {words::title_doses(), Kind::number},
                                    {words::title_last_day(), Kind::text, 0, 10},
                                    {words::title_list(), Kind::text, 0, 12},
                                    {words::title_incident(), Kind::text, 2, 9}});
    add_head(table, answer.head, words::stock_title(), style);
    table.blank();
    if (answer.holdings.empty())
        table.text(words::no_doses_on_hand());
    else
        table.titles();
    for (const auto& row : answer.holdings) {
        const HoldingKey& key = row.holding;
        table.row({key.place, key.product, key.lot, key.fund, key.mark, row.doses.count(),
                   answers::last_day_words(row.last_use.until, style.zone),
                   list_cell(row.list, row.in_doubt, row.beside), in_doubt_cell(row.list, row.in_doubt)});
        add_expiry(table, row.last_use, row.expiry);
        for (const auto& note : row.beside) table.text(note, 6, 2, TableLayout::Paint::stop);
    }

    const auto& of = answer.accounts;
    TableLayout accounts(*style.book, {{words::title_account()}, {words::title_doses(), Kind::number},
                                       {words::title_means()}});
    accounts.blank();
    accounts.titles();
    accounts.row({words::account_supplier(), of.supplier, words::means_supplier()});
    accounts.row({words::account_patient(), of.patient, words::means_patient()});
    accounts.row({words::account_wasted(), of.wasted, words::account_wasted()});
    accounts.row({words::account_returned(), of.returned, words::means_returned()});
    accounts.row({words::account_transferred(), of.transferred, words::means_transferred()});
    accounts.row({words::account_variance(), of.variance, words::means_variance()});
    accounts.row({words::account_on_hand(), of.on_hand, words::means_on_hand()});
    const std::int64_t sum =
        of.supplier + of.patient + of.wasted + of.returned + of.transferred + of.variance + of.on_hand;
    accounts.text(sum == 0 ? words::accounts_add_up() : words::accounts_do_not_add_up(sum), 2);
    add_caution(accounts, words::caution_stock());
    return render(table, style) + render(accounts, style);
}

}  // namespace coldtally
