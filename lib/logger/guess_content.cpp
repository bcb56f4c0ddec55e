#include <algorithm>
#include <limits>

#include "logger/cell.hpp"
#include "logger/guess.hpp"
#include "logger/layout_check.hpp"
#include "logger/message.hpp"
#include "logger/pattern.hpp"
#include "logger/statement.hpp"

namespace coldtally::logger {

namespace {

constexpr std::int64_t day_s = 86400;

std::string title_of(const Guess& guess, std::optional<int> column) {
    if (!column || static_cast<std::size_t>(*column) > guess.titles.size()) return {};
    return guess.titles[*column - 1];
}

/// A pattern that is still possible, and how the clock goes that it reads from the rows.
struct Candidate {
    Pattern pattern;
    int settled_by = 0;                ///< line of the first row that only this one reads; 0: none does
    std::optional<std::int64_t> last = std::nullopt;  ///< seconds, of the last row that was read
    std::int64_t longest_step = 0;
    bool up = false, down = false;

    bool one_direction() const { return !(up && down); }
    void go_on(std::int64_t now) {
        if (last) {
            const std::int64_t step = now - *last;
            longest_step = std::max(longest_step, step < 0 ? -step : step);
            // the clock changes of a year are no other direction
            up = up || step > 2 * 3600;
            down = down || step < -2 * 3600;
        }
        last = now;
    }
};

/// Drops the candidates that some row contradicts. A row that none reads is left to the reader, which refuses it by
/// line.
void drop_contradicted(std::vector<Candidate>& candidates, const RawRows& rows, RawRows::Cell cell) {
    for (std::size_t i = 0; i < rows.size() && candidates.size() > 1; ++i) {
        const std::string_view text = trimmed(rows.cell(i, cell));
        std::vector<bool> reads;
        ClockParts parts;
        for (const auto& c : candidates) reads.push_back(c.pattern.read(text, parts) == nullptr);
        if (std::find(reads.begin(), reads.end(), true) == reads.end()) continue;
        std::vector<Candidate> left;
        for (std::size_t c = 0; c < candidates.size(); ++c)
            if (reads[c]) left.push_back(std::move(candidates[c]));
        if (left.size() == 1) left[0].settled_by = rows.line(i);
        candidates = std::move(left);
    }
}

/// The clocks of all, row by row; true where they read the same of every row. Each of them reads the same rows.
bool follow(std::vector<Candidate>& all, const RawRows& rows, RawRows::Cell cell, const std::optional<Pattern>& time) {
    bool same = true;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        ClockParts of_day;
        if (time && time->read(trimmed(rows.cell(i, RawRows::time)), of_day)) continue;
        const std::string_view text = trimmed(rows.cell(i, cell));
        std::optional<std::int64_t> first;
        for (auto& c : all) {
            ClockParts parts;
            if (time) parts = of_day;
            if (c.pattern.read(text, parts)) continue;
            const std::int64_t now = parts.days * day_s + parts.second_of_day - parts.offset_s;
            same = same && now == first.value_or(now);
            first = first.value_or(now);
            c.go_on(now);
        }
    }
    return same;
}

/// Settles which of several date orders it is, or says that it is not settled.
std::string settle(Guess& guess, const RawRows& rows, RawRows::Cell cell, std::vector<std::string> patterns,
                   Pattern::Of what, const char* field, const std::optional<Pattern>& time) {
    std::vector<Candidate> candidates;
    for (const auto& p : patterns) {
        Candidate c{Pattern::compile(p, what, field)};
        candidates.push_back(std::move(c));
    }
    drop_contradicted(candidates, rows, cell);
    std::string why;
    if (candidates.size() == 1) {
        if (candidates[0].settled_by > 0)
            why = " (line " + std::to_string(candidates[0].settled_by) + " can be nothing else)";
    } else {
        if (follow(candidates, rows, cell, time)) {
            candidates.resize(1);  // 03/03: whichever it is
        } else {
            // read wrongly, the days of one month become the same day of following months
            const auto steady = [](const Candidate& c) { return c.one_direction() && c.longest_step <= 4 * day_s; };
            const auto torn = [](const Candidate& c) { return !c.one_direction() || c.longest_step >= 20 * day_s; };
            const auto first = std::find_if(candidates.begin(), candidates.end(), steady);
            const bool settled =
                first != candidates.end() &&
                std::count_if(candidates.begin(), candidates.end(), torn) + 1 == std::ssize(candidates);
            if (settled) {
                std::iter_swap(candidates.begin(), first);
                why = " (only so do the rows follow one another without gaps of weeks)";
            } else {
                std::string others;
                for (std::size_t i = 1; i < candidates.size(); ++i)
                    others += (i > 1 ? " or " : "") + shown(candidates[i].pattern.text());
                guess.ambiguous.push_back(std::string(field) + ": " + shown(candidates[0].pattern.text()) +
                                          ", could be " + others + " (" + shown(rows.cell(0, cell)) + ")");
            }
        }
    }
    const std::string text = candidates[0].pattern.text();
    guess.guesses.push_back(std::string(field) + ": " + shown(text) + why);
    return text;
}

std::vector<std::string> patterns_of(const Guess& guess, const RawRows& rows, RawRows::Cell cell, Pattern::Of what,
                                     const char* field) {
    for (std::size_t i = 0; i < rows.size(); ++i) {
        auto found = candidate_patterns(trimmed(rows.cell(i, cell)), what);
        if (!found.empty()) return found;
    }
    throw at_line(Code::bad_row, guess.file, rows.line(0),
                  std::string(field) + ": " + shown(rows.cell(0, cell)) + ": not recognised; give a layout with \"" +
                      field + "\"");
}

void guess_patterns(Guess& guess, const RawRows& rows) {
    LoggerLayout& l = guess.layout;
    if (l.instant_column) {
        if (!l.instant_pattern)
            l.instant_pattern = settle(guess, rows, RawRows::date,
                                       patterns_of(guess, rows, RawRows::date, Pattern::Of::instant, "instant_pattern"),
                                       Pattern::Of::instant, "instant_pattern", std::nullopt);
        return;
    }
    if (!l.time_pattern) {
        l.time_pattern = patterns_of(guess, rows, RawRows::time, Pattern::Of::time, "time_pattern").front();
        guess.guesses.push_back("time_pattern: " + shown(*l.time_pattern));
    }
    if (!l.date_pattern)
        l.date_pattern = settle(
            guess, rows, RawRows::date, patterns_of(guess, rows, RawRows::date, Pattern::Of::date, "date_pattern"),
            Pattern::Of::date, "date_pattern", Pattern::compile(*l.time_pattern, Pattern::Of::time, "time_pattern"));
}

/// How many lines stand before the rows.
std::size_t before_rows(const Guess& guess, const Lines& lines) {
    return std::min(static_cast<std::size_t>(*guess.layout.skip_lines), lines.size());
}

/// The clock is in the site's zone unless the layout, the rows or the title of the time say otherwise.
void guess_clock(Guess& guess, const Lines& lines, const Zone& site_zone) {
    LoggerLayout& l = guess.layout;
    if (l.zone || l.offset) return;
    if (l.instant_pattern && Pattern::compile(*l.instant_pattern, Pattern::Of::instant, "instant_pattern").has_offset())
        return;
    for (const auto column : {l.instant_column, l.time_column, l.date_column}) {
        const std::string title = title_of(guess, column);
        if (const auto offset = offset_in(title)) {
            l.offset = offset;
            guess.guesses.push_back("clock: at offset " + offset_text(*offset) + ", from the title " + shown(title));
            return;
        }
    }
    l.zone = site_zone.name();
    guess.guesses.push_back("clock: in the site's zone, " + site_zone.name());
    for (std::size_t i = 0; i < before_rows(guess, lines); ++i)
        if (const auto offset = offset_in(lines[i])) {
            guess.ambiguous.push_back("clock: in the site's zone, " + site_zone.name() + ", could be at offset " +
                                      offset_text(*offset) + " (line " + std::to_string(i + 1) + ": " +
                                      shown(lines[i]) + ")");
            return;
        }
}

std::optional<Scale> scale_before_rows(const Guess& guess, const Lines& lines, std::string& where) {
    std::optional<Scale> found;
    for (std::size_t i = 0; i < before_rows(guess, lines); ++i) {
        const auto s = scale_in_line(lines[i]);
        if (!s) continue;
        if (found && *found != *s) return std::nullopt;
        if (!found) where = "line " + std::to_string(i + 1);
        found = s;
    }
    return found;
}

std::string in_words(Scale s) { return s == Scale::C ? "°C" : "°F"; }
Scale other(Scale s) { return s == Scale::C ? Scale::F : Scale::C; }

/// The median reading would be ordinary for a store of vaccines in the other scale and is not in this one.
/// Stores of refrigerators, freezers and rooms: common practice, no source.
bool looks_like_other(Scale scale, std::int32_t median) {
    if (scale == Scale::C)
        return median >= 31'000 ||  // no store is that warm; 36 to 46 °F is a refrigerator, 68 to 77 °F a room
               (median >= -14'000 && median <= 0);  // between freezer and refrigerator; up to 5 °F is a freezer
    return median >= 1'000 && median <= 30'000;     // between freezer and refrigerator; 2 to 8 °C is a refrigerator
}

void guess_scale(Guess& guess, const Lines& lines, Scale probe, std::optional<Scale> unit,
                 std::optional<std::int32_t> median) {
    LoggerLayout& l = guess.layout;
    const std::string title = title_of(guess, l.temperature_column);
    const auto titled = scale_in_title(title);
    std::string from;
    if (l.scale) {
        from = "the layout";
        if (titled && *titled != *l.scale)
            guess.ambiguous.push_back("scale: " + in_words(*l.scale) + " from the layout, could be " +
                                      in_words(*titled) + " (title " + shown(title) + ")");
    } else if (l.scale_column) {
        return;  // each row states it
    } else if (unit) {
        l.scale = unit;
        from = "the units in the cells";
        if (titled && *titled != *unit)
            guess.ambiguous.push_back("scale: " + in_words(*unit) + " from the units in the cells, could be " +
                                      in_words(*titled) + " (title " + shown(title) + ")");
    } else if (titled) {
        l.scale = titled;
        from = "the title " + shown(title);
    } else if (std::string where; const auto before = scale_before_rows(guess, lines, where)) {
        l.scale = before;
        from = where;
    } else {
        l.scale = probe;
        guess.guesses.push_back("scale: " + in_words(probe) + ", the probe's; the file states none");
        if (median && looks_like_other(probe, *median))
            guess.ambiguous.push_back("scale: " + in_words(probe) + ", the probe's, could be " +
                                      in_words(other(probe)) + " (the median reading is " +
                                      Temperature(probe, *median).text() + ", and the file states no scale)");
        return;
    }
    if (from != "the layout") guess.guesses.push_back("scale: " + in_words(*l.scale) + ", from " + from);
    if (*l.scale != probe)
        throw Error(Code::wrong_scale, guess.file + ": scale: the readings are in " + in_words(*l.scale) + " (" + from +
                                           ") and the probe is in " + in_words(probe) +
                                           "; a probe has one scale: import them for a probe in " + in_words(*l.scale) +
                                           ", or have the logger write " + in_words(probe));
}

/// Digits behind the places that say all numbers are the noise of binary fractions: of a program between logger and
/// file. Or the logger does resolve them; so it is asked.
void guess_resolution(Guess& guess, int places, int line, std::string_view cell) {
    guess.layout.resolution = resolution_of(places);
    const std::string text = "resolution: readings rounded to " + guess.layout.resolution->text() +
                             ", as their digits show (line " + std::to_string(line) + ": " + shown(trimmed(cell)) + ")";
    guess.guesses.push_back(text);
    guess.ambiguous.push_back(text + ", could be finer or coarser");
}

}  // namespace

void guess_content(Guess& guess, const Lines& lines, const RawRows& rows, const Zone& site_zone, Scale probe_scale) {
    guess_patterns(guess, rows);
    guess_clock(guess, lines, site_zone);

    std::size_t points = 0, commas = 0;
    int places = 1;                     // that say all numbers
    std::optional<std::size_t> finest;  // the first row with digits behind the thousandths
    std::optional<Scale> unit;
    std::vector<std::int32_t> values;
    values.reserve(rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const std::string_view cell = rows.cell(i, RawRows::temperature);
        TemperatureCell t;
        if (means_no_reading(guess.layout, cell) ||
            !read_temperature(cell, guess.layout.decimal.value_or('\0'), probe_scale, 3, t).empty())
            continue;
        places = std::max(places, t.shows);
        if (t.beyond && !finest) finest = i;
        if (t.decimal == '.') ++points;
        if (t.decimal == ',') ++commas;
        if (!unit) unit = t.unit;
        values.push_back(t.thousandths);
    }
    if (!guess.layout.decimal) {
        guess.layout.decimal = commas > points ? ',' : '.';
        if (commas + points > 0)
            guess.guesses.push_back(std::string("decimal: ") + (commas > points ? "\",\"" : "\".\""));
    }
    std::optional<std::int32_t> median;
    if (!values.empty()) {
        const auto middle = values.begin() + std::ssize(values) / 2;
        std::nth_element(values.begin(), middle, values.end());
        median = *middle;
    }
    guess_scale(guess, lines, probe_scale, unit, median);
    if (finest && !guess.layout.resolution && places <= 3)
        guess_resolution(guess, places, rows.line(*finest), rows.cell(*finest, RawRows::temperature));
}

}  // namespace coldtally::logger
