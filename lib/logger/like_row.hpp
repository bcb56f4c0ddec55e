// Like row: most rows of a large file differ from the one before in the digits of their time of day and of their
// temperature alone. Of such rows no more than these is read (benchmark import_forms: temperature_first, which is read
// cell by cell, takes 3 times as long as the plain form).
#pragma once

#include <cstdint>
#include <cstring>
#include <string>
#include <string_view>

#include "logger/pattern.hpp"
#include "logger/rows.hpp"

namespace coldtally::logger {

/// As memcmp() == 0, for the few bytes of a cell, without a call.
inline bool same_bytes(const char* a, const char* b, std::size_t size) {
    const auto differ = [&]<class Word>(std::size_t at, Word) {
        Word x, y;
        std::memcpy(&x, a + at, sizeof x);
        std::memcpy(&y, b + at, sizeof y);
        return x != y;
    };
    if (size < 4) {
        for (std::size_t i = 0; i < size; ++i)
            if (a[i] != b[i]) return false;
        return true;
    }
    if (size < 8) return !differ(0, std::uint32_t{}) && !differ(size - 4, std::uint32_t{});
    for (std::size_t i = 0; i + 8 < size; i += 8)
        if (differ(i, std::uint64_t{})) return false;
    return !differ(size - 8, std::uint64_t{});
}

/// How the time of day is written: H or HH, ":MM", and ":SS" or not; of 24 hours, or of 12 in one half of the day.
struct TimeForm {
    bool seconds = false;
    int half = -1;  ///< hours to add to those of a 12-hour clock; -1: a clock of 24 hours
    static constexpr std::size_t longest = 8;

    /// Moves `p` behind the time; -1 where there is no such time. May look at `longest` bytes.
    int read(const char*& p) const {
        const auto digit = [](char c) { return static_cast<unsigned char>(c - '0'); };
        const char* q = p;
        unsigned hour = digit(*q++);
        if (hour > 9) return -1;
        if (const unsigned ones = digit(*q); ones < 10) {
            hour = hour * 10 + ones;
            ++q;
        }
        const auto two = [&](unsigned& n) {
            const unsigned tens = digit(q[1]), ones = digit(q[2]);
            const bool good = q[0] == ':' && tens < 6 && ones < 10;
            n = tens * 10 + ones;
            q += 3;
            return good;
        };
        unsigned minute = 0, second = 0;
        if (!two(minute) || (seconds && !two(second))) return -1;
        if (half < 0) {
            if (hour > 23) return -1;
        } else {
            if (hour < 1 || hour > 12) return -1;
            hour = hour % 12 + static_cast<unsigned>(half);
        }
        p = q;
        return static_cast<int>(hour * 3600 + minute * 60 + second);
    }
};

/// Degrees of one to four digits with a sign or none, and up to three digits behind the decimal sign or none. Moves `p`
/// behind them; false for any other form. May look at `longest_degrees` bytes.
inline constexpr std::size_t longest_degrees = 10;
inline bool read_degrees(const char*& p, char decimal, std::int32_t& thousandths, bool& has_decimal) {
    const char* q = p;
    const bool negative = *q == '-';
    if (negative || *q == '+') ++q;
    const auto digit = [&] { return static_cast<unsigned char>(*q - '0'); };
    std::int32_t n = 0;
    const char* const digits = q;
    for (; q != digits + 4 && digit() < 10; ++q) n = n * 10 + digit();
    if (q == digits) return false;
    n *= 1000;
    has_decimal = *q == decimal && static_cast<unsigned char>(q[1] - '0') < 10;
    if (has_decimal) {
        ++q;
        for (std::int32_t unit = 100; unit != 0 && digit() < 10; ++q, unit /= 10) n += digit() * unit;
    }
    p = q;
    thousandths = negative ? -n : n;
    return true;
}

/// A row that others are held against. It is kept as it stands, with its line end.
struct LikeRow {
    std::string text;  ///< empty: no row is like it
    TimePlace time;    ///< where its time of day stands in it
    TimeForm form;
    std::size_t degrees = 0, after_degrees = 0;  ///< where its temperature stands, behind the time
    std::int64_t midnight = 0;                   ///< what the clock shows there, less the time of day
    char decimal = '.';

    /// A row may be longer than this one by a digit of the hour and those of its temperature; and a byte behind it is
    /// looked at.
    static constexpr std::size_t longer = longest_degrees + 4;

    /// The row at `p` if it is like this one; `p` is then where the next one begins.
    bool read(const char*& p, const char* end, Reading& row, bool& has_decimal) const {
        if (text.empty() || static_cast<std::size_t>(end - p) < text.size() + longer) return false;
        if (!same_bytes(p, text.data(), time.from)) return false;
        const char* q = p + time.from;
        const int second_of_day = form.read(q);
        if (second_of_day < 0) return false;
        const std::size_t between = degrees - time.until;
        if (!same_bytes(q, text.data() + time.until, between)) return false;
        q += between;
        if (!read_degrees(q, decimal, row.thousandths, has_decimal)) return false;
        const std::size_t rest = text.size() - after_degrees;
        if (!same_bytes(q, text.data() + after_degrees, rest)) return false;
        row.at = Instant(midnight + second_of_day);
        p = q + rest;
        return true;
    }
};

}  // namespace coldtally::logger
