// The lines of a file that a layout declares to be no rows.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace coldtally::logger {

class IgnoreRows {
public:
    /// Regular expressions as RE2 reads them, in time linear in the line; Code::bad_value, the message beginning with
    /// `where`.
    IgnoreRows(const std::vector<std::string>& expressions, const std::string& where);
    /// One of them is found in the line; never in one that is too long for a row.
    bool matches(std::string_view line) const;

private:
    struct Compiled;
    std::shared_ptr<const Compiled> compiled_;
};

}  // namespace coldtally::logger
