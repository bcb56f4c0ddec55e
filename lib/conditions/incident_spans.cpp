#include "conditions/incident_spans.hpp"

#include <algorithm>
#include <map>

namespace coldtally::answers {

std::vector<ledger::Dated<Incident>> incident_steps(const ledger::Store& store, const ledger::Known& known,
                                                    std::optional<std::int64_t> upto) {
    std::vector<ledger::Dated<Incident>> out;
    for (const EntryNumber n : store.incident_entries()) {
        if (!known.is_known(n)) continue;
        const Entry e = store.entry_of<Incident>(n);
        const std::int64_t at = e.at->seconds_since_1970();
        if (!upto || at <= *upto) out.push_back({at, n, std::get<Incident>(e.fact)});
    }
    std::sort(out.begin(), out.end(),
              [](const auto& a, const auto& b) { return std::pair(a.at, a.entry) < std::pair(b.at, b.entry); });
    return out;
}

std::vector<IncidentSpan> incident_spans(const std::vector<ledger::Dated<Incident>>& steps) {
    std::map<std::string, IncidentSpan> all;
    std::set<std::string> of_all;  // noticed without a place: a later step about one place narrows nothing
    for (const auto& s : steps) {
        const auto [it, fresh] = all.try_emplace(s.fact.incident);
        IncidentSpan& span = it->second;
        if (fresh) span.incident = s.fact.incident, span.first = s.at;
        if (s.fact.place && !of_all.contains(span.incident)) span.places.insert(*s.fact.place);
        if (s.fact.step == "noticed") {
            if (!s.fact.place) of_all.insert(span.incident), span.places.clear();
            if (!span.noticed) span.noticed = s.at, span.notice = s.entry;
            span.closed.reset();  // noticed again after it was closed: it is open again
        }
        if (s.fact.step == "closed") span.closed = s.at;
    }
    std::vector<IncidentSpan> out;
    for (auto& [id, span] : all) out.push_back(std::move(span));
    return out;
}

}  // namespace coldtally::answers
