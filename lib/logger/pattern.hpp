// Pattern: a form of dates and times of day (%d/%m/%Y), compiled once and then read from each row.
// A reader of our own because a file has up to millions of rows: stream-based parsers (std::get_time,
// date::from_stream) take several times as long as the rest of an import, and differ in whether "%m" may be one digit.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace coldtally::logger {

/// What the local clock of a row shows.
struct ClockParts {
    std::int64_t days = 0;    ///< since 1970-01-01
    int second_of_day = 0;
    int offset_s = 0;         ///< from %z
};

/// Where the time of day stands in a cell: from the first digit of its hour to behind its minutes or whole seconds.
struct TimePlace {
    std::size_t from = 0, until = 0;
};

class Pattern {
public:
    enum class Of { date, time, instant };

    /// Code::bad_value, the message beginning with `field`. Date: %d, %m or %b, %Y or %y. Time: %H, or %I and %p; %M;
    /// %S or not. Instant: both, and %z or not. A blank stands for one or more blanks; every other character for
    /// itself.
    static Pattern compile(std::string_view text, Of what, const std::string& field);

    /// Sets the parts the pattern is of. Returns nullptr, or why the cell cannot be read; then the parts mean nothing.
    const char* read(std::string_view cell, ClockParts& parts, TimePlace* place = nullptr) const noexcept;

    bool has_offset() const noexcept { return has_offset_; }
    const std::string& text() const noexcept { return text_; }

private:
    struct Item {
        char what;   ///< a conversion's letter, or '\0' for a literal
        char literal;
        bool fixed;  ///< exactly two digits, because digits follow at once
    };
    std::string text_;
    std::vector<Item> items_;
    bool has_date_ = false, has_time_ = false, has_offset_ = false;
};

/// The patterns that read this cell, the likelier first; empty where it looks like nothing of the kind.
std::vector<std::string> candidate_patterns(std::string_view cell, Pattern::Of what);

}  // namespace coldtally::logger
