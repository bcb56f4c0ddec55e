#include "conditions/incidents.hpp"

#include <algorithm>
#include <set>

#include "words/conditions.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

namespace {

using Span = IncidentSpan;

/// Of all incidents, in the order in which they were noticed; those that nobody noticed last.
std::vector<Span> spans_of(const World& w) {
    auto out = incident_spans(incident_steps(w));
    const auto begins = [](const Span& s) { return s.noticed.value_or(INT64_MAX); };
    std::stable_sort(out.begin(), out.end(), [&](const Span& a, const Span& b) { return begins(a) < begins(b); });
    return out;
}

bool open_at(const Span& s, const Rational& t) {
    return s.noticed && Rational(*s.noticed) <= t && (!s.closed || t < Rational(*s.closed));
}

IncidentExcursion row_of(World& w, const Found& f, const std::string& place) {
    IncidentExcursion out{place, f.side, f.kind, f.from, f.until, {}, f.peak_C, f.open, checked_s(w, place, f)};
    for (const auto& p : f.pieces) out.duration_s += p.until - p.from;
    return out;
}

/// For each excursion of a place, the incident it belongs to: an index, or -1. Excursions ascend by their beginning.
std::vector<int> owners(const std::vector<Found>& found, const std::vector<Span>& spans, const std::string& place,
                        std::int64_t longest_wait) {
    std::vector<int> out(found.size(), -1);
    struct Reach {
        Rational from;  // the earliest excursion of it so far, or the notice, or since when that says it lasted
        int incident;
    };
    std::vector<Reach> reach;
    for (std::size_t k = 0; k < spans.size(); ++k)
        if (spans[k].noticed && spans[k].of(place))
            reach.push_back({Rational(std::min(*spans[k].noticed, spans[k].out_since.value_or(INT64_MAX))),
                             static_cast<int>(k)});
    for (std::size_t i = found.size(); i-- > 0;) {
        Reach* best = nullptr;  // noticed first of those that reach it
        for (Reach& r : reach) {
            const bool noticed_later = Rational(*spans[static_cast<std::size_t>(r.incident)].noticed) >= found[i].from;
            if (noticed_later && r.from <= found[i].until + Rational(longest_wait) && !best) best = &r;
        }
        if (best) {
            best->from = std::min(best->from, found[i].from);
            out[i] = best->incident;
            continue;
        }
        for (std::size_t k = 0; k < spans.size(); ++k)  // the last noticed of those open then
            if (spans[k].of(place) && open_at(spans[k], found[i].from)) out[i] = static_cast<int>(k);
    }
    return out;
}

/// How many excursions lie outside what was asked for: nothing found in it is not nothing found.
Remark not_shown(const IncidentsAnswer& of, const std::optional<std::string>& place,
                 const std::optional<std::string>& probe, std::int64_t hidden, std::int64_t without_incident) {
    std::vector<Field> asked;
    if (place) asked.push_back(words::in_place(*place));
    if (probe) asked.push_back(words::where_probe_was(*probe));
    if (of.head.window) asked.push_back(*of.head.window);
    const bool none = of.without_incident.empty() &&
                      std::ranges::all_of(of.incidents, [](const auto& row) { return row.excursions.empty(); });
    const Remark others = (!of.head.window    ? words::others_elsewhere
                           : place || probe ? words::others_at_other_times_or_elsewhere
                                            : words::others_at_other_times)(hidden);
    return words::semicolon((none ? words::no_excursion : words::only_excursions)(words::listed(asked)),
                            without_incident > 0 ? words::of_them_without_incident(others, without_incident) : others);
}

}  // namespace

std::vector<ledger::Dated<Incident>> incident_steps(const World& w) { return incident_steps(w.store, w.known, w.at); }

std::vector<IncidentSpan> open_incidents(const World& w) {
    auto out = incident_spans(incident_steps(w));
    std::erase_if(out, [](const Span& s) { return !s.is_open(); });
    return out;
}

IncidentsAnswer incidents(World& w, const std::optional<std::string>& place, const std::optional<std::string>& probe,
                          Instant from, Instant until, bool others) {
    IncidentsAnswer out;
    out.head = w.head;
    if (place) w.place(*place);
    if (from > Instant(0) || until < w.head.at) out.head.window = window_words(from, until, w.head.at, w.known.zone());
    const Window window = window_of(w, from, until);
    const auto spans = spans_of(w);
    for (const Span& s : spans) {
        IncidentsAnswer::Row row;
        row.incident = s.incident;
        if (s.noticed) row.noticed = Instant(*s.noticed);
        if (s.closed) row.closed = Instant(*s.closed);
        row.since = Instant(s.since());
        row.open = s.is_open();
        row.places.assign(s.places.begin(), s.places.end());
        out.incidents.push_back(std::move(row));
    }
    // to whom an excursion belongs does not depend on the window
    const Window whole{false, -trace::forever, w.at, true};
    std::int64_t hidden = 0, hidden_without = 0;
    const auto is_asked = [&](const std::string& id) {
        if ((place && id != *place) || window.empty) return false;
        return !probe || std::any_of(w.engine.assignments().begin(), w.engine.assignments().end(), [&](const auto& a) {
            return a.probe == *probe && a.place == id && a.from < window.until && a.until > window.from;
        });
    };
    for (const auto& [id, definitions] : w.known.places) {
        if (definitions.empty()) continue;
        const bool asked = is_asked(id);
        if (!asked && !others) continue;
        // nor on those that were over before it
        const auto found = others ? find_excursions(w, id, whole) : excursions_since(w, id, window.from);
        const auto owner = owners(found, spans, id, joined_within.seconds());
        for (std::size_t i = 0; i < found.size(); ++i) {
            if (!asked || found[i].until < Rational(window.from) || found[i].from > Rational(window.until)) {
                ++hidden;
                hidden_without += owner[i] < 0;
                continue;
            }
            (owner[i] < 0 ? out.without_incident : out.incidents[static_cast<std::size_t>(owner[i])].excursions)
                .push_back(row_of(w, found[i], id));
        }
    }
    if (others && hidden > 0) out.not_listed.push_back(not_shown(out, place, probe, hidden, hidden_without));
    std::stable_sort(out.incidents.begin(), out.incidents.end(),
                     [](const auto& a, const auto& b) { return a.open && !b.open; });
    return out;
}

}  // namespace coldtally::answers

namespace coldtally {

ExcursionsInShort in_short(const std::vector<IncidentExcursion>& excursions) {
    ExcursionsInShort out;
    out.count = std::ssize(excursions);
    for (const IncidentExcursion& e : excursions) {
        const auto less = [&](const std::optional<IncidentExcursion>& than, auto key) {
            return !than || key(*than) < key(e);
        };
        if (less(out.longest, [](const IncidentExcursion& x) { return std::pair(x.duration_s, x.until_s); }))
            out.longest = e;
        if (less(out.latest, [](const IncidentExcursion& x) { return std::pair(x.until_s, x.duration_s); }))
            out.latest = e;
    }
    return out;
}

ExcursionsInShort in_short(const IncidentsAnswer& found) {
    std::vector<IncidentExcursion> all = found.without_incident;
    for (const auto& row : found.incidents) all.insert(all.end(), row.excursions.begin(), row.excursions.end());
    return in_short(all);
}

}  // namespace coldtally
