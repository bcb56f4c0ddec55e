// Table: what the tables of all answers share.
#pragma once

#include <optional>
#include <string>

#include "coldtally/forms.hpp"
#include "forms/table_layout.hpp"
#include "forms/words.hpp"

namespace coldtally::forms {

/// The first lines of an answer: its title, the instants it is of, the ledger and how far it is known.
void add_head(TableLayout& table, const AnswerHead& head, const Field& title, const TableStyle& style);
/// The three lists with their doses, rows and reasons; `empty`: also a list with nothing on it.
void add_lists(TableLayout& table, const std::vector<ListsAnswer::Row>& rows, const TableStyle& style, Instant at,
               bool empty);
/// The expiry on the box, where something else sets the last day.
void add_expiry(TableLayout& table, const LastUse& use, const Date& expiry);
/// The columns that add_lists fills.
std::vector<TableLayout::Column> lists_columns();
/// A blank line and the caution; `more` goes before it.
void add_caution(TableLayout& table, const std::optional<Remark>& more = {});
std::string render(const TableLayout& table, const TableStyle& style);

}  // namespace coldtally::forms
