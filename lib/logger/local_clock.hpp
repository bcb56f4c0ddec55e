// Local clock: what a clock of a zone showed, and the instants that it may mean.
#pragma once

#include <cstdint>
#include <string>

#include "coldtally/quantities.hpp"
#include "quantities/calendar.hpp"
#include "quantities/digits.hpp"

namespace coldtally::logger {

inline constexpr std::int64_t day_s = 86400;

/// "2025-11-02 01:30" as the clock shows it.
inline std::string clock_text(std::int64_t shown) {
    const std::int64_t days = calendar::floor_div(shown, day_s);
    const int s = static_cast<int>(shown - days * day_s);
    std::string out = calendar::date_of(days).text() + " 00:00:00";
    digits::write2(out, 11, s / 3600);
    digits::write2(out, 14, s / 60 % 60);
    digits::write2(out, 17, s % 60);
    if (s % 60 == 0) out.resize(16);
    return out;
}

/// Resolves local times; a day without a clock change costs one look-up, not one a row.
class LocalClock {
public:
    explicit LocalClock(const Zone& zone) : zone_(zone) {}

    Zone::Candidates at(std::int64_t shown) {
        const std::int64_t day = calendar::floor_div(shown, day_s);
        if (day != day_ || !known_) look_at(day);
        if (even_) return {1, Instant(shown - offset_), Instant()};
        return ask(shown);
    }

private:
    Zone::Candidates ask(std::int64_t shown) const {
        const std::int64_t day = calendar::floor_div(shown, day_s);
        const int s = static_cast<int>(shown - day * day_s);
        return zone_.candidates(calendar::date_of(day), s / 3600, s / 60 % 60, s % 60);
    }
    void look_at(std::int64_t day) {
        day_ = day;
        known_ = true;
        // No zone of the IANA data has changed its clock twice within six days since 1970 (counted over all zones of
        // 2025b): where a day's first and last second have one meaning and lie 86399 s apart, the offset is one all
        // day.
        const auto first = ask(day * day_s), last = ask(day * day_s + day_s - 1);
        even_ = first.count == 1 && last.count == 1 && (last.first - first.first).seconds() == day_s - 1;
        if (even_) offset_ = day * day_s - first.first.seconds_since_1970();
    }

    const Zone& zone_;
    std::int64_t day_ = 0, offset_ = 0;
    bool known_ = false, even_ = false;
};

}  // namespace coldtally::logger
