// The rows of a file: where they are, and what became of them.
#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <string_view>
#include <vector>

#include "coldtally/entries.hpp"
#include "logger/cell.hpp"
#include "logger/lines.hpp"
#include "logger/table.hpp"

namespace coldtally::logger {

/// A row with an instant. `at`: what the clock showed, until it is settled what that was.
struct FileRow : Reading {
    int line = 0;
    /// In place of thousandths: nothing was measured.
    static constexpr std::int32_t no_reading = std::numeric_limits<std::int32_t>::min();
    bool has_reading() const noexcept { return thousandths != no_reading; }
};

/// The rows of a file in its order, none of which is left out.
struct ClockedRows {
    std::vector<FileRow> rows;  ///< `at`: what the clock showed
    std::int64_t ignored = 0;   ///< lines that are no rows
    std::int64_t without_reading = 0;
    Rounded rounded;
};

/// The cells of a file's rows that matter, before they are understood. A file has up to millions of rows: where each
/// begins is kept, and it is read again when it is asked for, quickly where rows are asked for in their order.
class RawRows {
public:
    enum Cell { date, time, temperature, scale, cells };  ///< `date` holds the instant where one column has both

    /// `columns` from 1, 0 where there is none. Borrows `lines`.
    void begin(const Lines& lines, char delimiter, const int (&columns)[cells]) {
        lines_ = &lines;
        reader_.emplace(delimiter, true);
        for (int c = 0; c < cells; ++c) columns_[c] = columns[c];
    }
    /// A row that can be read, whose first line it is.
    void add(int line) { rows_.push_back(line); }
    void expect(std::size_t rows) { rows_.reserve(rows); }
    /// Forgets them all.
    void clear() { std::vector<int>().swap(rows_); }

    std::size_t size() const noexcept { return rows_.size(); }
    int line(std::size_t i) const noexcept { return rows_[i]; }
    /// Borrowed until a cell of another row is asked for.
    std::string_view cell(std::size_t i, Cell c) const {
        if (columns_[c] == 0) return {};
        if (!read_ || *read_ != i) {
            auto line = static_cast<std::size_t>(rows_[i]) - 1;
            while (reader_->take((*lines_)[line]) == RecordReader::State::open) ++line;
            read_ = i;
        }
        return reader_->cell(static_cast<std::size_t>(columns_[c]) - 1);
    }

private:
    const Lines* lines_ = nullptr;
    int columns_[cells] = {};
    mutable std::optional<RecordReader> reader_;
    mutable std::optional<std::size_t> read_;
    std::vector<int> rows_;
};

}  // namespace coldtally::logger
