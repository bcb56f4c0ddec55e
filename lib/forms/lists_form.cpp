#include <algorithm>
#include <set>

#include "entries/history_json.hpp"
#include "forms/answer_json.hpp"
#include "forms/in_short.hpp"
#include "forms/lists_form.hpp"
#include "forms/table.hpp"
#include "stock/last_use.hpp"
#include "words/history.hpp"
#include "words/stock.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

Json forms::listed_json(const ListsAnswer::Row& row) {
    Json one;
    one.update(holding_json(row.holding));
    one["doses"] = row.doses.count();
    one["expiry"] = row.expiry.text();
    one["last_use"] = last_use_json(row.last_use);
    one["list"] = list_name(row.list);
    one["do_not_use"] = do_not_use(row.list, row.in_doubt, row.beside);
    one["reasons"] = reasons_json(row.reasons);
    set_remarks(one, "notes", row.notes);
    one["in_doubt"] = Json(row.in_doubt);
    one["history"] = entries::history_json(row.history, row.allowance_seconds);
    return one;
}

std::string to_json(const ListsAnswer& answer) {
    Json out = json_head(answer.head);
    out["holdings"] = Json::array();
    for (const auto& row : answer.holdings) out["holdings"].push_back(listed_json(row));
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

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

/// Notes of what the lines of the history say already, and more fully.
bool said_by_history(const Remark& note) {
    for (const Phrase* one : {&words::allowance_left.phrase, &words::allowance_none_left.phrase,
                              &words::allowance_over.phrase, &words::within_tolerance.phrase,
                              &words::no_readings_yet.phrase, &words::temperature_not_known.phrase,
                              &words::nothing_between_checks.phrase, &words::near_reading_for.phrase})
        if (note.is(*one)) return true;
    return false;
}

void add_details(TableLayout& table, const ListsAnswer::Row& row, const TableStyle& style, Instant at) {
    for (const auto& note : row.beside) table.text(note, detail_indent, detail_hang, TableLayout::Paint::stop);
    const ReasonContext context{row.history, row.allowance_seconds, style.zone, at, row.expiry};
    const bool later =
        row.history.use_by && row.last_use.set_by == UseLimitKind::expiry && *row.history.use_by > row.last_use.until;
    for (const auto& line : reason_lines(row.reasons, context))
        table.text(words::why(line), detail_indent, detail_hang);
    for (const auto& line : history_lines(row.history, row.allowance_seconds, style.zone, style.scale))
        table.text(later && line.is(words::use_by_is) ? words::expiry_decides(line) : line, detail_indent, detail_hang);
    for (const auto& note : row.notes)
        if (!said_by_history(note) && std::ranges::find(row.beside, note) == row.beside.end())
            table.text(words::note(note), detail_indent, detail_hang);
}

}  // namespace

void forms::add_expiry(TableLayout& table, const LastUse& use, const Date& expiry) {
    if (use.set_by != UseLimitKind::expiry)
        table.text(words::last_day_set_by(answers::set_by_words(use), expiry.text()), detail_indent, detail_hang);
}

std::vector<TableLayout::Column> forms::lists_columns() {
    return {{words::title_place()},
            {words::title_product()},
            {words::title_lot(), Kind::fixed},
            {words::title_fund(), Kind::fixed, 1},
            {words::title_mark(), Kind::fixed, 2},
            {words::title_doses(), Kind::number},
            {words::title_last_day(), Kind::text, 0, 10},
            {words::title_incident(), Kind::text, 0, 9}};
}

namespace {

using Rows = std::vector<ListsAnswer::Row>;

/// The rows under one heading. Doses in doubt, and those that what stands beside them forbids, are under headings of
/// their own: their list alone would let them be used.
struct Section {
    Remark heading;
    TableLayout::Paint paint;
    List list;
    bool in_doubt = false, warned = false;

    bool has(const ListsAnswer::Row& row) const {
        return row.list == list && is_kept_in_doubt(row.list, row.in_doubt) == in_doubt &&
               is_kept_warned(row.list, row.in_doubt, row.beside) == warned;
    }
};

const std::vector<Section>& sections() {
    static const std::vector<Section> all{
        {list_heading(List::discard), paint_of(List::discard), List::discard},
        {list_heading(List::quarantine), paint_of(List::quarantine), List::quarantine},
        {words::heading_in_doubt, TableLayout::Paint::wait, List::keep, true},
        {words::heading_warned, TableLayout::Paint::wait, List::keep, false, true},
        {list_heading(List::keep), paint_of(List::keep), List::keep}};
    return all;
}

struct Counts {
    std::int64_t holdings = 0, doses = 0, warned = 0;  ///< warned: doses with something beside
};

Counts counts_of(const Rows& rows, const Section& section) {
    Counts out;
    for (const auto& row : rows) {
        if (!section.has(row)) continue;
        ++out.holdings;
        out.doses += row.doses.count();
        if (!row.beside.empty()) out.warned += row.doses.count();
    }
    return out;
}

void add_heading(TableLayout& table, const Section& section, const Counts& n) {
    const Remark doses = words::doses(n.doses), holdings = words::holdings(n.holdings);
    table.text(n.warned > 0 ? words::list_section_warned(section.heading, doses, holdings, words::doses(n.warned))
                            : words::list_section(section.heading, doses, holdings),
               0, 2, section.paint);
}

/// The doses of all sections, in their order.
void add_counts(TableLayout& table, const Rows& rows) {
    std::vector<Counts> n;
    for (const auto& section : sections()) n.push_back(counts_of(rows, section));
    const Field discard = words::doses(n[0].doses), keep = words::doses(n[4].doses);
    const Field doubt = n[3].doses > 0 ? words::in_doubt_and_known_since(n[2].doses, n[3].doses)
                                       : words::so_many_in_doubt(n[2].doses);
    const bool any = n[0].doses + n[1].doses + n[2].doses + n[3].doses > 0;
    table.blank();
    table.text(n[4].warned > 0 ? words::lists_counts_warned(discard, n[1].doses, doubt, keep, n[4].warned)
                               : words::lists_counts(discard, n[1].doses, doubt, keep),
               0, 2, any ? TableLayout::Paint::stop : TableLayout::Paint::bold);
}

/// The gravest of what keeps them from use; empty on keep.
Field why_cell(const ListsAnswer::Row& row) {
    if (is_kept_in_doubt(row.list, row.in_doubt)) return words::doubt_cell();
    if (const auto gravest = gravest_words(row.reasons)) return *gravest;
    return "";
}

/// Of which incidents the section's doses are in doubt: once, since its lines have no room for it.
void add_incidents(TableLayout& table, const Rows& rows, const Section& section) {
    std::set<std::string> incidents;
    for (const auto& row : rows)
        if (section.has(row)) incidents.insert(row.in_doubt.begin(), row.in_doubt.end());
    table.text(in_doubt_words({incidents.begin(), incidents.end()}), 2, 2, section.paint);
}

void add_line(TableLayout& table, const ListsAnswer::Row& row, const TableStyle& style) {
    const HoldingKey& key = row.holding;
    table.row({key.place, key.product, key.lot, key.fund, key.mark, row.doses.count(), row.last_use.day.text(),
               why_cell(row)});
    if (!row.last_use.whole_day)  // the day stands in its column, and may not be used to its end
        table.text(words::usable_is(answers::last_day_words(row.last_use.until, style.zone)), detail_indent,
                   detail_hang);
    for (const auto& note : row.beside)
        table.text(shorter(note), detail_indent, detail_hang, TableLayout::Paint::stop);
}

/// A line each.
void add_lines(TableLayout& table, const Rows& rows, const TableStyle& style) {
    if (rows.empty()) return;
    table.blank();
    table.titles();
    bool first = true;
    for (const auto& section : sections()) {
        const Counts n = counts_of(rows, section);
        if (n.holdings == 0) continue;
        if (!first) table.blank();
        first = false;
        add_heading(table, section, n);
        if (section.in_doubt) add_incidents(table, rows, section);
        for (const auto& row : rows)
            if (section.has(row)) add_line(table, row, style);
    }
    std::int64_t reasons = 0, notes = 0;
    for (const auto& row : rows) {
        reasons += std::max<std::int64_t>(0, std::ssize(row.reasons) - 1);
        notes += std::ssize(row.notes) - std::ssize(row.beside);
    }
    table.blank();
    table.text(words::lists_left_out(words::more_reasons(reasons), words::notes(notes), words::parameter("why")), 0, 2);
}

std::vector<TableLayout::Column> line_columns() {
    auto out = lists_columns();
    out[out.size() - 2].kind = Kind::fixed;
    out.back() = {words::title_why(), Kind::text, 0, 12};
    return out;
}

}  // namespace

void forms::add_lists(TableLayout& table, const Rows& rows, const TableStyle& style, Instant at, bool empty) {
    for (const auto& section : sections()) {
        const Counts n = counts_of(rows, section);
        if (n.holdings == 0 && (section.in_doubt || section.warned || !empty)) continue;
        table.blank();
        add_heading(table, section, n);
        if (n.holdings == 0) continue;
        table.titles();
        for (const auto& row : rows) {
            if (!section.has(row)) continue;
            const HoldingKey& key = row.holding;
            table.row({key.place, key.product, key.lot, key.fund, key.mark, row.doses.count(),
                       answers::last_day_words(row.last_use.until, style.zone), in_doubt_cell(row.list, row.in_doubt)});
            add_expiry(table, row.last_use, row.expiry);
            add_details(table, row, style, at);
        }
    }
}

std::string to_table(const ListsAnswer& answer, const TableStyle& style) {
    TableLayout table(*style.book, style.why ? lists_columns() : line_columns());
    add_head(table, answer.head, words::lists_title(), style);
    add_counts(table, answer.holdings);
    if (style.why)
        add_lists(table, answer.holdings, style, answer.head.at, true);
    else
        add_lines(table, answer.holdings, style);
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
