// Logger: the text files that temperature loggers write, how they are laid out, and what became of each row.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/entries.hpp"
#include "coldtally/error.hpp"
#include "coldtally/quantities.hpp"
#include "coldtally/words.hpp"

namespace coldtally {

/// From which line of a file on the logger's clock was another: of that line and all below it. One of `zone`, `offset`
/// and `at` is set.
struct ClockFrom {
    int line = 1;
    std::optional<std::string> zone;  ///< the IANA zone it is in from there on
    std::optional<Duration> offset;   ///< what it shows less UTC: whole seconds, up to 14 hours
    /// The right time of the row in that line, "2026-03-02T08:30:00" of the site's zone or with Z or an offset: from
    /// there on the clock is off by one length of time.
    std::optional<std::string> at;
    friend bool operator==(const ClockFrom&, const ClockFrom&) = default;
};

/// What varies between loggers. Columns count from 1. What is not set is guessed from the file.
struct LoggerLayout {
    std::optional<char> delimiter;             ///< ',', ';', tab, ...
    std::optional<char> decimal;               ///< '.' or ','
    std::optional<int> skip_lines;             ///< lines before the first row, column titles among them
    std::optional<int> date_column, time_column, temperature_column;
    std::optional<int> instant_column;         ///< date and time in one column, instead of the two
    std::optional<std::string> date_pattern;   ///< of %Y %y %m %d %b; "%d/%m/%Y"; %b: an English month
    std::optional<std::string> time_pattern;   ///< of %H %I %M %S %p
    std::optional<std::string> instant_pattern;///< both, and %z
    std::optional<std::string> zone;           ///< IANA zone of the logger's clock; not set: the site's
    std::optional<Duration> offset;            ///< or its fixed offset from UTC
    std::optional<Scale> scale;                ///< not set: the probe's, where the file does not say otherwise
    std::optional<int> scale_column;           ///< a column that says "C" or "F" in each row
    /// 0.1, 0.01 or 0.001 degrees: readings are rounded to it, halves away from zero.
    std::optional<TemperatureDifference> resolution;
    std::vector<ClockFrom> clocks;             ///< lines from which on the clock was another, ascending; of one file
    std::vector<std::string> no_reading;       ///< texts that mean that nothing was measured
    std::vector<std::string> ignore_rows;      ///< regular expressions, those of RE2; a matching line is no row

    /// From a layout file; Code::bad_json, Code::unknown_field, Code::bad_value with the field's name.
    static LoggerLayout parse(std::string_view json);
    /// The layout file that states what is set.
    std::string text() const;
};

struct LoggerFile {
    std::string name;     ///< for messages and the entry's source; without folders
    std::string content;  ///< its bytes
    /// In place of the content, of a file too large to be held: puts up to `size` bytes from byte `at` on, and returns
    /// how many; fewer only at its end. It is asked several times, by one thread at a time, for the same bytes.
    std::function<std::size_t(std::uint64_t at, char* into, std::size_t size)> read = nullptr;
    std::uint64_t size = 0;  ///< in bytes, of what `read` gives
};

/// The file at a path ("-": standard input), under its name. A small one is read, of a large one a part at a time while
/// it is imported: Code::machine where it cannot be read, then too, or where it changes meanwhile.
LoggerFile open_logger_file(const std::string& path);

struct ImportRequest {
    std::string probe;
    std::string by;            ///< initials
    LoggerLayout layout;
    bool accept_guesses = false;  ///< go on where the guess is ambiguous
    bool loosen = false;  ///< post also what loosens anything, or disagrees with a display; see loosening.hpp
    std::optional<std::string> note;
};

/// One file of an import.
struct ImportedFile {
    std::string name, sha256;
    bool known_already = false;       ///< the same bytes are in the ledger: nothing was added
    LoggerLayout layout;              ///< as used
    std::vector<Remark> guesses;      ///< what was guessed
    std::vector<Remark> ambiguous;    ///< which of them could be otherwise
    std::int64_t rows_read = 0;       ///< rows with an instant and a reading
    std::int64_t rows_kept = 0;       ///< new to the ledger
    std::int64_t rows_repeated = 0;   ///< equal to a row of this file or of the ledger
    std::int64_t rows_without_reading = 0;
    std::int64_t rows_ignored = 0;    ///< lines before the rows, empty lines, lines to ignore
    std::int64_t rows_rounded = 0;    ///< readings that the layout's resolution changed
    std::optional<std::string> largest_change;  ///< by how many degrees at most, in decimals; not set: none was rounded
    std::vector<Remark> remarks;      ///< what was settled: clock changes, backward steps, each with its line
    std::optional<Instant> from, until;  ///< first and last reading
    std::optional<Duration> longest_step;
    std::vector<EntryNumber> entries; ///< posted
};

struct ImportReport {
    std::vector<ImportedFile> files;
    std::vector<Remark> warnings;  ///< what all of them together loosen, and which devices disagree
};

/// What lets a refused file through: the fields to state besides those that were given. They are facts; how somebody
/// states them (options, arguments, a layout file) is for whoever shows them.
struct Remedy {
    std::string when;     ///< what must be so for it to be right; empty: nothing
    LoggerLayout layout;  ///< only the fields to state
};

/// Files of loggers that are refused, with all that is known of why. what() says it in one line, the remedies as a
/// layout states them.
class LoggerRefusal : public Error {
public:
    struct Row {
        std::string file;
        int line = 0;
        std::string what;  ///< field, value, what would be right
    };
    struct Facts {
        std::string found;            ///< what is wrong, in one line; of unreadable rows: in which files, and how many
        std::vector<Row> rows;        ///< the first that cannot be read, most_rows at most, in the order of the files
        std::int64_t unreadable = 0;  ///< how many rows cannot be read in all
        bool can_accept = false;      ///< what was guessed may be accepted as it is
        std::vector<Remedy> remedies;
        std::int64_t without_remedy = 0;  ///< unreadable rows that no remedy lets through
    };
    static constexpr std::size_t most_rows = 20;

    LoggerRefusal(Code code, Facts facts);
    const Facts& facts() const noexcept { return *facts_; }

private:
    std::shared_ptr<const Facts> facts_;  // copied while thrown: never fails
};

}  // namespace coldtally
