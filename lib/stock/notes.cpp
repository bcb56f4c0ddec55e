#include "stock/notes.hpp"

#include <algorithm>

#include "coldtally/quantities.hpp"
#include "conditions/fit.hpp"
#include "conditions/incidents.hpp"
#include "conditions/validity.hpp"
#include "stock/doubt.hpp"
#include "stock/last_use.hpp"

namespace coldtally::answers {

namespace {

/// An expiry this near is worth a note. Common practice, no source: stock is looked through once a month.
constexpr std::int64_t near_days = 30;

void allowance_notes(const ListsAnswer::Row& row, std::vector<std::string>& out) {
    const auto& used = row.history.total.allowances;
    for (std::size_t i = 0; i < used.size() && i < row.allowance_seconds.size(); ++i) {
        if (used[i].sign() == 0) continue;
        const Rational left = Rational(row.allowance_seconds[i].seconds()) - used[i];
        out.push_back("allowance " + std::to_string(i + 1) + ": " + duration_words(used[i], true) + " used, " +
                      (left.sign() > 0    ? duration_words(left, false) + " left"
                       : left.sign() == 0 ? "none left"
                                          : duration_words(-left, true) + " over"));
    }
    // the estimate is what an allowance is compared with; a careful person hears that it may be more
    const Rational most = row.history.total.warm.at_most + row.history.total.cold.at_most;
    for (std::size_t i = 0; i < used.size() && i < row.allowance_seconds.size(); ++i) {
        const Rational allowed(row.allowance_seconds[i].seconds());
        if (used[i].sign() > 0 && used[i] <= allowed && most > allowed)
            out.push_back("out of range at most " + duration_words(most, true) +
                          ": it may have been more than allowance " + std::to_string(i + 1) + " allows");
    }
}

/// Exposure that is not there by the readings as they stand, but may be within the tolerance of the probe.
void tolerance_notes(const History& h, std::vector<std::string>& out) {
    const auto note = [&](const SideExposure& s, const char* what) {
        if (s.estimate.sign() == 0 && s.at_most.sign() > 0)
            out.push_back("within the probe's tolerance: " + std::string(what) + " for at most " +
                          duration_words(s.at_most, true));
    };
    note(h.total.warm, "too warm");
    note(h.total.cold, "too cold");
    note(h.total.frozen, "frozen");
}

void guidance_notes(World& w, const ListsAnswer::Row& row, std::vector<std::string>& out) {
    const auto& k = row.holding;
    for (const auto& g : w.known.guidance) {
        const bool covers = g.fact.product == k.product && g.fact.lot == k.lot && g.fact.through <= w.head.at &&
                            g.fact.verdict != Verdict::discard &&
                            (!g.fact.place || row.history.places.contains(*g.fact.place)) &&
                            (!g.fact.mark || *g.fact.mark == k.mark);
        if (covers)
            out.push_back("guidance of entry " + std::to_string(g.entry) + " (" +
                          std::string(verdict_name(g.fact.verdict)) + "): " + g.fact.issuer + ", " + g.fact.reference);
    }
}

/// Time in the places that the doses were in while doses of their lot were there.
void certificate_notes(World& w, const ListsAnswer::Row& row, const Stays& stays, std::vector<std::string>& out) {
    for (const auto& place : row.history.places) {
        const auto there = stays.find(place);
        if (there == stays.end()) continue;  // at another site, or for no time
        for (const auto& [from, until] : there->second)
            for (const Lapse& l : lapses(w, place, from, until))
                out.push_back("readings of " + place + " without a valid certificate: " + words(l, w.known.zone()));
    }
}

/// Readings alone decide the list; that somebody has seen something wrong must not be lost on the way.
std::vector<std::string> incident_notes(const World& w, const std::vector<Doubt>& doubts) {
    std::vector<std::string> out;
    const auto when = [&](std::int64_t t) { return w.known.zone().local_text(Instant(t)); };
    for (const Doubt& d : doubts)
        out.push_back("incident " + d.incident + " is open; doses of this lot were in " + d.place +
                      " in its time in doubt, " + when(d.from) + " to " + when(d.until));
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

std::vector<std::string> texts_of(const std::vector<Note>& notes) {
    std::vector<std::string> out;
    for (const Note& note : notes) out.push_back(note.text);
    return out;
}

std::vector<std::string> texts_of(const std::vector<Note>& notes, std::initializer_list<Note::Kind> kinds) {
    std::vector<std::string> out;
    for (const Note& note : notes)
        if (std::find(kinds.begin(), kinds.end(), note.kind) != kinds.end()) out.push_back(note.text);
    return out;
}

std::optional<std::string> last_out_of_range(World& w, const std::string& id) {
    const Place* place = w.known.place(id);
    const auto last = place ? last_read(w, id) : std::nullopt;
    if (!last || is_in(place->range, last->scale, last->value)) return std::nullopt;
    return Temperature(last->scale, last->value).text() + " °" + scale_letter(last->scale) + " at " +
           w.known.zone().local_text(Instant(last->at));
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
    cleared_through.erase(target.key);
    not_come.receives(m, target, incoming);
}

void StayCollector::moves(const ledger::Movement&, const timeline::Holding& source, const timeline::Holding& target) {
    clearings.moves(source, target);
    not_come.moves(source, target);
    const auto from = cleared_through.find(source.key), to = cleared_through.find(target.key);
    if (from == cleared_through.end() || (target.doses > 0 && to == cleared_through.end()))
        cleared_through.erase(target.key);
    else
        cleared_through[target.key] = target.doses > 0 ? std::min(from->second, to->second) : from->second;
}

void StayCollector::guides(const ledger::Dated<Guidance>& g, const timeline::Holding& h, bool clears) {
    clearings.guides(g, h, clears);
    if (!clears) return;
    cleared_through[h.key] = g.fact.through.seconds_since_1970();
    not_come.clears(h);
}

std::vector<Note> notes(World& w, const ListsAnswer::Row& row, const Stays& stays, const std::vector<Doubt>& doubts) {
    std::vector<Note> out;
    const auto say = [&](std::string text, Note::Kind kind = Note::Kind::other) {
        out.push_back({kind, std::move(text)});
    };
    const auto say_all = [&](const std::vector<std::string>& texts, Note::Kind kind = Note::Kind::other) {
        for (const auto& text : texts) say(text, kind);
    };
    const History& h = row.history;
    std::vector<std::string> first, certificates;
    allowance_notes(row, first);
    tolerance_notes(h, first);
    guidance_notes(w, row, first);
    say_all(first);
    if (const auto last = last_out_of_range(w, row.holding.place))
        say("the last that was read in " + row.holding.place + " is out of range, " + *last);
    if (const Rational awaiting = awaited(w, row); awaiting.sign() > 0)
        say("no readings yet for the last " + duration_words(awaiting, true), Note::Kind::awaited);
    const auto& unmonitored = h.total.seconds[static_cast<std::size_t>(Class::unmonitored)];
    if (unmonitored.sign() > 0) say("temperature not known for " + duration_words(unmonitored, true));
    const auto& checked = h.total.seconds[static_cast<std::size_t>(Class::checked)];
    if (checked.sign() > 0) say("nothing is known between plain checks, " + duration_words(checked, true) + " in all");
    const auto& near = h.total.seconds[static_cast<std::size_t>(Class::near)];
    if (near.sign() > 0)
        say("near a reading in range, the temperature itself not known: " + duration_words(near, true));
    say_all(incident_notes(w, doubts), Note::Kind::incident);
    certificate_notes(w, row, stays, certificates);
    say_all(certificates);
    const Instant end = row.last_use.until;
    if (end > w.head.at && (end - w.head.at).seconds() <= near_days * 86400)
        say(row.last_use.set_by != "expiry" ? "usable " + last_use_words(row.last_use, w.known.zone())
                                            : "expires on " + row.expiry.text());
    return out;
}

}  // namespace coldtally::answers
