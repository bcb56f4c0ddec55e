#include "conditions/fit.hpp"

#include "words/conditions.hpp"
#include "words/general.hpp"

namespace coldtally::answers {

namespace {

/// In every scale that both state; where there is none, converted.
bool below(const Limit& a, const Limit& b) {
    bool common = false;
    if (a.C && b.C) {
        common = true;
        if (a.C->thousandths() < b.C->thousandths()) return true;
    }
    if (a.F && b.F) {
        common = true;
        if (a.F->thousandths() < b.F->thousandths()) return true;
    }
    return !common && a.in(Scale::C) < b.in(Scale::C);
}

bool inside(const Range& place, const std::optional<Limit>& low, const std::optional<Limit>& high) {
    if (low && (!place.low || below(*place.low, *low))) return false;
    if (high && (!place.high || below(*high, *place.high))) return false;
    return true;
}

Remark one_scale(const std::optional<Temperature>& low, const std::optional<Temperature>& high, Scale scale) {
    const std::string unit = std::string("°") + scale_letter(scale);
    if (low && high) return words::range_between(low->text(), high->text(), unit);
    if (low) return words::at_least(low->text() + " " + unit);
    return words::at_most(high->text() + " " + unit);
}

}  // namespace

FitResult fit(const Range& place, const Product& product) {
    if (inside(place, product.range.low, product.range.high)) return {Fit::suited, std::nullopt};
    if (product.allowances)
        for (std::size_t i = 0; i < product.allowances->size(); ++i)
            if (inside(place, (*product.allowances)[i].low, (*product.allowances)[i].high)) return {Fit::allowance, i};
    return {Fit::unsuited, std::nullopt};
}

bool is_in(const Range& range, Scale scale, std::int32_t thousandths) {
    const Rational degrees(thousandths, 1000);
    return (!range.low || degrees >= range.low->in(scale)) && (!range.high || degrees <= range.high->in(scale));
}

bool freezes(const Range& place, const Product& product) {
    if (!place.high || fit(place, product).fit != Fit::unsuited) return false;
    const Rational warmest = place.high->in(Scale::C);
    if (product.freeze_limit && warmest <= product.freeze_limit->in(Scale::C)) return true;
    return product.range.low && product.range.low->in(Scale::C) > Rational(0) && warmest <= Rational(0);
}

Field range_words(const Range& range) {
    const auto of = [](const std::optional<Limit>& limit, Scale scale) {
        return limit ? (scale == Scale::C ? limit->C : limit->F) : std::nullopt;
    };
    const auto low_C = of(range.low, Scale::C), high_C = of(range.high, Scale::C);
    const auto low_F = of(range.low, Scale::F), high_F = of(range.high, Scale::F);
    const bool C = low_C || high_C, F = low_F || high_F;
    if (C && F) return words::in_brackets(one_scale(low_C, high_C, Scale::C), one_scale(low_F, high_F, Scale::F));
    if (C) return one_scale(low_C, high_C, Scale::C);
    if (F) return one_scale(low_F, high_F, Scale::F);
    return {};
}

bool is_frozen(const Product& product) { return product.range.high && product.range.high->in(Scale::C) < Rational(0); }

}  // namespace coldtally::answers
