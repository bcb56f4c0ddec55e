#include "entries/history_json.hpp"
#include "forms/incident_form.hpp"
#include "forms/incidents_form.hpp"
#include "forms/rules_form.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"
#include "words/rules.hpp"

namespace coldtally::forms {

using Paint = TableLayout::Paint;

Json unit_json(const IncidentAnswer::Unit& u) {
    Json out{{"place", u.place}, {"name", u.name}, {"type", place_type_name(u.type)}};
    out["last_good"] = json_or_null(u.last_good);
    out["last_good_C"] = json_or_null(u.last_good_C);
    out["back_in_range"] = json_or_null(u.back_in_range);
    out["exposure"] = entries::exposure_json(u.exposure, {});
    out["excursions"] = list_json(u.excursions, excursion_json);
    out["devices"] = list_json(u.devices, [](const auto& d) {
        return Json{{"probe", d.probe},
                    {"serial", json_or_null(d.serial)},
                    {"certificate", json_or_null(d.certificate)},
                    {"certified_until", json_or_null(d.certified_until)},
                    {"tolerance", json_or_null(d.tolerance)}};
    });
    out["earlier_incidents"] = u.earlier_incidents;
    out["earlier_excursions"] = u.earlier_excursions;
    set_remarks(out, "beside", u.beside);
    return out;
}

Remark extremes_words(const Exposure& exposure, Scale scale) {
    return words::comma(words::lowest(temperature_words(*exposure.lowest_C, scale, Rounding::down)),
                        words::highest(temperature_words(*exposure.highest_C, scale, Rounding::up)));
}

namespace {

Field device_words(const IncidentAnswer::Device& d) {
    std::vector<Field> out{words::probe_named(d.probe)};
    if (d.serial) out.push_back(words::probe_serial(*d.serial));
    if (d.certified_until)
        out.push_back(d.certificate ? words::probe_certificate(*d.certificate, d.certified_until->text())
                                    : words::probe_certified(d.certified_until->text()));
    if (d.tolerance) out.push_back(words::probe_tolerance(*d.tolerance));
    return words::listed(out);
}

void add_unit(TableLayout& table, const IncidentAnswer::Unit& u, const TableStyle& style) {
    const auto line = [&](const Field& what, Paint paint = Paint::plain) { table.text(what, 2, 2, paint); };
    add_heading(table, words::heading_unit(u.place, u.name, place_type_words(u.type)));
    line(u.last_good ? words::last_in_range(style.zone.local_text(*u.last_good),
                                            temperature_words(*u.last_good_C, style.scale, Rounding::nearest))
                     : words::last_in_range_not_known());
    for (const auto& e : u.excursions) line(excursion_words(e, style));
    const auto out_of_range = out_of_range_words(u.exposure);
    line(out_of_range ? words::out_in_all(*out_of_range) : words::out_in_all_not_known());
    if (u.exposure.lowest_C) line(extremes_words(u.exposure, style.scale));
    for (const auto& what : u.beside) line(what, Paint::wait);
    if (const auto known = coverage_words(u.exposure.seconds)) line(words::known_by(*known));
    line(u.back_in_range ? words::back_in_range(style.zone.local_text(*u.back_in_range))
                         : words::back_in_range_not_known());
    for (const auto& d : u.devices) line(device_words(d));
    for (const auto& e : u.earlier_incidents) line(words::earlier_incident(e));
    if (u.earlier_excursions > 0) line(words::earlier_excursions(u.earlier_excursions));
}

Paint paint_of(const RuleFinding& f) {
    if (f.estimate.met) return Paint::stop;
    return f.state() == RuleFinding::State::not_met ? Paint::plain : Paint::wait;
}

}  // namespace

void add_units(TableLayout& table, const IncidentAnswer& a, const TableStyle& style) {
    for (const auto& u : a.units) add_unit(table, u, style);
}

void add_conditions(TableLayout& table, const IncidentAnswer& a, const TableStyle& style) {
    add_heading(table, words::heading_conditions);
    if (!a.rules_entry) table.text(words::no_rules_here(), 2);
    for (const auto& u : a.units) {
        const auto& unknown = u.exposure.seconds[static_cast<std::size_t>(Class::unmonitored)];
        if (a.rules_entry && unknown.sign() > 0)
            table.text(words::unknown_hides_more(u.place, duration_words(unknown, true)), 2, 2, Paint::wait);
    }
    for (const auto& none : a.not_judged) table.text(none, 2, 2, Paint::wait);
    for (const auto& f : a.findings)
        table.text(words::colon(f.place, finding_words(f, style.zone)), 2, 2, paint_of(f));
}

}  // namespace coldtally::forms
