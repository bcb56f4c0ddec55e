#include "forms/incident_form.hpp"
#include "incidents/incident_report.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"

namespace coldtally::forms {

using Answer = IncidentAnswer::Asked::Answer;
using Paint = TableLayout::Paint;

namespace {

Field name_of(const IncidentAnswer::Asked& m) { return answers::maker_words(m.maker, m.products.front()); }

Json answer_json(const Answer& x) {
    Json out{{"product", x.product}, {"lot", x.lot}, {"guidance", x.guidance}};
    set_remarks(out, "said", x.said);
    out["waits"] = x.waits;
    set_remarks(out, "waits_since", x.waits_since);
    return out;
}

}  // namespace

Json asked_json(const IncidentAnswer::Asked& m) {
    return {{"maker", english().say(name_of(m))},
            {"known", !m.maker.empty()},
            {"contact", json_or_null(m.contact)},
            {"phone", json_or_null(m.phone)},
            {"email", json_or_null(m.email)},
            {"products", m.products},
            {"reports", m.reports},
            {"answers", list_json(m.answers, answer_json)}};
}

Json sent_json(const IncidentAnswer::Sent& r) {
    return {{"entry", r.entry},
            {"at", r.at.text()},
            {"by", r.by},
            {"to", recipient_name(r.to)},
            {"recipient", r.recipient},
            {"reference", json_or_null(r.reference)},
            {"counted", r.counted}};
}

namespace {

Remark answer_words(const Answer& x) {
    std::vector<Remark> said;
    for (std::size_t i = 0; i < x.guidance.size(); ++i)
        said.push_back(words::said_by_entry(x.said[i], x.guidance[i]));
    const auto all = words::semicolons(said);
    const Remark lot = words::lot_of(x.product, x.lot);
    if (!all) return words::colon(lot, words::answer_awaited());
    const Remark out = words::colon(lot, words::answer_is(*all));
    return x.waits ? words::answer_not_all(out) : out;
}

}  // namespace

void add_makers(TableLayout& table, const IncidentAnswer& a) {
    add_heading(table, words::heading_makers);
    for (const auto& m : a.makers) {
        std::vector<Field> whom{name_of(m)};
        for (const auto* more : {&m.contact, &m.phone, &m.email})
            if (*more) whom.emplace_back(**more);
        table.text(words::listed(whom), 2, 2);
        for (const auto& x : m.answers) {
            table.text(answer_words(x), 4, 2, x.waits && !x.guidance.empty() ? Paint::wait : Paint::plain);
            for (const auto& what : x.waits_since) table.text(words::not_of_this_answer(what), 6, 2, Paint::wait);
        }
    }
}

void add_reports(TableLayout& table, const IncidentAnswer& a, const TableStyle& style) {
    if (!a.reports.empty()) add_heading(table, words::heading_reports);
    for (const auto& r : a.reports) {
        std::vector<Field> out{words::report_to(style.zone.local_text(r.at), r.recipient, recipient_words(r.to))};
        if (r.reference) out.push_back(words::report_case(*r.reference));
        if (!r.counted) out.push_back(words::report_not_counted());
        out.push_back(words::by_person(r.by));
        out.push_back(words::entry(r.entry));
        table.text(words::listed(out), 2, 2);
    }
}

}  // namespace coldtally::forms
