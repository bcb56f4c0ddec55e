#include <algorithm>
#include <charconv>

#include "coldtally/error.hpp"
#include "coldtally/verification.hpp"
#include "text/json_text.hpp"

namespace coldtally {

namespace {

constexpr std::size_t noted_digits = 16,
                      all_digits = 64;  // 64 bits are more than a forger can search, and still written by hand

bool is_digit(char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); }

}  // namespace

std::string NotedLink::text() const { return std::to_string(entry) + ":" + digits; }

NotedLink parse_noted_link(std::string_view text) {
    NotedLink out;
    const auto colon = text.find(':');
    const auto number = text.substr(0, colon);
    if (colon != std::string_view::npos) {
        const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), out.entry);
        for (const char c : text.substr(colon + 1))
            out.digits += c >= 'A' && c <= 'F' ? static_cast<char>(c - 'A' + 'a') : c;
        const bool numbered = error == std::errc() && end == number.data() + number.size() && out.entry >= 1;
        if (numbered && out.digits.size() >= noted_digits && out.digits.size() <= all_digits &&
            std::all_of(out.digits.begin(), out.digits.end(), is_digit))
            return out;
    }
    throw Error(Code::bad_value, "against: " + coldtally::text::quoted(std::string(text.substr(0, 100))) +
                                     ": must be what verify said to write down, as 931:3f2a9c01d2e4b5a6");
}

std::optional<NotedLink> link_to_note(const Verification& found) {
    if (found.entries == 0 || found.findings_in_all > 0) return std::nullopt;
    return NotedLink{found.entries, found.chain.substr(0, noted_digits)};
}

}  // namespace coldtally
