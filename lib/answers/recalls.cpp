#include "answers/recalls.hpp"

namespace coldtally::answers {

std::vector<ledger::Dated<Hold>> recalls(const World& w, const std::string& product, const std::string& lot) {
    std::vector<ledger::Dated<Hold>> out;
    for (const auto& h : w.known.holds)
        if (h.at <= w.at && h.fact.product == product && (!h.fact.lot || *h.fact.lot == lot) && !h.fact.place &&
            !h.fact.mark)
            out.push_back(h);
    return out;
}

std::string lifts_recall(const ledger::Dated<Hold>& h, const std::string& issuer) {
    return "A RECALL STANDS (entry " + std::to_string(h.entry) + ": " + h.fact.reason +
           "), and this answer lifts it for the doses that are here: was " + issuer +
           " asked about that, too? If not, hold them again after it";
}

}  // namespace coldtally::answers
