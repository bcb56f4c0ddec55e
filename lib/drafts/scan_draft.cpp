#include "drafts/scan_draft.hpp"

#include <algorithm>

#include "coldtally/error.hpp"
#include "drafts/filling.hpp"
#include "stock/scan.hpp"
#include "stock/which.hpp"
#include "words/drafts.hpp"
#include "words/general.hpp"

namespace coldtally::answers {

namespace {

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

}  // namespace

void take_scan(World& w, text::Json& fields, std::vector<Remark>& filled, std::vector<Remark>& warnings) {
    const std::string text = stated(fields, "lot");
    if (!w.lots_of(text).empty()) return;
    const bool delivery = stated(fields, "kind") == "receive";
    if (!is_gs1_scan(text)) {
        if (delivery && reads_like_a_code(w, text))
            warnings.push_back(words::reads_like_a_code(text::quoted(text)));
        return;
    }
    const Gs1Scan code = read_scan(w, text);
    if (!code.lot) throw Error(Code::missing_field, "lot: the code states none: must be stated as on the box");
    fields["lot"] = *code.lot;
    filled.push_back(words::lot_from_code(text::quoted(*code.lot)));
    if (delivery && !code.perhaps.empty() && w.lots_of(*code.lot).empty()) warnings.push_back(lost_separator(code));
    if (delivery && code.expires_at_an_hour) warnings.push_back(hour_of_expiry());
    const auto products = code.gtin ? products_with(w, *code.gtin) : std::vector<std::string>();
    if (is_stated(fields, "product")) {
        if (!products.empty() &&
            std::find(products.begin(), products.end(), stated(fields, "product")) == products.end())
            throw Error(Code::contradiction, "product: " + text::quoted(stated(fields, "product")) +
                                                 ": the code's GTIN " + *code.gtin + " is that of " +
                                                 text::quoted_list(products) + ": read the box again");
    } else if (products.size() > 1) {
        std::vector<Remark> choices;
        for (const auto& id : products)
            choices.push_back(choice_of({stated_as("product", id)}, w.known.product(id)->name));
        throw WhichOne(words::code_of_products(*code.gtin, text::quoted_list(products)), std::move(choices));
    } else if (products.size() == 1) {
        fields["product"] = products[0];
        filled.push_back(words::product_from_code(text::quoted(products[0])));
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
        filled.push_back(words::expiry_from_code(*code.expiry));
    }
    if (lots.empty() || stated(fields, "kind") == "lot" ||
        std::any_of(lots.begin(), lots.end(), [&](const auto& lot) { return w.expiry(lot) == on_box; }))
        return;
    std::vector<Remark> known;
    for (const auto& lot : lots)
        known.push_back(words::expiry_of_product(text::quoted(w.expiry(lot).text()), text::quoted(lot.product)));
    Remark expiry = known.front();
    for (std::size_t i = 1; i < known.size(); ++i) expiry = words::both(std::move(expiry), known[i]);
    const Remark differ =
        words::code_and_ledger_differ(text::quoted(*code.expiry), std::move(expiry), text::quoted(*code.lot));
    if (delivery)
        throw Error(Code::contradiction, "expiry: " + english().say(differ) +
                                             ": NOT WRITTEN: keep the box apart, read it again; if the ledger is "
                                             "wrong, define the lot anew first, with a note that says why");
    warnings.push_back(words::box_apart(differ));
}

}  // namespace coldtally::answers
