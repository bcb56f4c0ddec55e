// Naming: how drafts name doses, each name in quotes as it was typed.
#pragma once

#include "coldtally/stock.hpp"
#include "question/said.hpp"
#include "text/json_text.hpp"
#include "words/drafts.hpp"
#include "words/general.hpp"

namespace coldtally::answers {

/// `"main", mark "bin 2"`
inline Field place_named(const std::string& place, const std::string& mark) {
    if (mark.empty()) return text::quoted(place);
    return words::place_mark(text::quoted(place), text::quoted(mark));
}
/// `"mmr" lot "K0123" in "main", fund "state", mark "bin 2"`
inline Remark quoted_holding(HoldingKey k) {
    for (std::string* name : {&k.place, &k.product, &k.lot, &k.fund, &k.mark})
        if (!name->empty()) *name = text::quoted(*name);
    return said::holding_words(k);
}
/// `lot "K0123" in "main", mark "bin 2"`
inline Remark lot_in(const HoldingKey& k) { return words::lot_in(text::quoted(k.lot), place_named(k.place, k.mark)); }
/// `"mmr" lot "K0123", fund "state", mark "bin 2"`
inline Remark lot_named(const HoldingKey& k) {
    Remark out = words::lot_of(text::quoted(k.product), text::quoted(k.lot));
    if (!k.fund.empty()) out = words::comma(std::move(out), words::fund_named(text::quoted(k.fund)));
    if (!k.mark.empty()) out = words::comma(std::move(out), words::mark_named(text::quoted(k.mark)));
    return out;
}

}  // namespace coldtally::answers
