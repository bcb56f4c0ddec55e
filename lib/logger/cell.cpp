#include "logger/cell.hpp"

#include <algorithm>

#include "coldtally/error.hpp"

namespace coldtally::logger {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool take(std::string_view& text, std::string_view prefix) noexcept {
    if (!text.starts_with(prefix)) return false;
    text.remove_prefix(prefix.size());
    return true;
}

bool same(std::string_view text, std::string_view lower_case) noexcept {
    if (text.size() != lower_case.size()) return false;
    for (std::size_t i = 0; i < text.size(); ++i)
        if ((text[i] >= 'A' && text[i] <= 'Z' ? text[i] + 32 : text[i]) != lower_case[i]) return false;
    return true;
}

}  // namespace

std::string_view trimmed(std::string_view cell) noexcept {
    for (bool again = true; again;) {
        again = false;
        for (const std::string_view blank : {std::string_view(" "), std::string_view("\t"),
                                             std::string_view("\xC2\xA0"), std::string_view("\xE2\x80\xAF")}) {
            if (cell.starts_with(blank)) cell.remove_prefix(blank.size()), again = true;
            if (cell.ends_with(blank)) cell.remove_suffix(blank.size()), again = true;
        }
    }
    return cell;
}

std::optional<Scale> unit_of(std::string_view text) noexcept {
    if (text == "\xE2\x84\x83") return Scale::C;  // U+2103
    if (text == "\xE2\x84\x89") return Scale::F;  // U+2109
    // the degree sign, and the ordinal and ring that stand in for it
    const bool sign = take(text, "\xC2\xB0") || take(text, "\xC2\xBA") || take(text, "\xCB\x9A");
    if (!sign && text.size() > 3 && same(text.substr(0, 3), "deg")) {
        text.remove_prefix(3);
        if (text[0] == '.') text.remove_prefix(1);
    }
    text = trimmed(text);
    if (same(text, "c") || same(text, "celsius")) return Scale::C;
    if (same(text, "f") || same(text, "fahrenheit")) return Scale::F;
    return std::nullopt;
}

std::optional<int> places_of(std::optional<TemperatureDifference> resolution) noexcept {
    if (!resolution) return std::nullopt;
    for (int places = 1; places <= 3; ++places)
        if (*resolution == resolution_of(places)) return places;
    return std::nullopt;
}

TemperatureDifference resolution_of(int places) noexcept {
    return TemperatureDifference(places == 1 ? 100 : places == 2 ? 10 : 1);
}

namespace {

/// Behind `places` digits that were kept: half or more of the last place is dropped.
bool half_or_more(std::string_view dropped) { return !dropped.empty() && dropped[0] >= '5'; }

/// One more in the last of `n` digits (a minus and a point are passed over); there is room for one digit more.
void count_up(char* digits, std::size_t& n) {
    std::size_t i = n;
    while (i > 0) {
        char& c = digits[--i];
        if (c == '.') continue;
        if (c == '-') {
            ++i;
            break;
        }
        if (c != '9') {
            ++c;
            return;
        }
        c = '0';
        if (i == 0) break;
    }
    for (std::size_t j = n++; j > i; --j) digits[j] = digits[j - 1];
    digits[i] = '1';
}

/// "0.000000381": by how much a number changes that loses these digits behind `places`, or is rounded up for them.
std::string change_of(std::string_view dropped, std::size_t places, bool up) {
    while (dropped.ends_with('0')) dropped.remove_suffix(1);
    if (dropped.empty()) return {};
    std::string out = "0." + std::string(places, '0') + std::string(dropped);
    if (!up) return out;
    for (std::size_t i = 2 + places; i < out.size(); ++i) out[i] = static_cast<char>('9' - out[i] + '0');
    ++out.back();  // the last digit was not zero: no carry
    return out;
}

/// A binary fraction of four bytes is off by less than a hundred-thousandth of a degree below 256 degrees: behind the
/// places that say the number there are then zeros or nines up to the fifth.
int places_shown(std::string_view fraction) {
    for (int places = 1; places <= 3; ++places) {
        bool zeros = true, nines = true;
        for (std::size_t i = static_cast<std::size_t>(places); i < 5; ++i) {
            const char c = i < fraction.size() ? fraction[i] : '0';
            zeros = zeros && c == '0';
            nines = nines && c == '9';
        }
        if (zeros || nines) return places;
    }
    return 4;
}

}  // namespace

std::string read_temperature(std::string_view cell, char decimal, Scale scale, std::optional<int> places,
                             TemperatureCell& out) {
    cell = trimmed(cell);
    out = {};
    char digits[25];
    std::size_t n = 0, at = 0;
    bool up = false;
    if (cell.starts_with("\xE2\x88\x92")) {  // U+2212, a minus
        digits[n++] = '-';
        at = 3;
    } else if (cell.starts_with('-') || cell.starts_with('+')) {
        if (cell[0] == '-') digits[n++] = '-';
        at = 1;
    }
    const std::size_t whole = at;
    for (; at < cell.size() && is_digit(cell[at]); ++at) {
        if (n == 16) return "must be degrees, a number of a few digits";
        digits[n++] = cell[at];
    }
    const std::size_t whole_digits = at - whole;
    if (at + 1 < cell.size() && (cell[at] == '.' || cell[at] == ',') && is_digit(cell[at + 1])) {
        out.decimal = cell[at];
        if (decimal != '\0' && cell[at] != decimal)
            return std::string("has the decimal sign '") + cell[at] + "', and the layout's \"decimal\" is '" + decimal +
                   "'; thousands are not to be separated";
        if (whole_digits == 0) digits[n++] = '0';
        digits[n++] = '.';
        const std::size_t begin = ++at;
        while (at < cell.size() && is_digit(cell[at])) ++at;
        const std::string_view fraction = cell.substr(begin, at - begin),
                               finer = fraction.substr(std::min<std::size_t>(3, fraction.size()));
        out.beyond = finer.find_first_not_of('0') != std::string_view::npos;
        out.shows = places_shown(fraction);
        if (out.beyond && !places)
            return "has more than three fractional digits; at most thousandths of a degree can be kept, and nothing is "
                   "rounded without a resolution";
        const std::size_t kept = std::min(static_cast<std::size_t>(places.value_or(3)), fraction.size());
        const std::string_view dropped = fraction.substr(kept);
        for (const char c : fraction.substr(0, kept)) digits[n++] = c;
        up = half_or_more(dropped);
        out.change = change_of(dropped, kept, up);
        if (at < cell.size() && (cell[at] == '.' || cell[at] == ','))
            return "has two decimal signs or separated thousands; must be degrees such as 4.2";
    } else if (whole_digits == 0) {
        return "must be degrees such as 4.2";
    }
    const std::string_view unit = trimmed(cell.substr(at));
    if (!unit.empty()) {
        out.unit = unit_of(unit);
        if (!out.unit) return "must be degrees such as 4.2, with nothing behind them but a unit (°C or °F)";
    }
    if (up) count_up(digits, n);
    try {
        out.thousandths = Temperature::parse(std::string_view(digits, n), out.unit.value_or(scale)).thousandths();
    } catch (const Error& e) {
        std::string why = e.what();  // "\"4000\": must be ..."
        const auto colon = why.find("\": ");
        return colon == std::string::npos ? why : why.substr(colon + 3);
    }
    return {};
}

}  // namespace coldtally::logger
