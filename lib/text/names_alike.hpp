// Names alike: two ways of writing one name, as people do.
#pragma once

#include <algorithm>
#include <string_view>

namespace coldtally::text {

/// One of two names within the other, whatever the case of letters a to z: people shorten names.
inline bool named_alike(std::string_view a, std::string_view b) {
    const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
    const auto holds = [&](std::string_view whole, std::string_view part) {
        const auto same = [&](char x, char y) { return lower(x) == lower(y); };
        return part.empty() || std::search(whole.begin(), whole.end(), part.begin(), part.end(), same) != whole.end();
    };
    return holds(a, b) || holds(b, a);
}

}  // namespace coldtally::text
