// The lines of a file that a layout declares to be no rows.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace coldtally::logger {

/// Longer lines are not searched, and are no rows either: the rows of a logger are short.
inline constexpr std::size_t max_line_bytes = 1024;

class IgnoreRows {
public:
    /// Regular expressions as RE2 reads them, in time linear in the line; Code::bad_value, the message beginning with `where`.
    IgnoreRows(const std::vector<std::string>& expressions, const std::string& where);
    /// One of them is found in the line, which is not too long.
    bool matches(std::string_view line) const;

private:
    struct Compiled;
    std::shared_ptr<const Compiled> compiled_;
};

}  // namespace coldtally::logger
