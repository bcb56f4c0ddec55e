// Unreadable: the rows of a file that cannot be read, and what would let the others through.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/logger.hpp"
#include "logger/lines.hpp"

namespace coldtally::logger {

class Unreadable {
public:
    /// What lets the others through: not to take the line for a row; its cell's text for "no reading"; a resolution;
    /// the offset of a clock that does not change; nothing.
    enum class Way { ignore, no_reading, resolution, offset, none };

    /// `value`: the text, or the offset as a layout states it.
    void add(int line, std::string what, Way way, std::string_view value = {});
    bool any() const noexcept { return !rows_.empty(); }
    std::size_t size() const noexcept { return rows_.size(); }

    /// All of them together, Code::bad_row. `lines` are those of the file, of which the first `skipped` are before the
    /// rows; a row may go over several lines where `delimiter` and quotation marks make it.
    LoggerRefusal refusal(const std::string& file, const Lines& lines, std::size_t skipped,
                          char delimiter) const;

private:
    struct Row {
        int line;
        Way way;
    };
    std::vector<Row> rows_;
    std::vector<LoggerRefusal::Row> first_;  // what is wrong with some of the first of them
    std::set<std::string> texts_, offsets_;
    std::vector<int> untold_;  // lines whose text is one too many
};

/// The same of several files.
LoggerRefusal together(const std::vector<LoggerRefusal>& refusals);

}  // namespace coldtally::logger
