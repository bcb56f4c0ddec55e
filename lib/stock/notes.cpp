#include "stock/notes.hpp"

#include <algorithm>

#include "coldtally/quantities.hpp"
#include "conditions/fit.hpp"
#include "conditions/incidents.hpp"
#include "conditions/validity.hpp"
#include "question/said.hpp"
#include "stock/doubt.hpp"
#include "stock/last_use.hpp"
#include "words/general.hpp"
#include "words/history.hpp"
#include "words/lists.hpp"
#include "words/stock.hpp"

namespace coldtally::answers {

namespace {

/// An expiry this near is worth a note. Common practice, no source: stock is looked through once a month.
constexpr std::int64_t near_days = 30;

void allowance_notes(const ListsAnswer::Row& row, std::vector<Remark>& out) {
    const auto& used = row.history.total.allowances;
    for (std::size_t i = 0; i < used.size() && i < row.allowance_seconds.size(); ++i) {
        if (used[i].sign() == 0) continue;
        const Rational left = Rational(row.allowance_seconds[i].seconds()) - used[i];
        const std::string time = duration_words(used[i], true);
        out.push_back(left.sign() > 0    ? words::allowance_left(i + 1, time, duration_words(left, false))
                      : left.sign() == 0 ? words::allowance_none_left(i + 1, time)
                                         : words::allowance_over(i + 1, time, duration_words(-left, true)));
    }
    // the estimate is what an allowance is compared with; a careful person hears that it may be more
    const Rational most = row.history.total.warm.at_most + row.history.total.cold.at_most;
    for (std::size_t i = 0; i < used.size() && i < row.allowance_seconds.size(); ++i) {
        const Rational allowed(row.allowance_seconds[i].seconds());
        if (used[i].sign() > 0 && used[i] <= allowed && most > allowed)
            out.push_back(words::perhaps_over_allowance(duration_words(most, true), i + 1));
    }
}

/// Exposure that is not there by the readings as they stand, but may be within the tolerance of the probe.
void tolerance_notes(const History& h, std::vector<Remark>& out) {
    const auto note = [&](const SideExposure& s, const Remark& side) {
        if (s.estimate.sign() == 0 && s.at_most.sign() > 0)
            out.push_back(words::within_tolerance(side, duration_words(s.at_most, true)));
    };
    note(h.total.warm, words::too_warm);
    note(h.total.cold, words::too_cold);
    note(h.total.frozen, words::name_frozen);
}

void guidance_notes(World& w, const ListsAnswer::Row& row, std::vector<Remark>& out) {
    const auto& k = row.holding;
    for (const auto& g : w.known.guidance) {
        const bool covers = g.fact.product == k.product && g.fact.lot == k.lot && g.fact.through <= w.head.at &&
                            g.fact.verdict != Verdict::discard &&
                            (!g.fact.place || row.history.places.contains(*g.fact.place)) &&
                            (!g.fact.mark || *g.fact.mark == k.mark);
        if (covers)
            out.push_back(words::guidance_covers(g.entry, said::verdict_words(g.fact.verdict), g.fact.issuer,
                                                 g.fact.reference));
    }
}

/// Time in the places that the doses were in while doses of their lot were there.
void certificate_notes(World& w, const ListsAnswer::Row& row, const Stays& stays, std::vector<Remark>& out) {
    for (const auto& place : row.history.places) {
        const auto there = stays.find(place);
        if (there == stays.end()) continue;  // at another site, or for no time
        for (const auto& [from, until] : there->second)
            for (const Lapse& l : lapses(w, place, from, until))
                out.push_back(words::without_certificate(place, words(l, w.known.zone())));
    }
}

/// Readings alone decide the list; that somebody has seen something wrong must not be lost on the way. Of an incident
/// in a place, all parts of the time in doubt in which they stood: a later one may be the graver.
std::vector<Remark> incident_notes(const World& w, const std::vector<Doubt>& doubts) {
    std::vector<Remark> out;
    const auto when = [&](std::int64_t t) { return w.known.zone().local_text(Instant(t)); };
    for (auto d = doubts.begin(); d != doubts.end();) {
        const auto end = std::find_if(d, doubts.end(), [&](const Doubt& other) {
            return other.incident != d->incident || other.place != d->place;
        });
        std::vector<Field> parts;
        for (auto part = d; part != end; ++part)
            parts.emplace_back(words::from_to(when(part->from), when(part->until)));
        out.push_back(parts.size() > 1
                          ? words::stood_in_doubt_in_parts(d->incident, d->place, words::listed_with_and(parts))
                          : words::stood_in_doubt(d->incident, d->place, when(d->from), when(d->until)));
        d = end;
    }
    return out;
}

/// Of all that a holding counts as awaited, what came with a sender's history.
Rational not_come_of(const World& w, const HoldingKey& key) {
    Rational out;
    for (const auto& lot : w.lots_of(key.lot, key.product)) {
        const auto movements = w.store.movements(lot.lot);
        const auto with_history = [](const auto& m) { return m.op == ledger::MovementOp::receive && m.flag; };
        if (std::ranges::none_of(movements, with_history)) continue;
        out = std::max(out, use_of(w, lot).not_come.most(key));
    }
    return out;
}

}  // namespace

void StayCollector::stayed(const timeline::Holding& h, std::int64_t from, std::int64_t until, const Exposure&) {
    auto& all = stays[h.key.place];
    for (auto& [a, b] : all)
        if (from <= b && a <= until) {
            a = std::min(a, from);
            b = std::max(b, until);
            return;
        }
    all.emplace_back(from, until);
}

std::optional<trace::Point> last_read(World& w, const std::string& place) {
    std::optional<trace::Point> out;
    const auto& trace = w.engine.trace_of(place);
    const auto& spans = trace.spans();
    std::size_t i = trace.span_at(w.at);
    if (i == spans.size() || spans[i].first_at > w.at) i = i == 0 ? spans.size() : i - 1;
    if (i < spans.size()) {
        std::vector<trace::Point> rows;
        spans[i].read(rows);
        for (const auto& row : rows)
            if (row.at <= w.at) out = row;
    }
    if (const std::size_t k = trace.check_at(w.at + 1); k > 0 && (!out || trace.checks()[k - 1].point.at >= out->at))
        out = trace.checks()[k - 1].point;
    return out;
}

std::vector<Remark> said_of(const std::vector<Note>& notes) {
    std::vector<Remark> out;
    for (const Note& note : notes) out.push_back(note.said);
    return out;
}

std::vector<Remark> said_of(const std::vector<Note>& notes, std::initializer_list<Note::Kind> kinds) {
    std::vector<Remark> out;
    for (const Note& note : notes)
        if (std::find(kinds.begin(), kinds.end(), note.kind) != kinds.end()) out.push_back(note.said);
    return out;
}

std::optional<Remark> last_out_of_range(World& w, const std::string& id) {
    const Place* place = w.known.place(id);
    const auto last = place ? last_read(w, id) : std::nullopt;
    if (!last || is_in(place->range, last->scale, last->value)) return std::nullopt;
    return words::degrees_at(Temperature(last->scale, last->value).text() + " °" + scale_letter(last->scale),
                             w.known.zone().local_text(Instant(last->at)));
}

Rational awaited(World& w, const ListsAnswer::Row& row) {
    const Rational& counted = row.history.total.seconds[static_cast<std::size_t>(Class::awaiting)];
    if (counted.sign() == 0) return counted;
    const std::int64_t here = w.awaited(row.holding.place).seconds();
    if (here > 0) return Rational(here);
    return std::max(Rational(0), counted - not_come_of(w, row.holding));  // where they were before
}

void StayCollector::receives(const ledger::Movement& m, const timeline::Holding& target, const History& incoming) {
    clearings.receives(target);
    not_come.receives(m, target, incoming);
}

void StayCollector::moves(const ledger::Movement&, const timeline::Holding& source, const timeline::Holding& target) {
    clearings.moves(source, target);
    not_come.moves(source, target);
}

void StayCollector::guides(const ledger::Dated<Guidance>& g, const timeline::Holding& h, bool clears) {
    clearings.guides(g, h, clears);
    if (clears) not_come.clears(h);
}

std::vector<Note> notes(World& w, const ListsAnswer::Row& row, const Stays& stays, const std::vector<Doubt>& doubts) {
    std::vector<Note> out;
    const auto say = [&](Remark said, Note::Kind kind = Note::Kind::other) { out.push_back({kind, std::move(said)}); };
    const auto say_all = [&](const std::vector<Remark>& all, Note::Kind kind = Note::Kind::other) {
        for (const auto& one : all) say(one, kind);
    };
    const History& h = row.history;
    std::vector<Remark> first, certificates;
    allowance_notes(row, first);
    tolerance_notes(h, first);
    guidance_notes(w, row, first);
    say_all(first);
    if (const auto last = last_out_of_range(w, row.holding.place))
        say(words::last_read_out(row.holding.place, *last));
    if (const Rational awaiting = awaited(w, row); awaiting.sign() > 0)
        say(words::no_readings_yet(duration_words(awaiting, true)), Note::Kind::awaited);
    const auto& unmonitored = h.total.seconds[static_cast<std::size_t>(Class::unmonitored)];
    if (unmonitored.sign() > 0) say(words::temperature_not_known(duration_words(unmonitored, true)));
    const auto& checked = h.total.seconds[static_cast<std::size_t>(Class::checked)];
    if (checked.sign() > 0) say(words::nothing_between_checks(duration_words(checked, true)));
    const auto& near = h.total.seconds[static_cast<std::size_t>(Class::near)];
    if (near.sign() > 0) say(words::near_reading_for(duration_words(near, true)));
    say_all(incident_notes(w, doubts), Note::Kind::incident);
    certificate_notes(w, row, stays, certificates);
    say_all(certificates);
    const Instant end = row.last_use.until;
    if (end > w.head.at && (end - w.head.at).seconds() <= near_days * 86400)
        say(row.last_use.set_by != UseLimitKind::expiry
                ? words::usable_is(last_use_words(row.last_use, w.known.zone()))
                : words::expires_on(row.expiry.text()));
    return out;
}

}  // namespace coldtally::answers
