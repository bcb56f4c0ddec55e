#include "stock/reasons.hpp"

namespace coldtally::answers {

bool is_expired(const History& h, Instant expired_from, Instant t) {
    return t >= expired_from || (h.use_by && t >= *h.use_by);
}

std::vector<Reason> quarantine_reasons(const History& h, const Product& product, Duration unmonitored_limit) {
    std::vector<Reason> out;
    if (h.open.beyond_warm.sign() > 0) out.push_back(Reason::warm);
    if (h.open.beyond_cold.sign() > 0) out.push_back(Reason::cold);
    if (h.open.frozen.sign() > 0) out.push_back(Reason::frozen);
    const auto seconds = ledger::allowance_seconds(product);
    for (std::size_t i = 0; i < h.open.allowances.size(); ++i)  // none where the doses have not stayed anywhere
        if (h.total.allowances[i] > Rational(seconds[i].seconds()) && h.open.allowances[i].sign() > 0) {
            out.push_back(Reason::over_allowance);
            break;
        }
    if (h.open.points > 0) out.push_back(Reason::point);
    if (h.open.unmonitored > Rational(unmonitored_limit.seconds())) out.push_back(Reason::unmonitored);
    if (!h.held_by.empty()) out.push_back(Reason::held);
    return out;
}

bool shows_exposure(const History& h, const Product& product, Duration unmonitored_limit) {
    History all_open = h;
    const Exposure& t = h.total;
    all_open.open = {t.warm.estimate, t.cold.estimate, t.frozen.estimate, t.allowances, t.beyond_warm, t.beyond_cold,
                     t.seconds[static_cast<std::size_t>(Class::unmonitored)], t.points};
    return !quarantine_reasons(all_open, product, unmonitored_limit).empty();
}

}  // namespace coldtally::answers
