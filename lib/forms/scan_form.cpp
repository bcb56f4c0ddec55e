#include "forms/table.hpp"

namespace coldtally {

using namespace forms;

std::string to_table(const ScanAnswer& answer, const TableStyle& style) {
    TableLayout table(lists_columns());
    add_head(table, answer.head, "what the code on the box says", style);
    table.blank();
    for (const auto& e : answer.scan.elements)
        table.text("(" + e.ai + ") " + (e.title.empty() ? "" : e.title + ": ") + e.value, 0, 2);
    if (answer.product) {
        table.blank();
        table.text("Product " + *answer.product + (answer.scan.lot ? ", lot " + *answer.scan.lot : "") +
                       (answer.expiry ? ", expires " + answer.expiry->text() + " by the ledger" : ""),
                   0, 2);
    }
    if (!answer.remarks.empty()) table.blank();
    for (const auto& remark : answer.remarks)
        remark.starts_with("EXPIRY DIFFERS")
            ? table.text("WARNING: " + remark + ", whatever stands below", 0, 2, TableLayout::Paint::stop)
            : table.text("Note: " + remark, 0, 2);
    add_lists(table, answer.holdings, style, answer.head.at, false);
    add_caution(table, scan_caution);
    return render(table, style);
}

}  // namespace coldtally
