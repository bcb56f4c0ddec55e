#include "forms/in_short.hpp"

#include <algorithm>
#include <array>

#include "words/conditions.hpp"
#include "words/history.hpp"
#include "words/in_short.hpp"
#include "words/incidents.hpp"
#include "words/review.hpp"
#include "words/stock.hpp"

namespace coldtally::forms {

std::span<const ShortForm> short_forms() {
    static const std::vector<ShortForm> all{
        {words::learnt_after_guidance, words::short_learnt_after_guidance, {0}},
        {words::display_showed, words::short_display_showed, {0, 1, 2}},
        {words::handover_restated, words::short_handover_restated, {}},
        {words::incident_settled, words::short_incident_settled, {0}},
        {words::may_have_been_out, words::short_may_have_been_out, {0, 1}},
        {words::may_be_over_allowance, words::short_may_be_over_allowance, {0, 1, 4}},
        {words::may_have_frozen, words::short_may_have_frozen, {0}},
        {words::unknown_let_pass, words::short_unknown_let_pass, {0}},
        {words::out_when_last_read, words::short_out_when_last_read, {0, 1}},
        {words::counts_against_allowance, words::short_counts_against_allowance, {0, 5, 6}},
        {words::counts_against_thawed, words::short_counts_against_allowance, {0, 5, 6}},
        {words::does_not_suit, words::short_does_not_suit, {2, 3, 0}},
        {words::condemned_elsewhere, words::short_condemned_elsewhere, {}},
        {words::way_in_no_figure, words::short_way_in_no_figure, {1}},
        {words::readings_not_come, words::short_readings_not_come, {1}},
        {words::release_lapsed, words::short_release_lapsed, {0}},
        {words::given_in_doubt, words::in_doubt_one, {0}},
        {words::given_in_doubt_covered, words::short_given_in_doubt_covered, {0}},
        {words::given_in_doubt_closed, words::short_given_in_doubt_closed, {0}},
        {words::in_doubt_unlisted, words::short_in_doubt_unlisted, {0, 1}},
        {words::in_doubt_closed_unlisted, words::short_in_doubt_closed_unlisted, {0, 1}},
        {words::not_sure_unlisted, words::short_not_sure_unlisted, {0}},
        {words::unknown_given_unlisted, words::short_unknown_given_unlisted, {0}},
        {words::not_come_unlisted, words::short_not_come_unlisted, {0}},
        {words::learnt_later_unlisted, words::short_learnt_later_unlisted, {0}},
        {words::display_more_unlisted, words::short_display_more_unlisted, {0}},
        {words::doses_given, words::doses_were_given, {0}},
    };
    return all;
}

Remark shorter(const Remark& remark) {
    if (remark.is(words::near_says_nothing) && !remark.fields.front().remark.empty())
        return shorter(remark.fields.front().remark.front());
    const auto form =
        std::ranges::find_if(short_forms(), [&](const ShortForm& one) { return remark.is(one.of); });
    if (form == short_forms().end()) return remark;
    Remark out{&form->says, {}};
    for (const std::size_t i : form->fields) {
        out.fields.push_back(remark.fields.at(i));
        for (auto& inside : out.fields.back().remark) inside = shorter(inside);
    }
    return out;
}

namespace {

Remark reason_in_short(Reason reason) {
    switch (reason) {
        case Reason::condemned: return words::by_guidance;
        case Reason::expired: return words::name_expired;
        case Reason::frozen: return words::name_frozen;
        case Reason::warm: return words::too_warm;
        case Reason::cold: return words::too_cold;
        case Reason::over_allowance: return words::allowance_used_up;
        case Reason::point: return words::differs_out_of_range;
        case Reason::unmonitored: return words::name_unmonitored;
        case Reason::held: break;
    }
    return words::reason_held_unnamed;
}

}  // namespace

std::optional<Remark> gravest_words(const std::vector<Reason>& reasons) {
    // which is graver is a choice of ours: what an answer or a date forbids, what cannot be undone, the rest as listed
    for (const Reason one : {Reason::condemned, Reason::expired, Reason::frozen, Reason::warm, Reason::cold,
                             Reason::over_allowance, Reason::point, Reason::unmonitored, Reason::held})
        if (std::ranges::find(reasons, one) != reasons.end()) return reason_in_short(one);
    return std::nullopt;
}

}  // namespace coldtally::forms
