// Lines: the lines of a logger's file as UTF-8, read from the file when they are asked for. Whatever its size, some
// blocks of lines are held, and where each block begins.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/logger.hpp"

namespace coldtally::logger {

/// The bytes of a file, wherever they are.
std::uint64_t size_of(const LoggerFile& file) noexcept;
/// Up to `size` of them from byte `at` on; fewer only at its end.
std::size_t read_at(const LoggerFile& file, std::uint64_t at, char* into, std::size_t size);

/// Appends Latin-1 as UTF-8.
void add_latin1(std::string_view text, std::string& out);

class Lines {
public:
    /// Of longer lines this much and no more is seen.
    static constexpr std::size_t longest = 16u << 10;

    /// Reads the file once, to its end. UTF-8, UTF-16 with its byte order mark, or else Latin-1. Borrows the file.
    /// Code::bad_text: damaged UTF-16, NULs, nothing but blanks.
    explicit Lines(const LoggerFile& file);

    std::size_t size() const noexcept { return count_; }
    /// Without its end (LF, CR LF, or CR alone). Borrowed until lines of three other blocks were asked for.
    std::string_view operator[](std::size_t i) const;
    bool latin1() const noexcept { return encoding_ == Encoding::latin1; }

private:
    enum class Encoding { utf8, latin1, utf16_little, utf16_big };
    struct Mark {
        std::uint64_t from;  ///< its first byte in the file
        std::size_t line;    ///< its first line
    };
    struct Block {
        std::size_t first = 0, lines = 0;
        std::string text;
        std::vector<std::size_t> ends;
        std::uint64_t asked = 0;
    };
    class Scan;

    void load(std::size_t mark, Block& into) const;

    const LoggerFile& file_;
    Encoding encoding_ = Encoding::utf8;
    std::vector<Mark> marks_;
    std::size_t count_ = 0;
    mutable std::array<Block, 3> blocks_;
    mutable std::size_t last_ = 0;
    mutable std::uint64_t asked_ = 0;
};

}  // namespace coldtally::logger
