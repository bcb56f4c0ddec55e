#include "conditions/readings.hpp"

#include "coldtally/error.hpp"
#include "ledger/posting.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

ReadingsAnswer readings(World& w, const std::string& probe, Instant from, Instant until) {
    ReadingsAnswer out;
    out.head = w.head;
    out.probe = probe;
    out.head.window = window_words(from, until, w.head.at, w.known.zone());
    const Probe* definition = w.known.probe(probe);
    if (!definition) throw Error(Code::not_known, "probe: " + text::quoted(probe) + ": no probe of this id is known");
    out.scale = definition->scale;
    const Window window = window_of(w, from, until);
    if (!window.empty)
        out.rows = ledger::readings_between(w.store, w.known, probe, window.from,
                                            window.with_end ? window.until : window.until - 1);
    return out;
}

}  // namespace coldtally::answers
