#include "logger/clock.hpp"

#include <algorithm>

#include "logger/layout_check.hpp"
#include "logger/message.hpp"
#include "quantities/calendar.hpp"
#include "quantities/digits.hpp"

namespace coldtally::logger {

namespace {

constexpr std::int64_t day_s = 86400;

/// "2025-11-02 01:30" as the clock shows it.
std::string clock_text(std::int64_t shown) {
    const std::int64_t days = calendar::floor_div(shown, day_s);
    const int s = static_cast<int>(shown - days * day_s);
    std::string out = calendar::date_of(days).text() + " 00:00:00";
    digits::write2(out, 11, s / 3600);
    digits::write2(out, 14, s / 60 % 60);
    digits::write2(out, 17, s % 60);
    if (s % 60 == 0) out.resize(16);
    return out;
}

/// Resolves local times; a day without a clock change costs one look-up, not one a row.
class LocalClock {
public:
    explicit LocalClock(const Zone& zone) : zone_(zone) {}

    Zone::Candidates at(std::int64_t shown) {
        const std::int64_t day = calendar::floor_div(shown, day_s);
        if (day != day_ || !known_) look_at(day);
        if (even_) return {1, Instant(shown - offset_), Instant()};
        return ask(shown);
    }

private:
    Zone::Candidates ask(std::int64_t shown) const {
        const std::int64_t day = calendar::floor_div(shown, day_s);
        const int s = static_cast<int>(shown - day * day_s);
        return zone_.candidates(calendar::date_of(day), s / 3600, s / 60 % 60, s % 60);
    }
    void look_at(std::int64_t day) {
        day_ = day;
        known_ = true;
        // No zone of the IANA data has changed its clock twice within six days since 1970 (counted over all zones of 2025b):
        // where a day's first and last second have one meaning and lie 86399 s apart, the offset is one all day.
        const auto first = ask(day * day_s), last = ask(day * day_s + day_s - 1);
        even_ = first.count == 1 && last.count == 1 && (last.first - first.first).seconds() == day_s - 1;
        if (even_) offset_ = day * day_s - first.first.seconds_since_1970();
    }

    const Zone& zone_;
    std::int64_t day_ = 0, offset_ = 0;
    bool known_ = false, even_ = false;
};

bool mostly_descending(const std::vector<ClockRow>& rows) {
    std::size_t up = 0, down = 0;
    for (std::size_t i = 1; i < rows.size(); ++i) {
        if (rows[i].shown > rows[i - 1].shown) ++up;
        if (rows[i].shown < rows[i - 1].shown) ++down;
    }
    return down > up;
}

template <class Step>
std::int64_t median_of_positive(std::size_t n, Step step) {
    std::vector<std::int64_t> steps;
    for (std::size_t i = 1; i < n; ++i)
        if (const std::int64_t s = step(i); s > 0) steps.push_back(s);
    if (steps.empty()) return 0;
    const auto middle = steps.begin() + std::ssize(steps) / 2;
    std::nth_element(steps.begin(), middle, steps.end());
    return *middle;
}

/// Consecutive rows whose local time occurs twice in one clock change.
class RepeatedHour {
public:
    RepeatedHour(const std::string& file, const std::vector<ClockRow>& rows, std::vector<Zone::Candidates>& meanings, const Zone& zone,
                 ClockFindings& findings)
        : file_(file), rows_(rows), meanings_(meanings), zone_(zone), findings_(findings) {}

    /// Settles rows [from, until): those before a split are of the first pass, the others of the second.
    void settle(std::size_t from, std::size_t until) {
        from_ = from;
        until_ = until;
        std::vector<std::size_t> back;
        bool same_time = false;
        for (std::size_t i = from + 1; i < until; ++i) {
            if (rows_[i].shown < rows_[i - 1].shown) back.push_back(i);
            same_time = same_time || rows_[i].shown == rows_[i - 1].shown;
        }
        if (back.size() > 1) refuse(back[1], "the rows go back more than once in the hour that occurs twice");
        std::size_t split;
        bool by_step = false;
        if (back.size() == 1) {
            split = back[0];
        } else {
            const auto regular = regular_splits();
            if (regular.size() != 1) refuse(from, "the order of the rows does not settle which");
            split = regular[0];
            by_step = !(same_time && split > from && split < until);
        }
        for (std::size_t i = from; i < until; ++i)
            if (i >= split) meanings_[i].first = meanings_[i].second;
        const auto offset = [&](Instant t) { return offset_text(zone_.offset_at(t)); };
        const auto part = [&](std::size_t a, std::size_t b) {
            return lines(a, b) + " at " + offset(meanings_[a].first);
        };
        std::string what = (rows_[from].line < rows_[until - 1].line ? "line " + std::to_string(rows_[from].line) : "line " + std::to_string(rows_[until - 1].line)) +
                           ": the clock of " + zone_.name() + " shows this hour twice: ";
        if (split > from) what += part(from, split);
        if (split > from && split < until) what += ", ";
        if (split < until) what += part(split, until);
        findings_.remarks.push_back(what);
        if (by_step) findings_.ambiguous.push_back(what + ", going by the usual step between rows; could be the other pass");
    }

private:
    std::string lines(std::size_t a, std::size_t b) const {
        const int x = std::min(rows_[a].line, rows_[b - 1].line), y = std::max(rows_[a].line, rows_[b - 1].line);
        return x == y ? "line " + std::to_string(x) : "lines " + std::to_string(x) + " to " + std::to_string(y);
    }

    /// The splits with which every step is about the usual one.
    std::vector<std::size_t> regular_splits() const {
        const std::int64_t usual = median_of_positive(rows_.size(), [&](std::size_t i) {
            if (meanings_[i].count != 1 || meanings_[i - 1].count != 1) return std::int64_t{0};
            return (meanings_[i].first - meanings_[i - 1].first).seconds();
        });
        const auto fits = [&](std::int64_t step) { return step > 0 && 2 * step <= 3 * usual; };
        const auto first = [&](std::size_t i) { return meanings_[i].first.seconds_since_1970(); };
        const auto second = [&](std::size_t i) { return meanings_[i].second.seconds_since_1970(); };
        std::vector<std::size_t> out;
        if (usual == 0) return out;
        std::size_t bad = 0, bad_at = 0;  // steps inside one pass
        for (std::size_t i = from_ + 1; i < until_; ++i)
            if (!fits(rows_[i].shown - rows_[i - 1].shown)) {
                ++bad;
                bad_at = i;
            }
        for (std::size_t split = from_; split <= until_; ++split) {
            const bool inside = split > from_ && split < until_;
            if (bad > 1 || (bad == 1 && (!inside || bad_at != split))) continue;
            if (inside && !fits(second(split) - first(split - 1))) continue;
            // where no row is before (after) the hour, only what follows (precedes) can tell
            if (from_ > 0 && !fits((split > from_ ? first(from_) : second(from_)) - first(from_ - 1))) continue;
            if (until_ < rows_.size() && !fits(first(until_) - (split < until_ ? second(until_ - 1) : first(until_ - 1)))) continue;
            out.push_back(split);
        }
        return out;
    }

    [[noreturn]] void refuse(std::size_t at, const std::string& why) const {
        throw at_line(Code::ambiguous, file_, rows_[at].line,
                      "time: " + shown(clock_text(rows_[at].shown)) + ": occurs twice in " + zone_.name() + ", and " + why +
                          "; split the file in this hour and import each part with its \"offset\" in the layout (" +
                          offset_text(zone_.offset_at(meanings_[at].first)) + " before the clock goes back, " +
                          offset_text(zone_.offset_at(meanings_[at].second)) + " after), or the whole with one \"offset\" if the logger's clock does not change");
    }

    const std::string& file_;
    const std::vector<ClockRow>& rows_;
    std::vector<Zone::Candidates>& meanings_;
    const Zone& zone_;
    ClockFindings& findings_;
    std::size_t from_ = 0, until_ = 0;
};

}  // namespace

std::vector<TimedRow> settle_clock(const std::string& file, std::vector<ClockRow> rows, const Zone* zone, Duration offset, ClockFindings& findings) {
    if (mostly_descending(rows)) {
        std::reverse(rows.begin(), rows.end());
        findings.remarks.push_back("the newest row is first; read from the end");
    }
    std::vector<TimedRow> out;
    out.reserve(rows.size());
    if (!zone) {
        for (const auto& r : rows)
            if (r.has_reading) out.push_back({r.line, Instant(r.shown) - offset, r.thousandths});
        return out;
    }
    LocalClock clock(*zone);
    std::vector<Zone::Candidates> meanings;
    meanings.reserve(rows.size());
    bool repeated = false;
    for (const auto& r : rows) {
        meanings.push_back(clock.at(r.shown));
        repeated = repeated || meanings.back().count == 2;
        if (meanings.back().count == 0 && r.has_reading)
            throw at_line(Code::bad_row, file, r.line,
                          "time: " + shown(clock_text(r.shown)) + ": does not exist in " + zone->name() +
                              " (the clock is put forward over it); if the logger's clock does not change, give a layout with its \"offset\"");
    }
    if (repeated) {
        RepeatedHour hour(file, rows, meanings, *zone, findings);
        for (std::size_t from = 0; from < rows.size();) {
            std::size_t until = from + 1;
            if (meanings[from].count == 2) {
                const auto near = [&](std::size_t i) { return std::abs(rows[i].shown - rows[i - 1].shown) < day_s; };
                while (until < rows.size() && meanings[until].count == 2 && near(until)) ++until;
                if (std::any_of(rows.begin() + static_cast<std::ptrdiff_t>(from), rows.begin() + static_cast<std::ptrdiff_t>(until),
                                [](const ClockRow& r) { return r.has_reading; }))
                    hour.settle(from, until);
            }
            from = until;
        }
    }
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (rows[i].has_reading) out.push_back({rows[i].line, meanings[i].first, rows[i].thousandths});
    return out;
}

namespace {

struct Run {
    std::size_t from, until;  ///< rows of the file that ascend
};

[[noreturn]] void refuse_step_back(const std::string& file, const std::vector<TimedRow>& rows, std::size_t at, const Zone& zone, bool offset_clock) {
    const auto back = (rows[at - 1].at - rows[at].at).seconds();
    throw at_line(Code::ambiguous, file, rows[at].line,
                  "time: " + shown(zone.local_text(rows[at].at)) + " (local time of the site) goes back from " +
                      shown(zone.local_text(rows[at - 1].at)) + " in line " + std::to_string(rows[at - 1].line) +
                      ": was the clock set back? Then split the file here, and import each part with the \"offset\" its clock had; if the clock was "
                      "right and only the order is not, sort the rows by time" +
                      (offset_clock && back <= 3600 ? std::string("; if the clock follows summer time, give its \"zone\" instead of an offset") : std::string()));
}

}  // namespace

std::vector<Reading> put_in_order(const std::string& file, const std::vector<TimedRow>& rows, const Zone& site_zone, bool offset_clock, ClockFindings& findings) {
    std::vector<Run> runs;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (i == 0 || rows[i].at < rows[i - 1].at) runs.push_back({i, i});
        runs.back().until = i + 1;
    }
    std::vector<TimedRow> sorted = rows;
    std::stable_sort(sorted.begin(), sorted.end(), [](const TimedRow& a, const TimedRow& b) { return a.at < b.at; });
    for (std::size_t i = 1; i < sorted.size(); ++i) {
        if (sorted[i].at != sorted[i - 1].at || sorted[i].thousandths == sorted[i - 1].thousandths) continue;
        const auto& [a, b] = std::minmax(sorted[i - 1], sorted[i], [](const TimedRow& x, const TimedRow& y) { return x.line < y.line; });
        const auto degrees = [](const TimedRow& r) { return Temperature(Scale::C, r.thousandths).text(); };
        throw at_line(Code::readings_differ, file, b.line,
                      "temperature: " + shown(degrees(b)) + ": line " + std::to_string(a.line) + " has " + shown(degrees(a)) + " for the same instant, " +
                          site_zone.local_text(b.at) + " (local time of the site); one of the two is wrong, or the clock was set back between them");
    }
    if (runs.size() > 1) {
        // Blocks in another order are fine where they fit one another: the end of one joins the start of the next, as when the memory
        // is written in a ring, or one repeats the rows of the other. Anything else may be a clock that was set back.
        const std::int64_t usual = median_of_positive(rows.size(), [&](std::size_t i) { return (rows[i].at - rows[i - 1].at).seconds(); });
        std::vector<Run> by_start = runs;
        std::stable_sort(by_start.begin(), by_start.end(), [&](const Run& a, const Run& b) { return rows[a.from].at < rows[b.from].at; });
        std::vector<Instant> covered;
        Run last = by_start[0];
        for (const Run& run : by_start) {
            const auto refuse = [&] { refuse_step_back(file, rows, std::max(run.from, last.from), site_zone, offset_clock); };
            std::size_t i = run.from;
            if (!covered.empty() && rows[run.from].at > covered.back()) {
                if ((rows[run.from].at - covered.back()).seconds() > 2 * usual) refuse();
            } else if (!covered.empty()) {
                auto known = std::lower_bound(covered.begin(), covered.end(), rows[run.from].at);
                for (; known != covered.end() && i < run.until; ++known) {
                    if (*known != rows[i].at) refuse();
                    while (i < run.until && rows[i].at == *known) ++i;
                }
                if (i < run.until && rows[i].at <= covered.back()) refuse();
            }
            if (covered.empty() || rows[run.until - 1].at > covered.back()) last = run;
            for (; i < run.until; ++i)
                if (covered.empty() || rows[i].at > covered.back()) covered.push_back(rows[i].at);
        }
        for (std::size_t i = 1; i < runs.size(); ++i) {
            const auto& row = rows[runs[i].from];
            findings.remarks.push_back("line " + std::to_string(row.line) + ": goes back to " + site_zone.local_text(row.at) +
                                       " (local time of the site); the parts fit one another and were sorted");
            if (i == 20 && runs.size() > 21) {
                findings.remarks.push_back("and " + std::to_string(runs.size() - 1 - i) + " more steps back of this kind");
                break;
            }
        }
    }
    std::vector<Reading> out;
    out.reserve(sorted.size());
    for (const auto& r : sorted)
        if (out.empty() || out.back().at != r.at) out.push_back({r.at, r.thousandths});
    return out;
}

}  // namespace coldtally::logger
