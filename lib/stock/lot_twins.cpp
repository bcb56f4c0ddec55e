#include "stock/lot_twins.hpp"

#include <algorithm>

namespace coldtally::answers {

namespace {

char capital(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

/// The same for two characters of one shape.
char shape(char c) {
    if (c == 'l') return '1';  // and no L
    c = capital(c);
    return c == 'O' ? '0' : c == 'I' ? '1' : c;
}

std::string without_hyphens(const std::string& number) {
    std::string out;
    for (const char c : number)
        if (c != '-' && c != ' ') out += c;
    return out;
}

bool are_alike(const std::string& a, const std::string& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](char x, char y) { return capital(x) == capital(y) || shape(x) == shape(y); });
}

}  // namespace

std::vector<ledger::Store::LotRow> lot_twins(const World& w, const std::string& number) {
    std::vector<ledger::Store::LotRow> out;
    const std::string wanted = without_hyphens(number);
    for (auto& lot : w.lots())
        if (lot.number != number && are_alike(without_hyphens(lot.number), wanted)) out.push_back(std::move(lot));
    return out;
}

}  // namespace coldtally::answers
