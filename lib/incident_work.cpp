#include "coldtally/incident_work.hpp"

#include <set>

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

}  // namespace coldtally
