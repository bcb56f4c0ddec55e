#include "conditions/conditions.hpp"

#include "conditions/display_memory.hpp"
#include "conditions/excursions.hpp"
#include "conditions/kinetic.hpp"
#include "conditions/validity.hpp"
#include "conditions/weights.hpp"
#include "trace/lines.hpp"

namespace coldtally::answers {

ConditionsAnswer conditions(World& w, const std::string& place, Instant from, Instant until,
                            std::int64_t activation_K) {
    ConditionsAnswer out;
    out.head = w.head;
    out.place = place;
    out.from = from;
    out.until = until;
    out.head.window = window_words(from, until, w.head.at, w.known.zone());
    const Place& definition = w.place(place);
    const Window window = window_of(w, from, until);
    if (window.empty) return out;
    out.beside = shown_before(w, place, window);
    const Exposure e = w.engine.over_range(definition.range, place, window.from, window.until, window.with_end);
    out.seconds = e.seconds;
    out.lowest_C = e.lowest_C;
    out.highest_C = e.highest_C;
    Weights ends;
    trace::for_each_line(
        w.engine.trace_of(place), window.from, window.until, [](const trace::Span&) { return false; },
        [&](const trace::Point& p, const trace::Point& q, std::int64_t a, std::int64_t b) { ends.line(p, q, a, b); });
    const auto weights = ends.by_celsius();
    if (!weights.empty()) {
        out.mean_C = mean_C(weights);
        out.mean_kinetic_C = mean_kinetic_C(weights, activation_K);
    }
    out.excursions = static_cast<std::int64_t>(find_excursions(w, place, window).size());
    for (const Lapse& l : lapses(w, place, window.from, window.until)) out.marks.push_back(words(l, w.known.zone()));
    return out;
}

}  // namespace coldtally::answers
