#include "answers/late_arrivals.hpp"

#include <algorithm>

#include "answers/doubt.hpp"
#include "answers/incidents.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

LateArrival::LateArrival(const ledger::Store& store, const ledger::Known& known, Instant now, const Entry& arriving)
    : known_(known) {
    if (const auto* r = std::get_if<Receive>(&arriving.fact)) {
        place_ = r->place, product_ = r->product, lot_ = r->lot;
    } else if (const auto* m = std::get_if<Move>(&arriving.fact); m && m->from_place != m->to_place) {
        place_ = m->to_place, product_ = m->product, lot_ = m->lot;
    }
    if (place_.empty() || !known.place(place_)) return;
    World world(store, head_of(store, Question{}, now), known);
    for (const auto& row : incidents(world, place_, std::nullopt, Instant(0), Instant(0)).incidents) {
        if (!row.noticed || row.closed || *row.noticed <= *arriving.at ||
            std::ranges::find(row.places, place_) == row.places.end())
            continue;
        const bool held = std::ranges::any_of(known.holds, [&](const auto& h) {
            return h.at >= row.noticed->seconds_since_1970() && h.fact.reason == hold_reason(row.incident, place_) &&
                   h.fact.product == product_ && h.fact.lot == lot_;
        });
        notices_.push_back({row.incident, *row.noticed, held});
    }
}

void LateArrival::finish(const std::optional<std::string>& no_hold, Drafted& out) const {
    const auto arriving = std::ranges::find_if(out.entries, [](const Entry& e) {
        return std::holds_alternative<Receive>(e.fact) || std::holds_alternative<Move>(e.fact);
    });
    if (notices_.empty() || arriving == out.entries.end()) return;
    const std::string by = arriving->by;
    if (no_hold && arriving->note.value_or("").find("not put on hold: ") == std::string::npos)
        arriving->note = (arriving->note ? *arriving->note + "; " : "") + "not put on hold: " + *no_hold;
    for (const Notice& notice : notices_) {
        const std::string since = "incident " + notice.incident + " was noticed in " + text::quoted(place_) + " at " +
                                  known_.zone().local_text(notice.at) +
                                  ", after these doses came there, and is open";
        const bool left_off = no_hold && !notice.held;
        out.warnings.insert(out.warnings.begin(),
                            left_off ? "NOT PUT ON HOLD, because: " + *no_hold + ". But " + since
                                     : "DO NOT USE: " + since + ": they are on hold with what was there. Mark them");
        if (no_hold || notice.held) continue;
        Entry hold;
        hold.at = notice.at;
        hold.by = by;
        hold.fact = Hold{hold_reason(notice.incident, place_), product_, lot_, place_, std::nullopt};
        out.entries.push_back(std::move(hold));
    }
}

}  // namespace coldtally::answers
