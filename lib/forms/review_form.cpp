#include <algorithm>

#include "entries/history_json.hpp"
#include "forms/answer_json.hpp"
#include "forms/in_short.hpp"
#include "forms/table.hpp"
#include "words/incidents.hpp"
#include "words/review.hpp"
#include "words/stock.hpp"

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

using Rows = std::vector<const ReviewAnswer::Row*>;

/// In the order in which people must hear of them; which is graver is a choice of ours.
constexpr Finding by_gravity[] = {Finding::not_viable,      Finding::expired, Finding::pending_guidance,
                                  Finding::condemned_later, Finding::cleared, Finding::clear};

Rows rows_of(const ReviewAnswer& answer, Finding finding) {
    Rows out;
    for (const auto& row : answer.doses)
        if (row.finding == finding) out.push_back(&row);
    return out;
}

std::int64_t doses_of(const Rows& rows) {
    std::int64_t out = 0;
    for (const auto* row : rows) out += row->doses.count();
    return out;
}

/// Something must be known of it though the finding does not say it: more than that an answer covers it.
bool is_warned(const ReviewAnswer::Row& row) {
    return std::ranges::any_of(row.beside, [](const Remark& r) { return !r.is(words::given_in_doubt_covered); });
}

/// What is said of them all, before the rows: the numbers, and doses given that have no row.
void add_summary(TableLayout& table, const ReviewAnswer& answer, bool why) {
    table.blank();
    for (const auto& line : answer.not_listed)
        table.text(words::sentence(why ? line : shorter(line)), 0, 2, TableLayout::Paint::wait);
    if (!answer.not_listed.empty()) table.blank();
    if (answer.doses.empty()) table.text(words::no_doses_to_list());
    for (const Finding finding : by_gravity)
        if (const auto rows = rows_of(answer, finding); !rows.empty())
            table.text(words::colon(finding_words(finding), words::doses(doses_of(rows))), 2, 2,
                       finding == Finding::not_viable || finding == Finding::expired ? TableLayout::Paint::stop
                                                                                     : TableLayout::Paint::plain);
}

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

/// All of each, with its paragraphs.
std::string whole_table(const ReviewAnswer& answer, const TableStyle& style) {
    TableLayout table(*style.book, {{words::title_entry(), Kind::number},
                                    {words::title_given(), Kind::fixed},
                                    {words::title_finding()},
                                    {words::title_doses(), Kind::number},
                                    {words::title_patient(), Kind::fixed},
                                    {words::title_product()},
                                    {words::title_lot(), Kind::fixed}});
    add_head(table, answer.head, words::review_title(), style);
    add_summary(table, answer, true);
    if (!answer.doses.empty()) {
        table.blank();
        table.titles();
    }
    for (const Finding finding : by_gravity)
        for (const auto* row : rows_of(answer, finding)) {
            table.row({row->entry, style.zone.local_text(row->at), finding_words(row->finding), row->doses.count(),
                       row->patient, row->holding.product, row->holding.lot});
            add_details(table, *row, style);
        }
    add_caution(table, words::caution_review());
    return render(table, style);
}

void add_line(TableLayout& table, const ReviewAnswer::Row& row, const TableStyle& style) {
    const auto gravest = gravest_words(row.reasons);
    table.row({row.entry, style.zone.local_text(row.at), row.doses.count(), row.patient, row.holding.product,
               row.holding.lot, gravest ? Field(*gravest) : Field("")});
    for (const auto& line : row.beside)
        table.text(shorter(line), detail_indent, detail_hang, TableLayout::Paint::wait);
    if (!row.certain) table.text(words::not_certain_which(), detail_indent, detail_hang);
}

}  // namespace

std::string to_table(const ReviewAnswer& answer, const TableStyle& style) {
    if (style.why) return whole_table(answer, style);
    TableLayout table(*style.book, {{words::title_entry(), Kind::number},
                                    {words::title_given(), Kind::fixed},
                                    {words::title_doses(), Kind::number},
                                    {words::title_patient(), Kind::fixed},
                                    {words::title_product()},
                                    {words::title_lot(), Kind::fixed},
                                    {words::title_why(), Kind::text, 0, 9}});
    add_head(table, answer.head, words::review_title(), style);
    add_summary(table, answer, false);
    // whoever asks for all, of which nothing was found, has asked for the cleared, too
    const bool all = !rows_of(answer, Finding::clear).empty();
    Rows left_out;
    bool any = false;
    for (const Finding finding : by_gravity) {
        Rows rows = rows_of(answer, finding);
        if (finding == Finding::cleared && !all) {
            std::ranges::copy_if(rows, std::back_inserter(left_out), [](const auto* r) { return !is_warned(*r); });
            std::erase_if(rows, [](const auto* r) { return !is_warned(*r); });
        }
        if (rows.empty()) continue;
        table.blank();
        table.text(finding_words(finding), 0, 2,
                   finding < Finding::cleared ? TableLayout::Paint::stop : TableLayout::Paint::bold);
        if (!any) table.titles();
        any = true;
        for (const auto* row : rows) add_line(table, *row, style);
    }
    table.blank();
    if (!left_out.empty())
        table.text(words::cleared_left_out(doses_of(left_out), words::parameter("why")), 0, 2);
    else if (any)
        table.text(words::review_left_out(words::parameter("why")), 0, 2);
    add_caution(table, words::caution_review());
    return render(table, style);
}

}  // namespace coldtally
