#include "stock/how_far.hpp"

#include "words/general.hpp"
#include "words/stock.hpp"

namespace coldtally::answers {

namespace {

using Extreme = std::optional<Rational>;

const Extreme& extreme(const Exposure& e, bool warm) { return warm ? e.highest_C : e.lowest_C; }

bool is_beyond(const Extreme& a, const Extreme& b, bool warm) { return a && (!b || (warm ? *a > *b : *a < *b)); }

/// By both of a limit's scales; by one of them, where readings in that scale were out of range.
bool is_out(const Range& range, const Exposure& e, bool warm) {
    const Extreme& celsius = extreme(e, warm);
    const auto& limit = warm ? range.high : range.low;
    if (!celsius || !limit) return false;
    const auto beyond = [&](const Rational& degrees, Scale scale) {
        return warm ? degrees > limit->in(scale) : degrees < limit->in(scale);
    };
    const bool by_C = beyond(*celsius, Scale::C), by_F = beyond(*celsius * Rational(9, 5) + Rational(32), Scale::F);
    return (by_C && by_F) || ((by_C || by_F) && (warm ? e.warm : e.cold).at_most.sign() > 0);
}

std::string degrees(const Rational& celsius, bool warm, int decimals) {
    std::int64_t parts = 1, thousandths = 1000;
    for (int i = 0; i < decimals; ++i) parts *= 10, thousandths /= 10;
    const auto text = [&](const Rational& degrees, Scale scale) {
        const Rational all = degrees * Rational(parts);
        const std::int64_t n = warm ? all.ceil() : all.floor();
        return Temperature(scale, static_cast<std::int32_t>(n * thousandths)).text() + " °" + scale_letter(scale);
    };
    return text(celsius, Scale::C) + " (" + text(celsius * Rational(9, 5) + Rational(32), Scale::F) + ")";
}

/// Finer where two that differ would read alike.
Field degrees_or_none(const Extreme& celsius, const Extreme& other, bool warm) {
    if (!celsius) return words::value_not_known();
    const bool alike = other && degrees(*celsius, warm, 1) == degrees(*other, warm, 1);
    return degrees(*celsius, warm, alike ? 3 : 1);
}

Remark change(const Exposure& was, const Exposure& is, bool warm) {
    const Extreme &before = extreme(was, warm), &now = extreme(is, warm);
    return (warm ? words::highest_becomes : words::lowest_becomes)(degrees_or_none(before, now, warm),
                                                                   degrees_or_none(now, before, warm));
}

}  // namespace

std::string degrees_words(const Rational& celsius, bool warm) { return degrees(celsius, warm, 1); }

bool goes_further(const Range& range, const Exposure& was, const Exposure& is, bool warm) {
    return is_out(range, is, warm) && is_beyond(extreme(is, warm), extreme(was, warm), warm);
}

std::vector<Remark> further_out(const Range& range, const Exposure& was, const Exposure& is) {
    std::vector<Remark> out;
    for (const bool warm : {true, false})
        if (goes_further(range, was, is, warm)) out.push_back(change(was, is, warm));
    return out;
}

std::vector<Remark> less_far_out(const Range& range, const Exposure& was, const Exposure& is) {
    std::vector<Remark> out;
    for (const bool warm : {true, false})
        if (goes_further(range, is, was, warm)) out.push_back(change(was, is, warm));
    return out;
}

bool goes_beyond(const Exposure& whole, const Exposure& part) {
    const auto side = [&](const SideExposure& s, bool warm) {
        return (s.at_most.sign() > 0 || part.points > 0) &&
               is_beyond(extreme(part, warm), extreme(whole, warm), warm);
    };
    return side(part.warm, true) || side(part.cold, false);
}

}  // namespace coldtally::answers
