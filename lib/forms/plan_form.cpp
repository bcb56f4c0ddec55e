// The contingency plan as JSON and as a table.
#include "coldtally/forms.hpp"
#include "entries/print.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "words/lists.hpp"
#include "words/upkeep.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

namespace {

/// What is not stated is said not to be: a gap that nobody sees is found at night.
Field or_not_stated(const std::optional<std::string>& text) {
    return text ? Field(*text) : Field(words::not_stated());
}

/// Those that are stated, of texts that may be empty.
Field listed_texts(std::initializer_list<std::optional<std::string>> texts) {
    std::vector<Field> out;
    for (const auto& text : texts)
        if (text && !text->empty()) out.emplace_back(*text);
    return out.empty() ? Field() : words::listed(out);
}

void heading(TableLayout& table, const Remark& title) {
    table.blank();
    table.text(title, 0, 2, TableLayout::Paint::bold);
}

void paragraph(TableLayout& table, const Remark& title, const std::optional<std::string>& text) {
    heading(table, title);
    table.text(or_not_stated(text), 2, 2);
}

void services(TableLayout& table, const Remark& title, const std::vector<Plan::Service>& list) {
    heading(table, title);
    if (list.empty()) table.text(words::not_stated(), 2, 2);
    for (std::size_t i = 0; i < list.size(); ++i)
        table.text(words::numbered(i + 1, words::colon(list[i].what, listed_texts({list[i].phone, list[i].name}))), 2,
                   4);
}

Field agreement(const Plan::Backup& b) {
    std::vector<Field> out;
    if (b.agreement && !b.agreement->empty()) out.emplace_back(*b.agreement);
    if (b.agreed) out.emplace_back(words::agreed_on(b.agreed->text()));
    if (b.agreed_until) out.emplace_back(words::agreed_until(b.agreed_until->text()));
    return out.empty() ? Field(words::not_stated()) : words::listed(out);
}

void backup(TableLayout& table, const Plan::Backup& b, std::size_t number) {
    std::vector<Field> reached;
    if (!b.phone)
        reached.emplace_back(words::no_telephone());
    else if (!b.phone->empty())
        reached.emplace_back(*b.phone);
    if (b.contact && !b.contact->empty()) reached.emplace_back(*b.contact);
    table.text(words::numbered(number, words::colon(b.name, reached.empty() ? Field() : words::listed(reached))), 2, 4);
    table.text(words::backup_takes(or_not_stated(b.capacity)), 6, 2);
    table.text(words::backup_distance_power(or_not_stated(b.distance), or_not_stated(b.power)), 6, 2);
    if (b.address) table.text(*b.address, 6, 2);
    table.text(words::backup_agreement(agreement(b)), 6, 2);
}

/// People in calling order.
void people(TableLayout& table, const std::vector<Plan::Person>& list) {
    heading(table, words::heading_call);
    if (list.empty()) table.text(words::not_stated(), 2, 2);
    else table.titles();
    for (std::size_t i = 0; i < list.size(); ++i) {
        const auto& x = list[i];
        table.row({words::numbered(i + 1, x.name),
                   x.alternate ? Field(words::in_brackets(x.role, words::alternate())) : Field(x.role),
                   x.mobile.value_or(""), x.home.value_or(""), x.office.value_or(""), x.email.value_or("")});
    }
}

void review(TableLayout& table, const PlanAnswer& a, const TableStyle& style) {
    const Plan& p = a.plan;
    heading(table, words::heading_review);
    Field when = p.reviewed ? Field(p.reviewed->text()) : Field(words::not_stated());
    if (p.reviewed_by) when = words::comma(std::move(when), words::by_person(*p.reviewed_by));
    table.text(a.review_due ? words::reviewed_lapses(std::move(when), style.zone.local_text(*a.review_due))
                            : words::reviewed_no_period(std::move(when)),
               2, 2);
    for (const auto& s : p.signatures) table.text(words::signed_on(s.name, s.date.text()), 2, 2);
}

Json finding_json(const PlanFinding& f) {
    Json out{{"what", plan_part_name(f.what)},
             {"of", f.of},
             {"state", f.old ? "old" : "missing"},
             {"since", f.since.text()}};
    set_remark(out, "text", f.text);
    return out;
}

}  // namespace

std::string to_json(const PlanAnswer& a) {
    Json out = json_head(a.head);
    out["entry"] = json_or_null(a.entry);
    out["since"] = a.entry ? Json(a.since.text()) : Json(nullptr);
    out["by"] = a.entry ? Json(a.by) : Json(nullptr);
    out["plan"] = a.entry ? Json::object() : Json(nullptr);
    if (a.entry) entries::print_plan(out["plan"], a.plan);
    out["review_due"] = json_or_null(a.review_due);
    out["findings"] = list_json(a.findings, finding_json);
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

std::string to_table(const PlanAnswer& a, const TableStyle& style) {
    const Plan& p = a.plan;
    TableLayout table(*style.book, {{words::title_call()},
                                    {words::title_role()},
                                    {words::title_mobile(), Kind::fixed},
                                    {words::title_home(), Kind::fixed},
                                    {words::title_office(), Kind::fixed, 1},
                                    {words::title_email(), Kind::fixed, 2}});
    add_head(table, a.head, words::answer_plan(), style);
    if (a.entry) {
        table.text(words::plan_of(style.zone.local_text(a.since), a.by, *a.entry), 0, 2);
        paragraph(table, words::heading_first, p.steps);
        people(table, p.people);
        heading(table, words::heading_backups);
        if (p.backups.empty()) table.text(words::not_stated(), 2, 2);
        for (std::size_t i = 0; i < p.backups.size(); ++i) backup(table, p.backups[i], i + 1);
        paragraph(table, words::heading_containers, p.containers);
        paragraph(table, words::heading_packing, p.packing);
        services(table, words::heading_services, p.services);
        services(table, words::heading_notify, p.notify);
        review(table, a, style);
    }
    heading(table, words::heading_missing);
    if (a.findings.empty()) table.text(words::nothing(), 2, 2, TableLayout::Paint::go);
    for (const auto& f : a.findings)
        table.text((f.old ? words::plan_old : words::plan_missing)(f.text, style.zone.local_text(f.since)), 2, 2,
                   f.old ? TableLayout::Paint::wait : TableLayout::Paint::stop);
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
