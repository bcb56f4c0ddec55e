// Reader: the readings in a logger's text file.
#pragma once

#include <optional>
#include <vector>

#include "coldtally/entries.hpp"
#include "coldtally/logger.hpp"
#include "logger/rows.hpp"

namespace coldtally::logger {

struct ReadFile {
    std::vector<FileRow> rows;  ///< ascending by instant, equal ones once
    ImportedFile
        report;  ///< all but what the ledger knows: sha256, known_already and entries; rows_kept are those of the file
};

/// Reads all rows or none. Code::bad_text, Code::bad_row, Code::ambiguous, Code::wrong_scale, Code::readings_differ,
/// Code::bad_value (the layout), each with the file's name and, for a row, its line. With `accept_guesses` an ambiguous
/// guess is taken; a time that cannot be settled is refused all the same.
ReadFile read_logger_file(const LoggerFile& file, const LoggerLayout& layout, const Zone& site_zone, Scale probe_scale,
                          bool accept_guesses);

/// The two ways in which that is done, with the same outcome. The quick one gives nothing where it is not sure of a
/// file, and where the file is to be refused: the careful one finds the words.
std::optional<ReadFile> read_quickly(const LoggerFile& file, const LoggerLayout& layout, const Zone& site_zone,
                                     Scale probe_scale, bool accept_guesses);
ReadFile read_carefully(const LoggerFile& file, const LoggerLayout& layout, const Zone& site_zone, Scale probe_scale,
                        bool accept_guesses);

/// Code::bad_text for a file that is too large to be read, before anything of it is.
void check_size(const LoggerFile& file);

}  // namespace coldtally::logger
