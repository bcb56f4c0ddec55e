#include <algorithm>

#include "forms/changes_form.hpp"
#include "forms/in_short.hpp"
#include "forms/incident_form.hpp"
#include "incidents/incident_report.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"

namespace coldtally::forms {

using Paint = TableLayout::Paint;

Json given_json(const ReviewAnswer::Row& row) {
    Json o{{"entry", row.entry}, {"at", row.at.text()}, {"patient", row.patient.empty() ? Json() : Json(row.patient)}};
    o.update(holding_json(row.holding));
    o["doses"] = row.doses.count();
    o["certain"] = row.certain;
    o["finding"] = finding_name(row.finding);
    o["reasons"] = reasons_json(row.reasons);
    o["guidance"] = json_or_null(row.guidance);
    set_remarks(o, "beside", row.beside);
    return o;
}

Json left_json(const Departure& l) {
    Json o{{"entry", l.entry}, {"at", l.at.text()}};
    o.update(holding_json(l.holding));
    o["doses"] = l.doses.count();
    o["to"] = l.to.empty() ? Json(nullptr) : Json(l.to);
    o["reason"] = l.reason;
    o["told"] = json_or_null(l.told);
    return o;
}

Json now_json(const ListsAnswer::Row& row) {
    Json o = holding_json(row.holding);
    o["doses"] = row.doses.count();
    o["list"] = list_name(row.list);
    o["reasons"] = reasons_json(row.reasons);
    o["in_doubt"] = row.in_doubt;
    set_remarks(o, "beside", row.beside);
    return o;
}

namespace {

/// Given when each affected place that these doses had been in was back in range: they had been in it all the same.
bool given_later(const IncidentAnswer& a, const ReviewAnswer::Row& row) {
    bool later = false;
    for (const auto& u : a.units) {
        if (!row.history.places.contains(u.place)) continue;
        if (!u.back_in_range || row.at <= *u.back_in_range) return false;
        later = true;
    }
    return later;
}

Remark given_words(const ReviewAnswer::Row& row, const Zone& zone) {
    const std::string at = zone.local_text(row.at);
    const Remark doses = words::doses(row.doses.count()), finding = finding_words(row.finding);
    const Remark whole = holding_words(row.holding), holding = row.certain ? whole : words::lot_alone(whole);
    return row.patient.empty() ? words::given_line(at, row.entry, doses, holding, finding)
                               : words::given_line_to(at, row.entry, doses, row.patient, holding, finding);
}

}  // namespace

namespace {

using Given = std::vector<const ReviewAnswer::Row*>;

void add_dose(TableLayout& table, const ReviewAnswer::Row& row, int indent, const TableStyle& style) {
    table.text(given_words(row, style.zone), indent, 2);
    for (const auto& line : row.beside) table.text(line, indent + 4, 2, Paint::wait);
}

/// Of one lot, at which nothing was found: a number; and of what must be known beside it, of how many, once.
void add_lot(TableLayout& table, const Given& rows, int indent, const TableStyle& style) {
    struct Beside {
        Remark said;  ///< in short: the same for all that differ in figures alone
        std::int64_t doses = 0;
        Instant from;
    };
    std::vector<Beside> beside;
    std::int64_t doses = 0;
    for (const auto* row : rows) {
        doses += row->doses.count();
        for (const auto& one : row->beside) {
            const Remark said = shorter(one);
            auto same = std::ranges::find_if(beside, [&](const Beside& b) { return b.said == said; });
            if (same == beside.end()) same = beside.insert(same, {said, 0, row->at});
            same->doses += row->doses.count();
        }
    }
    const HoldingKey& key = rows.front()->holding;
    table.text(words::given_line_of_lot(words::doses(doses), words::lot_of(key.product, key.lot),
                                   finding_words(Finding::clear)),
               indent, 2);
    for (const auto& b : beside)
        table.text(words::given_line_of_them(words::doses(b.doses), style.zone.local_text(b.from), b.said),
                   indent + 4, 2, Paint::wait);
}

/// Those at which something was found a line each; the others by lot, unless the patients are asked for.
void add_doses(TableLayout& table, const IncidentAnswer& a, const Given& rows, int indent, const TableStyle& style) {
    std::vector<std::pair<std::pair<std::string, std::string>, Given>> lots;
    for (const auto* row : rows) {
        if (row->finding != Finding::clear || !row->patient.empty()) {
            add_dose(table, *row, indent, style);
            continue;
        }
        const std::pair lot(row->holding.product, row->holding.lot);
        auto same = std::ranges::find_if(lots, [&](const auto& one) { return one.first == lot; });
        if (same == lots.end()) same = lots.insert(same, {lot, {}});
        same->second.push_back(row);
    }
    for (const auto& [lot, of] : lots) add_lot(table, of, indent, style);
    if (!lots.empty())
        table.text(words::task_lists_each(words::task("incident", {{"", a.incident}, {"patients", ""}})), indent, 2);
}

}  // namespace

void add_given(TableLayout& table, const IncidentAnswer& a, const TableStyle& style) {
    add_heading(table, words::heading_given);
    if (a.given.empty())
        table.text(words::none_known(), 2);
    else
        table.text(words::to_patients(words::patients(a.patients)), 2);
    Given before, after;
    for (const auto& row : a.given) (given_later(a, row) ? after : before).push_back(&row);
    if (after.empty()) {
        add_doses(table, a, before, 2, style);
        return;
    }
    table.text(before.empty() ? words::given_until_back_none() : words::given_until_back(), 2, 2);
    add_doses(table, a, before, 4, style);
    table.text(words::given_after_back(), 2, 2);
    add_doses(table, a, after, 4, style);
}

void add_left(TableLayout& table, const IncidentAnswer& a, const TableStyle& style) {
    if (a.left.empty()) return;
    add_heading(table, words::heading_left);
    for (const auto& l : a.left) {
        const Remark left = answers::left_words(l, style.zone);
        table.text(l.told ? words::left_told(left, *l.told) : words::colon(left, answers::left_advice(l)), 2, 2,
                   l.told ? Paint::plain : Paint::stop);
    }
}

void add_now(TableLayout& table, const IncidentAnswer& a, const TableStyle& style) {
    add_heading(table, words::heading_now);
    for (const auto& row : a.now) {
        const Remark state = state_words(row.doses, row.list, row.reasons, row.in_doubt);
        table.text(words::colon(holding_words(row.holding), state), 2, 2);
        std::vector<Remark> all{out_of_range_words(row.history.total).value_or(words::not_known_out())};
        if (const auto between = between_checks_words(row.history.total.seconds)) all.push_back(*between);
        if (row.history.total.lowest_C) all.push_back(extremes_words(row.history.total, style.scale));
        table.text(words::out_since_it_came(*words::semicolons(all)), 6, 2);
        for (const auto& note : row.beside) table.text(note, 6, 2, Paint::stop);
    }
    if (a.now.empty()) table.text(words::none_left(), 2);
}

}  // namespace coldtally::forms
