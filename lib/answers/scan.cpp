#include "answers/scan.hpp"

#include <algorithm>

#include "answers/filling.hpp"
#include "answers/lists.hpp"
#include "coldtally/error.hpp"

namespace coldtally::answers {

namespace {

std::vector<std::string> products_of_lot(const World& w, const std::string& number) {
    std::vector<std::string> out;
    for (const auto& lot : w.lots_of(number)) out.push_back(lot.product);
    return out;
}

std::string quoted_list(const std::vector<std::string>& names) {
    std::string out;
    for (const auto& name : names) out += (out.empty() ? "" : " and ") + text::quoted(name);
    return out;
}

std::string gtins_of(const Product& product) {
    std::string out;
    for (const auto& gtin : product.gtin.value_or(std::vector<std::string>())) out += (out.empty() ? "" : ", ") + gtin;
    return out;
}

/// `product`: the one that draft or lot name otherwise; null where none does.
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
/// A GTIN, or element strings with a GTIN or an expiry among them, although no symbology identifier says so.
bool reads_like_a_code(const World& w, const std::string& text) {
    if (gtin_14(text)) return true;
    try {
        const Gs1Scan code = read_scan(w, text);
        return code.elements.size() > 1 && (code.gtin || code.expiry);
    } catch (const Error&) {
        return false;
    }
}
constexpr const char* with_an_hour =
    "the code states an hour of expiry (7003), which a lot here cannot have: mind it yourself";

}  // namespace

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
    if (out.scan.expires_at_an_hour) say(with_an_hour);
    if (products.size() > 1)
        say((by_lot ? "lot " + text::quoted(*number) : "GTIN " + *gtin) + " is of " + quoted_list(products) +
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

void take_scan(World& w, text::Json& fields, std::vector<std::string>& filled, std::vector<std::string>& warnings) {
    const std::string text = stated(fields, "lot");
    if (!w.lots_of(text).empty()) return;
    const bool delivery = stated(fields, "kind") == "receive";
    if (!is_gs1_scan(text)) {
        if (delivery && reads_like_a_code(w, text))
            warnings.push_back("lot " + text::quoted(text) + " reads like the code on a box: is it the lot's number?");
        return;
    }
    const Gs1Scan code = read_scan(w, text);
    if (!code.lot) throw Error(Code::missing_field, "lot: the code states none: must be stated as on the box");
    fields["lot"] = *code.lot;
    filled.push_back("lot " + text::quoted(*code.lot) + ", from the code");
    if (delivery && !code.perhaps.empty() && w.lots_of(*code.lot).empty()) warnings.push_back(lost_separator(code));
    if (delivery && code.expires_at_an_hour) warnings.push_back(with_an_hour);
    const auto products = code.gtin ? products_with(w, *code.gtin) : std::vector<std::string>();
    if (is_stated(fields, "product")) {
        if (!products.empty() &&
            std::find(products.begin(), products.end(), stated(fields, "product")) == products.end())
            throw Error(Code::contradiction, "product: " + text::quoted(stated(fields, "product")) +
                                                 ": the code's GTIN " + *code.gtin + " is that of " +
                                                 quoted_list(products) + ": read the box again");
    } else if (products.size() > 1) {
        throw Error(Code::ambiguous,
                    "product: GTIN " + *code.gtin + " is that of " + quoted_list(products) + "; state the product");
    } else if (products.size() == 1) {
        fields["product"] = products[0];
        filled.push_back("product " + text::quoted(products[0]) + ", from the code");
    }
    // those that it may be
    const auto lots =
        w.lots_of(*code.lot, is_stated(fields, "product") ? std::optional(stated(fields, "product")) : std::nullopt);
    if (code.gtin && products.empty()) {
        const std::string named = is_stated(fields, "product") ? stated(fields, "product")
                                  : lots.size() == 1           ? lots[0].product
                                                               : std::string();
        warnings.push_back(no_such_gtin(*code.gtin, w.known.product(named)));
    }
    if (!code.expiry) return;
    const Date on_box = Date::parse_expiry(*code.expiry);
    if (is_stated(fields, "expiry")) {
        if (Date::parse_expiry(stated(fields, "expiry")) != on_box)
            throw Error(Code::contradiction, "expiry: " + text::quoted(stated(fields, "expiry")) + ": the code says " +
                                                 text::quoted(*code.expiry) + ": read the box again");
    } else if (delivery) {
        fields["expiry"] = *code.expiry;
        filled.push_back("expiry " + *code.expiry + ", from the code");
    }
    if (lots.empty() || stated(fields, "kind") == "lot" ||
        std::any_of(lots.begin(), lots.end(), [&](const auto& lot) { return w.expiry(lot) == on_box; }))
        return;
    std::string known;
    for (const auto& lot : lots)
        known += (known.empty() ? "" : " and ") + text::quoted(w.expiry(lot).text()) + " of product " +
                 text::quoted(lot.product);
    const std::string differs =
        "the code says " + text::quoted(*code.expiry) + ", the ledger " + known + ", lot " + text::quoted(*code.lot);
    if (delivery)
        throw Error(Code::contradiction, "expiry: " + differs +
                                             ": NOT WRITTEN: keep the box apart, read it again; if the ledger is "
                                             "wrong, define the lot anew first, with a note that says why");
    warnings.push_back("EXPIRY DIFFERS: " + differs + ": keep the box apart until it is settled which is right");
}

}  // namespace coldtally::answers
