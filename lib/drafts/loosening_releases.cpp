// Of loosening: releases of an incident's holds that rested on what is not known any more, or is known to be otherwise.
#include "conditions/incidents.hpp"
#include "drafts/comparison.hpp"
#include "drafts/naming.hpp"
#include "words/general.hpp"
#include "words/loosening.hpp"

namespace coldtally::answers {

void compare_releases(Comparison& c) {
    for (const Doubt& now : c.after.lapsed) {
        const bool known = std::ranges::any_of(c.before.lapsed, [&](const Doubt& was) {
            return was.incident == now.incident && was.place == now.place;
        });
        if (known) continue;
        std::vector<Remark> all;
        for (const auto& [key, row] : c.is) {
            if (std::ranges::find(row->beside, *now.lapsed) == row->beside.end()) continue;
            all.push_back(words::in_brackets(quoted_holding(key), words::doses(row->doses.count())));
        }
        c.ask(all.empty() ? words::release_rested_on(*now.lapsed)
                          : words::release_rested_on_doses(which(all), *now.lapsed));
        for (const auto& span : incident_spans(incident_steps(c.w)))
            if (const auto of = span.incident == now.incident ? release_of(c.w, span) : std::nullopt)
                for (const auto& hold : of->holds)
                    if (hold.fact.place == now.place) c.out.holds.push_back(hold.fact);
    }
}

}  // namespace coldtally::answers
