// Date orders: which of day, month and year comes first, as the rows of a file settle it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "logger/pattern.hpp"

namespace coldtally::logger {

/// The patterns that the rows leave possible, and how the clock goes that each of them reads. The rows are shown one
/// after the other.
class DateOrders {
public:
    DateOrders() = default;
    /// `patterns`: the likelier first; `field` is for messages.
    DateOrders(const std::vector<std::string>& patterns, Pattern::Of what, const char* field);

    bool none() const noexcept { return left_.empty(); }
    /// While it is, more rows may still settle it.
    bool open() const noexcept { return left_.size() > 1; }
    /// The next row: its cell without blanks around it. `of_day`: its time of day where another cell holds that, null
    /// where it cannot be read. A row that no pattern reads is passed over: the reader refuses it by line.
    void row(std::string_view cell, const ClockParts* of_day, int line);
    /// Of a sample's orders: the same patterns, before the first row of the whole file.
    DateOrders anew() const;
    /// While it is, a row whose date is that of the row before must be shown, too: the steps of the clock may be what
    /// settles it. Where a row of the sample settled it, that row will (benchmark import_forms/am_pm: a row costs 1.1
    /// times a plain one, in place of 1.4).
    bool asks_for_every_row() const noexcept { return open() && steps_matter_; }

    struct Settled {
        std::string pattern;
        int by_line = 0;                  ///< the first that no other reads; 0: no line settles it
        bool by_steps = false;            ///< with it alone the rows follow one another without gaps
        std::vector<std::string> others;  ///< patterns that it could be as well
    };
    Settled settled() const;

private:
    struct Candidate {
        Pattern pattern;
        std::size_t number = 0;  ///< among the patterns that were possible at first
        int settled_by = 0;      ///< line of the first row that only this one reads; 0: none does
        unsigned unlike = 0;     ///< bit n: of some row the pattern n read another instant
        std::optional<std::int64_t> last = std::nullopt;  ///< seconds, of the last row that was read
        std::int64_t longest_step = 0;
        bool up = false, down = false;

        bool one_direction() const { return !(up && down); }
        void go_on(std::int64_t now);
    };

    std::vector<std::string> patterns_;
    Pattern::Of what_ = Pattern::Of::date;
    std::string field_;
    std::vector<Candidate> left_;
    bool steps_matter_ = true;
};

}  // namespace coldtally::logger
