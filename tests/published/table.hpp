// Table: the blocks of published values, as read from a text file.
#pragma once

#include <string>
#include <vector>

namespace published {

struct Row {
    int line = 0;
    std::string input, expected;
    std::string here, because;  ///< of a value that the library does not agree with; both or none
};

struct Block {
    int line = 0;
    std::string question, publication, edition, where, seen, unit, tolerance, given;
    std::vector<Row> rows;
};

/// std::runtime_error, naming the line, for whatever README.md does not allow.
std::vector<Block> read(const std::string& text);

}  // namespace published
