#include "exposure/limits.hpp"

#include <algorithm>

namespace coldtally::exposure {

Ticks ticks(const Limit& limit, Scale scale) {
    if (scale == Scale::C) return limit.C ? ticks(limit.C->thousandths()) : celsius_ticks(limit.F->thousandths());
    if (limit.F) return ticks(limit.F->thousandths());
    return Ticks{limit.C->thousandths()} * 81 + Ticks{32000} * ticks_per_thousandth;  // C * 9/5 + 32
}

Limits::Limits(const Range& range, const std::optional<Limit>& freeze_limit, const std::vector<Allowance>* allowances,
               Scale scale) {
    if (range.low) low = ticks(*range.low, scale);
    if (range.high) high = ticks(*range.high, scale);
    if (freeze_limit) freeze = ticks(*freeze_limit, scale);
    if (allowances)
        for (const auto& a : *allowances) bands.emplace_back(ticks(a.low, scale), ticks(a.high, scale));
}

std::size_t Limits::allowance(Ticks t) const {
    return static_cast<std::size_t>(
        std::ranges::find_if(bands, [&](const auto& b) { return b.first <= t && t <= b.second; }) - bands.begin());
}

namespace {
const std::vector<Allowance>* allowances_of(const Product& p) { return p.allowances ? &*p.allowances : nullptr; }
}  // namespace

LimitsOf::LimitsOf(const Product& p)
    : C(p.range, p.freeze_limit, allowances_of(p), Scale::C),
      F(p.range, p.freeze_limit, allowances_of(p), Scale::F),
      allowances(p.allowances ? p.allowances->size() : 0) {}

LimitsOf::LimitsOf(const Range& range)
    : C(range, std::nullopt, nullptr, Scale::C), F(range, std::nullopt, nullptr, Scale::F) {}

}  // namespace coldtally::exposure
