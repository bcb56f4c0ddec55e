#include "drafts/loosening.hpp"

#include <algorithm>
#include <optional>

#include "conditions/disagreements.hpp"
#include "drafts/comparison.hpp"
#include "incidents/incident_report.hpp"
#include "words/loosening.hpp"

namespace coldtally::answers {

namespace {

void look_at_incidents(World& w, const Touched& touched, Looked& out) {
    for (const auto& span : open_incidents(w)) {
        const bool is_of = std::ranges::any_of(touched.places(), [&](const auto& p) { return span.of(p.first); });
        if (!touched.programme() && !is_of) continue;
        World fresh(w.store, w.head, w.known);
        auto whole = incident(fresh, span.incident, std::nullopt);
        if (is_of) {
            Looked::Doubted& doubted = out.doubted[span.incident];
            for (const auto& row : whole.given) doubted.given.try_emplace(row.entry, row.holding.place, row.at);
            for (const auto& d : whole.left) doubted.left.try_emplace(d.entry, d.holding.place, d.at);
            for (const auto& u : whole.units)
                if (u.last_good) doubted.last_good.emplace(u.place, *u.last_good);
        }
        if (touched.programme())
            out.incidents[span.incident] = {std::move(whole.findings), std::move(whole.duties)};
    }
}

}  // namespace

Looked look(World& w, const Touched& touched, const std::vector<Entry>& entries) {
    Looked out;
    out.snapshot = snapshot(w, entries);
    look_at_incidents(w, touched, out);
    for (const Doubt& d : open_doubts(w))
        if (d.lapsed) out.lapsed.push_back(d);
    for (const auto& [place, time] : touched.places()) {
        if (!w.known.place(place)) continue;
        out.places[place] = excursions_of(w, place);
        std::int64_t until = time.second;  // a display stands for the time before it
        for (const auto& row : w.store.checks(place, time.second))
            if (w.known.is_known(row.entry)) {
                until = row.at;
                break;
            }
        World fresh(w.store, w.head, w.known);
        out.disagreements[place] = disagreements(fresh, place, Window{false, time.first, std::min(until, w.at), true});
    }
    return out;
}

Loosening loosening(World& w, const Touched& touched, const Looked& before, const Looked& after) {
    Comparison c(w, touched, before, after);
    for (const auto& one : touched.asks()) c.ask(one);
    compare_doubts(c);
    compare_holdings(c);
    compare_lots(c);
    compare_gives(c);
    compare_left(c);
    compare_excursions(c);
    compare_devices(c);
    compare_lifted(c);
    compare_releases(c);
    compare_programme(c);
    auto& shows = c.out.asks.empty() ? c.out.says : c.out.asks;
    if (!c.tighter.empty()) shows.push_back(words::doses_worse_now(which(c.tighter)));
    if (!c.further.empty()) shows.push_back(words::doses_further_now(which(c.further)));
    for (const auto& one : c.worse_left) shows.push_back(words::left_worse_now(one));
    if (!c.worse_gives.empty())
        shows.push_back(words::gives_worse_now(c.worse_gives.size(), first_of(c.worse_gives)));
    for (auto& one : learnt(c)) shows.push_back(std::move(one));
    return std::move(c.out);
}

}  // namespace coldtally::answers
