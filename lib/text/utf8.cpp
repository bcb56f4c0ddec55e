#include "text/utf8.hpp"

#include <utf8proc.h>

namespace coldtally::text {

namespace {

/// Calls take(code point) for each; false where the text is not UTF-8.
template <class Take>
bool each(std::string_view text, Take take) {
    const auto* p = reinterpret_cast<const utf8proc_uint8_t*>(text.data());
    auto left = static_cast<utf8proc_ssize_t>(text.size());
    while (left > 0) {
        utf8proc_int32_t c;
        const auto n = utf8proc_iterate(p, left, &c);
        if (n <= 0) return false;
        take(c);
        p += n;
        left -= n;
    }
    return true;
}

bool blank(utf8proc_int32_t c) {
    const auto category = utf8proc_category(c);
    return category == UTF8PROC_CATEGORY_ZS || category == UTF8PROC_CATEGORY_ZL || category == UTF8PROC_CATEGORY_ZP ||
           (c >= 9 && c <= 13);
}

}  // namespace

bool valid_utf8(std::string_view text) {
    bool nul = false;
    return each(text, [&](utf8proc_int32_t c) { nul = nul || c == 0; }) && !nul;
}

std::size_t length(std::string_view text) {
    std::size_t n = 0;
    each(text, [&](utf8proc_int32_t) { ++n; });
    return n;
}

std::size_t characters(std::string_view text) {
    std::size_t n = 0;
    for (const char c : text) n += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    return n;
}

std::string beginning(std::string_view text, std::size_t most) {
    std::size_t characters = 0, cut = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if ((static_cast<unsigned char>(text[i]) & 0xC0) == 0x80) continue;
        if (++characters == most) cut = i;
        if (characters > most) return std::string(text.substr(0, cut)) + "\xE2\x80\xA6";
    }
    return std::string(text);
}

namespace {

bool turns(utf8proc_int32_t c) {
    return c == 0x061C || c == 0x200E || c == 0x200F || (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
}

}  // namespace

bool turns_direction(std::string_view text) {
    bool any = false;
    each(text, [&](utf8proc_int32_t c) { any = any || turns(c); });
    return any;
}

std::string with_marks_shown(std::string_view text) {
    if (!turns_direction(text)) return std::string(text);
    std::string out;
    for (std::size_t from = 0; from < text.size();) {
        utf8proc_int32_t c;
        const auto n = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()) + from,
                                        static_cast<utf8proc_ssize_t>(text.size() - from), &c);
        const auto size = n > 0 ? static_cast<std::size_t>(n) : 1;
        if (n > 0 && turns(c)) {
            constexpr char digits[] = "0123456789abcdef";
            out += "\\u";
            for (int shift = 12; shift >= 0; shift -= 4) out += digits[c >> shift & 0xF];
        } else {
            out += text.substr(from, size);
        }
        from += size;
    }
    return out;
}

bool printable(std::string_view text) {
    bool all = true;
    return each(text, [&](utf8proc_int32_t c) {
        switch (utf8proc_category(c)) {
            case UTF8PROC_CATEGORY_CC: case UTF8PROC_CATEGORY_CN: case UTF8PROC_CATEGORY_CS: case UTF8PROC_CATEGORY_CO:
            case UTF8PROC_CATEGORY_ZL: case UTF8PROC_CATEGORY_ZP:
                all = false;
                break;
            default: break;
        }
    }) && all;
}

bool has_outer_blanks(std::string_view text) {
    utf8proc_int32_t first = 'x', last = 'x';
    bool any = false;
    each(text, [&](utf8proc_int32_t c) {
        if (!any) first = c;
        any = true;
        last = c;
    });
    return blank(first) || blank(last);
}

}  // namespace coldtally::text
