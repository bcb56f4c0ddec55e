#include "trace/assignment.hpp"

#include <map>

namespace coldtally::trace {

std::vector<Assignment> assignments(const ledger::Known& known) {
    std::vector<Assignment> all;
    std::map<std::string, std::size_t> of_probe, of_place;  // those that have not ended
    const auto end = [&](std::size_t which, std::int64_t at) {
        all[which].until = at;
        of_probe.erase(all[which].probe);
        of_place.erase(all[which].place);
    };
    for (const auto& a : known.assigns) {
        const auto mine = of_probe.find(a.fact.probe);
        if (mine != of_probe.end() && a.fact.place && all[mine->second].place == *a.fact.place)
            continue;  // where it is: changes nothing
        if (mine != of_probe.end()) end(mine->second, a.at);
        if (!a.fact.place) continue;
        if (const auto other = of_place.find(*a.fact.place); other != of_place.end()) end(other->second, a.at);
        all.push_back({a.at, forever, a.fact.probe, *a.fact.place});
        of_probe[a.fact.probe] = of_place[*a.fact.place] = all.size() - 1;
    }
    return all;
}

}  // namespace coldtally::trace
