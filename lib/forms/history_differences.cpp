#include "forms/history_differences.hpp"

#include <algorithm>

#include "forms/words.hpp"
#include "stock/last_use.hpp"

namespace coldtally::forms {

namespace {

std::string since_guidance(const OpenExposure& open) {
    std::string out;
    const auto add = [&](const Rational& seconds, const char* what) {
        if (seconds.sign() > 0) out += (out.empty() ? "" : "; ") + (what + (" " + duration_words(seconds, true)));
    };
    add(open.warm + open.cold, "out of range");
    add(open.frozen, "at or below the freeze limit");
    add(open.unmonitored, "not known");
    if (open.points > 0) out += (out.empty() ? "" : "; ") + counted(open.points, "reading") + " out of range";
    return out;
}

std::string extremes(const Exposure& e, Scale scale) {
    if (!e.lowest_C || !e.highest_C) return "";
    return temperature_words(*e.lowest_C, scale, Rounding::down) + " to " +
           temperature_words(*e.highest_C, scale, Rounding::up);
}

template <class Set>
std::string numbers(const Set& entries) {
    std::string out;
    for (const auto n : entries)
        out += (out.empty() ? (entries.size() == 1 ? "entry " : "entries ") : ", ") + std::to_string(n);
    return out;
}

std::string places(const std::set<std::string>& all) {
    std::string out;
    for (const auto& one : all) out += (out.empty() ? "" : ", ") + one;
    return out;
}

}  // namespace

std::vector<std::string> history_differences(const History& before, const History& after, const Zone& zone,
                                             Scale scale) {
    std::vector<std::string> out;
    const auto compare = [&](const std::string& what, const std::string& was, const std::string& is) {
        if (was == is) return;
        out.push_back(what + ": " + (was.empty() ? "nothing" : was) + " -> " + (is.empty() ? "nothing" : is));
    };
    compare("out of range", out_of_range_words(before.total), out_of_range_words(after.total));
    const auto& a = before.total.allowances;
    const auto& b = after.total.allowances;
    for (std::size_t i = 0; i < std::max(a.size(), b.size()); ++i) {
        const auto used = [&](const auto& all) {
            return i < all.size() && all[i].sign() > 0 ? duration_words(all[i], true) + " used" : std::string();
        };
        compare("allowance " + std::to_string(i + 1), used(a), used(b));
    }
    compare("not cleared by guidance", since_guidance(before.open), since_guidance(after.open));
    compare("known how", coverage_words(before.total.seconds), coverage_words(after.total.seconds));
    compare("lowest to highest", extremes(before.total, scale), extremes(after.total, scale));
    compare("held by", numbers(before.held_by), numbers(after.held_by));
    compare("condemned by", numbers(before.condemned_by), numbers(after.condemned_by));
    const auto use_by = [&](const History& h) {
        return h.use_by ? answers::usable_words(*h.use_by, zone) : std::string();
    };
    compare("usable by what they have been through", use_by(before), use_by(after));
    compare("places", places(before.places), places(after.places));
    if (out.empty() && !(before == after))
        out.emplace_back("what they have been through, by less than the figures here show");
    return out;
}

}  // namespace coldtally::forms
