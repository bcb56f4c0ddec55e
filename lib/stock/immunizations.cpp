#include "stock/immunizations.hpp"

#include <algorithm>

#include "stock/review.hpp"

namespace coldtally::answers {

ImmunizationsAnswer immunizations(World& w, const std::optional<std::string>& patient) {
    ImmunizationsAnswer out{w.head, w.known.zone(), {}};
    for (auto& dose : review(w, true).doses) {
        if (patient && dose.patient != *patient) continue;
        const Product& product = *w.known.product(dose.holding.product);
        const Maker* maker = w.known.maker(dose.holding.product);
        ImmunizationsAnswer::Row row{
            std::move(dose), product.name, product.cvx, maker ? std::optional(maker->name) : std::nullopt, {}, {}};
        if (const auto lot = w.store.lot(row.dose.holding.product, row.dose.holding.lot))
            row.expiry = w.known.expiry(w.store.lot_definitions(*lot));
        if (row.dose.guidance) {
            const auto& all = w.known.guidance;
            const auto g =
                std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.entry == *row.dose.guidance; });
            if (g != all.end()) row.guidance = g->fact;
        }
        out.doses.push_back(std::move(row));
    }
    std::sort(out.doses.begin(), out.doses.end(),
              [](const auto& a, const auto& b) { return a.dose.entry < b.dose.entry; });
    return out;
}

}  // namespace coldtally::answers
