#include "forms/incidents_form.hpp"

#include "conditions/incidents.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"

namespace coldtally {

namespace forms {

Json excursion_json(const IncidentExcursion& e) {
    return {{"place", e.place},
            {"side", side_name(e.side)},
            {"kind", excursion_kind_name(e.kind)},
            {"from", nearest_instant(e.from_s)},
            {"from_s", e.from_s.text()},
            {"until", nearest_instant(e.until_s)},
            {"until_s", e.until_s.text()},
            {"duration_s", e.duration_s.text()},
            {"peak_C", e.peak_C.text()},
            {"checked_s", e.checked_s.text()},
            {"open", e.open}};
}

Remark excursion_when_words(const IncidentExcursion& e, const Zone& zone) {
    const Remark side = side_words(e.side);
    const std::string from = begin_text(e.from_s, zone);
    if (e.kind == ExcursionKind::point) return words::excursion_point(side, from);
    return (e.open ? words::excursion_span_open : words::excursion_span)(side, from, end_text(e.until_s, zone));
}

namespace {

Field length_words(const IncidentExcursion& e) {
    const std::string time = duration_words(e.duration_s, true);
    if (e.kind == ExcursionKind::bounded) return words::excursion_bounded(time);
    if (e.checked_s.sign() > 0) return words::excursion_on_line(time, duration_words(e.checked_s, true));
    return time;
}

}  // namespace

Remark excursion_words(const IncidentExcursion& e, const TableStyle& style) {
    std::vector<Field> out{excursion_when_words(e, style.zone)};
    if (e.kind != ExcursionKind::point) out.push_back(length_words(e));
    out.push_back(e.side == Side::warm ? words::highest(temperature_words(e.peak_C, style.scale, Rounding::up))
                                       : words::lowest(temperature_words(e.peak_C, style.scale, Rounding::down)));
    return words::colon(e.place, words::listed(out));
}

}  // namespace forms

using namespace forms;
using Paint = TableLayout::Paint;

std::string to_json(const IncidentsAnswer& a) {
    Json out = json_head(a.head);
    set_window(out, a.head);
    out["incidents"] = list_json(a.incidents, [](const auto& row) {
        return Json{{"incident", row.incident},
                    {"noticed", json_or_null(row.noticed)},
                    {"closed", json_or_null(row.closed)},
                    {"places", row.places},
                    {"excursions", list_json(row.excursions, excursion_json)}};
    });
    out["without_incident"] = list_json(a.without_incident, excursion_json);
    set_remarks(out, "not_listed", a.not_listed);
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

std::string to_json(const ExcursionsInShort& s) {
    Json out{{"count", s.count}, {"longest", nullptr}, {"latest", nullptr}};
    if (s.longest) out["longest"] = excursion_json(*s.longest);
    if (s.latest) out["latest"] = excursion_json(*s.latest);
    return json_line(out);
}

namespace {

/// More than `most` in short.
void add_excursions(TableLayout& table, const std::vector<IncidentExcursion>& excursions,
                    std::optional<std::size_t> most, int indent, const TableStyle& style) {
    if (!most || excursions.size() <= *most) {
        for (const auto& e : excursions) table.text(excursion_words(e, style), indent, 2);
        return;
    }
    const ExcursionsInShort s = in_short(excursions);
    table.text(words::excursions(s.count), indent, 2);
    table.text(words::the_longest(excursion_words(*s.longest, style)), indent, 2);
    table.text(words::the_latest(excursion_words(*s.latest, style)), indent, 2);
    table.text(words::task_lists_all(words::task("incident")), indent, 2);
}

Remark incident_line(const IncidentsAnswer::Row& row, const Zone& zone) {
    const Field incident =
        row.places.empty() ? Field(row.incident) : words::in_brackets(row.incident, words::names(row.places));
    const Remark noticed =
        row.noticed ? words::noticed_at(zone.local_text(*row.noticed)) : words::not_noticed();
    const Remark closed = row.closed ? words::closed_at(zone.local_text(*row.closed)) : words::is_open();
    return words::colon(incident, words::comma(noticed, closed));
}

std::string incidents_table(const IncidentsAnswer& a, const TableStyle& style, std::optional<std::size_t> most) {
    TableLayout table(*style.book);
    add_head(table, a.head, words::incidents_title(), style);
    if (!a.without_incident.empty()) {
        table.blank();
        table.text(words::without_incident(), 0, 0, Paint::stop);
        add_excursions(table, a.without_incident, most, 2, style);
        table.text(words::task_opens_one(words::task("notice")), 2);
    }
    for (const auto& what : a.not_listed) {
        table.blank();
        table.text(words::not_all_listed(what), 0, 2, Paint::wait);
    }
    table.blank();
    if (a.incidents.empty() && a.without_incident.empty()) table.text(words::no_incident());
    for (const auto& row : a.incidents) {
        table.text(incident_line(row, style.zone), 0, 2, row.closed ? Paint::plain : Paint::wait);
        add_excursions(table, row.excursions, most, 4, style);
    }
    add_caution(table);
    return render(table, style);
}

}  // namespace

std::string to_table(const IncidentsAnswer& a, const TableStyle& style) {
    return incidents_table(a, style, std::nullopt);
}

std::string to_short_table(const IncidentsAnswer& a, const TableStyle& style) { return incidents_table(a, style, 10); }

}  // namespace coldtally
