// Readiness as JSON and as a table.
#include <algorithm>

#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "upkeep/readiness.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"
#include "words/upkeep.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;
using Urgency = ReadinessAnswer::Urgency;

namespace {

Json finding_json(const ReadinessAnswer::Finding& f) {
    Json out{{"topic", matter_name(f.topic)}, {"urgency", urgency_name(f.urgency)}};
    out["where"] = english().say(f.where);
    out["where_code"] = field_json(f.where);
    set_remark(out, "text", f.text);
    out["since"] = json_or_null(f.since);
    set_remark(out, "rule", f.rule);
    set_remarks(out, "details", f.details);
    return out;
}

Json topic_json(const ReadinessAnswer::Topic& t) {
    Json out{{"topic", matter_name(t.topic)}, {"judged", t.judged}};
    set_remark(out, "rule", t.rule);
    out["what"] = t.what ? english().say(*t.what) : std::string();
    out["what_code"] = t.what ? remark_json(*t.what) : Json(nullptr);
    out["looked_at"] = t.looked_at;
    out["in_order"] = t.in_order;
    out["findings"] = t.findings;
    out["due_soon"] = t.due_soon;
    return out;
}

Remark matter_words(ReadinessAnswer::Matter matter) {
    static const Remark all[] = {words::matter_doses_to_discard,
                                 words::name_guidance,
                                 words::matter_opened_vials,
                                 words::incidents_title,
                                 words::matter_excursions,
                                 words::matter_temperature_record,
                                 words::matter_checks,
                                 words::matter_certificates,
                                 words::matter_logger_readings,
                                 words::matter_counts,
                                 words::matter_plan,
                                 words::matter_training,
                                 words::matter_doses_followed_up,
                                 words::matter_doses_that_left,
                                 words::matter_loans,
                                 words::matter_log_review,
                                 words::matter_service,
                                 words::matter_self_audit,
                                 words::matter_retention};
    return all[static_cast<int>(matter)];
}

Remark urgency_heading(Urgency urgency) {
    switch (urgency) {
        case Urgency::act: return words::heading_act;
        case Urgency::overdue: return words::heading_overdue;
        case Urgency::soon: break;
    }
    return words::heading_soon;
}

/// How many were found, and what could not be judged.
void add_numbers(TableLayout& table, const ReadinessAnswer& a) {
    std::vector<Field> unjudged;
    for (const auto matter : a.not_judged()) unjudged.emplace_back(matter_words(matter));
    const auto soon =
        std::count_if(a.findings.begin(), a.findings.end(), [](const auto& f) { return f.urgency == Urgency::soon; });
    const Remark now = words::findings(static_cast<std::int64_t>(a.findings.size()) - soon);
    if (a.findings.empty())
        table.text(words::nothing_missing(), 0, 2,
                   unjudged.empty() ? TableLayout::Paint::go : TableLayout::Paint::plain);
    else
        table.text(words::most_urgent_first(soon > 0 ? words::both(now, words::number_due_soon(soon)) : now), 0, 2,
                   TableLayout::Paint::bold);
    if (!unjudged.empty())
        table.text(words::matters_not_judged(unjudged.size(), words::listed(unjudged)), 0, 2,
                   TableLayout::Paint::wait);
}

void add_finding(TableLayout& table, const ReadinessAnswer::Finding& f, const TableStyle& style) {
    using Matter = ReadinessAnswer::Matter;
    // what the plan lacks, and which doses left, says itself of whom it is
    const bool somewhere = f.where != Field() && f.topic != Matter::plan && f.topic != Matter::doses_that_left;
    const Remark found = words::colon(matter_words(f.topic), somewhere ? words::colon(f.where, f.text) : f.text);
    table.text(f.urgency == Urgency::soon ? words::sentence(found)
               : f.since                  ? words::finding_since(found, style.zone.local_text(*f.since))
                                          : words::finding_since_not_known(found),
               2, 4);
    for (const auto& d : f.details) table.text(d, 6, 2);
}

void add_looked_at(TableLayout& table, const ReadinessAnswer::Topic& t) {
    const auto number = [&](std::int64_t n) { return t.judged ? std::to_string(n) : std::string("-"); };
    const Remark matter = matter_words(t.topic);
    table.row({t.what ? words::in_brackets(matter, *t.what) : matter, number(t.looked_at), number(t.in_order),
               t.judged ? Field(t.findings) : Field(words::cell_not_judged()), number(t.due_soon), t.rule});
}

void add_retention(TableLayout& table, const ReadinessAnswer& a, const TableStyle& style) {
    table.text(words::first_record_is(style.zone.local_text(a.first_record)), 0, 2);
    for (const auto& k : a.retention) {
        const Remark kept =
            words::kept_until(k.records, words::years(k.years), k.first_until.text(), k.today_until.text());
        table.text(&k == &a.retention.front() ? words::kept_longest(kept) : kept, 2, 2);
    }
}

}  // namespace

std::string to_json(const ReadinessAnswer& a) {
    Json out = json_head(a.head);
    out["from"] = a.from.text();
    out["excursions_from"] = answers::excursions_from(a).text();
    out["rules"] = json_or_null(a.rules_entry);
    out["findings"] = list_json(a.findings, finding_json);
    out["topics"] = list_json(a.topics, topic_json);
    out["not_judged"] = list_json(a.not_judged(), matter_name);
    out["retention"] = list_json(a.retention, [](const ReadinessAnswer::Kept& k) {
        return Json{{"records", k.records},
                    {"years", k.years},
                    {"first_until", k.first_until.text()},
                    {"today_until", k.today_until.text()}};
    });
    out["first_record"] = a.first_record.text();
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

std::string to_table(const ReadinessAnswer& a, const TableStyle& style) {
    TableLayout table(*style.book);
    add_head(table, a.head, words::answer_readiness(), style);
    const std::string from = style.zone.local_text(a.from);
    const Instant excursions = answers::excursions_from(a);
    table.text(excursions == a.from ? words::looked_at_since(from)
                                : words::looked_at_since_both(from, style.zone.local_text(excursions)),
               0, 2);
    if (!a.rules_entry) table.text(words::no_rules_known(), 0, 2, TableLayout::Paint::wait);
    table.blank();
    add_numbers(table, a);
    std::optional<Urgency> before;
    for (const auto& f : a.findings) {
        if (f.urgency != before) {
            table.blank();
            table.text(urgency_heading(f.urgency), 0, 2,
                       f.urgency == Urgency::act ? TableLayout::Paint::stop : TableLayout::Paint::wait);
            before = f.urgency;
        }
        add_finding(table, f, style);
    }

    TableLayout looked(*style.book, {{words::title_looked_at()},
                                     {words::title_things(), Kind::number},
                                     {words::title_in_order(), Kind::number},
                                     {words::title_findings(), Kind::number},
                                     {words::title_due_soon(), Kind::number},
                                     {words::title_by_what_rule()}});
    looked.blank();
    looked.titles();
    for (const auto& t : a.topics) add_looked_at(looked, t);
    looked.blank();
    add_retention(looked, a, style);
    add_caution(looked);
    return render(table, style) + render(looked, style);
}

}  // namespace coldtally
