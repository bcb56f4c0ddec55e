// Said: how the things that every room speaks of are called: where doses are, lists, findings, sides, what is known.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "coldtally/conditions.hpp"
#include "coldtally/stock.hpp"
#include "coldtally/incidents.hpp"
#include "coldtally/words.hpp"

namespace coldtally::answers::said {

/// "main, fund state, mark bin 2"
Field place_words(const HoldingKey& holding);
/// "mmr lot K0123 in main, fund state, mark bin 2"
Remark holding_words(const HoldingKey& holding);
/// "DO NOT USE - discard".
Remark list_heading(List list);
/// "IN DOUBT: incident 2026-1 is open": stands in the same line as the list of doses that stood in its time in doubt.
/// One or more.
Remark in_doubt_words(const std::vector<std::string>& incidents);
/// On keep, and not to be used yet: the doses stood in the time in doubt of incidents that are open.
bool is_kept_in_doubt(List list, const std::vector<std::string>& incidents) noexcept;
/// On keep, in no doubt, and not to be used yet by what stands beside it.
bool is_kept_warned(List list, const std::vector<std::string>& incidents, const std::vector<Remark>& beside);
/// "DO NOT USE (quarantine)", for a column with the title "List".
Remark list_cell(List list, const std::vector<std::string>& incidents, const std::vector<Remark>& beside);
/// "IN DOUBT: 2026-1", for a column with the title "Incident"; empty where they are not kept in doubt.
Field in_doubt_cell(List list, const std::vector<std::string>& incidents);
/// "too warm", "too cold".
Remark side_words(Side side);
/// "refrigerator", "transport container".
Remark place_type_words(PlaceType type);
/// How a stretch of that class is known: "by logger".
Remark class_words(Class c);
/// "waiting for guidance" for "pending guidance".
Remark finding_words(Finding finding);
/// "pending guidance", as the model names it.
Remark finding_name_words(Finding finding);
/// Of what was done about a dose given.
Remark standing_words(Standing standing);
/// "health department told", of a step of an incident and of a duty; "health department".
Remark step_words(IncidentStep step);
Remark duty_words(DutyStep step);
Remark recipient_words(Recipient to);
/// "over-allowance", "quarantine-pending-guidance", "use-by", "beyond-use": the names of the model, as people are told
/// them.
Remark reason_words(Reason reason);
Remark list_words(List list);
Remark verdict_words(Verdict verdict);
/// "use-by 2026-07-15", "discard".
Remark verdict_words(const Guidance& guidance);
Remark use_limit_words(UseLimitKind kind);
/// "warm, point"; words::none of none.
Field reasons_words(const std::vector<Reason>& reasons);

/// "nothing is known between plain checks, 40 min in all"; none where no time rests on them.
std::optional<Remark> between_checks_words(const Rational& seconds);
inline std::optional<Remark> between_checks_words(const std::array<Rational, class_count>& seconds) {
    return between_checks_words(seconds[static_cast<int>(Class::checked)]);
}

/// "too warm 3 h 20 min (at least 3 h, at most 4 h)" for each side that may have been left, none where there is none.
std::optional<Remark> out_of_range_words(const Exposure& exposure);

/// "by logger 20 d 4 h; NOT KNOWN 3 h": the classes of known time rounded down, of unknown time up; none where all
/// are 0.
std::optional<Remark> coverage_words(const std::array<Rational, class_count>& seconds);

}  // namespace coldtally::answers::said
