#include "forms/answer_json.hpp"
#include "forms/lists_form.hpp"
#include "forms/table.hpp"
#include "words/stock.hpp"

namespace coldtally {

using namespace forms;

std::string to_json(const ScanAnswer& answer) {
    Json out = json_head(answer.head);
    const Gs1Scan& scan = answer.scan;
    out["symbology"] = scan.symbology;
    out["elements"] = Json::array();
    for (const auto& e : scan.elements)
        out["elements"].push_back({{"ai", e.ai}, {"title", e.title}, {"value", e.value}});
    out["gtin"] = json_or_null(scan.gtin);
    out["lot"] = json_or_null(scan.lot);
    out["serial"] = json_or_null(scan.serial);
    out["expiry"] = json_or_null(scan.expiry);
    out["product"] = json_or_null(answer.product);
    out["known_expiry"] = json_or_null(answer.expiry);
    set_remarks(out, "remarks", answer.remarks);
    out["holdings"] = Json::array();
    for (const auto& row : answer.holdings) out["holdings"].push_back(listed_json(row));
    out["caution"] = cautions({words::caution_scan, words::caution});
    return json_line(out);
}

std::string to_table(const ScanAnswer& answer, const TableStyle& style) {
    TableLayout table(*style.book, lists_columns());
    add_head(table, answer.head, words::scan_title(), style);
    table.blank();
    for (const auto& e : answer.scan.elements)
        table.text(e.title.empty() ? words::scan_element_untitled(e.ai, e.value)
                                   : words::scan_element(e.ai, e.title, e.value),
                   0, 2);
    if (answer.product) {
        table.blank();
        const auto& lot = answer.scan.lot;
        table.text(answer.expiry ? words::scan_product_lot_expires(*answer.product, lot.value_or(""),
                                                                   answer.expiry->text())
                   : lot         ? words::scan_product_lot(*answer.product, *lot)
                                 : words::scan_product(*answer.product),
                   0, 2);
    }
    if (!answer.remarks.empty()) table.blank();
    for (const auto& remark : answer.remarks)
        remark.is(words::expiry_differs)
            ? table.text(words::warning(words::whatever_below(remark)), 0, 2, TableLayout::Paint::stop)
            : table.text(words::note(remark), 0, 2);
    add_lists(table, answer.holdings, style, answer.head.at, false);
    add_caution(table, words::caution_scan());
    return render(table, style);
}

}  // namespace coldtally
