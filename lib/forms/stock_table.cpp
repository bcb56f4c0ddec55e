#include "forms/table.hpp"
#include "stock/last_use.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

std::string to_table(const StockAnswer& answer, const TableStyle& style) {
    TableLayout table({{"Place"},
                       {"Product"},
                       {"Lot"},
                       {"Fund"},
                       {"Mark"},
                       {"Doses", Kind::number},
                       {"Last day", Kind::fixed},
                       {"List"},
                       {"Incident"}});
    add_head(table, answer.head, "doses on hand", style);
    table.blank();
    if (answer.holdings.empty())
        table.text("No doses on hand.");
    else
        table.titles();
    for (const auto& row : answer.holdings) {
        const HoldingKey& key = row.holding;
        table.row({key.place, key.product, key.lot, key.fund, key.mark, std::to_string(row.doses.count()),
                   answers::last_day_words(row.last_use.until, style.zone),
                   std::string(list_cell(row.list, row.in_doubt)), in_doubt_cell(row.list, row.in_doubt)});
        add_expiry(table, row.last_use, row.expiry);
        for (const auto& note : row.beside) table.text(note, 6, 2, TableLayout::Paint::stop);
    }

    const auto& of = answer.accounts;
    TableLayout accounts({{"Account"}, {"Doses", Kind::number}, {"Means"}});
    accounts.blank();
    accounts.titles();
    accounts.row({"supplier", std::to_string(of.supplier), "received, counted as negative"});
    accounts.row({"patient", std::to_string(of.patient), "given"});
    accounts.row({"wasted", std::to_string(of.wasted), "wasted"});
    accounts.row({"returned", std::to_string(of.returned), "sent back"});
    accounts.row({"transferred", std::to_string(of.transferred), "sent to other sites"});
    accounts.row({"variance", std::to_string(of.variance), "missing in counts, less those found"});
    accounts.row({"on hand", std::to_string(of.on_hand), "the holdings above"});
    const std::int64_t sum =
        of.supplier + of.patient + of.wasted + of.returned + of.transferred + of.variance + of.on_hand;
    accounts.text(sum == 0 ? std::string("They add up to 0, as they must.")
                           : "THEY ADD UP TO " + std::to_string(sum) + ", NOT TO 0: verify the ledger.",
                  2);
    add_caution(accounts, stock_caution);
    return render(table, style) + render(accounts, style);
}

}  // namespace coldtally
