#include "logger/table.hpp"

#include <new>

namespace coldtally::logger {

bool is_blank(std::string_view line) noexcept { return line.find_first_not_of(" \t") == std::string_view::npos; }

RecordReader::RecordReader(char delimiter, bool strict) : delimiter_(delimiter), strict_(strict) { begin(); }

RecordReader::~RecordReader() { csv_free(&parser_); }

void RecordReader::begin() {
    if (csv_init(&parser_, strict_ ? CSV_STRICT : 0) != 0) throw std::bad_alloc();
    csv_set_delim(&parser_, static_cast<unsigned char>(delimiter_));
    open_ = false;
}

void RecordReader::reset() {
    csv_free(&parser_);
    begin();
}

// No exception may cross the C code that calls these two.
void RecordReader::on_cell(void* text, std::size_t length, void* self) {
    auto& reader = *static_cast<RecordReader*>(self);
    try {
        reader.text_.append(static_cast<const char*>(text), length);
        reader.ends_.push_back(reader.text_.size());
    } catch (const std::bad_alloc&) {
        reader.out_of_memory_ = true;
    }
}

void RecordReader::on_record(int, void* self) { static_cast<RecordReader*>(self)->complete_ = true; }

RecordReader::State RecordReader::take(std::string_view line) {
    if (!open_) {
        text_.clear();
        ends_.clear();
        complete_ = false;
    }
    open_ = true;
    const auto feed = [&](std::string_view part) {
        return csv_parse(&parser_, part.data(), part.size(), on_cell, on_record, this) == part.size();
    };
    const bool well_formed = feed(line) && feed("\n");
    if (out_of_memory_) throw std::bad_alloc();
    if (!well_formed) {
        const bool memory = csv_error(&parser_) != CSV_EPARSE;
        reset();
        if (memory) throw std::bad_alloc();
        return State::malformed;
    }
    open_ = !complete_ && parser_.quoted;  // a blank line is a record without cells
    return open_ ? State::open : State::complete;
}

}  // namespace coldtally::logger
