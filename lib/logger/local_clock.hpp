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

/// Resolves local times; some days without a clock change cost one look-up, not one a row (benchmark import_forms:
/// a row of local_clock costs what one of UTC does).
class LocalClock {
public:
    explicit LocalClock(const Zone& zone) : zone_(zone) {}

    Zone::Candidates at(std::int64_t shown) {
        if (shown < from_ || shown >= until_) look_at(calendar::floor_div(shown, day_s));
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
        const std::int64_t first = calendar::floor_div(day, 4) * 4;
        if (!look_at(first, first + 4)) look_at(day, day + 1);
    }
    bool look_at(std::int64_t first_day, std::int64_t until_day) {
        from_ = first_day * day_s;
        until_ = until_day * day_s;
        // No zone of the IANA data has changed its clock twice within six days since 1970 (counted over all zones of
        // 2025b): where the first and last second of some days have one meaning and lie as far apart as the clock
        // shows, the offset is one from the one to the other.
        const auto first = ask(from_), last = ask(until_ - 1);
        even_ = first.count == 1 && last.count == 1 && (last.first - first.first).seconds() == until_ - 1 - from_;
        if (even_) offset_ = from_ - first.first.seconds_since_1970();
        return even_;
    }

    const Zone& zone_;
    std::int64_t from_ = 0, until_ = 0, offset_ = 0;  // of what the clock shows, in seconds
    bool even_ = false;
};

}  // namespace coldtally::logger
