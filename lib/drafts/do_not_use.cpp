#include "drafts/do_not_use.hpp"

#include "drafts/draft_warnings.hpp"
#include "drafts/naming.hpp"
#include "question/said.hpp"
#include "stock/lists.hpp"
#include "words/drafts_arrivals.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

std::optional<Remark> do_not_use(World& w, const Move& move) {
    const auto row = listed(w, HoldingKey{move.from_place, move.product, move.lot, move.fund, move.from_mark});
    if (!row || !do_not_use(row->list, row->in_doubt, row->beside)) return std::nullopt;
    std::vector<Field> why;
    for (const Reason reason : row->reasons) why.push_back(said::reason_words(reason));
    for (const auto& incident : row->in_doubt) why.push_back(words::in_doubt_of_open(incident));
    if (why.empty()) {
        std::vector<Remark> warned;
        for (const Remark& one : row->beside)
            if (forbids_use(one)) warned.push_back(one);
        return words::moves_warned(text::quoted(move.lot), text::quoted(move.to_place), *words::semicolons(warned));
    }
    const std::string lot = text::quoted(move.lot), place = text::quoted(move.to_place);
    if (row->list == List::keep) return words::moves_in_doubt(lot, place, words::listed(why));
    return words::moves_do_not_use(lot, place, said::list_words(row->list), words::listed(why));
}

}  // namespace coldtally::answers
