// Check days: which checks a programme's rule asks for in a place on a day, and which of them were made.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "question/world.hpp"

namespace coldtally::answers {

class CheckDays {
public:
    struct Made {
        std::int64_t at;
        bool min_max;  ///< with minimum and maximum
    };
    /// One check that is asked for; it is made by one in [after, by].
    struct Asked {
        std::int64_t after = 0, by = 0;
        std::int64_t deadline = 0;  ///< the rule's time, or the end of the day
        bool made = false;          ///< as the rule wants it, by the instant of the question
    };

    /// Checks from two days before `from` on are looked at. World and rule must outlive this.
    CheckDays(const World& world, const ProgrammeRules::Checks& rule, const std::string& place, std::int64_t from);

    /// Of one day, ascending; none where the rule asks for none on that day of the week. With times, one between each
    /// and the one before; without, so many in the day.
    std::vector<Asked> asked(Date date) const;
    /// In [from, until]; `min_max`: those with minimum and maximum alone.
    std::int64_t count(std::int64_t from, std::int64_t until, bool min_max) const;
    /// Ascending, up to the instant of the question.
    const std::vector<Made>& made() const { return made_; }

private:
    std::int64_t deadline_of(Date date, int second, std::int64_t begins, std::int64_t ends) const;

    const World& w_;
    const ProgrammeRules::Checks& rule_;
    std::vector<Made> made_;
};

/// [first instant, first of the next day) by the site's clock.
std::pair<std::int64_t, std::int64_t> day_of(const Zone& zone, Date date);
/// 1 Monday to 7 Sunday.
int weekday_of(Date date);
Remark weekday_words(int weekday);
/// "09:00"
std::string clock_text(int second_of_day);

}  // namespace coldtally::answers
