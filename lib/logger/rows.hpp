// The cells of a file's rows that matter, before they are understood.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace coldtally::logger {

/// One text holds all cells: a file has up to millions of rows.
class RawRows {
public:
    enum Cell { date, time, temperature, scale, cells };  ///< `date` holds the instant where one column has both

    void add(int line, const std::string_view (&row)[cells]) {
        Row r{line, text_.size(), {}};
        for (int c = 0; c < cells; ++c) {
            text_ += row[c];
            r.ends[c] = static_cast<std::uint32_t>(text_.size() - r.from);
        }
        rows_.push_back(r);
    }
    std::size_t size() const noexcept { return rows_.size(); }
    int line(std::size_t i) const noexcept { return rows_[i].line; }
    std::string_view cell(std::size_t i, Cell c) const noexcept {
        const Row& r = rows_[i];
        const std::uint32_t from = c == 0 ? 0 : r.ends[c - 1];
        return std::string_view(text_).substr(r.from + from, r.ends[c] - from);
    }

private:
    struct Row {
        int line;
        std::size_t from;
        std::uint32_t ends[cells];
    };
    std::string text_;
    std::vector<Row> rows_;
};

}  // namespace coldtally::logger
