#include "text/utf16.hpp"

#include <cstdint>

namespace coldtally::text {

std::string utf16_to_utf8(std::string_view bytes, bool little_endian, std::string& out) {
    out.reserve(out.size() + bytes.size() / 2 + 16);  // a logger's text is ASCII but for a few signs
    const std::size_t low = little_endian ? 0 : 1, high = 1 - low;
    const auto unit = [&](std::size_t at) {
        return static_cast<std::uint32_t>(static_cast<unsigned char>(bytes[at + low]) |
                                          static_cast<unsigned char>(bytes[at + high]) << 8);
    };
    const auto add = [&](std::uint32_t byte) { out += static_cast<char>(byte); };
    std::size_t at = 0;
    for (; at + 1 < bytes.size(); at += 2) {
        std::uint32_t c = unit(at);
        if (c < 0x80) {
            add(c);
            continue;
        }
        // RFC 2781, 2.2: two surrogates, the high one first, are one character
        if (c >= 0xDC00 && c < 0xE000) return "the second half of a character without its first";
        if (c >= 0xD800 && c < 0xDC00) {
            const std::uint32_t second = at + 3 < bytes.size() ? unit(at + 2) : 0;
            if (second < 0xDC00 || second >= 0xE000) return "the first half of a character without its second";
            c = 0x10000 + ((c - 0xD800) << 10) + (second - 0xDC00);
            at += 2;
        }
        if (c < 0x800) {
            add(0xC0 | c >> 6);
        } else {
            if (c < 0x10000) {
                add(0xE0 | c >> 12);
            } else {
                add(0xF0 | c >> 18);
                add(0x80 | (c >> 12 & 0x3F));
            }
            add(0x80 | (c >> 6 & 0x3F));
        }
        add(0x80 | (c & 0x3F));
    }
    return at == bytes.size() ? std::string() : "a byte is left over at its end";
}

}  // namespace coldtally::text
