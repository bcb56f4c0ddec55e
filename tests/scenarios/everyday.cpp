#include "everyday.hpp"

#include <algorithm>
#include <set>
#include <sstream>

#include "coldtally/entry_work.hpp"
#include "coldtally/work.hpp"
#include "events.hpp"

namespace scenarios {

namespace {

using Lines = std::vector<std::string>;

// ---- work

template <class Of, std::size_t N>
Of named(const std::string& word, const Of (&all)[N], std::string_view (*name)(Of) noexcept) {
    for (const Of one : all)
        if (name(one) == spoken(word)) return one;
    unreadable(word);
}

IncidentStep step_named(const std::string& word) {
    using enum IncidentStep;
    static constexpr IncidentStep all[] = {noticed,           supervisor_told, health_department_told,
                                           manufacturer_told, cause,           action,
                                           closed};
    return named(word, all, incident_step_name);
}

Recipient recipient_named(const std::string& word) {
    using enum Recipient;
    static constexpr Recipient all[] = {supervisor, health_department, manufacturer};
    return named(word, all, recipient_name);
}

Verdict verdict_named(const std::string& word) {
    using enum Verdict;
    static constexpr Verdict all[] = {use, use_by, discard};
    for (const Verdict one : all)
        if (verdict_name(one) == word) return one;
    unreadable(word);
}

std::optional<std::string> stated_option(Words& w, const std::string& name) {
    const std::string value = w.option(name);
    return value.empty() ? std::nullopt : std::optional(spoken(value));
}

void all_read(Words& w) {
    if (!w.empty()) unreadable("not understood: " + w.rest());
}

std::vector<EntryNumber> numbers(const std::vector<Entry>& entries) {
    std::vector<EntryNumber> out;
    for (const Entry& e : entries) out.push_back(e.number);
    return out;
}

bool is_definition(const Json& e) {
    static const std::set<std::string> kinds{"site",  "product",     "lot",    "place", "probe",
                                             "maker", "certificate", "assign", "void"};
    return kinds.contains(e["kind"]);
}

std::vector<EntryNumber> everyday(const Desk& desk, Words& w) {
    const Meant meant{w.has("meant"), false};
    const Json e = stated(w, desk.names);
    Work work(desk.ledger, desk.now);
    const WorkDone done = is_definition(e)          ? work.define(e.dump(), meant)
                          : e["kind"] == "guidance" ? work.judge(e.dump(), meant)
                                                    : work.post(e.dump(), meant);
    require_meant(done);
    auto out = numbers(done.posted.what.entries);
    std::rotate(out.begin(), out.end() - 1, out.end());  // the last is what was asked for, the others go before it
    return out;
}

std::vector<EntryNumber> step(const Desk& desk, Instant at, const std::string& kind, Words& w) {
    StepRequest r;
    r.by = "AB", r.text = "as seen";
    if (kind == "notice") {
        r.place = w.next();
        if (const std::string since = w.option("since"); !since.empty()) r.since = instant(since);
    } else {
        r.incident = w.next();
        r.step = kind == "close" ? IncidentStep::closed : step_named(w.next());
    }
    if (const std::string place = w.option("in"); !place.empty()) r.place = place;
    r.no_hold = stated_option(w, "unheld");
    r.despite = stated_option(w, "despite");
    r.release = w.has("release");
    if (const std::string told = w.option("told"); !told.empty()) r.told.push_back(numbered(desk.names, told));
    all_read(w);
    const StepDone done = Work(desk.ledger, desk.now).step(r, at, false);
    std::vector<EntryNumber> out;
    for (const Entry& e : done.posted.what.entries)
        out.insert(std::holds_alternative<Incident>(e.fact) ? out.begin() : out.end(), e.number);
    return out;
}

std::vector<EntryNumber> report(const Desk& desk, Instant at, Words& w) {
    ReportRequest r;
    r.incident = w.next();
    if (!w.take("to")) unreadable("report: to is missing");
    r.to = recipient_named(w.next());
    r.recipient = w.next();
    r.by = "AB";
    r.uncounted = w.has("uncounted");
    all_read(w);
    return numbers(Work(desk.ledger, desk.now).report(r, at, false, false).posted.what.entries);
}

/// "R flu A1 use", "R flu A1 use-by 2026-05-01": the maker's answer to a report.
Entry answer_entry(Instant at, Words& w) {
    Entry out;
    out.at = at;
    out.by = "AB";
    out.note = stated_option(w, "note");
    Guidance g;
    g.issuer = "maker", g.reference = "M-1";
    g.product = w.next();
    g.lot = w.next();
    g.verdict = verdict_named(w.next());
    if (g.verdict == Verdict::use_by) g.use_by = Date::parse(w.next());
    out.fact = g;
    all_read(w);
    return out;
}

std::vector<EntryNumber> answer(const Desk& desk, Instant at, Words& w) {
    const EntryNumber report = numbered(desk.names, w.next());
    const AnswerDone done = Work(desk.ledger, desk.now).answer(report, answer_entry(at, w), true);
    if (done.refused) {
        std::string all;
        for (const auto& one : english().say(done.draft.concerns)) all += (all.empty() ? "" : "; ") + one;
        unreadable("the answer is not posted: " + all);
    }
    return done.posted;
}

// ---- drafts

struct Made {
    void operator()(const Move& m) {
        out = std::to_string(m.doses.count()) + " of " +
              Answers::holding({m.from_place, m.product, m.lot, m.fund, m.from_mark}) + " > " + m.to_place +
              (m.to_mark.empty() ? "" : ":" + m.to_mark);
    }
    void operator()(const BeyondUse& b) { out = key(b) + (b.event ? " " + *b.event : ""); }
    void operator()(const Lot& l) { out = l.product + " " + l.lot + " " + l.expiry; }
    void operator()(const Hold& h) {
        out = h.product + (h.lot ? " " + *h.lot : "") + (h.place ? " in " + *h.place : "");
    }
    void operator()(const FollowUp& f) { out = f.step + " of " + form.entry(f.give); }
    template <class Other>
    void operator()(const Other& o) {
        if constexpr (requires { o.place, o.lot, o.doses; }) out = key(o) + " " + std::to_string(o.doses.count());
    }
    template <class T>
    static std::string key(const T& t) {
        return Answers::holding({t.place, t.product, t.lot, t.fund, t.mark});
    }
    const Answers& form;
    std::string out;
};

std::string made(const Entry& e, const Answers& form) {
    Made words{form, {}};
    std::visit(words, e.fact);
    return std::visit([](const auto& f) { return std::string(f.kind); }, e.fact) +
           (e.at ? " at " + short_time(*e.at) : "") + (words.out.empty() ? "" : ": " + words.out);
}

/// What a draft makes, fills in, warns of, asks before it is posted, and says to do next.
Lines draft(const Desk& desk, const std::string& word, Words& w) {
    const Json e = stated(w, desk.names);
    const DefinitionDraft draft = is_definition(e)
                                      ? definition_draft(desk.ledger, e.dump(), desk.now)
                                      : entry_draft(desk.ledger, desk.ledger.draft(e.dump(), desk.now), desk.now);
    if (word == "makes") {
        Lines out;
        for (const Entry& one : draft.drafted.entries) out.push_back(made(one, desk.form));
        return out;
    }
    if (word == "fills") return english().say(draft.drafted.filled);
    if (word == "then") return english().say(draft.drafted.next_steps);
    if (word == "asks") return english().say(draft.loosens);
    Lines out;
    for (const Remark& warning : draft.drafted.warnings)
        if (std::ranges::find(draft.loosens, warning) == draft.loosens.end()) out.push_back(english().say(warning));
    return out;
}

// ---- incidents

std::string unit_words(const IncidentAnswer::Unit& u) {
    return u.place + " " + (u.last_good ? short_time(*u.last_good) : "not known") + " to " +
           (u.back_in_range ? short_time(*u.back_in_range) : "now");
}

std::string line_words(const IncidentAnswer::Line& l) {
    std::string out = Answers::holding(l.holding) + ": " + std::to_string(l.doses.count());
    const auto add = [&](const char* name, std::int64_t n) {
        if (n != 0) out += ", " + std::string(name) + " " + std::to_string(n);
    };
    add("given", l.given), add("wasted", l.wasted), add("returned", l.returned);
    add("transferred", l.transferred), add("found", l.found), add("missing", l.missing);
    if (l.exposure.warm.at_most.sign() != 0) out += "; warm " + Answers::side(l.exposure.warm);
    if (l.exposure.cold.at_most.sign() != 0) out += "; cold " + Answers::side(l.exposure.cold);
    return out + (l.counted ? "; counted " + short_time(*l.counted) : "");
}

std::string duty_words(const DutyClock& d) {
    std::string out = std::string(duty_step_name(d.step)) + (d.who.empty() ? "" : " " + d.who) +
                      (d.product.empty() ? "" : " " + d.product) + ": " + std::string(duty_state_name(d.state));
    if (d.done)
        out += " " + short_time(*d.done);
    else if (d.due)
        out += " " + short_time(*d.due);
    for (const Remark& since : d.since_done) out += "; " + std::string(since.code());
    return out;
}

std::string review_words(const ReviewAnswer::Row& row, const Answers& form) {
    return row.patient + " " + with_reasons(finding_name(row.finding), row.reasons) +
           (row.guidance ? "; by " + form.entry(*row.guidance) : "");
}

std::string departure_words(const Departure& d, const Answers& form) {
    return form.entry(d.entry) + " " + Answers::holding(d.holding) + ": " + std::to_string(d.doses.count()) + " to " +
           (d.to.empty() ? "supplier" : d.to) + (d.told ? "; told by " + form.entry(*d.told) : "");
}

void put_answers(const IncidentAnswer& a, const Answers& form, Lines& out) {
    for (const auto& maker : a.makers)
        for (const auto& one : maker.answers) {
            std::string line = maker.maker + " " + one.product + " " + one.lot + ": ";
            for (const EntryNumber g : one.guidance) line += form.entry(g) + " ";
            const char* covers = one.waits ? "covers less than all" : "covers all";
            out.push_back(line + (one.guidance.empty() ? "awaited" : covers));
        }
}

Lines incident(const Desk& desk, const Question& q, Words& w) {
    const std::string id = w.next(), word = w.next();
    const Answers& form = desk.form;
    if (word == "open") return english().say(still_open(desk.ledger, id, desk.now));
    const IncidentAnswer a = desk.ledger.incident(id, std::nullopt, q, desk.now, true);
    Lines out;
    if (word == "doubt")
        for (const auto& u : a.units) out.push_back(unit_words(u));
    else if (word == "doses")
        for (const auto& l : a.lines) out.push_back(line_words(l));
    else if (word == "given")
        for (const auto& row : a.given) out.push_back(review_words(row, form));
    else if (word == "left")
        for (const auto& l : a.left) out.push_back(departure_words(l, form));
    else if (word == "duties")
        for (const auto& d : a.duties) out.push_back(duty_words(d));
    else if (word == "conditions")
        for (const auto& f : a.findings)
            out.push_back(f.place + " " + f.rule + ": " + std::string(rule_state_name(f.state())));
    else if (word == "release")
        out = english().say(a.against_release);
    else if (word == "answers")
        put_answers(a, form, out);
    else if (word == "figures")
        for (const auto& t : a.told)
            out.push_back(Answers::holding({t.place, t.product, t.lot, t.fund, t.mark}) + ": " +
                          std::to_string(t.doses.count()) + (t.given ? ", given " + std::to_string(t.given) : "") +
                          "; out " + std::to_string(t.figures.out_of_range.seconds()) + ", unknown " +
                          std::to_string(t.figures.unmonitored.seconds()) + ", points " +
                          std::to_string(t.figures.points));
    else
        unreadable("incident " + word);
    return out;
}

/// All there are, and the excursions of none.
Lines incidents(const Desk& desk, const Question& q) {
    const auto a = desk.ledger.incidents(std::nullopt, std::nullopt, Instant(0), *q.at, q, desk.now);
    Lines out;
    for (const auto& row : a.incidents) {
        std::string line = row.incident;
        for (const auto& place : row.places) line += " " + place;
        line += row.open ? ", open since " + short_time(row.since) : ", closed " + short_time(*row.closed);
        out.push_back(line + ", excursions " + std::to_string(row.excursions.size()));
    }
    for (const auto& e : a.without_incident)
        out.push_back("no incident: " + e.place + " " + std::string(side_name(e.side)) + " " + short_time(e.from_s) +
                      " to " + short_time(e.until_s));
    return out;
}

Lines doubts(const Desk& desk, const Question& q) {
    Lines out;
    for (const auto& row : desk.ledger.lists(q, desk.now).holdings) {
        std::string line = Answers::holding(row.holding) + ": " + std::string(list_name(row.list));
        for (const auto& id : row.in_doubt) line += ", in doubt " + id;
        out.push_back(line);
    }
    return out;
}

/// What an answer to a report would not cover.
Lines concerns(const Desk& desk, const Question& q, Words& w) {
    const EntryNumber report = numbered(desk.names, w.next());
    return english().say(desk.ledger.answer_draft(report, answer_entry(*q.at, w), desk.now).concerns);
}

// ---- upkeep

Lines ready(const Desk& desk, const Question& q, Words& w) {
    const std::string name = spoken(w.next()), from = w.option("from");
    const auto a = desk.ledger.readiness(from.empty() ? std::nullopt : std::optional(instant(from)), q, desk.now);
    Lines out;
    for (const auto& t : a.topics) {
        if (matter_name(t.topic) != name) continue;
        if (!t.judged) {
            out.push_back("not judged: " + english().say(t.rule));
            continue;
        }
        std::string line = std::to_string(t.in_order) + " of " + std::to_string(t.looked_at) + " in order";
        if (t.due_soon > 0) line += ", due soon " + std::to_string(t.due_soon);
        out.push_back(line);
    }
    for (const auto& f : a.findings) {
        if (matter_name(f.topic) != name) continue;
        const std::string where = english().say(f.where);
        out.push_back(std::string(urgency_name(f.urgency)) + (where.empty() ? "" : ", " + where) +
                      (f.since ? ", since " + short_time(*f.since) : "") + ": " + english().say(f.text));
        for (const auto& detail : f.details) out.push_back("- " + english().say(detail));
    }
    return out;
}

Lines not_judged(const Desk& desk, const Question& q) {
    Lines out;
    for (const auto matter : desk.ledger.readiness(std::nullopt, q, desk.now).not_judged())
        out.emplace_back(matter_name(matter));
    return {joined(out)};
}

// ---- follow-up and loans

std::string dose_words(const FollowUpAnswer::Dose& d) {
    std::string out = d.patient + " " + std::string(finding_name(d.finding)) + ": " +
                      std::string(standing_name(d.standing));
    Lines before;
    for (const auto& s : d.steps) before.push_back(std::string(standing_name(s.step)) + " " + short_time(s.at));
    return out + (before.empty() ? "" : " (" + joined(before) + ")");
}

FollowUpAnswer followed(const Desk& desk, const Question& q, Words& w) {
    std::optional<std::string> product, lot;
    if (!w.empty()) product = w.next(), lot = w.next();
    return desk.ledger.follow_up(lot, product, q, desk.now);
}

Lines follow_up(const FollowUpAnswer& a) {
    Lines out;
    for (const auto& d : a.doses) out.push_back(dose_words(d));
    for (const auto& d : a.apart) out.push_back("apart: " + dose_words(d));
    return out;
}

Lines standing(const FollowUpAnswer& a) {
    const auto counts = [](const std::vector<FollowUpAnswer::Count>& all) {
        Lines out;
        for (const auto& c : all)
            if (c.gives > 0) out.push_back(std::string(standing_name(*c.of)) + " " + std::to_string(c.gives));
        return joined(out);
    };
    std::string line = "of " + std::to_string(a.whole.gives) + " gives, " + std::to_string(a.whole.doses.count()) +
                       " doses: " + counts(a.standings);
    if (const std::string ever = counts(a.ever); !ever.empty()) line += "; ever " + ever;
    return {line};
}

Lines left(const Desk& desk, const FollowUpAnswer& a) {
    Lines out;
    for (const auto& d : a.left) {
        out.push_back(departure_words(d.departure, desk.form) + "; " + with_reasons(list_name(d.list), d.reasons));
        for (const auto& news : english().say(d.news)) out.push_back("- " + news);
    }
    return out;
}

Lines loans(const Desk& desk, const Question& q, Words& w) {
    const auto a = desk.ledger.loans(q, desk.now, w.has("all"), true);
    const auto fund = [](const std::string& name) { return name.empty() ? std::string("(none)") : name; };
    Lines out;
    for (const auto& l : a.loans) {
        std::string line = desk.form.entry(l.loan) + " " + fund(l.owed_by) + " owes " + fund(l.holding.fund) + " " +
                           std::to_string(l.open.count()) + " of " + std::to_string(l.lent.count()) + ", " +
                           std::to_string(l.age.seconds() / 86400) + " d";
        if (l.due) line += (l.overdue ? ", OVERDUE since " : ", due before ") + short_time(*l.due);
        out.push_back(line);
    }
    for (const auto& b : a.balances)
        out.push_back("in all " + fund(b.owed_by) + " owes " + fund(b.lent_by) + " " + std::to_string(b.open.count()) +
                      " of " + b.product);
    return out;
}

}  // namespace

bool is_work(const Words& w) {
    static const std::set<std::string> kinds{"do", "notice", "step", "close", "report", "answer"};
    return !w.empty() && kinds.contains(w.first());
}

std::vector<EntryNumber> work(const Desk& desk, const std::string& time, Words& w) {
    const std::string kind = w.next();
    if (kind == "do") return everyday(desk, w);  // its `at` is one of its fields
    const std::string earlier = w.option("at");
    const Instant at = instant(earlier.empty() ? time : earlier);
    if (kind == "report") return report(desk, at, w);
    if (kind == "answer") return answer(desk, at, w);
    return step(desk, at, kind, w);
}

std::optional<Lines> answered(const Desk& desk, const Question& q, const std::string& word, Words& w) {
    static const std::set<std::string> of_draft{"makes", "fills", "warns", "asks", "then"};
    if (of_draft.contains(word)) return draft(desk, word, w);
    if (word == "incident") return incident(desk, q, w);
    if (word == "incidents") return incidents(desk, q);
    if (word == "doubts") return doubts(desk, q);
    if (word == "unlisted") return english().say(desk.ledger.review(q, desk.now).not_listed);
    if (word == "concerns") return concerns(desk, q, w);
    if (word == "ready") return ready(desk, q, w);
    if (word == "not-judged") return not_judged(desk, q);
    if (word == "follow-up") return follow_up(followed(desk, q, w));
    if (word == "standing") return standing(followed(desk, q, w));
    if (word == "left") return left(desk, followed(desk, q, w));
    if (word == "loans") return loans(desk, q, w);
    return std::nullopt;
}

}  // namespace scenarios
