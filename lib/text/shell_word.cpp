#include "text/shell_word.hpp"

namespace coldtally::text {

std::string shell_word(std::string_view text) {
    constexpr std::string_view plain = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789._/+:@%=,-";
    if (!text.empty() && text.find_first_not_of(plain) == std::string_view::npos && text[0] != '-')
        return std::string(text);
    std::string out = "'";
    for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return out + "'";
}

}  // namespace coldtally::text
