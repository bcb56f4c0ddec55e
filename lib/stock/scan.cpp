#include "stock/scan.hpp"

#include <algorithm>

#include "stock/lists.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

namespace {

std::vector<std::string> products_of_lot(const World& w, const std::string& number) {
    std::vector<std::string> out;
    for (const auto& lot : w.lots_of(number)) out.push_back(lot.product);
    return out;
}

std::string gtins_of(const Product& product) {
    std::string out;
    for (const auto& gtin : product.gtin.value_or(std::vector<std::string>())) out += (out.empty() ? "" : ", ") + gtin;
    return out;
}

}  // namespace

std::string no_such_gtin(const std::string& gtin, const Product* product) {
    if (product && product->gtin && !product->gtin->empty())
        return "GTIN " + gtin + " on the box is none of product " + text::quoted(product->product) + ", which has " +
               gtins_of(*product) + ": is it another product? Compare the names on box and screen";
    return "GTIN " + gtin +
           " is of no product known here: compare the names on box and screen; where they agree, state it with the "
           "product (--gtin)";
}

std::string lost_separator(const Gs1Scan& code) {
    return "the code may say " + code.perhaps +
           ": the scanner sent no separator; compare lot and serial number with what is printed on the box";
}

const char* hour_of_expiry() {
    return "the code states an hour of expiry (7003), which a lot here cannot have: mind it yourself";
}

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
    const auto say = [&](const std::string& what) { out.remarks.push_back(what); };
    std::vector<std::string> products;
    if (gtin) {
        products = products_with(w, *gtin);
    } else {
        say("the code states no GTIN");
    }
    if (!number) say("the code states no lot");
    const bool by_lot = products.empty() && number;
    if (by_lot) products = products_of_lot(w, *number);
    if (gtin && (by_lot || products.empty()))
        say(no_such_gtin(*gtin, products.size() == 1 ? w.known.product(products[0]) : nullptr));
    if (by_lot && products.size() == 1) say("the product is told by the lot's number alone");
    if (!out.scan.perhaps.empty()) say(lost_separator(out.scan));
    if (out.scan.expires_at_an_hour) say(hour_of_expiry());
    if (products.size() > 1)
        say((by_lot ? "lot " + text::quoted(*number) : "GTIN " + *gtin) + " is of " + text::quoted_list(products) +
            ": only the box says which");
    if (products.size() == 1) out.product = products[0];
    if (!out.product || !number) return out;
    const auto lots = w.lots_of(*number, out.product);
    if (lots.empty()) {
        say("lot " + text::quoted(*number) + " of " + text::quoted(*out.product) +
            " is not known: a delivery defines it");
        return out;
    }
    out.expiry = w.expiry(lots.front());
    if (expiry && Date::parse_expiry(*expiry) != *out.expiry)
        say("EXPIRY DIFFERS: the code says " + *expiry + ", the ledger " + out.expiry->text() +
            "; do not use before it is settled");
    for (auto& row : listed(w, lots.front())) out.holdings.push_back(std::move(row));
    if (out.holdings.empty()) say("no doses of this lot are here by the ledger");
    return out;
}

}  // namespace coldtally::answers
