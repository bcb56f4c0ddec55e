#include "coldtally/error.hpp"
#include "conditions/incidents.hpp"
#include "incidents/investigation.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

bool Investigation::is_wanted(const std::string& product) const {
    if (!out.maker) return true;
    const Maker* maker = w.known.maker(product);
    return maker && maker->name == *out.maker;
}

bool Investigation::affects(const HoldingKey& holding, const History& history) const {
    if (!lots.contains({holding.product, holding.lot})) return false;
    for (const auto& [place, times] : windows)
        if (history.places.contains(place)) return true;
    return false;
}

void add_steps(Investigation& i) {
    const auto all = incident_steps(i.w);
    for (const auto& s : all) {
        if (s.fact.incident != i.out.incident) continue;
        const Entry entry = i.w.store.named_entry(s.entry);
        i.out.steps.push_back({s.entry, Instant(s.at), entry.by, s.fact.step, s.fact.text, s.fact.place, entry.note});
    }
    if (i.out.steps.empty())
        throw Error(Code::not_known,
                    "incident: " + text::quoted(i.out.incident) + ": no incident of this name is known");
    for (const auto& span : incident_spans(all)) {
        if (span.incident != i.out.incident) continue;
        if (span.noticed) i.out.noticed = Instant(*span.noticed);
        if (span.closed) i.out.closed = Instant(*span.closed);
        i.since = span.since();
        i.span = span;
    }
}

}  // namespace coldtally::answers
