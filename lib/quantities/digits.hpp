// Fixed-width decimal digits, for the fixed forms of dates and instants.
#pragma once

#include <string>
#include <string_view>

namespace coldtally::digits {

/// The number that `count` digits at `from` state; -1 where one of them is no digit.
inline int read(std::string_view text, std::size_t from, std::size_t count) {
    if (from + count > text.size()) return -1;
    int n = 0;
    for (std::size_t i = from; i < from + count; ++i) {
        const char c = text[i];
        if (c < '0' || c > '9') return -1;
        n = n * 10 + (c - '0');
    }
    return n;
}

inline void write2(std::string& text, std::size_t at, int n) {
    text[at] = static_cast<char>('0' + n / 10);
    text[at + 1] = static_cast<char>('0' + n % 10);
}

}  // namespace coldtally::digits
