#include "logger/ignore_rows.hpp"

#include <re2/re2.h>

#include <algorithm>

#include "logger/message.hpp"
#include "text/limits.hpp"

namespace coldtally::logger {

struct IgnoreRows::Compiled {
    std::vector<std::unique_ptr<const re2::RE2>> expressions;
};

IgnoreRows::IgnoreRows(const std::vector<std::string>& expressions, const std::string& where) {
    re2::RE2::Options options;
    options.set_log_errors(false);
    options.set_max_mem(limits::expression_memory_bytes);
    auto compiled = std::make_shared<Compiled>();
    for (const auto& expression : expressions) {
        const auto refuse = [&](const std::string& why) {
            return Error(Code::bad_value, where + ": ignore_rows: " + shown(expression) + ": " + why);
        };
        if (expression.empty()) throw refuse("an empty expression matches every line");
        auto one = std::make_unique<const re2::RE2>(expression, options);
        if (!one->ok())
            throw refuse("must be a regular expression, without back-references and without looking ahead or behind: " +
                         one->error());
        compiled->expressions.push_back(std::move(one));
    }
    compiled_ = std::move(compiled);
}

bool IgnoreRows::matches(std::string_view line) const {
    if (line.size() > limits::logger_line_bytes) return false;
    return std::any_of(compiled_->expressions.begin(), compiled_->expressions.end(), [&](const auto& expression) {
        return re2::RE2::PartialMatch(re2::StringPiece(line.data(), line.size()), *expression);
    });
}

}  // namespace coldtally::logger
