// Lines and cells of a logger's file. Quoting and delimiters are libcsv's work.
#pragma once

#include <csv.h>

#include <string>
#include <string_view>
#include <vector>

namespace coldtally::logger {

bool is_blank(std::string_view line) noexcept;

/// Makes records of lines; a record has several where a quoted cell holds line ends.
class RecordReader {
public:
    enum class State { complete, open, malformed };

    /// Strict: a quotation mark inside an unquoted cell, or behind a quoted one, is malformed. std::bad_alloc.
    RecordReader(char delimiter, bool strict);
    RecordReader(const RecordReader&) = delete;
    RecordReader& operator=(const RecordReader&) = delete;
    ~RecordReader();

    /// The next line of the record. After `complete` or `malformed` the next call begins another record.
    State take(std::string_view line);
    /// Forgets an open record.
    void reset();

    /// The cells of a complete record; they borrow from the reader until the next call.
    std::size_t size() const noexcept { return ends_.size(); }
    std::string_view cell(std::size_t i) const noexcept {
        const std::size_t from = i == 0 ? 0 : ends_[i - 1];
        return std::string_view(text_).substr(from, ends_[i] - from);
    }

private:
    static void on_cell(void* text, std::size_t length, void* self);
    static void on_record(int end, void* self);
    void begin();

    csv_parser parser_;
    char delimiter_;
    bool strict_, open_ = false, complete_ = false, out_of_memory_ = false;
    std::string text_;
    std::vector<std::size_t> ends_;
};

}  // namespace coldtally::logger
