#include "forms/rules_form.hpp"

#include "coldtally/forms.hpp"
#include "entries/programme.hpp"
#include "forms/answer_json.hpp"

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

std::string limit_words(const Limit& limit) {
    std::string out;
    if (limit.C) out = limit.C->text() + " °C";
    if (limit.F) out += (out.empty() ? "" : " (") + limit.F->text() + " °F" + (out.empty() ? "" : ")");
    return out;
}

std::string not_known_words(const RuleFinding& f) {
    const Rational other = f.unknown_s - f.checked_s;
    std::string out = f.checked_s.sign() == 0 || other.sign() > 0
                          ? "the temperature is not known for " + duration_words(other, true)
                          : "";
    if (f.checked_s.sign() > 0)
        out += (out.empty() ? "" : ", and ") +
               ("nothing is known for " + duration_words(f.checked_s, true) + " between plain checks");
    return out;
}

std::string span_words(std::int64_t seconds) { return duration_words(Rational(seconds), true); }

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

std::string condition_words(const ProgrammeRules::Reportable& r) {
    static constexpr const char* comparisons[] = {"above", "at or above", "below", "at or below"};
    std::string t = "out of the place's own range";
    if (r.temperature) {
        const bool high = r.temperature->is == ProgrammeRules::Temperatures::Is::above ||
                          r.temperature->is == ProgrammeRules::Temperatures::Is::at_or_above;
        t = std::string(comparisons[static_cast<int>(r.temperature->is)]) + " " +
            (r.temperature->limit ? limit_words(*r.temperature->limit)
             : high               ? "the place's highest"
                                  : "the place's lowest");
    }
    std::string out;
    const std::string much = r.more_than ? "more than " : "at least ";
    switch (r.form) {
        case Form::run: out = t + " for " + much + span_words(r.threshold) + " without a break"; break;
        case Form::sum:
            out =
                t + " for " + much + span_words(r.threshold) + " in all within any " + span_words(r.within->seconds());
            break;
        case Form::reading: out = "any reading " + t; break;
        case Form::pattern:
            out = much + std::to_string(r.threshold) + " excursions " + t +
                  (r.within ? " within any " + span_words(r.within->seconds()) : " ever");
            break;
    }
    std::string only;
    for (const auto type : r.places) only += (only.empty() ? "; " : ", ") + std::string(place_type_name(type));
    out += only;
    only.clear();
    for (const auto& p : r.products) only += (only.empty() ? "; while it holds " : ", ") + p;
    return out + only;
}

std::string finding_words(const RuleFinding& f, const Zone& zone) {
    const auto much = [&](const Rational& most, bool up) {
        return in_seconds(f.form) ? duration_words(most, up) : most.text();
    };
    std::string out = f.rule + ": ";
    switch (f.state()) {
    case RuleFinding::State::met: out += "MET, at the latest on " + end_text(*f.at_least.first_s, zone); break;
    case RuleFinding::State::met_by_estimate:
        out += "MET by the readings on " + begin_text(*f.estimate.first_s, zone) + ", not beyond the probe's tolerance";
        break;
    case RuleFinding::State::perhaps_met:
        out += "PERHAPS MET on " + begin_text(*f.at_most.first_s, zone) + ", within the probe's tolerance";
        break;
    case RuleFinding::State::cannot_be_said:
        out += "CANNOT BE SAID: " + not_known_words(f) + ", in which it may have been met";
        break;
    case RuleFinding::State::not_met: out += "not met"; break;
    }
    const char* const what[] = {"longest ", "most ", "readings ", "most together "};
    out += " (" + std::string(what[static_cast<int>(f.form)]) + much(f.estimate.most, true);
    if (!(f.at_least.most == f.at_most.most))
        out += "; at least " + much(f.at_least.most, false) + ", at most " + much(f.at_most.most, true);
    if (f.with_unknown.most > f.at_most.most)
        out += "; up to " + much(f.with_unknown.most, true) + " with what is not known";
    return out + ")";
}

}  // namespace forms

using namespace forms;

std::string to_json(const RulesAnswer& a) {
    Json out{{"ledger", a.head.ledger},
             {"at", a.head.at.text()},
             {"known_on", a.head.known_on.text()},
             {"last_entry", a.head.last_entry}};
    out["entry"] = nullptr;
    out["rules"] = nullptr;
    if (a.entry) {
        out["entry"] = *a.entry;
        out["rules"] = Json::object();
        entries::print_rules(out["rules"], a.rules);
    }
    out["from"] = a.from.text();
    out["until"] = a.until.text();
    out["window"] = a.head.window;
    out["places"] = Json::array();
    for (const auto& p : a.places) out["places"].push_back(
            {{"place", p.place}, {"unmonitored_s", p.unmonitored_s.text()}, {"checked_s", p.checked_s.text()}});
    out["findings"] = Json::array();
    for (const auto& f : a.findings) out["findings"].push_back(finding_json(f));
    out["not_judged"] = a.not_judged;
    out["caution"] = caution;
    return json_line(out);
}

std::string to_table(const RulesAnswer& a, const TableStyle& style) {
    TableLayout table;
    add_head(table, a.head, "the programme's rules", style);
    table.blank();
    if (!a.entry) {
        table.text(
            "No rules of a programme are known here: what must be reported, and how soon, is not in this ledger. Post "
            "a rules entry.");
        add_caution(table);
        return render(table, style);
    }
    const auto& r = a.rules;
    table.text(r.programme + " (" + r.source + ", dated " + r.dated.text() + "; entry " + std::to_string(*a.entry) +
               ")");
    table.blank();
    table.text("To be reported:", 0, 0, TableLayout::Paint::bold);
    for (const auto& c : r.report)
        table.text(c.rule + ": " + condition_words(c) + (c.text.empty() ? "" : " (\"" + c.text + "\")"), 2, 2);
    if (r.report.empty()) table.text("nothing is said", 2);
    for (const auto& d : r.duties)
        table.text(d.step + (d.step == "answer" ? ": due within " : ": within ") +
                       duration_words(Rational(d.within.seconds()), false) +
                       (d.step == "answer" ? " from when it was asked for" : " from being noticed") +
                       (d.if_reportable ? ", where it must be reported" : ""),
                   2, 2);
    table.blank();
    table.text("Conditions " + window_words(a.from, a.until, a.head.at, style.zone) + ":", 0, 0,
               TableLayout::Paint::bold);
    for (const auto& p : a.places) {
        table.text(
            p.place + (p.unmonitored_s.sign() > 0 ? ": the temperature is NOT KNOWN for " +
                                                        duration_words(p.unmonitored_s, true) + ", which may hide more"
                                                  : ""),
            2, 2);
        if (const auto between = between_checks_words(p.checked_s); !between.empty()) table.text(between, 4, 2);
        for (const auto& f : a.findings)
            if (f.place == p.place)
                table.text(finding_words(f, style.zone), 4, 2,
                           f.estimate.met                             ? TableLayout::Paint::stop
                           : f.state() == RuleFinding::State::not_met ? TableLayout::Paint::plain
                                                                      : TableLayout::Paint::wait);
        for (const auto& none : a.not_judged)
            if (none.starts_with(p.place + ": "))
                table.text(none.substr(p.place.size() + 2), 4, 2, TableLayout::Paint::wait);
    }
    add_caution(table);
    return render(table, style);
}

}  // namespace coldtally
