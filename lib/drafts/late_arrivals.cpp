#include "drafts/late_arrivals.hpp"

#include <algorithm>
#include <map>

#include "conditions/incident_spans.hpp"
#include "incidents/release.hpp"
#include "stock/doubt.hpp"
#include "stock/way_note.hpp"
#include "text/json_text.hpp"
#include "words/drafts_arrivals.hpp"

namespace coldtally::answers {

LateArrival::LateArrival(const ledger::Store& store, const ledger::Known& known, Instant now, const Entry& arriving)
    : known_(known) {
    if (const auto* r = std::get_if<Receive>(&arriving.fact)) {
        place_ = r->place, product_ = r->product, lot_ = r->lot;
    } else if (const auto* m = std::get_if<Move>(&arriving.fact); m && m->from_place != m->to_place) {
        place_ = m->to_place, product_ = m->product, lot_ = m->lot;
    }
    if (place_.empty() || !known.place(place_)) return;
    // the first step about this place, by which its doses were put on hold; an incident that was closed before these
    // came says nothing of them
    const auto came = arriving.at->seconds_since_1970();
    const auto steps = incident_steps(store, known, head_of(store, Question{}, now).at.seconds_since_1970());
    std::map<std::string, std::int64_t> first;
    for (const auto& step : steps) {
        if (step.fact.step == IncidentStep::closed && step.at <= came) first.erase(step.fact.incident);
        if (step.fact.step != IncidentStep::closed && step.fact.place == place_)
            first.try_emplace(step.fact.incident, step.at);
    }
    for (const auto& span : incident_spans(steps)) {
        const auto it = first.find(span.incident);
        if (!span.is_open() || it == first.end() || it->second <= came) continue;
        const auto& [incident, at] = *it;
        const bool held = std::ranges::any_of(known.holds, [&, since = at, reason = hold_reason(incident, place_)](
                                                               const auto& h) {
            return h.at >= since && h.fact.reason == reason && h.fact.product == product_ && h.fact.lot == lot_;
        });
        notices_.push_back({incident, Instant(at), held});
    }
}

void LateArrival::finish(const std::optional<std::string>& no_hold, bool noted, Drafted& out) const {
    const auto arriving = std::ranges::find_if(out.entries, [](const Entry& e) {
        return std::holds_alternative<Receive>(e.fact) || std::holds_alternative<Move>(e.fact);
    });
    if (notices_.empty() || arriving == out.entries.end()) return;
    const std::string by = arriving->by;
    if (no_hold && !noted)
        arriving->note = no_hold_note(*no_hold) + (arriving->note ? "; " + *arriving->note : "");
    for (const Notice& notice : notices_) {
        Remark since =
            words::noticed_since(notice.incident, text::quoted(place_), known_.zone().local_text(notice.at));
        const bool left_off = no_hold && !notice.held;
        Remark warning =
            left_off ? words::late_not_held(*no_hold, std::move(since)) : words::late_held(std::move(since));
        if (std::ranges::find(out.warnings, warning) == out.warnings.end())
            out.warnings.insert(out.warnings.begin(), std::move(warning));
        if (no_hold || notice.held) continue;
        Entry hold;
        hold.at = notice.at;
        hold.by = by;
        const Hold fact{hold_reason(notice.incident, place_), product_, lot_, place_, std::nullopt};
        hold.fact = fact;
        if (std::ranges::none_of(out.entries, [&](const Entry& e) {  // of another mark or fund of the lot
                const auto* other = std::get_if<Hold>(&e.fact);
                return other && e.at == hold.at && other->reason == fact.reason && other->product == fact.product &&
                       other->lot == fact.lot;
            }))
            out.entries.push_back(std::move(hold));
    }
}

}  // namespace coldtally::answers
