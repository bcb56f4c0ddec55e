#include "stock/may_be_more.hpp"

#include "words/general.hpp"
#include "words/stock.hpp"

namespace coldtally::answers {

std::optional<Remark> unknown_let_pass(const History& h, Duration limit) {
    if (h.open.unmonitored <= Rational(much_unknown.seconds()) || h.open.unmonitored > Rational(limit.seconds()))
        return std::nullopt;
    return words::unknown_let_pass(duration_words(h.open.unmonitored, true),
                                   duration_words(Rational(limit.seconds()), false));
}

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

std::vector<Remark> more_words(const History& h, const Product& product) {
    std::vector<Remark> out;
    for (const MayBeMore& more : may_be_more(h, product)) {
        const Remark side = more.warm && more.cold ? words::either(words::too_warm(), words::too_cold())
                            : more.warm            ? words::too_warm()
                                                   : words::too_cold();
        const std::string at_most = duration_words(more.at_most, true);
        const Field estimate =
            more.estimate.sign() > 0 ? Field(duration_words(more.estimate, true)) : Field(words::none());
        out.push_back(more.allowance
                          ? words::may_be_over_allowance(side, at_most, estimate, *more.allowance + 1,
                                                         duration_words(more.allowed, false))
                          : words::may_have_been_out(side, at_most, estimate));
    }
    if (may_have_frozen(h)) out.push_back(words::may_have_frozen(duration_words(h.total.frozen.at_most, true)));
    return out;
}

bool may_have_frozen(const History& h) {
    return h.open.frozen.sign() == 0 && h.total.frozen.at_most > h.total.frozen.estimate;
}

}  // namespace coldtally::answers
