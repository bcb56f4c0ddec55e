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

}  // namespace

std::optional<PlainRows> read_plain_rows(std::string_view content, const LoggerLayout& layout, Scale scale) {
    if (content.starts_with("\xEF\xBB\xBF")) content.remove_prefix(3);
    if (content.find('"') != std::string_view::npos || content.find('\0') != std::string_view::npos) return std::nullopt;
    const bool one_column = layout.instant_column.has_value();
    const auto date = Pattern::compile(one_column ? *layout.instant_pattern : *layout.date_pattern, one_column ? Pattern::Of::instant : Pattern::Of::date, "");
    std::optional<Pattern> time;
    if (!one_column) time = Pattern::compile(*layout.time_pattern, Pattern::Of::time, "");
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
        const char* cell = p;
        for (;; ++p) {
            if (p != end && *p != *layout.delimiter && *p != '\n') {
                if (static_cast<unsigned char>(*p) < 0x20 && *p != '\r' && *p != '\t') return std::nullopt;
                continue;
            }
            ++cells;
            const char* cell_end = p;
            if ((p == end || *p == '\n') && cell_end != cell && cell_end[-1] == '\r') --cell_end;
            const std::string_view text(cell, static_cast<std::size_t>(cell_end - cell));
            const auto column = static_cast<int>(cells);
            if (column == date_column) date_cell = text;
            if (column == time_column) time_cell = text;
            if (column == temperature_column) temperature_cell = text;
            if (p == end || *p == '\n') break;
            cell = p + 1;
        }
        if (p != end) ++p;
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
