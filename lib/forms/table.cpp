#include "forms/table.hpp"

#include <algorithm>

namespace coldtally::forms {

namespace {
constexpr int narrowest = 60;
}

void add_head(TableLayout& table, const AnswerHead& head, std::string_view title, const TableStyle& style) {
    table.text(head.ledger + ": " + std::string(title), 0, 2, TableLayout::Paint::bold);
    std::string when = "As of " + style.zone.local_text(head.at);
    if (head.known_on != head.at) when += ", known on " + style.zone.local_text(head.known_on);
    table.text(when + " (" + style.zone.name() + "), entries up to " + std::to_string(head.last_entry) + ".", 0, 2);
}

std::string place_words(const HoldingKey& holding) {
    std::string out = holding.place;
    if (!holding.fund.empty()) out += ", fund " + holding.fund;
    if (!holding.mark.empty()) out += ", mark " + holding.mark;
    return out;
}

std::string holding_words(const HoldingKey& holding) {
    return holding.product + " lot " + holding.lot + " in " + place_words(holding);
}

void add_caution(TableLayout& table, std::string_view more) {
    table.blank();
    if (!more.empty()) table.text(more);
    table.text(caution);
}

std::string render(const TableLayout& table, const TableStyle& style) {
    return table.render(std::max(style.columns, narrowest), style.color);
}

}  // namespace coldtally::forms
