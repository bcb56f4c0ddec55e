#include "logger/reader.hpp"

#include <algorithm>

#include "logger/cell.hpp"
#include "logger/clock.hpp"
#include "logger/guess.hpp"
#include "logger/layout_check.hpp"
#include "logger/lines.hpp"
#include "logger/message.hpp"
#include "logger/pattern.hpp"
#include "logger/plain_rows.hpp"
#include "logger/sample.hpp"
#include "logger/table.hpp"
#include "logger/unreadable.hpp"
#include "logger/value_counts.hpp"
#include "text/limits.hpp"
#include "words/logger.hpp"

namespace coldtally::logger {

namespace {

Error too_many_rows(const std::string& file) {
    return Error(Code::bad_text, file + ": has more than " + std::to_string(limits::logger_rows) + " rows; split it");
}

std::optional<Duration> longest_step(const std::vector<FileRow>& rows) {
    std::optional<Duration> out;
    for (std::size_t i = 1; i < rows.size(); ++i) {
        const Duration step = rows[i].at - rows[i - 1].at;
        if (!out || step > *out) out = step;
    }
    return out;
}

void say_rounded(ImportedFile& report, const Rounded& rounded) {
    report.rows_rounded = rounded.rows;
    if (rounded.rows > 0) report.largest_change = rounded.largest;
}

class Reader {
public:
    Reader(const LoggerFile& file, const LoggerLayout& layout, const Zone& site_zone, Scale probe_scale,
           bool accept_guesses)
        : file_(file),
          site_zone_(site_zone),
          probe_scale_(probe_scale),
          accept_guesses_(accept_guesses),
          ignore_(layout.ignore_rows, file.name + ": layout"),
          lines_((check_layout(layout, file.name + ": layout"), file)) {
        if (lines_.latin1()) out_.report.remarks.push_back(words::read_as_latin1);
        guess_.file = file.name;
        guess_.layout = layout;
    }

    /// The careful way: each row is found, looked at and read.
    ReadFile run() {
        look();
        guess_content(guess_, lines_, content_, site_zone_, probe_scale_);
        refuse_if_ambiguous(guess_.ambiguous);
        ClockedRows rows = rows_of_clock();
        rows_.clear();
        return finish(std::move(rows));
    }

    /// The quick way, of a sample's reader: `all`, of which it is a sample, is read as it lets expect. Nothing where it
    /// is no file for that.
    std::optional<ReadFile> read_all(const LoggerFile& all) {
        look();
        if (bad_.any() || !guess_.layout.ignore_rows.empty()) return std::nullopt;
        const Guess structure = guess_;
        guess_content(guess_, lines_, content_, site_zone_, probe_scale_);
        const LoggerLayout expected = guess_.layout;

        Content content;
        content.time_pattern = content_.time_pattern;
        content.orders = content_.orders.anew();
        content.first_date = content_.first_date;
        auto rows = read_plain_rows(all, expected, lines_.latin1(), probe_scale_, content);
        if (!rows || (content.orders.open() && !content_.orders.open())) return std::nullopt;
        // in these thousandths readings are rounded to the layout's resolution, which the median is asked without
        bool median_known = true;
        content.median = [&] {
            median_known = !expected.resolution;
            ValueCounts values;
            for (const FileRow& r : rows->rows)
                if (r.has_reading()) values.add(r.thousandths);
            return values.median();
        };
        guess_ = structure;
        guess_content(guess_, lines_, content, site_zone_, probe_scale_);
        if (!median_known || guess_.layout.text() != expected.text()) return std::nullopt;
        refuse_if_ambiguous(guess_.ambiguous);
        return finish(std::move(*rows));
    }

private:
    /// What the rows say of how they are to be read.
    void look() {
        guess_structure(guess_, lines_, ignore_, probe_scale_);
        collect();
        if (rows_.size() == 0 && bad_.any()) refuse_unreadable();
        if (rows_.size() == 0)
            throw Error(Code::bad_row, file_.name + ": has no rows after " + std::to_string(*guess_.layout.skip_lines) +
                                           " lines before them (\"skip_lines\")");
        content_ = look_at(guess_, rows_, probe_scale_);
    }

    /// From what the clock showed to instants, in their order; and what is reported of them.
    ReadFile finish(ClockedRows read) {
        ImportedFile& report = out_.report;
        report.rows_ignored = read.ignored;
        report.rows_without_reading = read.without_reading;
        say_rounded(report, read.rounded);
        ClockFindings findings;
        const std::size_t all = read.rows.size();
        const bool rows_state_offset = guess_.layout.instant_column && guess_.layout.instant_pattern->ends_with("%z");
        std::vector<ClockPart> parts;
        std::vector<FileRow> timed;
        try {
            parts = clock_parts(file_.name, guess_.layout, rows_state_offset, read.rows, site_zone_);
            timed = settle_clock(file_.name, std::move(read.rows), parts, findings);
        } catch (const Error&) {
            if (!bad_.any()) throw;  // what cannot be read is said first
        }
        for (const auto& time : findings.skipped) {
            const bool only_clock = guess_.layout.clocks.empty() && time.offset_before_s % 60 == 0;
            bad_.add(time.line, skipped_words(time, parts),
                     only_clock ? Unreadable::Way::offset : Unreadable::Way::none,
                     offset_text(Duration(time.offset_before_s)));
        }
        if (bad_.any()) refuse_unreadable();
        guess_.ambiguous.insert(guess_.ambiguous.end(), findings.ambiguous.begin(), findings.ambiguous.end());
        refuse_if_ambiguous(findings.ambiguous);
        report.rows_read = std::ssize(timed);
        out_.rows = put_in_order(file_.name, std::move(timed), parts, site_zone_, findings);
        if (out_.rows.empty())
            throw Error(Code::bad_row, file_.name + ": none of its " + std::to_string(all) + " rows has a reading");

        report.name = file_.name;
        report.layout = guess_.layout;
        report.guesses = guess_.guesses;
        report.ambiguous = guess_.ambiguous;
        report.remarks.insert(report.remarks.end(), findings.remarks.begin(), findings.remarks.end());
        report.rows_kept = std::ssize(out_.rows);
        report.rows_repeated = report.rows_read - report.rows_kept;
        report.from = out_.rows.front().at;
        report.until = out_.rows.back().at;
        report.longest_step = longest_step(out_.rows);
        return std::move(out_);
    }

    [[noreturn]] void refuse(Code code, int line, const std::string& what) const {
        throw at_line(code, file_.name, line, what);
    }

    [[noreturn]] void refuse_unreadable() const {
        throw bad_.refusal(file_.name, lines_, static_cast<std::size_t>(*guess_.layout.skip_lines),
                           *guess_.layout.delimiter);
    }

    /// The cells of a row that are read: in which column (0: none has it), and what they are called.
    struct Wanted {
        int columns[RawRows::cells];
        const char* fields[RawRows::cells];
    };
    Wanted wanted_cells() const {
        const LoggerLayout& l = guess_.layout;
        return {{l.instant_column ? *l.instant_column : *l.date_column, l.instant_column ? 0 : *l.time_column,
                 *l.temperature_column, l.scale_column.value_or(0)},
                {l.instant_column ? "instant" : "date", "time", "temperature", "scale"}};
    }

    /// Up to the last that is not empty.
    static std::size_t filled_cells(const RecordReader& row) {
        std::size_t filled = row.size();
        while (filled > 0 && row.cell(filled - 1).empty()) --filled;
        return filled;
    }

    /// Which of the wanted cells a row has not; empty where it has them.
    static std::string lacking(const RecordReader& row, const Wanted& wanted) {
        for (int c = 0; c < RawRows::cells; ++c) {
            if (wanted.columns[c] == 0) continue;
            if (static_cast<std::size_t>(wanted.columns[c]) > row.size())
                return std::string(wanted.fields[c]) + ": the row has " + std::to_string(row.size()) +
                       " cells, and it is in column " + std::to_string(wanted.columns[c]);
        }
        return {};
    }

    /// The first row that has what is wanted: commas that make a later one longer may be of decimals.
    struct FirstRow {
        int line = 0;  ///< 0: there was none yet
        std::size_t filled = 0;
    };
    static std::string longer_than(const FirstRow& first, std::size_t filled) {
        return "has " + std::to_string(filled) + " cells where line " + std::to_string(first.line) + " has " +
               std::to_string(first.filled) + "; a decimal comma without quotation marks would take a cell apart";
    }

    void collect() {
        const LoggerLayout& l = guess_.layout;
        const Wanted wanted = wanted_cells();
        const auto first = std::min(static_cast<std::size_t>(*l.skip_lines), lines_.size());
        ignored_ = static_cast<std::int64_t>(first);

        rows_.begin(lines_, *l.delimiter, wanted.columns);
        rows_.expect(std::min(lines_.size() - first, limits::logger_rows));
        RecordReader reader(*l.delimiter, true);
        int begun = 0;
        FirstRow first_row;
        using Way = Unreadable::Way;
        for (std::size_t i = first; i < lines_.size(); ++i) {
            if (rows_.size() + bad_.size() > limits::logger_rows) throw too_many_rows(file_.name);
            const int line = static_cast<int>(i) + 1;
            // the row is left out, and what follows its first line is tried by itself
            const auto leave_out = [&](std::string what, Way way) {
                bad_.add(begun, std::move(what), way);
                reader.reset();
                i = static_cast<std::size_t>(begun) - 1;
                begun = 0;
            };
            if (begun == 0) {
                if (lines_[i].size() <= limits::logger_line_bytes &&
                    (is_blank(lines_[i]) || ignore_.matches(lines_[i]))) {
                    ++ignored_;
                    continue;
                }
                begun = line;
            }
            if (lines_[i].size() > limits::logger_line_bytes) {
                if (begun == line)
                    leave_out("is longer than 1024 bytes; the rows of a logger are short", Way::none);
                else
                    leave_out("opens a quotation mark that is not closed", Way::ignore);
                continue;
            }
            const auto state = reader.take(lines_[i]);
            if (state == RecordReader::State::malformed) {
                leave_out(
                    "has a quotation mark inside a cell; must stand around a whole cell, and be doubled inside one",
                    Way::ignore);
                continue;
            }
            if (state == RecordReader::State::open) {
                if (line - begun + 1 >= limits::logger_row_lines || i + 1 == lines_.size())
                    leave_out("opens a quotation mark that is not closed", Way::ignore);
                continue;
            }
            const std::size_t filled = filled_cells(reader);
            if (filled == 0) {  // delimiters alone
                ignored_ += line - begun + 1;
                begun = 0;
                continue;
            }
            std::string wrong = lacking(reader, wanted);
            if (wrong.empty() && first_row.line == 0)
                first_row = {begun, filled};
            else if (wrong.empty() && *l.delimiter == ',' && filled > first_row.filled)
                wrong = longer_than(first_row, filled);
            if (wrong.empty())
                rows_.add(begun);
            else
                bad_.add(begun, std::move(wrong), Way::ignore);
            begun = 0;
        }
        if (rows_.size() + bad_.size() > limits::logger_rows) throw too_many_rows(file_.name);
    }

    void refuse_if_ambiguous(const std::vector<Remark>& ambiguous) const {
        if (ambiguous.empty() || accept_guesses_) return;
        LoggerRefusal::Facts facts;
        for (const auto& a : ambiguous)
            facts.found +=
                (facts.found.empty() ? file_.name + ": has more than one meaning: " : "; ") + english().say(a);
        facts.can_accept = true;
        facts.remedies.push_back({"the first is not right", guess_.layout});
        throw LoggerRefusal(Code::ambiguous, std::move(facts));
    }

    /// What the clock of each row shows, and its temperature; without the rows that cannot be read.
    ClockedRows rows_of_clock() {
        const LoggerLayout& l = guess_.layout;
        std::optional<Pattern> date, time;
        const char* date_field = l.instant_column ? "instant" : "date";
        if (l.instant_column) {
            date = Pattern::compile(*l.instant_pattern, Pattern::Of::instant, "instant_pattern");
        } else {
            date = Pattern::compile(*l.date_pattern, Pattern::Of::date, "date_pattern");
            time = Pattern::compile(*l.time_pattern, Pattern::Of::time, "time_pattern");
        }
        ClockedRows out;
        out.ignored = ignored_;
        auto& rows = out.rows;
        rows.reserve(rows_.size());
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            const int line = rows_.line(i);
            const auto read = [&](const std::optional<Pattern>& pattern, RawRows::Cell cell, const char* field,
                                  ClockParts& parts) {
                const std::string_view text = trimmed(rows_.cell(i, cell));
                const char* why = pattern->read(text, parts);
                if (why)
                    bad_.add(line,
                             std::string(field) + ": " + shown(text) + ": " + why + "; must be of the pattern " +
                                 shown(pattern->text()),
                             Unreadable::Way::ignore);
                return !why;
            };
            ClockParts parts;
            if (!read(date, RawRows::date, date_field, parts) || (time && !read(time, RawRows::time, "time", parts)))
                continue;
            const std::int64_t shown_s = parts.days * 86400 + parts.second_of_day - parts.offset_s;

            const std::string_view cell = rows_.cell(i, RawRows::temperature);
            if (means_no_reading(l, cell)) {
                ++out.without_reading;
                rows.push_back({{Instant(shown_s), FileRow::no_reading}, line});
            } else if (std::int32_t thousandths = 0; temperature(i, cell, thousandths)) {
                rows.push_back({{Instant(shown_s), thousandths}, line});
            }
        }
        out.rounded = rounded_;
        return out;
    }

    /// False where it cannot be read.
    bool temperature(std::size_t i, std::string_view cell, std::int32_t& thousandths) {
        using Way = Unreadable::Way;
        const int line = rows_.line(i);
        TemperatureCell t;
        const std::string why =
            read_temperature(cell, *guess_.layout.decimal, probe_scale_, places_of(guess_.layout.resolution), t);
        if (!why.empty()) {
            const std::string_view text = trimmed(cell);
            bad_.add(line, "temperature: " + shown(text) + ": " + why,
                     t.beyond                 ? Way::resolution
                     : may_mean_nothing(text) ? Way::no_reading
                                              : Way::ignore,
                     text);
            return false;
        }
        if (guess_.layout.scale_column) {
            const std::string_view scale = trimmed(rows_.cell(i, RawRows::scale));
            const auto stated = unit_of(scale);
            if (!stated || (t.unit && *t.unit != *stated)) {
                bad_.add(line,
                         !stated ? "scale: " + shown(scale) + ": must be C or F"
                                 : "temperature: " + shown(cell) + ": its unit is not that of the scale column, " +
                                       shown(scale),
                         Way::ignore);
                return false;
            }
            if (*stated != probe_scale_)
                refuse(Code::wrong_scale, line, "scale: " + shown(scale) + ": " + probe_text());
        }
        if (t.unit && *t.unit != probe_scale_)
            refuse(Code::wrong_scale, line, "temperature: " + shown(cell) + ": " + probe_text());
        rounded_.add(t);
        thousandths = t.thousandths;
        return true;
    }

    /// A text, not a number with something wrong in it; and one that a layout can state.
    static bool may_mean_nothing(std::string_view text) {
        return text.size() <= 200 && text.find_first_of("0123456789") != 0 &&
               (text.find_first_of("+-.,") != 0 || text.find_first_of("0123456789") == std::string_view::npos) &&
               std::all_of(text.begin(), text.end(),
                           [](char c) { return static_cast<unsigned char>(c) >= 0x20 && c != 0x7F; });
    }

    std::string probe_text() const {
        return std::string("the probe is in °") + scale_letter(probe_scale_) +
               ", and has one scale; import rows in another for a probe in that scale";
    }

    const LoggerFile& file_;
    const Zone& site_zone_;
    Scale probe_scale_;
    bool accept_guesses_;
    IgnoreRows ignore_;
    Guess guess_;
    Content content_;
    const Lines lines_;
    RawRows rows_;
    Unreadable bad_;
    Rounded rounded_;
    std::int64_t ignored_ = 0;
    ReadFile out_;
};

}  // namespace

void check_size(const LoggerFile& file) {
    if (size_of(file) > limits::logger_file_bytes)
        throw Error(Code::bad_text, file.name + ": larger than 512 MiB; split it");
}

ReadFile read_logger_file(const LoggerFile& file, const LoggerLayout& layout, const Zone& site_zone, Scale probe_scale,
                          bool accept_guesses) {
    check_size(file);
    if (auto quick = read_quickly(file, layout, site_zone, probe_scale, accept_guesses)) return std::move(*quick);
    return read_carefully(file, layout, site_zone, probe_scale, accept_guesses);
}

std::optional<ReadFile> read_quickly(const LoggerFile& file, const LoggerLayout& layout, const Zone& site_zone,
                                     Scale probe_scale, bool accept_guesses) {
    try {
        const LoggerFile sample{file.name, sample_of(file, layout.skip_lines.value_or(0))};
        if (sample.content.empty()) return std::nullopt;
        return Reader(sample, layout, site_zone, probe_scale, accept_guesses).read_all(file);
    } catch (const Error&) {
        return std::nullopt;  // said of the whole file, with the right line
    }
}

ReadFile read_carefully(const LoggerFile& file, const LoggerLayout& layout, const Zone& site_zone, Scale probe_scale,
                        bool accept_guesses) {
    return Reader(file, layout, site_zone, probe_scale, accept_guesses).run();
}

}  // namespace coldtally::logger
