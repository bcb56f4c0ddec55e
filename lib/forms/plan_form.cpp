// The contingency plan as JSON and as a table.
#include "coldtally/forms.hpp"
#include "entries/print.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"

namespace coldtally {

using namespace forms;

namespace {

std::string list_of(const std::vector<std::string>& parts) {
    std::string out;
    for (const auto& part : parts)
        if (!part.empty()) out += (out.empty() ? "" : ", ") + part;
    return out;
}

void heading(TableLayout& table, const std::string& title) {
    table.blank();
    table.text(title, 0, 2, TableLayout::Paint::bold);
}

/// What is not stated is said not to be: a gap that nobody sees is found at night.
void paragraph(TableLayout& table, const std::string& title, const std::optional<std::string>& text) {
    heading(table, title);
    table.text(text.value_or("not stated"), 2, 2);
}

void services(TableLayout& table, const std::string& title, const std::vector<Plan::Service>& list) {
    heading(table, title);
    if (list.empty()) table.text("not stated", 2, 2);
    for (std::size_t i = 0; i < list.size(); ++i)
        table.text(
            std::to_string(i + 1) + ". " + list[i].what + ": " + list_of({list[i].phone, list[i].name.value_or("")}), 2,
            4);
}

void backup(TableLayout& table, const Plan::Backup& b, std::size_t number) {
    table.text(std::to_string(number) + ". " + b.name + ": " +
                   list_of({b.phone.value_or("no telephone stated"), b.contact.value_or("")}),
               2, 4);
    table.text("takes: " + b.capacity.value_or("not stated"), 6, 2);
    table.text(
        "distance: " + b.distance.value_or("not stated") + "; alternate power: " + b.power.value_or("not stated"), 6,
        2);
    if (b.address) table.text(*b.address, 6, 2);
    const std::string agreement = list_of({b.agreement.value_or(""), b.agreed ? "of " + b.agreed->text() : "",
                                           b.agreed_until ? "good through " + b.agreed_until->text() : ""});
    table.text("agreement: " + (agreement.empty() ? "not stated" : agreement), 6, 2);
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
    out["findings"] = Json::array();
    for (const auto& f : a.findings)
        out["findings"].push_back({{"what", f.what},
                                   {"of", f.of},
                                   {"state", f.old ? "old" : "missing"},
                                   {"since", f.since.text()},
                                   {"text", f.text}});
    out["caution"] = caution;
    return json_line(out);
}

std::string to_table(const PlanAnswer& a, const TableStyle& style) {
    const Plan& p = a.plan;
    TableLayout table({{"Call"}, {"Role"}, {"Mobile"}, {"Home"}, {"Office"}, {"E-mail"}});
    add_head(table, a.head, "contingency plan", style);
    if (a.entry) {
        table.text(
            "Plan of " + style.zone.local_text(a.since) + ", by " + a.by + " (entry " + std::to_string(*a.entry) + ").",
            0, 2);
        paragraph(table, "First", p.steps);
        heading(table, "Call in this order");
        if (p.people.empty()) table.text("not stated", 2, 2);
        else table.titles();
        for (std::size_t i = 0; i < p.people.size(); ++i) {
            const auto& x = p.people[i];
            table.row({std::to_string(i + 1) + ". " + x.name, x.role + (x.alternate ? " (alternate)" : ""),
                       x.mobile.value_or(""), x.home.value_or(""), x.office.value_or(""), x.email.value_or("")});
        }
        heading(table, "Where stock can go, in the order of choice");
        if (p.backups.empty()) table.text("not stated", 2, 2);
        for (std::size_t i = 0; i < p.backups.size(); ++i) backup(table, p.backups[i], i + 1);
        paragraph(table, "Containers and coolants", p.containers);
        paragraph(table, "How to pack", p.packing);
        services(table, "Utilities and repair", p.services);
        services(table, "Who must be told, in this order", p.notify);
        heading(table, "Review and signatures");
        table.text("Reviewed: " + (p.reviewed ? p.reviewed->text() : "not stated") +
                       (p.reviewed_by ? ", by " + *p.reviewed_by : "") +
                       (a.review_due ? "; lapses at " + style.zone.local_text(*a.review_due)
                                     : "; nobody says how often it is due"),
                   2, 2);
        for (const auto& s : p.signatures) table.text("Signed: " + s.name + ", " + s.date.text(), 2, 2);
    }
    heading(table, "Missing or old");
    if (a.findings.empty()) table.text("nothing", 2, 2, TableLayout::Paint::go);
    for (const auto& f : a.findings)
        table.text(std::string(f.old ? "OLD: " : "MISSING: ") + f.text + ", since " + style.zone.local_text(f.since), 2,
                   2, f.old ? TableLayout::Paint::wait : TableLayout::Paint::stop);
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
