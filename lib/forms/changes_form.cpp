#include "forms/changes_form.hpp"

#include "forms/departed_form.hpp"
#include "forms/history_differences.hpp"
#include "stock/departed.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"

namespace coldtally {

using namespace forms;
using Paint = TableLayout::Paint;

namespace {

Json state_json(const std::optional<Changes::State>& s) {
    if (!s) return nullptr;
    return {{"doses", s->doses.count()},
            {"list", list_name(s->list)},
            {"reasons", reasons_json(s->reasons)},
            {"in_doubt", s->in_doubt}};
}

/// What of the two differs, by the names of the fields.
Json differs_json(const Changes::Holding& h) {
    Json out = Json::array();
    if (!h.before || !h.after) return Json::array({"doses"});
    const auto add = [&](bool same, const char* name) {
        if (!same) out.push_back(name);
    };
    add(h.before->doses == h.after->doses, "doses");
    add(h.before->list == h.after->list, "list");
    add(h.before->reasons == h.after->reasons, "reasons");
    add(h.before->in_doubt == h.after->in_doubt, "in_doubt");
    add(h.before->history == h.after->history, "history");
    return out;
}

Remark state_of(const std::optional<Changes::State>& s) {
    return s ? state_words(s->doses, s->list, s->reasons, s->in_doubt) : words::no_doses();
}

Json finding_json(const std::optional<Finding>& finding) {
    return finding ? Json(finding_name(*finding)) : Json(nullptr);
}

Remark holding_line(const Changes::Holding& h, const TableStyle& style) {
    const Remark before = state_of(h.before), after = state_of(h.after), holding = holding_words(h.holding);
    if (before != after) return words::colon(holding, words::becomes(before, after));
    // where they are is the same, and not what they have been through, or by which incident
    std::vector<Remark> all{words::as_before(before)};
    for (auto& one : history_differences(h.before->history, h.after->history, style.zone, style.scale))
        all.push_back(std::move(one));
    if (h.before->in_doubt != h.after->in_doubt)
        all.push_back(words::in_doubt_by(words::names(h.before->in_doubt), words::names(h.after->in_doubt)));
    return words::colon(holding, *words::semicolons(all));
}

Remark dose_line(const Changes::Dose& d, const Zone& zone) {
    const auto found = [](const std::optional<Finding>& f) { return f ? finding_words(*f) : words::not_given(); };
    return words::dose_changes(zone.local_text(d.at), d.entry, found(d.before), found(d.after));
}

Remark left_line(const Changes::Left& left, const Zone& zone) {
    const Remark was = departed_words(left.before), is = departed_words(left.after);
    std::vector<Remark> change{was == is ? words::as_before(is) : words::becomes(was, is)};
    for (auto& one : answers::news_of(left.before, left.after)) change.push_back(std::move(one));
    const Departure& departure = left.after.departure;
    return words::not_here_any_more(answers::left_words(departure, zone), *words::semicolons(change),
                                    answers::left_advice(departure));
}

}  // namespace

Json forms::changes_json(const Changes& c) {
    Json out = json_head(c.head);
    out["holdings"] = list_json(c.holdings, [](const auto& h) {
        Json o = holding_json(h.holding);
        o["before"] = state_json(h.before);
        o["after"] = state_json(h.after);
        o["differs"] = differs_json(h);
        return o;
    });
    out["doses"] = list_json(c.doses, [](const auto& d) {
        Json o{{"entry", d.entry}, {"at", d.at.text()}};
        o.update(holding_json(d.holding));
        o["before"] = finding_json(d.before);
        o["after"] = finding_json(d.after);
        return o;
    });
    out["left"] = list_json(c.left, [](const auto& l) {
        const auto& [d, is] = l;
        Json o{{"entry", is.departure.entry}, {"at", is.departure.at.text()}};
        o.update(holding_json(is.departure.holding));
        o["doses"] = is.departure.doses.count();
        o["to"] = is.departure.to.empty() ? Json(nullptr) : Json(is.departure.to);
        o["before"] = departed_state_json(d);
        o["after"] = departed_state_json(is);
        set_remarks(o, "news", answers::news_of(d, is));
        return o;
    });
    out["caution"] = cautions({words::caution, words::caution_review});
    return out;
}

Remark forms::state_words(Doses doses, List list, const std::vector<Reason>& reasons,
                          const std::vector<std::string>& in_doubt) {
    Remark standing = list_words(list);
    if (!reasons.empty()) standing = words::colon(standing, reasons_words(reasons));
    const Remark out = words::comma(words::doses(doses.count()), standing);
    return is_kept_in_doubt(list, in_doubt) ? words::semicolon(out, in_doubt_words(in_doubt)) : out;
}

void forms::add_changes(TableLayout& table, const Changes& c, const TableStyle& style) {
    for (const auto& h : c.holdings) table.text(holding_line(h, style), 2, 2);
    if (c.holdings.empty()) table.text(words::no_holding_changes(), 2);
    for (const auto& d : c.doses) table.text(dose_line(d, style.zone), 2, 2);
    if (c.doses.empty()) table.text(words::no_dose_changes(), 2);
    for (const auto& left : c.left) table.text(left_line(left, style.zone), 2, 2, Paint::stop);
}

std::string to_json(const Changes& c) { return json_line(changes_json(c)); }

std::string to_table(const Changes& c, const TableStyle& style) {
    TableLayout table(*style.book);
    add_head(table, c.head, words::changes_title(), style);
    table.blank();
    add_changes(table, c, style);
    add_caution(table, words::caution_review());
    return render(table, style);
}

}  // namespace coldtally
