// What was entered, as JSON and as a table.
#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"
#include "forms/fact_words.hpp"
#include "forms/table.hpp"
#include "words/entered.hpp"
#include "words/entry.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;

namespace {

Remark what_words(const EnteredAnswer::Row& row, const Zone& zone) {
    if (const auto* r = std::get_if<Readings>(&row.entry.fact); r && row.first)
        return words::readings_between(words::readings(row.readings), r->probe, zone.local_text(*row.first),
                                       zone.local_text(*row.last));
    if (const auto* v = std::get_if<Void>(&row.entry.fact); v && row.takes_back) {
        const auto* r = std::get_if<Readings>(&row.takes_back->fact);
        return words::took_back_what(
            v->voids,
            r ? words::readings_of_probe(words::readings(row.takes_back_readings), r->probe)
              : entry_words(*row.takes_back, zone),
            v->reason);
    }
    return fact_words(row.entry, zone);
}

std::string patient_of(const EnteredAnswer::Row& row) {
    const auto* give = std::get_if<Give>(&row.entry.fact);
    return give ? give->patient : std::string();
}

/// The day and what else there is to say of it.
Remark line_words(const EnteredAnswer::Row& row, const Zone& zone) {
    Remark out = what_words(row, zone);
    if (const auto token = patient_of(row); !token.empty()) out = words::to_patient(std::move(out), token);
    const auto& at = row.entry.at;
    if (at && row.entry.recorded && zone.local(*at).date != zone.local(*row.entry.recorded).date)
        out = words::entered_later(std::move(out), zone.local_text(*row.entry.recorded));
    if (row.entry.note) out = words::entered_note(std::move(out), *row.entry.note);
    return out;
}

Json row_json(const EnteredAnswer::Row& row, const Zone& zone) {
    const Entry& e = row.entry;
    Json out{{"entry", e.number},
             {"kind", kind_of(e)},
             {"at", json_or_null(e.at)},
             {"recorded", json_or_null(e.recorded)},
             {"by", e.by},
             {"note", json_or_null(e.note)}};
    const auto token = patient_of(row);
    out["patient"] = token.empty() ? Json(nullptr) : Json(token);
    set_remark(out, "text", what_words(row, zone));
    out["taken_back"] = nullptr;
    if (row.taken_back)
        out["taken_back"] = {{"entry", row.taken_back->entry},
                             {"at", row.taken_back->at.text()},
                             {"by", row.taken_back->by},
                             {"reason", row.taken_back->reason}};
    out["takes_back"] = row.takes_back ? Json(row.takes_back->number) : Json(nullptr);
    out["takeback"] = row.takeback ? field_json(*row.takeback) : Json(nullptr);
    return out;
}

}  // namespace

std::string to_json(const EnteredAnswer& a) {
    const Zone utc("UTC");  // local times are for people: the table has them
    Json out = json_head(a.head);
    set_window(out, a.head);
    out["entries"] = list_json(a.entries, [&](const auto& row) { return row_json(row, utc); });
    out["earlier"] = a.earlier;
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

std::string to_table(const EnteredAnswer& a, const TableStyle& style) {
    TableLayout table(*style.book, {{words::title_number(), Kind::number},
                                    {words::title_happened(), Kind::fixed},
                                    {words::title_entry_says()},
                                    {words::title_entered_by()}});
    add_head(table, a.head, words::title_entered(), style);
    if (a.head.window) table.text(*a.head.window, 0, 2);
    table.blank();
    if (a.earlier > 0) {
        table.text(words::earlier_entries(a.earlier, words::parameter("all")), 0, 2, TableLayout::Paint::wait);
        table.blank();
    }
    if (a.entries.empty()) table.text(words::nothing_entered());
    else table.titles();
    for (const auto& row : a.entries) {
        const Instant when = row.entry.at.value_or(row.entry.recorded.value_or(a.head.at));
        table.row({row.entry.number, style.zone.local_text(when), line_words(row, style.zone), row.entry.by});
        if (row.taken_back)
            table.text(words::is_taken_back(style.zone.local_text(row.taken_back->at), row.taken_back->by,
                                            row.taken_back->entry, row.taken_back->reason),
                       8, 2, TableLayout::Paint::wait);
    }
    const EnteredAnswer::Row* last = nullptr;
    for (const auto& row : a.entries)
        if (row.takeback) last = &row;
    if (last) {
        table.blank();
        Suggestion task = *last->takeback;
        if (a.entries.size() > 1) task.arguments.front().value = "NUMBER";
        table.text(words::to_correct(std::move(task)), 0, 2);
    }
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
