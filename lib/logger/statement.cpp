#include "logger/statement.hpp"

#include <algorithm>
#include <vector>

#include "logger/cell.hpp"

namespace coldtally::logger {

namespace {

std::string lower_case(std::string_view text) {
    std::string out(text);
    for (char& c : out)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c + 32);
    return out;
}

bool is_word(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); }

std::vector<std::string> words(const std::string& lower) {
    std::vector<std::string> out;
    bool inside = false;
    for (const char c : lower) {
        if (is_word(c)) {
            if (!inside) out.emplace_back();
            out.back() += c;
        }
        inside = is_word(c);
    }
    return out;
}

std::optional<Scale> scale_in(std::string_view text, bool letters) {
    const std::string lower = lower_case(text);
    bool c = false, f = false;
    const auto note = [&](Scale s) { (s == Scale::C ? c : f) = true; };
    if (lower.find("celsius") != std::string::npos || lower.find("\xE2\x84\x83") != std::string::npos) note(Scale::C);
    if (lower.find("fahrenheit") != std::string::npos || lower.find("\xE2\x84\x89") != std::string::npos)
        note(Scale::F);
    for (const std::string_view sign : {"\xC2\xB0", "\xC2\xBA", "\xCB\x9A", "deg"}) {
        for (auto at = lower.find(sign); at != std::string::npos; at = lower.find(sign, at + 1)) {
            auto end = at + sign.size();
            if (end < lower.size() && lower[end] == '.') ++end;
            while (end < lower.size() && lower[end] == ' ') ++end;
            if (end >= lower.size() || (end + 1 < lower.size() && is_word(lower[end + 1]))) continue;
            if (lower[end] == 'c') note(Scale::C);
            if (lower[end] == 'f') note(Scale::F);
        }
    }
    if (letters)
        for (const auto& word : words(lower)) {
            if (word == "c" || word == "tempc") note(Scale::C);
            if (word == "f" || word == "tempf") note(Scale::F);
        }
    if (c == f) return std::nullopt;
    return c ? Scale::C : Scale::F;
}

}  // namespace

std::optional<Scale> scale_in_title(std::string_view title) { return scale_in(title, true); }

std::optional<Scale> scale_in_line(std::string_view line) {
    const std::string lower = lower_case(line);
    return scale_in(line, lower.find("unit") != std::string::npos || lower.find("scale") != std::string::npos);
}

std::optional<Duration> offset_in(std::string_view text) {
    const std::string lower = lower_case(text);
    for (const char* name : {"utc", "gmt"}) {
        for (auto at = lower.find(name); at != std::string::npos; at = lower.find(name, at + 1)) {
            if (at > 0 && is_word(lower[at - 1])) continue;
            auto i = at + 3;
            if (i < lower.size() && is_word(lower[i])) continue;
            while (i < lower.size() && lower[i] == ' ') ++i;
            int sign = 0;
            if (i < lower.size() && (lower[i] == '+' || lower[i] == '-')) sign = lower[i++] == '-' ? -1 : 1;
            else if (lower.compare(i, 3, "\xE2\x88\x92") == 0) sign = -1, i += 3;
            int digits[4], n = 0;
            bool colon = false;
            for (; sign != 0 && i < lower.size() && n < 4; ++i) {
                if (lower[i] == ':' && !colon) colon = true;
                else if (lower[i] >= '0' && lower[i] <= '9') digits[n++] = lower[i] - '0';
                else break;
            }
            if (n == 0) return Duration(0);
            const int hours = n == 1 || n == 3 ? digits[0] : digits[0] * 10 + digits[1];
            const int minutes = n >= 3 ? digits[n - 2] * 10 + digits[n - 1] : 0;
            if (hours * 60 + minutes > 14 * 60 || minutes > 59) continue;
            return Duration(sign * (hours * 60 + minutes) * 60);
        }
    }
    return std::nullopt;
}

int temperature_score(std::string_view title) {
    const std::string lower = lower_case(title);
    const auto any_in = [&](std::initializer_list<const char*> parts) {
        return std::any_of(parts.begin(), parts.end(),
                           [&](const char* p) { return lower.find(p) != std::string::npos; });
    };
    const auto list = words(lower);
    const auto any_word = [&](std::initializer_list<std::string_view> names) {
        return std::any_of(list.begin(), list.end(), [&](const std::string& w) {
            return std::find(names.begin(), names.end(), w) != names.end();
        });
    };
    int score = 0;
    if (lower.find("temp") != std::string::npos || scale_in_title(title)) score += 4;
    else if (any_in({"probe", "channel", "sensor", "reading", "value"}) || lower.starts_with("ch")) score += 1;
    if (any_in({"humid", "dew", "batt", "volt", "alarm", "limit", "press", "serial", "ambient", "average", "index",
                "record", "status", "%", "#"}) ||
        any_word({"rh", "min", "max", "minimum", "maximum", "low", "high", "avg", "mean", "set", "setpoint", "mkt",
                  "light", "lux", "no", "nr", "number", "count", "id"}))
        score -= 6;
    return score;
}

}  // namespace coldtally::logger
