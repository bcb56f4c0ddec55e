#include "upkeep/check_days.hpp"

#include <algorithm>

#include "quantities/calendar.hpp"
#include "words/upkeep.hpp"

namespace coldtally::answers {

std::pair<std::int64_t, std::int64_t> day_of(const Zone& zone, Date date) {
    return {zone.end_of_day(calendar::date_of(calendar::days_of(date) - 1)).seconds_since_1970(),
            zone.end_of_day(date).seconds_since_1970()};
}

int weekday_of(Date date) {
    // 1970-01-01 was a Thursday, the fourth of the week
    return static_cast<int>((calendar::days_of(date) + 3) % 7) + 1;
}

Remark weekday_words(int weekday) {
    static const Remark names[] = {words::monday, words::tuesday,  words::wednesday, words::thursday,
                                   words::friday, words::saturday, words::sunday};
    return names[weekday - 1];
}

std::string clock_text(int second) {
    const auto two = [](int n) { return (n < 10 ? "0" : "") + std::to_string(n); };
    return two(second / 3600) + ":" + two(second / 60 % 60);
}

CheckDays::CheckDays(const World& w, const ProgrammeRules::Checks& rule, const std::string& place, std::int64_t from)
    : w_(w), rule_(rule) {
    for (const auto& row : w.store.checks(place, from - 2 * 86400))
        if (row.at <= w.at && w.known.is_known(row.entry)) made_.push_back({row.at, row.lowest.has_value()});
}

std::vector<CheckDays::Asked> CheckDays::asked(Date date) const {
    std::vector<Asked> out;
    if (std::ranges::find(rule_.weekdays, weekday_of(date)) == rule_.weekdays.end()) return out;
    const auto [begins, ends] = day_of(w_.known.zone(), date);
    std::int64_t after = begins;
    for (std::int64_t k = 0; k < rule_.per_day; ++k) {
        if (rule_.by.empty()) {
            out.push_back({begins, ends - 1, ends, count(begins, ends - 1, rule_.min_max) > k});
            continue;
        }
        const std::int64_t deadline = deadline_of(date, rule_.by[static_cast<std::size_t>(k)], begins, ends);
        out.push_back({after, deadline, deadline, count(after, deadline, rule_.min_max) > 0});
        after = deadline + 1;
    }
    return out;
}

std::int64_t CheckDays::count(std::int64_t from, std::int64_t until, bool min_max) const {
    return std::ranges::count_if(
        made_, [&](const Made& m) { return m.at >= from && m.at <= until && (m.min_max || !min_max); });
}

std::int64_t CheckDays::deadline_of(Date date, int second, std::int64_t begins, std::int64_t ends) const {
    const auto found = w_.known.zone().candidates(date, second / 3600, second / 60 % 60, second % 60);
    if (found.count == 0) return std::min(begins + second, ends);  // a time that the clock skips
    return (found.count == 2 ? found.second : found.first).seconds_since_1970();
}

}  // namespace coldtally::answers
