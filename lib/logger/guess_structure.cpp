#include <algorithm>
#include <functional>

#include "logger/cell.hpp"
#include "logger/guess.hpp"
#include "logger/message.hpp"
#include "logger/pattern.hpp"
#include "logger/statement.hpp"
#include "logger/table.hpp"
#include "text/limits.hpp"
#include "words/logger.hpp"

namespace coldtally::logger {

namespace {

struct Row {
    int line;
    std::vector<std::string> cells;
};

struct Looks {
    std::optional<Pattern> date, time, instant;

    explicit Looks(const LoggerLayout& l) {
        if (l.date_pattern) date = Pattern::compile(*l.date_pattern, Pattern::Of::date, "date_pattern");
        if (l.time_pattern) time = Pattern::compile(*l.time_pattern, Pattern::Of::time, "time_pattern");
        if (l.instant_pattern) instant = Pattern::compile(*l.instant_pattern, Pattern::Of::instant, "instant_pattern");
    }
    static bool of(const std::optional<Pattern>& given, std::string_view cell, Pattern::Of what) {
        ClockParts parts;
        if (given) return given->read(cell, parts) == nullptr;
        return !candidate_patterns(cell, what).empty();
    }
    bool a_date(std::string_view cell) const { return of(date, cell, Pattern::Of::date); }
    bool a_time(std::string_view cell) const { return of(time, cell, Pattern::Of::time); }
    bool an_instant(std::string_view cell) const { return of(instant, cell, Pattern::Of::instant); }
};

bool a_number(std::string_view cell) {
    TemperatureCell t;
    return read_temperature(cell, '\0', Scale::F, 3, t).empty();
}

bool whole_digits(std::string_view cell, std::size_t most) {
    return !cell.empty() && cell.size() <= most &&
           std::all_of(cell.begin(), cell.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::size_t filled(const std::vector<std::string>& cells) {
    std::size_t n = cells.size();
    while (n > 0 && cells[n - 1].empty()) --n;
    return n;
}

/// Lenient: what is no row need not be well formed; but what is longer than any line of titles is passed over.
template <class Take>
void each_record(const Lines& lines, std::size_t from, std::size_t until, char delimiter, const IgnoreRows& ignore,
                 Take take) {
    RecordReader reader(delimiter, false);
    int begun = 0;
    for (std::size_t i = from; i < until; ++i) {
        const int line = static_cast<int>(i) + 1;
        if (lines[i].size() > Lines::longest) {
            reader.reset();
            begun = 0;
            continue;
        }
        if (begun == 0) {
            if (is_blank(lines[i]) || ignore.matches(lines[i])) continue;
            begun = line;
        }
        if (reader.take(lines[i]) == RecordReader::State::open) {
            if (line - begun + 1 < limits::logger_row_lines) continue;
            reader.reset();  // a lone quotation mark
            begun = 0;
            continue;
        }
        Row row{begun, {}};
        const auto cells = std::min<std::size_t>(reader.size(), limits::logger_columns);
        for (std::size_t c = 0; c < cells; ++c) row.cells.emplace_back(trimmed(reader.cell(c)));
        take(std::move(row));
        begun = 0;
    }
}

std::vector<Row> records(const Lines& lines, std::size_t from, std::size_t until, char delimiter,
                         const IgnoreRows& ignore) {
    std::vector<Row> out;
    each_record(lines, from, until, delimiter, ignore, [&](Row row) { out.push_back(std::move(row)); });
    return out;
}

class Structure {
public:
    Structure(Guess& guess, const Lines& lines, const IgnoreRows& ignore, Scale probe_scale)
        : guess_(guess),
          layout_(guess.layout),
          lines_(lines),
          ignore_(ignore),
          probe_scale_(probe_scale),
          looks_(guess.layout) {
        from_ = static_cast<std::size_t>(layout_.skip_lines.value_or(0));
        until_ = std::min(lines.size(), from_ + structure_lines);
    }

    void run() {
        find_delimiter();
        find_clock_columns();
        find_first_row();
        find_temperature_column();
        find_scale_column();
        if (!layout_.skip_lines) settle_first_row();
        look_for_decimal_commas();
    }

private:
    bool one_column_given() const { return layout_.instant_column || layout_.instant_pattern; }
    bool two_columns_given() const {
        return layout_.date_column || layout_.time_column || layout_.date_pattern || layout_.time_pattern;
    }

    /// The given column, or any.
    bool any_cell(const Row& row, const std::optional<int>& column,
                  const std::function<bool(std::string_view)>& is) const {
        if (column) return static_cast<std::size_t>(*column) <= row.cells.size() && is(row.cells[*column - 1]);
        return std::any_of(row.cells.begin(), row.cells.end(), is);
    }
    bool like_a_row(const Row& row) const {
        if (row.cells.size() < 2) return false;
        const auto instant = [&](std::string_view c) { return looks_.an_instant(c); };
        if (!two_columns_given() && any_cell(row, layout_.instant_column, instant)) return true;
        if (one_column_given()) return false;
        return any_cell(row, layout_.date_column, [&](std::string_view c) { return looks_.a_date(c); }) &&
               any_cell(row, layout_.time_column, [&](std::string_view c) { return looks_.a_time(c); });
    }

    void find_delimiter() {
        std::string tried = ",;\t|";
        if (layout_.delimiter) tried = *layout_.delimiter;
        std::size_t best = 0;
        char chosen = '\0';
        for (const char delimiter : tried) {
            auto rows = records(lines_, from_, until_, delimiter, ignore_);
            std::erase_if(rows, [&](const Row& r) { return !like_a_row(r); });
            // a row with a number weighs more than one that only has a time
            std::size_t weight = rows.size();
            for (const Row& r : rows) weight += any_cell(r, layout_.temperature_column, a_number) ? 1000 : 0;
            if (weight <= best) continue;
            best = weight;
            chosen = delimiter;
            rows_ = std::move(rows);
        }
        if (best == 0) {
            const int line = static_cast<int>(std::min(from_, lines_.size() - 1)) + 1;
            throw at_line(
                Code::bad_row, guess_.file, line,
                "from here on, none of " + std::to_string(until_ - std::min(from_, until_)) +
                    " lines looks like a row with a date, a time and a temperature; give a layout with \"delimiter\", "
                    "\"skip_lines\", \"columns\" and the patterns");
        }
        if (!layout_.delimiter) {
            layout_.delimiter = chosen;
            guess_.guesses.push_back(
                words::delimiter_is(chosen == '\t' ? Field(words::tab()) : Field(shown(std::string(1, chosen)))));
        }
    }

    std::size_t columns() const {
        std::size_t n = 0;
        for (const Row& r : rows_) n = std::max(n, r.cells.size());
        return n;
    }

    /// Columns of which at least four cells in five are so.
    std::vector<int> columns_that(const std::function<bool(std::string_view)>& are) const {
        std::vector<int> out;
        for (std::size_t c = 0; c < columns(); ++c) {
            std::size_t n = 0;
            for (const Row& r : rows_) n += c < r.cells.size() && are(r.cells[c]) ? 1 : 0;
            if (n * 5 >= rows_.size() * 4) out.push_back(static_cast<int>(c) + 1);
        }
        return out;
    }

    void choose(std::optional<int>& column, const std::vector<int>& from, const char* what,
                const words::Says<1>& guess) {
        if (column) return;
        if (from.empty())
            throw Error(Code::bad_row, guess_.file + ": no column holds a " + what +
                                           " in every row; give a layout with its \"columns\" and patterns");
        column = from.front();
        clock_guesses_.push_back({&guess, from});
    }

    void find_clock_columns() {
        const auto instants = two_columns_given()
                                  ? std::vector<int>{}
                                  : columns_that([&](std::string_view c) { return looks_.an_instant(c); });
        if (one_column_given() || !instants.empty()) {
            choose(layout_.instant_column, instants, "date with time", words::instant_column_is);
            return;
        }
        choose(layout_.date_column, columns_that([&](std::string_view c) { return looks_.a_date(c); }), "date",
               words::date_column_is);
        choose(layout_.time_column, columns_that([&](std::string_view c) { return looks_.a_time(c); }), "time",
               words::time_column_is);
    }

    bool clock_reads(const Row& row) const {
        const auto at = [&](const std::optional<int>& column) -> std::string_view {
            return static_cast<std::size_t>(*column) <= row.cells.size() ? std::string_view(row.cells[*column - 1])
                                                                         : std::string_view();
        };
        if (layout_.instant_column) return looks_.an_instant(at(layout_.instant_column));
        return looks_.a_date(at(layout_.date_column)) && looks_.a_time(at(layout_.time_column));
    }

    Remark named(int column) const {
        const auto i = static_cast<std::size_t>(column) - 1;
        return i < guess_.titles.size() && !guess_.titles[i].empty()
                   ? words::column_titled(column, shown(guess_.titles[i]))
                   : words::column(column);
    }

    void find_first_row() {
        first_row_ = from_;
        if (!layout_.skip_lines)
            for (const Row& r : rows_)
                if (clock_reads(r)) {
                    first_row_ = static_cast<std::size_t>(r.line) - 1;
                    break;
                }
        each_record(lines_, 0, std::min(first_row_, lines_.size()), *layout_.delimiter, IgnoreRows({}, ""), [&](Row r) {
            if (std::count_if(r.cells.begin(), r.cells.end(), [](const std::string& c) { return !c.empty(); }) < 2)
                return;
            guess_.titles = std::move(r.cells);
            title_line_ = r.line;
        });
        std::erase_if(rows_, [&](const Row& r) { return r.line <= static_cast<int>(first_row_) || !clock_reads(r); });
        for (const auto& [guess, from] : clock_guesses_) {
            const Remark chosen = (*guess)(named(from.front()));
            guess_.guesses.push_back(chosen);
            for (std::size_t i = 1; i < from.size(); ++i)
                guess_.ambiguous.push_back(words::could_be(chosen, named(from[i])));
        }
    }

    bool taken(int column) const {
        for (const auto& c : {layout_.date_column, layout_.time_column, layout_.instant_column,
                              layout_.temperature_column, layout_.scale_column})
            if (c == column) return true;
        return false;
    }

    /// 1, 2, 3 ...: the number of the row.
    bool counts_up(int column) const {
        std::int64_t before = 0;
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            const auto& cell =
                rows_[i].cells.size() >= static_cast<std::size_t>(column) ? rows_[i].cells[column - 1] : std::string();
            if (!whole_digits(cell, 9)) return false;
            const std::int64_t n = std::stoll(cell);
            if (i > 0 && n != before + 1) return false;
            before = n;
        }
        return rows_.size() > 2;
    }

    void find_temperature_column() {
        if (layout_.temperature_column) return;
        struct Choice {
            int column, score;
            std::optional<Scale> scale;
        };
        std::vector<Choice> choices;
        for (int column = 1; column <= static_cast<int>(columns()); ++column) {
            if (taken(column)) continue;
            std::size_t numbers = 0, others = 0;
            bool units = false, decimals = false;
            for (const Row& r : rows_) {
                if (r.cells.size() < static_cast<std::size_t>(column) || means_no_reading(layout_, r.cells[column - 1]))
                    continue;
                TemperatureCell t;
                const bool number = read_temperature(r.cells[column - 1], '\0', Scale::F, 3, t).empty();
                ++(number ? numbers : others);
                units = units || t.unit;
                decimals = decimals || t.decimal != '\0';
            }
            if (numbers == 0 || numbers < others) continue;
            const std::string title =
                static_cast<std::size_t>(column) <= guess_.titles.size() ? guess_.titles[column - 1] : "";
            const int score =
                temperature_score(title) + (units ? 3 : 0) + (decimals ? 1 : 0) - (counts_up(column) ? 6 : 0);
            choices.push_back({column, score, scale_in_title(title)});
        }
        if (choices.empty())
            throw Error(
                Code::bad_row,
                guess_.file + ": no column holds temperatures; give a layout with \"columns\": {\"temperature\": ...}");
        std::stable_sort(choices.begin(), choices.end(),
                         [](const Choice& a, const Choice& b) { return a.score > b.score; });
        // one measurement in both scales: the probe's
        if (choices.size() > 1 && choices[1].score >= 3 && choices[0].scale && choices[1].scale &&
            choices[0].scale != choices[1].scale) {
            const int other = choices[0].scale == probe_scale_ ? 1 : 0;
            std::swap(choices[0], choices[1 - other]);
            choices.erase(choices.begin() + 1);
        }
        const Choice best = choices.front();
        layout_.temperature_column = best.column;
        const Remark chosen = words::temperature_column_is(named(best.column));
        guess_.guesses.push_back(chosen);
        for (std::size_t i = 1; i < choices.size(); ++i)
            if (choices[i].score >= 3 || (best.score < 3 && choices[i].score >= 0))
                guess_.ambiguous.push_back(words::could_be(chosen, named(choices[i].column)));
        if (best.score < 0) guess_.ambiguous.push_back(words::looks_like_another(chosen));
    }

    void find_scale_column() {
        if (layout_.scale_column || layout_.scale) return;
        std::optional<int> found;
        for (const int column : columns_that([](std::string_view c) { return unit_of(c).has_value(); }))
            if (!taken(column) && (!found || *found < *layout_.temperature_column)) found = column;
        if (!found) return;
        layout_.scale_column = found;
        guess_.guesses.push_back(words::scale_column_is(named(*found)));
    }

    /// A first row with a mistake in its date must be refused, not counted among the lines before the rows.
    void settle_first_row() {
        const auto clock =
            static_cast<std::size_t>(layout_.instant_column ? *layout_.instant_column : *layout_.date_column) - 1;
        const auto temperature = static_cast<std::size_t>(*layout_.temperature_column) - 1;
        for (const Row& r :
             records(lines_, static_cast<std::size_t>(title_line_), first_row_, *layout_.delimiter, ignore_)) {
            if (r.cells.size() <= std::max(clock, temperature) || filled(r.cells) != filled(rows_.front().cells))
                continue;
            const auto digits = std::count_if(r.cells[clock].begin(), r.cells[clock].end(),
                                              [](char c) { return c >= '0' && c <= '9'; });
            if (digits < 4 || !a_number(r.cells[temperature])) continue;
            first_row_ = static_cast<std::size_t>(r.line) - 1;
            break;
        }
        layout_.skip_lines = static_cast<int>(first_row_);
        guess_.guesses.push_back(words::lines_before_rows(first_row_));
    }

    /// "4,2" without quotation marks is two cells where the comma is the delimiter, and the whole degrees alone would
    /// be read.
    void look_for_decimal_commas() {
        if (layout_.delimiter != ',' || layout_.decimal == '.' || rows_.empty()) return;
        const auto at = static_cast<std::size_t>(*layout_.temperature_column) - 1;
        const bool split = std::all_of(rows_.begin(), rows_.end(), [&](const Row& r) {
            if (r.cells.size() <= at + 1) return false;
            std::string_view degrees = r.cells[at];
            if (degrees.starts_with('-')) degrees.remove_prefix(1);
            return whole_digits(degrees, 4) && whole_digits(r.cells[at + 1], 3);
        });
        const bool untitled = !guess_.titles.empty() && filled(rows_.front().cells) > filled(guess_.titles) &&
                              filled(guess_.titles) > *layout_.temperature_column - 1u;
        if (split && (guess_.titles.empty() || untitled || layout_.decimal == ','))
            guess_.ambiguous.push_back(
                words::could_be_decimal_commas(words::temperature_column_is(named(*layout_.temperature_column)),
                                               shown(rows_.front().cells[at] + "," + rows_.front().cells[at + 1])));
    }

    struct ClockGuess {
        const words::Says<1>* says;
        std::vector<int> columns;
    };

    Guess& guess_;
    LoggerLayout& layout_;
    const Lines& lines_;
    const IgnoreRows& ignore_;
    Scale probe_scale_;
    Looks looks_;
    std::size_t from_ = 0, until_ = 0, first_row_ = 0;
    int title_line_ = 0;
    std::vector<Row> rows_;  // those that look like rows
    std::vector<ClockGuess> clock_guesses_;
};

}  // namespace

void guess_structure(Guess& guess, const Lines& lines, const IgnoreRows& ignore, Scale probe_scale) {
    Structure(guess, lines, ignore, probe_scale).run();
}

bool means_no_reading(const LoggerLayout& layout, std::string_view cell) noexcept {
    cell = trimmed(cell);
    if (cell.empty()) return true;
    return std::any_of(layout.no_reading.begin(), layout.no_reading.end(),
                       [&](const std::string& text) { return trimmed(text) == cell; });
}

}  // namespace coldtally::logger
