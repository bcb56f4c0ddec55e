// Move lists, as JSON and as tables.
#include <algorithm>

#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "stock/last_use.hpp"
#include "words/journeys.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

namespace {

Field fit_words(const std::optional<Fit>& fit) {
    if (!fit) return "";
    switch (*fit) {
        case Fit::suited: return words::fit_suited();
        case Fit::allowance: return words::fit_allowance();
        case Fit::unsuited: break;
    }
    return words::fit_unsuited();
}

/// The place is out of range, and which doses are out of their own, by the last that was read: before anything else.
void add_alarm(TableLayout& table, const MoveListAnswer& answer) {
    std::int64_t doses = 0;
    for (const auto& row : answer.holdings)
        if (row.must_go) doses += row.doses.count();
    const auto stop = [&](const Remark& text) { table.text(text, 0, 2, TableLayout::Paint::stop); };
    if (answer.out_of_range) stop(words::out_of_range_now(answer.place, *answer.out_of_range));
    if (doses > 0)
        stop(words::must_go_now(words::doses(doses)));
    else if (answer.out_of_range &&
             std::ranges::any_of(answer.holdings, [](const auto& row) { return row.list != List::discard; }))
        stop(words::in_range_of_each);
}

void add_row(TableLayout& table, std::int64_t number, const MoveListAnswer::Row& row, const TableStyle& style) {
    const HoldingKey& k = row.holding;
    const Field product = row.frozen ? Field(words::product_frozen(k.product)) : Field(k.product);
    Remark list = list_cell(row.list, row.in_doubt, row.notes);
    if (is_kept_in_doubt(row.list, row.in_doubt)) list = words::semicolon(list, in_doubt_words(row.in_doubt));
    table.row({number, product, k.lot, k.fund, k.mark, row.doses.count(),
               answers::last_day_words(row.last_use.until, style.zone), list,
               row.must_go ? Field(words::must_go()) : Field(), fit_words(row.fit)});
    add_expiry(table, row.last_use, row.expiry);
    for (const auto& note : row.notes) table.text(words::note(note), 6, 2, TableLayout::Paint::wait);
}

}  // namespace

std::string to_json(const MoveListAnswer& answer) {
    Json out = json_head(answer.head);
    out["place"] = answer.place;
    out["container"] = json_or_null(answer.container);
    set_remark(out, "out_of_range", answer.out_of_range);
    out["holdings"] = Json::array();
    for (const auto& row : answer.holdings) {
        Json one = holding_json(row.holding);
        one["doses"] = row.doses.count();
        one["expiry"] = row.expiry.text();
        one["last_use"] = last_use_json(row.last_use);
        one["unusable_from"] = row.last_use.until.text();
        one["list"] = list_name(row.list);
        one["do_not_use"] = do_not_use(row.list, row.in_doubt, row.notes);
        one["reasons"] = reasons_json(row.reasons);
        one["frozen"] = row.frozen;
        one["in_doubt"] = row.in_doubt;
        one["must_go"] = row.must_go;
        set_remarks(one, "notes", row.notes);
        one["container_fit"] = row.fit ? Json(fit_name(*row.fit)) : Json(nullptr);
        out["holdings"].push_back(std::move(one));
    }
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

std::string to_table(const MoveListAnswer& answer, const TableStyle& style) {
    TableLayout table(*style.book, {{"", Kind::number},
                                    {words::title_product()},
                                    {words::title_lot(), Kind::fixed},
                                    {words::title_fund(), Kind::fixed, 1},
                                    {words::title_mark(), Kind::fixed, 2},
                                    {words::title_doses(), Kind::number},
                                    {words::title_last_day(), Kind::text, 0, 10},
                                    {words::title_list(), Kind::text, 0, 12},
                                    {words::title_now()},
                                    {words::title_container()}});
    add_head(table, answer.head,
             answer.container ? words::title_move_list_into(answer.place, *answer.container)
                              : words::title_move_list(answer.place),
             style);
    add_alarm(table, answer);
    table.blank();
    if (answer.holdings.empty())
        table.text(words::no_doses_in_it());
    else
        table.titles();
    std::int64_t number = 0, doses = 0;
    for (const auto& row : answer.holdings) {
        doses += row.doses.count();
        add_row(table, ++number, row, style);
    }
    table.text(words::doses_in_holdings(words::doses(doses), words::holdings(number)));
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
