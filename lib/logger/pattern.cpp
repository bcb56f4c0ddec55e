#include "logger/pattern.hpp"

#include <array>

#include "coldtally/quantities.hpp"
#include "logger/message.hpp"
#include "quantities/calendar.hpp"

namespace coldtally::logger {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; }
bool is_letter(char c) { return lower(c) >= 'a' && lower(c) <= 'z'; }

constexpr std::array<std::string_view, 12> months = {"january",   "february", "march",    "april",
                                                     "may",       "june",     "july",     "august",
                                                     "september", "october",  "november", "december"};

/// 1 to 12 for "Mar", "March", "Sept", "Sept." is not one; 0 for anything else. `at` moves behind it.
int read_month(std::string_view cell, std::size_t& at) {
    std::size_t end = at;
    while (end < cell.size() && is_letter(cell[end])) ++end;
    const std::size_t n = end - at;
    for (std::size_t m = 0; m < months.size(); ++m) {
        if (n != 3 && n != months[m].size() && !(m == 8 && n == 4)) continue;
        bool same = n <= months[m].size();
        for (std::size_t i = 0; same && i < n; ++i) same = lower(cell[at + i]) == months[m][i];
        if (!same) continue;
        at = end;
        return static_cast<int>(m) + 1;
    }
    return 0;
}

/// 0 or 12 hours for AM, PM, a.m., p.m.; -1 for anything else.
int read_half(std::string_view cell, std::size_t& at) {
    if (at >= cell.size()) return -1;
    const char c = lower(cell[at]);
    if (c != 'a' && c != 'p') return -1;
    std::size_t i = at + 1;
    const bool dots = i < cell.size() && cell[i] == '.';
    if (dots) ++i;
    if (i >= cell.size() || lower(cell[i]) != 'm') return -1;
    ++i;
    if (dots) {
        if (i >= cell.size() || cell[i] != '.') return -1;
        ++i;
    }
    at = i;
    return c == 'p' ? 12 : 0;
}

/// From `least` to `most` digits; -1 where they are not there.
int read_digits(std::string_view cell, std::size_t& at, int least, int most) {
    int n = 0, count = 0;
    while (count < most && at < cell.size() && is_digit(cell[at])) {
        n = n * 10 + (cell[at++] - '0');
        ++count;
    }
    return count < least ? -1 : n;
}

constexpr int no_offset = 1 << 30;

/// Z, +hh:mm, +hhmm, +hh, up to 14 hours.
int read_offset(std::string_view cell, std::size_t& at) {
    if (at >= cell.size()) return no_offset;
    if (cell[at] == 'Z' || cell[at] == 'z') {
        ++at;
        return 0;
    }
    const char sign = cell[at];
    if (sign != '+' && sign != '-') return no_offset;
    ++at;
    const int hours = read_digits(cell, at, 2, 2);
    int minutes = 0;
    if (at < cell.size() && (cell[at] == ':' || is_digit(cell[at]))) {
        if (cell[at] == ':') ++at;
        minutes = read_digits(cell, at, 2, 2);
    }
    if (hours < 0 || minutes < 0 || minutes > 59 || hours * 60 + minutes > 14 * 60) return no_offset;
    return (sign == '-' ? -1 : 1) * (hours * 60 + minutes) * 60;
}

}  // namespace

Pattern Pattern::compile(std::string_view text, Of what, const std::string& field) {
    const auto refuse = [&](const std::string& why) {
        return Error(Code::bad_value, field + ": " + shown(text) + ": " + why);
    };
    Pattern p;
    p.text_ = text;
    p.has_date_ = what != Of::time;
    p.has_time_ = what != Of::date;
    const std::string_view allowed = what == Of::date ? "YymdB" : what == Of::time ? "HIMSp" : "YymdBHIMSpz";
    std::string seen;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '%') {
            p.items_.push_back({'\0', text[i], false});
            continue;
        }
        char c = ++i < text.size() ? text[i] : '\0';
        if (c == 'b') c = 'B';
        else if (c == 'B') c = '\0';
        if (c == '\0' || allowed.find(c) == std::string_view::npos)
            throw refuse(std::string("must be made of ") +
                         (what == Of::date   ? "%Y or %y, %m or %b, %d"
                          : what == Of::time ? "%H, or %I and %p, %M, %S"
                                             : "%Y or %y, %m or %b, %d, %H, or %I and %p, %M, %S, %z") +
                         " and the characters between them");
        if (seen.find(c) != std::string::npos) throw refuse("must name each part once");
        seen += c;
        // "%H%M": without a character between them only the number of digits tells them apart
        const std::string_view numeric = "YymdHIMS";
        if (numeric.find(c) != std::string_view::npos && !p.items_.empty() && p.items_.back().what != '\0' &&
            numeric.find(p.items_.back().what) != std::string_view::npos)
            p.items_.back().fixed = true;
        p.items_.push_back({c, '\0', false});
    }
    const auto has = [&](char c) { return seen.find(c) != std::string::npos; };
    if (p.has_date_ && (has('Y') == has('y') || has('m') == has('B') || !has('d')))
        throw refuse("must have a year (%Y or %y), a month (%m or %b) and a day (%d)");
    if (p.has_time_ && (has('H') == has('I') || has('I') != has('p') || !has('M')))
        throw refuse("must have an hour (%H, or %I with %p) and minutes (%M)");
    p.has_offset_ = has('z');
    return p;
}

const char* Pattern::read(std::string_view cell, ClockParts& parts, TimePlace* place) const noexcept {
    constexpr const char* other = "is not of the pattern";
    Date date{0, 0, 0};
    int hour = 0, minute = 0, second = 0, half = -1;
    std::size_t at = 0;
    TimePlace time;
    for (const Item& item : items_) {
        const int least = item.fixed ? 2 : 1;
        int n = 0;
        switch (item.what) {
            case '\0':
                if (at >= cell.size() || cell[at] != item.literal) return other;
                ++at;
                if (item.literal == ' ')
                    while (at < cell.size() && cell[at] == ' ') ++at;
                break;
            case 'Y': n = date.year = read_digits(cell, at, 4, 4); break;
            case 'y':
                n = read_digits(cell, at, 2, 2);
                date.year = 2000 + n;
                break;
            case 'm': n = date.month = read_digits(cell, at, least, 2); break;
            case 'B':
                date.month = read_month(cell, at);
                n = date.month == 0 ? -1 : 0;
                break;
            case 'd': n = date.day = read_digits(cell, at, least, 2); break;
            case 'H':
                time.from = at;
                n = hour = read_digits(cell, at, least, 2);
                break;
            case 'I':
                time.from = at;
                n = hour = read_digits(cell, at, least, 2);
                if (n == 0 || n > 12) return n < 0 ? other : "has no such hour (1 to 12 with AM or PM)";
                break;
            case 'p': n = half = read_half(cell, at); break;
            case 'M':
                n = minute = read_digits(cell, at, 2, 2);
                time.until = at;
                break;
            case 'S':
                n = second = read_digits(cell, at, 2, 2);
                time.until = at;
                if (n >= 0 && at + 1 < cell.size() && (cell[at] == '.' || cell[at] == ',') && is_digit(cell[at + 1]))
                    for (++at; at < cell.size() && is_digit(cell[at]); ++at)
                        if (cell[at] != '0') return "has a fraction of a second; rows must be at whole seconds";
                break;
            case 'z':
                parts.offset_s = read_offset(cell, at);
                n = parts.offset_s == no_offset ? -1 : 0;
                break;
            default: return other;
        }
        if (n < 0) return other;
    }
    if (at != cell.size()) return other;
    if (place) *place = time;
    if (has_date_) {
        if (!calendar::valid(date)) return "is no date of the years 1970 to 2199";
        parts.days = calendar::days_of(date);
    }
    if (has_time_) {
        if (half >= 0) hour = hour % 12 + half;
        if (hour > 23 || minute > 59 || second > 59)
            return "is no time of day (hours to 23, minutes and seconds to 59)";
        parts.second_of_day = hour * 3600 + minute * 60 + second;
    }
    return nullptr;
}

namespace {

struct Scanner {
    std::string_view cell;
    std::size_t at = 0;

    bool end() const { return at >= cell.size(); }
    char peek() const { return end() ? '\0' : cell[at]; }
    std::string_view while_(bool (*is)(char)) {
        const std::size_t from = at;
        while (!end() && is(cell[at])) ++at;
        return cell.substr(from, at - from);
    }
};

/// Reads three parts with separators, or eight digits; the forms that their order may have.
std::vector<std::string> scan_date(Scanner& s) {
    struct Part {
        bool month_name = false;
        std::size_t digits = 0;
    };
    const auto part = [&]() -> Part {
        if (is_digit(s.peek())) return {false, s.while_(is_digit).size()};
        return {read_month(s.cell, s.at) != 0, 0};
    };
    const auto separator = [&]() -> std::string {
        const char c = s.peek();
        if (c == '-' || c == '/' || c == '.') {
            ++s.at;
            return std::string(1, c);
        }
        std::string out;
        if (c == ',') {
            out = ",";
            ++s.at;
        }
        if (!s.while_([](char b) { return b == ' '; }).empty()) out += ' ';
        return out;
    };
    const Part a = part();
    if (a.digits == 8) return {"%Y%m%d"};
    const std::string one = separator();
    const Part b = part();
    const std::string two = separator();
    const Part c = part();
    if (one.empty() || two.empty()) return {};
    const auto small = [](const Part& p) { return !p.month_name && (p.digits == 1 || p.digits == 2); };
    const auto made = [&](const char* x, const char* y, const char* z) { return std::string(x) + one + y + two + z; };
    if (a.digits == 4) {
        if (small(b) && small(c)) return {made("%Y", "%m", "%d")};
        if (b.month_name && small(c)) return {made("%Y", "%b", "%d")};
        return {};
    }
    if (c.digits != 4 && c.digits != 2) {
        // a year of two digits in front: 26-3-2
        if (a.digits == 2 && small(b) && small(c)) return {made("%y", "%m", "%d")};
        return {};
    }
    const char* year = c.digits == 4 ? "%Y" : "%y";
    if (a.month_name && small(b)) return {made("%b", "%d", year)};
    if (!small(a)) return {};
    std::vector<std::string> out;
    if (b.month_name) {
        out.push_back(made("%d", "%b", year));
        if (c.digits == 2 && a.digits == 2) out.push_back(made("%y", "%b", "%d"));
    } else if (small(b)) {
        out.push_back(made("%d", "%m", year));
        out.push_back(made("%m", "%d", year));
        if (c.digits == 2 && a.digits == 2) out.push_back(made("%y", "%m", "%d"));
    }
    return out;
}

std::string scan_time(Scanner& s) {
    const auto two = [&] { return s.while_(is_digit).size() == 2; };
    const std::size_t hour_digits = s.while_(is_digit).size();
    if (hour_digits < 1 || hour_digits > 2 || s.peek() != ':') return {};
    ++s.at;
    if (!two()) return {};
    std::string out = ":%M";
    if (s.peek() == ':') {
        ++s.at;
        if (!two()) return {};
        out += ":%S";
        if ((s.peek() == '.' || s.peek() == ',') && s.at + 1 < s.cell.size() && is_digit(s.cell[s.at + 1])) {
            ++s.at;
            s.while_(is_digit);
        }
    }
    Scanner after = s;
    const bool blank = !after.while_([](char b) { return b == ' '; }).empty();
    if (read_half(after.cell, after.at) < 0) return "%H" + out;
    s = after;
    return "%I" + out + (blank ? " %p" : "%p");
}

}  // namespace

std::vector<std::string> candidate_patterns(std::string_view cell, Pattern::Of what) {
    std::vector<std::string> out;
    Scanner s{cell};
    if (what == Pattern::Of::time) {
        const std::string time = scan_time(s);
        if (!time.empty()) out.push_back(time);
    } else {
        out = scan_date(s);
        if (!out.empty() && what == Pattern::Of::instant) {
            std::string between;
            while (!s.end() && !is_digit(s.peek()) && between.size() < 3) {
                if (s.peek() != ' ' || between.empty() || between.back() != ' ') between += s.peek();
                ++s.at;
            }
            if (between != " " && between != "T" && between != "t" && between != ", " && between != "," &&
                between != " - ")
                return {};
            const std::string time = scan_time(s);
            if (time.empty()) return {};
            std::string zone;
            if (!s.end()) {
                Scanner after = s;
                if (!after.while_([](char b) { return b == ' '; }).empty()) zone = " ";
                if (read_offset(after.cell, after.at) == no_offset) return {};
                zone += "%z";
                s = after;
            }
            for (auto& date : out) date += between + time + zone;
        }
    }
    if (!s.end()) return {};
    std::vector<std::string> fit;
    for (const auto& text : out) {
        ClockParts parts;
        if (!Pattern::compile(text, what, "pattern").read(cell, parts)) fit.push_back(text);
    }
    // where none fits ("32/13/2026") the form is still known, and the row is refused by it
    return fit.empty() ? out : fit;
}

}  // namespace coldtally::logger
