#include <map>

#include "forms/table.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

namespace {

constexpr int detail_indent = 6;
constexpr int detail_hang = 2;

void add_details(TableLayout& table, const ReviewAnswer::Row& row, const TableStyle& style) {
    const auto detail = [&](const std::string& line) { table.text(line, detail_indent, detail_hang); };
    for (const auto& line : row.beside) table.text(line, detail_indent, detail_hang, TableLayout::Paint::wait);
    detail("Out of " + place_words(row.holding));
    if (!row.certain)
        detail(
            "Not certain: the chart names the lot, not the box. Judged by the worst of all boxes of the lot that were "
            "there.");
    const ReasonContext context{row.history, row.allowance_seconds, style.zone, row.at, std::nullopt};
    for (const auto& line : reason_lines(row.reasons, context)) detail("Why: " + line);
    if (row.guidance)
        detail("Guidance that covers it: entry " + std::to_string(*row.guidance));
    else if (!row.reasons.empty())
        detail("Guidance that covers it: none yet");
    for (const auto& line : history_lines(row.history, row.allowance_seconds, style.zone, style.scale)) detail(line);
}

}  // namespace

std::string to_table(const ReviewAnswer& answer, const TableStyle& style) {
    TableLayout table({{"Entry", Kind::number},
                       {"Given", Kind::fixed},
                       {"Finding"},
                       {"Doses", Kind::number},
                       {"Patient"},
                       {"Product"},
                       {"Lot"}});
    add_head(table, answer.head, "doses given that may need review", style);
    table.blank();
    for (const auto& line : answer.not_listed) table.text(line + ".", 0, 2, TableLayout::Paint::wait);
    if (!answer.not_listed.empty()) table.blank();

    if (answer.doses.empty()) {
        table.text("No doses to list.");
    } else {
        // In the order in which findings matter.
        static constexpr std::string_view findings[] = {"expired",         "not viable", "pending guidance",
                                                        "condemned later", "cleared",    "clear"};
        std::map<std::string_view, std::int64_t> doses;
        for (const auto& row : answer.doses) doses[row.finding] += row.doses.count();
        for (const auto finding : findings)
            if (doses.contains(finding)) table.text(finding_words(finding) + ": " + doses_words(doses[finding]), 2);
        table.blank();
        table.titles();
    }
    for (const auto& row : answer.doses) {
        const HoldingKey& key = row.holding;
        table.row({std::to_string(row.entry), style.zone.local_text(row.at), finding_words(row.finding),
                   std::to_string(row.doses.count()), row.patient, key.product, key.lot});
        add_details(table, row, style);
    }
    add_caution(table, review_caution);
    return render(table, style);
}

}  // namespace coldtally
