#include "answers/lot_twins.hpp"

namespace coldtally::answers {

namespace {

/// The same for two numbers that a tired eye reads alike.
std::string outline(const std::string& number) {
    std::string out;
    for (char c : number) {
        if (c == '-' || c == ' ') continue;
        if (c == 'l') c = '1';  // before it becomes an L
        if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
        if (c == 'O') c = '0';
        if (c == 'I') c = '1';
        out += c;
    }
    return out;
}

}  // namespace

std::vector<ledger::Store::LotRow> lot_twins(const World& w, const std::string& number) {
    std::vector<ledger::Store::LotRow> out;
    const std::string wanted = outline(number);
    for (auto& lot : w.lots())
        if (lot.number != number && outline(lot.number) == wanted) out.push_back(std::move(lot));
    return out;
}

}  // namespace coldtally::answers
