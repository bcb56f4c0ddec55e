#include "conditions/disagreements.hpp"

#include <algorithm>
#include <initializer_list>
#include <tuple>

#include "text/json_text.hpp"
#include "trace/lines.hpp"
#include "words/conditions.hpp"

namespace coldtally::answers {

namespace {

using exposure::TraceLine;
using trace::Point;
using What = UnitAnswer::Disagreement::What;

std::optional<Rational> tolerance_C(const Point& p) {
    if (p.tolerance <= 0) return std::nullopt;
    return p.scale == Scale::C ? Rational(p.tolerance, 1000) : Rational(p.tolerance, 1000) * Rational(5, 9);
}

Rational celsius(const Point& p) { return Temperature(p.scale, p.value).celsius(); }

bool below(const Point& a, const Point& b) { return a.scale == b.scale ? a.value < b.value : celsius(a) < celsius(b); }

/// What the logger said in the time that a check's minimum and maximum stand for, and at the check.
struct Logged {
    std::optional<Point> lowest, highest;  // readings
    std::int64_t covered = 0;              // seconds
    std::optional<UnitAnswer::Device> at_check;
};

class Comparison {
public:
    Comparison(World& w, const std::string& place, const Window& window)
        : w_(w), place_(place), window_(window), trace_(w.engine.trace_of(place)), logged_(trace_.checks().size()) {
        for (const auto& row : w.store.checks(place, -trace::forever))
            if (w.known.is_known(row.entry)) rows_.push_back(row);
    }

    std::vector<UnitAnswer::Disagreement> all() {
        read_logger();
        const auto& checks = trace_.checks();
        for (std::size_t k = 0; k < checks.size(); ++k) {
            const auto& c = checks[k];
            if (!in_window(c.point.at)) continue;
            const Logged& l = logged_[k];
            if (l.at_check) add(What::reading, c.point.at, device(c, c.point.value), *l.at_check);
            if (k == 0 || !c.lowest) continue;
            const std::int64_t since = checks[k - 1].point.at;
            const bool all_of_it = l.covered == c.point.at - since;
            extreme(What::minimum, since, device(c, *c.lowest), l.lowest, all_of_it);
            extreme(What::maximum, since, device(c, *c.highest), l.highest, all_of_it);
        }
        same_instants();
        std::stable_sort(out_.begin(), out_.end(), [](const auto& a, const auto& b) {
            return std::tie(a.until, a.what) < std::tie(b.until, b.what);
        });
        return std::move(out_);
    }

private:
    bool in_window(std::int64_t t) const {
        return t >= window_.from && (t < window_.until || (t == window_.until && window_.with_end));
    }

    std::optional<std::string> probe_at(std::int64_t t) const {
        std::optional<std::string> out;
        for (const auto& a : w_.engine.assignments())
            if (a.place == place_ && a.from <= t && t <= a.until) out = a.probe;
        return out;
    }

    UnitAnswer::Device device(const trace::CheckPoint& c, std::int32_t value) const {
        Point p = c.point;
        p.value = value;
        UnitAnswer::Device out{std::nullopt, c.entry, Instant(p.at), celsius(p), tolerance_C(p)};
        auto row =
            std::lower_bound(rows_.begin(), rows_.end(), p.at, [](const auto& r, std::int64_t t) { return r.at < t; });
        while (row != rows_.end() && row->entry != c.entry) ++row;
        if (row != rows_.end()) out.probe = row->probe;
        return out;
    }

    void read_logger() {
        const auto& checks = trace_.checks();
        if (checks.empty()) return;
        std::size_t first = trace_.check_at(window_.from);
        const std::size_t end = std::min(checks.size(), trace_.check_at(window_.until + 1));
        if (first >= end) return;
        std::size_t k = first;
        const std::int64_t a =
            first > 0 ? checks[first - 1].point.at : checks[first].point.at - 1;  // a line that holds it, or ends there
        trace::for_each_logged_line(
            trace_, a, checks[end - 1].point.at + 1, [](const trace::Span&) { return false; },
            [&](const Point& p, const Point& q, std::int64_t, std::int64_t) {
                while (k < end && checks[k].point.at < p.at) ++k;
                for (std::size_t j = k; j < end; ++j) {
                    const std::int64_t at = checks[j].point.at;
                    if (at <= q.at) logged_[j].at_check = on_line(p, q, at);
                    if (j == 0) continue;
                    const std::int64_t since = checks[j - 1].point.at;
                    if (since >= q.at) break;
                    logged_[j].covered += std::max<std::int64_t>(0, std::min(q.at, at) - std::max(p.at, since));
                    for (const Point* r : {&p, &q})
                        if (r->at >= since && r->at <= at) reading(logged_[j], *r);
                }
            });
        read_lone(first, end);
    }

    /// Readings without a neighbour within max_gap: no line goes through them, but a device said so.
    void read_lone(std::size_t first, std::size_t end) {
        const auto& checks = trace_.checks();
        const auto& spans = trace_.spans();
        for (std::size_t i = trace_.span_at(first > 0 ? checks[first - 1].point.at : checks[first].point.at);
             i < spans.size() && spans[i].first_at <= checks[end - 1].point.at; ++i) {
            if (spans[i].first_at < spans[i].last_at || spans[i].joined || (i > 0 && spans[i - 1].joined)) continue;
            const Point r = spans[i].first_point();
            for (std::size_t j = std::max(first, trace_.check_at(r.at)); j < end; ++j) {
                if (checks[j].point.at == r.at)
                    logged_[j].at_check =
                        UnitAnswer::Device{probe_at(r.at), std::nullopt, Instant(r.at), celsius(r), tolerance_C(r)};
                if (j == 0) continue;
                if (checks[j - 1].point.at > r.at) break;
                reading(logged_[j], r);
            }
        }
    }

    static void reading(Logged& l, const Point& r) {
        if (!l.lowest || below(r, *l.lowest)) l.lowest = r;
        if (!l.highest || below(*l.highest, r)) l.highest = r;
    }

    UnitAnswer::Device on_line(const Point& p, const Point& q, std::int64_t t) const {
        std::optional<Rational> tolerance;  // the larger; not known where one of them is not
        if (const auto a = tolerance_C(p), b = tolerance_C(q); a && b) tolerance = std::max(*a, *b);
        return {probe_at(t), std::nullopt, Instant(t), TraceLine(p, q).celsius_at(Rational(t)), tolerance};
    }

    /// The logger's extreme lies beyond that of the check; or, where the logger covers all of the time, the other way
    /// round.
    void extreme(What what, std::int64_t since, const UnitAnswer::Device& check, const std::optional<Point>& logger,
                 bool all_of_it) {
        if (!logger) return;
        const UnitAnswer::Device other{probe_at(logger->at), std::nullopt, Instant(logger->at), celsius(*logger),
                                       tolerance_C(*logger)};
        const bool logger_beyond = what == What::minimum ? other.C < check.C : other.C > check.C;
        if (logger_beyond || all_of_it) add(what, since, check, other);
    }

    void same_instants() {
        for (std::size_t i = 0; i < rows_.size(); ++i)
            for (std::size_t j = i + 1; j < rows_.size() && rows_[j].at == rows_[i].at; ++j) {
                if (rows_[i].probe == rows_[j].probe || !in_window(rows_[i].at))
                    continue;  // one device: the later entry corrects
                add(What::reading, rows_[i].at, device(rows_[j]), device(rows_[i]));
            }
    }

    UnitAnswer::Device device(const ledger::CheckRow& row) const {
        const Certificate* certificate = row.probe ? trace::Calibration(w_.known, *row.probe).at(row.at) : nullptr;
        const Point p{row.at, trace::corrected(certificate, row.temperature), trace::tolerance(certificate), row.scale};
        return {row.probe, row.entry, Instant(row.at), celsius(p), tolerance_C(p)};
    }

    void add(What what, std::int64_t since, const UnitAnswer::Device& check, const UnitAnswer::Device& other) {
        const Rational difference = check.C < other.C ? other.C - check.C : check.C - other.C;
        const Rational allowed = check.tolerance_C.value_or(UnitAnswer::unknown_tolerance_C()) +
                                 other.tolerance_C.value_or(UnitAnswer::unknown_tolerance_C());
        if (difference > allowed) out_.push_back({what, Instant(since), check.at, check, other, difference, allowed});
    }

    World& w_;
    const std::string& place_;
    const Window& window_;
    const trace::Trace& trace_;
    std::vector<Logged> logged_;
    std::vector<ledger::CheckRow> rows_;
    std::vector<UnitAnswer::Disagreement> out_;
};

/// Of a device: in thousandths of a degree, where it is so many; else to a tenth of °C.
std::string degrees(const Rational& celsius) {
    const Rational C = celsius * Rational(1000), F = (celsius * Rational(9, 5) + Rational(32)) * Rational(1000);
    const auto whole = [](const Rational& r) { return Rational(r.floor()) == r; };
    if (whole(C)) return Temperature(Scale::C, static_cast<std::int32_t>(C.floor())).text() + " °C";
    if (whole(F)) return Temperature(Scale::F, static_cast<std::int32_t>(F.floor())).text() + " °F";
    const std::int64_t tenths = (celsius * Rational(10) + Rational(1, 2)).floor();
    return Temperature(Scale::C, static_cast<std::int32_t>(tenths * 100)).text() + " °C";
}

}  // namespace

std::vector<UnitAnswer::Disagreement> disagreements(World& w, const std::string& place, const Window& window) {
    return Comparison(w, place, window).all();
}

Remark disagreement_words(const UnitAnswer::Disagreement& d, const std::string& place, const Zone& zone) {
    const auto device = [](const UnitAnswer::Device& one) -> Remark {
        if (one.check && one.probe) return words::the_check_by_probe(*one.check, text::quoted(*one.probe));
        if (one.check) return words::the_check(*one.check);
        return one.probe ? words::the_reading_by_probe(text::quoted(*one.probe)) : words::the_reading();
    };
    if (d.what == What::reading)
        return words::readings_differ(text::quoted(place), device(d.check), degrees(d.check.C),
                                      zone.local_text(d.until), device(d.other), degrees(d.other.C));
    const Remark logger =
        d.other.probe ? words::the_logger_probe(text::quoted(*d.other.probe)) : words::the_logger();
    return (d.what == What::minimum ? words::minimum_differs : words::maximum_differs)(
        text::quoted(place), device(d.check), degrees(d.check.C), zone.local_text(d.from), zone.local_text(d.until),
        logger, degrees(d.other.C));
}

bool at_stake(const UnitAnswer::Disagreement& d, const Range& range) {
    return std::ranges::any_of(
        std::initializer_list<const UnitAnswer::Device*>{&d.check, &d.other}, [&](const auto* one) {
            return (range.high && one->C > range.high->in(Scale::C)) || (range.low && one->C < range.low->in(Scale::C));
        });
}

}  // namespace coldtally::answers
