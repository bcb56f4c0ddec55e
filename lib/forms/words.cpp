#include "forms/words.hpp"

#include <algorithm>

#include "conditions/incident_spans.hpp"
#include "stock/last_use.hpp"
#include "words/history.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"
#include "words/rules.hpp"
#include "words/tables.hpp"

namespace coldtally {

const char* const caution = words::caution.phrase.english;
const char* const review_caution = words::caution_review.phrase.english;

namespace {

// A history handed over by another site may state any number; one beyond these is said to be beyond it.
constexpr std::int64_t hottest_said = 1'000'000;

std::string tenths_text(std::int64_t tenths) {
    const std::int64_t size = tenths < 0 ? -tenths : tenths;
    return (tenths < 0 ? "-" : "") + std::to_string(size / 10) + "." + std::to_string(size % 10);
}

}  // namespace

Field temperature_words(const Rational& celsius, Scale scale, Rounding rounding) {
    const std::string unit = std::string(" °") + scale_letter(scale);
    const Rational degrees = scale == Scale::F ? celsius * Rational(9, 5) + Rational(32) : celsius;
    if (degrees > Rational(hottest_said)) return words::above(std::to_string(hottest_said) + unit);
    if (degrees < Rational(-hottest_said)) return words::below("-" + std::to_string(hottest_said) + unit);

    const Rational tenths = degrees * Rational(10);
    switch (rounding) {
        case Rounding::up: return tenths_text(tenths.ceil()) + unit;
        case Rounding::down: return tenths_text(tenths.floor()) + unit;
        case Rounding::nearest: break;
    }
    const Rational half(1, 2);
    return tenths_text(tenths.sign() < 0 ? (tenths - half).ceil() : (tenths + half).floor()) + unit;
}

namespace forms {

namespace {

bool any(const Rational& seconds) { return seconds.sign() != 0; }

Rational at_or_zero(const std::vector<Rational>& values, std::size_t i) {
    return i < values.size() ? values[i] : Rational();
}

Remark expired(const ReasonContext& context) {
    std::vector<Remark> out;
    if (context.expiry && context.at >= context.zone.end_of_day(*context.expiry))
        out.push_back(words::past_expiry_on(context.expiry->text()));
    if (context.history.use_by && context.at >= *context.history.use_by)
        out.push_back(words::past_use_by(answers::last_day_text(*context.history.use_by, context.zone)));
    return words::semicolons(out).value_or(words::past_expiry());
}

Remark over_allowance(const ReasonContext& context) {
    std::vector<Remark> out;
    for (std::size_t i = 0; i < context.allowance_seconds.size(); ++i) {
        const Duration permitted = context.allowance_seconds[i];
        const Rational used = at_or_zero(context.history.total.allowances, i);
        if (used > Rational(permitted.seconds()) && any(at_or_zero(context.history.open.allowances, i)))
            out.push_back(words::reason_over_allowance(
                words::allowance_named(i + 1, duration_words(Rational(permitted.seconds()), false)),
                duration_words(used, true)));
    }
    return words::semicolons(out).value_or(words::some_allowance_used_up());
}

/// With the entries that say so, where they are known: of doses that another site sent they may not be.
Remark by_entries(const words::Says<1>& says, const words::Says<0>& unnamed, const std::set<EntryNumber>& entries) {
    return entries.empty() ? unnamed() : says(words::entries_of(entries));
}

Remark why(Reason reason, const ReasonContext& context) {
    const OpenExposure& open = context.history.open;
    const auto time = [](const Rational& seconds) { return duration_words(seconds, true); };
    switch (reason) {
        case Reason::expired: return expired(context);
        case Reason::condemned:
            return by_entries(words::reason_condemned, words::because_condemned, context.history.condemned_by);
        case Reason::warm: return words::reason_warm(time(open.beyond_warm));
        case Reason::cold: return words::reason_cold(time(open.beyond_cold));
        case Reason::frozen: return words::reason_frozen(time(open.frozen));
        case Reason::over_allowance: return over_allowance(context);
        case Reason::point: return words::reason_point(words::readings_or_checks(open.points));
        case Reason::unmonitored: return words::reason_unmonitored(time(open.unmonitored));
        case Reason::held: break;
    }
    return by_entries(words::reason_held, words::reason_held_unnamed, context.history.held_by);
}

}  // namespace

Field step_text_words(const std::string& text, const Zone& zone) {
    const auto since = answers::out_since_of(text);
    if (!since) return text;
    const auto rest = text.find(": ");  // after the instant
    return words::out_since_text(zone.local_text(*since), rest == text.npos ? std::string() : text.substr(rest + 2));
}

std::vector<Remark> reason_lines(const std::vector<Reason>& reasons, const ReasonContext& context) {
    std::vector<Remark> lines;
    for (const Reason reason : reasons) lines.push_back(words::colon(reason_words(reason), why(reason, context)));
    return lines;
}

namespace {

/// Out of range as a whole, and how sure that is.
Remark out_of_range_line(const Exposure& total) {
    const auto seconds = [&](Class c) { return total.seconds[static_cast<std::size_t>(c)]; };
    const bool unknown = any(seconds(Class::unmonitored)) || any(seconds(Class::awaiting)) || any(seconds(Class::near));
    const auto outside = out_of_range_words(total), between = between_checks_words(total.seconds);
    // "none seen" would sound like an answer
    if (!outside && unknown && !total.lowest_C) return words::out_of_range_is(words::no_record());
    std::vector<Remark> out{outside ? *outside : between ? words::none_seen_by_logger_or_check() : words::none_seen()};
    if (between) out.push_back(*between);
    if (unknown) out.push_back(words::not_every_hour());
    return words::out_of_range_is(*words::semicolons(out));
}

/// What came after guidance that cleared the rest: it does not undo exposure, and the sum stays.
std::optional<Remark> since_guidance(const History& history) {
    const Exposure& total = history.total;
    const Rational sum = total.warm.estimate + total.cold.estimate;
    const Rational since = history.open.warm + history.open.cold;
    if (sum == since && total.points == history.open.points &&
        total.seconds[static_cast<std::size_t>(Class::unmonitored)] == history.open.unmonitored)
        return std::nullopt;
    std::vector<Remark> after;
    if (any(since)) after.push_back(words::out_of_range_for(duration_words(since, true)));
    if (history.open.points > 0)
        after.push_back(words::things_out_of_range(words::readings_or_checks(history.open.points)));
    if (any(history.open.unmonitored))
        after.push_back(words::not_known_for(duration_words(history.open.unmonitored, true)));
    const auto all = words::semicolons(after);
    return all ? words::since_guidance(*all) : words::all_before_guidance();
}

}  // namespace

std::vector<Remark> history_lines(const History& history, const std::vector<Duration>& allowance_seconds,
                                  const Zone& zone, Scale scale) {
    const Exposure& total = history.total;
    std::vector<Remark> lines{out_of_range_line(total)};
    if (const auto since = since_guidance(history)) lines.push_back(*since);
    const auto rests = coverage_words(total.seconds);
    lines.push_back(words::known_how(rests ? *rests : words::no_time_passed()));

    // what may be used beside the estimate
    const Rational unsure =
        total.warm.at_most - total.warm.estimate + total.cold.at_most - total.cold.estimate;
    for (std::size_t i = 0; i < allowance_seconds.size(); ++i) {
        const Rational permitted(allowance_seconds[i].seconds());
        const Rational used = at_or_zero(total.allowances, i), left = permitted - used;
        const bool perhaps_none = used.sign() > 0 && left.sign() > 0 && unsure >= left;
        lines.push_back((perhaps_none ? words::allowance_line_unsure : words::allowance_line)(
            i + 1, duration_words(permitted, false), duration_words(used, true),
            left.sign() > 0 ? Field(duration_words(left, false)) : Field(words::nothing())));
    }
    if (total.lowest_C && total.highest_C)
        lines.push_back(words::lowest_highest(temperature_words(*total.lowest_C, scale, Rounding::down),
                                              temperature_words(*total.highest_C, scale, Rounding::up)));
    else
        lines.push_back(words::no_temperature());
    if (history.use_by) lines.push_back(words::use_by_is(answers::usable_words(*history.use_by, zone)));
    return lines;
}

}  // namespace forms
}  // namespace coldtally
