// What entries touch, and whether any of them can loosen anything: what is looked at before anything is computed.
#include <algorithm>

#include "conditions/incidents.hpp"
#include "drafts/loosening.hpp"
#include "drafts/redefine.hpp"
#include "question/said.hpp"
#include "stock/given_doses.hpp"
#include "stock/handover.hpp"
#include "stock/restated.hpp"
#include "stock/way_note.hpp"
#include "text/json_text.hpp"
#include "words/drafts.hpp"
#include "words/drafts_arrivals.hpp"
#include "words/general.hpp"

namespace coldtally::answers {

namespace {

/// Is any time of a place in [a, b) unknown?
bool unknown_in(World& w, const std::string& place, std::int64_t a, std::int64_t b) {
    const auto& trace = w.engine.trace_of(place, a);
    const auto& parts = trace.parts();
    for (std::size_t i = trace.part_at(a); i < parts.size() && parts[i].from < b; ++i)
        if (parts[i].kind == Class::unmonitored) return true;
    return false;
}

/// The latest instant at which anything is known to have happened to doses of a lot.
std::int64_t latest_of(const World& w, const std::string& product, const std::string& number) {
    std::int64_t out = INT64_MIN;
    const auto id = w.store.lot(product, number);
    if (!id) return out;
    for (const auto& m : w.store.movements(*id))
        if (w.known.is_known(m.entry)) out = std::max(out, m.at);
    for (const auto& h : w.known.holds)
        if (h.fact.product == product && (!h.fact.lot || *h.fact.lot == number)) out = std::max(out, h.at);
    for (const auto& g : w.known.guidance)
        if (g.fact.product == product && g.fact.lot == number)
            out = std::max(out, g.fact.through.seconds_since_1970());
    return out;
}

/// The places where a probe is in [from, until], each with the part of that time: take(place, from, until).
void at_places_of(const World& w, const std::string& probe, std::int64_t from, std::int64_t until, auto take) {
    for (const auto& a : w.engine.assignments())
        if (a.probe == probe && !a.place.empty() && a.from <= until && a.until > from)
            take(a.place, std::max(from, a.from), std::min(until, a.until));
}

/// May a definition change what a programme asks of an incident?
bool is_of_programme(const Fact& fact) {
    return std::holds_alternative<ProgrammeRules>(fact) || std::holds_alternative<Place>(fact);
}

/// May guidance that is known lift a hold of that instant?
bool is_lifted(const World& w, const Hold& hold, std::int64_t at) {
    return std::ranges::any_of(w.known.guidance, [&](const auto& g) {
        return g.fact.product == hold.product && (!hold.lot || g.fact.lot == *hold.lot) &&
               g.fact.verdict != Verdict::discard && g.fact.through.seconds_since_1970() > at;
    });
}

}  // namespace

Brief brief(const Entry& entry) {
    Brief out;
    if (const auto* readings = std::get_if<Readings>(&entry.fact)) {
        Readings bare;
        bare.probe = readings->probe;
        bare.scale = readings->scale;
        if (!readings->rows.empty()) {
            const auto [first, last] = std::minmax_element(readings->rows.begin(), readings->rows.end(),
                                                           [](const auto& a, const auto& b) { return a.at < b.at; });
            out.from = first->at.seconds_since_1970();
            out.until = last->at.seconds_since_1970();
        }
        out.fact = std::move(bare);
        return out;
    }
    out.fact = entry.fact;
    if (entry.at) out.from = out.until = entry.at->seconds_since_1970();
    if (const auto* r = std::get_if<Receive>(&entry.fact); r && r->handover)
        out.handover = handover_of_note(entry.note);
    return out;
}

Touched::Touched(World& w, const std::vector<Brief>& entries) {
    for (const Brief& one : entries) look(w, one);
}

bool Touched::may_worsen(World& after) const {
    const auto lots = after.lots();  // without any doses there is nothing that could be worse off
    if (std::ranges::none_of(lots, [&](const auto& lot) { return after.store.first_movement(lot.lot).has_value(); }))
        return false;
    return std::ranges::any_of(places_, [&](const auto& touched) {
        const auto& [place, time] = touched;
        const Place* known = after.known.place(place);
        if (!known || time.first > after.at) return false;
        const std::int64_t until = std::min(time.second, after.at);
        const Exposure e = after.engine.over_range(known->range, place, time.first, until, until == after.at);
        return e.points > 0 || e.warm.at_most.sign() > 0 || e.cold.at_most.sign() > 0;
    });
}

void Touched::touch(const World& w, const std::string& place, std::int64_t from, std::int64_t until) {
    if (!w.known.place(place)) return;
    const auto [it, fresh] = places_.emplace(place, std::pair(from, until));
    if (!fresh) it->second = {std::min(it->second.first, from), std::max(it->second.second, until)};
}

void Touched::touch_places_of(const World& w, const std::string& probe, std::int64_t from, std::int64_t until) {
    at_places_of(w, probe, from, until,
                 [&](const std::string& place, std::int64_t a, std::int64_t b) { touch(w, place, a, b); });
}

void Touched::temperatures(World& w, const std::string& place, std::int64_t from, std::int64_t until, bool is_check) {
    const Place* known = w.known.place(place);
    if (!known) return;
    touch(w, place, from, until);
    // a reading in range may begin the time in doubt of what was noticed later
    if (from < w.at)
        for (const auto& span : open_incidents(w))
            if (span.of(place) && span.since() > from) may_loosen_ = true;
    const std::int64_t near = known->near.value_or(Place::usual_near).seconds();
    std::int64_t since = from - near;
    if (is_check)  // a line, or bounds, reach back to the check before
        if (const auto last = w.store.check_before(place, from, [&](EntryNumber n) { return w.known.is_known(n); }))
            since = std::min(since, *last);
    const auto last = w.engine.trace_of(place, since).last();
    if (last && from <= *last) {
        may_loosen_ = true, of_the_past_ = true;
        if (is_check) only_adds_ = false;  // of what somebody says afterwards; a logger's memory is what it measured
        return;
    }
    if (last) since = std::min(since, *last);  // readings join the last one before them
    if (unknown_in(w, place, since, until + std::max<std::int64_t>(near, 1))) may_loosen_ = true;
}

/// What came by the older one, and was given of it, would go on by a history that the sender states no more. It has the
/// newer one where that is received at the same instant in the same holding, and the older is taken back then.
void Touched::handover_anew(World& w, const Receive& r, const Brief& one) {
    for (const auto& older : received_otherwise(w, r.product, r.lot, one.handover, *r.handover)) {
        const Receive& o = older.receive;
        if (older.at.seconds_since_1970() == one.from && o.place == r.place && o.fund == r.fund && o.mark == r.mark)
            continue;
        late();
        GivenDoses given;
        for (const auto& [entry, doses] : given_by_older(w, older, *r.handover)) given.add(entry, doses.count());
        const HoldingKey there{o.place, o.product, o.lot, o.fund, o.mark};
        asks_.push_back(words::older_history_kept(
            older.entry, told_words(o.handover->history), told_words(r.handover->history),
            given.any() ? given.words() : words::nothing_given_of_it(), w.known.zone().local_text(older.at),
            said::place_words(there)));
    }
}

/// Taken back may be the older one alone.
void Touched::handover_gone(World& w, const Receive& r, const Brief& of, EntryNumber number) {
    for (const auto& older : received_otherwise(w, r.product, r.lot, of.handover, *r.handover))
        if (older.entry < number)
            asks_.push_back(words::newer_history_lost(number, told_words(r.handover->history), older.entry,
                                                      told_words(older.receive.handover->history)));
}

void Touched::movement(World& w, const ledger::MovementNames& names, std::int64_t at) {
    const auto [it, fresh] = latest_.emplace(std::pair(names.product, names.lot), INT64_MIN);
    if (fresh) it->second = latest_of(w, names.product, names.lot);
    if (it->second > at) late();
    // doses that left a place before an incident was noticed there are none of those in doubt
    if (!names.source_place.empty())
        for (const auto& span : open_incidents(w))
            if (span.of(names.source_place) && span.since() > at) late();
    if (names.op != ledger::MovementOp::move || !w.known.place(names.source_place)) return;
    // what was read since in the place that they leave would not be of theirs
    const auto last = w.engine.trace_of(names.source_place, at).last();
    if (last && *last > at) late();
}

void Touched::assignment(const World& w, const Assign& assign, std::int64_t at) {
    if (assign.place) touch(w, *assign.place, at, w.at);
    touch_places_of(w, assign.probe, at, w.at);
}

void Touched::certificate(World& w, const Certificate& certificate, std::int64_t at) {
    late();
    bool any = false;  // of an earlier time, which nobody may have known to be certified
    at_places_of(w, certificate.probe, at, w.at, [&](const std::string& place, std::int64_t a, std::int64_t b) {
        const auto last = w.engine.trace_of(place, a).last();
        any = any || (last && *last >= a && a < b);
    });
    if (any)
        asks_.push_back(
            words::counts_as_certified(text::quoted(certificate.probe), w.known.zone().local_text(Instant(at))));
    touch_places_of(w, certificate.probe, at, w.at);
}

void Touched::taken_back(World& w, EntryNumber number) {
    late();
    const auto entry = w.known.is_known(number) ? w.store.entry(number, true) : std::nullopt;
    if (!entry) return;
    const Brief of = brief(*entry);
    programme_ = programme_ || is_of_programme(of.fact);
    if (const auto* received = std::get_if<Receive>(&of.fact); received && received->handover)
        handover_gone(w, *received, of, number);
    if (const auto* left = std::get_if<Transfer>(&of.fact))
        if (const auto sent = handover(w, number); sent.needed)
            asks_.push_back(words::would_not_have_left(words::doses(sent.doses.count()), left->product, left->lot,
                                                       left->to, left->place));
    if (const auto* check = std::get_if<Check>(&of.fact)) touch(w, check->place, of.from, of.from);
    if (const auto* readings = std::get_if<Readings>(&of.fact)) touch_places_of(w, readings->probe, of.from, of.until);
    if (const auto* assign = std::get_if<Assign>(&of.fact)) assignment(w, *assign, of.from);
    if (const auto* was = std::get_if<Certificate>(&of.fact)) touch_places_of(w, was->probe, of.from, w.at);
}

void Touched::look(World& w, const Brief& one) {
    if (const auto* check = std::get_if<Check>(&one.fact))
        return temperatures(w, check->place, one.from, one.from, true);
    if (const auto* readings = std::get_if<Readings>(&one.fact))
        return at_places_of(
            w, readings->probe, one.from, one.until,
            [&](const std::string& place, std::int64_t a, std::int64_t b) { temperatures(w, place, a, b, false); });
    if (const auto* received = std::get_if<Receive>(&one.fact); received && received->handover)
        handover_anew(w, *received, one);
    if (const auto names = ledger::movement_names(one.fact)) return movement(w, *names, one.from);
    if (const auto* assign = std::get_if<Assign>(&one.fact)) {
        late();
        return assignment(w, *assign, one.from);
    }
    if (const auto* posted = std::get_if<Certificate>(&one.fact)) return certificate(w, *posted, one.from);
    if (const auto* undo = std::get_if<Void>(&one.fact)) return taken_back(w, undo->voids);
    if (std::holds_alternative<Guidance>(one.fact)) return late();
    if (const auto* hold = std::get_if<Hold>(&one.fact)) {
        may_loosen_ = may_loosen_ || is_lifted(w, *hold, one.from);
        return;
    }
    if (const auto* step = std::get_if<Incident>(&one.fact)) {
        if (step->step == IncidentStep::closed) late();
        return;
    }
    if (!held(w.known, w.store, one.fact)) return;
    late();  // another definition of a known thing
    programme_ = programme_ || is_of_programme(one.fact);
}

}  // namespace coldtally::answers
