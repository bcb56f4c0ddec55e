#include <map>

#include "entries/history_json.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "words/review.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

std::string to_json(const ReviewAnswer& answer) {
    Json out = json_head(answer.head);
    out["doses"] = Json::array();
    for (const auto& row : answer.doses) {
        Json one = {{"entry", row.entry}, {"at", row.at.text()}, {"patient", row.patient}};
        one.update(holding_json(row.holding));
        one["doses"] = row.doses.count();
        one["certain"] = row.certain;
        one["finding"] = finding_name(row.finding);
        one["reasons"] = reasons_json(row.reasons);
        one["guidance"] = json_or_null(row.guidance);
        one["history"] = entries::history_json(row.history, row.allowance_seconds);
        set_remarks(one, "beside", row.beside);
        out["doses"].push_back(std::move(one));
    }
    set_remarks(out, "not_listed", answer.not_listed);
    out["caution"] = cautions({words::caution, words::caution_review});
    return json_line(out);
}

namespace {

constexpr int detail_indent = 6;
constexpr int detail_hang = 2;

void add_details(TableLayout& table, const ReviewAnswer::Row& row, const TableStyle& style) {
    const auto detail = [&](const Field& line) { table.text(line, detail_indent, detail_hang); };
    for (const auto& line : row.beside) table.text(line, detail_indent, detail_hang, TableLayout::Paint::wait);
    detail(words::given_out_of(place_words(row.holding)));
    if (!row.certain) detail(words::judged_by_worst());
    const ReasonContext context{row.history, row.allowance_seconds, style.zone, row.at, std::nullopt};
    for (const auto& line : reason_lines(row.reasons, context)) detail(words::why(line));
    if (row.guidance)
        detail(words::covered_by(words::entry(*row.guidance)));
    else if (!row.reasons.empty())
        detail(words::covered_by(words::none_yet()));
    for (const auto& line : history_lines(row.history, row.allowance_seconds, style.zone, style.scale)) detail(line);
}

}  // namespace

std::string to_table(const ReviewAnswer& answer, const TableStyle& style) {
    TableLayout table(*style.book, {{words::title_entry(), Kind::number},
                                    {words::title_given(), Kind::fixed},
                                    {words::title_finding()},
                                    {words::title_doses(), Kind::number},
                                    {words::title_patient()},
                                    {words::title_product()},
                                    {words::title_lot()}});
    add_head(table, answer.head, words::review_title(), style);
    table.blank();
    for (const auto& line : answer.not_listed) table.text(words::sentence(line), 0, 2, TableLayout::Paint::wait);
    if (!answer.not_listed.empty()) table.blank();

    if (answer.doses.empty()) {
        table.text(words::no_doses_to_list());
    } else {
        std::map<Finding, std::int64_t> doses;  // in the order in which findings matter
        for (const auto& row : answer.doses) doses[row.finding] += row.doses.count();
        for (const auto& [finding, count] : doses)
            table.text(words::colon(finding_words(finding), words::doses(count)), 2);
        table.blank();
        table.titles();
    }
    for (const auto& row : answer.doses) {
        const HoldingKey& key = row.holding;
        table.row({row.entry, style.zone.local_text(row.at), finding_words(row.finding), row.doses.count(),
                   row.patient, key.product, key.lot});
        add_details(table, row, style);
    }
    add_caution(table, words::caution_review());
    return render(table, style);
}

}  // namespace coldtally
