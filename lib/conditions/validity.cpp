#include "conditions/validity.hpp"

#include <algorithm>

#include "words/conditions.hpp"
#include "words/general.hpp"

namespace coldtally::answers {

std::vector<Lapse> lapses(World& w, const std::string& place, std::int64_t from, std::int64_t until) {
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
    const std::size_t assigned = out.size();
    const auto& checks = w.engine.trace_of(place, from).unproven_checks();
    for (auto c = std::partition_point(checks.begin(), checks.end(), [&](const auto& x) { return x.at < from; });
         c != checks.end() && c->at < until; ++c) {
        if (std::any_of(out.begin(), out.begin() + static_cast<std::ptrdiff_t>(assigned),
                        [&](const Lapse& l) { return l.probe == c->probe && l.from <= c->at && c->at < l.until; }))
            continue;
        const auto same = std::find_if(out.begin() + static_cast<std::ptrdiff_t>(assigned), out.end(),
                                       [&](const Lapse& l) { return l.probe == c->probe && l.none == c->none; });
        if (same == out.end()) {
            out.push_back({c->probe, c->none, c->at, c->at, 1});
        } else {
            same->until = c->at;
            ++same->checks;
        }
    }
    return out;
}

Remark time_words(const Lapse& l, const Zone& zone) {
    const std::string from = zone.local_text(Instant(l.from)), until = zone.local_text(Instant(l.until));
    if (l.checks == 1) return words::lapse_check(from);
    return l.checks > 1 ? words::lapse_checks(l.checks, from, until) : words::from_to(from, until);
}

Remark words(const Lapse& l, const Zone& zone) {
    return (l.none ? words::probe_uncertified : words::probe_certificate_expired)(l.probe, time_words(l, zone));
}

}  // namespace coldtally::answers
