// Row clock: reads a clock of one pattern row by row. Most rows differ from the one before in the digits of their time
// of day alone: then only these are read.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "logger/like_row.hpp"
#include "logger/pattern.hpp"

namespace coldtally::logger {

class RowClock {
public:
    explicit RowClock(Pattern pattern) : pattern_(std::move(pattern)) {}

    /// As Pattern::read, added to `parts`. May look at TimeForm::longest bytes behind the cell.
    bool read(std::string_view cell, ClockParts& parts) {
        const bool known = form_ ? read_like_before(cell) : cell == before_ && !before_.empty();
        if (!known && !read_whole(cell)) return false;
        parts.days += parts_.days;
        parts.second_of_day += parts_.second_of_day;
        parts.offset_s += parts_.offset_s;
        return true;
    }
    /// Of the cell that was read last: how its time is written, where that is a form that like rows may have.
    const std::optional<TimeForm>& form() const { return form_; }
    const TimePlace& place() const { return place_; }
    int second_of_day() const { return parts_.second_of_day; }

private:
    bool read_like_before(std::string_view cell) {
        const std::size_t rest = before_.size() - place_.until;
        if (cell.size() < place_.from + rest || !same_bytes(cell.data(), before_.data(), place_.from)) return false;
        const char* p = cell.data() + place_.from;
        const int second_of_day = form_->read(p);
        const auto until = static_cast<std::size_t>(p - cell.data());
        if (second_of_day < 0 || cell.size() - until != rest || !same_bytes(p, before_.data() + place_.until, rest))
            return false;
        if (until != place_.until) before_.assign(cell);
        place_.until = until;
        parts_.second_of_day = second_of_day;
        return true;
    }

    bool read_whole(std::string_view cell) {
        parts_ = ClockParts();
        form_.reset();
        before_.clear();
        if (pattern_.read(cell, parts_, &place_)) return false;
        before_.assign(cell);
        // a form that reads the same there; copied with room behind it
        const std::string text = before_.substr(place_.from) + std::string(TimeForm::longest, ' ');
        for (const bool seconds : {false, true})
            for (const int half : {-1, parts_.second_of_day < 12 * 3600 ? 0 : 12}) {
                const TimeForm form{seconds, half};
                const char* p = text.data();
                if (of_twelve() == (half >= 0) && form.read(p) == parts_.second_of_day &&
                    p == text.data() + (place_.until - place_.from))
                    form_ = form;
            }
        return true;
    }
    bool of_twelve() const { return pattern_.text().find("%I") != std::string::npos; }

    Pattern pattern_;
    std::string before_;  // the cell of the row before, with another time of day
    TimePlace place_;     // in it
    std::optional<TimeForm> form_;
    ClockParts parts_;
};

}  // namespace coldtally::logger
