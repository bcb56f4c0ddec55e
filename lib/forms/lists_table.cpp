#include <algorithm>

#include "forms/table.hpp"
#include "stock/last_use.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

namespace {

constexpr int detail_indent = 6;
constexpr int detail_hang = 2;

TableLayout::Paint paint_of(List list) {
    switch (list) {
        case List::discard: return TableLayout::Paint::stop;
        case List::quarantine: return TableLayout::Paint::wait;
        case List::keep: return TableLayout::Paint::go;
    }
    return TableLayout::Paint::plain;
}

// Notes of what the lines of the history say already, and more fully. A note that is worded otherwise is shown: better
// twice than not at all.
bool said_by_history(std::string_view note) {
    for (const std::string_view start :
         {"allowance ", "within the probe's tolerance: ", "no readings yet for the last ", "temperature not known for ",
          "nothing is known between plain checks", "near a reading in range"})
        if (note.starts_with(start)) return true;
    return false;
}

void add_details(TableLayout& table, const ListsAnswer::Row& row, const TableStyle& style, Instant at) {
    for (const auto& note : row.beside) table.text(note, detail_indent, detail_hang, TableLayout::Paint::stop);
    const ReasonContext context{row.history, row.allowance_seconds, style.zone, at, row.expiry};
    const bool later =
        row.history.use_by && row.last_use.set_by == "expiry" && *row.history.use_by > row.last_use.until;
    for (const auto& line : reason_lines(row.reasons, context)) table.text("Why: " + line, detail_indent, detail_hang);
    for (const auto& line : history_lines(row.history, row.allowance_seconds, style.zone, style.scale))
        table.text(line + (later && line.starts_with("Use-by: ") ? ", after the expiry: the expiry decides" : ""),
                   detail_indent, detail_hang);
    for (const auto& note : row.notes)
        if (!said_by_history(note) && std::ranges::find(row.beside, note) == row.beside.end())
            table.text("Note: " + note, detail_indent, detail_hang);
}

}  // namespace

void forms::add_expiry(TableLayout& table, const LastUse& use, const Date& expiry) {
    if (use.set_by != "expiry")
        table.text("Last day set by " + answers::set_by_words(use) + "; expiry of the lot: " + expiry.text(),
                   detail_indent, detail_hang);
}

std::vector<TableLayout::Column> forms::lists_columns() {
    return {{"Place"},   {"Product"}, {"Lot"}, {"Fund"}, {"Mark"}, {"Doses", Kind::number}, {"Last day", Kind::fixed},
            {"Incident"}};
}

namespace {

/// The rows under one heading. Doses in doubt are under one of their own: their list alone would let them be used.
struct Section {
    std::string_view heading;
    TableLayout::Paint paint;
    List list;
    bool in_doubt;

    bool has(const ListsAnswer::Row& row) const {
        return row.list == list && is_kept_in_doubt(row.list, row.in_doubt) == in_doubt;
    }
};

}  // namespace

void forms::add_lists(TableLayout& table, const std::vector<ListsAnswer::Row>& rows, const TableStyle& style,
                      Instant at, bool empty) {
    for (const Section& section :
         {Section{list_heading(List::discard), paint_of(List::discard), List::discard, false},
          {list_heading(List::quarantine), paint_of(List::quarantine), List::quarantine, false},
          {in_doubt_heading, TableLayout::Paint::wait, List::keep, true},
          {list_heading(List::keep), paint_of(List::keep), List::keep, false}}) {
        std::int64_t holdings = 0, doses = 0, warned = 0;
        for (const auto& row : rows) {
            if (!section.has(row)) continue;
            ++holdings;
            doses += row.doses.count();
            if (!row.beside.empty()) warned += row.doses.count();
        }
        if (holdings == 0 && (section.in_doubt || !empty)) continue;
        table.blank();
        table.text(std::string(section.heading) + ": " + doses_words(doses) + " in " + counted(holdings, "holding") +
                       (warned > 0 ? ", " + doses_words(warned) + " WITH A WARNING" : ""),
                   0, 2, section.paint);
        if (holdings == 0) continue;
        table.titles();
        for (const auto& row : rows) {
            if (!section.has(row)) continue;
            const HoldingKey& key = row.holding;
            table.row({key.place, key.product, key.lot, key.fund, key.mark, std::to_string(row.doses.count()),
                       answers::last_day_words(row.last_use.until, style.zone), in_doubt_cell(row.list, row.in_doubt)});
            add_expiry(table, row.last_use, row.expiry);
            add_details(table, row, style, at);
        }
    }
}

std::string to_table(const ListsAnswer& answer, const TableStyle& style) {
    TableLayout table(lists_columns());
    add_head(table, answer.head, "what may be used and what must not", style);
    add_lists(table, answer.holdings, style, answer.head.at, true);
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
