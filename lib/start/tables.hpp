// Tables: what a clinic's file may hold: its tables, their columns, what each is, and an example of it. Reader and
// template are made of the same list.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/start.hpp"

namespace coldtally::start {

struct Column {
    std::string_view name;
    bool needed;               ///< in every row
    std::string_view says;     ///< what it is, for the template
    std::string_view example;  ///< a cell of the example; empty: none
    std::string_view also = {};  ///< other names that are read, with | between them
};

struct Table {
    std::string_view name;
    std::string_view says;  ///< what it is for; lines of the template
    std::span<const Column> columns;
    /// Two cells a row, the part's name and what it is, without a row of titles: of what there is one of.
    bool parts = false;
};

std::span<const Table> tables();
const Table& table(std::string_view name);
/// Or null.
const Table* find_table(std::string_view name);
/// Or null; whatever the capitals and blanks.
const Column* find_column(const Table& table, std::string_view title);
/// Those of a template, in its order.
std::vector<const Table*> tables_of(StartTemplate which);

/// In small letters, with one blank for each run of blanks, hyphens and underscores: how names are compared.
std::string plain_name(std::string_view name);

}  // namespace coldtally::start
