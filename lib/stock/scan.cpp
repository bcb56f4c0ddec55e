#include "stock/scan.hpp"

#include <algorithm>

#include "stock/lists.hpp"
#include "text/json_text.hpp"
#include "words/lists.hpp"
#include "words/stock.hpp"

namespace coldtally::answers {

namespace {

std::vector<std::string> products_of_lot(const World& w, const std::string& number) {
    std::vector<std::string> out;
    for (const auto& lot : w.lots_of(number)) out.push_back(lot.product);
    return out;
}

/// "a" and "b" and "c"
Field quoted_products(const std::vector<std::string>& products) {
    Field out = text::quoted(products.front());
    for (std::size_t i = 1; i < products.size(); ++i) out = words::both(std::move(out), text::quoted(products[i]));
    return out;
}

}  // namespace

Remark no_such_gtin(const std::string& gtin, const Product* product) {
    if (product && product->gtin && !product->gtin->empty())
        return words::gtin_of_another(gtin, text::quoted(product->product), words::names(*product->gtin));
    return words::gtin_not_known(gtin, words::parameter("gtin"));
}

Remark lost_separator(const Gs1Scan& code) { return words::separator_lost(code.perhaps); }

Remark hour_of_expiry() { return words::expires_at_an_hour; }

Gs1Scan read_scan(const World& w, std::string_view text) {
    return parse_gs1_scan(text, w.known.zone().local(w.head.at).date.year);
}

std::vector<std::string> products_with(const World& w, const std::string& gtin) {
    std::vector<std::string> out;
    for (const auto& [id, definitions] : w.known.products) {
        const Product* product = w.known.product(id);
        if (!product || !product->gtin) continue;
        if (std::any_of(product->gtin->begin(), product->gtin->end(),
                        [&](const auto& g) { return gtin_14(g) == gtin; }))
            out.push_back(id);
    }
    return out;
}

ScanAnswer scan(World& w, std::string_view text) {
    ScanAnswer out;
    out.head = w.head;
    out.scan = read_scan(w, text);
    const auto &gtin = out.scan.gtin, &number = out.scan.lot, &expiry = out.scan.expiry;
    const auto say = [&](Remark what) { out.remarks.push_back(std::move(what)); };
    std::vector<std::string> products;
    if (gtin) {
        products = products_with(w, *gtin);
    } else {
        say(words::code_without_gtin);
    }
    if (!number) say(words::code_without_lot);
    const bool by_lot = products.empty() && number;
    if (by_lot) products = products_of_lot(w, *number);
    if (gtin && (by_lot || products.empty()))
        say(no_such_gtin(*gtin, products.size() == 1 ? w.known.product(products[0]) : nullptr));
    if (by_lot && products.size() == 1) say(words::told_by_lot_alone);
    if (!out.scan.perhaps.empty()) say(lost_separator(out.scan));
    if (out.scan.expires_at_an_hour) say(hour_of_expiry());
    if (products.size() > 1)
        say(by_lot ? words::lot_of_several(text::quoted(*number), quoted_products(products))
                   : words::gtin_of_several(*gtin, quoted_products(products)));
    if (products.size() == 1) out.product = products[0];
    if (!out.product || !number) return out;
    const auto lots = w.lots_of(*number, out.product);
    if (lots.empty()) {
        say(words::lot_not_known(text::quoted(*number), text::quoted(*out.product)));
        return out;
    }
    out.expiry = w.expiry(lots.front());
    if (expiry && Date::parse_expiry(*expiry) != *out.expiry)
        say(words::expiry_differs(*expiry, out.expiry->text()));
    for (auto& row : listed(w, lots.front())) out.holdings.push_back(std::move(row));
    if (out.holdings.empty()) say(words::no_doses_of_lot);
    return out;
}

}  // namespace coldtally::answers
