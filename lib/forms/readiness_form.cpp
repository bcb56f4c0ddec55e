// Readiness as JSON and as a table.
#include <algorithm>

#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;
using Urgency = ReadinessAnswer::Urgency;

std::string to_json(const ReadinessAnswer& a) {
    Json out = json_head(a.head);
    out["from"] = a.from.text();
    out["rules"] = json_or_null(a.rules_entry);
    out["findings"] = Json::array();
    for (const auto& f : a.findings)
        out["findings"].push_back({{"topic", f.topic},
                                   {"urgency", urgency_name(f.urgency)},
                                   {"where", f.where},
                                   {"text", f.text},
                                   {"since", json_or_null(f.since)},
                                   {"rule", f.rule},
                                   {"details", f.details}});
    out["topics"] = Json::array();
    for (const auto& t : a.topics)
        out["topics"].push_back({{"topic", t.topic},
                                 {"judged", t.judged},
                                 {"rule", t.rule},
                                 {"what", t.what},
                                 {"looked_at", t.looked_at},
                                 {"in_order", t.in_order},
                                 {"findings", t.findings},
                                 {"due_soon", t.due_soon}});
    out["not_judged"] = a.not_judged();
    out["retention"] = Json::array();
    for (const auto& k : a.retention)
        out["retention"].push_back({{"records", k.records},
                                    {"years", k.years},
                                    {"first_until", k.first_until.text()},
                                    {"today_until", k.today_until.text()}});
    out["first_record"] = a.first_record.text();
    out["caution"] = caution;
    return json_line(out);
}

std::string to_table(const ReadinessAnswer& a, const TableStyle& style) {
    TableLayout table;
    add_head(table, a.head, "what an inspector would find missing", style);
    table.text("Checks, the temperature record and certificates since " + style.zone.local_text(a.from) +
                   "; all else as it stands.",
               0, 2);
    if (!a.rules_entry)
        table.text("No programme's rules are known: what only they could ask for is not judged.", 0, 2,
                   TableLayout::Paint::wait);
    table.blank();
    const auto unjudged = a.not_judged();
    std::string not_judged;
    for (const auto& name : unjudged) not_judged += (not_judged.empty() ? "" : ", ") + name;
    if (!unjudged.empty())
        not_judged = (unjudged.size() == 1 ? "1 matter" : std::to_string(unjudged.size()) + " matters") +
                     std::string(" could NOT be judged: ") + not_judged + ".";
    const auto soon =
        std::count_if(a.findings.begin(), a.findings.end(), [](const auto& f) { return f.urgency == Urgency::soon; });
    const auto now = static_cast<std::int64_t>(a.findings.size()) - soon;
    if (a.findings.empty())
        table.text("Nothing found missing in what could be judged, below.", 0, 2,
                   unjudged.empty() ? TableLayout::Paint::go : TableLayout::Paint::plain);
    else
        table.text(counted(now, "finding") + (soon > 0 ? " and " + std::to_string(soon) + " due soon" : "") +
                       ", most urgent first:",
                   0, 2, TableLayout::Paint::bold);
    if (!unjudged.empty()) table.text(not_judged, 0, 2, TableLayout::Paint::wait);
    std::optional<Urgency> before;
    for (const auto& f : a.findings) {
        if (f.urgency != before) {
            table.blank();
            table.text(f.urgency == Urgency::act       ? "ACT NOW"
                       : f.urgency == Urgency::overdue ? "OVERDUE"
                                                       : "DUE SOON",
                       0, 2, f.urgency == Urgency::act ? TableLayout::Paint::stop : TableLayout::Paint::wait);
            before = f.urgency;
        }
        const std::string when = f.urgency == Urgency::soon ? ""
                                 : f.since                  ? " Since " + style.zone.local_text(*f.since) + "."
                                                            : " Since when is not known.";
        table.text(f.topic + ": " + (f.where.empty() ? "" : f.where + ": ") + f.text + "." + when, 2, 4);
        for (const auto& d : f.details) table.text(d, 6, 2);
    }

    TableLayout looked({{"Looked at"},
                        {"Things", Kind::number},
                        {"In order", Kind::number},
                        {"Findings", Kind::number},
                        {"Due soon", Kind::number},
                        {"By what rule"}});
    looked.blank();
    looked.titles();
    for (const auto& t : a.topics)
        looked.row({t.topic + (t.what.empty() ? "" : " (" + t.what + ")"), t.judged ? std::to_string(t.looked_at) : "-",
                    t.judged ? std::to_string(t.in_order) : "-", t.judged ? std::to_string(t.findings) : "NOT JUDGED",
                    t.judged ? std::to_string(t.due_soon) : "-", t.rule});
    looked.blank();
    looked.text(
        "The first record is of " + style.zone.local_text(a.first_record) + ". Nothing in a ledger is ever deleted.", 0,
        2);
    for (const auto& k : a.retention)
        looked.text(k.records + ": " + counted(k.years, "year") + "; the first records until " + k.first_until.text() +
                        ", those of today until " + k.today_until.text() +
                        (&k == &a.retention.front() ? ". As the longest it holds for all of the ledger." : "."),
                    2, 2);
    add_caution(looked);
    return render(table, style) + render(looked, style);
}

}  // namespace coldtally
