// Of loosening: the excursions of places, and devices in them that disagree.
#include <tuple>

#include "conditions/disagreements.hpp"
#include "drafts/comparison.hpp"
#include "text/json_text.hpp"
#include "words/conditions.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"
#include "words/loosening.hpp"

namespace coldtally::answers {

namespace {

using Disagreement = UnitAnswer::Disagreement;

bool is_same(const Disagreement& a, const Disagreement& b) {
    const auto key = [](const Disagreement& d) {
        return std::tuple(d.what, d.until, d.check.check, d.check.C, d.other.C, d.other.at);
    };
    return key(a) == key(b);
}

Remark incident_words(const Changes::OfPlace::OfIncident& of) {
    const std::string incident = text::quoted(of.incident);
    if (of.before == 0) return words::incident_has_none(incident);
    if (of.after == 0) return words::incident_loses_all(incident, words::excursions(of.before));
    return words::incident_would_have(incident, of.before, words::excursions(of.after));
}

}  // namespace

Remark excursion_words(const Changes::OfPlace& p) {
    const Remark all = words::excursions(p.excursions);
    const std::string place = text::quoted(p.place);
    std::vector<Remark> out = {p.vanish == 0 && p.shortened == 0
                                   ? words::excursions_stay(all, place)
                                   : words::excursions_get_less(all, place, words::so_many_vanish(p.vanish),
                                                                words::so_many_shortened(p.shortened))};
    for (const auto& one : p.open_incidents) out.push_back(incident_words(one));
    return which(out);
}

void compare_excursions(Comparison& c) {
    for (const auto& [place, was] : c.before.places) {
        const auto it = c.after.places.find(place);
        if (it == c.after.places.end()) continue;
        const auto of = compare(place, was, it->second);
        if (of.vanish > 0 || of.shortened > 0)
            c.only_tightens() ? c.say(excursion_words(of)) : c.ask(excursion_words(of));
    }
}

void compare_devices(Comparison& c) {
    for (const auto& [place, all] : c.after.disagreements) {
        const auto it = c.before.disagreements.find(place);
        for (const auto& d : all) {
            const bool old = it != c.before.disagreements.end() &&
                             std::ranges::any_of(it->second, [&](const auto& o) { return is_same(o, d); });
            if (old) continue;
            // what shows something worse must not be kept out by a device that has not seen it
            (at_stake(d, c.w.place(place).range) && !c.only_tightens() ? c.out.asks : c.out.says)
                .push_back(words::devices_disagree(disagreement_words(d, place, c.w.known.zone())));
        }
    }
}

}  // namespace coldtally::answers
