// The lines of a file that a layout declares to be no rows.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace coldtally::logger {

/// std::regex recurses once and more for each character: longer lines are not searched, and are no rows either.
inline constexpr std::size_t max_line_bytes = 1024;

class IgnoreRows {
public:
    /// Regular expressions (ECMAScript); Code::bad_value, the message beginning with `where`.
    IgnoreRows(const std::vector<std::string>& expressions, const std::string& where);
    /// One of them is found in the line, which is not too long.
    bool matches(std::string_view line) const;

private:
    struct Compiled;
    std::shared_ptr<const Compiled> compiled_;
};

}  // namespace coldtally::logger
