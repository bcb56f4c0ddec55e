#include "conditions/unit.hpp"

#include <algorithm>

#include "conditions/disagreements.hpp"
#include "conditions/excursion_ends.hpp"
#include "conditions/excursions.hpp"
#include "conditions/kinetic.hpp"
#include "conditions/validity.hpp"
#include "conditions/weights.hpp"
#include "quantities/calendar.hpp"
#include "trace/lines.hpp"
#include "words/conditions.hpp"
#include "words/general.hpp"

namespace coldtally {

Rational UnitAnswer::Figures::known_s() const {
    return seconds[static_cast<std::size_t>(Class::logged)] + seconds[static_cast<std::size_t>(Class::bounded)] +
           seconds[static_cast<std::size_t>(Class::checked)];
}

Rational UnitAnswer::Figures::measured_s() const { return seconds[static_cast<std::size_t>(Class::logged)]; }

std::string_view disagreement_name(UnitAnswer::Disagreement::What what) noexcept {
    using What = UnitAnswer::Disagreement::What;
    return what == What::reading ? "reading" : what == What::minimum ? "minimum" : "maximum";
}

namespace answers {

namespace {

using Interval = std::pair<Rational, Rational>;
using Figures = UnitAnswer::Figures;

/// The calendar months of the zone, cut to the window; at least one.
std::vector<UnitAnswer::Month> months_of(const Zone& zone, const Window& window) {
    std::vector<UnitAnswer::Month> out;
    std::int64_t t = window.from;
    Date month = zone.local(Instant(t)).date;
    do {
        month.day = calendar::days_in_month(month.year, month.month);
        const std::int64_t end = zone.end_of_day(month).seconds_since_1970();
        const Date last = month;
        month = month.next();
        if (end <= t) continue;  // the clock went back over midnight: what it shows again belongs to the new month
        const std::int64_t until = std::min(end, window.until);
        UnitAnswer::Month one;
        one.year = last.year;
        one.month = last.month;
        one.from = Instant(t);
        one.until = Instant(until);
        out.push_back(std::move(one));
        t = until;
    } while (t < window.until || out.empty());
    return out;
}

/// Pieces of either side as intervals that do not overlap, ascending.
std::vector<Interval> united(std::vector<Interval> all) {
    std::sort(all.begin(), all.end());
    std::vector<Interval> out;
    for (auto& i : all) {
        if (!out.empty() && i.first <= out.back().second)
            out.back().second = std::max(out.back().second, i.second);
        else
            out.push_back(std::move(i));
    }
    return out;
}

class Teller {
public:
    Teller(World& w, const std::string& place, const Window& window, UnitAnswer& out)
        : w_(w), place_(place), window_(window), out_(out) {}

    void tell(std::int64_t activation_K) {
        out_.months = months_of(w_.known.zone(), window_);
        exposures();
        means(activation_K);
        excursions();
        out_.disagreements = disagreements(w_, place_, window_);
        for (const auto& d : out_.disagreements) ++month_at(Rational(d.until.seconds_since_1970())).disagreements;
        add_up();
        compare();
        for (const Lapse& l : lapses(w_, place_, window_.from, window_.until))
            out_.marks.push_back(words(l, w_.known.zone()));
    }

private:
    /// The month that holds an instant of the window; its end belongs to the last.
    Figures& month_at(const Rational& t) {
        const auto after = std::partition_point(out_.months.begin() + 1, out_.months.end(), [&](const auto& m) {
            return Rational(m.from.seconds_since_1970()) <= t;
        });
        return (after - 1)->figures;
    }

    void exposures() {
        const Range& range = w_.place(place_).range;
        for (auto& m : out_.months) {
            const bool last = &m == &out_.months.back();
            const Exposure e = w_.engine.over_range(range, place_, m.from.seconds_since_1970(),
                                                    m.until.seconds_since_1970(), last && window_.with_end);
            m.figures.warm = e.warm;
            m.figures.cold = e.cold;
            m.figures.seconds = e.seconds;
            m.figures.lowest_C = e.lowest_C;
            m.figures.highest_C = e.highest_C;
        }
    }

    static void set_means(Figures& f, const Weights& ends, std::int64_t activation_K) {
        const auto weights = ends.by_celsius();
        if (weights.empty()) return;
        f.mean_C = mean_C(weights);
        f.mean_kinetic_C = mean_kinetic_C(weights, activation_K);
    }

    void means(std::int64_t activation_K) {
        std::vector<Weights> by_month(out_.months.size());
        Weights whole;  // not the sum of the months': the formula of the mean kinetic temperature knows no cut but the
                        // window's
        trace::for_each_line(
            w_.engine.trace_of(place_), window_.from, window_.until, [](const trace::Span&) { return false; },
            [&](const trace::Point& p, const trace::Point& q, std::int64_t a, std::int64_t b) {
                whole.line(p, q, a, b);
                auto k = static_cast<std::size_t>(
                    std::partition_point(out_.months.begin() + 1, out_.months.end(),
                                         [&](const auto& m) { return m.from.seconds_since_1970() <= a; }) -
                    out_.months.begin() - 1);
                for (; k < out_.months.size() && out_.months[k].from.seconds_since_1970() < b; ++k)
                    by_month[k].line(p, q, std::max(a, out_.months[k].from.seconds_since_1970()),
                                     std::min(b, out_.months[k].until.seconds_since_1970()));
            });
        for (std::size_t k = 0; k < by_month.size(); ++k) set_means(out_.months[k].figures, by_month[k], activation_K);
        set_means(out_.whole, whole, activation_K);
    }

    void excursions() {
        std::vector<Interval> out_of_range;
        for (const Found& f : find_excursions(w_, place_, window_)) {
            Rational duration;
            std::vector<Interval> pieces;
            for (const auto& p : f.pieces) {
                duration += p.until - p.from;
                pieces.emplace_back(p.from, p.until);
            }
            Figures& month = month_at(f.from);
            ++month.excursions;
            if (!month.longest_s || duration > *month.longest_s) month.longest_s = duration;
            if (const auto cut = cut_words(f))
                out_.cut.push_back(words::cut_excursion(f.side == Side::warm ? words::name_warm : words::name_cold,
                                                        w_.known.zone().local_text(Instant(f.from.floor())),
                                                        w_.known.zone().local_text(Instant(f.until.ceil())), *cut));
            pieces = united(std::move(pieces));
            hours(f, pieces);
            out_of_range.insert(out_of_range.end(), pieces.begin(), pieces.end());
        }
        const auto all = united(std::move(out_of_range));
        book(all, &Figures::out_of_range_s);
        book(measured(all), &Figures::measured_out_s);
    }

    void book(const std::vector<Interval>& all, Rational Figures::*to) {
        for (const auto& [from, until] : all)
            for (auto& m : out_.months) {
                const Rational a = std::max(from, Rational(m.from.seconds_since_1970())),
                               b = std::min(until, Rational(m.until.seconds_since_1970()));
                if (a < b) m.figures.*to += b - a;
            }
    }

    /// What a logger measured of these: the parts of a trace are the time that is not logged.
    std::vector<Interval> measured(const std::vector<Interval>& all) {
        const auto& trace = w_.engine.trace_of(place_);
        const auto& parts = trace.parts();
        std::vector<Interval> out;
        for (auto [from, until] : all) {
            for (std::size_t i = trace.part_at(from.floor()); i < parts.size() && Rational(parts[i].from) < until;
                 ++i) {
                if (Rational(parts[i].until) <= from) continue;
                if (from < Rational(parts[i].from)) out.emplace_back(from, Rational(parts[i].from));
                from = Rational(parts[i].until);
            }
            if (from < until) out.emplace_back(from, until);
        }
        return out;
    }

    void hours(const Found& f, const std::vector<Interval>& pieces) {
        const auto book = [&](UnitAnswer::Hour& hour, const Rational& seconds) {
            (f.side == Side::warm ? hour.warm_s : hour.cold_s) += seconds;
        };
        if (f.kind == ExcursionKind::bounded) {
            ++out_.hour_not_known.excursions;
            for (const auto& [from, until] : pieces) book(out_.hour_not_known, until - from);
            return;
        }
        ++hour_of(f.from.floor()).excursions;
        for (const auto& [from, until] : pieces)
            for (Rational t = from; t < until;) {
                const Rational next = std::min(until, Rational(end_of_hour(t.floor())));
                book(hour_of(t.floor()), next - t);
                t = next;
            }
    }

    UnitAnswer::Hour& hour_of(std::int64_t t) {
        return out_.hours[static_cast<std::size_t>(w_.known.zone().local(Instant(t)).second_of_day / 3600)];
    }

    /// The first instant after t at which the local clock shows another hour, or is set.
    std::int64_t end_of_hour(std::int64_t t) const {
        const Zone& zone = w_.known.zone();
        const Duration offset = zone.offset_at(Instant(t));
        std::int64_t end = t + 3600 - zone.local(Instant(t)).second_of_day % 3600;
        if (zone.offset_at(Instant(end - 1)) == offset) return end;
        for (std::int64_t before = t; end - before > 1;) {
            const std::int64_t middle = before + (end - before) / 2;
            (zone.offset_at(Instant(middle)) == offset ? before : end) = middle;
        }
        return end;
    }

    static void add(SideExposure& to, const SideExposure& from) {
        to.at_least += from.at_least;
        to.estimate += from.estimate;
        to.at_most += from.at_most;
        to.degree_s += from.degree_s;
    }

    static void set_in_range(Figures& f) {
        const Rational measured = f.measured_s();
        if (measured.sign() > 0) f.in_range = (measured - f.measured_out_s) / measured;
    }

    void add_up() {
        Figures& all = out_.whole;
        for (auto& m : out_.months) {
            const Figures& f = m.figures;
            all.excursions += f.excursions;
            all.disagreements += f.disagreements;
            if (f.longest_s && (!all.longest_s || *f.longest_s > *all.longest_s)) all.longest_s = f.longest_s;
            add(all.warm, f.warm);
            add(all.cold, f.cold);
            all.out_of_range_s += f.out_of_range_s;
            all.measured_out_s += f.measured_out_s;
            for (std::size_t i = 0; i < f.seconds.size(); ++i) all.seconds[i] += f.seconds[i];
            if (f.lowest_C && (!all.lowest_C || *f.lowest_C < *all.lowest_C)) all.lowest_C = f.lowest_C;
            if (f.highest_C && (!all.highest_C || *f.highest_C > *all.highest_C)) all.highest_C = f.highest_C;
            set_in_range(m.figures);
        }
        set_in_range(all);
    }

    void compare() {
        for (int month = 1; month <= 12; ++month) {
            UnitAnswer::Compared same{month, {}};
            for (std::size_t k = 0; k < out_.months.size(); ++k)
                if (out_.months[k].month == month) same.months.push_back(k);
            if (same.months.size() > 1) out_.compared.push_back(std::move(same));
        }
    }

    World& w_;
    const std::string& place_;
    const Window& window_;
    UnitAnswer& out_;
};

}  // namespace

UnitAnswer unit(World& w, const std::string& place, std::optional<Instant> from, std::optional<Instant> until,
                std::int64_t activation_K) {
    UnitAnswer out;
    out.head = w.head;
    out.place = place;
    out.range = w.place(place).range;
    w.engine.keep_readings();
    out.until = until.value_or(w.head.at);
    out.from = from ? *from : std::min(Instant(first_known_of(w, place)), out.until);
    out.head.window = window_words(out.from, out.until, w.head.at, w.known.zone());
    const Window window = window_of(w, out.from, out.until);
    if (!window.empty) Teller(w, place, window, out).tell(activation_K);
    return out;
}

}  // namespace answers
}  // namespace coldtally
