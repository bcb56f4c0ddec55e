#include "logger/plain_rows.hpp"

#include <algorithm>
#include <cstring>

#include "logger/like_row.hpp"
#include "logger/lines.hpp"
#include "logger/row_clock.hpp"
#include "logger/table.hpp"
#include "text/limits.hpp"
#include "text/utf8.hpp"

namespace coldtally::logger {

namespace {

/// What may be looked at behind a cell.
constexpr std::size_t room = std::max(TimeForm::longest, longest_degrees);

const char* find(const char* from, const char* end, char c) {
    return static_cast<const char*>(std::memchr(from, c, static_cast<std::size_t>(end - from)));
}

std::string_view between(const char* from, const char* end) {
    return std::string_view(from, static_cast<std::size_t>(end - from));
}

bool ink(char c) { return c > ' ' && c < 0x7F; }

/// As trimmed(), which most cells are.
std::string_view without_blanks(std::string_view cell) {
    return cell.empty() || (ink(cell.front()) && ink(cell.back())) ? cell : trimmed(cell);
}

/// As is_blank(), which few cells are.
bool blank(std::string_view text) { return text.empty() || (!ink(text.front()) && is_blank(text)); }

/// Which bytes a line holds, of those that ask for more care.
struct Marks {
    bool none = true, quote = false, beyond_ascii = false, never = false;  // never: NUL, CR
};

/// Eight bytes at a time (benchmark import_forms/other_columns: 4 times the plain form, and 9 where a line is searched
/// for each of them).
Marks marks_of(std::string_view line) {
    constexpr std::uint64_t ones = 0x0101010101010101, tops = 0x8080808080808080;
    std::uint64_t quotes = 0, high = 0, never = 0;
    const auto look = [&](std::uint64_t eight) {
        const auto any = [&](unsigned char c) {  // the top bit of a byte that is c, or of some above one
            const std::uint64_t other = eight ^ (ones * c);
            return (other - ones) & ~other & tops;
        };
        quotes |= any('"');
        never |= any('\0') | any('\r');
        high |= eight & tops;
    };
    std::size_t i = 0;
    std::uint64_t eight;
    for (; i + sizeof eight <= line.size(); i += sizeof eight) {
        std::memcpy(&eight, line.data() + i, sizeof eight);
        look(eight);
    }
    if (i < line.size()) {
        char rest[sizeof eight];
        std::memset(rest, ' ', sizeof rest);
        for (std::size_t k = 0; i < line.size(); ++i, ++k) rest[k] = line[i];
        std::memcpy(&eight, rest, sizeof eight);
        look(eight);
    }
    return {(quotes | high | never) == 0, quotes != 0, high != 0, never != 0};
}

/// Without blanks of ASCII: others are two bytes or more, and may be something else in Latin-1.
std::string_view without_plain_blanks(std::string_view cell) {
    while (cell.starts_with(' ') || cell.starts_with('\t')) cell.remove_prefix(1);
    while (cell.ends_with(' ') || cell.ends_with('\t')) cell.remove_suffix(1);
    return cell;
}

/// Takes the lines of a file in pieces.
class PlainReader {
public:
    PlainReader(const LoggerLayout& layout, bool latin1, Scale scale, Content& content)
        : layout_(layout),
          delimiter_(*layout.delimiter),
          decimal_(*layout.decimal),
          latin1_(latin1),
          scale_(scale),
          content_(content),
          date_(Pattern::compile(layout.instant_column ? *layout.instant_pattern : *layout.date_pattern,
                                 layout.instant_column ? Pattern::Of::instant : Pattern::Of::date, "")),
          columns_{layout.instant_column ? *layout.instant_column : *layout.date_column,
                   layout.instant_column ? 0 : *layout.time_column, *layout.temperature_column,
                   layout.scale_column.value_or(0)},
          places_(places_of(layout.resolution)),
          lowest_(scale == Scale::C ? limits::coldest_C : limits::coldest_F),
          highest_(scale == Scale::C ? limits::hottest_C : limits::hottest_F) {
        if (!layout.instant_column) time_.emplace(Pattern::compile(*layout.time_pattern, Pattern::Of::time, ""));
        like_.decimal = decimal_;
    }

    /// Whole lines, and `room` bytes behind them that may be looked at; the last line of the file may lack its end.
    /// False where a row is not plain.
    bool take(std::string_view lines) {
        const char* p = lines.data();
        const char* const end = p + lines.size();
        for (; line_ < *layout_.skip_lines && p != end; ++line_) {
            const char* const line_end = find(p, end, '\n');
            const char* const next = line_end ? line_end + 1 : end;
            const bool cr = line_end && line_end != p && line_end[-1] == '\r';
            const std::string_view line = between(p, cr ? line_end - 1 : line_end ? line_end : end);
            if (!text_of_line(line, marks_of(line))) return false;
            ++out_.ignored;
            p = next;
        }
        while (p != end) {
            ++line_;
            Reading reading{Instant(), 0};
            bool has_decimal = false;
            if (content_.orders.asks_for_every_row() || !like_.read(p, end, reading, has_decimal)) {
                if (!take_line(p, end)) return false;
            } else {
                if (has_decimal) note_decimal();
                if (!add(reading)) return false;
            }
        }
        return true;
    }
    ClockedRows& out() { return out_; }

private:
    struct Cell {
        std::string_view text;
        bool quoted = false;
    };

    /// As Lines has them: text of the file's encoding, in one line.
    bool text_of_line(std::string_view line, const Marks& marks) const {
        return marks.none || (!marks.never && (!marks.beyond_ascii || latin1_ || text::valid_utf8(line)));
    }

    /// Finds the cells that matter, as the reader of records has them; false where it might have others.
    bool split(const char* from, const char* end, bool quotes, Cell (&cells)[RawRows::cells], int& count,
               int& filled) const {
        filled = 0;
        for (count = 1;; ++count) {
            Cell cell;
            const char* stop;
            if (from != end && *from == '"') {
                const char* const closed = find(from + 1, end, '"');
                if (!closed) return false;
                stop = closed + 1;
                if (stop != end && *stop != delimiter_) return false;
                cell = {between(from + 1, closed), true};
                if (!cell.text.empty()) filled = count;
            } else {
                stop = find(from, end, delimiter_);
                if (!stop) stop = end;
                if (quotes && find(from, stop, '"')) return false;
                cell = {between(from, stop), false};
                if (!blank(cell.text)) filled = count;
            }
            for (int c = 0; c < RawRows::cells; ++c)
                if (columns_[c] == count) cells[c] = cell;
            if (stop == end) return true;
            from = stop + 1;
        }
    }

    bool take_line(const char*& p, const char* end) {
        const char* const begin = p;
        const char* line_end = find(p, end, '\n');
        const char* const next = line_end ? line_end + 1 : end;
        if (!line_end) line_end = end;
        if (line_end != begin && line_end[-1] == '\r') --line_end;
        p = next;
        const std::string_view line = between(begin, line_end);
        const Marks marks = marks_of(line);
        if (line.size() > limits::logger_line_bytes || !text_of_line(line, marks)) return false;
        Cell cells[RawRows::cells];
        int count = 0, filled = 0;
        if (!blank(line) && !split(begin, line_end, marks.quote, cells, count, filled)) return false;
        if (filled == 0) {
            ++out_.ignored;
            return true;
        }
        if (count < *std::max_element(std::begin(columns_), std::end(columns_))) return false;
        // a row with more cells than the first may have been taken apart by a decimal comma
        if (first_filled_ == 0) first_filled_ = filled;
        if (delimiter_ == ',' && filled > first_filled_) return false;

        const std::string_view date = in_utf8(cells[RawRows::date].text, converted_[0]);
        const std::string_view time = in_utf8(cells[RawRows::time].text, converted_[1]);
        ClockParts parts, of_day;
        if (time_ && !time_->read(time, of_day)) return false;
        parts = of_day;
        if (!date_.read(date, parts)) return false;
        if (content_.orders.open()) content_.orders.row(date, time_ ? &of_day : nullptr, line_);
        if (layout_.scale_column) {
            const std::string_view stated = in_utf8(cells[RawRows::scale].text, converted_[2]);
            if (unit_of(stated) != scale_) return false;
        }
        const std::int64_t shown = parts.days * 86400 + parts.second_of_day - parts.offset_s;
        const Cell& degrees = cells[RawRows::temperature];
        const char* degrees_end = nullptr;
        if (!take_temperature(degrees, shown, degrees_end)) return false;

        like_.text.clear();
        const RowClock& clock = time_ ? *time_ : date_;
        const std::string_view shown_by = time_ ? time : date;
        if (!degrees_end || !clock.form() || line_end == next || !converted_[time_ ? 1 : 0].empty()) return true;
        const auto at = [&](const char* where) { return static_cast<std::size_t>(where - begin); };
        like_.time = {at(shown_by.data()) + clock.place().from, at(shown_by.data()) + clock.place().until};
        like_.degrees = at(degrees_begin_);
        like_.after_degrees = at(degrees_end);
        if (like_.time.until > like_.degrees) return true;
        like_.form = *clock.form();
        like_.midnight = shown - clock.second_of_day();
        like_.text.assign(begin, next);
        return true;
    }

    /// Adds the row; `end`: where its digits end, if others may be like it.
    bool take_temperature(const Cell& cell, std::int64_t shown, const char*& end) {
        Reading reading{Instant(shown), 0};
        // a decimal comma is not told from one that follows the cell
        const bool apart = cell.quoted || decimal_ != delimiter_;
        if (const std::string_view raw = without_plain_blanks(cell.text); !places_ && apart && !raw.empty()) {
            bool has_decimal = false;
            const char* p = raw.data();
            if (read_degrees(p, decimal_, reading.thousandths, has_decimal) && p <= raw.data() + raw.size()) {
                const std::string_view unit = between(p, raw.data() + raw.size());
                if (unit.empty() || known_unit(unit)) {
                    if (has_decimal) note_decimal();
                    degrees_begin_ = raw.data();
                    end = p;
                    return add(reading);
                }
            }
        }
        const std::string_view text = in_utf8(cell.text, converted_[3]);
        if (means_no_reading(layout_, text)) {
            ++out_.without_reading;
            out_.rows.push_back({{Instant(shown), FileRow::no_reading}, line_});
            return out_.rows.size() <= limits::logger_rows;
        }
        TemperatureCell t;
        if (!read_temperature(text, decimal_, scale_, places_, t).empty() || t.unit.value_or(scale_) != scale_)
            return false;
        content_.add(t, line_, text);
        out_.rounded.add(t);
        reading.thousandths = t.thousandths;
        return add(reading);
    }

    /// Says it the probe's scale? Most say it as the row before.
    bool known_unit(std::string_view text) {
        if (text == unit_) return true;
        if (unit_of(in_utf8(text, converted_[3])) != scale_) return false;
        unit_ = text;
        content_.unit = scale_;
        return true;
    }

    void note_decimal() { ++(decimal_ == '.' ? content_.points : content_.commas); }

    bool add(const Reading& r) {
        out_.rows.push_back({r, line_});
        return r.thousandths >= lowest_ && r.thousandths <= highest_ && out_.rows.size() <= limits::logger_rows;
    }

    /// Without blanks. `converted` holds it where it has to be converted, and is empty else.
    std::string_view in_utf8(std::string_view raw, std::string& converted) const {
        converted.clear();
        if (!latin1_ ||
            std::all_of(raw.begin(), raw.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; }))
            return without_blanks(raw);
        add_latin1(raw, converted);
        const std::size_t size = converted.size();
        converted.append(room, '\0');
        return without_blanks(std::string_view(converted).substr(0, size));
    }

    const LoggerLayout& layout_;
    const char delimiter_, decimal_;
    const bool latin1_;
    const Scale scale_;
    Content& content_;
    RowClock date_;
    std::optional<RowClock> time_;
    const int columns_[RawRows::cells];
    const std::optional<int> places_;
    const std::int32_t lowest_, highest_;
    int line_ = 0, first_filled_ = 0;
    std::string unit_, converted_[4];
    const char* degrees_begin_ = nullptr;
    LikeRow like_;
    ClockedRows out_;
};

constexpr std::size_t piece = 1u << 18;
constexpr std::uint64_t shortest_row = 14;  // "260302 0800,4" and its end

}  // namespace

std::optional<ClockedRows> read_plain_rows(const LoggerFile& file, const LoggerLayout& layout, bool latin1, Scale scale,
                                           Content& content) {
    // a number that means "no reading" is told from others by its text
    for (const auto& text : layout.no_reading)
        if (TemperatureCell t; read_temperature(text, '\0', scale, 3, t).empty()) return std::nullopt;
    PlainReader reader(layout, latin1, scale, content);
    auto& rows = reader.out().rows;
    rows.reserve(
        static_cast<std::size_t>(std::min<std::uint64_t>(size_of(file) / shortest_row + 1, limits::logger_rows + 1)));

    std::string buffer(piece + room, '\0');
    std::uint64_t at = 0;
    std::size_t held = 0;
    while (true) {
        const std::size_t read = read_at(file, at, buffer.data() + held, piece - held);
        std::string_view seen(buffer.data(), held + read);
        const bool last = held + read < piece;
        std::string_view whole = last ? seen : seen.substr(0, seen.rfind('\n') + 1);
        if (!last && whole.empty()) return std::nullopt;  // no row is so long
        held = seen.size() - whole.size();
        std::string_view lines = whole;
        if (at == 0 && lines.starts_with("\xEF\xBB\xBF")) lines.remove_prefix(3);
        at += read;
        if (!reader.take(lines)) return std::nullopt;
        if (last) break;
        std::memmove(buffer.data(), buffer.data() + whole.size(), held);
    }
    if (rows.empty()) return std::nullopt;
    return std::move(reader.out());
}

}  // namespace coldtally::logger
