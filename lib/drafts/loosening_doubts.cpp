// Of loosening: doses given, and doses that left, in the time in doubt of an open incident.
#include "drafts/comparison.hpp"
#include "words/general.hpp"
#include "words/loosening.hpp"

namespace coldtally::answers {

namespace {

/// Was all measured in a place from an instant to the reading in range that the time in doubt begins with?
bool is_measured(World& w, const std::string& place, Instant from, const Looked::Doubted& doubted) {
    const Place* known = w.known.place(place);
    const auto last = doubted.last_good.find(place);
    if (!known || last == doubted.last_good.end() || last->second <= from) return false;
    const Exposure e = w.engine.over_range(known->range, place, from.seconds_since_1970(),
                                           last->second.seconds_since_1970(), false);
    return e.seconds[static_cast<std::size_t>(Class::logged)] + e.seconds[static_cast<std::size_t>(Class::bounded)] ==
           Rational((last->second - from).seconds());
}

/// What leaves it by a measured time, and what does although nothing was.
struct Leaves {
    std::vector<Field> measured, not_measured;
};

void say(Comparison& c, const Leaves& gone, const words::Says<3>& asks, const words::Says<3>& says,
         const std::string& incident) {
    if (!gone.not_measured.empty())
        c.ask(asks(gone.not_measured.size(), incident, first_of(gone.not_measured)));
    if (!gone.measured.empty()) c.say(says(gone.measured.size(), incident, first_of(gone.measured)));
}

}  // namespace

void compare_doubts(Comparison& c) {
    World fresh(c.w.store, c.w.head, c.w.known);  // traces may have been read from a later instant on
    const auto there = [&](EntryNumber n) { return fresh.known.is_known(n); };
    for (const auto& [incident, was] : c.before.doubted) {
        const auto it = c.after.doubted.find(incident);
        if (it == c.after.doubted.end()) continue;  // closed, or never noticed: that is asked about elsewhere
        const Looked::Doubted& is = it->second;
        const auto add = [&](Leaves& to, const std::string& place, Instant at, EntryNumber entry) {
            (is_measured(fresh, place, at, is) ? to.measured : to.not_measured).emplace_back(words::entry(entry));
        };
        Leaves given, left;
        for (const auto& [entry, of] : was.given) {
            if (is.given.contains(entry) || !there(entry)) continue;
            add(given, of.first, of.second, entry);
            c.left_doubt.insert(entry);
        }
        for (const auto& [entry, of] : was.left)
            if (!is.left.contains(entry) && there(entry)) add(left, of.first, of.second, entry);
        say(c, given, words::gives_leave_doubt, words::gives_left_doubt, incident);
        say(c, left, words::transfers_leave_doubt, words::transfers_left_doubt, incident);
    }
}

}  // namespace coldtally::answers
