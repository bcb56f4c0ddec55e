#include "start/sheet.hpp"

#include <algorithm>
#include <optional>
#include <set>

#include "coldtally/error.hpp"
#include "coldtally/logger.hpp"
#include "coldtally/nearest.hpp"
#include "logger/cell.hpp"
#include "logger/lines.hpp"
#include "logger/table.hpp"
#include "text/json_text.hpp"
#include "text/limits.hpp"

namespace coldtally::start {

namespace {

using logger::trimmed;

/// The first cell of a line as far as it can be told without knowing what stands between cells.
std::string_view first_of(std::string_view line) {
    line = trimmed(line);
    if (line.starts_with('"')) line.remove_prefix(1);
    return trimmed(line);
}

/// "# as here": what a spreadsheet writes for an error, #NAME? or #N/A, is none.
bool is_comment(std::string_view line) {
    line = first_of(line);
    return line.starts_with('#') && (line.size() == 1 || std::string_view(" #\t\"").find(line[1]) != line.npos ||
                                     line.substr(1, 2) == "\xC2\xA0");
}

/// The name in "[places]"; behind it may stand what a spreadsheet puts between empty cells.
std::optional<std::string_view> title_of(std::string_view line) {
    line = first_of(line);
    if (!line.starts_with('[')) return std::nullopt;
    const auto end = line.find(']');
    if (end == line.npos || line.find_first_not_of(",;\t\" ", end + 1) != line.npos) return std::nullopt;
    return trimmed(line.substr(1, end - 1));
}

bool is_empty(std::string_view line) { return line.find_first_not_of(",;\t\" \xC2\xA0") == line.npos; }

/// What stands between cells: the one of the three that is most often in the lines that begin tables, which hold names
/// of columns alone.
char delimiter_of(const logger::Lines& lines) {
    constexpr std::string_view may_be = ",;\t";
    std::int64_t counts[3] = {};
    bool first = true;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const std::string_view line = lines[i];
        if (is_empty(line) || is_comment(line)) continue;
        if (title_of(line)) {
            first = true;
            continue;
        }
        for (std::size_t d = 0; first && d < may_be.size(); ++d)
            counts[d] += std::count(line.begin(), line.end(), may_be[d]);
        first = false;
    }
    return may_be[static_cast<std::size_t>(std::max_element(counts, counts + 3) - counts)];
}

std::vector<std::string> names_of(const Table& table) {
    std::vector<std::string> out;
    for (const Column& c : table.columns) out.emplace_back(c.name);
    return out;
}

std::string joined(const std::vector<std::string>& names) {
    std::string out;
    for (const auto& n : names) out += (out.empty() ? "" : ", ") + n;
    return out;
}

class Reader {
public:
    Reader(const logger::Lines& lines, Sheet& out)
        : lines_(lines), out_(out), delimiter_(delimiter_of(lines)), records_(delimiter_, true) {}

    void read() {
        for (std::size_t i = 0; i < lines_.size(); ++i) {
            line_ = static_cast<std::int64_t>(i) + 1;
            const std::string_view line = lines_[i];
            if (is_empty(line) || is_comment(line)) continue;
            if (line.size() > logger::Lines::longest) {
                mistake({}, {}, Code::bad_text, "is longer than 16 KiB: no row of a table is");
                continue;
            }
            if (const auto title = title_of(line)) {
                begin(std::string(*title));
                continue;
            }
            if (!record(i)) continue;
            if (!table_ && !unknown_) find_by_columns();
            else if (table_ && table_->parts) part();
            else if (table_ && columns_.empty()) columns();
            else if (table_) row();
        }
    }

private:
    void mistake(std::string column, std::string value, Code code, std::string text) {
        out_.mistakes.push_back({line_, table_ ? std::string(table_->name) : std::string(), std::move(column),
                                 std::move(value), code, std::move(text)});
    }

    void begin(const std::string& title) {
        table_ = find_table(title);
        unknown_ = !table_;
        columns_.clear();
        columns_missing_ = false;
        if (!table_) {
            std::vector<std::string> names;
            for (const Table& t : tables()) names.emplace_back(t.name);
            mistake({}, title, Code::unknown_field,
                    "is no table; must be one of " + joined(names) + did_you_mean(nearest(title, names)));
            return;
        }
        if (table_->parts && std::ranges::find(out_.rows, table_, &SheetRow::table) == out_.rows.end())
            out_.rows.push_back({line_, table_, {}});
    }

    /// Reads the cells that begin in a line; a quoted one may go on in the next.
    bool record(std::size_t& i) {
        using State = logger::RecordReader::State;
        State state = records_.take(lines_[i]);
        while (state == State::open && i + 1 < lines_.size() && i + 2 - static_cast<std::size_t>(line_) < 20)
            state = records_.take(lines_[++i]);
        if (state != State::complete) {
            records_.reset();
            i = static_cast<std::size_t>(line_) - 1;
            mistake({}, std::string(lines_[i]), Code::bad_row,
                    "a quotation mark stands alone: a cell with one begins and ends with one, and doubles those in it");
            return false;
        }
        cells_.clear();
        for (std::size_t c = 0; c < records_.size(); ++c) cells_.emplace_back(trimmed(records_.cell(c)));
        while (!cells_.empty() && cells_.back().empty()) cells_.pop_back();
        return !cells_.empty();
    }

    /// A file of one table needs no title: its columns tell.
    void find_by_columns() {
        std::ptrdiff_t most = 0;  // of its columns, as many as are named
        for (const Table& t : tables()) {
            const bool all = std::ranges::all_of(t.columns, [&](const Column& c) {
                return !c.needed ||
                       std::ranges::any_of(cells_, [&](const auto& cell) { return find_column(t, cell) == &c; });
            });
            const auto named =
                std::ranges::count_if(cells_, [&](const auto& cell) { return find_column(t, cell) != nullptr; });
            if (t.parts || !all || named <= most) continue;
            table_ = &t;
            most = named;
        }
        if (table_) return columns();
        mistake({}, cells_.front(), Code::bad_row,
                "must be the title of a table, as [places], or the names of the columns of one, as " +
                    joined(names_of(table("lots"))));
        unknown_ = true;
    }

    void columns() {
        std::set<const Column*> seen;
        unknown_columns_.clear();
        for (const auto& cell : cells_) {
            const Column* column = cell.empty() ? nullptr : find_column(*table_, cell);
            if (!cell.empty() && !column) {
                mistake(cell, {}, Code::unknown_field,
                        "is no column of this table; its columns are " + joined(names_of(*table_)) +
                            did_you_mean(nearest(plain_name(cell), names_of(*table_))));
                unknown_columns_.insert(columns_.size());  // its cells are passed over, and this said so
            } else if (column && !seen.insert(column).second) {
                mistake(std::string(column->name), {}, Code::contradiction, "stands twice");
                unknown_columns_.insert(columns_.size());
            }
            columns_.push_back(column);
        }
        for (const Column& c : table_->columns)
            if (c.needed && !seen.contains(&c)) {
                mistake(std::string(c.name), {}, Code::missing_field,
                        "is missing: the first row under the title names the columns, this one among them");
                columns_missing_ = true;
            }
    }

    void row() {
        if (out_.rows.size() == limits::start_rows)
            return mistake({}, {}, Code::bad_text, "is more than 20000 rows: give the rest in a file of its own");
        SheetRow out{line_, table_, {}};
        const std::size_t mistakes = out_.mistakes.size();
        for (std::size_t i = 0; i < cells_.size(); ++i) {
            if (cells_[i].empty() || unknown_columns_.contains(i)) continue;
            if (i >= columns_.size() || !columns_[i])
                mistake({}, cells_[i], Code::bad_row,
                        "stands in no column: a cell with " + std::string(delimiter_ == '\t' ? "a tab" : "\"") +
                            (delimiter_ == '\t' ? std::string() : delimiter_ + std::string("\"")) +
                            " in it must have quotation marks around it");
            else
                put(out, *columns_[i], cells_[i]);
        }
        for (const Column& c : table_->columns)
            if (c.needed && !out.cells.contains(c.name) && !columns_missing_ && out_.mistakes.size() == mistakes)
                mistake(std::string(c.name), {}, Code::missing_field, "must be stated: " + std::string(c.says));
        out.bad = columns_missing_ || out_.mistakes.size() > mistakes;
        out_.rows.push_back(std::move(out));
    }

    void put(SheetRow& row, const Column& column, const std::string& cell) {
        if (cell.starts_with('#')) {
            mistake(std::string(column.name), cell, Code::bad_value,
                    "is what a spreadsheet shows for an error: make the column text, and type it again; a comment "
                    "begins with a number sign and a blank");
            row.bad = true;
            return;
        }
        row.cells[column.name] = cell;
    }

    /// "name, Harbour Street": a part of what there is one of.
    void part() {
        const Column* column = find_column(*table_, cells_.front());
        if (!column) {
            mistake(cells_.front(), {}, Code::unknown_field,
                    "is no part of it; its parts are " + joined(names_of(*table_)) +
                        did_you_mean(nearest(plain_name(cells_.front()), names_of(*table_))));
            return;
        }
        if (cells_.size() == 1) return;  // a part of the template that was left empty
        if (cells_.size() > 2) {
            mistake(std::string(column->name), cells_[2], Code::bad_row,
                    "stands in no column: what the part is goes into the second, in quotation marks where it has a "
                    "comma or semicolon in it");
            return;
        }
        const auto row = std::ranges::find(out_.rows, table_, &SheetRow::table);
        if (row->cells.contains(column->name)) {
            mistake(std::string(column->name), cells_[1], Code::contradiction, "stands twice");
            return;
        }
        put(*row, *column, cells_[1]);
        out_.part_lines[{table_->name, column->name}] = line_;
    }

    const logger::Lines& lines_;
    Sheet& out_;
    char delimiter_;
    logger::RecordReader records_;
    const Table* table_ = nullptr;
    bool unknown_ = false, columns_missing_ = false;
    std::set<std::size_t> unknown_columns_;
    std::vector<const Column*> columns_;
    std::vector<std::string> cells_;
    std::int64_t line_ = 0;
};

}  // namespace

std::int64_t Sheet::line_of(const SheetRow& row, std::string_view column) const {
    const auto it = row.table->parts ? part_lines.find({row.table->name, column}) : part_lines.end();
    return it == part_lines.end() ? row.line : it->second;
}

Sheet read_sheet(const std::string& name, const std::string& text) {
    const auto refuse = [&](const char* why) { throw Error(Code::bad_text, name + ": " + why); };
    if (text.size() > limits::start_file_bytes) refuse("is larger than 16 MiB: no clinic's description is");
    if (text.starts_with("PK\x03\x04") || text.starts_with("\xD0\xCF\x11\xE0"))
        refuse("is a spreadsheet's own file: save each sheet as CSV (UTF-8), and give that");
    Sheet out;
    const LoggerFile file{name, text, {}, 0};
    const logger::Lines lines(file);
    out.latin1 = lines.latin1();
    Reader(lines, out).read();
    return out;
}

}  // namespace coldtally::start
