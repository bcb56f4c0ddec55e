#include "quantities/yearly_rule.hpp"

#include <algorithm>

#include "quantities/calendar.hpp"

namespace coldtally {

/// Reads the string from left to right; each step says whether it found what it looked for.
class RuleText {
public:
    explicit RuleText(std::string_view text) : rest_(text) {}

    bool read(YearlyRule& rule) {
        if (!name() || !time(rule.standard_)) return false;
        rule.standard_ = -rule.standard_;  // written as west of Greenwich
        if (rest_.empty()) return true;
        if (!name()) return false;
        rule.summer_ = rule.standard_ + 3600;
        if (!take(',')) {
            if (!time(rule.summer_) || !take(',')) return false;
            rule.summer_ = -rule.summer_;
        }
        rule.to_summer_ = rule.to_standard_ = YearlyRule::Change{};
        return change(*rule.to_summer_) && take(',') && change(*rule.to_standard_) && rest_.empty();
    }

private:
    bool take(char c) {
        if (rest_.empty() || rest_.front() != c) return false;
        rest_.remove_prefix(1);
        return true;
    }
    bool name() {
        const bool quoted = take('<');
        const auto is_letter = [](char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); };
        const auto is_part = [&](char c) {
            return is_letter(c) || (quoted && ((c >= '0' && c <= '9') || c == '+' || c == '-'));
        };
        std::size_t n = 0;
        while (n < rest_.size() && is_part(rest_[n])) ++n;
        rest_.remove_prefix(n);
        return n >= 3 && (!quoted || take('>'));
    }
    bool number(int& n, int lowest, int highest) {
        std::size_t digits = 0;
        n = 0;
        while (digits < rest_.size() && digits < 3 && rest_[digits] >= '0' && rest_[digits] <= '9')
            n = n * 10 + (rest_[digits++] - '0');
        rest_.remove_prefix(digits);
        return digits > 0 && lowest <= n && n <= highest;
    }
    bool time(std::int64_t& seconds) {
        const bool negative = take('-');
        if (!negative) take('+');
        int h = 0, m = 0, s = 0;
        if (!number(h, 0, 167) || (take(':') && (!number(m, 0, 59) || (take(':') && !number(s, 0, 59))))) return false;
        seconds = (negative ? -1 : 1) * (h * 3600 + m * 60 + s);
        return true;
    }
    bool change(YearlyRule::Change& c) {
        using Day = YearlyRule::Change::Day;
        if (take('M')) {
            c.kind = Day::of_month;
            if (!number(c.month, 1, 12) || !take('.') || !number(c.week, 1, 5) || !take('.') || !number(c.day, 0, 6))
                return false;
        } else if (take('J')) {
            c.kind = Day::julian;
            if (!number(c.day, 1, 365)) return false;
        } else {
            c.kind = Day::of_year;
            if (!number(c.day, 0, 365)) return false;
        }
        return !take('/') || time(c.time);
    }
    std::string_view rest_;
};

std::optional<YearlyRule> YearlyRule::parse(std::string_view text) {
    YearlyRule rule;
    if (!RuleText(text).read(rule)) return std::nullopt;
    return rule;
}

std::int64_t YearlyRule::Change::seconds(int year) const {
    std::int64_t date = 0;
    if (kind == Day::of_month) {
        const std::int64_t first = calendar::days_of({year, month, 1});
        const std::int64_t weekday = (first + 4) % 7;  // 1970-01-01 was a Thursday
        date = first + (day - weekday + 7) % 7 + 7 * (week - 1);
        if (date >= first + calendar::days_in_month(year, month)) date -= 7;  // week 5: the last
    } else {
        const bool skips =
            kind == Day::julian && day >= 60 && calendar::days_in_month(year, 2) == 29;  // 29 February has no number
        date = calendar::days_of({year, 1, 1}) + day - (kind == Day::julian ? 1 : 0) + (skips ? 1 : 0);
    }
    return date * 86400 + time;
}

std::int64_t YearlyRule::offset_at(std::int64_t utc) const {
    if (!to_summer_) return standard_;
    const int year = calendar::date_of(calendar::floor_div(utc + standard_, 86400)).year;
    // the last change at or before the instant; of two at once (a year that is all summer) the one to summer
    std::int64_t last = 0, offset = standard_;
    bool any = false;
    const auto consider = [&](std::int64_t at, std::int64_t then) {
        if (at > utc || (any && at < last)) return;
        any = true;
        last = at;
        offset = then;
    };
    for (const int y : {year - 1, year, year + 1}) {
        consider(to_standard_->seconds(y) - summer_, standard_);
        consider(to_summer_->seconds(y) - standard_, summer_);
    }
    return offset;
}

}  // namespace coldtally
