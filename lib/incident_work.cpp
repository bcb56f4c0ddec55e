#include "coldtally/incident_work.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "coldtally/error.hpp"
#include "conditions/fit.hpp"
#include "incidents/incident_report.hpp"
#include "incidents/overtaken.hpp"
#include "incidents/release.hpp"
#include "text/json_text.hpp"
#include "text/shell_word.hpp"

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

std::vector<std::string> open_beside(const Ledger& ledger, const std::string& incident, const std::string& place,
                                     Instant now) {
    std::vector<std::string> out;
    for (const auto& row : every_incident(ledger, now)) {
        const bool here =
            row.places.empty() || std::find(row.places.begin(), row.places.end(), place) != row.places.end();
        if (row.incident != incident && row.open && here)
            out.push_back("incident " + row.incident + " of " + place + " is open since " +
                          ledger.zone().local_text(row.since));
    }
    return out;
}

namespace {

std::string given_words(const Ledger& ledger, const IncidentsAnswer::Row& row, Instant now) {
    const IncidentAnswer incident = ledger.incident(row.incident, std::nullopt, {}, now);
    std::string given;
    for (const auto& dose : incident.given)
        given += (given.empty() ? "" : "; ") + ("entry " + std::to_string(dose.entry)) + ", " + dose.holding.product +
                 " lot " + dose.holding.lot;
    std::string left;
    for (const auto& l : incident.left)
        if (!l.told)
            left += " LEFT SINCE THEN: " + answers::left_words(l, ledger.zone()) + ": " + answers::left_advice(l) + ".";
    std::string overtaken;
    for (const auto& text : answers::overtaken(incident)) overtaken += " " + text + ".";
    return (row.closed ? ", which was closed. " : ". ") +
           (given.empty() ? std::string("No dose was given since the last good reading.")
                          : "Given since the last good reading: " + given + ".") +
           left + overtaken + " All of it: coldtally incident " + text::shell_word(ledger.path()) + " " +
           text::shell_word(row.incident);
}

std::string notice_words(const Ledger& ledger, const std::string& place, const std::optional<Instant>& at,
                         const std::string& by) {
    return "coldtally notice " + text::shell_word(ledger.path()) + " --place " + text::shell_word(place) +
           (at ? " --at " + text::shell_word(ledger.zone().local_text(*at)) : "") + " --text 'WHAT WAS FOUND' --by " +
           text::shell_word(by);
}

}  // namespace

std::vector<std::string> steps_after_import(const Ledger& ledger, const IncidentsAnswer& found, const std::string& by,
                                            Instant now) {
    std::vector<std::string> out;
    for (const auto& row : found.incidents) out.push_back("Incident " + row.incident + given_words(ledger, row, now));
    std::map<std::string, Instant> last;  // of each place the end of the last excursion that belongs to none
    for (const auto& e : found.without_incident) {
        const auto [at, fresh] = last.emplace(e.place, Instant(e.until_s.floor()));
        if (!fresh) at->second = std::max(at->second, Instant(e.until_s.floor()));
    }
    for (const auto& [place, until] : last) {
        // an old excursion belongs to an incident that is dated as it was
        const std::optional<Instant> at = until + Duration(86400) < now ? std::optional(until) : std::nullopt;
        out.push_back("To open an incident for " + place +
                      ", and see the doses given since the last good reading: " + notice_words(ledger, place, at, by));
    }
    return out;
}

std::string new_incident(const Ledger& ledger, const std::optional<std::string>& stated, Instant at, Instant now) {
    std::set<std::string> taken;
    for (const auto& row : every_incident(ledger, now))
        taken.insert(row.incident);
    if (stated && taken.contains(*stated))
        throw Error(Code::contradiction,
                    "incident: " + text::quoted(*stated) +
                        ": is known already; must be a new name (`coldtally step` adds to one that is known)");
    if (stated) return *stated;
    const std::string year = std::to_string(ledger.zone().local(at).date.year);
    for (int n = 1;; ++n) {
        std::string name = year + "-" + std::to_string(n);
        if (!taken.contains(name)) return name;
    }
}

Entry report_draft(const Ledger& ledger, const ReportRequest& request, Instant at, Instant now) {
    const std::optional<std::string> maker =
        request.to == "manufacturer" ? std::optional(request.recipient) : std::nullopt;
    const IncidentAnswer answer = ledger.incident(request.incident, maker, {at, std::nullopt}, now);
    if (!answer.counted && !request.uncounted)
        throw Error(Code::missing_field,
                    "count: the doses of the affected places have not been counted since it was noticed: post the "
                    "counts first, or say --uncounted");
    Entry out;
    out.at = at;
    out.by = request.by;
    out.fact = Report{request.incident, request.to,        request.recipient, at,
                      answer.counted,   request.reference, request.text,      {answer.told.begin(), answer.told.end()}};
    return out;
}

namespace {

std::string doses_of(std::int64_t n) { return std::to_string(n) + (n == 1 ? " dose" : " doses"); }

Entry entry_of(const StepRequest& request, Instant at, Fact fact) {
    Entry out;
    out.at = at;
    out.by = request.by;
    out.fact = std::move(fact);
    return out;
}

std::string lots_words(std::size_t n) { return std::to_string(n) + (n == 1 ? " lot" : " lots"); }

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
    const Instant latest = ledger.stock({}, now).head.at;
    if (at < latest)
        for (const auto& row : ledger.stock({}, now).holdings)
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
    const std::string there = "in " + text::quoted(*request.place);
    const bool earlier = at < latest;
    const std::string when = earlier ? " at " + ledger.zone().local_text(at) : "";
    out.filled.push_back(lots.empty() ? "no doses were " + there + when + ": nothing to hold"
                                      : "all that " + (earlier ? "was " : std::string("is ")) + there + when +
                                            " is on hold: " + lots_words(lots.size()));
    if (!since.empty())
        out.filled.push_back("what came there since is on hold from now on: " + lots_words(since.size()));
}

/// The voids of an incident's holds; else what becomes of them, in words.
void release_holds(const Ledger& ledger, const StepRequest& request, const IncidentAnswer& a, Instant at,
                   Drafted& out) {
    std::string against;
    for (const auto& why : a.against_release) against += (against.empty() ? "" : "; ") + why;
    if (request.release) {
        if (a.holds.empty())
            throw Error(Code::contradiction, "release: no hold of incident " + text::quoted(a.incident) + " stands");
        if (!against.empty())
            throw Error(Code::contradiction, "release: refused, nothing is written: " + against +
                                                 ". Guidance lifts the holds; close without release, and they stand");
        const auto when = [&](const std::optional<Instant>& t) { return ledger.zone().local_text(*t); };
        for (const auto& h : a.holds)
            out.entries.push_back(
                entry_of(request, at,
                         Void{h.entry, "incident " + a.incident + " is closed: nothing was out of " +
                                           answers::range_words(h.range) + ", the range of the place, from " +
                                           when(a.release_from) + " to " + when(a.release_until) +
                                           ", all of it by a logger or within the minimum and maximum of checks"}));
        return;
    }
    std::string entries;
    std::int64_t doses = 0;
    for (const auto& h : a.holds) {
        if (h.doses.count() == 0) continue;
        entries += (entries.empty() ? " (hold entries " : ", ") + std::to_string(h.entry);
        doses += h.doses.count();
    }
    if (doses == 0) return;
    out.warnings.push_back(
        "the holds of this incident stand: " + doses_of(doses) + " stay DO NOT USE" + entries +
        "). Guidance lifts them" +
        (against.empty()
             ? "; closing with release takes them back, since nothing was out of range and all of the time is known"
             : "; closing cannot: " + against));
}

/// Doses that nothing would keep from use any more, though they stood in the incident's time in doubt.
void refuse_to_forget(const Ledger& ledger, const StepRequest& request, const std::string& incident, Instant at,
                      Instant now, Drafted& out) {
    std::string forgotten;
    for (const auto& row : ledger.lists({at, std::nullopt}, now).holdings) {
        if (row.list != List::keep || std::ranges::find(row.in_doubt, incident) == row.in_doubt.end()) continue;
        forgotten += (forgotten.empty() ? "" : ", ") + doses_of(row.doses.count()) + " of " + row.holding.product +
                     " lot " + row.holding.lot + " in " + row.holding.place +
                     (row.holding.mark.empty() ? "" : ", mark " + row.holding.mark);
    }
    if (forgotten.empty()) return;
    const std::string what = forgotten + " stood in its time in doubt, are on no hold, and no answer covers them";
    if (!request.despite)
        throw Error(Code::contradiction, "despite: must say why they may be used: " + what +
                                             "; put them on hold, or say why it is closed all the same");
    out.warnings.push_back("nothing keeps from use any more: " + what + "; closed because: " + *request.despite);
}

/// Doses given that stood in its time in doubt, while something was out of range, and of which nothing was found: no
/// list has them once it is closed.
void name_given(const IncidentAnswer& a, Drafted& out) {
    if (std::ranges::none_of(a.units, [](const auto& unit) { return !unit.excursions.empty(); })) return;
    std::string entries;
    std::int64_t doses = 0;
    for (const auto& dose : a.given) {
        if (dose.finding != "clear" || dose.guidance) continue;
        entries += (entries.empty() ? "" : ", ") + std::to_string(dose.entry);
        doses += dose.doses.count();
    }
    if (doses > 0)
        out.warnings.push_back(doses_of(doses) + " given (" + entries +
                               ") stood in its time in doubt; nothing was found of them by the estimate, no answer "
                               "covers them, and once it is closed no list names them: ask whether they need a second "
                               "look");
}

}  // namespace

namespace {

/// The text of a step that says of which doses that left somebody was told.
std::string text_of(const Ledger& ledger, const StepRequest& request, const std::optional<IncidentAnswer>& incident,
                    Instant now) {
    if (request.told.empty()) return request.text;
    if (request.step != "action" && !request.step.ends_with(" told"))
        throw Error(Code::contradiction, "told: comes with \"action\" or a step \"... told\", and this is " +
                                             text::quoted(request.step));
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
    const bool notice = request.step == "noticed", closed = request.step == "closed";
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
        refuse_to_forget(ledger, request, name, at, now, out);
        const IncidentAnswer whole = ledger.incident(name, std::nullopt, {at, std::nullopt}, now);
        release_holds(ledger, request, whole, at, out);
        name_given(whole, out);
    }
    if (notice && request.place)
        for (const auto& open : open_beside(ledger, name, *request.place, now))
            out.warnings.push_back("A SECOND NOTICE of one place: " + open +
                                   "; if it is the same, note a step of that one instead");
    const std::string text = text_of(ledger, request, known, now);
    Entry step = entry_of(request, at, Incident{name, request.step, text, request.place});
    step.note = request.note;
    const auto keep = [&](const char* what, const std::optional<std::string>& why) {
        if (why) step.note = (step.note ? *step.note + "; " : "") + what + *why;
    };
    keep("not put on hold: ", request.no_hold);
    keep("closed all the same: ", request.despite);
    out.entries.push_back(std::move(step));
    const bool first_of_place = request.place && !closed &&
                                (!known || std::none_of(known->steps.begin(), known->steps.end(),
                                                        [&](const auto& s) { return s.place == request.place; }));
    if (first_of_place && request.no_hold)
        out.warnings.push_back("NOT PUT ON HOLD: the doses in " + text::quoted(*request.place) +
                               ", because: " + *request.no_hold);
    else if (first_of_place)
        add_holds(ledger, request, name, at, now, out);
    return out;
}

std::vector<std::string> still_open(const Ledger& ledger, const std::string& incident, Instant now) {
    const IncidentAnswer a = ledger.incident(incident, std::nullopt, {}, now);
    std::vector<std::string> out;
    for (const auto& d : a.duties)
        if (!d.done && d.step != "closed") out.push_back("not done: " + d.step + (d.who.empty() ? "" : ", " + d.who));
    for (const auto& text : answers::overtaken(a)) out.push_back(text);
    for (const auto& row : a.now)
        if (row.list != List::keep)
            out.push_back(std::to_string(row.doses.count()) + (row.doses.count() == 1 ? " dose of " : " doses of ") +
                          row.holding.product + " lot " + row.holding.lot + " in " + row.holding.place +
                          (row.holding.mark.empty() ? "" : ", mark " + row.holding.mark) + ": on the list " +
                          std::string(list_name(row.list)));
    for (const auto& row : a.given)
        if (row.finding == "pending guidance")
            out.push_back("dose given, entry " + std::to_string(row.entry) + ": waits for guidance");
    for (const auto& l : a.left)
        if (!l.told) out.push_back(answers::left_words(l, ledger.zone()) + ": " + answers::left_advice(l));
    for (const auto& u : a.units)
        if (!u.back_in_range) out.push_back(u.place + ": not known to be back in range");
    for (const auto& l : a.lines)
        if (l.missing > 0)
            out.push_back(std::to_string(l.missing) + (l.missing == 1 ? " dose of " : " doses of ") +
                          l.holding.product + " lot " + l.holding.lot + ": missing in a count");
    return out;
}

void add_incidents(const Ledger& ledger, Drafted& posted, Instant now) {
    if (posted.entries.empty() || posted.next_steps.empty()) return;  // in range
    const Entry& entry = posted.entries.front();
    const auto* check = std::get_if<Check>(&entry.fact);
    if (!check) return;
    const std::string& place = check->place;
    const auto found = ledger.incidents(place, std::nullopt, *entry.at, *entry.at + Duration(1), {}, now, false);
    std::vector<std::string> steps;
    for (const auto& row : found.incidents) {
        if (row.excursions.empty()) continue;
        steps.push_back("The excursion belongs to incident " + row.incident + given_words(ledger, row, now));
    }
    if (!found.without_incident.empty())
        steps.push_back(
            "No incident is open for this excursion. Open one, and see at once the doses given since the last good "
            "reading: " +
            notice_words(ledger, place, std::nullopt, entry.by));
    posted.next_steps.insert(posted.next_steps.begin() + 1, steps.begin(), steps.end());
}

}  // namespace coldtally
