#include <algorithm>
#include <array>
#include <charconv>
#include <iterator>

#include "coldtally/drafts.hpp"
#include "coldtally/error.hpp"
#include "text/json_text.hpp"

namespace coldtally {

namespace {

struct Unit {
    std::int64_t seconds;
    std::array<std::string_view, 5> names;  // in small letters
};
// Largest first: of several parts each must be smaller than the one before it. A month has no length.
constexpr Unit units[] = {{7 * 86400, {"w", "week", "weeks", "wk", "wks"}},
                          {86400, {"d", "day", "days", "", ""}},
                          {3600, {"h", "hr", "hrs", "hour", "hours"}},
                          {60, {"min", "mins", "minute", "minutes", "m"}},
                          {1, {"s", "sec", "secs", "second", "seconds"}}};

constexpr std::int64_t longest = 1000LL * 366 * 86400;

[[noreturn]] void refuse(std::string_view text, const char* why) {
    throw Error(Code::bad_value,
                text::quoted(std::string(text)) + ": " + why + "; write 28 days, 96 h, 30 min or 1 h 30 min");
}

std::string_view take(std::string_view& rest, bool digits) {
    const auto is_of = [&](char c) {
        const bool digit = (c >= '0' && c <= '9');
        return digits ? digit : !digit && c != ' ' && c != '.' && c != ',';
    };
    const auto end = std::find_if_not(rest.begin(), rest.end(), is_of);
    const std::string_view out = rest.substr(0, static_cast<std::size_t>(end - rest.begin()));
    rest.remove_prefix(out.size());
    return out;
}

void skip_blanks(std::string_view& rest) {
    while (!rest.empty() && rest.front() == ' ') rest.remove_prefix(1);
}

const Unit* unit_of(std::string_view name) {
    std::string small(name);
    std::transform(small.begin(), small.end(), small.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    for (const Unit& u : units)
        if (std::find(u.names.begin(), u.names.end(), small) != u.names.end()) return &u;
    return nullptr;
}

}  // namespace

Duration typed_duration(std::string_view text) {
    std::string_view rest = text;
    std::int64_t sum = 0;
    const Unit* before = nullptr;
    skip_blanks(rest);
    if (rest.empty()) refuse(text, "no duration");
    while (!rest.empty()) {
        const std::string_view number = take(rest, true);
        std::int64_t n = 0;
        if (number.empty()) refuse(text, "must be whole numbers, each with its unit");
        if (std::from_chars(number.data(), number.data() + number.size(), n).ec != std::errc() || n > longest)
            refuse(text, "is longer than 1000 years");
        skip_blanks(rest);
        const std::string_view name = take(rest, false);
        if (name.empty()) refuse(text, "does not say of what");
        const Unit* unit = unit_of(name);
        if (!unit) refuse(text, "must be of weeks, days, h, min or s");
        if (before && unit <= before) refuse(text, "must begin with the largest unit, each once");
        if (n > longest / unit->seconds || (sum += n * unit->seconds) > longest)
            refuse(text, "is longer than 1000 years");
        before = unit;
        skip_blanks(rest);
    }
    return Duration(sum);
}

}  // namespace coldtally
