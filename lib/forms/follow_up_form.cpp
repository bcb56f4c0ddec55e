// Follow-up as JSON and as a table.
#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"
#include "forms/departed_form.hpp"
#include "forms/table.hpp"
#include "stock/departed.hpp"

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
    out["finding"] = d.finding;
    out["standing"] = d.standing;
    out["steps"] = Json::array();
    for (const auto& s : d.steps)
        out["steps"].push_back(
            {{"entry", s.entry}, {"at", s.at.text()}, {"by", s.by}, {"step", s.step}, {"text", s.text}});
    return out;
}

Json count_json(const FollowUpCount& c) { return {{"name", c.name}, {"gives", c.gives}, {"doses", c.doses.count()}}; }

std::string count_words(const FollowUpCount& c) {
    return counted(c.gives, "give") + (c.doses.count() == c.gives ? "" : " (" + doses_words(c.doses.count()) + ")");
}

void row(TableLayout& table, const Dose& d, const TableStyle& style) {
    table.row({std::to_string(d.give), style.zone.local_text(d.given), d.patient, d.holding.product, d.holding.lot,
               std::to_string(d.doses.count()), finding_words(d.finding), d.standing});
    if (!d.certain) table.text("the chart names the lot, not the box", 6, 2);
    for (const auto& s : d.steps)
        table.text(style.zone.local_text(s.at) + " " + s.step + (s.text.empty() ? "" : ": " + s.text) + " (" + s.by +
                       ", entry " + std::to_string(s.entry) + ")",
                   6, 2);
}

}  // namespace

std::string to_json(const FollowUpAnswer& a) {
    Json out = json_head(a.head);
    out["product"] = json_or_null(a.product);
    out["lot"] = json_or_null(a.lot);
    out["doses"] = list_json(a.doses, dose_json);
    out["not_listed"] = a.not_listed;
    out["apart"] = list_json(a.apart, dose_json);
    out["standings"] = list_json(a.standings, count_json);
    out["ever"] = list_json(a.ever, count_json);
    out["whole"] = count_json(a.whole);
    out["left"] = list_json(a.left, [](const auto& d) {
        Json one = departed_json(d);
        one["news"] = d.news;
        return one;
    });
    out["caution"] = std::string(caution) + " " + review_caution;
    return json_line(out);
}

std::string to_table(const FollowUpAnswer& a, const TableStyle& style) {
    TableLayout table({{"Give", Kind::number},
                       {"Given", Kind::fixed},
                       {"Patient"},
                       {"Product"},
                       {"Lot"},
                       {"Doses", Kind::number},
                       {"Review", Kind::text},
                       {"Standing", Kind::fixed}});
    add_head(table, a.head,
             a.lot ? "recall of " + *a.product + " lot " + *a.lot + ", every dose given of it"
                   : "doses under review, followed to their end",
             style);
    table.blank();
    for (const auto& line : a.not_listed) table.text(line + ".", 0, 2, TableLayout::Paint::wait);
    if (!a.not_listed.empty()) table.blank();
    table.text("Whole list: " + count_words(a.whole), 2, 2, TableLayout::Paint::bold);
    std::string now, ever;
    for (const auto& c : a.standings)
        if (c.gives > 0) now += (now.empty() ? "" : " + ") + std::string(c.name) + " " + count_words(c);
    for (const auto& c : a.ever)
        if (c.gives > 0) ever += (ever.empty() ? "" : ", ") + std::string(c.name) + " " + count_words(c);
    table.text("Where each stands (adds up to the whole): " + (now.empty() ? "no doses" : now), 2, 2);
    table.text("Ever (a dose may have had several steps): " + (ever.empty() ? "no steps yet" : ever), 2, 2);
    table.blank();
    if (a.doses.empty()) table.text(a.lot ? "No dose of it was given." : "No dose is on the review list.");
    else table.titles();
    for (const auto& d : a.doses) row(table, d, style);
    if (!a.apart.empty()) {
        table.blank();
        table.text("Apart, in no count: followed up, and no longer on this list", 0, 2, TableLayout::Paint::bold);
        if (a.doses.empty()) table.titles();
    }
    for (const auto& d : a.apart) row(table, d, style);
    if (!a.left.empty()) {
        table.blank();
        table.text(a.lot ? "Left this site, in no count: tell who has them"
                         : "Left this site, and worse is known of them since: tell who has them",
                   0, 2, TableLayout::Paint::bold);
    }
    for (const auto& d : a.left) {
        const auto& told = d.departure.told;
        table.text(answers::left_words(d.departure, style.zone) + ": " + departed_words(d) +
                       (told ? "; told of, entry " + std::to_string(*told) : std::string()),
                   2, 2);
        for (const auto& one : d.news) table.text("since then: " + one, 6, 2, TableLayout::Paint::stop);
        if (!told || !d.news.empty())
            table.text(answers::left_advice(d.departure), 6, 2, TableLayout::Paint::stop);
    }
    add_caution(table, review_caution);
    return render(table, style);
}

}  // namespace coldtally
