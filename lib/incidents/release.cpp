#include "incidents/release.hpp"

#include <algorithm>
#include <map>

#include "stock/lists.hpp"

namespace coldtally::answers {

void add_release(World& w, IncidentAnswer& a) {
    if (a.maker) return;
    std::map<std::string, HeldInPlace> places;
    std::optional<ListsAnswer> all;  // also of doses that came after what was out of range, and were held with the rest
    for (const auto& h : w.known.holds) {
        if (h.at > w.at || !h.fact.place || !h.fact.lot || h.fact.reason != hold_reason(a.incident, *h.fact.place))
            continue;
        IncidentAnswer::Held held{h.entry,     *h.fact.place, h.fact.product,
                                  *h.fact.lot, Doses(),       w.place(*h.fact.place).range};
        if (!all) all = lists(w);
        for (const auto& row : all->holdings)
            if (row.history.held_by.contains(h.entry)) held.doses = held.doses + row.doses;
        a.holds.push_back(std::move(held));
        auto& of = places[*h.fact.place];
        of.at = std::min(of.at, h.at);
        of.products.insert(h.fact.product);
    }
    ReleaseJudged judged;
    for (const auto& [place, of] : places) {
        const bool excursions = std::ranges::any_of(
            a.units, [&place = place](const auto& u) { return u.place == place && !u.excursions.empty(); });
        judge_release(w, a.incident, place, of, excursions, true, judged);
    }
    a.against_release = std::move(judged.against);
    if (judged.from) a.release_from = Instant(*judged.from);
    if (judged.until) a.release_until = Instant(*judged.until);
}

}  // namespace coldtally::answers
