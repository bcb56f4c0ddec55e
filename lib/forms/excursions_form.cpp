#include "entries/history_json.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "words/conditions.hpp"
#include "words/history.hpp"
#include "words/lists.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

namespace {

Json inside_json(const ExcursionsAnswer::Inside& inside) {
    return {{"product", inside.holding.product},
            {"lot", inside.holding.lot},
            {"fund", inside.holding.fund},
            {"mark", inside.holding.mark},
            {"doses", inside.doses.count()},
            {"exposure", entries::exposure_json(inside.exposure, inside.allowance_seconds)}};
}

Json row_json(const ExcursionsAnswer::Row& row) {
    Json out = {{"side", side_name(row.side)},
                {"kind", excursion_kind_name(row.kind)},
                {"from", nearest_instant(row.from_s)},
                {"from_s", row.from_s.text()},
                {"until", nearest_instant(row.until_s)},
                {"until_s", row.until_s.text()},
                {"duration_s", row.duration_s.text()},
                {"degree_Cs", row.degree_s.text()},
                {"peak_C", row.peak_C.text()},
                {"checked_s", row.checked_s.text()},
                {"open", row.open}};
    set_remarks(out, "marks", row.marks);
    out["holdings"] = list_json(row.holdings, inside_json);
    return out;
}

}  // namespace

std::string to_json(const ExcursionsAnswer& answer) {
    Json out = json_head(answer.head);
    out["place"] = answer.place;
    out["from"] = answer.from.text();
    out["until"] = answer.until.text();
    set_window(out, answer.head);
    out["coverage"] = coverage_json(answer.seconds);
    out["not_seen"] = cautions({words::caution_hidden});
    out["excursions"] = list_json(answer.excursions, row_json);
    set_remarks(out, "beside", answer.beside);
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

namespace {

Remark peak_words(const ExcursionsAnswer::Row& row, Scale scale) {
    return row.side == Side::warm ? words::highest(temperature_words(row.peak_C, scale, Rounding::up))
                                  : words::lowest(temperature_words(row.peak_C, scale, Rounding::down));
}

Remark length_words(const ExcursionsAnswer::Row& row) {
    const std::string time = duration_words(row.duration_s, true);
    switch (row.kind) {
        case ExcursionKind::line: {
            const Remark length = row.checked_s.sign() == 0           ? words::length_by_readings(time)
                                  : row.checked_s == row.duration_s ? words::length_between_checks(time)
                                                                    : words::length_by_both(
                                                                          time, duration_words(row.checked_s, true));
            return row.open ? words::length_still_out(length) : length;
        }
        case ExcursionKind::bounded: return words::length_bounded(time);
        case ExcursionKind::point: break;
    }
    return words::length_point;
}

/// Of a line's excursion at most is not what its crossings of the limit say: that is among the marks.
std::optional<Remark> on_the_line_words(Exposure of) {
    for (SideExposure* side : {&of.warm, &of.cold, &of.frozen})
        if (side->estimate.sign() > 0) side->at_most = side->estimate;
    return out_of_range_words(of);
}

Field exposure_words(const ExcursionsAnswer::Inside& inside, Scale scale, bool line) {
    const Exposure& of = inside.exposure;
    const auto outside = line ? on_the_line_words(of) : out_of_range_words(of);
    const auto between = between_checks_words(of.seconds);
    std::vector<Remark> out;
    if (outside)
        out.push_back(*outside);
    else
        out.push_back(between ? words::within_own_range_at_checks : words::within_own_range);
    if (between) out.push_back(*between);
    for (std::size_t i = 0; i < of.allowances.size() && i < inside.allowance_seconds.size(); ++i)
        if (of.allowances[i].sign() > 0)
            out.push_back(words::in_allowance(
                words::allowance_named(i + 1,
                                       duration_words(Rational(inside.allowance_seconds[i].seconds()), false)),
                duration_words(of.allowances[i], true)));
    if (of.lowest_C && of.highest_C)
        out.push_back(words::from_to(temperature_words(*of.lowest_C, scale, Rounding::down),
                                     temperature_words(*of.highest_C, scale, Rounding::up)));
    return *words::semicolons(out);
}

void add_excursion(TableLayout& table, const ExcursionsAnswer::Row& row, int number, const TableStyle& style) {
    const std::string from = begin_text(row.from_s, style.zone);
    const Remark when = row.kind == ExcursionKind::point ? words::at_instant(from)
                                                         : words::from_to(from, end_text(row.until_s, style.zone));
    table.blank();
    table.text(words::excursion_head(number, side_words(row.side), when, length_words(row),
                                     peak_words(row, style.scale)),
               0, 3, TableLayout::Paint::bold);
    for (const auto& mark : row.marks) table.text(words::marked(mark), 2, 4);
    if (row.holdings.empty()) {
        table.text(words::no_doses_inside(), 2);
        return;
    }
    std::int64_t doses = 0;
    for (const auto& inside : row.holdings) doses += inside.doses.count();
    table.text(words::inside(words::doses(doses), words::holdings(row.holdings.size())), 2);
    table.titles();
    for (const auto& inside : row.holdings) {
        const HoldingKey& key = inside.holding;
        table.row({key.product, key.lot, key.fund, key.mark, inside.doses.count(),
                   exposure_words(inside, style.scale, row.kind == ExcursionKind::line)});
    }
}

}  // namespace

std::string to_table(const ExcursionsAnswer& answer, const TableStyle& style) {
    TableLayout table(*style.book, {{words::title_product()},
                                    {words::title_lot(), Kind::fixed},
                                    {words::title_fund(), Kind::fixed, 1},
                                    {words::title_mark(), Kind::fixed, 2},
                                    {words::title_doses(), Kind::number},
                                    {words::title_exposed(), Kind::text, 0, 20}});
    add_head(table, answer.head, words::excursions_title(answer.place), style);
    table.text(words::excursions_in_window(answer.excursions.size(),
                                           window_words(answer.from, answer.until, answer.head.at, style.zone)),
               0, 2);
    const auto known = coverage_words(answer.seconds);
    table.text(words::hidden_and_known(words::caution_hidden, known ? *known : words::no_time()), 0, 2);
    for (const auto& line : answer.beside) table.text(words::sentence(line), 0, 2, TableLayout::Paint::wait);
    int number = 0;
    for (const auto& row : answer.excursions) add_excursion(table, row, ++number, style);
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
