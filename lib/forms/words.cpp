#include "forms/words.hpp"

#include <algorithm>

#include "stock/last_use.hpp"

namespace coldtally {

const char* const caution =
    "This supports and does not replace the manufacturer's and the health department's guidance, local rules and "
    "licensed "
    "judgement. Exposure alone never decides discard or revaccination.";

const char* const review_caution =
    "A dose listed here is not thereby invalid, and one not listed is not thereby valid: a clinician decides, with the "
    "health "
    "department.";

namespace {

// A history handed over by another site may state any number; one beyond these is said to be beyond it.
constexpr std::int64_t hottest_said = 1'000'000;

std::string tenths_text(std::int64_t tenths) {
    const std::int64_t size = tenths < 0 ? -tenths : tenths;
    return (tenths < 0 ? "-" : "") + std::to_string(size / 10) + "." + std::to_string(size % 10);
}

}  // namespace

std::string temperature_words(const Rational& celsius, Scale scale, Rounding rounding) {
    const std::string unit = std::string(" °") + scale_letter(scale);
    const Rational degrees = scale == Scale::F ? celsius * Rational(9, 5) + Rational(32) : celsius;
    if (degrees > Rational(hottest_said)) return "above " + std::to_string(hottest_said) + unit;
    if (degrees < Rational(-hottest_said)) return "below -" + std::to_string(hottest_said) + unit;

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

const char* const may_hide =
    "Only what has been recorded shows here: time between checks and without data may hide excursions.";
const char* const stock_caution = "On hand does not mean fit for use: the lists say what must not be used.";
const char* const scan_caution = "A code tells the box as the maker labelled it, not what was done with it.";
const char* const mean_caution = "A mean hides excursions and excuses none.";
const char* const dates_caution =
    "Use in the order given: what ends first goes first, and of equal dates what has been out of range longer. A "
    "last day is used to its end; where a time stands, not from that time on.";

namespace {

bool any(const Rational& seconds) { return seconds.sign() != 0; }

Rational at_or_zero(const std::vector<Rational>& values, std::size_t i) {
    return i < values.size() ? values[i] : Rational();
}

std::string allowance_name(std::size_t i, Duration seconds) {
    return "allowance " + std::to_string(i + 1) + " (" + duration_words(Rational(seconds.seconds()), false) + ")";
}

template <typename Numbers>
std::string entries_words(const Numbers& numbers) {
    std::string out = numbers.size() == 1 ? "entry" : "entries";
    const char* before = " ";
    for (const auto number : numbers) {
        out += before + std::to_string(number);
        before = ", ";
    }
    return out;
}

std::string points_words(std::int64_t count) {
    return std::to_string(count) + (count == 1 ? " reading or check" : " readings or checks");
}

std::string side_exposure_words(std::string_view what, const SideExposure& side) {
    if (!any(side.at_most)) return "";
    // The readings say no, but within the probe's tolerance, or between two of them, it may have been.
    if (!any(side.estimate)) return "perhaps " + std::string(what) + ", at most " + duration_words(side.at_most, true);
    const std::string out = std::string(what) + " " + duration_words(side.estimate, true);
    if (side.at_least == side.at_most) return out;
    return out + " (at least " + duration_words(side.at_least, false) + ", at most " +
           duration_words(side.at_most, true) + ")";
}

void append(std::string& out, std::string_view separator, std::string_view more) {
    if (more.empty()) return;
    if (!out.empty()) out += separator;
    out += more;
}

std::string expired_words(const ReasonContext& context) {
    std::string out;
    if (context.expiry && context.at >= context.zone.end_of_day(*context.expiry))
        out = "past the lot's expiry, " + context.expiry->text();
    if (context.history.use_by && context.at >= *context.history.use_by)
        append(out, "; ", "past its use-by, " + answers::last_day_words(*context.history.use_by, context.zone));
    return out.empty() ? "past the lot's expiry" : out;
}

std::string over_allowance_words(const ReasonContext& context) {
    std::string out;
    for (std::size_t i = 0; i < context.allowance_seconds.size(); ++i) {
        const Rational used = at_or_zero(context.history.total.allowances, i);
        if (used > Rational(context.allowance_seconds[i].seconds()) &&
            any(at_or_zero(context.history.open.allowances, i)))
            append(out, "; ",
                   allowance_name(i, context.allowance_seconds[i]) + " is used up: " + duration_words(used, true) +
                       " used");
    }
    return out.empty() ? "an allowance is used up" : out;
}

std::string one_reason(const std::string& reason, const ReasonContext& context) {
    const OpenExposure& open = context.history.open;
    if (reason == "expired") return expired_words(context);
    if (reason == "condemned") return "guidance says discard (" + entries_words(context.history.condemned_by) + ")";
    if (reason == "warm") return "too warm for " + duration_words(open.beyond_warm, true) + " that no allowance covers";
    if (reason == "cold") return "too cold for " + duration_words(open.beyond_cold, true) + " that no allowance covers";
    if (reason == "frozen") return "at or below the freeze limit for " + duration_words(open.frozen, true);
    if (reason == "over-allowance") return over_allowance_words(context);
    if (reason == "point")
        return points_words(open.points) + " out of range that no allowance covers, or at the freeze limit";
    if (reason == "unmonitored") return "the temperature is not known for " + duration_words(open.unmonitored, true);
    if (reason == "held") return "held back (" + entries_words(context.history.held_by) + ")";
    return "";
}

}  // namespace

std::string doses_words(std::int64_t count) { return counted(count, "dose"); }

std::string counted(std::int64_t count, std::string_view word) {
    return std::to_string(count) + " " + std::string(word) + (count == 1 ? "" : "s");
}

std::string_view list_heading(List list) noexcept {
    switch (list) {
        case List::discard: return "DO NOT USE - discard";
        case List::quarantine: return "DO NOT USE - quarantined, waiting for guidance";
        case List::keep: return "Nothing found against use; read the notes";
    }
    return "";
}

std::string in_doubt_words(const std::vector<std::string>& incidents) {
    if (incidents.empty()) return "";
    std::string out = incidents.size() == 1 ? "IN DOUBT: incident" : "IN DOUBT: incidents";
    for (std::size_t i = 0; i < incidents.size(); ++i) out += (i == 0 ? " " : ", ") + incidents[i];
    return out + (incidents.size() == 1 ? " is open" : " are open");
}

std::string and_in_doubt(List list, const std::vector<std::string>& incidents) {
    return is_kept_in_doubt(list, incidents) ? "; " + in_doubt_words(incidents) : "";
}

bool is_kept_in_doubt(List list, const std::vector<std::string>& incidents) noexcept {
    return list == List::keep && !incidents.empty();
}

std::string_view list_cell(List list, const std::vector<std::string>& incidents) noexcept {
    if (is_kept_in_doubt(list, incidents)) return "DO NOT USE (in doubt)";
    switch (list) {
        case List::discard: return "DO NOT USE (discard)";
        case List::quarantine: return "DO NOT USE (quarantine)";
        case List::keep: return "keep";
    }
    return "";
}

std::string in_doubt_cell(List list, const std::vector<std::string>& incidents) {
    if (!is_kept_in_doubt(list, incidents)) return "";
    std::string out = "IN DOUBT: ";
    for (std::size_t i = 0; i < incidents.size(); ++i) out += (i == 0 ? "" : ", ") + incidents[i];
    return out;
}

std::string_view side_words(Side side) noexcept { return side == Side::warm ? "too warm" : "too cold"; }

std::string_view class_words(Class c) noexcept {
    switch (c) {
        case Class::logged: return "measured by a logger";
        case Class::bounded: return "between min and max only";
        case Class::checked: return "between plain checks, nothing known between them";
        case Class::near: return "near a reading in range, the temperature itself not known";
        case Class::awaiting: return "AWAITING DATA";
        case Class::unmonitored: return "NOT KNOWN";
    }
    return "";
}

std::string finding_words(std::string_view finding) {
    if (finding == "expired") return "given past expiry or use-by";
    if (finding == "not viable") return "NOT VIABLE by guidance";
    if (finding == "condemned later") return "CONDEMNED LATER, nothing found when given";
    if (finding == "pending guidance") return "waiting for guidance";
    if (finding == "cleared") return "cleared by guidance";
    if (finding == "clear") return "nothing found";
    return std::string(finding);
}

std::vector<std::string> reason_lines(const std::vector<std::string>& reasons, const ReasonContext& context) {
    std::vector<std::string> lines;
    for (const auto& reason : reasons) {
        const std::string words = one_reason(reason, context);
        lines.push_back(words.empty() ? reason : reason + ": " + words);
    }
    return lines;
}

std::string out_of_range_words(const Exposure& exposure) {
    std::string out = side_exposure_words("too warm", exposure.warm);
    append(out, "; ", side_exposure_words("too cold", exposure.cold));
    append(out, "; ", side_exposure_words("at or below the freeze limit", exposure.frozen));
    if (exposure.points > 0)
        append(out, "; ", points_words(exposure.points) + " out of range or at the freeze limit");
    return out;
}

std::string between_checks_words(const Rational& seconds) {
    return any(seconds) ? "nothing is known between plain checks, " + duration_words(seconds, true) + " in all" : "";
}

std::string coverage_words(const std::array<Rational, class_count>& seconds) {
    std::string out;
    for (int i = 0; i < class_count; ++i) {
        const Class c = static_cast<Class>(i);
        const bool known = c < Class::near;
        if (any(seconds[i])) append(out, "; ", std::string(class_words(c)) + " " + duration_words(seconds[i], !known));
    }
    return out;
}

std::vector<std::string> history_lines(const History& history, const std::vector<Duration>& allowance_seconds,
                                       const Zone& zone, Scale scale) {
    std::vector<std::string> lines;
    const Exposure& total = history.total;

    const std::string outside = out_of_range_words(total);
    const Rational& unmonitored = total.seconds[static_cast<int>(Class::unmonitored)];
    const Rational& awaiting = total.seconds[static_cast<int>(Class::awaiting)];
    const bool unknown = any(unmonitored) || any(awaiting) || any(total.seconds[static_cast<int>(Class::near)]);
    const std::string between = between_checks_words(total.seconds);
    if (outside.empty() && unknown && !total.lowest_C)
        lines.push_back("Out of range: not known, there is no record");  // "none seen" would sound like an answer
    else
        lines.push_back("Out of range: " +
                        (!outside.empty()  ? outside
                         : between.empty() ? "none seen"
                                           : "none seen by logger or check") +
                        (between.empty() ? "" : "; " + between) + (unknown ? "; not every hour is known" : ""));

    // Guidance does not undo exposure: the sum stays, and what came after is told apart.
    const Rational sum = total.warm.estimate + total.cold.estimate;
    const Rational since = history.open.warm + history.open.cold;
    if (sum != since || total.points != history.open.points || unmonitored != history.open.unmonitored) {
        std::string after;
        if (any(since)) append(after, "; ", "out of range " + duration_words(since, true));
        if (history.open.points > 0) append(after, "; ", points_words(history.open.points) + " out of range");
        if (any(history.open.unmonitored))
            append(after, "; ", "not known " + duration_words(history.open.unmonitored, true));
        lines.push_back(after.empty() ? std::string("All of this was before guidance that cleared it")
                                      : "Since guidance cleared it: " + after);
    }

    const std::string rests = coverage_words(total.seconds);
    lines.push_back("Known how: " + (rests.empty() ? "no time has passed in this ledger" : rests));

    // what may be used beside the estimate
    const Rational unsure =
        total.warm.at_most - total.warm.estimate + total.cold.at_most - total.cold.estimate;
    for (std::size_t i = 0; i < allowance_seconds.size(); ++i) {
        const Rational used = at_or_zero(total.allowances, i);
        const Rational left = Rational(allowance_seconds[i].seconds()) - used;
        lines.push_back("Allowance " + std::to_string(i + 1) + " of " +
                        duration_words(Rational(allowance_seconds[i].seconds()), false) + ": " +
                        duration_words(used, true) + " used, " +
                        (left.sign() > 0 ? duration_words(left, false) : std::string("nothing")) + " left" +
                        (used.sign() > 0 && left.sign() > 0 && unsure >= left
                             ? " by the estimate, PERHAPS NOTHING by the values around it"
                             : ""));
    }
    if (total.lowest_C && total.highest_C)
        lines.push_back("Lowest " + temperature_words(*total.lowest_C, scale, Rounding::down) + ", highest " +
                        temperature_words(*total.highest_C, scale, Rounding::up));
    else
        lines.push_back("Lowest and highest: no temperature known");
    if (history.use_by) lines.push_back("Use-by: " + answers::usable_words(*history.use_by, zone));
    return lines;
}

}  // namespace forms
}  // namespace coldtally
