// Limits: every bound on what a file, an entry or an argument may claim, in one place; limits.md says each in words.
#pragma once

#include <cstddef>
#include <cstdint>

namespace coldtally::limits {

// ---- text
inline constexpr std::size_t post_bytes = std::size_t{4} << 30;  ///< the text of a post or a replay
inline constexpr std::size_t line_bytes = 16u << 20;     ///< a line of JSON, and a JSON text
inline constexpr int nesting = 32;                       ///< objects and lists in one another
inline constexpr std::size_t id_characters = 64;         ///< an id, a lot's number, a mark, a fund, initials
inline constexpr std::size_t free_text_characters = 4000;
inline constexpr std::size_t shown_characters = 80;      ///< of a value or an argument, in a message

// ---- quantities
inline constexpr std::int64_t first_second = 0;                  ///< 1970-01-01T00:00:00Z
inline constexpr std::int64_t last_second = 7'258'118'399;       ///< 2199-12-31T23:59:59Z
/// The same with an offset of up to 14 hours, as an entry may state it.
inline constexpr std::int64_t first_instant = first_second - 14 * 3600, last_instant = last_second + 14 * 3600;
inline constexpr std::int64_t doses = 1'000'000'000;             ///< of one entry
inline constexpr std::int64_t seconds = 1'000'000'000;           ///< of a length of time that an entry states
inline constexpr std::int64_t near_s = 7200;
inline constexpr std::int64_t activation_K = 1'000'000;          ///< of a mean kinetic temperature
inline constexpr std::size_t rational_digits = 4000;             ///< of a numerator or denominator
inline constexpr std::int32_t coldest_C = -273'150, hottest_C = 1'000'000;  ///< thousandths of a degree
inline constexpr std::int32_t coldest_F = -459'670, hottest_F = 1'832'000;
inline constexpr std::size_t rows_of_entry = 100'000;            ///< readings

// ---- a clinic's description
inline constexpr std::size_t start_file_bytes = 16u << 20;
inline constexpr std::size_t start_rows = 20'000;

// ---- logger files
inline constexpr std::uint64_t logger_file_bytes = std::uint64_t{512} << 20;
inline constexpr std::size_t logger_rows = 2'000'000;            ///< of one file
inline constexpr std::size_t logger_line_bytes = 1024;           ///< of a row; longer lines are none
inline constexpr int logger_row_lines = 20;                      ///< that a row with quotation marks may go over
inline constexpr int logger_columns = 1000;
inline constexpr int logger_skip_lines = 1'000'000;
inline constexpr int layout_lines = 1'000'000'000;               ///< the highest line that a layout may name
inline constexpr std::size_t layout_texts = 100;                 ///< texts of a list of a layout, clocks too
inline constexpr std::size_t layout_text_bytes = 200;            ///< an expression, a text that means "no reading"
inline constexpr std::int64_t expression_memory_bytes = 1 << 20; ///< that a compiled expression may take

}  // namespace coldtally::limits
