#include "logger/cell.hpp"

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
        for (const std::string_view blank : {std::string_view(" "), std::string_view("\t"), std::string_view("\xC2\xA0"), std::string_view("\xE2\x80\xAF")}) {
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

std::string read_temperature(std::string_view cell, char decimal, Scale scale, TemperatureCell& out) {
    cell = trimmed(cell);
    out = {};
    char digits[24];
    std::size_t n = 0, at = 0;
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
        ++at;
        for (std::size_t place = 0; at < cell.size() && is_digit(cell[at]); ++at, ++place) {
            if (place < 3) digits[n++] = cell[at];
            else if (cell[at] != '0') return "has more than three fractional digits; at most thousandths of a degree can be kept, and nothing is rounded";
        }
        if (at < cell.size() && (cell[at] == '.' || cell[at] == ','))
            return "has two decimal signs or separated thousands; must be degrees such as 4.2";
    } else if (whole_digits == 0) {
        return "must be degrees such as 4.2; a text for \"no reading\" has to be in the layout's \"no_reading\", and lines that are no rows in \"ignore_rows\"";
    }
    const std::string_view unit = trimmed(cell.substr(at));
    if (!unit.empty()) {
        out.unit = unit_of(unit);
        if (!out.unit) return "must be degrees such as 4.2, with nothing behind them but a unit (°C or °F)";
    }
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
