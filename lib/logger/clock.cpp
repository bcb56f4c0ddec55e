#include "logger/clock.hpp"

#include <algorithm>
#include <map>
#include <queue>
#include <span>

#include "logger/layout_check.hpp"
#include "logger/local_clock.hpp"
#include "logger/message.hpp"
#include "words/general.hpp"
#include "words/logger.hpp"

namespace coldtally::logger {

namespace {

using Rows = const std::vector<FileRow>&;

/// What the clock of a row showed that is not settled yet.
std::int64_t shown_s(const FileRow& row) { return row.at.seconds_since_1970(); }

bool mostly_descending(Rows rows) {
    std::int64_t up = 0;
    for (std::size_t i = 1; i < rows.size(); ++i)
        up += (shown_s(rows[i]) > shown_s(rows[i - 1])) - (shown_s(rows[i]) < shown_s(rows[i - 1]));
    return up < 0;
}

bool ascending(Rows rows) {
    for (std::size_t i = 1; i < rows.size(); ++i)
        if (rows[i].at <= rows[i - 1].at) return false;
    return true;
}

/// Counted, and not listed: of millions of steps few differ, since all of them together are as long as the time is.
template <class Step>
std::int64_t median_of_positive(std::size_t n, Step step) {
    std::map<std::int64_t, std::size_t> times;
    std::size_t all = 0, before = 0;
    auto last = times.end();
    for (std::size_t i = 1; i < n; ++i)
        if (const std::int64_t s = step(i); s > 0) {
            if (last == times.end() || last->first != s) last = times.try_emplace(s, 0).first;
            ++last->second;
            ++all;
        }
    for (const auto& [length, count] : times)
        if (before += count; before > all / 2) return length;
    return 0;
}

/// What the local times of the rows of one clock mean. Found anew each time it is asked, which costs next to nothing
/// for times of one day one after the other: a file has millions of rows.
class Meanings {
public:
    Meanings(std::span<const FileRow> rows, const Zone& zone) : rows_(rows), clock_(zone), second_pass_(rows.size()) {}
    /// With the pass that is settled first, where a row's time occurs twice.
    Zone::Candidates operator[](std::size_t i) {
        Zone::Candidates out = clock_.at(shown_s(rows_[i]));
        if (second_pass_[i]) out.first = out.second;
        return out;
    }
    void take_second(std::size_t i) { second_pass_[i] = true; }

private:
    std::span<const FileRow> rows_;
    LocalClock clock_;
    std::vector<bool> second_pass_;
};

/// Consecutive rows whose local time occurs twice in one clock change.
class RepeatedHour {
public:
    RepeatedHour(const std::string& file, std::span<const FileRow> rows, Meanings& meanings, const Zone& zone,
                 bool only_clock, ClockFindings& findings)
        : file_(file), rows_(rows), meanings_(meanings), zone_(zone), only_clock_(only_clock), findings_(findings) {}

    /// Settles rows [from, until): those before a split are of the first pass, the others of the second.
    void settle(std::size_t from, std::size_t until) {
        from_ = from;
        until_ = until;
        std::vector<std::size_t> back;
        bool same_time = false;
        for (std::size_t i = from + 1; i < until; ++i) {
            if (shown_s(rows_[i]) < shown_s(rows_[i - 1])) back.push_back(i);
            same_time = same_time || shown_s(rows_[i]) == shown_s(rows_[i - 1]);
        }
        if (back.size() > 1) refuse(back[1], "the rows go back more than once in the hour that occurs twice", false);
        std::size_t split;
        bool by_step = false;
        if (back.size() == 1) {
            split = back[0];
        } else {
            const auto regular = regular_splits();
            if (regular.size() != 1) refuse(from, "the order of the rows does not settle which", back.empty());
            split = regular[0];
            by_step = !(same_time && split > from && split < until);
        }
        for (std::size_t i = from; i < until; ++i)
            if (i >= split) meanings_.take_second(i);
        const auto part = [&](std::size_t a, std::size_t b) {
            const auto [first, last] = lines(a, b);
            const std::string offset = offset_text(zone_.offset_at(meanings_[a].first));
            return first == last ? words::row_at_offset(first, offset) : words::rows_at_offset(first, last, offset);
        };
        Remark passes = split > from ? part(from, split) : part(split, until);
        if (split > from && split < until) passes = words::comma(std::move(passes), part(split, until));
        const Remark what = words::hour_shown_twice(lines(from, until).first, zone_.name(), std::move(passes));
        findings_.remarks.push_back(what);
        if (by_step) findings_.ambiguous.push_back(words::could_be_other_pass(what));
    }

private:
    /// The first and the last of the rows [a, b), which go up or down.
    std::pair<int, int> lines(std::size_t a, std::size_t b) const {
        return std::minmax(rows_[a].line, rows_[b - 1].line);
    }

    std::int64_t usual_step() {
        if (!usual_)
            usual_ = median_of_positive(rows_.size(), [&](std::size_t i) {
                if (meanings_[i].count != 1 || meanings_[i - 1].count != 1) return std::int64_t{0};
                return (meanings_[i].first - meanings_[i - 1].first).seconds();
            });
        return *usual_;
    }

    /// The splits with which every step is about the usual one.
    std::vector<std::size_t> regular_splits() {
        const std::int64_t usual = usual_step();
        const auto fits = [&](std::int64_t step) { return step > 0 && 2 * step <= 3 * usual; };
        const auto first = [&](std::size_t i) { return meanings_[i].first.seconds_since_1970(); };
        const auto second = [&](std::size_t i) { return meanings_[i].second.seconds_since_1970(); };
        std::vector<std::size_t> out;
        if (usual == 0) return out;
        std::size_t bad = 0, bad_at = 0;  // steps inside one pass
        for (std::size_t i = from_ + 1; i < until_; ++i)
            if (!fits(shown_s(rows_[i]) - shown_s(rows_[i - 1]))) {
                ++bad;
                bad_at = i;
            }
        for (std::size_t split = from_; split <= until_; ++split) {
            const bool inside = split > from_ && split < until_;
            if (bad > 1 || (bad == 1 && (!inside || bad_at != split))) continue;
            if (inside && !fits(second(split) - first(split - 1))) continue;
            // where no row is before (after) the hour, only what follows (precedes) can tell
            if (from_ > 0 && !fits((split > from_ ? first(from_) : second(from_)) - first(from_ - 1))) continue;
            if (until_ < rows_.size() &&
                !fits(first(until_) - (split < until_ ? second(until_ - 1) : first(until_ - 1))))
                continue;
            out.push_back(split);
        }
        return out;
    }

    /// `one_pass`: the rows may be of one pass.
    [[noreturn]] void refuse(std::size_t at, const std::string& why, bool one_pass) const {
        LoggerRefusal::Facts facts;
        facts.found = file_ + ": line " + std::to_string(rows_[at].line) +
                      ": time: " + shown(clock_text(shown_s(rows_[at]))) + ": occurs twice in " + zone_.name() +
                      ", and " + why;
        const Duration before = zone_.offset_at(meanings_[at].first), after = zone_.offset_at(meanings_[at].second);
        const auto [first, last] = lines(from_, until_);
        const bool rows_below = std::max(rows_.front().line, rows_.back().line) > last;
        const std::string rows = first == last
                                     ? "line " + std::to_string(first) + " is"
                                     : "lines " + std::to_string(first) + " to " + std::to_string(last) + " are";
        const auto hour_at = [&, begin = first, end = last](Duration offset, const char* which) {
            Remedy r{rows + " of the hour " + which + " the clock goes back", {}};
            r.layout.clocks.push_back({begin, {}, offset, {}});
            if (rows_below) r.layout.clocks.push_back({end + 1, zone_.name(), {}, {}});
            facts.remedies.push_back(std::move(r));
        };
        const auto all_at = [&](Duration offset, const char* which) {
            Remedy r{std::string("the logger's clock does not change, and is at the offset ") + which +
                         " the clock goes back",
                     {}};
            r.layout.offset = offset;
            facts.remedies.push_back(std::move(r));
        };
        if (only_clock_ && one_pass) {
            hour_at(before, "before");
            hour_at(after, "after");
        }
        if (only_clock_) {
            all_at(before, "before");
            all_at(after, "after");
        }
        throw LoggerRefusal(Code::ambiguous, std::move(facts));
    }

    const std::string& file_;
    std::span<const FileRow> rows_;
    Meanings& meanings_;
    const Zone& zone_;
    bool only_clock_;
    ClockFindings& findings_;
    std::size_t from_ = 0, until_ = 0;
    std::optional<std::int64_t> usual_;
};

/// Of the clocks, that of the rows in a line: its index.
std::size_t part_of(const std::vector<ClockPart>& parts, int line) {
    const auto after =
        std::upper_bound(parts.begin(), parts.end(), line, [](int l, const ClockPart& p) { return l < p.line; });
    return after == parts.begin() ? 0 : static_cast<std::size_t>(after - parts.begin()) - 1;
}

/// Settles the instants of rows of one clock, in the order they were logged. Those whose time does not exist have no
/// reading then.
void settle_part(const std::string& file, std::span<FileRow> rows, const ClockPart& part, bool only_clock,
                 ClockFindings& findings) {
    if (!part.zone) {
        for (auto& r : rows) r.at = r.at - part.offset;
        return;
    }
    const Zone& zone = *part.zone;
    bool repeated = false, skipped = false;
    LocalClock clock(zone);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const auto meaning = clock.at(shown_s(rows[i]));
        repeated = repeated || meaning.count == 2;
        skipped = skipped || meaning.count == 0;
        if (meaning.count == 0 && rows[i].has_reading())
            findings.skipped.push_back(
                {rows[i].line, static_cast<std::int32_t>(zone.offset_at(Instant(shown_s(rows[i]) - day_s)).seconds()),
                 shown_s(rows[i])});
    }
    if (!repeated && !skipped) {
        for (auto& r : rows) r.at = clock.at(shown_s(r)).first;
        return;
    }
    Meanings meanings(rows, zone);
    if (repeated) {
        RepeatedHour hour(file, rows, meanings, zone, only_clock, findings);
        const auto twice = [&](std::size_t i) { return meanings[i].count == 2; };
        for (std::size_t from = 0; from < rows.size();) {
            std::size_t until = from + 1;
            if (twice(from)) {
                const auto near = [&](std::size_t i) {
                    return std::abs(shown_s(rows[i]) - shown_s(rows[i - 1])) < day_s;
                };
                while (until < rows.size() && twice(until) && near(until)) ++until;
                if (std::any_of(rows.begin() + static_cast<std::ptrdiff_t>(from),
                                rows.begin() + static_cast<std::ptrdiff_t>(until),
                                [](const FileRow& r) { return r.has_reading(); }))
                    hour.settle(from, until);
            }
            from = until;
        }
    }
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const auto meaning = meanings[i];  // of the row as it still is
        if (meaning.count == 0)
            rows[i].thousandths = FileRow::no_reading;
        else
            rows[i].at = meaning.first;
    }
}

}  // namespace

std::vector<ClockPart> clock_parts(const std::string& file, const LoggerLayout& layout, bool rows_state_offset,
                                   Rows rows, const Zone& site_zone) {
    std::vector<ClockPart> out(1);
    if (!rows_state_offset) {
        out[0].stated = true;
        out[0].offset = layout.offset.value_or(Duration(0));
        if (!layout.offset) out[0].zone.emplace(layout.zone ? *layout.zone : site_zone.name());
    }
    if (rows.empty()) return out;  // of none the time could be read: the caller says why
    for (const ClockFrom& c : layout.clocks) {
        const auto refuse = [&](const std::string& field, const std::string& what) {
            throw Error(Code::bad_value, file + ": layout: clocks: " + field + ": " + what);
        };
        const auto row = std::lower_bound(rows.begin(), rows.end(), c.line,
                                          [](const FileRow& r, int line) { return r.line < line; });
        if (row == rows.end())
            refuse("line", std::to_string(c.line) + ": the last row is in line " + std::to_string(rows.back().line));
        ClockPart part;
        part.line = c.line;
        part.stated = !c.at;
        if (c.zone) part.zone.emplace(*c.zone);
        if (c.offset) part.offset = *c.offset;
        if (c.at) {
            if (row->line != c.line)
                refuse("line", std::to_string(c.line) +
                                   ": is no row; \"at\" is the right time of a row, the next one is in line " +
                                   std::to_string(row->line));
            try {
                part.offset = row->at - right_time(*c.at, site_zone);
            } catch (const Error& e) {
                refuse("at", e.what());
            }
        }
        if (out.back().line >= part.line) out.pop_back();  // all lines are of the first that is stated
        out.push_back(std::move(part));
    }
    return out;
}

std::vector<FileRow> settle_clock(const std::string& file, std::vector<FileRow> rows,
                                  const std::vector<ClockPart>& parts, ClockFindings& findings) {
    if (mostly_descending(rows)) {
        std::reverse(rows.begin(), rows.end());
        findings.remarks.push_back(words::newest_row_first);
    }
    for (auto from = rows.begin(); from != rows.end();) {
        const std::size_t part = part_of(parts, from->line);
        const auto until = parts.size() == 1 ? rows.end() : std::find_if(from, rows.end(), [&](const FileRow& r) {
            return part_of(parts, r.line) != part;
        });
        settle_part(file, std::span<FileRow>(from, until), parts[part], parts.size() == 1, findings);
        from = until;
    }
    std::erase_if(rows, [](const FileRow& r) { return !r.has_reading(); });
    return rows;
}

std::string skipped_words(const SkippedTime& time, const std::vector<ClockPart>& parts) {
    return "time: " + shown(clock_text(time.shown)) + ": does not exist in " +
           parts[part_of(parts, time.line)].zone->name() + " (the clock is put forward over it)";
}

namespace {

/// Where rows go back: what may have happened, and how it is stated.
class StepBack {
public:
    StepBack(const std::string& file, Rows rows, const std::vector<ClockPart>& parts,
             const Zone& zone)
        : file_(file),
          rows_(rows),
          parts_(parts),
          zone_(zone),
          usual_(median_of_positive(rows.size(),
                                    [&](std::size_t i) { return (rows[i].at - rows[i - 1].at).seconds(); })) {}
    Duration usual() const { return usual_; }

    /// Row `at` is earlier than the one logged before it.
    [[noreturn]] void refuse(std::size_t at) const {
        LoggerRefusal::Facts facts;
        facts.found = file_ + ": line " + std::to_string(rows_[at].line) +
                      ": time: " + shown(zone_.local_text(rows_[at].at)) + " (local time of the site) goes back from " +
                      shown(zone_.local_text(rows_[at - 1].at)) + " in line " + std::to_string(rows_[at - 1].line) +
                      ": was the clock set back?";
        facts.remedies = remedies(at);
        throw LoggerRefusal(Code::ambiguous, std::move(facts));
    }

    std::vector<Remedy> remedies(std::size_t at) const {
        const FileRow &before = rows_[at - 1], &after = rows_[at];
        const bool down = before.line < after.line;  // the file goes on as time does
        std::vector<Remedy> out;
        const auto add = [&](const std::string& when, std::vector<ClockFrom> clocks) {
            std::sort(clocks.begin(), clocks.end(),
                      [](const ClockFrom& a, const ClockFrom& b) { return a.line < b.line; });
            Remedy r{when, {}};
            r.layout.clocks = std::move(clocks);
            out.push_back(std::move(r));
        };
        const std::string above = "line " + std::to_string(before.line), below = "line " + std::to_string(after.line);
        const Duration late = (before.at + usual_) - after.at;
        if (down) {
            add("the clock was right up to " + above, {right_at(after, before.at + usual_)});
            const FileRow& first = first_of_part(at - 1);
            add("it was right from " + below + " on", {right_at(first, first.at - late), as_it_was(after)});
            if (apart(at)) add("it was right all the time, and only the order of the rows is not", {as_it_was(after)});
        } else {
            const FileRow& top = last_of_part(at);
            add("the clock was right in " + above + " and below", {right_at(top, top.at + late), as_it_was(before)});
            add("it was right in " + below + " and above", {right_at(before, after.at - usual_)});
            if (apart(at)) add("it was right all the time, and only the order of the rows is not", {as_it_was(before)});
        }
        const ClockPart& part = parts_[part_of(parts_, after.line)];
        if (parts_.size() == 1 && part.stated && !part.zone && (before.at - after.at).seconds() <= 3600) {
            Remedy r{"the clock follows summer time", {}};
            r.layout.zone = zone_.name();
            out.push_back(std::move(r));
        }
        return out;
    }

private:
    ClockFrom right_at(const FileRow& row, Instant at) const {
        std::string local = zone_.local_text(at);
        local[10] = 'T';
        if (local.size() == 16) local += ":00";
        const auto meant = [&] {
            try {
                return parse_instant(local, zone_) == at;
            } catch (const Error&) {
                return false;  // it occurs twice
            }
        };
        return {row.line, {}, {}, meant() ? local : at.text()};
    }
    /// The clock that the row's part has.
    ClockFrom as_it_was(const FileRow& row) const {
        const ClockPart& part = parts_[part_of(parts_, row.line)];
        if (!part.stated) return right_at(row, row.at);
        if (part.zone) return {row.line, part.zone->name(), {}, {}};
        return {row.line, {}, part.offset, {}};
    }
    const FileRow& first_of_part(std::size_t i) const {
        const std::size_t part = part_of(parts_, rows_[i].line);
        while (i > 0 && part_of(parts_, rows_[i - 1].line) == part) --i;
        return rows_[i];
    }
    const FileRow& last_of_part(std::size_t i) const {
        const std::size_t part = part_of(parts_, rows_[i].line);
        while (i + 1 < rows_.size() && part_of(parts_, rows_[i + 1].line) == part) ++i;
        return rows_[i];
    }
    /// None of the rows before lies among those from `at` on.
    bool apart(std::size_t at) const {
        const auto middle = rows_.begin() + static_cast<std::ptrdiff_t>(at);
        const auto earlier = [](const FileRow& a, const FileRow& b) { return a.at < b.at; };
        const auto [a0, a1] = std::minmax_element(rows_.begin(), middle, earlier);
        const auto [b0, b1] = std::minmax_element(middle, rows_.end(), earlier);
        return a1->at < b0->at || b1->at < a0->at;
    }

    const std::string& file_;
    Rows rows_;
    const std::vector<ClockPart>& parts_;
    const Zone& zone_;
    Duration usual_;
};

struct Run {
    std::uint32_t from, until;  ///< rows of the file that ascend
};

std::vector<Run> runs_of(Rows rows, std::size_t from, std::size_t until) {
    std::vector<Run> runs;
    for (std::size_t i = from; i < until; ++i) {
        const auto row = static_cast<std::uint32_t>(i);
        if (i == from || rows[i].at < rows[i - 1].at) runs.push_back({row, row});
        runs.back().until = row + 1;
    }
    return runs;
}

/// Instants of rows, ascending: kept as runs of the rows, of which there may be millions.
class Covered {
public:
    explicit Covered(Rows rows) : rows_(rows) {}
    /// Later than all before.
    void add(const Run& run) { runs_.push_back(run); }
    bool empty() const { return runs_.empty(); }
    Instant until() const { return rows_[runs_.back().until - 1].at; }

    struct Place {
        std::size_t run;
        std::uint32_t row;
        Instant at;
    };
    /// The first that is not before `at`.
    std::optional<Place> from(Instant at) const {
        const auto run = std::partition_point(runs_.begin(), runs_.end(),
                                              [&](const Run& r) { return rows_[r.until - 1].at < at; });
        if (run == runs_.end()) return std::nullopt;
        const auto row = std::partition_point(rows_.begin() + run->from, rows_.begin() + run->until,
                                              [&](const FileRow& r) { return r.at < at; });
        return Place{static_cast<std::size_t>(run - runs_.begin()), static_cast<std::uint32_t>(row - rows_.begin()),
                     row->at};
    }
    void next(std::optional<Place>& place) const {
        const Instant before = place->at;
        while (place && place->at == before) {
            if (++place->row == runs_[place->run].until) {
                if (++place->run == runs_.size()) {
                    place.reset();
                    return;
                }
                place->row = runs_[place->run].from;
            }
            place->at = rows_[place->row].at;
        }
    }

private:
    Rows rows_;
    std::vector<Run> runs_;
};

/// Rows of several runs in the order of their instants, equal ones in that of the file; no more is held than a place in
/// each run.
class InOrder {
public:
    InOrder(Rows rows, const std::vector<Run>& runs) : rows_(rows), others_(Later{rows}, runs) {}
    const FileRow* next() {
        if (run_.from == run_.until || (!others_.empty() && Later{rows_}(run_, others_.top()))) {
            if (run_.from != run_.until) others_.push(run_);
            if (others_.empty()) return nullptr;
            run_ = others_.top();
            others_.pop();
        }
        return &rows_[run_.from++];
    }

private:
    struct Later {
        Rows rows;
        bool operator()(const Run& a, const Run& b) const {
            return rows[a.from].at != rows[b.from].at ? rows[a.from].at > rows[b.from].at : a.from > b.from;
        }
    };
    Rows rows_;
    Run run_{0, 0};  // that the last row was of
    std::priority_queue<Run, std::vector<Run>, Later> others_;
};

/// Blocks in another order are fine where they fit one another: the end of one joins the start of the next, as when the
/// memory is written in a ring, or one repeats the rows of the other. Anything else may be a clock that was set back.
void check_runs(Rows rows, const std::vector<Run>& runs, const StepBack& step) {
    std::vector<Run> by_start = runs;
    std::stable_sort(by_start.begin(), by_start.end(),
                     [&](const Run& a, const Run& b) { return rows[a.from].at < rows[b.from].at; });
    Covered covered(rows);
    Run last = by_start[0];
    for (const Run& run : by_start) {
        const auto refuse = [&] { step.refuse(std::max(run.from, last.from)); };
        std::uint32_t i = run.from;
        if (!covered.empty() && rows[run.from].at > covered.until()) {
            if ((rows[run.from].at - covered.until()).seconds() > 2 * step.usual().seconds()) refuse();
        } else if (!covered.empty()) {
            for (auto known = covered.from(rows[run.from].at); known && i < run.until; covered.next(known)) {
                if (known->at != rows[i].at) refuse();
                while (i < run.until && rows[i].at == known->at) ++i;
            }
            if (i < run.until && rows[i].at <= covered.until()) refuse();
        }
        if (covered.empty() || rows[run.until - 1].at > covered.until()) last = run;
        if (i < run.until) covered.add({i, run.until});
    }
}

/// Rows of one clock that follow one another in the file.
struct Stretch {
    Run rows;
    Instant earliest, latest;
};

/// Of a file whose clock was another from a line on: each clock's rows by themselves, where they do not lie among those
/// of another.
std::vector<Stretch> stretches_of(Rows rows, const std::vector<ClockPart>& parts) {
    std::vector<Stretch> out;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (i == 0 || part_of(parts, rows[i].line) != part_of(parts, rows[i - 1].line))
            out.push_back({{static_cast<std::uint32_t>(i), 0}, rows[i].at, rows[i].at});
        Stretch& s = out.back();
        s.rows.until = static_cast<std::uint32_t>(i) + 1;
        s.earliest = std::min(s.earliest, rows[i].at);
        s.latest = std::max(s.latest, rows[i].at);
    }
    std::vector<Stretch> by_time = out;
    std::sort(by_time.begin(), by_time.end(),
              [](const Stretch& a, const Stretch& b) { return a.earliest < b.earliest; });
    for (std::size_t i = 1; i < by_time.size(); ++i)
        if (by_time[i].earliest <= by_time[i - 1].latest)
            return {{{0, static_cast<std::uint32_t>(rows.size())}, {}, {}}};
    return out;
}

}  // namespace

std::vector<FileRow> put_in_order(const std::string& file, std::vector<FileRow> rows,
                                  const std::vector<ClockPart>& parts, const Zone& site_zone, ClockFindings& findings) {
    if (ascending(rows)) return rows;  // as most files have them
    const std::vector<Run> runs = runs_of(rows, 0, rows.size());
    InOrder in_order(rows, runs);
    for (const FileRow *before = in_order.next(), *row = in_order.next(); row; before = row, row = in_order.next()) {
        if (row->at != before->at || row->thousandths == before->thousandths) continue;
        const auto& [a, b] =
            std::minmax(*before, *row, [](const FileRow& x, const FileRow& y) { return x.line < y.line; });
        const auto degrees = [](const FileRow& r) { return Temperature(Scale::C, r.thousandths).text(); };
        LoggerRefusal::Facts facts;
        facts.found = file + ": line " + std::to_string(b.line) + ": temperature: " + shown(degrees(b)) + ": line " +
                      std::to_string(a.line) + " has " + shown(degrees(a)) + " for the same instant, " +
                      site_zone.local_text(b.at) +
                      " (local time of the site); one of the two is wrong, or the clock was set back between them";
        for (std::size_t k = runs.size(); k-- > 1;)  // the last step back between the two
            if (const int line = rows[runs[k].from].line; line > a.line && line <= b.line) {
                facts.remedies = StepBack(file, rows, parts, site_zone).remedies(runs[k].from);
                break;
            }
        throw LoggerRefusal(Code::readings_differ, std::move(facts));
    }
    if (runs.size() > 1) {
        const StepBack step(file, rows, parts, site_zone);
        for (const Stretch& s : stretches_of(rows, parts))
            check_runs(rows, runs_of(rows, s.rows.from, s.rows.until), step);
        for (std::size_t i = 1; i < runs.size(); ++i) {
            const auto& row = rows[runs[i].from];
            const bool other = part_of(parts, row.line) != part_of(parts, rows[runs[i].from - 1].line);
            findings.remarks.push_back((other ? words::goes_back_by_clock : words::goes_back_and_fits)(
                row.line, site_zone.local_text(row.at)));
            if (i == 20 && runs.size() > 21) {
                findings.remarks.push_back(words::more_steps_back(runs.size() - 1 - i));
                break;
            }
        }
        std::sort(rows.begin(), rows.end(),
                  [](const FileRow& a, const FileRow& b) { return a.at < b.at; });  // equal ones are equal
    }
    rows.erase(std::unique(rows.begin(), rows.end(), [](const FileRow& a, const FileRow& b) { return a.at == b.at; }),
               rows.end());
    return rows;
}

}  // namespace coldtally::logger
