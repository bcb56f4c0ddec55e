// Of loosening: what a programme asks of open incidents. That a condition is surer, or due sooner, is no matter of it.
#include "drafts/comparison.hpp"
#include "incidents/incident_report.hpp"
#include "incidents/overtaken.hpp"
#include "question/said.hpp"
#include "text/json_text.hpp"
#include "words/definitions.hpp"
#include "words/lists.hpp"
#include "words/loosening.hpp"

namespace coldtally::answers {

namespace {

void conditions(const std::vector<RuleFinding>& before, const std::vector<RuleFinding>& after,
                std::vector<Remark>& lost_ones) {
    for (const auto& f : before) {
        if (f.state() == RuleFinding::State::not_met) continue;
        const auto now =
            std::ranges::find_if(after, [&](const auto& o) { return o.rule == f.rule && o.place == f.place; });
        const Remark name = words::condition_named(text::quoted(f.rule)), state = rule_state_words(f.state());
        if (now == after.end())
            lost_ones.push_back(words::condition_not_asked(name, text::quoted(f.place), state));
        else if (now->state() > f.state())
            lost_ones.push_back(
                words::condition_would_be(name, text::quoted(f.place), state, rule_state_words(now->state())));
    }
}

Remark name_of(const DutyClock& duty, const Zone& zone) {
    const Remark step = said::duty_words(duty.step);
    const auto who = who_words(duty);
    const Remark what = who ? words::in_brackets(step, *who) : step;
    const std::string due = zone.local_text(*duty.due);
    return duty.state == DutyClock::State::overdue ? words::duty_overdue_since(what, due)
                                                   : words::duty_due_at(what, due);
}

void duties(const std::vector<DutyClock>& before, const std::vector<DutyClock>& after, const Zone& zone,
            std::vector<Remark>& lost_ones) {
    for (const auto& d : before) {
        if (d.done || !d.due) continue;
        const auto now = std::ranges::find_if(after, [&](const auto& o) {
            return o.step == d.step && o.who == d.who && o.product == d.product;
        });
        if (now == after.end() || !now->due)
            lost_ones.push_back(words::duty_not_due(name_of(d, zone)));
        else if (*now->due > *d.due)
            lost_ones.push_back(words::duty_due_later(name_of(d, zone), zone.local_text(*now->due)));
    }
}

}  // namespace

void compare_programme(Comparison& c) {
    for (const auto& [id, was] : c.before.incidents) {
        const auto it = c.after.incidents.find(id);
        if (it == c.after.incidents.end()) continue;
        std::vector<Remark> lost_ones;
        conditions(was.findings, it->second.findings, lost_ones);
        duties(was.duties, it->second.duties, c.w.known.zone(), lost_ones);
        if (!lost_ones.empty()) c.ask(words::programme_asks_less(text::quoted(id), which(lost_ones)));
    }
}

}  // namespace coldtally::answers
