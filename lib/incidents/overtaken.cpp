#include "incidents/overtaken.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "incidents/incident_report.hpp"
#include "question/said.hpp"
#include "stock/how_far.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"
#include "words/rules.hpp"

namespace coldtally::answers {

namespace {

using Sent = ledger::Dated<Report>;

constexpr std::size_t most_named = 5;  // a longer line is not read

/// The last report of the incident to each.
std::vector<const Sent*> last_reports(const World& w, const IncidentAnswer& a) {
    std::map<std::pair<std::string_view, std::string>, const Sent*> last;  // in the order of the names
    for (const auto& r : w.known.reports) {
        if (r.at > w.at || r.fact.incident != a.incident) continue;
        if (a.maker && (r.fact.to != Recipient::manufacturer || r.fact.recipient != *a.maker)) continue;
        auto& one = last[{recipient_name(r.fact.to), r.fact.recipient}];
        if (!one || std::pair(one->at, one->entry) < std::pair(r.at, r.entry)) one = &r;
    }
    std::vector<const Sent*> out;
    for (const auto& [to, one] : last) out.push_back(one);
    return out;
}

/// What it told of a holding; of one that it did not name, the most of the lot, since doses are moved.
Report::Figures told_of(const Report& report, const IncidentAnswer::ToTell& t) {
    Report::Figures most{};
    for (const auto& was : report.told) {
        if (was.product != t.product || was.lot != t.lot) continue;
        if (was.place == t.place && was.fund == t.fund && was.mark == t.mark) return was.figures;
        most = {std::max(most.out_of_range, was.figures.out_of_range),
                std::max(most.unmonitored, was.figures.unmonitored), std::max(most.points, was.figures.points)};
    }
    return most;
}

std::string time(Duration d) { return d.seconds() == 0 ? "0 s" : duration_words(Rational(d.seconds()), true); }

/// Is a product of those that a report is about? A manufacturer is told of its own.
bool is_about(const World& w, const Report& report, const std::string& product) {
    const Maker* maker = w.known.maker(product);
    return report.to != Recipient::manufacturer || (maker && maker->name == report.recipient);
}

void add_figures(const World& w, const Report& report, const IncidentAnswer& now, std::vector<Remark>& out) {
    for (const auto& t : now.told) {
        if (!is_about(w, report, t.product)) continue;
        const Report::Figures was = told_of(report, t);
        std::vector<Remark> more;
        if (t.figures.out_of_range > was.out_of_range)
            more.push_back(words::now_out_of_range(time(was.out_of_range), time(t.figures.out_of_range)));
        if (t.figures.unmonitored > was.unmonitored)
            more.push_back(words::now_not_known(time(was.unmonitored), time(t.figures.unmonitored)));
        if (t.figures.points > was.points) more.push_back(words::now_readings(was.points, t.figures.points));
        if (!more.empty())
            out.push_back(words::colon(said::holding_words({t.place, t.product, t.lot, t.fund, t.mark}),
                                       *words::semicolons(more)));
    }
}

/// Doses given, or that left, as told and as now. What was noted anew is known again by its holding, instant and doses.
struct Gone {
    std::int64_t before = 0, now = 0;
    std::vector<EntryNumber> entries;  // that were not told of

    template <class Row, class IsAbout, class Counts>
    Gone(const std::vector<Row>& then, const std::vector<Row>& is, IsAbout is_about, Counts counts) {
        using Key = std::tuple<HoldingKey, Instant, std::int64_t>;
        const auto key = [](const Row& r) { return Key(r.holding, r.at, r.doses.count()); };
        std::multiset<Key> told;
        for (const Row& r : then)
            if (is_about(r.holding)) told.insert(key(r)), before += r.doses.count();
        for (const Row& r : is) {
            if (!is_about(r.holding)) continue;
            if (const auto it = told.find(key(r)); it != told.end()) {
                told.erase(it);
            } else if (counts(r)) {
                entries.push_back(r.entry);
            } else {
                continue;
            }
            now += r.doses.count();
        }
    }
    void say(const words::Says<3>& says, std::vector<Remark>& out) const {
        if (!entries.empty()) out.push_back(says(before, now, words::entries_of(entries)));
    }
};

/// What was known when it was sent, of the instant that it told up to.
struct Then {
    AnswerHead head;
    ledger::Known known;
    World world;

    Then(const World& w, const Sent& sent)
        : head(head_of(w, sent)), known(ledger::Known::load(w.store, sent.entry)), world(w.store, head, known) {}
    static AnswerHead head_of(const World& w, const Sent& sent) {
        AnswerHead out = w.head;
        out.at = sent.fact.through;
        out.last_entry = sent.entry;
        return out;
    }
};

/// Doses given and doses that left of which it did not tell. Once an answer leaves nothing open, what is given and sent
/// is no matter of the incident any more.
void add_doses(const World& w, const Sent& sent, World& then, const IncidentAnswer& now, std::vector<Remark>& out) {
    const IncidentAnswer told = given_and_left(then, now.incident);
    const auto about = [&](const HoldingKey& key) { return is_about(w, sent.fact, key.product); };
    const auto open = [&](const HoldingKey& key, Instant at) {
        return at <= sent.fact.through || !is_answered(now, key.product, key.lot);
    };
    Gone(told.given, now.given, about, [&](const ReviewAnswer::Row& r) {
        return r.at <= sent.fact.through || (!r.guidance && open(r.holding, r.at));
    }).say(words::now_given, out);
    Gone(told.left, now.left, about, [&](const Departure& d) {
        return open(d.holding, d.at);
    }).say(words::now_left, out);
}

/// Conditions that are surer to be met than they were by what was known when it was sent. That one cannot be said any
/// more is said where it is judged: it comes and goes with every day that has not been read.
void add_conditions(World& then, const IncidentAnswer& a, std::vector<Remark>& out) {
    if (a.findings.empty()) return;
    const auto before = findings_of(then, a.incident);
    for (const auto& f : a.findings)
        for (const auto& was : before)
            if (f.rule == was.rule && f.place == was.place && f.state() < was.state() &&
                f.state() < RuleFinding::State::cannot_be_said)
                out.push_back(words::now_condition(f.rule, f.place, rule_state_words(was.state()),
                                                   rule_state_words(f.state())));
}

/// How warm or cold the places were, beyond what was known when it was sent: time alone does not tell it, and guidance
/// clears the figures.
void add_extremes(const World& w, World& then, const IncidentAnswer& now, std::vector<Remark>& out) {
    const auto before = units_of(then, now.incident);
    for (const auto& u : now.units) {
        const Place* place = w.known.place(u.place);
        const auto was = std::ranges::find(before, u.place, &IncidentAnswer::Unit::place);
        if (!place || was == before.end()) continue;
        std::vector<Remark> more;
        const auto side = [&](const SideExposure& a, const SideExposure& b, const Remark& name) {
            if (a.at_most.sign() == 0 && b.at_most.sign() > 0) more.push_back(words::now_also(name));
        };
        side(was->exposure.warm, u.exposure.warm, words::too_warm);
        side(was->exposure.cold, u.exposure.cold, words::too_cold);
        for (auto& one : further_out(place->range, was->exposure, u.exposure)) more.push_back(std::move(one));
        if (const auto all = words::semicolons(more)) out.push_back(words::colon(u.place, *all));
    }
}

}  // namespace

Remark rule_state_words(RuleFinding::State state) {
    switch (state) {
        case RuleFinding::State::met: return words::state_met;
        case RuleFinding::State::met_by_estimate: return words::state_met_by_estimate;
        case RuleFinding::State::perhaps_met: return words::state_perhaps_met;
        case RuleFinding::State::cannot_be_said: return words::state_cannot_be_said;
        case RuleFinding::State::not_met: break;
    }
    return words::rule_not_met;
}

void add_overtaken(World& w, IncidentAnswer& a) {
    const auto reports = last_reports(w, a);
    if (reports.empty()) return;
    std::optional<IncidentAnswer> at_closing;
    if (a.closed && *a.closed < w.head.at) {  // what came after it is of another event
        AnswerHead head = w.head;
        head.at = *a.closed;
        World then(w.store, head, w.known);
        at_closing = incident(then, a.incident, a.maker);
    }
    for (const Sent* sent : reports) {
        std::vector<Remark> more;
        Then then(w, *sent);
        add_conditions(then.world, a, more);
        add_extremes(w, then.world, at_closing ? *at_closing : a, more);
        add_figures(w, sent->fact, at_closing ? *at_closing : a, more);
        add_doses(w, *sent, then.world, at_closing ? *at_closing : a, more);
        if (more.empty()) continue;
        const std::size_t others = more.size() - std::min(more.size(), most_named);
        more.resize(more.size() - others, more.front());
        Remark all = *words::semicolons(more);
        if (others > 0) all = words::and_others(all, others);
        const Remark said = words::overtaken(sent->fact.recipient, w.known.zone().local_text(Instant(sent->at)),
                                             sent->entry, all);
        for (auto& duty : a.duties)
            if (duty.step == told_duty(sent->fact.to) && duty.product.empty() &&
                (duty.who.empty() || duty.who == sent->fact.recipient))
                duty.since_done.push_back(said);
    }
}

std::vector<Remark> overtaken(const IncidentAnswer& a) {
    std::vector<Remark> out;
    for (const auto& duty : a.duties)
        for (const auto& what : duty.since_done)
            if (what.is(words::overtaken)) out.push_back(what);
    return out;
}

}  // namespace coldtally::answers
