#include <algorithm>

#include "logger/cell.hpp"
#include "logger/guess.hpp"
#include "logger/layout_check.hpp"
#include "logger/message.hpp"
#include "logger/pattern.hpp"
#include "logger/statement.hpp"
#include "logger/value_counts.hpp"
#include "words/general.hpp"
#include "words/logger.hpp"

namespace coldtally::logger {

namespace {

std::string title_of(const Guess& guess, std::optional<int> column) {
    if (!column || static_cast<std::size_t>(*column) > guess.titles.size()) return {};
    return guess.titles[*column - 1];
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

/// Which order of day, month and year it is; or says that it is not settled.
std::string settle(Guess& guess, const Content& content, const words::Says<1>& pattern_is) {
    const auto settled = content.orders.settled();
    Remark pattern = pattern_is(shown(settled.pattern));
    if (!settled.others.empty()) {
        Field others = shown(settled.others.front());
        for (std::size_t i = 1; i < settled.others.size(); ++i)
            others = words::either(std::move(others), shown(settled.others[i]));
        guess.ambiguous.push_back(words::date_could_be(pattern, std::move(others), shown(content.first_date)));
    }
    if (settled.by_line > 0) pattern = words::settled_by_line(std::move(pattern), settled.by_line);
    if (settled.by_steps) pattern = words::settled_by_steps(std::move(pattern));
    guess.guesses.push_back(std::move(pattern));
    return settled.pattern;
}

void guess_patterns(Guess& guess, const Content& content) {
    LoggerLayout& l = guess.layout;
    if (content.time_pattern) {
        l.time_pattern = content.time_pattern;
        guess.guesses.push_back(words::time_pattern_is(shown(*l.time_pattern)));
    }
    if (content.orders.none()) return;
    if (l.instant_column)
        l.instant_pattern = settle(guess, content, words::instant_pattern_is);
    else
        l.date_pattern = settle(guess, content, words::date_pattern_is);
}

/// The orders that the date or instant may have, by all rows.
void look_at_dates(Content& content, const Guess& guess, const RawRows& rows) {
    const LoggerLayout& l = guess.layout;
    content.first_date = rows.cell(0, RawRows::date);
    if (!l.instant_column && !l.time_pattern)
        content.time_pattern = patterns_of(guess, rows, RawRows::time, Pattern::Of::time, "time_pattern").front();
    if (l.instant_column ? l.instant_pattern.has_value() : l.date_pattern.has_value()) return;
    const auto what = l.instant_column ? Pattern::Of::instant : Pattern::Of::date;
    const char* field = l.instant_column ? "instant_pattern" : "date_pattern";
    content.orders = DateOrders(patterns_of(guess, rows, RawRows::date, what, field), what, field);
    std::optional<Pattern> time;
    if (!l.instant_column)
        time = Pattern::compile(l.time_pattern ? *l.time_pattern : *content.time_pattern, Pattern::Of::time,
                                "time_pattern");
    for (std::size_t i = 0; i < rows.size() && content.orders.open(); ++i) {
        ClockParts of_day;
        const bool timed = time && !time->read(trimmed(rows.cell(i, RawRows::time)), of_day);
        content.orders.row(trimmed(rows.cell(i, RawRows::date)), timed ? &of_day : nullptr, rows.line(i));
    }
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
            guess.guesses.push_back(words::clock_at_offset(offset_text(*offset), shown(title)));
            return;
        }
    }
    l.zone = site_zone.name();
    const Remark of_site = words::clock_of_site(site_zone.name());
    guess.guesses.push_back(of_site);
    for (std::size_t i = 0; i < before_rows(guess, lines); ++i)
        if (const auto offset = offset_in(lines[i])) {
            guess.ambiguous.push_back(words::clock_could_be(of_site, offset_text(*offset), i + 1, shown(lines[i])));
            return;
        }
}

std::optional<Scale> scale_before_rows(const Guess& guess, const Lines& lines, std::size_t& line) {
    std::optional<Scale> found;
    for (std::size_t i = 0; i < before_rows(guess, lines); ++i) {
        const auto s = scale_in_line(lines[i]);
        if (!s) continue;
        if (found && *found != *s) return std::nullopt;
        if (!found) line = i + 1;
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

void guess_scale(Guess& guess, const Lines& lines, Scale probe, const Content& content) {
    LoggerLayout& l = guess.layout;
    const std::string title = title_of(guess, l.temperature_column);
    const auto titled = scale_in_title(title);
    const bool given = l.scale.has_value();
    Remark from = words::the_layout;
    const auto ask_if_titled_otherwise = [&] {
        if (titled && *titled != *l.scale)
            guess.ambiguous.push_back(
                words::scale_could_be_titled(in_words(*l.scale), from, in_words(*titled), shown(title)));
    };
    if (given) {
        ask_if_titled_otherwise();
    } else if (l.scale_column) {
        return;  // each row states it
    } else if (content.unit) {
        l.scale = content.unit;
        from = words::the_units_in_cells;
        ask_if_titled_otherwise();
    } else if (titled) {
        l.scale = titled;
        from = words::the_title(shown(title));
    } else if (std::size_t line = 0; const auto before = scale_before_rows(guess, lines, line)) {
        l.scale = before;
        from = words::line_named(line);
    } else {
        l.scale = probe;
        guess.guesses.push_back(words::scale_of_probe_alone(in_words(probe)));
        const std::optional<std::int32_t> median = content.median();
        if (median && looks_like_other(probe, *median))
            guess.ambiguous.push_back(words::scale_could_be_other(in_words(probe), in_words(other(probe)),
                                                                  Temperature(probe, *median).text()));
        return;
    }
    if (!given) guess.guesses.push_back(words::scale_from(in_words(*l.scale), from));
    if (*l.scale != probe)
        throw Error(Code::wrong_scale, guess.file + ": scale: the readings are in " + in_words(*l.scale) + " (" +
                                           english().say(from) + ") and the probe is in " + in_words(probe) +
                                           "; a probe has one scale: import them for a probe in " + in_words(*l.scale) +
                                           ", or have the logger write " + in_words(probe));
}

/// Digits behind the places that say all numbers are the noise of binary fractions: of a program between logger and
/// file. Or the logger does resolve them; so it is asked.
void guess_resolution(Guess& guess, int places, int line, std::string_view cell) {
    guess.layout.resolution = resolution_of(places);
    const Remark shows = words::resolution_shown(guess.layout.resolution->text(), line, shown(trimmed(cell)));
    guess.guesses.push_back(shows);
    guess.ambiguous.push_back(words::could_be_finer(shows));
}

}  // namespace

void Content::add(const TemperatureCell& t, int line, std::string_view cell) {
    places = std::max(places, t.shows);
    if (t.beyond && finest_line == 0) {
        finest_line = line;
        finest_cell = cell;
    }
    if (t.decimal == '.') ++points;
    if (t.decimal == ',') ++commas;
    if (!unit) unit = t.unit;
}

Content look_at(const Guess& guess, const RawRows& rows, Scale probe_scale) {
    Content out;
    look_at_dates(out, guess, rows);
    ValueCounts values;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const std::string_view cell = rows.cell(i, RawRows::temperature);
        TemperatureCell t;
        if (means_no_reading(guess.layout, cell) ||
            !read_temperature(cell, guess.layout.decimal.value_or('\0'), probe_scale, 3, t).empty())
            continue;
        out.add(t, rows.line(i), cell);
        values.add(t.thousandths);
    }
    out.median = [median = values.median()] { return median; };
    return out;
}

void guess_content(Guess& guess, const Lines& lines, const Content& content, const Zone& site_zone, Scale probe_scale) {
    guess_patterns(guess, content);
    guess_clock(guess, lines, site_zone);
    if (!guess.layout.decimal) {
        guess.layout.decimal = content.commas > content.points ? ',' : '.';
        if (content.commas + content.points > 0)
            guess.guesses.push_back(words::decimal_is(content.commas > content.points ? "\",\"" : "\".\""));
    }
    guess_scale(guess, lines, probe_scale, content);
    if (content.finest_line > 0 && !guess.layout.resolution && content.places <= 3)
        guess_resolution(guess, content.places, content.finest_line, content.finest_cell);
}

}  // namespace coldtally::logger
