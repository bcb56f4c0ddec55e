#include "stock/may_be_more.hpp"

namespace coldtally::answers {

namespace {

/// Does a band lie beyond the range on this side?
bool is_of_side(const Allowance& a, const Range& range, bool warm) {
    if (warm) return range.high && a.high.in(Scale::C) > range.high->in(Scale::C);
    return range.low && a.low.in(Scale::C) < range.low->in(Scale::C);
}

std::optional<MayBeMore> of_side(const History& h, const Product& product, bool warm) {
    const SideExposure &side = warm ? h.total.warm : h.total.cold, &other = warm ? h.total.cold : h.total.warm;
    std::optional<MayBeMore> strictest;
    bool any = false;
    const std::size_t bands = product.allowances ? product.allowances->size() : 0;
    for (std::size_t i = 0; i < bands; ++i) {
        const Allowance& a = (*product.allowances)[i];
        if (!is_of_side(a, product.range, warm)) continue;
        any = true;
        const bool both = is_of_side(a, product.range, !warm);
        MayBeMore one{warm || both, !warm || both, side.at_most, side.estimate, i, Rational(a.seconds.seconds())};
        if (both) one.at_most += other.at_most, one.estimate += other.estimate;
        if (one.at_most > one.estimate && one.at_most > one.allowed &&
            (!strictest || one.allowed < strictest->allowed))
            strictest = one;
    }
    if (any) return strictest;
    if (side.at_most <= side.estimate || (warm ? h.open.warm : h.open.cold).sign() > 0) return std::nullopt;
    return MayBeMore{warm, !warm, side.at_most, side.estimate, std::nullopt, Rational(0)};
}

}  // namespace

std::vector<MayBeMore> may_be_more(const History& h, const Product& product) {
    std::vector<MayBeMore> out;
    const Exposure& e = h.total;
    if (e.warm.at_most == e.warm.estimate && e.cold.at_most == e.cold.estimate) return out;  // of most doses
    for (const bool warm : {true, false}) {
        auto one = of_side(h, product, warm);
        if (one && (out.empty() || out.front().allowance != one->allowance || !one->allowance))
            out.push_back(std::move(*one));
    }
    return out;
}

std::vector<std::string> more_words(const History& h, const Product& product) {
    std::vector<std::string> out;
    for (const MayBeMore& more : may_be_more(h, product)) {
        const std::string figures =
            std::string(more.warm ? more.cold ? "too warm or too cold" : "too warm" : "too cold") + " for at most " +
            duration_words(more.at_most, true) + " by the values around it, " +
            (more.estimate.sign() > 0 ? duration_words(more.estimate, true) : std::string("none")) +
            " by the estimate, which alone decides the list";
        if (!more.allowance)
            out.push_back("MAY HAVE BEEN OUT OF RANGE: " + figures);
        else
            out.push_back("MAY BE OVER ITS ALLOWANCE: " + figures + "; allowance " +
                          std::to_string(*more.allowance + 1) + " permits " + duration_words(more.allowed, false));
    }
    if (may_have_frozen(h))
        out.push_back("MAY HAVE FROZEN: at or below the freeze limit for at most " +
                      duration_words(h.total.frozen.at_most, true) +
                      " by the values around it, which no list counts");
    return out;
}

bool may_have_frozen(const History& h) {
    return h.open.frozen.sign() == 0 && h.total.frozen.at_most > h.total.frozen.estimate;
}

}  // namespace coldtally::answers
