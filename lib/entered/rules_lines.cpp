#include "entered/rules_lines.hpp"

#include "question/said.hpp"
#include "words/definitions.hpp"
#include "words/entered.hpp"
#include "words/history.hpp"
#include "words/lists.hpp"
#include "words/rules.hpp"
#include "words/upkeep.hpp"

namespace coldtally::answers {

using namespace said;

namespace {

using Form = ProgrammeRules::Reportable::Form;

std::string limit_text(const Limit& limit) {
    std::string out;
    if (limit.C) out = limit.C->text() + " °C";
    if (limit.F) out += (out.empty() ? "" : " (") + limit.F->text() + " °F" + (out.empty() ? "" : ")");
    return out;
}

std::string span_text(const Rational& seconds) { return duration_words(seconds, true); }

/// Which temperatures count.
Remark limits_words(const ProgrammeRules::Reportable& r) {
    using Is = ProgrammeRules::Temperatures::Is;
    if (!r.temperature) return words::out_of_own_range;
    const Is is = r.temperature->is;
    const bool high = is == Is::above || is == Is::at_or_above;
    const Field limit = r.temperature->limit ? Field(limit_text(*r.temperature->limit))
                        : high               ? Field(words::the_places_highest())
                                             : Field(words::the_places_lowest());
    switch (is) {
        case Is::above: return words::above(limit);
        case Is::at_or_above: return words::at_or_above(limit);
        case Is::below: return words::below(limit);
        case Is::at_or_below: break;
    }
    return words::at_or_below(limit);
}

const Remark& weekday_words(int day) {
    static const Remark all[] = {words::monday,   words::tuesday, words::wednesday, words::thursday,
                                 words::friday, words::saturday, words::sunday};
    return all[day - 1];
}

std::string clock_text(int seconds) {
    const auto two = [](int n) { return (n < 10 ? "0" : "") + std::to_string(n); };
    return two(seconds / 3600) + ":" + two(seconds / 60 % 60);
}

Remark checks_words(const ProgrammeRules::Checks& c) {
    std::vector<Field> days, times, types;
    for (const int day : c.weekdays) days.emplace_back(weekday_words(day));
    for (const int t : c.by) times.emplace_back(clock_text(t));
    for (const auto type : c.places) types.emplace_back(place_type_words(type));
    Remark out = words::checks_a_day(c.per_day);
    if (!times.empty()) out = words::checks_by(std::move(out), words::listed(times));
    if (c.min_max) out = words::checks_with_min_max(std::move(out));
    if (c.weekdays.size() < 7) out = words::checks_on_days(std::move(out), words::listed(days));
    return types.empty() ? out : words::semicolon(out, words::listed(types));
}

}  // namespace

Remark condition_words(const ProgrammeRules::Reportable& r) {
    const Remark temperature = limits_words(r);
    const auto& amount = r.more_than ? words::more_than : words::at_least;
    const auto much = [&] { return amount(span_text(Rational(r.threshold))); };
    const auto within = [&] { return span_text(Rational(r.within->seconds())); };
    const auto what = [&]() -> Remark {
        switch (r.form) {
            case Form::run: return words::without_a_break(temperature, much());
            case Form::sum: return words::in_all_within(temperature, much(), within());
            case Form::reading: return words::any_reading(temperature);
            case Form::pattern: break;
        }
        if (!r.within) return words::excursions_ever(amount(r.threshold), temperature);
        return words::excursions_within(amount(r.threshold), temperature, within());
    };
    std::vector<Field> types;
    for (const auto type : r.places) types.push_back(place_type_words(type));
    Remark out = what();
    if (!types.empty()) out = words::semicolon(out, words::listed(types));
    if (!r.products.empty()) out = words::semicolon(out, words::while_it_holds(words::names(r.products)));
    return out;
}

Remark duty_line(const ProgrammeRules::Duty& d) {
    const Remark line = (d.step == DutyStep::answer ? words::duty_answered_within : words::duty_within)(
        duty_words(d.step), duration_words(Rational(d.within.seconds()), false));
    return d.if_reportable ? words::where_reportable(line) : line;
}

std::vector<ReadBack> rules_lines(const ProgrammeRules& r) {
    std::vector<ReadBack> out{{words::rules_programme, r.programme},
                              {words::rules_source, words::source_dated(r.source, r.dated.text())}};
    for (const auto& c : r.report) {
        const Remark condition = condition_words(c);
        out.push_back({words::condition_named(c.rule),
                       c.text.empty() ? condition : words::condition_worded(condition, c.text)});
    }
    for (const auto& d : r.duties) {
        const Remark within = words::within_time(duration_words(Rational(d.within.seconds()), false));
        out.push_back({words::step_due(duty_words(d.step)),
                       d.if_reportable ? words::comma(within, words::where_condition_met()) : within});
    }
    for (std::size_t i = 0; i < r.checks.size(); ++i)
        out.push_back({r.checks.size() == 1 ? words::rules_checks() : words::rules_checks_more(i + 1),
                       checks_words(r.checks[i])});
    if (r.longest_trip)
        out.push_back({words::longest_trip, duration_words(Rational(r.longest_trip->seconds()), false)});
    if (r.repay_loans_within_days)
        out.push_back({words::rules_loans_repaid, words::within_time(words::days(*r.repay_loans_within_days))});
    for (const auto& [what, days] : r.every_days)
        out.push_back({words::as_said(what), words::every_so_many_days(days)});
    for (const auto& kept : r.retention)
        out.push_back({words::rules_kept(kept.records), words::years(kept.years)});
    return out;
}

}  // namespace coldtally::answers
