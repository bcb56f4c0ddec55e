// A small ledger with a row in every table and an entry of every kind, and every question that can be asked of it.
// All of it is invented.
#pragma once

#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "coldtally/ledger.hpp"

namespace faults {

/// The instant that every question is asked for; all entries are recorded before it.
coldtally::Instant asked_at();

/// Fills a new ledger at `path`: some eighty entries in batches of days of their own, and logger files.
void make_clinic(const std::string& path);

/// A logger's file for probe "bath" of the clinic, five-minute readings of `rows` rows from day `day` on, and the
/// layout that reads it.
coldtally::LoggerFile logger_file(int day, int rows);
coldtally::ImportRequest logger_request();

/// A batch that the clinic takes at any time: `count` checks of a refrigerator in seconds of their own, the first
/// numbered `serial`, and with it a give.
std::string batch(int serial, int count);

/// A clinic's own few definitions, which begin a new ledger of four entries.
std::string definitions();

struct Question {
    std::string name;
    /// Opens nothing itself; the answer as text. Throws what the library throws.
    std::function<std::string(coldtally::Ledger&)> ask;
};

/// All of them, each of one call of the library, and its table where it has one.
const std::vector<Question>& questions();

}  // namespace faults
