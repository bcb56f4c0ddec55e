#include <algorithm>

#include "incidents/investigation.hpp"
#include "text/names_alike.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

namespace {

using Asked = IncidentAnswer::Asked;

std::optional<Instant> earlier(std::optional<Instant> a, std::optional<Instant> b) {
    return !a ? b : !b ? a : std::min(a, b);
}

/// The duties of one incident, each with its clock.
class Duties {
public:
    explicit Duties(Investigation& i) : i_(i), reportable_(is_reportable()) {}

    void add_steps() {
        using enum DutyStep;
        for (const DutyStep step : {supervisor_told, health_department_told, cause, action, closed}) {
            const auto to = step == supervisor_told          ? std::optional(Recipient::supervisor)
                            : step == health_department_told ? std::optional(Recipient::health_department)
                                                             : std::nullopt;
            auto done = step == closed ? i_.out.closed : first_step(*step_of(step));
            if (to) done = earlier(done, first_report(*to, std::nullopt));
            const auto* stated = rule_of(step);
            if (stated || done || to) add({step, {}, {}, Instant(i_.since), {}, done, {}, {}}, stated);
        }
    }

    void add_maker(const Asked& maker) {
        const std::string product = maker.maker.empty() ? maker.products.front() : std::string();
        const auto asked = asked_at(maker);
        add({DutyStep::manufacturer_told, maker.maker, product, Instant(i_.since), {}, asked, {}, {}},
            rule_of(DutyStep::manufacturer_told));
        const auto answered = answered_at(maker);
        DutyClock answer{DutyStep::answer, maker.maker, product, asked, {}, answered, {}, {}};
        if (answered)
            for (const auto& a : maker.answers)
                for (const auto& what : a.waits_since)
                    answer.since_done.push_back(words::colon(words::lot_of(a.product, a.lot), what));
        answer.beside = answered_by_others(maker, asked.has_value());
        add(std::move(answer), rule_of(DutyStep::answer));
    }

private:
    /// What is not known may have been what must be reported.
    bool is_reportable() const {
        if (!i_.out.findings.empty())
            return std::ranges::any_of(i_.out.findings,
                                       [](const auto& f) { return f.state() != RuleFinding::State::not_met; });
        return std::ranges::any_of(i_.out.units, [](const auto& u) {
            return (unknown_seconds(u) + seconds_of(u.exposure, Class::checked)).sign() > 0;
        });
    }

    std::optional<Instant> first_step(IncidentStep step) const {
        for (const auto& s : i_.out.steps)
            if (s.step == step) return s.at;
        return std::nullopt;
    }

    std::optional<Instant> first_report(Recipient to, const std::optional<std::string>& recipient) const {
        for (const auto& r : i_.w.known.reports)
            if (r.at <= i_.w.at && r.fact.incident == i_.out.incident && r.fact.to == to &&
                (!recipient || r.fact.recipient == *recipient))
                return Instant(r.at);
        return std::nullopt;
    }

    /// The programme's, where it holds here; none: it states no time.
    const ProgrammeRules::Duty* rule_of(DutyStep step) const {
        if (const auto* rules = i_.w.known.rules())
            for (const auto& d : rules->fact.duties)
                if (d.step == step && (!d.if_reportable || reportable_)) return &d;
        return nullptr;
    }

    /// A report to it, or a step that is of the maker whose name its text holds, or of the only one.
    std::optional<Instant> asked_at(const Asked& maker) const {
        auto out = maker.maker.empty() ? std::nullopt : first_report(Recipient::manufacturer, maker.maker);
        for (const auto& s : i_.out.steps) {
            const bool only = i_.out.makers.size() == 1 && !i_.out.maker;
            const bool named = !maker.maker.empty() && s.text.find(maker.maker) != std::string::npos;
            if (s.step == IncidentStep::manufacturer_told && (only || named)) out = earlier(out, s.at);
        }
        return out;
    }

    /// Answers of which none is from the maker, by its name: a health department may answer, and the maker know nothing
    /// of it.
    std::vector<Remark> answered_by_others(const Asked& maker, bool asked) const {
        std::vector<Remark> out;
        if (maker.maker.empty()) return out;
        for (const auto& a : maker.answers) {
            const auto is_from_it = [&](const auto& g) {
                // people also write "the maker" where a form asks who said it
                return std::ranges::count(a.guidance, g.entry) > 0 &&
                       (text::named_alike(g.fact.issuer, maker.maker) || text::named_alike(g.fact.issuer, "maker") ||
                        text::named_alike(g.fact.issuer, "manufacturer"));
            };
            const auto said = words::semicolons(a.said);
            if (!said || std::ranges::any_of(i_.w.known.guidance, is_from_it)) continue;
            out.push_back((asked ? words::answered_by_other : words::answered_by_other_untold)(
                words::lot_of(a.product, a.lot), *said, maker.maker));
        }
        return out;
    }

    /// When the last of its lots was answered; none: an answer that covers less than is known is not the whole of it.
    std::optional<Instant> answered_at(const Asked& maker) const {
        std::optional<Instant> out;
        for (const auto& a : maker.answers) {
            if (a.guidance.empty() || a.waits) return std::nullopt;
            const auto of_lot = answered_at(a);
            if (of_lot && (!out || *of_lot > *out)) out = of_lot;
        }
        return out;
    }

    /// Of the answers up to the one that left nothing open, the last; where nothing waited anyway, the first there is.
    std::optional<Instant> answered_at(const Asked::Answer& a) const {
        const auto complete = i_.complete.find({a.product, a.lot});
        std::optional<Instant> first, last;
        for (const auto& g : i_.w.known.guidance) {
            if (std::ranges::count(a.guidance, g.entry) == 0) continue;
            const Instant when(g.at);
            if (!first || when < *first) first = when;
            const bool of_another_event =
                complete != i_.complete.end() && g.fact.through.seconds_since_1970() > complete->second;
            if (!of_another_event && (!last || when > *last)) last = when;
        }
        return last ? last : first;
    }

    void add(DutyClock c, const ProgrammeRules::Duty* rule) {
        using enum DutyClock::State;
        if (rule && c.since) c.due = *c.since + rule->within;
        if (c.done)
            c.state = c.due && *c.done > *c.due ? done_late : done;
        else if (c.due)
            c.state = i_.w.head.at > *c.due ? overdue : due;
        else
            c.state = no_limit;
        i_.out.duties.push_back(std::move(c));
    }

    Investigation& i_;
    bool reportable_;
};

}  // namespace

void add_duties(Investigation& i) {
    Duties duties(i);
    duties.add_steps();
    for (const auto& maker : i.out.makers) duties.add_maker(maker);
    std::ranges::stable_sort(i.out.duties, {}, [](const DutyClock& d) {
        return std::pair(d.state, d.due.value_or(Instant(INT64_MAX)));
    });
}

}  // namespace coldtally::answers
