#include "logger/sample.hpp"

#include <algorithm>

#include "logger/guess.hpp"
#include "logger/lines.hpp"
#include "text/limits.hpp"

namespace coldtally::logger {

namespace {

constexpr std::size_t longest_head = 1u << 18;
constexpr std::uint64_t places = 64;  // of the lines from the rest: enough to show most days of a month

/// The first line that begins behind the byte `at`; empty where it is long, or where there is none.
std::string line_behind(const LoggerFile& file, std::uint64_t at) {
    std::string text(2 * limits::logger_line_bytes, '\0');
    text.resize(read_at(file, at, text.data(), text.size()));
    const auto begin = text.find('\n');
    if (begin == std::string::npos) return {};
    const auto end = text.find('\n', begin + 1);
    return end == std::string::npos ? std::string() : text.substr(begin + 1, end - begin);
}

}  // namespace

std::string sample_of(const LoggerFile& file, int skip_lines) {
    std::string out(longest_head, '\0');
    out.resize(read_at(file, 0, out.data(), out.size()));
    if (out.starts_with("\xFF\xFE") || out.starts_with("\xFE\xFF")) return {};
    std::size_t end = 0;
    for (std::size_t line = 0; line <= static_cast<std::size_t>(skip_lines) + structure_lines; ++line) {
        end = out.find('\n', end);
        if (end == std::string::npos) return {};
        ++end;
    }
    out.resize(end);
    const std::uint64_t rest = size_of(file) - end;
    for (std::uint64_t i = 0; i < places; ++i) out += line_behind(file, end + rest * i / places);
    return out + line_behind(file, size_of(file) - std::min<std::uint64_t>(rest, limits::logger_line_bytes));
}

}  // namespace coldtally::logger
