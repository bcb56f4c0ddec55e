#include "coldtally/incident_work.hpp"

#include <set>

#include "text/shell_word.hpp"

namespace coldtally {

std::optional<IncidentsAnswer> incidents_found(const Ledger& ledger, const std::string& probe, const ImportReport& report, Instant now) {
    std::optional<Instant> from, until;
    for (const ImportedFile& file : report.files) {
        if (file.from && (!from || *file.from < *from)) from = file.from;
        if (file.until && (!until || *file.until > *until)) until = file.until;
    }
    if (!from || !until) return std::nullopt;
    IncidentsAnswer out = ledger.incidents(std::nullopt, probe, *from, *until, {}, now);
    std::erase_if(out.incidents, [](const auto& row) { return row.excursions.empty(); });
    if (out.incidents.empty() && out.without_incident.empty()) return std::nullopt;
    return out;
}

std::string next_incident(const Ledger& ledger, Instant at, Instant now) {
    std::set<std::string> taken;
    for (const auto& row : ledger.incidents(std::nullopt, std::nullopt, Instant(0), Instant(0), {}, now).incidents) taken.insert(row.incident);
    const std::string year = std::to_string(ledger.zone().local(at).date.year);
    for (int n = 1;; ++n) {
        std::string name = year + "-" + std::to_string(n);
        if (!taken.contains(name)) return name;
    }
}

Entry report_draft(const Ledger& ledger, const ReportRequest& request, Instant at, Instant now) {
    const std::optional<std::string> maker = request.to == "manufacturer" ? std::optional(request.recipient) : std::nullopt;
    const IncidentAnswer answer = ledger.incident(request.incident, maker, {at, std::nullopt}, now);
    if (!answer.counted && !request.uncounted)
        throw Error(Code::missing_field, "count: the doses of the affected places have not been counted since it was noticed: post the counts first, or say --uncounted");
    Entry out;
    out.at = at;
    out.by = request.by;
    out.fact = Report{request.incident, request.to, request.recipient, at, answer.counted, request.reference, request.text, answer.told};
    return out;
}

void add_incidents(const Ledger& ledger, Drafted& posted, Instant now) {
    if (posted.entries.empty() || posted.next_steps.empty()) return;  // in range
    const Entry& entry = posted.entries.front();
    const auto* check = std::get_if<Check>(&entry.fact);
    if (!check) return;
    const std::string& place = check->place;
    const auto found = ledger.incidents(place, std::nullopt, *entry.at, *entry.at + Duration(1), {}, now);
    const std::string file = text::shell_word(ledger.path());
    std::vector<std::string> steps;
    for (const auto& row : found.incidents) {
        if (row.excursions.empty()) continue;
        const IncidentAnswer incident = ledger.incident(row.incident, std::nullopt, {}, now);
        std::string given;
        for (const auto& dose : incident.given) given += (given.empty() ? "" : "; ") + ("entry " + std::to_string(dose.entry)) + ", patient " + dose.patient + ", " + dose.holding.product + " lot " + dose.holding.lot;
        steps.push_back("The excursion belongs to incident " + row.incident + (row.closed ? ", which was closed" : "") + ". " + (given.empty() ? std::string("No dose was given since the last good reading.") : "Given since the last good reading: " + given + ".") + " All of it: coldtally incident " + file + " " + text::shell_word(row.incident));
    }
    if (!found.without_incident.empty())
        steps.push_back("No incident is open for this excursion. Open one, and see at once the doses given since the last good reading: coldtally notice " + file + " --place " + text::shell_word(place) + " --text 'WHAT WAS FOUND' --by " + text::shell_word(entry.by));
    posted.next_steps.insert(posted.next_steps.begin() + 1, steps.begin(), steps.end());
}

}  // namespace coldtally
