#include "stock/opened_vials.hpp"

#include <algorithm>
#include <cctype>
#include <tuple>

#include "words/stock.hpp"

namespace coldtally::answers {

namespace {

/// How surely an event of this name opens a vial: the lower the surer; none where it does not.
std::optional<int> openness(const std::string& event) {
    std::string name = event;
    std::transform(name.begin(), name.end(), name.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    int rank = 0;
    for (const char* part : {"punctur", "open", "reconstitut"}) {
        if (name.find(part) != std::string::npos) return rank;
        ++rank;
    }
    return std::nullopt;
}

}  // namespace

bool opens_vial(const std::string& event) { return openness(event).has_value(); }

std::optional<OpeningPeriod> opening_period(const Product& product) {
    if (!product.doses_per_vial || product.doses_per_vial->count() <= 1 || !product.beyond_use) return std::nullopt;
    std::optional<std::tuple<int, Duration, std::string>> best;
    for (const auto& [event, period] : *product.beyond_use)
        if (const auto rank = openness(event)) {
            const std::tuple<int, Duration, std::string> one(*rank, period, event);
            if (!best || one < *best) best = one;
        }
    if (!best) return std::nullopt;
    return OpeningPeriod{std::get<2>(*best), std::get<1>(*best)};
}

bool is_opened(const UseLimits& limits) {
    return std::any_of(limits.begin(), limits.end(), [](const UseLimit& l) { return l.opening; });
}

std::int64_t beside_whole_vials(const Product& product, std::int64_t doses) {
    return product.doses_per_vial ? doses % product.doses_per_vial->count() : 0;
}

std::optional<Remark> vial_without_opening(const Product& product, std::int64_t doses, const UseLimits& limits) {
    if (!opening_period(product) || beside_whole_vials(product, doses) == 0 || is_opened(limits)) return std::nullopt;
    return words::vial_not_noted(doses, product.doses_per_vial->count());
}

}  // namespace coldtally::answers
