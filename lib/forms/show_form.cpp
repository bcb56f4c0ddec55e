// What is defined, as it holds, with its history; as JSON and as a table.
#include "coldtally/forms.hpp"
#include "forms/answer_json.hpp"
#include "forms/table.hpp"
#include "words/entered.hpp"
#include "words/lists.hpp"
#include "words/tables.hpp"
#include "words/upkeep.hpp"

namespace coldtally {

using namespace forms;

namespace {

Remark heading(const ShownAnswer::Thing& t) {
    switch (t.what) {
        case Defined::site: return words::thing_site(t.name);
        case Defined::product: return words::thing_product(t.name);
        case Defined::lot: return words::thing_lot(t.name, t.product.value_or(""));
        case Defined::place: return words::thing_place(t.name);
        case Defined::probe: return words::thing_probe(t.name);
        case Defined::certificate: return words::thing_certificate(t.name);
        case Defined::assign: return words::thing_assign(t.name);
        case Defined::maker: return words::thing_maker(t.name);
        case Defined::rules: return words::thing_rules();
        case Defined::person: break;
    }
    return words::thing_person(t.name);
}

Remark kinds_words(Defined what) {
    switch (what) {
        case Defined::site: return words::kind_site();
        case Defined::product: return words::kind_products();
        case Defined::lot: return words::things_lots();
        case Defined::place: return words::places();
        case Defined::probe:
        case Defined::certificate:
        case Defined::assign: return words::things_probes();
        case Defined::maker: return words::kind_makers();
        case Defined::rules: return words::kind_rules();
        case Defined::person: break;
    }
    return words::kind_people();
}

Remark change_words(const ShownAnswer::Change& c) {
    if (!c.before) return words::change_new(words::colon(c.name, *c.after));
    if (!c.after) return words::change_dropped(words::colon(c.name, *c.before));
    return words::colon(c.name, words::becomes(*c.before, *c.after));
}

Json line_json(const Remark& name, const Field& value) {
    Json out;
    set_remark(out, "name", name);
    out["value"] = english().say(value);
    out["value_code"] = field_json(value);
    return out;
}

Json change_json(const ShownAnswer::Change& c) {
    Json out;
    set_remark(out, "name", c.name);
    out["before"] = c.before ? Json(english().say(*c.before)) : Json(nullptr);
    out["before_code"] = c.before ? field_json(*c.before) : Json(nullptr);
    out["after"] = c.after ? Json(english().say(*c.after)) : Json(nullptr);
    out["after_code"] = c.after ? field_json(*c.after) : Json(nullptr);
    return out;
}

Json version_json(const ShownAnswer::Version& v) {
    Json out{{"entry", v.entry},     {"recorded", v.recorded.text()}, {"at", json_or_null(v.at)}, {"by", v.by},
             {"note", json_or_null(v.note)}, {"holds", v.holds}};
    out["changes"] = list_json(v.changes, change_json);
    out["taken_back"] = nullptr;
    if (v.taken_back)
        out["taken_back"] = {{"entry", v.taken_back->entry},
                             {"at", v.taken_back->at.text()},
                             {"by", v.taken_back->by},
                             {"reason", v.taken_back->reason}};
    return out;
}

void add_version(TableLayout& table, const ShownAnswer::Version& v, bool first, const TableStyle& style) {
    const std::string when = style.zone.local_text(v.recorded);
    const bool says_changes = !v.changes.empty();
    const Remark line = says_changes ? words::version_changed(when, v.by, v.entry)
                  : first      ? words::version_first(when, v.by, v.entry)
                               : words::version_same(when, v.by, v.entry);
    table.text(line, 4, 2);
    if (v.note) table.text(words::note(*v.note), 6, 2);
    for (const auto& c : v.changes) table.text(change_words(c), 6, 2);
    if (v.taken_back)
        table.text(words::is_taken_back(style.zone.local_text(v.taken_back->at), v.taken_back->by, v.taken_back->entry,
                                        v.taken_back->reason),
                   6, 2, TableLayout::Paint::wait);
}

void add_thing(TableLayout& table, const ShownAnswer::Thing& t, const TableStyle& style) {
    table.blank();
    table.text(heading(t), 0, 2, TableLayout::Paint::bold);
    for (const auto& line : t.lines) table.text(words::colon(line.name, line.value), 2, 2);
    if (t.lines.empty()) table.text(words::nothing_holds(), 2, 2, TableLayout::Paint::stop);
    table.text(words::history_heading(), 2);
    for (std::size_t i = 0; i < t.history.size(); ++i) add_version(table, t.history[i], i == 0, style);
}

}  // namespace

std::string to_json(const ShownAnswer& a) {
    Json out = json_head(a.head);
    out["things"] = list_json(a.things, [](const auto& t) {
        Json one{{"kind", defined_name(t.what)}, {"name", t.name}, {"product", json_or_null(t.product)}};
        one["lines"] = list_json(t.lines, [](const auto& line) { return line_json(line.name, line.value); });
        one["history"] = list_json(t.history, version_json);
        return one;
    });
    out["known"] = list_json(a.known, [](const auto& n) {
        return Json{{"kind", defined_name(n.what)}, {"ids", n.ids}};
    });
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

std::string to_table(const ShownAnswer& a, const TableStyle& style) {
    TableLayout table(*style.book);
    add_head(table, a.head, words::shown_title(), style);
    for (const auto& t : a.things) add_thing(table, t, style);
    if (!a.known.empty()) {
        table.blank();
        table.text(words::known_things(words::task("show", {{"", "NAME"}})), 0, 2);
        for (const auto& n : a.known) table.text(words::colon(kinds_words(n.what), words::names(n.ids)), 2, 4);
    }
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
