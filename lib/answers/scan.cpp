#include "answers/scan.hpp"

#include <algorithm>

#include "answers/filling.hpp"
#include "answers/lists.hpp"
#include "coldtally/error.hpp"

namespace coldtally::answers {

namespace {

/// The lot of a known product and number; none where it is not known.
std::optional<ledger::Store::LotRow> lot_row(const World& w, const std::string& product, const std::string& number) {
    for (const auto& lot : w.lots())
        if (lot.product == product && lot.number == number) return lot;
    return std::nullopt;
}

std::vector<std::string> products_of_lot(const World& w, const std::string& number) {
    std::vector<std::string> out;
    for (const auto& lot : w.lots())
        if (lot.number == number) out.push_back(lot.product);
    return out;
}

std::string quoted_list(const std::vector<std::string>& names) {
    std::string out;
    for (const auto& name : names) out += (out.empty() ? "" : " and ") + text::quoted(name);
    return out;
}

std::string no_such_gtin(const std::string& gtin) { return "GTIN " + gtin + " is of no product known here: compare the names on box and screen, and state it with the product (--gtin)"; }

}  // namespace

Gs1Scan read_scan(const World& w, std::string_view text) { return parse_gs1_scan(text, w.known.zone().local(w.head.at).date.year); }

std::vector<std::string> products_with(const World& w, const std::string& gtin) {
    std::vector<std::string> out;
    for (const auto& [id, definitions] : w.known.products) {
        const Product* product = w.known.product(id);
        if (!product || !product->gtin) continue;
        if (std::any_of(product->gtin->begin(), product->gtin->end(), [&](const auto& g) { return gtin_14(g) == gtin; })) out.push_back(id);
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
        if (products.empty()) say(no_such_gtin(*gtin));
    } else {
        say("the code states no GTIN");
    }
    if (!number) say("the code states no lot");
    if (products.empty() && number) products = products_of_lot(w, *number);
    if (products.size() > 1) say((gtin ? "GTIN " + *gtin : "lot " + text::quoted(*number)) + " is of " + quoted_list(products) + ": only the box says which");
    if (products.size() == 1) out.product = products[0];
    if (!out.product || !number) return out;
    const auto lot = lot_row(w, *out.product, *number);
    if (!lot) {
        say("lot " + text::quoted(*number) + " of " + text::quoted(*out.product) + " is not known: a delivery defines it");
        return out;
    }
    out.expiry = w.expiry(*lot);
    if (expiry && Date::parse_expiry(*expiry) != *out.expiry) say("EXPIRY DIFFERS: the code says " + *expiry + ", the ledger " + out.expiry->text() + "; do not use before it is settled");
    for (auto& row : lists(w).holdings)
        if (row.holding.product == lot->product && row.holding.lot == lot->number) out.holdings.push_back(std::move(row));
    if (out.holdings.empty()) say("no doses of this lot are here by the ledger");
    return out;
}

void take_scan(World& w, text::Json& fields, std::vector<std::string>& filled, std::vector<std::string>& warnings) {
    const std::string text = stated(fields, "lot");
    if (!is_gs1_scan(text) || !products_of_lot(w, text).empty()) return;
    const Gs1Scan code = read_scan(w, text);
    if (!code.lot) throw Error(Code::missing_field, "lot: the code states none: must be stated as on the box");
    fields["lot"] = *code.lot;
    filled.push_back("lot " + text::quoted(*code.lot) + ", from the code");
    const std::string kind = stated(fields, "kind");
    if (code.gtin) {
        const auto products = products_with(w, *code.gtin);
        if (products.empty()) {
            warnings.push_back(no_such_gtin(*code.gtin));
        } else if (is_stated(fields, "product")) {
            if (std::find(products.begin(), products.end(), stated(fields, "product")) == products.end())
                throw Error(Code::contradiction, "product: " + text::quoted(stated(fields, "product")) + ": the code's GTIN " + *code.gtin + " is that of " + quoted_list(products) + ": read the box again");
        } else if (products.size() > 1) {
            throw Error(Code::ambiguous, "product: GTIN " + *code.gtin + " is that of " + quoted_list(products) + "; state the product");
        } else {
            fields["product"] = products[0];
            filled.push_back("product " + text::quoted(products[0]) + ", from the code");
        }
    }
    if (!code.expiry) return;
    const Date on_box = Date::parse_expiry(*code.expiry);
    if (is_stated(fields, "expiry")) {
        if (Date::parse_expiry(stated(fields, "expiry")) != on_box) throw Error(Code::contradiction, "expiry: " + text::quoted(stated(fields, "expiry")) + ": the code says " + text::quoted(*code.expiry) + ": read the box again");
    } else if (kind == "receive") {
        fields["expiry"] = *code.expiry;
        filled.push_back("expiry " + *code.expiry + ", from the code");
    }
    for (const auto& lot : w.lots())
        if (lot.number == *code.lot && (!is_stated(fields, "product") || lot.product == stated(fields, "product")) && kind != "lot" && w.expiry(lot) != on_box)
            throw Error(Code::contradiction, "expiry: the code says " + text::quoted(*code.expiry) + ", the ledger " + text::quoted(w.expiry(lot).text()) + " of lot " + text::quoted(lot.number) + ": NOT WRITTEN: keep the box apart, read it again; if the ledger is wrong, define the lot anew first, with a note that says why");
}

}  // namespace coldtally::answers
