#include "answers/changes.hpp"

#include <map>

#include "answers/lists.hpp"
#include "answers/review.hpp"

namespace coldtally::answers {

Snapshot snapshot(World& w) { return {lists(w), review(w, true)}; }

Changes changes(const Snapshot& before, const Snapshot& after) {
    Changes out;
    out.head = before.lists.head;

    std::map<HoldingKey, Changes::Holding> holdings;
    const auto state = [](const ListsAnswer::Row& row) {
        return Changes::State{row.doses, row.list, row.reasons, row.history, row.in_doubt};
    };
    for (const auto& row : before.lists.holdings) holdings[row.holding].before = state(row);
    for (const auto& row : after.lists.holdings) holdings[row.holding].after = state(row);
    for (auto& [key, holding] : holdings) {
        if (holding.before == holding.after) continue;
        holding.holding = key;
        out.holdings.push_back(std::move(holding));
    }

    std::map<std::pair<Instant, EntryNumber>, Changes::Dose> doses;
    const auto fill = [&](const ReviewAnswer::Row& row, std::optional<std::string> Changes::Dose::*side) {
        auto& dose = doses[{row.at, row.entry}];
        dose.entry = row.entry;
        dose.at = row.at;
        dose.patient = row.patient;
        dose.holding = row.holding;
        dose.*side = row.finding;
    };
    for (const auto& row : before.review.doses) fill(row, &Changes::Dose::before);
    for (const auto& row : after.review.doses) fill(row, &Changes::Dose::after);
    for (auto& [key, dose] : doses)
        if (dose.before != dose.after) out.doses.push_back(std::move(dose));
    return out;
}

}  // namespace coldtally::answers
