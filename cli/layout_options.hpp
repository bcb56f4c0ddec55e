// LayoutOptions: how a logger's files are laid out, from a layout file and from options that go before it.
#pragma once

#include <string>
#include <vector>

#include "coldtally/logger.hpp"
#include "command.hpp"

namespace coldtally::cli {

/// Texts as given; empty: not given.
struct LayoutOptions {
    std::string file;
    std::string delimiter, decimal, skip_lines, columns, date_pattern, time_pattern, instant_pattern, zone, offset,
        scale, resolution;
    std::vector<std::string> clock_from, no_reading, ignore;
};
void add_layout_options(CLI::App& command, LayoutOptions& options);

/// The layout file's, with what the options say instead. Code::bad_value and the codes of LoggerLayout::parse.
LoggerLayout read_layout(const LayoutOptions& options);

/// A refusal, a line each: what is wrong, the rows, and the options that would let the file through, as a shell takes
/// them.
std::vector<std::string> lines_of(const LoggerRefusal& refusal);

}  // namespace coldtally::cli
