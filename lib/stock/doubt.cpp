#include "stock/doubt.hpp"

#include <algorithm>
#include <set>

namespace coldtally::answers {

namespace {

/// When the last of the stays in a doubt ended, or the doubt; none: no stay meets it.
std::optional<std::int64_t> left(const Doubt& d, const std::vector<std::pair<std::int64_t, std::int64_t>>& stays) {
    std::optional<std::int64_t> out;
    for (const auto& [from, until] : stays) {
        const bool meets = d.from < d.until ? from < d.until && d.from < until : from <= d.from && d.from <= until;
        if (meets) out = std::max(out.value_or(d.from), std::min(until, d.until));
    }
    return out;
}

/// Has a report of the incident told of this lot?
bool was_told(const World& w, const std::string& incident, const HoldingKey& of) {
    return std::any_of(w.known.reports.begin(), w.known.reports.end(), [&](const auto& r) {
        return r.at <= w.at && r.fact.incident == incident &&
               std::any_of(r.fact.told.begin(), r.fact.told.end(),
                           [&](const auto& t) { return t.product == of.product && t.lot == of.lot; });
    });
}

}  // namespace

std::vector<Doubt> doubts_of(World& w, const HoldingKey& holding, const History& history, const StayCollector& stays) {
    struct Met {
        const Doubt* doubt;
        std::int64_t until;  // when the doses left the place, or the doubt ended
    };
    std::vector<Met> met;
    std::set<std::string> of;
    for (const Doubt& d : open_doubts(w)) {
        const auto there = stays.stays.find(d.place);
        if (!history.places.contains(d.place) || there == stays.stays.end()) continue;
        const auto until = left(d, there->second);
        if (!until) continue;
        met.push_back({&d, *until});
        of.insert(d.incident);
    }
    const auto cleared = stays.cleared_through.find(holding);
    std::vector<Doubt> out;
    for (const Met& m : met) {
        // an answer about one incident says nothing of another that stands beside it: that one must have been reported
        const bool answered = cleared != stays.cleared_through.end() && cleared->second >= m.until &&
                              (of.size() == 1 || was_told(w, m.doubt->incident, holding));
        if (!answered && (out.empty() || out.back().incident != m.doubt->incident)) out.push_back(*m.doubt);
    }
    return out;
}

}  // namespace coldtally::answers
