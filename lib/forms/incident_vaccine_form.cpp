#include <map>

#include "conditions/fit.hpp"
#include "entries/history_json.hpp"
#include "forms/incident_form.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"

namespace coldtally::forms {

using Kind = TableLayout::Column::Kind;
using Paint = TableLayout::Paint;

std::vector<TableLayout::Column> vaccine_columns() {
    return {{words::title_product()},
            {words::title_lot(), Kind::fixed},
            {words::title_expiry(), Kind::fixed, 3},
            {words::title_place()},
            {words::title_doses(), Kind::number},
            {words::title_given(), Kind::number},
            {words::title_wasted(), Kind::number, 1},
            {words::title_returned(), Kind::number, 2},
            {words::title_sent(), Kind::number},
            {words::title_found(), Kind::number},
            {words::title_missing(), Kind::number}};
}

Json line_json(const IncidentAnswer::Line& l) {
    Json o = holding_json(l.holding);
    o["name"] = l.product_name;
    o["maker"] = json_or_null(l.maker);
    o["expiry"] = l.expiry.text();
    o["doses"] = l.doses.count();
    o["exposed_before"] =
        l.before.total.warm.at_most.sign() > 0 || l.before.total.cold.at_most.sign() > 0 || l.before.total.points > 0;
    o["before"] = entries::history_json(l.before, l.allowance_seconds);
    o["exposure"] = entries::exposure_json(l.exposure, l.allowance_seconds);
    o["counted"] = json_or_null(l.counted);
    o["given"] = l.given;
    o["wasted"] = l.wasted;
    o["returned"] = l.returned;
    o["transferred"] = l.transferred;
    o["found"] = l.found;
    o["missing"] = l.missing;
    set_remarks(o, "beside", l.beside);
    return o;
}

Json held_json(const IncidentAnswer::Held& h) {
    return {{"entry", h.entry}, {"place", h.place}, {"product", h.product}, {"lot", h.lot}, {"doses", h.doses.count()}};
}

namespace {

/// Out of range, or `none`, and what is not known between checks.
Remark exposure_words(const Exposure& e, const Remark& none) {
    const Remark out = out_of_range_words(e).value_or(none);
    const auto between = between_checks_words(e.seconds);
    return between ? words::semicolon(out, *between) : out;
}

void add_line(TableLayout& table, const IncidentAnswer::Line& l) {
    const auto if_any = [](std::int64_t doses) { return doses > 0 ? Field(doses) : Field(); };
    table.row({l.holding.product, l.holding.lot, l.expiry.text(), place_words(l.holding), l.doses.count(), l.given,
               l.wasted, l.returned, if_any(l.transferred), if_any(l.found), if_any(l.missing)});
    for (const auto& one : l.beside) table.text(one, 6, 2, Paint::wait);
    table.text(words::product_maker(l.product_name, l.maker ? Field(*l.maker) : Field(words::not_known())), 6, 2);
    table.text(words::out_this_time(exposure_words(l.exposure, words::not_known_out)), 6, 2);
    table.text(words::out_before(exposure_words(l.before.total, words::not_exposed)), 6, 2);
}

/// Each place with its range.
Remark ranges_words(const std::vector<IncidentAnswer::Held>& holds) {
    std::map<std::string, Field> ranges;
    for (const auto& h : holds) ranges[h.place] = answers::range_words(h.range);
    std::vector<Remark> out;
    for (const auto& [place, range] : ranges) out.push_back(words::colon(place, range));
    return *words::semicolons(out);
}

}  // namespace

void add_vaccine(TableLayout& table, const IncidentAnswer& a) {
    add_heading(table, a.counted ? words::heading_vaccine_counted : words::heading_vaccine_by_book);
    if (a.lines.empty()) {
        table.text(words::none_known(), 2);
    } else {
        table.text(words::vaccine_columns(), 2, 2);
        table.titles();
    }
    for (const auto& l : a.lines) add_line(table, l);
}

void add_holds(TableLayout& table, const IncidentAnswer& a, const TableStyle& style) {
    if (a.holds.empty()) return;
    add_heading(table, words::heading_holds);
    for (const auto& h : a.holds) {
        const Remark what = words::holding(h.product, h.lot, h.place);
        table.text(h.doses.count() > 0 ? words::hold_stands(h.doses.count(), what, h.entry)
                                       : words::hold_holds_none(what, h.entry),
                   2, 2);
    }
    if (a.against_release.empty())
        table.text(words::can_be_released(ranges_words(a.holds), style.zone.local_text(*a.release_from),
                                          style.zone.local_text(*a.release_until)),
                   2, 2);
    for (const auto& why : a.against_release) table.text(words::against_release(why), 2, 2, Paint::wait);
}

}  // namespace coldtally::forms
