// Words: the names of the model as people say them; for tables and papers.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/answers.hpp"
#include "coldtally/forms.hpp"

namespace coldtally::forms {

/// "1 dose", "12 doses".
std::string doses_words(std::int64_t count);
/// "1 holding", "2 holdings": the plural is the word with an s.
std::string counted(std::int64_t count, std::string_view word);
/// "DO NOT USE - discard".
std::string_view list_heading(List list) noexcept;
/// "too warm", "too cold".
std::string_view side_words(Side side) noexcept;
/// How a stretch of that class is known: "by logger".
std::string_view class_words(Class c) noexcept;
/// "waiting for guidance" for "pending guidance"; a finding that is not known here is given as it is.
std::string finding_words(std::string_view finding);

/// What the reasons' words need to say how much and since when.
struct ReasonContext {
    const History& history;
    const std::vector<Duration>& allowance_seconds;
    const Zone& zone;
    Instant at;                  ///< of the question, or of the give
    std::optional<Date> expiry;  ///< of the lot, where the answer has it
};
/// "warm: too warm for 3 h 20 min that no allowance covers"; one line a reason, in their order. Begins with the reason's
/// stable name; a reason that is not known here is given as it is.
std::vector<std::string> reason_lines(const std::vector<std::string>& reasons, const ReasonContext& context);

/// What one dose has been through: out of range and what that rests on, allowances used and left, what is not known,
/// lowest and highest, use-by. Never empty.
std::vector<std::string> history_lines(const History& history, const std::vector<Duration>& allowance_seconds, const Zone& zone,
                                       Scale scale);

/// "too warm 3 h 20 min (at least 3 h, at most 4 h)" for each side that may have been left, "" where there is none.
std::string out_of_range_words(const Exposure& exposure);

/// "by logger 20 d 4 h; NOT KNOWN 3 h": the classes of known time rounded down, of unknown time up; "" where all are 0.
std::string coverage_words(const std::array<Rational, class_count>& seconds);

}  // namespace coldtally::forms
