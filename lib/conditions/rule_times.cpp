#include "conditions/rule_times.hpp"

#include <algorithm>

#include "exposure/limits.hpp"
#include "question/said.hpp"
#include "trace/lines.hpp"
#include "words/rules.hpp"

namespace coldtally {

RuleFinding::State RuleFinding::state() const noexcept {
    return at_least.met       ? State::met
           : estimate.met     ? State::met_by_estimate
           : at_most.met      ? State::perhaps_met
           : with_unknown.met ? State::cannot_be_said
                              : State::not_met;
}

std::string_view rule_state_name(RuleFinding::State state) noexcept {
    constexpr std::string_view names[] = {"met", "met by the estimate", "perhaps met", "cannot be said", "not met"};
    return names[static_cast<int>(state)];
}

}  // namespace coldtally

namespace coldtally::answers {

namespace {

using exposure::Ticks;
using exposure::TraceLine;
using trace::Point;
using Reportable = ProgrammeRules::Reportable;
using Is = ProgrammeRules::Temperatures::Is;
using Whole = std::pair<std::int64_t, std::int64_t>;

struct Interval {
    Rational from, until;
};

enum Level { at_least = 0, estimate = 1, at_most = 2, with_unknown = 3 };
constexpr int levels = 4;

/// One side of a limit, mirrored where it is below, so that what counts lies above.
struct Edge {
    int sign;
    bool inclusive;
    Ticks C, F;

    Edge(const ProgrammeRules::Temperatures& t, const Limit& limit)
        : sign(t.is == Is::above || t.is == Is::at_or_above ? 1 : -1),
          inclusive(t.is == Is::at_or_above || t.is == Is::at_or_below),
          C(exposure::ticks(limit, Scale::C)),
          F(exposure::ticks(limit, Scale::F)) {}

    Ticks in(Scale s) const { return s == Scale::C ? C : F; }
    /// Beyond the limit moved by `shift` ticks to the far side.
    bool beyond(Ticks t, Scale s, Ticks shift) const {
        const Ticks v = sign * t, c = sign * in(s) + shift;
        return inclusive ? v >= c : v > c;
    }
    /// The surest level at which a value counts; none where even the tolerance does not make it count.
    std::optional<Level> level(Ticks t, Ticks tolerance, Scale s) const {
        if (beyond(t, s, tolerance)) return at_least;
        if (beyond(t, s, 0)) return estimate;
        if (beyond(t, s, -tolerance)) return at_most;
        return std::nullopt;
    }
};

/// What counts in a place: times by level, and single readings.
struct Times {
    std::vector<Interval> of[levels];  // ascending; those that touch are one
    struct Seen {
        std::int64_t from, until;  // of a minimum or maximum, the time it stands for; else one instant
        Level level;               // the surest
    };
    std::vector<Seen> seen;            // ascending
    std::vector<Interval> unknown;     // nothing is known of it, or not yet, or not between plain checks; ascending
    std::vector<Interval> checked;     // of it, what lies between plain checks
    std::vector<Rational> inside;      // when a check, or an end of what is logged, was read that does not count
};

void join(std::vector<Interval>& all) {
    std::sort(all.begin(), all.end(), [](const Interval& a, const Interval& b) { return a.from < b.from; });
    std::size_t n = 0;
    for (const Interval& i : all) {
        if (n > 0 && i.from <= all[n - 1].until)
            all[n - 1].until = std::max(all[n - 1].until, i.until);
        else
            all[n++] = i;
    }
    all.resize(n);
}

/// Time that may count is no longer one where somebody read in between what does not count.
void join_up_to(std::vector<Interval>& all, const std::vector<Rational>& inside) {
    std::sort(all.begin(), all.end(), [](const Interval& a, const Interval& b) { return a.from < b.from; });
    std::size_t n = 0;
    for (const Interval& i : all) {
        const bool goes_on = n > 0 && (i.from < all[n - 1].until ||
                                       (i.from == all[n - 1].until &&
                                        !std::binary_search(inside.begin(), inside.end(), i.from)));
        if (goes_on)
            all[n - 1].until = std::max(all[n - 1].until, i.until);
        else
            all[n++] = i;
    }
    all.resize(n);
}

class Collector {
public:
    /// `asked`: of time outside it that is not known nothing is asked.
    Collector(World& w, const std::string& place, const Edge& edge, const std::vector<Whole>& asked)
        : w_(w), trace_(w.engine.trace_of(place)), edge_(edge), asked_(asked) {}

    Times times() {
        trace::for_each_line(
            trace_, -trace::forever, w_.at, [&](const trace::Span& s) { return !touches(s); },
            [&](const Point& p, const Point& q, std::int64_t from, std::int64_t until) { line(p, q, from, until); });
        for (const auto& part : trace_.parts()) {
            if (part.kind == Class::bounded && part.from < w_.at) bounded(part);
            unknown(part);
        }
        join(out_.unknown);
        join(out_.checked);
        for (auto& all : out_.of) join(all);
        readings();
        out_.of[with_unknown] = split(out_.unknown);
        out_.of[with_unknown].insert(out_.of[with_unknown].end(), out_.of[at_most].begin(), out_.of[at_most].end());
        join_up_to(out_.of[with_unknown], out_.inside);
        std::stable_sort(out_.seen.begin(), out_.seen.end(),
                         [](const auto& a, const auto& b) { return a.from < b.from; });
        return std::move(out_);
    }

private:
    bool touches(const trace::Span& s) const {
        return edge_.beyond(exposure::ticks(edge_.sign > 0 ? s.highest : s.lowest), s.scale,
                            -exposure::ticks(s.tolerance));
    }

    void add(Level level, const Rational& from, const Rational& until) {
        if (from < until) out_.of[level].push_back({from, until});
    }

    void line(const Point& p, const Point& q, std::int64_t from, std::int64_t until) {
        const TraceLine l(p, q);
        const auto counts = [&](const exposure::End& e, int tolerance) {
            return edge_.beyond(e.value, l.scale, tolerance * e.tolerance);
        };
        if (!counts(l.p, -1) && !counts(l.q, -1)) return;
        add(at_most, Rational(from), Rational(until));
        if (counts(l.p, 1) && counts(l.q, 1)) add(at_least, Rational(from), Rational(until));
        const Rational sign(edge_.sign), c(edge_.sign * edge_.in(l.scale));
        const Rational v0 = sign * l.at(Rational(from)), v1 = sign * l.at(Rational(until));
        if (v0 == v1 ? (edge_.inclusive ? v0 < c : v0 <= c) : (v0 <= c && v1 <= c)) return;
        Rational a(from), b(until);
        if (v0 < c || v1 < c) (v0 < c ? a : b) = Rational(from) + Rational(until - from) * (c - v0) / (v1 - v0);
        add(estimate, a, b);
    }

    void bounded(const trace::Part& part) {
        const auto& later = *part.later;
        const Scale s = later.point.scale;
        const Ticks worst = exposure::ticks(edge_.sign > 0 ? *later.highest : *later.lowest);
        const Ticks best = exposure::ticks(edge_.sign > 0 ? *later.lowest : *later.highest);
        const Ticks u = exposure::ticks(later.point.tolerance);
        const Rational from(part.from), until(std::min(part.until, w_.at));
        if (edge_.beyond(worst, s, -u)) add(at_most, from, until);
        if (edge_.beyond(worst, s, 0)) add(estimate, from, until);
        if (edge_.beyond(best, s, u)) add(at_least, from, until);
    }

    void unknown(const trace::Part& part) {
        if (part.kind == Class::bounded) return;
        for (const auto& [a, b] : asked_) {
            const std::int64_t from = std::max(part.from, a), until = std::min({part.until, b, w_.at});
            if (from >= until) continue;
            out_.unknown.push_back({Rational(from), Rational(until)});  // near a reading in range, too: nobody read it
            if (part.kind == Class::checked) out_.checked.push_back({Rational(from), Rational(until)});
        }
    }

    /// Cut where somebody read what does not count.
    std::vector<Interval> split(const std::vector<Interval>& all) const {
        std::vector<Interval> out;
        for (Interval i : all) {
            for (auto at = std::upper_bound(out_.inside.begin(), out_.inside.end(), i.from);
                 at != out_.inside.end() && *at < i.until; ++at) {
                out.push_back({i.from, *at});
                i.from = *at;
            }
            out.push_back(i);
        }
        return out;
    }

    void readings() {
        const auto see = [&](std::int64_t from, std::int64_t until, std::int32_t value, const Point& p) {
            if (from > w_.at) return;
            if (const auto level = edge_.level(exposure::ticks(value), exposure::ticks(p.tolerance), p.scale))
                out_.seen.push_back({from, until, *level});
        };
        const auto end = [&](const Point& p) {
            if (p.at <= w_.at && !edge_.level(exposure::ticks(p.value), exposure::ticks(p.tolerance), p.scale))
                out_.inside.emplace_back(p.at);
        };
        std::vector<Point> rows;
        for (const auto& s : trace_.spans()) {
            for (const Point& p : {s.first_point(), s.last_point()}) end(p);  // between them all is known
            if (!touches(s)) continue;
            rows.clear();
            s.read(rows);
            for (const Point& p : rows) see(p.at, p.at, p.value, p);
        }
        const auto& checks = trace_.checks();
        for (std::size_t i = 0; i < checks.size(); ++i) {
            const auto& c = checks[i];
            see(c.point.at, c.point.at, c.point.value, c.point);
            end(c.point);
            // nothing says since when those of a place's first check stand
            if (i > 0 && c.lowest)
                see(checks[i - 1].point.at, c.point.at, edge_.sign > 0 ? *c.highest : *c.lowest, c.point);
        }
        std::sort(out_.inside.begin(), out_.inside.end());
    }

    World& w_;
    const trace::Trace& trace_;
    const Edge& edge_;
    const std::vector<Whole>& asked_;
    Times out_;
};

/// Cuts to the times in which the products were there.
void cut(Times& times, const std::vector<Whole>& present) {
    const auto cut_one = [&](std::vector<Interval>& all) {
        std::vector<Interval> kept;
        for (const Interval& i : all)
            for (const auto& [a, b] : present) {
                const Rational from = std::max(i.from, Rational(a)), until = std::min(i.until, Rational(b));
                if (from < until) kept.push_back({from, until});
            }
        all = std::move(kept);
    };
    for (auto& all : times.of) cut_one(all);
    cut_one(times.unknown);
    cut_one(times.checked);
    std::erase_if(times.seen, [&](const Times::Seen& s) {
        return std::none_of(present.begin(), present.end(), [&](const Whole& p) {
            return s.from == s.until ? p.first <= s.from && s.from <= p.second : s.from < p.second && p.first < s.until;
        });
    });
}

/// The window as closed interval; every occasion that meets it counts.
struct Frame {
    Rational from, until;
    bool meets(const Rational& a, const Rational& b) const { return a <= until && b >= from; }
};

void met(RuleFinding::Level& out, const Rational& first) {
    if (!out.met || first < *out.first_s) out.first_s = first;
    out.met = true;
}

void judge_runs(RuleFinding::Level& out, const std::vector<Interval>& runs, const Reportable& r, const Frame& frame) {
    const Rational n(r.threshold);
    for (const Interval& run : runs) {
        if (!frame.meets(run.from, run.until) || (run.from == frame.until && frame.from < frame.until)) continue;
        const Rational length = run.until - run.from;
        out.most = std::max(out.most, length);
        if (r.more_than ? length > n : length >= n) met(out, run.from + n);
    }
}

/// The sum of the times in (t - W, t] rises and falls by one second a second, or stays: followed from corner to corner.
void judge_sums(RuleFinding::Level& out, const std::vector<Interval>& runs, const Reportable& r, const Frame& frame) {
    const Rational n(r.threshold), w(r.within->seconds());
    std::vector<std::pair<Rational, int>> corners;
    for (const Interval& run : runs) {
        corners.emplace_back(run.from, 1);
        corners.emplace_back(run.until, -1);
        corners.emplace_back(run.from + w, -1);
        corners.emplace_back(run.until + w, 1);
    }
    std::sort(corners.begin(), corners.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    Rational sum, begun;
    int slope = 0;
    bool on = false;
    const auto enough = [&](const Rational& s) { return r.more_than ? s > n : s >= n; };
    for (std::size_t i = 0; i + 1 < corners.size(); ++i) {
        slope += corners[i].second;
        const Rational &a = corners[i].first, &b = corners[i + 1].first;
        if (a == b) continue;
        const Rational next = sum + Rational(slope) * (b - a);
        const Rational x = std::max(a, frame.from), y = std::min(b, frame.until);
        if (x <= y)
            for (const Rational& t : {x, y}) out.most = std::max(out.most, sum + Rational(slope) * (t - a));
        if (enough(next) != on) {
            const Rational crossing = a + (n - sum) / Rational(slope);
            if (on && frame.meets(begun, crossing)) met(out, begun);
            begun = crossing;
            on = !on;
        }
        sum = next;
    }  // at the last corner the sum is 0 again
}

void judge_readings(RuleFinding::Level& out, const std::vector<Times::Seen>& seen, Level level, const Frame& frame) {
    for (const auto& s : seen) {
        if (s.level > level) continue;
        const Rational at(level == at_least ? s.until : s.from);
        if (!frame.meets(at, Rational(s.until))) continue;
        out.most += Rational(1);
        met(out, at);
    }
}

/// Whoever had looked then might have read anything.
void judge_unknown_readings(RuleFinding::Level& out, const std::vector<Interval>& unknown, const Frame& frame) {
    for (const Interval& i : unknown)
        if (i.from < frame.until && frame.from < i.until) met(out, std::max(i.from, frame.from));
}

struct Excursion {
    Rational from, until;
    Level level;
    Rational begins[levels];  ///< when it is sure to have begun, by the estimate, when it may have
};

/// Runs of the estimate and readings alone; then what only the tolerance makes.
void add_excursions(const Times& times, std::vector<Excursion>& out) {
    std::vector<Excursion> found;
    for (const int level : {static_cast<int>(estimate), static_cast<int>(at_most)}) {
        std::vector<Interval> fresh = times.of[level];
        for (const auto& s : times.seen)
            if (s.level <= level && s.from == s.until) fresh.push_back({Rational(s.from), Rational(s.until)});
        join(fresh);
        std::erase_if(fresh, [&](const Interval& i) {
            return std::any_of(found.begin(), found.end(),
                               [&](const Excursion& e) { return e.from <= i.until && i.from <= e.until; });
        });
        for (const Interval& i : fresh) {
            Excursion e{i.from, i.until, Level(level), {i.from, i.from, i.from}};
            if (level == estimate) {
                std::optional<Rational> sure;  // the first instant of it that is beyond the tolerance
                for (const auto& s : times.seen)
                    if (s.level == at_least && s.from == s.until && Rational(s.from) <= i.until &&
                        i.from <= Rational(s.from) && (!sure || Rational(s.from) < *sure))
                        sure = Rational(s.from);
                for (const Interval& a : times.of[at_least])
                    if (a.from <= i.until && i.from <= a.until && (!sure || a.from < *sure))
                        sure = std::max(a.from, i.from);
                if (sure) e.level = at_least, e.begins[at_least] = *sure;
                for (const Interval& a : times.of[at_most]) {
                    const bool after_another = std::any_of(fresh.begin(), fresh.end(), [&](const Interval& o) {
                        return o.until < i.from && a.from <= o.until;
                    });
                    if (a.from <= i.until && i.from <= a.until && !after_another)
                        e.begins[at_most] = std::min(e.begins[at_most], a.from);
                }
            }
            found.push_back(std::move(e));
        }
    }
    out.insert(out.end(), found.begin(), found.end());
}

void judge_pattern(RuleFinding::Level& out, const std::vector<Excursion>& all, Level level, const Reportable& r,
                   const Frame& frame) {
    const std::int64_t n = r.threshold + (r.more_than ? 1 : 0);
    std::vector<const Excursion*> counted;
    for (const Excursion& e : all)
        if (e.level <= level) counted.push_back(&e);
    const auto begins = [&](std::size_t i) { return counted[i]->begins[level]; };
    std::size_t first = 0;
    for (std::size_t i = 0; i < counted.size(); ++i) {
        if (r.within)
            while (begins(i) - begins(first) > Rational(r.within->seconds())) ++first;
        if (!frame.meets(begins(i), std::max(begins(i), counted[i]->until))) continue;
        const auto together = static_cast<std::int64_t>(i - first + 1);
        out.most = std::max(out.most, Rational(together));
        if (together >= n) met(out, begins(i));
    }
}

/// Any number of excursions may have begun in time that is not known: in the window, or so shortly before one in it
/// that they count together.
void judge_unknown_pattern(RuleFinding::Level& out, const std::vector<Excursion>& all,
                           const std::vector<Interval>& unknown, const Reportable& r, const Frame& frame) {
    judge_unknown_readings(out, unknown, frame);
    for (const Excursion& e : all) {
        const Rational& begins = e.begins[at_most];
        if (!frame.meets(begins, std::max(begins, e.until))) continue;
        for (const Interval& i : unknown)
            if (i.from < begins && (!r.within || begins - i.until < Rational(r.within->seconds()))) met(out, begins);
    }
}

/// The temperatures of a condition with their limits; a side without one bounds nothing.
std::vector<Edge> edges_of(const Reportable& r, const Range& range) {
    std::vector<Edge> out;
    const auto add = [&](const ProgrammeRules::Temperatures& t) {
        const bool high = t.is == Is::above || t.is == Is::at_or_above;
        const auto& limit = t.limit ? t.limit : high ? range.high : range.low;
        if (limit) out.emplace_back(t, *limit);
    };
    if (r.temperature)
        add(*r.temperature);
    else
        for (const Is is : {Is::below, Is::above}) add({is, std::nullopt});
    return out;
}

/// The time of a place in which something may be wrong though nothing is known of it: of a storage unit all that the
/// window asks for, and before it what follows its first reading, check or doses; a room or a container matters while
/// it holds doses.
std::vector<Whole> asked_of(World& w, const Place& place, const Frame& frame) {
    auto stays = times_with(w, place.place, {});
    if (place.type == PlaceType::room || place.type == PlaceType::transport_container) return stays;
    std::int64_t first = frame.from.floor();
    const auto& trace = w.engine.trace_of(place.place);
    if (!trace.spans().empty()) first = std::min(first, trace.spans().front().first_at);
    if (!trace.checks().empty()) first = std::min(first, trace.checks().front().point.at);
    if (!stays.empty()) first = std::min(first, stays.front().first);
    return {{first, w.at}};
}

RuleFinding judge(World& w, const Reportable& r, const Place& place, const Frame& frame) {
    RuleFinding out;
    out.rule = r.rule;
    out.text = r.text;
    out.form = r.form;
    out.place = place.place;
    std::vector<Excursion> excursions;
    std::vector<Interval> unknown, checked;
    RuleFinding::Level* const of[levels] = {&out.at_least, &out.estimate, &out.at_most, &out.with_unknown};
    const std::vector<Whole> asked = asked_of(w, place, frame);
    for (const Edge& edge : edges_of(r, place.range)) {
        Times times = Collector(w, place.place, edge, asked).times();
        if (!r.products.empty()) cut(times, times_with(w, place.place, r.products));
        unknown = times.unknown;  // the same for every edge
        checked = times.checked;
        if (r.form == Reportable::Form::pattern) add_excursions(times, excursions);
        for (int level = 0; level < levels; ++level) {
            if (r.form == Reportable::Form::run) judge_runs(*of[level], times.of[level], r, frame);
            if (r.form == Reportable::Form::sum) judge_sums(*of[level], times.of[level], r, frame);
            if (r.form == Reportable::Form::reading) judge_readings(*of[level], times.seen, Level(level), frame);
        }
        if (r.form == Reportable::Form::reading) judge_unknown_readings(out.with_unknown, times.unknown, frame);
    }
    if (r.form == Reportable::Form::pattern) {
        std::sort(excursions.begin(), excursions.end(),
                  [](const Excursion& a, const Excursion& b) { return a.from < b.from; });
        for (int level = 0; level < levels; ++level)
            judge_pattern(*of[level], excursions, std::min(Level(level), at_most), r, frame);
        judge_unknown_pattern(out.with_unknown, excursions, unknown, r, frame);
    }
    // before the window a condition asks about so much as it looks back
    const Rational from = frame.from - Rational(r.within ? r.within->seconds() : 0);
    const auto length = [&](const std::vector<Interval>& all) {
        Rational sum;
        for (const Interval& i : all)
            if (const Rational a = std::max(i.from, from), b = std::min(i.until, frame.until); a < b) sum += b - a;
        return sum;
    };
    out.unknown_s = length(unknown);
    out.checked_s = length(checked);
    return out;
}

}  // namespace

std::vector<Whole> times_with(World& w, const std::string& place, const std::vector<std::string>& products,
                              std::int64_t since) {
    std::vector<Whole> out;
    const bool balances = since > -trace::forever && w.balances_answer();
    const auto gone = [&](std::int64_t holding) {
        const auto balance = w.store.balance(holding);
        return balance.doses == 0 && balance.last_at < since;
    };
    for (const auto& lot : w.store.lots_in_place(place)) {
        if (!products.empty() && std::find(products.begin(), products.end(), lot.product) == products.end()) continue;
        std::vector<std::int64_t> here;
        for (const auto& h : w.store.holdings(lot.lot))
            if (h.place == place) here.push_back(h.holding);
        if (balances && std::ranges::all_of(here, gone)) continue;
        ledger::StockWalk walk;
        std::int64_t came = 0;
        bool any = false;
        for (const auto& m : w.store.movements(lot.lot)) {
            if (m.at > w.at || !w.known.is_known(m.entry)) continue;
            walk.apply(m);
            const bool now = std::any_of(here.begin(), here.end(), [&](std::int64_t id) { return walk.doses(id) > 0; });
            if (now && !any) came = m.at;
            if (any && !now && came < m.at) out.emplace_back(came, m.at);
            any = now;
        }
        if (any) out.emplace_back(came, w.at);
    }
    std::sort(out.begin(), out.end());
    std::size_t n = 0;
    for (const Whole& i : out) {
        if (n > 0 && i.first <= out[n - 1].second)
            out[n - 1].second = std::max(out[n - 1].second, i.second);
        else
            out[n++] = i;
    }
    out.resize(n);
    return out;
}

bool is_for(const std::vector<PlaceType>& types, PlaceType type) {
    return types.empty() || std::find(types.begin(), types.end(), type) != types.end();
}

std::optional<Remark> no_condition_for(const ProgrammeRules& rules, PlaceType type) {
    if (rules.report.empty()) return words::no_condition_named();
    if (std::ranges::any_of(rules.report, [&](const Reportable& r) { return is_for(r.places, type); }))
        return std::nullopt;
    return words::no_condition_for_type(said::place_type_words(type));
}

std::vector<RuleFinding> rule_findings(World& w, const ProgrammeRules& rules, const std::string& id,
                                       const Window& window) {
    std::vector<RuleFinding> out;
    const Place& place = w.place(id);
    for (const Reportable& r : rules.report) {
        if (!is_for(r.places, place.type)) continue;
        if (window.empty) continue;
        out.push_back(judge(w, r, place, {Rational(window.from), Rational(window.until)}));
    }
    return out;
}

RulesAnswer rules(World& w, const std::optional<std::string>& place, Instant from, Instant until) {
    RulesAnswer out;
    out.head = w.head;
    out.from = from;
    out.until = until;
    out.head.window = window_words(from, until, w.head.at, w.known.zone());
    if (place) w.place(*place);
    const auto* known = w.known.rules();
    if (!known) return out;
    out.entry = known->entry;
    out.rules = known->fact;
    const Window window = window_of(w, from, until);
    for (const auto& [id, definitions] : w.known.places) {
        if (definitions.empty() || (place && id != *place)) continue;
        const Exposure e = window.empty
                               ? Exposure()
                               : w.engine.over_range(w.place(id).range, id, window.from, window.until, window.with_end);
        out.places.push_back({id, e.seconds[static_cast<std::size_t>(Class::unmonitored)],
                              e.seconds[static_cast<std::size_t>(Class::checked)]});
        if (auto none = no_condition_for(known->fact, w.place(id).type))
            out.not_judged.push_back({id, std::move(*none)});
        for (auto& finding : rule_findings(w, known->fact, id, window)) out.findings.push_back(std::move(finding));
    }
    return out;
}

}  // namespace coldtally::answers
