#include "incidents/overtaken.hpp"

#include <algorithm>
#include <map>

#include "incidents/incident_report.hpp"

namespace coldtally::answers {

namespace {

using Told = std::vector<IncidentAnswer::ToTell>;
using Sent = ledger::Dated<Report>;

constexpr std::size_t most_named = 5;  // a longer line is not read

/// The last report of the incident to each.
std::vector<const Sent*> last_reports(const World& w, const IncidentAnswer& a) {
    std::map<std::pair<std::string, std::string>, const Sent*> last;
    for (const auto& r : w.known.reports) {
        if (r.at > w.at || r.fact.incident != a.incident) continue;
        if (a.maker && (r.fact.to != "manufacturer" || r.fact.recipient != *a.maker)) continue;
        auto& one = last[{r.fact.to, r.fact.recipient}];
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

void add_figures(const World& w, const Report& report, const Told& now, std::vector<std::string>& out) {
    for (const auto& t : now) {
        const Maker* maker = w.known.maker(t.product);
        if (report.to == "manufacturer" && (!maker || maker->name != report.recipient)) continue;
        const Report::Figures was = told_of(report, t);
        std::string more;
        const auto add = [&](bool grew, const char* what, const std::string& before, const std::string& after) {
            if (grew) more += (more.empty() ? ": " : ", ") + std::string(what) + " " + before + ", now " + after;
        };
        add(t.figures.out_of_range > was.out_of_range, "out of range", time(was.out_of_range),
            time(t.figures.out_of_range));
        add(t.figures.unmonitored > was.unmonitored, "not known", time(was.unmonitored), time(t.figures.unmonitored));
        add(t.figures.points > was.points, "readings out of range that no allowance covers",
            std::to_string(was.points), std::to_string(t.figures.points));
        if (!more.empty())
            out.push_back(t.product + " lot " + t.lot + " in " + t.place +
                          (t.fund.empty() ? "" : ", fund " + t.fund) + (t.mark.empty() ? "" : ", mark " + t.mark) +
                          more);
    }
}

/// Conditions that are surer to be met than they were by what was known when it was sent. That one cannot be said any
/// more is said where it is judged: it comes and goes with every day that has not been read.
void add_conditions(World& w, const Sent& sent, const IncidentAnswer& a, std::vector<std::string>& out) {
    if (a.findings.empty()) return;
    AnswerHead head = w.head;
    head.at = sent.fact.through;
    head.last_entry = sent.entry;
    const auto known = ledger::Known::load(w.store, sent.entry);
    World then(w.store, head, known);
    const auto before = findings_of(then, a.incident);
    for (const auto& f : a.findings)
        for (const auto& was : before)
            if (f.rule == was.rule && f.place == was.place && f.state() < was.state() &&
                f.state() < RuleFinding::State::cannot_be_said)
                out.push_back("the condition \"" + f.rule + "\" in " + f.place + " was \"" +
                              std::string(rule_state_name(was.state())) + "\", now \"" +
                              std::string(rule_state_name(f.state())) + "\"");
}

}  // namespace

void add_overtaken(World& w, IncidentAnswer& a) {
    const auto reports = last_reports(w, a);
    if (reports.empty()) return;
    std::optional<Told> at_closing;
    if (a.closed && *a.closed < w.head.at) {  // what came after it is of another event
        AnswerHead head = w.head;
        head.at = *a.closed;
        World then(w.store, head, w.known);
        at_closing = incident(then, a.incident, a.maker).told;
    }
    for (const Sent* sent : reports) {
        std::vector<std::string> more;
        add_conditions(w, *sent, a, more);
        add_figures(w, sent->fact, at_closing ? *at_closing : a.told, more);
        if (more.empty()) continue;
        std::string all;
        for (std::size_t i = 0; i < more.size() && i < most_named; ++i) all += (i ? "; " : "") + more[i];
        if (more.size() > most_named) all += "; and " + std::to_string(more.size() - most_named) + " more";
        const std::string words = std::string(overtaken_start) + sent->fact.recipient + " was told " +
                                  w.known.zone().local_text(Instant(sent->at)) + " (entry " +
                                  std::to_string(sent->entry) + "): " + all + ". Report again";
        for (auto& duty : a.duties)
            if (duty.step == sent->fact.to + " told" && (duty.who.empty() || duty.who == sent->fact.recipient))
                duty.since_done.push_back(words);
    }
}

std::vector<std::string> overtaken(const IncidentAnswer& a) {
    std::vector<std::string> out;
    for (const auto& duty : a.duties)
        for (const auto& text : duty.since_done)
            if (text.starts_with(overtaken_start)) out.push_back(text);
    return out;
}

}  // namespace coldtally::answers
