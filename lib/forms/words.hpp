// Words: the names of the model as people say them; for tables and papers.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/answers.hpp"
#include "coldtally/forms.hpp"
#include "quantities/rounding.hpp"

namespace coldtally::forms {

/// What single answers say before the caution, in tables and JSON alike.
extern const char* const stock_caution;
extern const char* const may_hide;  ///< of excursions: what was not recorded does not show
extern const char* const scan_caution;
extern const char* const mean_caution;
extern const char* const dates_caution;

/// "1 dose", "12 doses".
std::string doses_words(std::int64_t count);
/// "1 holding", "2 holdings": the plural is the word with an s.
std::string counted(std::int64_t count, std::string_view word);
/// "DO NOT USE - discard".
std::string_view list_heading(List list) noexcept;
/// "IN DOUBT: incident 2026-1 is open": stands in the same line as the list of doses that stood in its time in doubt.
std::string in_doubt_words(const std::vector<std::string>& incidents);
/// "; IN DOUBT: incident 2026-1 is open" after a list that would let them be used; "" after the others, which do not.
std::string and_in_doubt(List list, const std::vector<std::string>& incidents);
/// On keep, and not to be used yet: the doses stood in the time in doubt of incidents that are open.
bool is_kept_in_doubt(List list, const std::vector<std::string>& incidents) noexcept;
/// Above the rows of such doses.
inline constexpr std::string_view in_doubt_heading = "DO NOT USE YET - in doubt, an incident is open";
/// "DO NOT USE (quarantine)", for a column with the title "List".
std::string_view list_cell(List list, const std::vector<std::string>& incidents) noexcept;
/// "IN DOUBT: 2026-1", for a column with the title "Incident".
std::string in_doubt_cell(List list, const std::vector<std::string>& incidents);
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
/// "warm: too warm for 3 h 20 min that no allowance covers"; one line a reason, in their order. Begins with the
/// reason's stable name; a reason that is not known here is given as it is.
std::vector<std::string> reason_lines(const std::vector<std::string>& reasons, const ReasonContext& context);

/// What one dose has been through: out of range and what that rests on, allowances used and left, what is not known,
/// lowest and highest, use-by. Never empty.
std::vector<std::string> history_lines(const History& history, const std::vector<Duration>& allowance_seconds,
                                       const Zone& zone, Scale scale);

/// Instants that need not be whole, local: never later than it began, never earlier than it ended.
inline std::string begin_text(const Rational& seconds, const Zone& zone) {
    return zone.local_text(quantities::shown_begin(seconds));
}
inline std::string end_text(const Rational& seconds, const Zone& zone) {
    return zone.local_text(quantities::shown_end(seconds));
}
/// The nearest second, UTC; for JSON, which has the exact number beside it.
inline std::string nearest_instant(const Rational& seconds) { return quantities::nearest(seconds).text(); }
/// "nothing is known between plain checks, 40 min in all"; "" where no time rests on them.
std::string between_checks_words(const Rational& seconds);
inline std::string between_checks_words(const std::array<Rational, class_count>& seconds) {
    return between_checks_words(seconds[static_cast<int>(Class::checked)]);
}

/// "too warm 3 h 20 min (at least 3 h, at most 4 h)" for each side that may have been left, "" where there is none.
std::string out_of_range_words(const Exposure& exposure);

/// "by logger 20 d 4 h; NOT KNOWN 3 h": the classes of known time rounded down, of unknown time up; "" where all are 0.
std::string coverage_words(const std::array<Rational, class_count>& seconds);

}  // namespace coldtally::forms
