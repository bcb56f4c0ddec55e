// Dates as JSON and as a table.
#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"
#include "forms/fund_words.hpp"
#include "forms/table.hpp"
#include "stock/last_use.hpp"
#include "words/stewardship.hpp"
#include "words/stock.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

std::string to_json(const DatesAnswer& a) {
    Json out = json_head(a.head);
    out["holdings"] = Json::array();
    for (const auto& r : a.holdings) {
        Json one = holding_json(r.holding);
        one["doses"] = r.doses.count();
        one["list"] = list_name(r.list);
        one["do_not_use"] = do_not_use(r.list, r.in_doubt, r.notes);
        one["usable_until"] = r.limits.front().until.text();
        one["binding"] = use_limit_name(r.limits.front().what);
        one["last_use"] = last_use_json(r.last_use);
        one["limits"] = list_json(r.limits, [](const auto& l) -> Json {
            return {{"what", use_limit_name(l.what)}, {"entry", json_or_null(l.entry)}, {"until", l.until.text()}};
        });
        one["out_of_range_s"] = r.out_of_range_s.text();
        one["order"] = json_or_null(r.order);
        one["left_over"] = r.left_over.count();
        one["in_doubt"] = r.in_doubt;
        set_remarks(one, "notes", r.notes);
        out["holdings"].push_back(std::move(one));
    }
    out["use"] = Json::array();
    for (const auto& u : a.use)
        out["use"].push_back({{"product", u.product},
                              {"fund", u.fund},
                              {"given", u.given.count()},
                              {"days", use_rate_days},
                              {"per_day", Rational(u.given.count(), use_rate_days).text()},
                              {"first_received", json_or_null(u.first_received)},
                              {"on_keep", u.on_keep.count()},
                              {"left_over", u.left_over.count()}});
    out["caution"] = cautions({words::caution_dates, words::caution});
    return json_line(out);
}

namespace {

void add_row(TableLayout& table, const DatesAnswer::Row& r, const TableStyle& style) {
    const auto& k = r.holding;
    const Field shortened =
        r.last_use.set_by == UseLimitKind::expiry ? Field("") : Field(answers::set_by_words(r.last_use));
    table.row({r.order ? Field(*r.order) : Field(), k.product, k.fund, k.lot, k.place, k.mark, r.doses.count(),
               answers::last_day_words(r.last_use.until, style.zone), shortened,
               r.order ? Field(r.left_over.count()) : Field(), in_doubt_cell(r.list, r.in_doubt)});
    if (r.list != List::keep)
        table.text(list_heading(r.list), 6, 2,
                   r.list == List::discard ? TableLayout::Paint::stop : TableLayout::Paint::wait);
    if (is_kept_in_doubt(r.list, r.in_doubt))
        table.text(words::heading_in_doubt(), 6, 2, TableLayout::Paint::wait);
    if (is_kept_warned(r.list, r.in_doubt, r.notes))
        table.text(words::heading_warned(), 6, 2, TableLayout::Paint::wait);
    for (const auto& note : r.notes) table.text(words::note(note), 6, 2, TableLayout::Paint::wait);
    for (std::size_t i = 1; i < r.limits.size(); ++i) {
        const auto& l = r.limits[i];
        Remark limit = use_limit_words(l.what);
        if (l.entry) limit = words::in_brackets(limit, words::entry(*l.entry));
        table.text(words::later_limit(answers::last_day_words(l.until, style.zone), limit), 6, 2);
    }
}

void add_rate(TableLayout& table, const DatesAnswer::Use& u, Instant at, const TableStyle& style) {
    Remark rate = words::rate_of_use(u.product, fund_words(u.fund), words::doses(u.given.count()), use_rate_days,
                                     words::doses(u.on_keep.count()), u.left_over.count());
    if (u.first_received && *u.first_received > at - Duration(use_rate_days * 86400))
        rate = words::rate_says_little(rate, style.zone.local_text(*u.first_received));
    table.text(rate, 0, 2, u.left_over.count() > 0 ? TableLayout::Paint::wait : TableLayout::Paint::plain);
}

}  // namespace

std::string to_table(const DatesAnswer& a, const TableStyle& style) {
    TableLayout table(*style.book, {{words::title_use(), Kind::number},
                                    {words::title_product()},
                                    {words::title_fund(), Kind::fixed, 2},
                                    {words::title_lot(), Kind::fixed},
                                    {words::title_place()},
                                    {words::title_mark(), Kind::fixed, 5},
                                    {words::title_doses(), Kind::number},
                                    {words::title_last_day(), Kind::text, 0, 10},
                                    {words::title_set_by(), Kind::text, 3, 11},
                                    {words::title_left_over(), Kind::number},
                                    {words::title_incident(), Kind::text, 4, 9}});
    add_head(table, a.head, words::title_dates(), style);
    table.blank();
    if (a.holdings.empty())
        table.text(words::no_doses_on_hand());
    else
        table.titles();
    for (const auto& r : a.holdings) add_row(table, r, style);
    table.blank();
    for (const auto& u : a.use) add_rate(table, u, a.head.at, style);
    add_caution(table, words::caution_dates());
    return render(table, style);
}

}  // namespace coldtally
