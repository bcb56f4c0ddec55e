#include "stock/which.hpp"

#include "text/json_text.hpp"
#include "words/lists.hpp"
#include "words/stock.hpp"

namespace coldtally::answers {

Suggestion::Argument stated_as(std::string name, std::string value) {
    const bool is_empty = value.empty();
    return {std::move(name), std::move(value), is_empty};
}

Remark choice_of(std::vector<Suggestion::Argument> stated, Field what) {
    return words::choice_of(words::task({}, std::move(stated)), std::move(what));
}

std::vector<Remark> product_choices(const World& w, const std::vector<ledger::Store::LotRow>& lots) {
    std::vector<Remark> out;
    for (const auto& lot : lots) {
        const Product* product = w.known.product(lot.product);
        out.push_back(choice_of({stated_as("product", lot.product)},
                                words::name_and_expiry(product ? product->name : lot.product, w.expiry(lot).text())));
    }
    return out;
}

void which_product(const World& w, const std::vector<ledger::Store::LotRow>& lots) {
    std::vector<Field> products;
    for (const auto& lot : lots) products.emplace_back(text::quoted(lot.product));
    throw WhichOne(words::lot_of_products(text::quoted(lots.front().number), words::listed_with_and(products)),
                   product_choices(w, lots));
}

}  // namespace coldtally::answers
