#include "answers/validity.hpp"

#include <algorithm>

namespace coldtally::answers {

std::vector<Lapse> lapses(const World& w, const std::string& place, std::int64_t from, std::int64_t until) {
    std::vector<Lapse> out;
    for (const auto& a : w.engine.assignments()) {
        if (a.place != place) continue;
        std::int64_t t = std::max(from, a.from);
        const std::int64_t end = std::min(until, a.until);
        const auto add = [&](std::int64_t b, bool none) {
            if (t < b) out.push_back({a.probe, none, t, b});
        };
        const auto it = w.known.certificates.find(a.probe);
        const Certificate* held = nullptr;
        std::int64_t runs_out = 0;  // of the one held
        if (it != w.known.certificates.end())
            for (const auto& c : it->second) {
                const std::int64_t begins = std::clamp(c.at, t, std::max(t, end));
                if (!held || runs_out < begins) {
                    if (held) t = std::max(t, runs_out);
                    add(std::min(begins, end), !held);
                }
                t = std::max(t, begins);
                held = &c.fact;
                runs_out = w.known.zone().end_of_day(c.fact.expires).seconds_since_1970();
            }
        if (held) t = std::max(t, runs_out);
        add(end, !held);
    }
    return out;
}

std::string words(const Lapse& l, const Zone& zone) {
    return "probe " + l.probe + (l.none ? ": no certificate, " : ": certificate run out, ") + zone.local_text(Instant(l.from)) + " to " + zone.local_text(Instant(l.until));
}

}  // namespace coldtally::answers
