#include "logger/plain_rows.hpp"

#include <sys/mman.h>
#include <unistd.h>

#include <algorithm>
#include <cstring>

#include "logger/guess.hpp"
#include "logger/lines.hpp"
#include "logger/pattern.hpp"
#include "text/limits.hpp"

namespace coldtally::logger {

namespace {

/// Degrees of one to four digits and up to three after the decimal sign; false for any other form.
bool plain_temperature(const char* p, const char* end, char decimal, std::int32_t& thousandths) {
    const bool negative = p != end && *p == '-';
    if (negative) ++p;
    std::int32_t n = 0;
    const char* digits = p;
    for (; p != end && *p >= '0' && *p <= '9'; ++p) n = n * 10 + (*p - '0');
    if (p == digits || p - digits > 4) return false;
    n *= 1000;
    if (p != end) {
        if (*p++ != decimal || p == end || end - p > 3) return false;
        for (std::int32_t unit = 100; p != end; ++p, unit /= 10) {
            if (*p < '0' || *p > '9') return false;
            n += (*p - '0') * unit;
        }
    }
    thousandths = negative ? -n : n;
    return true;
}

/// The same of a cell that is followed by the end of its line, and by 16 more bytes at least that may be looked at: `p`
/// is then where the next line begins.
bool plain_last_temperature(const char*& p, char decimal, std::int32_t& thousandths) {
    const char* q = p;
    const bool negative = *q == '-';
    if (negative) ++q;
    const auto digit = [&] { return static_cast<unsigned char>(*q - '0'); };
    std::int32_t n = 0;
    const char* const digits = q;
    for (; q != digits + 4 && digit() < 10; ++q) n = n * 10 + digit();
    if (q == digits) return false;
    n *= 1000;
    if (*q == decimal) {
        ++q;
        if (digit() >= 10) return false;
        for (std::int32_t unit = 100; unit != 0 && digit() < 10; ++q, unit /= 10) n += digit() * unit;
    }
    if (*q == '\r') ++q;
    if (*q != '\n') return false;
    p = q + 1;
    thousandths = negative ? -n : n;
    return true;
}

/// Asks for large pages: to get memory for a million rows 4 KiB at a time takes longer than to fill it. A system that
/// has none gives small ones.
void expect_much(const std::vector<FileRow>& rows) {
    const auto page = static_cast<std::uintptr_t>(::sysconf(_SC_PAGESIZE));
    const auto from = reinterpret_cast<std::uintptr_t>(rows.data()) / page * page;
    const auto until = reinterpret_cast<std::uintptr_t>(rows.data() + rows.capacity());
    ::madvise(reinterpret_cast<void*>(from), until - from, MADV_HUGEPAGE);
}

/// As memcmp() == 0, for the few bytes of a cell.
bool same(const char* a, const char* b, std::size_t size) {
    const auto eight = [](const char* p) {
        std::uint64_t n;
        std::memcpy(&n, p, sizeof n);
        return n;
    };
    if (size < 8) {
        for (std::size_t i = 0; i < size; ++i)
            if (a[i] != b[i]) return false;
        return true;
    }
    for (std::size_t i = 0; i + 8 < size; i += 8)
        if (eight(a + i) != eight(b + i)) return false;
    return eight(a + size - 8) == eight(b + size - 8);
}

constexpr std::size_t many = 1 << 18;
constexpr std::ptrdiff_t longest_temperature = 16;  // and more than what plain_last_temperature looks at

/// Seconds of the day from HH:MM or HH:MM:SS; -1 where there is no such text.
int time_at(const char* p, bool seconds) {
    const auto two = [&](int i) {
        const int tens = p[i] - '0', ones = p[i + 1] - '0';
        return tens < 0 || tens > 9 || ones < 0 || ones > 9 ? 99 : tens * 10 + ones;
    };
    const int hour = two(0), minute = two(3), second = seconds ? two(6) : 0;
    return p[2] == ':' && (!seconds || p[5] == ':') && hour < 24 && minute < 60 && second < 60
               ? hour * 3600 + minute * 60 + second
               : -1;
}

/// Reads a clock of one pattern row by row. Most rows differ from the one before in the digits of the time alone: then
/// only these are read.
class RowClock {
public:
    explicit RowClock(Pattern pattern) : pattern_(std::move(pattern)) {
        std::size_t at = 0;
        const std::string& text = pattern_.text();
        bool fixed = true;  // every item so far has one width
        for (std::size_t i = 0; i < text.size(); ++i, ++at) {
            if (text[i] != '%' || ++i == text.size()) continue;
            if (text[i] == 'H' && fixed) hour_ = at;
            if (std::string_view("mdHMS").find(text[i]) != std::string_view::npos) at += 1;
            else if (text[i] == 'Y') at += 3;
            else fixed = false;
        }
        seconds_ = text.find("%H:%M:%S") != std::string::npos;
        if (text.find("%H:%M") == std::string::npos) hour_ = std::string::npos;
    }

    /// As Pattern::read.
    const char* read(std::string_view cell, ClockParts& parts) {
        const auto same_but_time = [&] {
            const std::size_t after = hour_ + width();
            return cell.size() == before_.size() && same(cell.data(), before_.data(), hour_) &&
                   same(cell.data() + after, before_.data() + after, cell.size() - after);
        };
        if (aligned_ && same_but_time()) {
            if (const int time = time_at(cell.data() + hour_, seconds_); time >= 0) {
                parts_.second_of_day = time;
                merge(parts);
                return nullptr;
            }
        }
        parts_ = ClockParts();
        aligned_ = false;
        if (const char* why = pattern_.read(cell, parts_)) return why;
        before_.assign(cell);
        // the digits stand where the pattern lets expect them: not where a day has one digit, say
        aligned_ = hour_ != std::string::npos && cell.size() >= hour_ + width() &&
                   time_at(cell.data() + hour_, seconds_) == parts_.second_of_day;
        merge(parts);
        return nullptr;
    }

    /// Of the cell read last: does its time stand at hour() as HH:MM or HH:MM:SS, width() bytes?
    bool aligned() const { return aligned_; }
    std::size_t hour() const { return hour_; }
    std::size_t width() const { return seconds_ ? 8 : 5; }
    int second_of_day() const { return parts_.second_of_day; }

private:
    void merge(ClockParts& parts) const {
        parts.days += parts_.days;
        parts.second_of_day += parts_.second_of_day;
        parts.offset_s += parts_.offset_s;
    }
    Pattern pattern_;
    std::size_t hour_ = std::string::npos;  // where the two digits of the hour begin in a cell
    bool seconds_ = false, aligned_ = false;
    std::string before_;
    ClockParts parts_;
};

/// Most rows differ from one before in their time of day and their temperature alone. Of such rows no more is read.
struct LikeRow {
    std::string_view
        start;  ///< of the row before, up to its temperature, which is its last cell; empty: no row is like it
    std::size_t hour = 0, after_time = 0;  ///< where its time stands in it
    std::int64_t midnight = 0;  ///< its instant, less its time of day

    /// The row at `p` if it is like it; `p` is then where the next one begins.
    bool read(const char*& p, const char* end, char decimal, Reading& row) const {
        const auto size = static_cast<std::ptrdiff_t>(start.size());
        if (start.empty() || end - p < size + longest_temperature) return false;
        if (!same(p, start.data(), hour) || !same(p + after_time, start.data() + after_time, start.size() - after_time))
            return false;
        const int time = time_at(p + hour, after_time - hour == 8);
        const char* temperature = p + size;
        if (time < 0 || !plain_last_temperature(temperature, decimal, row.thousandths)) return false;
        row.at = Instant(midnight + time);
        p = temperature;
        return true;
    }
};

/// Takes the lines of a file in pieces.
class Reader {
public:
    Reader(const LoggerLayout& layout, Scale scale)
        : layout_(layout),
          scale_(scale),
          one_column_(layout.instant_column.has_value()),
          date_(Pattern::compile(one_column_ ? *layout.instant_pattern : *layout.date_pattern,
                                 one_column_ ? Pattern::Of::instant : Pattern::Of::date, "")),
          offset_(layout.offset ? layout.offset->seconds() : 0),
          date_column_(one_column_ ? *layout.instant_column : *layout.date_column),
          time_column_(one_column_ ? 0 : *layout.time_column),
          temperature_column_(*layout.temperature_column),
          columns_(std::max({date_column_, time_column_, temperature_column_})),
          places_(places_of(layout.resolution)),
          lowest_(scale == Scale::C ? limits::coldest_C : limits::coldest_F),
          highest_(scale == Scale::C ? limits::hottest_C : limits::hottest_F) {
        if (!one_column_) time_.emplace(Pattern::compile(*layout.time_pattern, Pattern::Of::time, ""));
    }

    /// Whole lines; the last of the file may lack its end. False where a row is not plain.
    bool take(std::string_view lines) {
        const char* p = lines.data();
        const char* const end = p + lines.size();
        like_.start = {};  // it stood in the piece before
        for (; skipped_ < *layout_.skip_lines && p != end; ++skipped_) {
            const auto* line_end = static_cast<const char*>(std::memchr(p, '\n', static_cast<std::size_t>(end - p)));
            const char* const next = line_end ? line_end + 1 : end;
            if (!plain(p, next)) return false;
            p = next;
        }
        while (p != end) {
            if (out_.rows.size() >= limits::logger_rows) return false;
            if (FileRow row; like_.read(p, end, *layout_.decimal, row)) {
                const std::int64_t at = row.at.seconds_since_1970();
                if (at <= before_ || row.thousandths < lowest_ || row.thousandths > highest_) return false;
                before_ = at;
                out_.rows.push_back(row);
                continue;
            }
            if (!take_line(p, end)) return false;
        }
        return true;
    }
    PlainRows& out() { return out_; }

private:
    static bool plain(const char* from, const char* until) {
        const auto size = static_cast<std::size_t>(until - from);
        return !std::memchr(from, '"', size) && !std::memchr(from, '\0', size);
    }

    bool take_line(const char*& p, const char* end) {
        std::string_view date_cell, time_cell, temperature_cell;
        std::size_t cells = 0;
        const auto* line_end = static_cast<const char*>(std::memchr(p, '\n', static_cast<std::size_t>(end - p)));
        const char* const next = line_end ? line_end + 1 : end;
        if (!line_end) line_end = end;
        if (line_end != p && line_end[-1] == '\r') --line_end;
        if (!plain(p, line_end)) return false;
        const char* const line = p;
        for (const char* cell = p;; ++cell) {
            const auto* found = static_cast<const char*>(
                std::memchr(cell, *layout_.delimiter, static_cast<std::size_t>(line_end - cell)));
            const std::string_view text(cell, static_cast<std::size_t>((found ? found : line_end) - cell));
            const auto column = static_cast<int>(++cells);
            if (column == date_column_) date_cell = text;
            if (column == time_column_) time_cell = text;
            if (column == temperature_column_) temperature_cell = text;
            if (!found) break;
            cell = found;
        }
        p = next;
        // a row with more cells than the first may have been taken apart by a decimal comma
        if (cells_of_first_ == 0) cells_of_first_ = cells;
        if (static_cast<int>(cells) < columns_ || cells != cells_of_first_) return false;
        ClockParts parts;
        if (date_.read(date_cell, parts) || (time_ && time_->read(time_cell, parts))) return false;
        const std::int64_t at = parts.days * 86400 + parts.second_of_day - parts.offset_s - offset_;
        if (at <= before_) return false;
        before_ = at;
        like_.start = {};
        const RowClock& clock = time_ ? *time_ : date_;
        const std::string_view clock_cell = time_ ? time_cell : date_cell;
        if (!places_ && clock.aligned() && static_cast<int>(cells) == temperature_column_ &&
            *layout_.decimal != *layout_.delimiter) {
            like_.start = std::string_view(line, static_cast<std::size_t>(temperature_cell.data() - line));
            like_.hour = static_cast<std::size_t>(clock_cell.data() - line) + clock.hour();
            like_.after_time = like_.hour + clock.width();
            like_.midnight = at - clock.second_of_day();
        }
        std::int32_t thousandths = 0;
        if (places_) {
            TemperatureCell t;
            if (means_no_reading(layout_, temperature_cell)) {
                ++out_.without_reading;
                return true;
            }
            if (!read_temperature(temperature_cell, *layout_.decimal, scale_, places_, t).empty() || t.unit)
                return false;
            out_.rounded.add(t);
            out_.rows.push_back({{Instant(at), t.thousandths}});
            return true;
        }
        if (!plain_temperature(temperature_cell.data(), temperature_cell.data() + temperature_cell.size(),
                               *layout_.decimal, thousandths)) {
            if (!means_no_reading(layout_, temperature_cell)) return false;
            ++out_.without_reading;
            return true;
        }
        if (thousandths < lowest_ || thousandths > highest_) return false;
        out_.rows.push_back({{Instant(at), thousandths}});
        return true;
    }

    const LoggerLayout& layout_;
    Scale scale_;
    bool one_column_;
    RowClock date_;
    std::optional<RowClock> time_;
    std::int64_t offset_;
    int date_column_, time_column_, temperature_column_, columns_;
    std::optional<int> places_;
    std::int32_t lowest_, highest_;
    int skipped_ = 0;
    std::int64_t before_ = INT64_MIN;
    std::size_t cells_of_first_ = 0;
    LikeRow like_;
    PlainRows out_;
};

constexpr std::size_t piece = 1u << 20;
constexpr std::uint64_t shortest_row = 14;  // "260302 0800,4" and its end

}  // namespace

std::optional<PlainRows> read_plain_rows(const LoggerFile& file, const LoggerLayout& layout, Scale scale) {
    // a number that means "no reading" is told from others by its text
    for (const auto& text : layout.no_reading)
        if (TemperatureCell t; read_temperature(text, '\0', scale, 3, t).empty()) return std::nullopt;
    Reader reader(layout, scale);
    auto& rows = reader.out().rows;
    rows.reserve(
        static_cast<std::size_t>(std::min<std::uint64_t>(size_of(file) / shortest_row + 1, limits::logger_rows)));
    if (rows.capacity() >= many) expect_much(rows);

    std::string buffer(piece, '\0');
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

std::optional<PlainRows> read_plain_rows(std::string_view content, const LoggerLayout& layout, Scale scale) {
    return read_plain_rows(LoggerFile{"", std::string(content)}, layout, scale);
}

}  // namespace coldtally::logger
