#include "trace/calibration.hpp"

#include <algorithm>

namespace coldtally::trace {

std::int32_t corrected_by_table(const std::vector<Certificate::Row>& table, std::int32_t indicated) {
    const auto after = std::ranges::upper_bound(table, indicated, {}, &Certificate::Row::indicated);
    if (after == table.begin()) return indicated + table.front().correction.thousandths();
    if (after == table.end()) return indicated + table.back().correction.thousandths();
    const auto& b = *after;
    const auto& a = *(after - 1);
    // (indicated + a.correction) + slope * (indicated - a.indicated), over the distance of the two rows
    const std::int64_t d = std::int64_t{b.indicated} - a.indicated;
    const std::int64_t n = (std::int64_t{indicated} + a.correction.thousandths()) * d +
                           (std::int64_t{b.correction.thousandths()} - a.correction.thousandths()) *
                               (std::int64_t{indicated} - a.indicated);
    return static_cast<std::int32_t>(n / d + 2 * (n % d) / d);  // integer division cuts towards zero
}

std::int32_t tolerance(const Certificate* certificate) {
    return certificate && certificate->tolerance ? certificate->tolerance->thousandths() : 0;
}

Calibration::Calibration(const ledger::Known& known, const std::string& probe) {
    if (const auto it = known.certificates.find(probe); it != known.certificates.end()) certificates_ = &it->second;
}

const Certificate* Calibration::at(std::int64_t t) const {
    if (!certificates_) return nullptr;
    const auto& all = *certificates_;
    if ((found_ > 0 && all[found_ - 1].at > t) || (found_ < all.size() && all[found_].at <= t))
        found_ = static_cast<std::size_t>(std::ranges::upper_bound(all, t, {}, &ledger::Dated<Certificate>::at) -
                                          all.begin());
    return found_ == 0 ? nullptr : &all[found_ - 1].fact;
}

}  // namespace coldtally::trace
