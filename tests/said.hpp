// Said: what answers say, as people read it in English, and by its code.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/words.hpp"

namespace coldtally::tests {

inline bool says(const std::vector<std::string>& all, const std::string& part) {
    return std::ranges::any_of(all, [&](const auto& one) { return one.find(part) != std::string::npos; });
}
inline bool says(const std::vector<Remark>& all, const std::string& part) { return says(english().say(all), part); }

/// "a; b"
inline std::string said_as_one(const std::vector<Remark>& all, const char* between = "; ") {
    std::string out;
    for (const auto& one : english().say(all)) out += (out.empty() ? "" : between) + one;
    return out;
}

/// Is one of them that phrase, whatever its words are?
inline bool has_code(const std::vector<Remark>& all, std::string_view code) {
    return std::ranges::any_of(all, [&](const Remark& one) { return one.code() == code; });
}

}  // namespace coldtally::tests
