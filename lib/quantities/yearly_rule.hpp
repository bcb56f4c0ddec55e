// Yearly rule: how a zone's clock changes after the last change that its file lists.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace coldtally {

/// The TZ string that ends a zone file: RFC 8536, section 3.3, with its extension of the hours to -167 ... 167.
/// The date library's reader of such strings refuses the negative hours of Greenland.
class YearlyRule {
public:
    /// None where the text is no such string.
    static std::optional<YearlyRule> parse(std::string_view text);
    /// Seconds to add to UTC for the local clock.
    std::int64_t offset_at(std::int64_t utc) const;

private:
    struct Change {
        enum class Day { of_month, julian, of_year } kind = Day::of_month;
        int month = 0, week = 0, day = 0;  // day: of the week from Sunday, or of the year
        std::int64_t time = 7200;          // of the local clock before the change, since midnight
        std::int64_t seconds(int year) const;  // of that clock, since 1970
    };
    friend class RuleText;
    std::int64_t standard_ = 0, summer_ = 0;  // offsets
    std::optional<Change> to_summer_, to_standard_;  // both or none
};

}  // namespace coldtally
