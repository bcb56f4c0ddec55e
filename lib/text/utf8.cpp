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
    return category == UTF8PROC_CATEGORY_ZS || category == UTF8PROC_CATEGORY_ZL || category == UTF8PROC_CATEGORY_ZP || (c >= 9 && c <= 13);
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
