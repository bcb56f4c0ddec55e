#include "forms/history_differences.hpp"

#include <algorithm>
#include <optional>

#include "forms/words.hpp"
#include "stock/last_use.hpp"
#include "words/general.hpp"
#include "words/history.hpp"
#include "words/lists.hpp"

namespace coldtally::forms {

namespace {

using Said = std::optional<Remark>;

Said since_guidance(const OpenExposure& open) {
    const auto time = [](const Rational& seconds) { return duration_words(seconds, true); };
    const Rational out_of_range = open.warm + open.cold;
    std::vector<Remark> out;
    if (out_of_range.sign() > 0) out.push_back(words::out_of_range_for(time(out_of_range)));
    if (open.frozen.sign() > 0) out.push_back(words::for_time(words::at_freeze_limit(), time(open.frozen)));
    if (open.unmonitored.sign() > 0) out.push_back(words::not_known_for(time(open.unmonitored)));
    if (open.points > 0) out.push_back(words::things_out_of_range(words::readings(open.points)));
    return words::semicolons(out);
}

Said extremes(const Exposure& e, Scale scale) {
    if (!e.lowest_C || !e.highest_C) return std::nullopt;
    return words::from_to(temperature_words(*e.lowest_C, scale, Rounding::down),
                          temperature_words(*e.highest_C, scale, Rounding::up));
}

template <class Set>
Said numbers(const Set& entries) {
    return entries.empty() ? Said() : words::entries_of(entries);
}

/// One thing that differs; none where it is the same.
Said difference(const Remark& what, const std::optional<Field>& was, const std::optional<Field>& is) {
    if (was == is) return std::nullopt;
    const Field nothing = words::nothing();
    return words::colon(what, words::becomes(was.value_or(nothing), is.value_or(nothing)));
}

std::optional<Field> field(const Said& said) { return said ? std::optional<Field>(*said) : std::nullopt; }

std::optional<Field> places(const std::set<std::string>& all) {
    return all.empty() ? std::nullopt : std::optional<Field>(words::names(all));
}

}  // namespace

std::vector<Remark> history_differences(const History& before, const History& after, const Zone& zone, Scale scale) {
    std::vector<Remark> out;
    const auto add = [&](const Said& one) {
        if (one) out.push_back(*one);
    };
    const auto compare = [&](const Remark& what, const Said& was, const Said& is) {
        add(difference(what, field(was), field(is)));
    };
    compare(words::differs_out_of_range, out_of_range_words(before.total), out_of_range_words(after.total));
    const auto& a = before.total.allowances;
    const auto& b = after.total.allowances;
    for (std::size_t i = 0; i < std::max(a.size(), b.size()); ++i) {
        const auto used = [&](const auto& all) {
            return i < all.size() && all[i].sign() > 0 ? Said(words::time_used(duration_words(all[i], true))) : Said();
        };
        compare(words::allowance_numbered(i + 1), used(a), used(b));
    }
    compare(words::differs_not_cleared, since_guidance(before.open), since_guidance(after.open));
    compare(words::differs_known_how, coverage_words(before.total.seconds), coverage_words(after.total.seconds));
    compare(words::differs_extremes, extremes(before.total, scale), extremes(after.total, scale));
    compare(words::differs_held_by, numbers(before.held_by), numbers(after.held_by));
    compare(words::differs_condemned_by, numbers(before.condemned_by), numbers(after.condemned_by));
    const auto use_by = [&](const History& h) {
        return h.use_by ? Said(answers::usable_words(*h.use_by, zone)) : Said();
    };
    compare(words::differs_usable, use_by(before), use_by(after));
    add(difference(words::places, places(before.places), places(after.places)));
    if (out.empty() && !(before == after)) out.push_back(words::differs_by_less);
    return out;
}

}  // namespace coldtally::forms
