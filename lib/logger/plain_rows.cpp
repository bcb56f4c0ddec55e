#include "logger/plain_rows.hpp"

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
        const std::size_t end = hour_ + (seconds_ ? 8 : 5);
        const auto same_but_time = [&] {
            return cell.size() == before_.size() && hour_ != std::string::npos && cell.size() >= end && std::memcmp(cell.data(), before_.data(), hour_) == 0 && cell[hour_ + 2] == ':' &&
                   (!seconds_ || cell[hour_ + 5] == ':') && std::memcmp(cell.data() + end, before_.data() + end, cell.size() - end) == 0;
        };
        if (aligned_ && same_but_time()) {
            if (const int time = time_at(cell, hour_); time >= 0) {
                parts_.second_of_day = time;
                merge(parts);
                return nullptr;
            }
        }
        parts_ = ClockParts();
        if (const char* why = pattern_.read(cell, parts_)) return why;
        before_.assign(cell);
        // the digits stand where the pattern lets expect them: not where a day has one digit, say
        aligned_ = hour_ != std::string::npos && cell.size() >= end && time_at(cell, hour_) == parts_.second_of_day;
        merge(parts);
        return nullptr;
    }

private:
    /// Seconds of the day from HH:MM or HH:MM:SS; -1 where there are no such digits.
    int time_at(std::string_view cell, std::size_t at) const {
        const auto two = [&](std::size_t i) {
            const int tens = cell[i] - '0', ones = cell[i + 1] - '0';
            return tens < 0 || tens > 9 || ones < 0 || ones > 9 ? 99 : tens * 10 + ones;
        };
        const int hour = two(at), minute = two(at + 3), second = seconds_ ? two(at + 6) : 0;
        return hour < 24 && minute < 60 && second < 60 ? hour * 3600 + minute * 60 + second : -1;
    }
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

}  // namespace

std::optional<PlainRows> read_plain_rows(std::string_view content, const LoggerLayout& layout, Scale scale) {
    if (content.starts_with("\xEF\xBB\xBF")) content.remove_prefix(3);
    if (std::memchr(content.data(), '"', content.size()) || std::memchr(content.data(), '\0', content.size())) return std::nullopt;
    const bool one_column = layout.instant_column.has_value();
    RowClock date(Pattern::compile(one_column ? *layout.instant_pattern : *layout.date_pattern, one_column ? Pattern::Of::instant : Pattern::Of::date, ""));
    std::optional<RowClock> time;
    if (!one_column) time.emplace(Pattern::compile(*layout.time_pattern, Pattern::Of::time, ""));
    const std::int64_t offset = layout.offset ? layout.offset->seconds() : 0;
    const int date_column = one_column ? *layout.instant_column : *layout.date_column;
    const int time_column = one_column ? 0 : *layout.time_column;
    const int temperature_column = *layout.temperature_column;
    const int columns = std::max({date_column, time_column, temperature_column});
    const std::int32_t lowest = Temperature::parse(scale == Scale::C ? "-273.15" : "-459.67", scale).thousandths();
    const std::int32_t highest = scale == Scale::C ? 1'000'000 : 1'832'000;

    const char* p = content.data();
    const char* const end = p + content.size();
    for (int skipped = 0; skipped < *layout.skip_lines && p != end; ++skipped) {
        const auto* line_end = static_cast<const char*>(std::memchr(p, '\n', static_cast<std::size_t>(end - p)));
        p = line_end ? line_end + 1 : end;
    }
    PlainRows out;
    out.rows.reserve(static_cast<std::size_t>(end - p) / 24 + 1);
    std::int64_t before = INT64_MIN;
    std::size_t cells_of_first = 0;
    while (p != end) {
        std::string_view date_cell, time_cell, temperature_cell;
        std::size_t cells = 0;
        const auto* line_end = static_cast<const char*>(std::memchr(p, '\n', static_cast<std::size_t>(end - p)));
        const char* const next = line_end ? line_end + 1 : end;
        if (!line_end) line_end = end;
        if (line_end != p && line_end[-1] == '\r') --line_end;
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
        std::int32_t thousandths = 0;
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
