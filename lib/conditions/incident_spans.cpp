#include "conditions/incident_spans.hpp"

#include <algorithm>
#include <map>

#include "coldtally/error.hpp"

namespace coldtally::answers {

namespace {

constexpr std::string_view out_since_start = "out of range since ";

}  // namespace

std::string out_since_text(Instant since, const std::string& text) {
    return std::string(out_since_start) + since.text() + ": " + text;
}

std::optional<Instant> out_since_of(const std::string& text) {
    constexpr std::size_t length = std::string_view("2026-11-12T02:06:15Z").size();
    const std::size_t end = out_since_start.size() + length;
    if (!text.starts_with(out_since_start) || text.compare(end - 1, 2, "Z:") != 0) return std::nullopt;
    try {
        return parse_instant(text.substr(out_since_start.size(), length), Zone("UTC"));
    } catch (const Error&) {  // what a person wrote like it
        return std::nullopt;
    }
}

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
        const bool names = s.fact.place && !of_all.contains(span.incident) && span.places.insert(*s.fact.place).second;
        if (s.fact.step == IncidentStep::noticed || names) span.notices.push_back({s.at, s.fact.place, s.entry});
        if (const auto out_since = s.fact.step == IncidentStep::noticed ? out_since_of(s.fact.text) : std::nullopt) {
            const std::int64_t t = std::min(out_since->seconds_since_1970(), s.at);
            span.notices.push_back({t, s.fact.place, s.entry});
            span.out_since = std::min(span.out_since.value_or(t), t);
        }
        if (s.fact.step == IncidentStep::noticed) {
            if (!s.fact.place) of_all.insert(span.incident), span.places.clear();
            if (!span.noticed) span.noticed = s.at, span.notice = s.entry;
            span.closed.reset(), span.closing = 0;  // noticed again after it was closed: it is open again
        }
        if (s.fact.step == IncidentStep::closed) span.closed = s.at, span.closing = s.entry;
    }
    std::vector<IncidentSpan> out;
    for (auto& [id, span] : all) out.push_back(std::move(span));
    return out;
}

std::vector<std::int64_t> IncidentSpan::noticed_in(const std::string& place) const {
    std::set<std::int64_t> out{since()};
    for (const Notice& n : notices)
        if (!n.place || *n.place == place) out.insert(n.at);
    return {out.begin(), out.end()};
}

EntryNumber IncidentSpan::noticed_by(const std::string& place, std::int64_t from, std::int64_t until) const {
    EntryNumber out = notice;
    for (const Notice& n : notices)
        if ((!n.place || *n.place == place) && from <= n.at && n.at < until) out = std::max(out, n.entry);
    return out;
}

}  // namespace coldtally::answers
