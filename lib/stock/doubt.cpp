#include "stock/doubt.hpp"

#include <algorithm>
#include <set>

#include "words/stock.hpp"

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

/// The first report of the incident that told of this lot; none: nobody was told.
std::optional<EntryNumber> told_by(const World& w, const std::string& incident, const HoldingKey& of) {
    std::optional<EntryNumber> out;
    for (const auto& r : w.known.reports)
        if (r.at <= w.at && r.fact.incident == incident &&
            std::ranges::any_of(r.fact.told,
                                [&](const auto& t) { return t.product == of.product && t.lot == of.lot; }))
            out = std::min(out.value_or(r.entry), r.entry);
    return out;
}

/// The doubts in which doses stood, those that guidance has answered apart.
struct Sorted {
    std::vector<Doubt> open, answered;
    std::vector<std::int64_t> until;  // of those answered: when the doses left the place, or the doubt ended
};

/// Of `all`: those of open incidents, or with `lapsed` the releases that do not hold any more.
Sorted sorted_doubts(World& w, const std::vector<Doubt>& all, bool lapsed, const HoldingKey& holding,
                     const History& history, const StayCollector& stays) {
    struct Met {
        const Doubt* doubt;
        std::int64_t until;  // when the doses left the place, or the doubt ended
    };
    std::vector<Met> met;
    std::set<std::string> of;
    for (const Doubt& d : all) {
        if (d.lapsed.has_value() != lapsed) continue;
        const auto there = stays.stays.find(d.place);
        if (!history.places.contains(d.place) || there == stays.stays.end()) continue;
        const auto until = left(d, there->second);
        if (!until) continue;
        met.push_back({&d, *until});
        of.insert(d.incident);
    }
    Sorted out;
    for (const Met& m : met) {
        // an answer about one incident says nothing of another that stands beside it: that one must have been reported;
        // and nothing of what nobody had noticed when it was posted
        std::optional<EntryNumber> after = m.doubt->noticed;
        if (of.size() > 1) {
            const auto told = told_by(w, m.doubt->incident, holding);
            after = told ? std::optional(std::max(*after, *told)) : std::nullopt;
        }
        const bool answered = after && stays.clearings.answer(holding, m.until, *after);
        (answered ? out.answered : out.open).push_back(*m.doubt);
        if (answered) out.until.push_back(m.until);
    }
    return out;
}

}  // namespace

std::vector<Doubt> doubts_of(World& w, const HoldingKey& holding, const History& history, const StayCollector& stays) {
    return sorted_doubts(w, open_doubts(w), false, holding, history, stays).open;
}

std::vector<std::string> incidents_of(const std::vector<Doubt>& doubts) {
    std::vector<std::string> out;
    for (const Doubt& d : doubts)
        if (out.empty() || out.back() != d.incident) out.push_back(d.incident);
    return out;
}

std::vector<Doubt> doubts_of(World& w, const std::vector<Doubt>& closed, std::int64_t gone, const HoldingKey& holding,
                             const History& history, const StayCollector& stays) {
    std::vector<Doubt> out;
    for (auto& d : sorted_doubts(w, closed, false, holding, history, stays).open)
        if (d.closed && gone <= *d.closed && (out.empty() || out.back().incident != d.incident))
            out.push_back(std::move(d));
    return out;
}

std::vector<Remark> lapsed_of(World& w, const HoldingKey& holding, const History& history, const StayCollector& stays) {
    std::vector<Remark> out;
    for (const auto& d : sorted_doubts(w, open_doubts(w), true, holding, history, stays).open)
        out.push_back(*d.lapsed);
    return out;
}

std::vector<Settled> settled_of(World& w, const HoldingKey& holding, const History& history,
                                const StayCollector& stays) {
    const Sorted all = sorted_doubts(w, open_doubts(w), false, holding, history, stays);
    std::vector<Settled> out;
    for (std::size_t i = 0; i < all.answered.size(); ++i) {
        const std::string& incident = all.answered[i].incident;
        const auto is_it = [&](const auto& one) { return one.incident == incident; };
        if (std::ranges::any_of(all.open, is_it) || std::ranges::any_of(out, is_it)) continue;
        const ledger::Dated<Guidance>* by = nullptr;
        for (const Clearing& c : stays.clearings.of(holding))
            if (c.at >= all.until[i] && c.guidance->entry > all.answered[i].noticed &&
                (!by || c.guidance->entry > by->entry))
                by = c.guidance;
        if (by) out.push_back({incident, by});
    }
    return out;
}

Remark settled_words(const Settled& s) {
    return words::incident_settled(s.incident, guidance_words(*s.guidance));
}

}  // namespace coldtally::answers
