#include "question/said.hpp"

#include "words/follow_up.hpp"
#include "words/history.hpp"
#include "words/lists.hpp"
#include "words/review.hpp"

namespace coldtally::answers::said {

namespace {

bool any(const Rational& seconds) { return seconds.sign() != 0; }

std::optional<Remark> side_exposure(const Remark& what, const SideExposure& side) {
    if (!any(side.at_most)) return std::nullopt;
    // The readings say no, but within the probe's tolerance, or between two of them, it may have been.
    if (!any(side.estimate)) return words::perhaps(what, duration_words(side.at_most, true));
    if (side.at_least == side.at_most) return words::for_time(what, duration_words(side.estimate, true));
    return words::for_time_between(what, duration_words(side.estimate, true), duration_words(side.at_least, false),
                                   duration_words(side.at_most, true));
}

}  // namespace

Field place_words(const HoldingKey& holding) {
    if (holding.fund.empty() && holding.mark.empty()) return holding.place;
    if (holding.mark.empty()) return words::place_fund(holding.place, holding.fund);
    if (holding.fund.empty()) return words::place_mark(holding.place, holding.mark);
    return words::place_fund_mark(holding.place, holding.fund, holding.mark);
}

Remark holding_words(const HoldingKey& holding) {
    return words::holding(holding.product, holding.lot, place_words(holding));
}

Remark list_heading(List list) {
    switch (list) {
        case List::discard: return words::heading_discard;
        case List::quarantine: return words::heading_quarantine;
        case List::keep: break;
    }
    return words::heading_keep;
}

Remark in_doubt_words(const std::vector<std::string>& incidents) {
    return incidents.size() == 1 ? words::in_doubt_one(incidents.front())
                                 : words::in_doubt_several(words::names(incidents));
}

bool is_kept_in_doubt(List list, const std::vector<std::string>& incidents) noexcept {
    return list == List::keep && !incidents.empty();
}

bool is_kept_warned(List list, const std::vector<std::string>& incidents, const std::vector<Remark>& beside) {
    return list == List::keep && incidents.empty() && do_not_use(list, incidents, beside);
}

Remark list_cell(List list, const std::vector<std::string>& incidents, const std::vector<Remark>& beside) {
    if (is_kept_in_doubt(list, incidents)) return words::do_not_use_in_doubt;
    if (is_kept_warned(list, incidents, beside)) return words::do_not_use_warned;
    switch (list) {
        case List::discard: return words::do_not_use_discard;
        case List::quarantine: return words::do_not_use_quarantine;
        case List::keep: break;
    }
    return words::keep;
}

Field in_doubt_cell(List list, const std::vector<std::string>& incidents) {
    if (!is_kept_in_doubt(list, incidents)) return "";
    return words::in_doubt_cell(words::names(incidents));
}

Remark side_words(Side side) { return side == Side::warm ? words::too_warm() : words::too_cold(); }

Remark step_words(IncidentStep step) {
    switch (step) {
        case IncidentStep::noticed: return words::step_noticed;
        case IncidentStep::supervisor_told: return words::step_supervisor_told;
        case IncidentStep::health_department_told: return words::step_health_department_told;
        case IncidentStep::manufacturer_told: return words::step_manufacturer_told;
        case IncidentStep::cause: return words::step_cause;
        case IncidentStep::action: return words::step_action;
        case IncidentStep::closed: break;
    }
    return words::step_closed;
}

Remark duty_words(DutyStep step) {
    const auto done_by = step_of(step);
    return done_by ? step_words(*done_by) : words::step_answer();
}

Remark recipient_words(Recipient to) {
    switch (to) {
        case Recipient::supervisor: return words::to_supervisor;
        case Recipient::health_department: return words::to_health_department;
        case Recipient::manufacturer: break;
    }
    return words::to_manufacturer;
}

Remark place_type_words(PlaceType type) {
    switch (type) {
        case PlaceType::refrigerator: return words::refrigerator;
        case PlaceType::freezer: return words::freezer;
        case PlaceType::ultra_cold_freezer: return words::ultra_cold_freezer;
        case PlaceType::transport_container: return words::transport_container;
        case PlaceType::room: break;
    }
    return words::room;
}

Remark class_words(Class c) {
    switch (c) {
        case Class::logged: return words::by_logger;
        case Class::bounded: return words::by_minimum_maximum;
        case Class::checked: return words::by_plain_checks;
        case Class::near: return words::near_reading;
        case Class::awaiting: return words::awaiting_data;
        case Class::unmonitored: break;
    }
    return words::not_known;
}

Remark finding_words(Finding finding) {
    switch (finding) {
        case Finding::expired: return words::finding_expired;
        case Finding::not_viable: return words::finding_not_viable;
        case Finding::pending_guidance: return words::finding_pending;
        case Finding::condemned_later: return words::finding_condemned_later;
        case Finding::cleared: return words::finding_cleared;
        case Finding::taken_back: return words::finding_taken_back;
        case Finding::given_later: return words::finding_given_later;
        case Finding::clear: break;
    }
    return words::finding_clear;
}

Remark standing_words(Standing standing) {
    switch (standing) {
        case Standing::none_yet: break;
        case Standing::decided: return words::standing_decided;
        case Standing::told: return words::standing_told;
        case Standing::no_answer: return words::standing_no_answer;
        case Standing::answered: return words::standing_answered;
        case Standing::repeated: return words::standing_repeated;
        case Standing::tested: return words::standing_tested;
        case Standing::not_needed: return words::standing_not_needed;
    }
    return words::none_yet;
}

Remark finding_name_words(Finding finding) {
    switch (finding) {
        case Finding::expired: return words::name_expired;
        case Finding::not_viable: return words::name_not_viable;
        case Finding::pending_guidance: return words::name_pending_guidance;
        case Finding::condemned_later: return words::name_condemned_later;
        case Finding::cleared: return words::name_cleared;
        case Finding::taken_back: return words::finding_taken_back;
        case Finding::given_later: return words::finding_given_later;
        case Finding::clear: break;
    }
    return words::name_clear;
}

Remark reason_words(Reason reason) {
    switch (reason) {
        case Reason::expired: return words::name_expired;
        case Reason::condemned: return words::name_condemned;
        case Reason::warm: return words::name_warm;
        case Reason::cold: return words::name_cold;
        case Reason::frozen: return words::name_frozen;
        case Reason::over_allowance: return words::name_over_allowance;
        case Reason::point: return words::name_point;
        case Reason::unmonitored: return words::name_unmonitored;
        case Reason::held: break;
    }
    return words::name_held;
}

Remark list_words(List list) {
    switch (list) {
        case List::discard: return words::name_discard;
        case List::quarantine: return words::name_quarantine;
        case List::keep: break;
    }
    return words::keep;
}

Remark verdict_words(Verdict verdict) {
    switch (verdict) {
        case Verdict::use: return words::name_use;
        case Verdict::use_by: return words::name_use_by;
        case Verdict::discard: break;
    }
    return words::name_discard;
}

Remark verdict_words(const Guidance& guidance) {
    return guidance.use_by ? words::use_by_on(guidance.use_by->text()) : verdict_words(guidance.verdict);
}

Remark use_limit_words(UseLimitKind kind) {
    switch (kind) {
        case UseLimitKind::expiry: return words::name_expiry;
        case UseLimitKind::beyond_use: return words::name_beyond_use;
        case UseLimitKind::guidance: return words::name_guidance;
        case UseLimitKind::handover: break;
    }
    return words::name_handover;
}

Field reasons_words(const std::vector<Reason>& reasons) {
    std::vector<Field> out;
    for (const Reason one : reasons) out.emplace_back(reason_words(one));
    return words::listed(out);
}

std::optional<Remark> out_of_range_words(const Exposure& exposure) {
    std::vector<Remark> out;
    for (const auto& side : {side_exposure(words::too_warm, exposure.warm),
                             side_exposure(words::too_cold, exposure.cold),
                             side_exposure(words::at_freeze_limit, exposure.frozen)})
        if (side) out.push_back(*side);
    if (exposure.points > 0) out.push_back(words::points_out(words::readings_or_checks(exposure.points)));
    return words::semicolons(out);
}

std::optional<Remark> between_checks_words(const Rational& seconds) {
    if (!any(seconds)) return std::nullopt;
    return words::nothing_between_checks(duration_words(seconds, true));
}

std::optional<Remark> coverage_words(const std::array<Rational, class_count>& seconds) {
    std::vector<Remark> out;
    for (int i = 0; i < class_count; ++i) {
        const Class c = static_cast<Class>(i);
        const bool known = c < Class::near;
        if (any(seconds[i])) out.push_back(words::for_time(class_words(c), duration_words(seconds[i], !known)));
    }
    return words::semicolons(out);
}

}  // namespace coldtally::answers::said
