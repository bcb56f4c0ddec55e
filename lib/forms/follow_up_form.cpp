// Follow-up: doses given and what was done about each, as JSON and as a table.
#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"
#include "forms/departed_form.hpp"
#include "forms/table.hpp"
#include "stock/departed.hpp"
#include "words/follow_up.hpp"
#include "words/lists.hpp"
#include "words/review.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;
using Dose = FollowUpAnswer::Dose;
using FollowUpCount = FollowUpAnswer::Count;

namespace {

Json dose_json(const Dose& d) {
    Json out{{"give", d.give}, {"given", d.given.text()}, {"patient", d.patient}};
    out.update(holding_json(d.holding));
    out["doses"] = d.doses.count();
    out["certain"] = d.certain;
    out["finding"] = finding_name(d.finding);
    out["standing"] = standing_name(d.standing);
    out["steps"] = list_json(d.steps, [](const auto& s) -> Json {
        return {{"entry", s.entry},
                {"at", s.at.text()},
                {"by", s.by},
                {"step", standing_name(s.step)},
                {"text", s.text}};
    });
    set_remarks(out, "news", d.news);
    return out;
}

Json count_json(const FollowUpCount& c) {
    return {{"name", c.of ? standing_name(*c.of) : "whole"}, {"gives", c.gives}, {"doses", c.doses.count()}};
}

Remark count_words(const FollowUpCount& c) {
    const Remark gives = words::gives(c.gives);
    return c.doses.count() == c.gives ? gives : words::in_brackets(gives, words::doses(c.doses.count()));
}

/// Those that count anything, joined; none where none does.
std::optional<Remark> counts_words(const std::vector<FollowUpCount>& counts, const words::Says<2>& join) {
    std::optional<Remark> out;
    for (const auto& c : counts) {
        if (c.gives == 0) continue;
        const Remark one = words::standing_count(standing_words(*c.of), count_words(c));
        out = out ? join(*out, one) : one;
    }
    return out;
}

void add_dose(TableLayout& table, const Dose& d, const TableStyle& style) {
    table.row({d.give, style.zone.local_text(d.given), d.patient, d.holding.product, d.holding.lot, d.doses.count(),
               finding_words(d.finding), standing_words(d.standing)});
    if (!d.certain) table.text(words::lot_alone_known(), 6, 2);
    for (const auto& s : d.steps) {
        const Remark step = standing_words(s.step);
        table.text(words::step_noted(style.zone.local_text(s.at), s.text.empty() ? step : words::colon(step, s.text),
                                     s.by, s.entry),
                   6, 2);
    }
    if (d.news.empty()) return;
    const auto& last = d.steps.back();
    table.text(words::decided_before(standing_words(last.step), style.zone.local_text(last.at),
                                     *words::semicolons(d.news)),
               6, 2, TableLayout::Paint::stop);
}

void add_counts(TableLayout& table, const FollowUpAnswer& a) {
    table.text(words::whole_list(count_words(a.whole)), 2, 2, TableLayout::Paint::bold);
    table.text(words::where_each_stands(counts_words(a.standings, words::plus).value_or(words::no_doses)), 2, 2);
    if (a.look_again.gives > 0)
        table.text(words::look_again(count_words(a.look_again)), 2, 2, TableLayout::Paint::stop);
    table.text(words::ever_stood(counts_words(a.ever, words::comma).value_or(words::no_steps_yet)), 2, 2);
}

void add_left(TableLayout& table, const FollowUpAnswer& a, const TableStyle& style) {
    if (a.left.empty()) return;
    table.blank();
    table.text(a.lot ? words::left_of_recall() : words::left_with_news(), 0, 2, TableLayout::Paint::bold);
    for (const auto& d : a.left) {
        const auto& told = d.departure.told;
        Remark left = words::colon(answers::left_words(d.departure, style.zone), departed_words(d));
        if (told) left = words::semicolon(left, words::told_by_entry(*told));
        table.text(left, 2, 2);
        for (const auto& one : d.news) table.text(words::learnt_since(one), 6, 2, TableLayout::Paint::stop);
        if (!told || !d.news.empty())
            table.text(answers::left_advice(d.departure), 6, 2, TableLayout::Paint::stop);
    }
}

}  // namespace

std::string to_json(const FollowUpAnswer& a) {
    Json out = json_head(a.head);
    out["product"] = json_or_null(a.product);
    out["lot"] = json_or_null(a.lot);
    out["doses"] = list_json(a.doses, dose_json);
    set_remarks(out, "not_listed", a.not_listed);
    out["apart"] = list_json(a.apart, dose_json);
    out["standings"] = list_json(a.standings, count_json);
    out["ever"] = list_json(a.ever, count_json);
    out["whole"] = count_json(a.whole);
    out["look_again"] = Json{{"gives", a.look_again.gives}, {"doses", a.look_again.doses.count()}};
    out["left"] = list_json(a.left, [](const auto& d) {
        Json one = departed_json(d);
        set_remarks(one, "news", d.news);
        return one;
    });
    out["caution"] = cautions({words::caution, words::caution_review});
    return json_line(out);
}

std::string to_table(const FollowUpAnswer& a, const TableStyle& style) {
    TableLayout table(*style.book, {{words::title_give(), Kind::number},
                                    {words::title_given(), Kind::fixed},
                                    {words::title_patient()},
                                    {words::title_product()},
                                    {words::title_lot(), Kind::fixed},
                                    {words::title_doses(), Kind::number},
                                    {words::title_review(), Kind::text, 1, 10},
                                    {words::title_standing(), Kind::fixed}});
    add_head(table, a.head, a.lot ? words::title_recall(*a.product, *a.lot) : words::title_follow_up(), style);
    table.blank();
    for (const auto& line : a.not_listed) table.text(words::sentence(line), 0, 2, TableLayout::Paint::wait);
    if (!a.not_listed.empty()) table.blank();
    add_counts(table, a);
    table.blank();
    if (a.doses.empty())
        table.text(a.lot ? words::no_dose_given() : words::review_list_empty());
    else
        table.titles();
    for (const auto& d : a.doses) add_dose(table, d, style);
    if (!a.apart.empty()) {
        table.blank();
        table.text(words::followed_apart(), 0, 2, TableLayout::Paint::bold);
        if (a.doses.empty()) table.titles();
    }
    for (const auto& d : a.apart) add_dose(table, d, style);
    add_left(table, a, style);
    add_caution(table, words::caution_review());
    return render(table, style);
}

}  // namespace coldtally
