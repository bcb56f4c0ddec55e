#include "drafts/do_not_use.hpp"

#include "drafts/draft_warnings.hpp"
#include "stock/lists.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

std::optional<std::string> do_not_use(World& w, const Move& move) {
    const auto row = listed(w, HoldingKey{move.from_place, move.product, move.lot, move.fund, move.from_mark});
    if (!row || !do_not_use(row->list, row->in_doubt)) return std::nullopt;
    std::string why;
    const auto add = [&](const std::string& one) { why += (why.empty() ? "" : ", ") + one; };
    for (const auto& reason : row->reasons) add(reason);
    for (const auto& incident : row->in_doubt) add("in doubt of incident " + incident + ", which is open");
    const std::string lot = "lot " + text::quoted(move.lot) + " ";
    if (row->list == List::keep)
        return "IN DOUBT: " + lot + "comes to " + text::quoted(move.to_place) + " " + why +
               ": take doses from elsewhere until it is known what these have been through";
    return "DO NOT USE: " + lot + "comes to " + text::quoted(move.to_place) + " as it is, on the list " +
           std::string(list_name(row->list)) + " (" + why + "): mark the doses, a good place does not make them good";
}

}  // namespace coldtally::answers
