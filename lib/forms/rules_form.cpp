#include "forms/rules_form.hpp"

#include "coldtally/forms.hpp"
#include "entered/rules_lines.hpp"
#include "entries/programme.hpp"
#include "forms/answer_json.hpp"
#include "words/history.hpp"
#include "words/lists.hpp"
#include "words/rules.hpp"

namespace coldtally {

namespace forms {

using Form = ProgrammeRules::Reportable::Form;

namespace {

constexpr const char* form_names[] = {"run", "sum", "reading", "pattern"};

Json level_json(const RuleFinding::Level& level, bool seconds) {
    Json out{{"met", level.met}, {"first", nullptr}, {"first_s", nullptr}};
    if (level.first_s) {
        out["first"] = nearest_instant(*level.first_s);
        out["first_s"] = level.first_s->text();
    }
    out[seconds ? "most_s" : "most"] = level.most.text();
    return out;
}

bool in_seconds(Form form) { return form == Form::run || form == Form::sum; }

std::string span_text(const Rational& seconds) { return duration_words(seconds, true); }

Remark not_known_words(const RuleFinding& f) {
    const Rational other = f.unknown_s - f.checked_s;
    const Remark between = words::unknown_between_checks(span_text(f.checked_s));
    if (f.checked_s.sign() > 0 && other.sign() <= 0) return between;
    const Remark not_known = words::reason_unmonitored(span_text(other));
    return f.checked_s.sign() > 0 ? words::comma_and(not_known, between) : not_known;
}

Remark state_words(const RuleFinding& f, const Zone& zone) {
    switch (f.state()) {
        case RuleFinding::State::met: return words::rule_met(end_text(*f.at_least.first_s, zone));
        case RuleFinding::State::met_by_estimate:
            return words::rule_met_by_estimate(begin_text(*f.estimate.first_s, zone));
        case RuleFinding::State::perhaps_met: return words::rule_perhaps_met(begin_text(*f.at_most.first_s, zone));
        case RuleFinding::State::cannot_be_said: return words::rule_cannot_be_said(not_known_words(f));
        case RuleFinding::State::not_met: break;
    }
    return words::rule_not_met;
}

}  // namespace

Json finding_json(const RuleFinding& f) {
    const bool seconds = in_seconds(f.form);
    return {{"rule", f.rule},
            {"text", f.text},
            {"place", f.place},
            {"form", form_names[static_cast<int>(f.form)]},
            {"state", rule_state_name(f.state())},
            {"at_least", level_json(f.at_least, seconds)},
            {"estimate", level_json(f.estimate, seconds)},
            {"at_most", level_json(f.at_most, seconds)},
            {"with_unknown", level_json(f.with_unknown, seconds)},
            {"unknown_s", f.unknown_s.text()},
            {"checked_s", f.checked_s.text()}};
}

Remark finding_words(const RuleFinding& f, const Zone& zone) {
    const auto much = [&](const Rational& most, bool up) {
        return in_seconds(f.form) ? duration_words(most, up) : most.text();
    };
    const auto estimate = [&](const std::string& most) -> Remark {
        switch (f.form) {
            case Form::run: return words::longest_run(most);
            case Form::sum: return words::largest_sum(most);
            case Form::reading: return words::number_of_readings(most);
            case Form::pattern: break;
        }
        return words::most_together(most);
    };
    std::vector<Remark> figures{estimate(much(f.estimate.most, true))};
    if (!(f.at_least.most == f.at_most.most))
        figures.push_back(words::by_tolerances(much(f.at_least.most, false), much(f.at_most.most, true)));
    if (f.with_unknown.most > f.at_most.most)
        figures.push_back(words::with_what_is_not_known(much(f.with_unknown.most, true)));
    return words::rule_finding(f.rule, state_words(f, zone), *words::semicolons(figures));
}

}  // namespace forms

using namespace forms;

std::string to_json(const RulesAnswer& a) {
    Json out = json_head(a.head);
    out["entry"] = nullptr;
    out["rules"] = nullptr;
    if (a.entry) {
        out["entry"] = *a.entry;
        out["rules"] = Json::object();
        entries::print_rules(out["rules"], a.rules);
    }
    out["from"] = a.from.text();
    out["until"] = a.until.text();
    set_window(out, a.head);
    out["places"] = list_json(a.places, [](const auto& p) {
        return Json{{"place", p.place}, {"unmonitored_s", p.unmonitored_s.text()}, {"checked_s", p.checked_s.text()}};
    });
    out["findings"] = list_json(a.findings, finding_json);
    std::vector<Remark> not_judged;
    for (const auto& none : a.not_judged) not_judged.push_back(words::colon(none.place, none.why));
    set_remarks(out, "not_judged", not_judged);
    out["caution"] = cautions({words::caution});
    return json_line(out);
}

namespace {

void add_rules(TableLayout& table, const ProgrammeRules& rules, EntryNumber entry) {
    table.text(words::programme_line(rules.programme, rules.source, rules.dated.text(), entry));
    table.blank();
    table.text(words::to_be_reported(), 0, 0, TableLayout::Paint::bold);
    for (const auto& c : rules.report) {
        const Remark condition = answers::condition_words(c);
        table.text(words::colon(c.rule, c.text.empty() ? condition : words::condition_worded(condition, c.text)), 2, 2);
    }
    if (rules.report.empty()) table.text(words::nothing_is_said(), 2);
    for (const auto& d : rules.duties) table.text(answers::duty_line(d), 2, 2);
}

TableLayout::Paint paint_of(const RuleFinding& f) {
    if (f.estimate.met) return TableLayout::Paint::stop;
    return f.state() == RuleFinding::State::not_met ? TableLayout::Paint::plain : TableLayout::Paint::wait;
}

void add_place(TableLayout& table, const RulesAnswer& a, const RulesAnswer::Unknown& p, const Zone& zone) {
    if (p.unmonitored_s.sign() > 0)
        table.text(words::unknown_hides_more(p.place, duration_words(p.unmonitored_s, true)), 2, 2);
    else
        table.text(p.place, 2, 2);
    if (const auto between = between_checks_words(p.checked_s)) table.text(*between, 4, 2);
    for (const auto& f : a.findings)
        if (f.place == p.place) table.text(finding_words(f, zone), 4, 2, paint_of(f));
    for (const auto& none : a.not_judged)
        if (none.place == p.place) table.text(none.why, 4, 2, TableLayout::Paint::wait);
}

}  // namespace

std::string to_table(const RulesAnswer& a, const TableStyle& style) {
    TableLayout table(*style.book);
    add_head(table, a.head, words::rules_title(), style);
    table.blank();
    if (a.entry) {
        add_rules(table, a.rules, *a.entry);
        table.blank();
        table.text(words::conditions_in_window(window_words(a.from, a.until, a.head.at, style.zone)), 0, 0,
                   TableLayout::Paint::bold);
        for (const auto& p : a.places) add_place(table, a, p, style.zone);
    } else {
        table.text(words::rules_not_known());
    }
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
