#include "question/typed_clock.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include "coldtally/error.hpp"
#include "quantities/calendar.hpp"
#include "quantities/digits.hpp"
#include "text/json_text.hpp"

namespace coldtally {

namespace {

std::string small_letters(std::string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return out;
}

// Zones of the United States and their territories, by the zone database's zone.tab (PR, GU, VI, AS and MP with them);
// a name that ends in / stands for all below it.
constexpr std::array month_first_zones = {
    "US/",
    "America/Adak",
    "America/Anchorage",
    "America/Boise",
    "America/Chicago",
    "America/Denver",
    "America/Detroit",
    "America/Indiana/",
    "America/Indianapolis",
    "America/Juneau",
    "America/Kentucky/",
    "America/Los_Angeles",
    "America/Menominee",
    "America/Metlakatla",
    "America/New_York",
    "America/Nome",
    "America/North_Dakota/",
    "America/Phoenix",
    "America/Puerto_Rico",
    "America/Sitka",
    "America/St_Thomas",
    "America/Yakutat",
    "Pacific/Guam",
    "Pacific/Honolulu",
    "Pacific/Pago_Pago",
    "Pacific/Saipan",
};

/// The numbers of a text such as 11/2/2026, of one or two, one or two, and four digits; empty where it is none.
std::vector<int> numbers_of(std::string_view text, char between) {
    std::vector<int> out;
    for (std::size_t from = 0; from <= text.size();) {
        const std::size_t end = std::min(text.find(between, from), text.size()), size = end - from;
        const bool year = out.size() == 2;
        if (year ? size != 4 : size < 1 || size > 2) return {};
        const int n = digits::read(text, from, size);
        if (n < 0) return {};
        out.push_back(n);
        from = end + 1;
    }
    return out.size() == 3 ? out : std::vector<int>();
}

Date checked(const Date& date, std::string_view text) {
    if (!calendar::valid(date))
        throw Error(Code::bad_value, text::quoted(std::string(text)) + ": no calendar has this date; write 2026-11-02");
    return date;
}

Date by_order(int first, int second, int year, const Zone& zone, std::string_view text) {
    const Date month_first{year, first, second}, day_first{year, second, first};
    if (first == second || date_order(zone.name()) == DateOrder::month_first) {
        if (calendar::valid(month_first)) return month_first;
        return checked(day_first, text);
    }
    const bool either = calendar::valid(month_first) && calendar::valid(day_first);
    if (either)
        throw Error(Code::ambiguous, text::quoted(std::string(text)) + ": may be either of two days; write " +
                                         month_first.text() + " or " + day_first.text());
    return checked(calendar::valid(day_first) ? day_first : month_first, text);
}

}  // namespace

DateOrder date_order(const std::string& zone) {
    const bool listed = std::any_of(month_first_zones.begin(), month_first_zones.end(), [&](std::string_view one) {
        return one.back() == '/' ? zone.starts_with(one) : zone == one;
    });
    return listed ? DateOrder::month_first : DateOrder::unknown;
}

std::optional<Date> typed_date(std::string_view text, const Zone& zone, Instant now) {
    const std::string word = small_letters(text);
    const Date today = zone.local(now).date;
    if (word == "today") return today;
    if (word == "yesterday") return calendar::date_of(calendar::days_of(today) - 1);
    if (text.size() == 10 && text[4] == '-' && text[7] == '-' && digits::read(text, 0, 4) >= 0 &&
        digits::read(text, 5, 2) >= 0 && digits::read(text, 8, 2) >= 0)
        return checked({digits::read(text, 0, 4), digits::read(text, 5, 2), digits::read(text, 8, 2)}, text);
    if (const auto n = numbers_of(text, '/'); !n.empty()) return by_order(n[0], n[1], n[2], zone, text);
    if (const auto n = numbers_of(text, '.'); !n.empty()) return checked({n[2], n[1], n[0]}, text);
    return std::nullopt;
}

std::optional<std::string> typed_time(std::string_view text) {
    std::string word = small_letters(text);
    int half = -1;  // 0: before noon, 1: after
    for (const std::string_view letters : {"am", "pm", "a.m.", "p.m."})
        if (word.ends_with(letters)) {
            half = letters.front() == 'p' ? 1 : 0;
            word.resize(word.size() - letters.size());
            while (word.ends_with(' ')) word.pop_back();
            break;
        }
    std::vector<int> parts;
    for (std::size_t from = 0; from <= word.size();) {
        const std::size_t end = std::min(word.find(':', from), word.size()), size = end - from;
        if (parts.empty() ? size < 1 || size > 2 : size != 2) return std::nullopt;
        const int n = digits::read(word, from, size);
        if (n < 0) return std::nullopt;
        parts.push_back(n);
        from = end + 1;
    }
    if (parts.size() > 3 || (parts.size() == 1 && half < 0)) return std::nullopt;
    parts.resize(3);
    const bool hour = half < 0 ? parts[0] <= 23 : parts[0] >= 1 && parts[0] <= 12;
    if (!hour || parts[1] > 59 || parts[2] > 59)
        throw Error(Code::bad_value, text::quoted(std::string(text)) + ": no clock shows this time; write 07:00");
    if (half >= 0) parts[0] = parts[0] % 12 + 12 * half;
    std::string out = "00:00:00";
    for (std::size_t i = 0; i < 3; ++i) digits::write2(out, 3 * i, parts[i]);
    return out;
}

}  // namespace coldtally
