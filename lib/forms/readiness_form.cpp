// Readiness as JSON and as a table.
#include <algorithm>
#include <optional>
#include <span>
#include <vector>

#include "coldtally/forms.hpp"
#include "forms/readiness_form.hpp"
#include "forms/table.hpp"
#include "upkeep/readiness.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"
#include "words/upkeep.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;
using Urgency = ReadinessAnswer::Urgency;

Json forms::finding_json(const ReadinessAnswer::Finding& f) {
    Json out{{"topic", matter_name(f.topic)}, {"urgency", urgency_name(f.urgency)}};
    out["where"] = english().say(f.where);
    out["where_code"] = field_json(f.where);
    set_remark(out, "text", f.text);
    out["since"] = json_or_null(f.since);
    set_remark(out, "rule", f.rule);
    set_remarks(out, "details", f.details);
    return out;
}

Json forms::topic_json(const ReadinessAnswer::Topic& t) {
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

Remark forms::matter_words(ReadinessAnswer::Matter matter) {
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

namespace {

Remark urgency_heading(Urgency urgency) {
    switch (urgency) {
        case Urgency::act: return words::heading_act;
        case Urgency::overdue: return words::heading_overdue;
        case Urgency::soon: break;
    }
    return words::heading_soon;
}

std::int64_t count_of(const ReadinessAnswer& a, Urgency urgency) {
    return std::ranges::count_if(a.findings, [&](const auto& f) { return f.urgency == urgency; });
}

/// How many endanger doses now, are overdue, and due soon; and what could not be judged.
void add_headline(TableLayout& table, const ReadinessAnswer& a) {
    const std::int64_t act = count_of(a, Urgency::act);
    std::vector<Field> unjudged;
    for (const auto matter : a.not_judged()) unjudged.emplace_back(matter_words(matter));
    const auto found = act > 0 ? TableLayout::Paint::stop : TableLayout::Paint::bold;
    if (a.findings.empty())
        table.text(words::nothing_missing(), 0, 2,
                   unjudged.empty() ? TableLayout::Paint::go : TableLayout::Paint::plain);
    else
        table.text(words::readiness_counts(words::findings(act), count_of(a, Urgency::overdue),
                                           count_of(a, Urgency::soon)),
                   0, 2, found);
    if (!unjudged.empty())
        table.text(words::matters_not_judged(unjudged.size(), words::listed(unjudged)), 0, 2,
                   TableLayout::Paint::wait);
}

/// What the plan lacks, and which doses left, says itself of whom it is.
bool says_where(const ReadinessAnswer::Finding& f) {
    using Matter = ReadinessAnswer::Matter;
    return f.where == Field() || f.topic == Matter::plan || f.topic == Matter::doses_that_left;
}

void add_finding(TableLayout& table, const ReadinessAnswer::Finding& f, const TableStyle& style) {
    const Remark found =
        words::colon(matter_words(f.topic), says_where(f) ? f.text : words::colon(f.where, f.text));
    table.text(f.urgency == Urgency::soon ? words::sentence(found)
               : f.since                  ? words::finding_since(found, style.zone.local_text(*f.since))
                                          : words::finding_since_not_known(found),
               2, 4);
    if (!style.why) return;
    for (const auto& d : f.details) table.text(d, 6, 2);
}

using Findings = std::span<const ReadinessAnswer::Finding>;

/// Several of one matter in one line: how many, of which things, and since when the oldest is.
void add_together(TableLayout& table, Findings of, const TableStyle& style) {
    constexpr std::size_t most = 3;
    std::optional<Instant> oldest;
    bool known = true;
    std::vector<Field> where;
    for (const auto& f : of) {
        known = known && f.since;
        if (f.since && (!oldest || *f.since < *oldest)) oldest = f.since;
        if (f.where != Field() && std::ranges::find(where, f.where) == where.end()) where.push_back(f.where);
    }
    const std::size_t all = where.size();
    if (all > most) where.resize(most);
    Field things = words::listed(where);
    if (all > most) things = words::and_more(things, all - most);
    const Remark number = words::findings(of.size());
    const Remark found = words::colon(matter_words(of.front().topic),
                                      all > 0 ? words::in_brackets(number, things) : number);
    const bool soon = of.front().urgency == Urgency::soon;
    table.text(soon || !oldest ? words::sentence(found)
               : known         ? words::findings_since(found, style.zone.local_text(*oldest))
                               : words::findings_since_some(found, style.zone.local_text(*oldest)),
               2, 4);
}

/// Those of one urgency: a line each where few are of a matter, and doses may be at stake; else a line a matter.
void add_of_urgency(TableLayout& table, Findings of, const TableStyle& style) {
    const std::size_t most = style.why ? of.size() : of.front().urgency == Urgency::act ? 4 : 1;
    while (!of.empty()) {
        const auto other = std::ranges::find_if(of, [&](const auto& f) { return f.topic != of.front().topic; });
        const auto same = static_cast<std::size_t>(other - of.begin());
        if (same <= most)
            for (const auto& f : of.first(same)) add_finding(table, f, style);
        else
            add_together(table, of.first(same), style);
        of = of.subspan(same);
    }
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

namespace {

/// All that was looked at, by what rule, and how long records are kept.
std::string looked_at_table(const ReadinessAnswer& a, const TableStyle& style) {
    TableLayout looked(*style.book, {{words::title_looked_at(), Kind::text, 0, 20},
                                     {words::title_things(), Kind::number},
                                     {words::title_in_order(), Kind::number},
                                     {words::title_findings(), Kind::number},
                                     {words::title_due_soon(), Kind::number},
                                     {words::title_by_what_rule(), Kind::text, 1, 24}});
    looked.blank();
    looked.titles();
    for (const auto& t : a.topics) add_looked_at(looked, t);
    looked.blank();
    add_retention(looked, a, style);
    return render(looked, style);
}

void add_left_out(TableLayout& table, const ReadinessAnswer& a) {
    const auto in_order =
        std::ranges::count_if(a.topics, [](const auto& t) { return t.judged && t.findings == 0; });
    table.blank();
    table.text(words::readiness_left_out(a.topics.size(), in_order, words::parameter("why")), 0, 2);
}

}  // namespace

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
    add_headline(table, a);
    for (Findings rest(a.findings); !rest.empty();) {
        const Urgency urgency = rest.front().urgency;
        const auto other = std::ranges::find_if(rest, [&](const auto& f) { return f.urgency != urgency; });
        const auto same = static_cast<std::size_t>(other - rest.begin());
        table.blank();
        table.text(urgency_heading(urgency), 0, 2,
                   urgency == Urgency::act ? TableLayout::Paint::stop : TableLayout::Paint::wait);
        add_of_urgency(table, rest.first(same), style);
        rest = rest.subspan(same);
    }
    TableLayout end(*style.book);
    if (!style.why) add_left_out(end, a);
    add_caution(end);
    return render(table, style) + (style.why ? looked_at_table(a, style) : "") + render(end, style);
}

}  // namespace coldtally
