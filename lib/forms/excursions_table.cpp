#include "forms/table.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

namespace {

std::string peak_words(const ExcursionsAnswer::Row& row, Scale scale) {
    return row.side == Side::warm ? "highest " + temperature_words(row.peak_C, scale, Rounding::up)
                                  : "lowest " + temperature_words(row.peak_C, scale, Rounding::down);
}

std::string length_words(const ExcursionsAnswer::Row& row) {
    switch (row.kind) {
        case ExcursionKind::line:
            return duration_words(row.duration_s, true) +
                   (row.checked_s.sign() == 0 ? " by readings"
                    : row.checked_s == row.duration_s
                        ? " on a line between plain checks, where nothing is known"
                        : " by readings and checks, of it " + duration_words(row.checked_s, true) +
                              " on a line between plain checks, where nothing is known") +
                   (row.open ? ", STILL OUT when they end" : "");
        case ExcursionKind::bounded:
            return "some time in " + duration_words(row.duration_s, true) + " (min and max only; all of it is counted)";
        case ExcursionKind::point: return "one reading; how long is not known";
    }
    return "";
}

/// Of a line's excursion at most is not what its crossings of the limit say: that is among the marks.
std::string on_the_line_words(Exposure of) {
    for (SideExposure* side : {&of.warm, &of.cold, &of.frozen})
        if (side->estimate.sign() > 0) side->at_most = side->estimate;
    return out_of_range_words(of);
}

std::string exposure_words(const ExcursionsAnswer::Inside& inside, Scale scale, bool line) {
    const Exposure& of = inside.exposure;
    std::string out = line ? on_the_line_words(of) : out_of_range_words(of);
    const std::string between = between_checks_words(of.seconds);
    if (out.empty()) out = between.empty() ? "within its own range" : "within its own range at the checks";
    if (!between.empty()) out += "; " + between;
    for (std::size_t i = 0; i < of.allowances.size() && i < inside.allowance_seconds.size(); ++i)
        if (of.allowances[i].sign() > 0)
            out += "; in allowance " + std::to_string(i + 1) + " (" +
                   duration_words(Rational(inside.allowance_seconds[i].seconds()), false) + "): " +
                   duration_words(of.allowances[i], true);
    if (of.lowest_C && of.highest_C)
        out += "; " + temperature_words(*of.lowest_C, scale, Rounding::down) + " to " +
               temperature_words(*of.highest_C, scale, Rounding::up);
    return out;
}

}  // namespace

std::string to_table(const ExcursionsAnswer& answer, const TableStyle& style) {
    TableLayout table(
        {{"Product"}, {"Lot"}, {"Fund"}, {"Mark"}, {"Doses", Kind::number}, {"Exposed in this excursion"}});
    add_head(table, answer.head, "excursions of " + answer.place, style);
    table.text(counted(static_cast<std::int64_t>(answer.excursions.size()), "excursion") + " " +
                   window_words(answer.from, answer.until, answer.head.at, style.zone) + ".",
               0, 2);
    const std::string known = coverage_words(answer.seconds);
    table.text(
        std::string(may_hide) + " Known how: " +
            (known.empty() ? std::string("no time") : known) + ".",
        0, 2);

    for (const auto& line : answer.beside) table.text(line + ".", 0, 2, TableLayout::Paint::wait);

    int number = 0;
    for (const auto& row : answer.excursions) {
        table.blank();
        const std::string when = row.kind == ExcursionKind::point
                                     ? "at " + begin_text(row.from_s, style.zone)
                                     : begin_text(row.from_s, style.zone) + " to " + end_text(row.until_s, style.zone);
        table.text(std::to_string(++number) + ". " + std::string(side_words(row.side)) + ", " + when + ": " +
                       length_words(row) + "; " + peak_words(row, style.scale),
                   0, 3, TableLayout::Paint::bold);
        for (const auto& mark : row.marks) table.text("Marked: " + mark, 2, 4);
        if (row.holdings.empty()) {
            table.text("No doses were inside.", 2);
            continue;
        }
        std::int64_t doses = 0;
        for (const auto& inside : row.holdings) doses += inside.doses.count();
        table.text("Inside: " + doses_words(doses) + " in " +
                       counted(static_cast<std::int64_t>(row.holdings.size()), "holding"),
                   2);
        table.titles();
        for (const auto& inside : row.holdings) {
            const HoldingKey& key = inside.holding;
            table.row({key.product, key.lot, key.fund, key.mark, std::to_string(inside.doses.count()),
                       exposure_words(inside, style.scale, row.kind == ExcursionKind::line)});
        }
    }
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
