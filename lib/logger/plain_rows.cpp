#include "logger/plain_rows.hpp"

#include <sys/mman.h>
#include <unistd.h>

#include <algorithm>
#include <cstring>

#include "logger/guess.hpp"
#include "logger/pattern.hpp"

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

/// The same of a cell that is followed by the end of its line, and by 16 more bytes at least that may be looked at: `p` is
/// then where the next line begins.
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

/// Asks for large pages: to get memory for a million rows 4 KiB at a time takes longer than to fill it. A system that has
/// none gives small ones.
void expect_much(const std::vector<Reading>& rows) {
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
    return p[2] == ':' && (!seconds || p[5] == ':') && hour < 24 && minute < 60 && second < 60 ? hour * 3600 + minute * 60 + second : -1;
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
            return cell.size() == before_.size() && same(cell.data(), before_.data(), hour_) && same(cell.data() + after, before_.data() + after, cell.size() - after);
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
        aligned_ = hour_ != std::string::npos && cell.size() >= hour_ + width() && time_at(cell.data() + hour_, seconds_) == parts_.second_of_day;
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
    std::string_view start;   ///< of the row before, up to its temperature, which is its last cell; empty: no row is like it
    std::size_t hour = 0, after_time = 0;  ///< where its time stands in it
    std::int64_t midnight = 0;  ///< its instant, less its time of day

    /// The row at `p` if it is like it; `p` is then where the next one begins.
    bool read(const char*& p, const char* end, char decimal, Reading& row) const {
        const auto size = static_cast<std::ptrdiff_t>(start.size());
        if (start.empty() || end - p < size + longest_temperature) return false;
        if (!same(p, start.data(), hour) || !same(p + after_time, start.data() + after_time, start.size() - after_time)) return false;
        const int time = time_at(p + hour, after_time - hour == 8);
        const char* temperature = p + size;
        if (time < 0 || !plain_last_temperature(temperature, decimal, row.thousandths)) return false;
        row.at = Instant(midnight + time);
        p = temperature;
        return true;
    }
};

}  // namespace

std::optional<PlainRows> read_plain_rows(std::string_view content, const LoggerLayout& layout, Scale scale) {
    if (content.starts_with("\xEF\xBB\xBF")) content.remove_prefix(3);
    const bool one_column = layout.instant_column.has_value();
    RowClock date(Pattern::compile(one_column ? *layout.instant_pattern : *layout.date_pattern, one_column ? Pattern::Of::instant : Pattern::Of::date, ""));
    std::optional<RowClock> time;
    if (!one_column) time.emplace(Pattern::compile(*layout.time_pattern, Pattern::Of::time, ""));
    const std::int64_t offset = layout.offset ? layout.offset->seconds() : 0;
    const int date_column = one_column ? *layout.instant_column : *layout.date_column;
    const int time_column = one_column ? 0 : *layout.time_column;
    const int temperature_column = *layout.temperature_column;
    const int columns = std::max({date_column, time_column, temperature_column});
    const auto places = places_of(layout.resolution);
    // a number that means "no reading" is told from others by its text
    for (const auto& text : layout.no_reading)
        if (TemperatureCell t; read_temperature(text, '\0', scale, 3, t).empty()) return std::nullopt;
    const std::int32_t lowest = Temperature::parse(scale == Scale::C ? "-273.15" : "-459.67", scale).thousandths();
    const std::int32_t highest = scale == Scale::C ? 1'000'000 : 1'832'000;

    const char* p = content.data();
    const char* const end = p + content.size();
    const auto plain = [](const char* from, const char* until) {
        const auto size = static_cast<std::size_t>(until - from);
        return !std::memchr(from, '"', size) && !std::memchr(from, '\0', size);
    };
    for (int skipped = 0; skipped < *layout.skip_lines && p != end; ++skipped) {
        const auto* line_end = static_cast<const char*>(std::memchr(p, '\n', static_cast<std::size_t>(end - p)));
        const char* const next = line_end ? line_end + 1 : end;
        if (!plain(p, next)) return std::nullopt;
        p = next;
    }
    PlainRows out;
    out.rows.reserve(static_cast<std::size_t>(end - p) / 24 + 1);
    if (out.rows.capacity() >= many) expect_much(out.rows);
    std::int64_t before = INT64_MIN;
    std::size_t cells_of_first = 0;
    LikeRow like;
    while (p != end) {
        if (Reading row{Instant(0), 0}; like.read(p, end, *layout.decimal, row)) {
            const std::int64_t at = row.at.seconds_since_1970();
            if (at <= before || row.thousandths < lowest || row.thousandths > highest) return std::nullopt;
            before = at;
            out.rows.push_back(row);
            continue;
        }
        std::string_view date_cell, time_cell, temperature_cell;
        std::size_t cells = 0;
        const auto* line_end = static_cast<const char*>(std::memchr(p, '\n', static_cast<std::size_t>(end - p)));
        const char* const next = line_end ? line_end + 1 : end;
        if (!line_end) line_end = end;
        if (line_end != p && line_end[-1] == '\r') --line_end;
        if (!plain(p, line_end)) return std::nullopt;
        const char* const line = p;
        for (const char* cell = p;; ++cell) {
            const auto* found = static_cast<const char*>(std::memchr(cell, *layout.delimiter, static_cast<std::size_t>(line_end - cell)));
            const std::string_view text(cell, static_cast<std::size_t>((found ? found : line_end) - cell));
            const auto column = static_cast<int>(++cells);
            if (column == date_column) date_cell = text;
            if (column == time_column) time_cell = text;
            if (column == temperature_column) temperature_cell = text;
            if (!found) break;
            cell = found;
        }
        p = next;
        // a row with more cells than the first may have been taken apart by a decimal comma
        if (cells_of_first == 0) cells_of_first = cells;
        if (static_cast<int>(cells) < columns || cells != cells_of_first) return std::nullopt;
        ClockParts parts;
        if (date.read(date_cell, parts) || (time && time->read(time_cell, parts))) return std::nullopt;
        const std::int64_t at = parts.days * 86400 + parts.second_of_day - parts.offset_s - offset;
        if (at <= before) return std::nullopt;
        before = at;
        like.start = {};
        const RowClock& clock = time ? *time : date;
        const std::string_view clock_cell = time ? time_cell : date_cell;
        if (!places && clock.aligned() && static_cast<int>(cells) == temperature_column &&
            *layout.decimal != *layout.delimiter) {
            like.start = std::string_view(line, static_cast<std::size_t>(temperature_cell.data() - line));
            like.hour = static_cast<std::size_t>(clock_cell.data() - line) + clock.hour();
            like.after_time = like.hour + clock.width();
            like.midnight = at - clock.second_of_day();
        }
        std::int32_t thousandths = 0;
        if (places) {
            TemperatureCell t;
            if (means_no_reading(layout, temperature_cell)) {
                ++out.without_reading;
                continue;
            }
            if (!read_temperature(temperature_cell, *layout.decimal, scale, places, t).empty() || t.unit)
                return std::nullopt;
            out.rounded.add(t);
            out.rows.push_back({Instant(at), t.thousandths});
            continue;
        }
        if (!plain_temperature(temperature_cell.data(), temperature_cell.data() + temperature_cell.size(), *layout.decimal, thousandths)) {
            if (!means_no_reading(layout, temperature_cell)) return std::nullopt;
            ++out.without_reading;
            continue;
        }
        if (thousandths < lowest || thousandths > highest) return std::nullopt;
        out.rows.push_back({Instant(at), thousandths});
    }
    if (out.rows.empty()) return std::nullopt;
    return out;
}

}  // namespace coldtally::logger
