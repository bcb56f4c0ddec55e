// Words: the names of the model as people say them; for tables and papers.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/conditions.hpp"
#include "coldtally/stock.hpp"
#include "coldtally/forms.hpp"
#include "coldtally/words.hpp"
#include "quantities/rounding.hpp"
#include "question/said.hpp"

namespace coldtally::forms {

using namespace answers::said;

/// What the reasons' words need to say how much and since when.
struct ReasonContext {
    const History& history;
    const std::vector<Duration>& allowance_seconds;
    const Zone& zone;
    Instant at;                  ///< of the question, or of the give
    std::optional<Date> expiry;  ///< of the lot, where the answer has it
};
/// Of a step of an incident; since when a place was out of range, which its text begins with in UTC, is said local.
Field step_text_words(const std::string& text, const Zone& zone);

/// "warm: too warm for 3 h 20 min that no allowance covers"; one line a reason, in their order. Begins with the
/// reason's stable name.
std::vector<Remark> reason_lines(const std::vector<Reason>& reasons, const ReasonContext& context);

/// What one dose has been through: out of range and what that rests on, allowances used and left, what is not known,
/// lowest and highest, use-by. Never empty.
std::vector<Remark> history_lines(const History& history, const std::vector<Duration>& allowance_seconds,
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
}  // namespace coldtally::forms
