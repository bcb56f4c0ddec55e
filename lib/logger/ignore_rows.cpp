// std::regex with a sanitizer: g++ 12 sees uninitialised members that are not there (GCC bug 105562)
#pragma GCC diagnostic ignored "-Wmaybe-uninitialized"

#include "logger/ignore_rows.hpp"

#include <algorithm>
#include <regex>

#include "logger/message.hpp"

namespace coldtally::logger {

struct IgnoreRows::Compiled {
    std::vector<std::regex> expressions;
};

IgnoreRows::IgnoreRows(const std::vector<std::string>& expressions, const std::string& where) {
    auto compiled = std::make_shared<Compiled>();
    for (const auto& expression : expressions) {
        const auto refuse = [&](const std::string& why) { return Error(Code::bad_value, where + ": ignore_rows: " + shown(expression) + ": " + why); };
        if (expression.empty()) throw refuse("an empty expression matches every line");
        try {
            compiled->expressions.emplace_back(expression, std::regex::ECMAScript | std::regex::optimize);
        } catch (const std::regex_error& e) {
            throw refuse(std::string("must be a regular expression (ECMAScript): ") + e.what());
        }
    }
    compiled_ = std::move(compiled);
}

bool IgnoreRows::matches(std::string_view line) const {
    if (line.size() > max_line_bytes) return false;
    return std::any_of(compiled_->expressions.begin(), compiled_->expressions.end(),
                       [&](const std::regex& r) { return std::regex_search(line.begin(), line.end(), r); });
}

}  // namespace coldtally::logger
