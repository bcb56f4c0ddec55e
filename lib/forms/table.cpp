#include "forms/table.hpp"

#include <algorithm>

#include "words/general.hpp"
#include "words/tables.hpp"

namespace coldtally::forms {

namespace {
constexpr int narrowest = 60;
}

void add_head(TableLayout& table, const AnswerHead& head, const Field& title, const TableStyle& style) {
    table.text(words::head_title(head.ledger, title), 0, 2, TableLayout::Paint::bold);
    const std::string at = style.zone.local_text(head.at);
    if (head.known_on == head.at)
        table.text(words::head_when(at, style.zone.name(), head.last_entry), 0, 2);
    else
        table.text(words::head_when_known(at, style.zone.local_text(head.known_on), style.zone.name(), head.last_entry),
                   0, 2);
}

void add_caution(TableLayout& table, const std::optional<Remark>& more) {
    table.blank();
    if (more) table.text(*more);
    table.text(words::caution());
}

std::string render(const TableLayout& table, const TableStyle& style) {
    return table.render(std::max(style.columns, narrowest), style.color);
}

}  // namespace coldtally::forms
