#include "coldtally/incident_work.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "coldtally/error.hpp"
#include "conditions/fit.hpp"
#include "conditions/incident_spans.hpp"
#include "incidents/incident_report.hpp"
#include "incidents/overtaken.hpp"
#include "incidents/release.hpp"
#include "question/said.hpp"
#include "stock/way_note.hpp"
#include "text/json_text.hpp"
#include "words/drafts_checks.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"

namespace coldtally {

namespace {

/// Without their excursions.
std::vector<IncidentsAnswer::Row> every_incident(const Ledger& ledger, Instant now) {
    return ledger.incidents(std::nullopt, std::nullopt, Instant(0), Instant(0), {}, now, false).incidents;
}

}  // namespace

std::optional<IncidentsAnswer> incidents_found(const Ledger& ledger, const std::string& probe,
                                               const ImportReport& report, Instant now) {
    std::optional<Instant> from, until;
    for (const ImportedFile& file : report.files) {
        if (file.from && (!from || *file.from < *from)) from = file.from;
        if (file.until && (!until || *file.until > *until)) until = file.until;
    }
    if (!from || !until) return std::nullopt;
    IncidentsAnswer out = ledger.incidents(std::nullopt, probe, *from, *until, {}, now, false);
    std::erase_if(out.incidents, [](const auto& row) { return row.excursions.empty(); });
    if (out.incidents.empty() && out.without_incident.empty()) return std::nullopt;
    return out;
}

std::vector<Remark> open_beside(const Ledger& ledger, const std::string& incident, const std::string& place,
                                Instant now) {
    std::vector<Remark> out;
    for (const auto& row : every_incident(ledger, now)) {
        const bool here =
            row.places.empty() || std::find(row.places.begin(), row.places.end(), place) != row.places.end();
        if (row.incident != incident && row.open && here)
            out.push_back(words::open_beside(row.incident, place, ledger.zone().local_text(row.since)));
    }
    return out;
}

namespace {

/// Whose excursion it is, and all that must be known of it at once.
Remark incident_words(const Ledger& ledger, const IncidentsAnswer::Row& row, const words::Says<2>& whose,
                      Instant now) {
    const IncidentAnswer incident = ledger.incident(row.incident, std::nullopt, {}, now);
    std::vector<Remark> given;
    for (const auto& dose : incident.given)
        given.push_back(words::given_named(dose.entry, dose.holding.product, dose.holding.lot));
    const auto all = words::semicolons(given);
    Remark out = whose(row.incident, all ? words::given_since(*all) : words::none_given_since());
    for (const auto& l : incident.left)
        if (!l.told) out = words::left_since(out, answers::left_words(l, ledger.zone()), answers::left_advice(l));
    for (const auto& what : answers::overtaken(incident)) out = words::overtaken_since(out, what);
    return words::whole_report(out, words::task("incident", {{"ledger", ledger.path()}, {"", row.incident}}));
}

Suggestion notice_task(const Ledger& ledger, const std::string& place, const std::optional<Instant>& since,
                       const std::string& by) {
    Suggestion out = words::task("notice", {{"ledger", ledger.path()}, {"place", place}});
    if (since) out.arguments.push_back({"since", ledger.zone().local_text(*since)});
    out.arguments.push_back({"text", "WHAT WAS FOUND"});
    out.arguments.push_back({"by", by});
    return out;
}

}  // namespace

std::vector<Remark> steps_after_import(const Ledger& ledger, const IncidentsAnswer& found, const std::string& by,
                                       Instant now) {
    std::vector<Remark> out;
    for (const auto& row : found.incidents)
        out.push_back(incident_words(ledger, row, row.closed ? words::belongs_closed : words::belongs, now));
    std::map<std::string, const IncidentExcursion*> last;  // of each place the one that belongs to none and ended last
    for (const auto& e : found.without_incident) {
        const auto [at, fresh] = last.emplace(e.place, &e);
        if (!fresh && e.until_s >= at->second->until_s) at->second = &e;
    }
    for (const auto& [place, e] : last) {
        // nobody noticed anything then: the notice is of now, and has an old excursion because it says since when
        const bool old = Instant(e->until_s.floor()) + Duration(86400) < now;
        const std::optional<Instant> since =
            old ? std::optional(Instant(std::min(e->from_s.ceil(), e->until_s.floor()))) : std::nullopt;
        out.push_back(words::open_one_for(place, notice_task(ledger, place, since, by)));
    }
    return out;
}

std::string new_incident(const Ledger& ledger, const std::optional<std::string>& stated, Instant at, Instant now) {
    std::set<std::string> taken;
    for (const auto& row : every_incident(ledger, now))
        taken.insert(row.incident);
    if (stated && taken.contains(*stated))
        throw Refusal(Code::contradiction, words::incident_taken(text::quoted(*stated), words::task("step")));
    if (stated) return *stated;
    const std::string year = std::to_string(ledger.zone().local(at).date.year);
    for (int n = 1;; ++n) {
        std::string name = year + "-" + std::to_string(n);
        if (!taken.contains(name)) return name;
    }
}

Entry report_draft(const Ledger& ledger, const ReportRequest& request, Instant at, Instant now) {
    const std::optional<std::string> maker =
        request.to == Recipient::manufacturer ? std::optional(request.recipient) : std::nullopt;
    const IncidentAnswer answer = ledger.incident(request.incident, maker, {at, std::nullopt}, now);
    if (!answer.counted && !request.uncounted)
        throw Refusal(Code::missing_field, words::count_first(words::parameter("uncounted")));
    Entry out;
    out.at = at;
    out.by = request.by;
    out.fact = Report{request.incident, request.to,        request.recipient, at,
                      answer.counted,   request.reference, request.text,      {answer.told.begin(), answer.told.end()}};
    return out;
}

namespace {

Entry entry_of(const StepRequest& request, Instant at, Fact fact) {
    Entry out;
    out.at = at;
    out.by = request.by;
    out.fact = std::move(fact);
    return out;
}

/// What left their place is told without the fund that paid for it.
Remark holding_words(HoldingKey key) {
    key.fund.clear();
    return answers::said::holding_words(key);
}

/// A hold on every product and lot that has doses in the place then; and from now on one on each whose doses came
/// since.
void add_holds(const Ledger& ledger, const StepRequest& request, const std::string& incident, Instant at, Instant now,
               Drafted& out) {
    using Lots = std::set<std::pair<std::string, std::string>>;
    std::set<HoldingKey> then;
    Lots lots, since;
    for (const auto& row : ledger.stock({at, std::nullopt}, now).holdings)
        if (row.holding.place == *request.place)
            then.insert(row.holding), lots.emplace(row.holding.product, row.holding.lot);
    const StockAnswer newest = ledger.stock({}, now);
    const Instant latest = newest.head.at;
    if (at < latest)
        for (const auto& row : newest.holdings)
            if (row.holding.place == *request.place && !then.contains(row.holding))
                since.emplace(row.holding.product, row.holding.lot);
    const auto hold = [&](const Lots& all, Instant from) {
        for (const auto& [product, lot] : all)
            out.entries.push_back(entry_of(
                request, from,
                Hold{answers::hold_reason(incident, *request.place), product, lot, request.place, std::nullopt}));
    };
    hold(lots, at);
    hold(since, latest);
    const std::string place = text::quoted(*request.place), when = ledger.zone().local_text(at);
    const bool earlier = at < latest;
    if (lots.empty())
        out.filled.push_back(earlier ? words::nothing_to_hold_then(place, when) : words::nothing_to_hold(place));
    else
        out.filled.push_back(earlier ? words::all_then_on_hold(place, when, words::lots(lots.size()))
                                     : words::all_on_hold(place, words::lots(lots.size())));
    if (!since.empty()) out.filled.push_back(words::came_on_hold(words::lots(since.size())));
}

/// The voids of an incident's holds. Code::contradiction where something stands against them.
void void_holds(const Ledger& ledger, const StepRequest& request, const IncidentAnswer& a,
                const std::optional<Remark>& against, Instant at, Drafted& out) {
    if (a.holds.empty())
        throw Error(Code::contradiction, "release: no hold of incident " + text::quoted(a.incident) + " stands");
    if (against)
        throw Error(Code::contradiction, "release: refused, nothing is written: " + english().say(*against) +
                                             ". Guidance lifts the holds; close without release, and they stand");
    const auto when = [&](const std::optional<Instant>& t) { return ledger.zone().local_text(*t); };
    for (const auto& h : a.holds) {
        const Remark why = words::released(a.incident, answers::range_words(h.range), when(a.release_from),
                                           when(a.release_until));
        out.entries.push_back(entry_of(request, at, Void{h.entry, english().say(why)}));
    }
}

/// The voids of an incident's holds where they are asked for; else what becomes of them.
void release_holds(const Ledger& ledger, const StepRequest& request, const IncidentAnswer& a, Instant at,
                   Drafted& out) {
    const auto against = words::semicolons(a.against_release);
    if (request.release) return void_holds(ledger, request, a, against, at, out);
    std::vector<EntryNumber> entries;
    std::int64_t doses = 0;
    for (const auto& h : a.holds) {
        if (h.doses.count() == 0) continue;
        entries.push_back(h.entry);
        doses += h.doses.count();
    }
    if (doses == 0) return;
    out.warnings.push_back(against
                               ? words::holds_stand_against(words::doses(doses), words::entries_of(entries), *against)
                               : words::holds_stand(words::doses(doses), words::entries_of(entries)));
}

/// Doses given that stood in its time in doubt and of which nothing was found, where no answer covers them or had
/// cleared their lot. `whole`: the incident at its closing.
std::vector<const ReviewAnswer::Row*> given_uncovered(const IncidentAnswer& whole) {
    std::vector<const ReviewAnswer::Row*> out;
    for (const auto& dose : whole.given)
        if (dose.finding == Finding::clear && !dose.guidance &&
            !answers::is_answered(whole, dose.holding.product, dose.holding.lot))
            out.push_back(&dose);
    return out;
}

/// Doses that nothing would keep from use any more, and doses given that no list but the review's last line would name,
/// though they stood in the incident's time in doubt. A release says that nothing was out of range then.
void refuse_to_forget(const Ledger& ledger, const StepRequest& request, const IncidentAnswer& whole, Instant at,
                      Instant now, Drafted& out) {
    std::vector<Field> forgotten;
    for (const auto& row : ledger.lists({at, std::nullopt}, now).holdings)
        if (row.list == List::keep && std::ranges::count(row.in_doubt, whole.incident) > 0)
            forgotten.push_back(words::doses_of(words::doses(row.doses.count()), holding_words(row.holding)));
    std::vector<EntryNumber> entries;
    std::int64_t given = 0;
    if (!request.release)
        for (const auto* dose : given_uncovered(whole)) {
            entries.push_back(dose->entry);
            given += dose->doses.count();
        }
    std::optional<Remark> here, gone;
    if (!forgotten.empty()) here = words::stood_uncovered(words::listed(forgotten));
    if (given > 0) gone = words::given_uncovered(words::doses(given), words::entries_of(entries));
    if (!here && !gone) return;
    if (!request.despite)
        throw Error(Code::contradiction,
                    here ? "despite: must say why they may be used: " +
                               english().say(gone ? words::semicolon(*here, *gone) : *here) +
                               "; put them on hold, or say why it is closed all the same"
                         : "despite: must say why nobody need ask about them: " + english().say(*gone) +
                               "; ask for an answer, or say why it is closed all the same");
    if (here) out.warnings.push_back(words::closed_despite(*here, *request.despite));
    if (gone) out.warnings.push_back(words::still_open(words::closed_despite_given(*gone, *request.despite)));
}

/// The text of a step that says of which doses that left somebody was told.
std::string text_of(const Ledger& ledger, const StepRequest& request, const std::optional<IncidentAnswer>& incident,
                    Instant now) {
    if (request.told.empty()) return request.text;
    if (request.step != IncidentStep::action && !is_telling(request.step))
        throw Error(Code::contradiction, "told: comes with \"action\" or a step \"... told\", and this is " +
                                             text::quoted(incident_step_name(request.step)));
    std::string those;
    for (const auto& l : incident->left) those += (those.empty() ? "" : ", ") + std::to_string(l.entry);
    for (const EntryNumber entry : request.told) {
        if (std::ranges::any_of(incident->left, [&](const auto& l) { return l.entry == entry; })) continue;
        try {  // doses of a recall may have left without having been in it
            static_cast<void>(ledger.handover(entry, {}, now));
        } catch (const Error& e) {
            throw Error(Code::not_known, "told: " + std::string(e.what()) +
                                             (those.empty() ? "" : "; of this incident left those of " + those));
        }
    }
    return answers::told_text(request.told, request.text);
}

}  // namespace

Drafted step_draft(const Ledger& ledger, const StepRequest& request, Instant at, Instant now) {
    const bool notice = request.step == IncidentStep::noticed, closed = request.step == IncidentStep::closed;
    if (request.since && !notice)
        throw Error(Code::contradiction, "since: comes with the step \"noticed\" alone");
    if (request.since && *request.since > at)
        throw Error(Code::bad_value, "since: " + request.since->text() + ": must not be later than the notice");
    if (request.release && !closed) throw Error(Code::contradiction, "release: comes with the step \"closed\" alone");
    if (request.no_hold && (!request.place || closed))
        throw Error(Code::contradiction, "no hold: comes with a place in which something was noticed");
    if (request.no_hold && request.no_hold->find_first_not_of(" \t") == std::string::npos)
        throw Error(Code::bad_value, "no hold: must say why the doses are not put on hold");
    if (request.despite && (!closed || request.despite->find_first_not_of(" \t") == std::string::npos))
        throw Error(closed ? Code::bad_value : Code::contradiction,
                    closed ? "despite: must say why" : "despite: comes with the step \"closed\" alone");
    std::optional<IncidentAnswer> known;  // a name typed wrong must not open another
    if (!notice) known = ledger.incident(request.incident.value_or(""), std::nullopt, {}, now);
    const std::string name = notice ? new_incident(ledger, request.incident, at, now) : *request.incident;

    Drafted out;
    if (closed) {
        const IncidentAnswer whole = ledger.incident(name, std::nullopt, {at, std::nullopt}, now);
        refuse_to_forget(ledger, request, whole, at, now, out);
        release_holds(ledger, request, whole, at, out);
    }
    if (notice && request.place)
        for (const auto& open : open_beside(ledger, name, *request.place, now))
            out.warnings.push_back(words::second_notice(open));
    std::string text = text_of(ledger, request, known, now);
    if (request.since) text = answers::out_since_text(*request.since, text);
    Entry step = entry_of(request, at, Incident{name, request.step, text, request.place});
    step.note = request.note;
    const auto keep = [&](const std::string& why) {
        step.note = (step.note ? *step.note + "; " : "") + why;
    };
    if (request.no_hold) keep(answers::no_hold_note(*request.no_hold));
    if (request.despite) keep(english().say(words::note_closed_despite(*request.despite)));
    out.entries.push_back(std::move(step));
    const bool first_of_place = request.place && !closed &&
                                (!known || std::none_of(known->steps.begin(), known->steps.end(),
                                                        [&](const auto& s) { return s.place == request.place; }));
    if (first_of_place && request.no_hold)
        out.warnings.push_back(words::not_put_on_hold(text::quoted(*request.place), *request.no_hold));
    else if (first_of_place)
        add_holds(ledger, request, name, at, now, out);
    return out;
}

std::vector<Remark> still_open(const Ledger& ledger, const std::string& incident, Instant now) {
    const IncidentAnswer a = ledger.incident(incident, std::nullopt, {}, now);
    std::vector<Remark> out;
    for (const auto& d : a.duties) {
        if (d.done || d.step == DutyStep::closed) continue;
        const Remark duty = answers::said::duty_words(d.step);
        const auto who = answers::who_words(d);
        out.push_back(words::not_done(who ? words::comma(duty, *who) : duty));
    }
    for (const auto& what : answers::overtaken(a)) out.push_back(what);
    for (const auto& row : a.now)
        if (row.list != List::keep)
            out.push_back(words::on_the_list(words::doses(row.doses.count()), holding_words(row.holding),
                                             answers::said::list_words(row.list)));
    for (const auto& row : a.given)
        if (row.finding == Finding::pending_guidance) out.push_back(words::dose_waits(row.entry));
    for (const auto& l : a.left)
        if (!l.told) out.push_back(words::colon(answers::left_words(l, ledger.zone()), answers::left_advice(l)));
    for (const auto& u : a.units)
        if (!u.back_in_range) out.push_back(words::place_not_back(u.place));
    for (const auto& l : a.lines)
        if (l.missing > 0)
            out.push_back(words::missing_in_count(words::doses(l.missing),
                                                  words::lot_of(l.holding.product, l.holding.lot)));
    return out;
}

namespace {

/// Of a dose given, or doses that left: reports of an incident that they belong to, which do not tell of them.
void add_overtaken_by(const Ledger& ledger, Drafted& posted, Instant now) {
    const auto leaves = [](const Entry& e) {
        return std::holds_alternative<Give>(e.fact) || std::holds_alternative<Transfer>(e.fact) ||
               std::holds_alternative<Return>(e.fact);
    };
    if (std::ranges::none_of(posted.entries, leaves)) return;
    std::vector<Remark> said;
    for (const auto& row : every_incident(ledger, now)) {
        const auto is_after = [&](const Entry& e) { return leaves(e) && !(row.closed && *row.closed < *e.at); };
        if (std::ranges::none_of(posted.entries, is_after)) continue;
        const IncidentAnswer a = ledger.incident(row.incident, std::nullopt, {}, now);
        if (a.reports.empty()) continue;
        const auto is_of = [&](const Entry& e) {
            const auto is_it = [&](const auto& one) { return one.entry == e.number; };
            return is_after(e) && (std::holds_alternative<Give>(e.fact) ? std::ranges::any_of(a.given, is_it)
                                                                        : std::ranges::any_of(a.left, is_it));
        };
        if (std::ranges::any_of(posted.entries, is_of))
            std::ranges::move(answers::overtaken(a), std::back_inserter(said));
    }
    posted.warnings.insert(posted.warnings.end(), said.begin(), said.end());
}

}  // namespace

void add_incidents(const Ledger& ledger, Drafted& posted, Instant now) {
    if (posted.entries.empty()) return;
    if (!std::holds_alternative<Check>(posted.entries.front().fact)) return add_overtaken_by(ledger, posted, now);
    const Entry& entry = posted.entries.front();
    const auto* check = std::get_if<Check>(&entry.fact);
    auto& next = posted.next_steps;
    const auto marked = std::ranges::find_if(next, [](const Remark& r) { return r.is(words::mark_the_doses); });
    if (marked == next.end()) return;  // in range
    const std::string& place = check->place;
    const auto found = ledger.incidents(place, std::nullopt, *entry.at, *entry.at + Duration(1), {}, now, false);
    std::vector<Remark> steps;
    for (const auto& row : found.incidents)
        if (!row.excursions.empty())
            steps.push_back(incident_words(
                ledger, row, row.closed ? words::check_belongs_closed : words::check_belongs, now));
    if (!found.without_incident.empty())
        steps.push_back(words::open_one(notice_task(ledger, place, std::nullopt, entry.by)));
    next.insert(marked + 1, steps.begin(), steps.end());
}

}  // namespace coldtally
