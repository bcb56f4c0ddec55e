#include "answers/may_be_more.hpp"

namespace coldtally::answers {

namespace {

/// Does a band lie beyond the range on this side?
bool is_of_side(const Allowance& a, const Range& range, bool warm) {
    if (warm) return range.high && a.high.in(Scale::C) > range.high->in(Scale::C);
    return range.low && a.low.in(Scale::C) < range.low->in(Scale::C);
}

}  // namespace

std::optional<MayBeMore> may_be_more(const Exposure& total, const Product& product, bool warm) {
    const SideExposure& side = warm ? total.warm : total.cold;
    if (side.at_most <= side.estimate) return std::nullopt;
    MayBeMore out{&side, std::nullopt, Rational(0)};
    if (product.allowances)
        for (std::size_t i = 0; i < product.allowances->size(); ++i) {
            const Allowance& a = (*product.allowances)[i];
            const Rational seconds(a.seconds.seconds());
            if (is_of_side(a, product.range, warm) && (!out.allowance || seconds < out.allowed)) {
                out.allowance = i;
                out.allowed = seconds;
            }
        }
    // without an allowance any time by the estimate is a reason of the list's own
    if (out.allowance ? side.at_most > out.allowed : side.estimate.sign() == 0) return out;
    return std::nullopt;
}

bool may_have_frozen(const Exposure& total) {
    return total.frozen.estimate.sign() == 0 && total.frozen.at_most.sign() > 0;
}

}  // namespace coldtally::answers
