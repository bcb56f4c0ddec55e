#include <algorithm>
#include <map>

#include "conditions/fit.hpp"
#include "entries/history_json.hpp"
#include "entries/print.hpp"
#include "forms/answer_json.hpp"
#include "forms/departed_form.hpp"
#include "forms/history_differences.hpp"
#include "forms/rules_form.hpp"
#include "forms/table.hpp"
#include "incidents/incident_report.hpp"

namespace coldtally {

using namespace forms;
using Kind = TableLayout::Column::Kind;
using Paint = TableLayout::Paint;

namespace {

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

Json state_json(const std::optional<Changes::State>& s) {
    if (!s) return nullptr;
    return {
        {"doses", s->doses.count()}, {"list", list_name(s->list)}, {"reasons", s->reasons}, {"in_doubt", s->in_doubt}};
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

std::string incidents_words(const std::vector<std::string>& all) {
    std::string out;
    for (const auto& one : all) out += (out.empty() ? "" : ", ") + one;
    return out.empty() ? "none" : out;
}

std::string state_words(const std::optional<Changes::State>& s) {
    if (!s) return "no doses";
    std::string out = doses_words(s->doses.count()) + ", " + std::string(list_name(s->list));
    for (std::size_t i = 0; i < s->reasons.size(); ++i) out += (i ? ", " : ": ") + s->reasons[i];
    return out + and_in_doubt(s->list, s->in_doubt);
}

std::string excursion_words(const IncidentExcursion& e, const TableStyle& style) {
    std::string out = e.place + ": " + std::string(side_words(e.side)) + " ";
    if (e.kind == ExcursionKind::point)
        out += "at " + begin_text(e.from_s, style.zone) + " (one reading)";
    else
        out += begin_text(e.from_s, style.zone) + " to " + end_text(e.until_s, style.zone) +
               (e.open ? " (not known to be over)" : "") + ", " + duration_words(e.duration_s, true) +
               (e.kind == ExcursionKind::bounded ? " between minimum and maximum"
                : e.checked_s.sign() > 0         ? ", of it " + duration_words(e.checked_s, true) +
                                               " on a line between plain checks, where nothing is known"
                                         : "");
    return out + ", " + (e.side == Side::warm ? "highest " : "lowest ") +
           temperature_words(e.peak_C, style.scale, e.side == Side::warm ? Rounding::up : Rounding::down);
}

Paint paint_of(DutyClock::State s) {
    return s == DutyClock::State::overdue                                  ? Paint::stop
           : s == DutyClock::State::due || s == DutyClock::State::no_limit ? Paint::wait
                                                                           : Paint::plain;
}

std::string clock_words(const DutyClock& d, const AnswerHead& head, const Zone& zone) {
    std::string out = d.step + (d.who.empty() ? "" : d.step == "answer" ? " of " + d.who : " (" + d.who + ")") + ": ";
    switch (d.state) {
    case DutyClock::State::overdue:
        out += "OVERDUE for " + duration_words(Rational((head.at - *d.due).seconds()), true) + ", was due " +
               zone.local_text(*d.due);
        break;
    case DutyClock::State::due:
        out +=
            "due " + zone.local_text(*d.due) + ", in " + duration_words(Rational((*d.due - head.at).seconds()), false);
        break;
    case DutyClock::State::no_limit:
        out += d.since ? "not done; no rule known here says by when" : "not asked for yet";
        break;
    case DutyClock::State::done_late:
        out += "done " + zone.local_text(*d.done) + ", after it was due " + zone.local_text(*d.due);
        break;
    case DutyClock::State::done: out += "done " + zone.local_text(*d.done); break;
    }
    return out;
}

}  // namespace

namespace {

Json changes_json(const Changes& c) {
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
        o["before"] = json_or_null(d.before);
        o["after"] = json_or_null(d.after);
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
        o["news"] = answers::news_of(d, is);
        return o;
    });
    out["caution"] = std::string(caution) + " " + review_caution;
    return out;
}

void add_changes(TableLayout& table, const Changes& c, const TableStyle& style) {
    for (const auto& h : c.holdings) {
        const std::string before = state_words(h.before), after = state_words(h.after);
        if (before != after) {
            table.text(holding_words(h.holding) + ": " + before + " -> " + after, 2, 2);
            continue;
        }
        std::string differs;  // where they are is the same, and not what they have been through, or by which incident
        for (const auto& one : history_differences(h.before->history, h.after->history, style.zone, style.scale))
            differs += (differs.empty() ? "" : "; ") + one;
        if (h.before->in_doubt != h.after->in_doubt)
            differs += (differs.empty() ? "" : "; ") + ("in doubt by " + incidents_words(h.before->in_doubt) + " -> " +
                                                        incidents_words(h.after->in_doubt));
        table.text(holding_words(h.holding) + ": " + before + " as before; " + differs, 2, 2);
    }
    if (c.holdings.empty()) table.text("No holding changes its list now.", 2);
    for (const auto& d : c.doses)
        table.text("dose given " + style.zone.local_text(d.at) + " (entry " + std::to_string(d.entry) +
                       "): " + (d.before ? finding_words(*d.before) : "not given") + " -> " +
                       (d.after ? finding_words(*d.after) : "not given"),
                   2, 2);
    if (c.doses.empty()) table.text("No dose given changes its finding now.", 2);
    for (const auto& [before, after] : c.left) {
        const auto news = answers::news_of(before, after);
        std::string what;
        for (const auto& one : news) what += (what.empty() ? "" : "; ") + one;
        const std::string was = departed_words(before), is = departed_words(after);
        table.text("NOT HERE ANY MORE: " + answers::left_words(after.departure, style.zone) + ": " +
                       (was == is ? is + " as before" : was + " -> " + is) + (what.empty() ? "" : "; " + what) + ": " +
                       answers::left_advice(after.departure),
                   2, 2, Paint::stop);
    }
}

/// Holdings and doses that wait, and that no change takes from where they are.
bool waits_on(const Changes& c, const ListsAnswer::Row& row) {
    return std::none_of(c.holdings.begin(), c.holdings.end(), [&](const auto& h) {
        return h.holding == row.holding && h.after && h.after->list != List::quarantine;
    });
}
bool waits_on(const Changes& c, const ReviewAnswer::Row& row) {
    return std::none_of(c.doses.begin(), c.doses.end(),
                        [&](const auto& d) { return d.entry == row.entry && d.after != row.finding; });
}

}  // namespace

std::string to_json(const Changes& c) { return json_line(changes_json(c)); }

std::string to_table(const Changes& c, const TableStyle& style) {
    TableLayout table;
    add_head(table, c.head, "what it changes", style);
    table.blank();
    add_changes(table, c, style);
    add_caution(table, review_caution);
    return render(table, style);
}

std::string to_json(const AnswerDraft& d, const std::vector<EntryNumber>& posted) {
    const Changes& c = d.changes;
    Json out = changes_json(c);
    out["entries"] = list_json(d.entries, [](const Entry& e) { return entries::entry_json(e); });
    out["posted"] = posted;
    out["concerns"] = d.concerns;
    out["besides"] = d.besides;
    out["not_covered"] = {{"holdings", Json::array()}, {"doses", Json::array()}};
    for (const auto& row : d.quarantined)
        if (waits_on(c, row)) out["not_covered"]["holdings"].push_back(holding_json(row.holding));
    for (const auto& row : d.pending)
        if (waits_on(c, row)) out["not_covered"]["doses"].push_back(row.entry);
    return json_line(out);
}

std::string to_table(const AnswerDraft& d, const std::vector<EntryNumber>& posted, const TableStyle& style) {
    const Changes& c = d.changes;
    TableLayout table;
    std::string numbers;
    for (const auto n : posted) numbers += (numbers.empty() ? "Posted: entry " : ", ") + std::to_string(n);
    add_head(table, c.head, "guidance that answers a report", style);
    const std::string how =
        d.concerns.empty()
            ? "--yes posts it."
            : "It does not cover all that is known, as said below: --yes with --despite WHY posts it all the same.";
    table.text(numbers.empty() ? "NOT POSTED: this is what it would change. " + how : numbers + ".", 0, 0,
               numbers.empty() ? Paint::wait : Paint::bold);
    table.blank();
    table.text("Changes:", 0, 0, Paint::bold);
    add_changes(table, c, style);
    table.blank();
    table.text("Not covered:", 0, 0, Paint::bold);
    bool all = true;
    const auto not_covered = [&](const std::string& text) { table.text(text, 2, 2, Paint::wait), all = false; };
    for (const auto& text : d.concerns) not_covered(text);
    for (const auto& text : d.besides) not_covered(text);
    for (const auto& row : d.quarantined)
        if (waits_on(c, row))
            not_covered(holding_words(row.holding) + ": " + doses_words(row.doses.count()) + " stay in quarantine");
    for (const auto& row : d.pending)
        if (waits_on(c, row))
            not_covered("dose given " + style.zone.local_text(row.at) + " (entry " + std::to_string(row.entry) +
                        "): still waits");
    if (all) table.text("Nothing of this lot is left waiting, and what was told is still all that is known.", 2);
    add_caution(table, review_caution);
    return render(table, style);
}

std::string to_json(const IncidentsAnswer& a) {
    Json out = json_head(a.head);
    out["window"] = a.head.window;
    out["incidents"] = list_json(a.incidents, [](const auto& row) {
        return Json{{"incident", row.incident},
                    {"noticed", json_or_null(row.noticed)},
                    {"closed", json_or_null(row.closed)},
                    {"places", row.places},
                    {"excursions", list_json(row.excursions, excursion_json)}};
    });
    out["without_incident"] = list_json(a.without_incident, excursion_json);
    out["not_listed"] = a.not_listed;
    out["caution"] = caution;
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
    table.text(std::to_string(s.count) + " excursions", indent, 2);
    table.text("the longest: " + excursion_words(*s.longest, style), indent, 2);
    table.text("the latest: " + excursion_words(*s.latest, style), indent, 2);
    table.text("`coldtally incident` lists them all.", indent, 2);
}

std::string incidents_table(const IncidentsAnswer& a, const TableStyle& style, std::optional<std::size_t> most) {
    TableLayout table;
    add_head(table, a.head, "incidents", style);
    if (!a.without_incident.empty()) {
        table.blank();
        table.text("Excursions for which nobody has opened an incident:", 0, 0, Paint::stop);
        add_excursions(table, a.without_incident, most, 2, style);
        table.text("`coldtally notice` opens one.", 2);
    }
    for (const auto& text : a.not_listed) {
        table.blank();
        table.text("NOT ALL: " + text + ".", 0, 2, Paint::wait);
    }
    table.blank();
    if (a.incidents.empty() && a.without_incident.empty()) table.text("No incident is known.");
    for (const auto& row : a.incidents) {
        std::string places;
        for (const auto& p : row.places) places += (places.empty() ? " (" : ", ") + p;
        table.text(row.incident + (places.empty() ? "" : places + ")") + ": " +
                       (row.noticed ? "noticed " + style.zone.local_text(*row.noticed) : "not noticed yet") + ", " +
                       (row.closed ? "closed " + style.zone.local_text(*row.closed) : "open"),
                   0, 2, row.closed ? Paint::plain : Paint::wait);
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

namespace {

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
    out["beside"] = u.beside;
    return out;
}

Json line_json(const IncidentAnswer::Line& l) {
    Json o = holding_json(l.holding);
    o["name"] = l.product_name;
    o["maker"] = json_or_null(l.maker);
    o["expiry"] = l.expiry.text();
    o["doses"] = l.doses.count();
    o["exposed_before"] =
        l.before.total.warm.at_most.sign() > 0 || l.before.total.cold.at_most.sign() > 0 || l.before.total.points > 0;
    o["before"] = entries::history_json(l.before, l.allowance_seconds);
    o["exposure"] = entries::exposure_json(l.exposure, l.allowance_seconds);
    o["counted"] = json_or_null(l.counted);
    o["given"] = l.given;
    o["wasted"] = l.wasted;
    o["returned"] = l.returned;
    o["transferred"] = l.transferred;
    o["found"] = l.found;
    o["missing"] = l.missing;
    return o;
}

std::string and_between(const Exposure& e) {
    const std::string between = between_checks_words(e.seconds);
    return between.empty() ? between : "; " + between;
}

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

Json told_json(const IncidentAnswer::ToTell& t) {
    return {{"place", t.place},
            {"product", t.product},
            {"lot", t.lot},
            {"fund", t.fund},
            {"mark", t.mark},
            {"doses", t.doses.count()},
            {"given", t.given},
            {"out_of_range_s", t.figures.out_of_range.seconds()},
            {"beyond_s", t.beyond_s.text()},
            {"at_most_s", t.at_most_s.text()},
            {"checked_s", t.checked_s.text()},
            {"over", list_json(t.over, [](const auto& o) {
                 return Json{{"allowance", o.allowance + 1},
                             {"seconds", o.permitted.seconds()},
                             {"over_s", o.over_s.text()},
                             {"source", o.source}};
             })},
            {"unmonitored_s", t.figures.unmonitored.seconds()},
            {"points", t.figures.points}};
}

}  // namespace

std::string to_json(const IncidentAnswer& a) {
    Json out = json_head(a.head);
    out["incident"] = a.incident;
    out["maker"] = json_or_null(a.maker);
    out["noticed"] = json_or_null(a.noticed);
    out["closed"] = json_or_null(a.closed);
    out["steps"] = list_json(a.steps, [](const auto& s) {
        return Json{{"entry", s.entry},
                    {"at", s.at.text()},
                    {"by", s.by},
                    {"step", s.step},
                    {"text", s.text},
                    {"place", json_or_null(s.place)},
                    {"note", json_or_null(s.note)}};
    });
    out["units"] = list_json(a.units, unit_json);
    out["rules_entry"] = json_or_null(a.rules_entry);
    out["findings"] = list_json(a.findings, finding_json);
    out["counted"] = a.counted;
    out["lines"] = list_json(a.lines, line_json);
    out["patients"] = a.patients;
    out["given"] = list_json(a.given, [](const auto& row) {
        Json o{
            {"entry", row.entry}, {"at", row.at.text()}, {"patient", row.patient.empty() ? Json() : Json(row.patient)}};
        o.update(holding_json(row.holding));
        o["doses"] = row.doses.count();
        o["certain"] = row.certain;
        o["finding"] = row.finding;
        o["reasons"] = row.reasons;
        o["guidance"] = json_or_null(row.guidance);
        o["beside"] = row.beside;
        return o;
    });
    out["left"] = list_json(a.left, [](const auto& l) {
        Json o{{"entry", l.entry}, {"at", l.at.text()}};
        o.update(holding_json(l.holding));
        o["doses"] = l.doses.count();
        o["to"] = l.to.empty() ? Json(nullptr) : Json(l.to);
        o["reason"] = l.reason;
        o["told"] = json_or_null(l.told);
        return o;
    });
    out["now"] = list_json(a.now, [](const auto& row) {
        Json o = holding_json(row.holding);
        o["doses"] = row.doses.count();
        o["list"] = list_name(row.list);
        o["reasons"] = row.reasons;
        o["in_doubt"] = row.in_doubt;
        o["beside"] = row.beside;
        return o;
    });
    out["moved"] = a.moved;
    out["makers"] = list_json(a.makers, [](const auto& m) {
        return Json{{"maker", m.maker},
                    {"known", m.known},
                    {"contact", json_or_null(m.contact)},
                    {"phone", json_or_null(m.phone)},
                    {"email", json_or_null(m.email)},
                    {"products", m.products},
                    {"reports", m.reports},
                    {"answers", list_json(m.answers, [](const auto& x) {
                         return Json{{"product", x.product}, {"lot", x.lot},     {"guidance", x.guidance},
                                     {"said", x.said},       {"waits", x.waits}, {"waits_since", x.waits_since}};
                     })}};
    });
    out["reports"] = list_json(a.reports, [](const auto& r) {
        return Json{{"entry", r.entry},    {"at", r.at.text()},        {"by", r.by},
                    {"to", r.to},          {"recipient", r.recipient}, {"reference", json_or_null(r.reference)},
                    {"counted", r.counted}};
    });
    out["duties"] = list_json(a.duties, [](const auto& d) {
        return Json{{"step", d.step},
                    {"who", d.who},
                    {"since", json_or_null(d.since)},
                    {"due", json_or_null(d.due)},
                    {"done", json_or_null(d.done)},
                    {"state", duty_state_name(d.state)},
                    {"since_done", d.since_done}};
    });
    out["holds"] = list_json(a.holds, [](const auto& h) {
        return Json{
            {"entry", h.entry}, {"place", h.place}, {"product", h.product}, {"lot", h.lot}, {"doses", h.doses.count()}};
    });
    out["against_release"] = a.against_release;
    out["release_from"] = json_or_null(a.release_from);
    out["release_until"] = json_or_null(a.release_until);
    out["told"] = list_json(a.told, told_json);
    out["missing"] = a.missing;
    out["caution"] = std::string(caution) + " " + review_caution;
    return json_line(out);
}

std::string to_table(const IncidentAnswer& a, const TableStyle& style) {
    TableLayout table({{"Product"},
                       {"Lot"},
                       {"Expiry", Kind::fixed},
                       {"Place"},
                       {"Doses", Kind::number},
                       {"Given", Kind::number},
                       {"Wasted", Kind::number},
                       {"Returned", Kind::number},
                       {"Sent", Kind::number},
                       {"Found", Kind::number},
                       {"Missing", Kind::number}});
    const auto when = [&](Instant t) { return style.zone.local_text(t); };
    const auto heading = [&](const std::string& text) {
        table.blank();
        table.text(text, 0, 0, Paint::bold);
    };
    add_head(table, a.head, "incident " + a.incident + (a.maker ? ", for " + *a.maker : ""), style);

    heading("To be done, overdue first");
    for (const auto& d : a.duties) {
        table.text(clock_words(d, a.head, style.zone), 2, 2, paint_of(d.state));
        for (const auto& text : d.since_done) table.text("since then " + text, 6, 2, Paint::wait);
    }
    if (!a.counted)
        table.text(
            "The doses of the affected places have NOT been counted since it was noticed: count them before the "
            "report.",
            2, 2, Paint::wait);

    heading("Doses given since the last good reading");
    if (a.given.empty()) table.text("none known", 2);
    else table.text("to " + counted(a.patients, "patient"), 2);
    const std::int64_t later = std::ranges::count_if(a.given, [&](const auto& row) { return given_later(a, row); });
    for (const bool then : {false, true}) {
        if (later > 0)
            table.text(then ? "given after it was back in range, of doses that had been in it:"
                       : later == std::ssize(a.given)
                           ? "given until it was back in range: none known"
                           : "given until it was back in range:",
                       2, 2);
        for (const auto& row : a.given) {
            if (given_later(a, row) != then) continue;
            table.text(when(row.at) + " entry " + std::to_string(row.entry) + ", " + doses_words(row.doses.count()) +
                           (row.patient.empty() ? std::string() : " to " + row.patient) + ", " +
                           holding_words(row.holding) +
                           (row.certain ? "" : " (not certain: the chart names the lot alone)") + ": " +
                           finding_words(row.finding),
                       later > 0 ? 4 : 2, 2);
            for (const auto& line : row.beside) table.text(line, later > 0 ? 8 : 6, 2, Paint::wait);
        }
    }

    if (!a.left.empty()) {
        heading("Doses that left since the last good reading: tell those who have them");
        for (const auto& l : a.left)
            table.text(answers::left_words(l, style.zone) +
                           (l.told ? "; told of, entry " + std::to_string(*l.told)
                                   : ": " + answers::left_advice(l)),
                       2, 2, l.told ? Paint::plain : Paint::stop);
    }

    heading("What happened");
    for (const auto& s : a.steps) {
        table.text(when(s.at) + " " + s.step + " (" + s.by + "): " + s.text, 2, 2);
        if (s.note) table.text("Note: " + *s.note, 4, 2);
    }
    for (const auto& m : a.moved) table.text("moved: " + m, 2, 2);

    for (const auto& u : a.units) {
        heading("Unit " + u.place + ": " + u.name + " (" + std::string(place_type_name(u.type)) + ")");
        table.text("last reading in range: " +
                       (u.last_good ? when(*u.last_good) + ", " +
                                          temperature_words(*u.last_good_C, style.scale, Rounding::nearest)
                                    : std::string("not known")),
                   2, 2);
        for (const auto& e : u.excursions) table.text(excursion_words(e, style), 2, 2);
        const std::string out_of_range = out_of_range_words(u.exposure);
        table.text("out of range in all: " + (out_of_range.empty() ? std::string("not known to be") : out_of_range), 2,
                   2);
        if (u.exposure.lowest_C)
            table.text("lowest " + temperature_words(*u.exposure.lowest_C, style.scale, Rounding::down) + ", highest " +
                           temperature_words(*u.exposure.highest_C, style.scale, Rounding::up),
                       2, 2);
        for (const auto& line : u.beside) table.text(line, 2, 2, Paint::wait);
        const std::string known = coverage_words(u.exposure.seconds);
        if (!known.empty()) table.text("known: " + known, 2, 2);
        table.text("back in range: " + (u.back_in_range ? when(*u.back_in_range) : std::string("not known to be")), 2,
                   2);
        for (const auto& d : u.devices)
            table.text("probe " + d.probe + (d.serial ? ", serial " + *d.serial : "") +
                           (d.certificate ? ", certificate " + *d.certificate : "") +
                           (d.certified_until ? " until " + d.certified_until->text() : "") +
                           (d.tolerance ? ", tolerance " + *d.tolerance : ""),
                       2, 2);
        for (const auto& e : u.earlier_incidents) table.text("earlier incident: " + e, 2, 2);
        if (u.earlier_excursions > 0)
            table.text(
                "earlier excursions of this place that belong to no incident: " + std::to_string(u.earlier_excursions),
                2, 2);
    }

    heading("The programme's conditions");
    if (!a.rules_entry) table.text("No rules of a programme are known here.", 2);
    for (const auto& u : a.units) {
        const auto& unknown = u.exposure.seconds[static_cast<std::size_t>(Class::unmonitored)];
        if (a.rules_entry && unknown.sign() > 0)
            table.text(u.place + ": the temperature is NOT KNOWN for " + duration_words(unknown, true) +
                           ", which may hide more",
                       2, 2, Paint::wait);
    }
    for (const auto& none : a.not_judged) table.text(none, 2, 2, Paint::wait);
    for (const auto& f : a.findings)
        table.text(f.place + ": " + finding_words(f, style.zone), 2, 2,
                   f.estimate.met                             ? Paint::stop
                   : f.state() == RuleFinding::State::not_met ? Paint::plain
                                                              : Paint::wait);

    heading(a.counted ? "Vaccine in the affected places (counted since)"
                      : "Vaccine in the affected places (NOT counted since: by the book)");
    if (a.lines.empty()) {
        table.text("none known", 2);
    } else {
        table.text(
            "Given and the rest: since then, of these doses and of those that came to them; found and missing by "
            "counts.",
            2, 2);
        table.titles();
    }
    for (const auto& l : a.lines) {
        table.row({l.holding.product, l.holding.lot, l.expiry.text(), place_words(l.holding),
                   std::to_string(l.doses.count()), std::to_string(l.given), std::to_string(l.wasted),
                   std::to_string(l.returned), l.transferred > 0 ? std::to_string(l.transferred) : "",
                   l.found > 0 ? std::to_string(l.found) : "", l.missing > 0 ? std::to_string(l.missing) : ""});
        table.text(l.product_name + "; maker: " + l.maker.value_or("NOT KNOWN"), 6, 2);
        const std::string now = out_of_range_words(l.exposure), before = out_of_range_words(l.before.total);
        table.text(
            "this time: " + (now.empty() ? std::string("not known to be out of range") : now) + and_between(l.exposure),
            6, 2);
        table.text(
            "before it was in this: " + (before.empty() ? std::string("not exposed, as far as is known") : before) +
                and_between(l.before.total),
            6, 2);
    }

    heading("Where these doses are now");
    for (const auto& row : a.now) {
        std::string reasons;
        for (const auto& r : row.reasons) reasons += (reasons.empty() ? ": " : ", ") + r;
        table.text(holding_words(row.holding) + ": " + doses_words(row.doses.count()) + ", " +
                       std::string(list_name(row.list)) + reasons +
                       and_in_doubt(row.list, row.in_doubt),
                   2, 2);
        const std::string all = out_of_range_words(row.history.total);
        table.text(
            "since it came: " + (all.empty() ? std::string("not known to be out of range") : all) +
                and_between(row.history.total) +
                (row.history.total.lowest_C
                     ? "; lowest " + temperature_words(*row.history.total.lowest_C, style.scale, Rounding::down) +
                           ", highest " + temperature_words(*row.history.total.highest_C, style.scale, Rounding::up)
                     : std::string()),
            6, 2);
        for (const auto& note : row.beside) table.text(note, 6, 2, Paint::stop);
    }
    if (a.now.empty()) table.text("none left", 2);

    if (!a.holds.empty()) {
        heading("Holds that came with its notice");
        for (const auto& h : a.holds)
            table.text("entry " + std::to_string(h.entry) + ": " + h.product + " lot " + h.lot + " in " + h.place +
                           ": " +
                           (h.doses.count() > 0 ? doses_words(h.doses.count()) + " stay DO NOT USE"
                                                : std::string("holds no doses any more")),
                       2, 2);
        if (a.against_release.empty()) {
            std::map<std::string, std::string> ranges;
            for (const auto& h : a.holds) ranges[h.place] = h.place + ": " + answers::range_words(h.range);
            std::string by;
            for (const auto& [place, words] : ranges) by += (by.empty() ? "" : "; ") + words;
            table.text("Closing it can release them: nothing was out of range (" + by + ") from " +
                           when(*a.release_from) + " to " + when(*a.release_until) +
                           ", all of that time by a logger or within the minimum and maximum of checks.",
                       2, 2);
        }
        for (const auto& why : a.against_release)
            table.text("against a release by closing it: " + why, 2, 2, Paint::wait);
    }

    heading("Makers");
    for (const auto& m : a.makers) {
        table.text(m.maker + (m.contact ? ", " + *m.contact : "") + (m.phone ? ", " + *m.phone : "") +
                       (m.email ? ", " + *m.email : ""),
                   2, 2);
        for (const auto& x : m.answers) {
            std::string said;
            for (std::size_t i = 0; i < x.guidance.size(); ++i)
                said += (i ? "; " : "answer: ") + x.said[i] + " (entry " + std::to_string(x.guidance[i]) + ")";
            table.text(x.product + " lot " + x.lot + ": " + (said.empty() ? "answer awaited" : said) +
                           (x.waits && !said.empty() ? "; NOT COVERED by it: doses still wait" : ""),
                       4, 2, x.waits && !said.empty() ? Paint::wait : Paint::plain);
            for (const auto& text : x.waits_since) table.text("not of this answer: " + text, 6, 2, Paint::wait);
        }
    }
    if (!a.reports.empty()) heading("Reports sent");
    for (const auto& r : a.reports)
        table.text(when(r.at) + " to " + r.recipient + " (" + r.to + ")" +
                       (r.reference ? ", their case " + *r.reference : "") +
                       (r.counted ? "" : ", the doses not counted before") + ", by " + r.by + ", entry " +
                       std::to_string(r.entry),
                   2, 2);

    heading("Figures to tell: what no guidance covers yet, time in an allowance included");
    const bool unread = a.unread_s.sign() > 0;
    if (unread)
        table.text("NOT YET READ: " + duration_words(a.unread_s, true) + ", which no figure counts", 2, 2, Paint::wait);
    Rational between_checks;
    for (const auto& u : a.units)
        between_checks = std::max(between_checks, u.exposure.seconds[static_cast<std::size_t>(Class::checked)]);
    if (a.told.empty() && between_checks.sign() > 0)
        table.text(
            "NOTHING IS KNOWN between plain checks, " + duration_words(between_checks, true) + ": no figure counts it",
            2, 2, Paint::wait);
    if (a.told.empty() && !unread && between_checks.sign() == 0)
        table.text(std::any_of(a.now.begin(), a.now.end(), [](const auto& r) { return !r.beside.empty(); })
                       ? "nothing is left open by the estimates; what may be more stands with the doses above"
                       : "nothing is left open",
                   2);
    for (const auto& t : a.told) {
        const std::string given = t.given == 0 ? "" : counted(t.given, "dose") + " given out of it";
        const std::string doses =
            t.doses.count() == 0 ? given : counted(t.doses.count(), "dose") + (given.empty() ? "" : " and " + given);
        const Rational out_of_range(t.figures.out_of_range.seconds());
        const std::string beyond = out_of_range.sign() == 0 ? ""
                                   : t.beyond_s.sign() == 0 ? " (all of it in an allowance)"
                                   : t.beyond_s.ceil() == out_of_range.floor()
                                       ? " (none of it in an allowance)"
                                       : " (of it " + duration_words(t.beyond_s, true) + " in no allowance)";
        std::string over;
        for (const auto& o : t.over)
            over += ", " + duration_words(o.over_s, true) + " MORE than the " +
                    duration_words(Rational(o.permitted.seconds()), false) + " of allowance " +
                    std::to_string(o.allowance + 1) + " (" + o.source + ")";
        const std::string at_most = Rational(t.at_most_s.ceil()) > out_of_range
                                        ? ", AT MOST " + duration_words(t.at_most_s, true) + " since receipt"
                                        : "";
        const std::string checked =
            t.checked_s.sign() > 0
                ? ", nothing known for " + duration_words(t.checked_s, true) + " between plain checks since receipt"
                : "";
        table.text(holding_words({t.place, t.product, t.lot, t.fund, t.mark}) + ": " + doses + ", out of range " +
                       duration_words(out_of_range, true) + beyond + over + at_most + ", unknown " +
                       duration_words(Rational(t.figures.unmonitored.seconds()), true) + ", " +
                       counted(t.figures.points, "reading") + " out of range that no allowance covers" + checked,
                   2, 2);
    }

    heading("Asked for, and not known to this ledger");
    for (const auto& m : a.missing) table.text(m, 2, 2);
    add_caution(table, review_caution);
    return render(table, style);
}

}  // namespace coldtally
