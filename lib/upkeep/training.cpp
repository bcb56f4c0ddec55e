#include "upkeep/training.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "stock/loans.hpp"
#include "upkeep/last_day.hpp"

namespace coldtally::answers {

TrainingAnswer training(World& w) {
    TrainingAnswer out;
    out.head = w.head;
    out.every_days = every_days(w, "training");
    std::map<std::pair<std::string, std::string>, Entry> last;
    std::set<std::string> trained;
    for (auto& e : duties(w, Training::kind)) {
        const auto& t = std::get<Training>(e.fact);
        trained.insert(t.person);
        const auto key = std::pair(t.person, t.topic);
        last.insert_or_assign(key, std::move(e));
    }
    const Zone& zone = w.known.zone();
    for (const auto& [key, e] : last) {
        const auto& t = std::get<Training>(e.fact);
        TrainingAnswer::Row row{e.number, *e.at, t.person, t.topic, t.reference, {}, false};
        if (const auto day = last_day(t.due, zone.local(*e.at).date, out.every_days)) {
            row.due = zone.end_of_day(day->day);
            row.lapsed = w.head.at >= *row.due;
        }
        out.training.push_back(std::move(row));
    }
    const auto rank = [](const TrainingAnswer::Row& r) {
        return std::make_tuple(!r.due, r.due.value_or(Instant()), r.person, r.topic);
    };
    std::sort(out.training.begin(), out.training.end(),
              [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
    const auto plans = duties(w, Plan::kind);
    if (!plans.empty())
        for (const auto& person : std::get<Plan>(plans.back().fact).people)
            if (trained.insert(person.name).second) out.without.push_back(person.name);
    return out;
}

}  // namespace coldtally::answers
