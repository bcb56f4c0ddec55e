#include "conditions/excursions.hpp"

#include <algorithm>

#include "conditions/display_memory.hpp"
#include "conditions/excursion_ends.hpp"
#include "conditions/validity.hpp"
#include "words/conditions.hpp"

namespace coldtally::answers {

namespace {

using trace::Point;
using Interval = std::pair<Rational, Rational>;

/// When a holding had doses, and how many from which instant on; all entries of an instant done.
struct Stays {
    HoldingKey key;
    const Product* product = nullptr;
    std::vector<std::pair<std::int64_t, std::int64_t>>
        doses_from;  // (instant, doses), ascending; of one instant the last holds

    bool has_doses_at(std::int64_t t) const { return doses_at(t) > 0; }
    std::int64_t doses_at(std::int64_t t) const {
        const auto after = std::ranges::upper_bound(doses_from, t, {}, &std::pair<std::int64_t, std::int64_t>::first);
        return after == doses_from.begin() ? 0 : (after - 1)->second;
    }
    /// The parts of an interval in which it had doses: one from when there were some until there were none, however
    /// many entries between.
    void overlaps(const Interval& with, std::vector<Interval>& out) const {
        for (std::size_t i = 0; i < doses_from.size();) {
            std::size_t j = i + 1;
            if (doses_from[i].second > 0) {
                while (j < doses_from.size() && doses_from[j].second > 0) ++j;
                const Rational from = std::max(with.first, Rational(doses_from[i].first));
                const Rational until =
                    j < doses_from.size() ? std::min(with.second, Rational(doses_from[j].first)) : with.second;
                if (from < until) out.emplace_back(from, until);
            }
            i = j;
        }
    }
};

std::vector<Stays> stays_in(World& w, const std::string& place) {
    std::vector<Stays> out;
    for (const auto& lot : w.store.lots_in_place(place)) {
        if (!w.known.product(lot.product)) continue;
        std::map<std::int64_t, Stays> here;
        for (const auto& h : w.store.holdings(lot.lot))
            if (h.place == place)
                here[h.holding] = {
                    {h.place, lot.product, lot.number, h.fund, h.mark}, w.known.product(lot.product), {}};
        ledger::StockWalk walk;
        for (const auto& m : w.store.movements(lot.lot)) {
            if (m.at > w.at || !w.known.is_known(m.entry)) continue;
            walk.apply(m);
            for (const auto id : {m.source, m.target}) {
                const auto it = here.find(id);
                if (it == here.end()) continue;
                it->second.doses_from.emplace_back(m.at, walk.doses(id));
            }
        }
        for (auto& [id, s] : here)
            if (!s.doses_from.empty()) out.push_back(std::move(s));
    }
    std::ranges::sort(out, {}, &Stays::key);
    return out;
}

/// Pieces that touch, as one interval.
std::vector<Interval> intervals_of(const Found& f) {
    std::vector<Interval> out;
    for (const auto& p : f.pieces) {
        if (!out.empty() && out.back().second == p.from)
            out.back().second = p.until;
        else
            out.emplace_back(p.from, p.until);
    }
    return out;
}

std::vector<ExcursionsAnswer::Inside> attribution(World& w, const std::string& place, const Found& f,
                                                  const std::vector<Stays>& all) {
    std::vector<ExcursionsAnswer::Inside> out;
    const auto intervals = intervals_of(f);
    for (const Stays& s : all) {
        ExcursionsAnswer::Inside inside;
        inside.holding = s.key;
        inside.allowance_seconds = ledger::allowance_seconds(*s.product);
        if (f.kind == ExcursionKind::point) {
            const std::int64_t t = f.from.floor();
            if (!s.has_doses_at(t)) continue;
            inside.doses = Doses(s.doses_at(t));
            inside.exposure = w.engine.at_instant(*s.product, place, t);
        } else {
            std::vector<Interval> over;
            for (const auto& i : intervals) s.overlaps(i, over);
            if (over.empty()) continue;
            inside.doses = Doses(s.doses_at(over.front().first.floor()));
            for (const auto& [a, b] : over) inside.exposure.add(w.engine.over(*s.product, place, a, b, false));
        }
        out.push_back(std::move(inside));
    }
    return out;
}

/// How long the doses inside may have been out of range on that side, by the values around the excursion.
std::vector<std::pair<HoldingKey, Rational>> longest(World& w, const std::string& place, const Found& f,
                                                     const std::vector<Stays>& all) {
    std::vector<std::pair<HoldingKey, Rational>> out;
    if (f.kind != ExcursionKind::line) return out;
    const Interval whole = around(w, place, f);
    for (const Stays& s : all) {
        std::vector<Interval> over;
        s.overlaps(whole, over);
        Exposure sum;
        for (const auto& [a, b] : over) sum.add(w.engine.over(*s.product, place, a, b, false));
        if (!over.empty()) out.emplace_back(s.key, f.side == Side::warm ? sum.warm.at_most : sum.cold.at_most);
    }
    return out;
}

/// The reading or check that an excursion is judged by at its end.
Point judge_of(World& w, const std::string& place, const Found& f) {
    const auto& trace = w.engine.trace_of(place);
    const std::int64_t t = f.until.ceil();
    const auto& spans = trace.spans();
    const auto& checks = trace.checks();
    const std::size_t i = trace.span_at(t), k = trace.check_at(t);
    if (f.kind != ExcursionKind::bounded && i < spans.size() &&
        (spans[i].first_at <= t || (i > 0 && spans[i - 1].joined)))
        return spans[i].first_point();
    return checks[k].point;  // every excursion ends at or before a reading or a check
}

std::vector<Remark> marks(World& w, const std::string& place, const Found& f) {
    std::vector<Remark> out;
    for (const Lapse& l : lapses(w, place, f.from.floor(), f.until.floor() + 1))
        out.push_back(words::uncertified_readings(words(l, w.known.zone())));
    const Range& range = w.place(place).range;
    const Point judge = judge_of(w, place, f);
    const Rational limit = (f.side == Side::warm ? range.high : range.low)->in(judge.scale);
    const Rational peak = judge.scale == Scale::C ? f.peak_C : f.peak_C * Rational(9, 5) + Rational(32);
    const Rational beyond = f.side == Side::warm ? peak - limit : limit - peak;
    if (judge.tolerance > 0 && beyond <= Rational(judge.tolerance, 1000))
        out.push_back(words::peak_within_tolerance);
    return out;
}

}  // namespace

std::array<Rational, class_count> coverage_of(World& w, const std::string& place, const Window& window) {
    std::array<Rational, class_count> out;
    if (window.empty) return out;
    const auto& trace = w.engine.trace_of(place);
    const auto& parts = trace.parts();  // all time that is not logged
    std::int64_t logged = window.until - window.from;
    for (std::size_t i = trace.part_at(window.from); i < parts.size() && parts[i].from < window.until; ++i) {
        const std::int64_t s = std::min(parts[i].until, window.until) - std::max(parts[i].from, window.from);
        if (s <= 0) continue;
        out[static_cast<std::size_t>(parts[i].kind)] += Rational(s);
        logged -= s;
    }
    out[static_cast<std::size_t>(Class::logged)] = Rational(logged);
    return out;
}

Rational checked_s(World& w, const std::string& place, const Found& f) {
    Rational out;
    if (f.kind != ExcursionKind::line) return out;
    const auto& trace = w.engine.trace_of(place);
    const auto& parts = trace.parts();
    for (const auto& p : f.pieces)
        for (std::size_t i = trace.part_at(p.from.floor()); i < parts.size() && Rational(parts[i].from) < p.until;
             ++i) {
            const Rational a = std::max(p.from, Rational(parts[i].from)),
                           b = std::min(p.until, Rational(parts[i].until));
            if (parts[i].kind == Class::checked && a < b) out += b - a;
        }
    return out;
}

ExcursionsAnswer excursions(World& w, const std::string& place, Instant from, Instant until) {
    ExcursionsAnswer out;
    out.head = w.head;
    out.place = place;
    out.from = from;
    out.until = until;
    out.head.window = window_words(from, until, w.head.at, w.known.zone());
    w.place(place);
    const Window window = window_of(w, from, until);
    const auto found = find_excursions(w, place, window);
    out.seconds = coverage_of(w, place, window);
    out.beside = shown_before(w, place, window);
    if (found.empty()) return out;
    const auto stays = stays_in(w, place);
    for (const Found& f : found) {
        ExcursionsAnswer::Row row;
        row.side = f.side;
        row.kind = f.kind;
        row.from_s = f.from;
        row.until_s = f.until;
        for (const auto& p : f.pieces) {
            row.duration_s += p.until - p.from;
            row.degree_s += p.degree_s;
        }
        row.peak_C = f.peak_C;
        row.checked_s = checked_s(w, place, f);
        row.open = f.open;
        row.marks = marks(w, place, f);
        row.holdings = attribution(w, place, f, stays);
        for (auto& mark : end_marks(w, place, f, longest(w, place, f, stays))) row.marks.push_back(std::move(mark));
        out.excursions.push_back(std::move(row));
    }
    return out;
}

}  // namespace coldtally::answers
