// Sheet: a clinic's file as rows of its tables, each cell by the name of its column. Whatever stands in it that is no
// such row is a mistake: nothing of a file is passed over in silence.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "start/tables.hpp"

namespace coldtally::start {

struct SheetRow {
    std::int64_t line = 0;
    const Table* table = nullptr;
    std::map<std::string_view, std::string> cells;  ///< those that are not empty, by Column::name, without outer blanks
    bool bad = false;  ///< a mistake of it is said already
};

struct Sheet {
    std::vector<SheetRow> rows;  ///< in their order; of a table of parts one row, its line that of its title
    std::map<std::pair<std::string_view, std::string_view>, std::int64_t> part_lines;  ///< by table and part
    std::vector<StartMistake> mistakes;
    bool latin1 = false;  ///< it is no UTF-8, and was read as Latin-1
    /// The line of a cell.
    std::int64_t line_of(const SheetRow& row, std::string_view column) const;
};

/// Code::bad_text for what is no plain text at all: a spreadsheet's own file, damaged UTF-16, NULs, nothing, more than
/// 16 MiB.
Sheet read_sheet(const std::string& name, const std::string& text);

}  // namespace coldtally::start
