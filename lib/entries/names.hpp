// Names: the stable names of fixed sets that entries are read with and written in.
#pragma once

#include <string>

#include "coldtally/entries.hpp"

namespace coldtally::entries {

/// Each in the order of its enumeration.
inline constexpr const char* incident_steps[] = {
    "noticed", "supervisor told", "health department told", "manufacturer told", "cause", "action", "closed"};
inline constexpr const char* duty_steps[] = {
    "supervisor told", "health department told", "manufacturer told", "answer", "cause", "action", "closed"};
inline constexpr const char* recipients[] = {"supervisor", "health department", "manufacturer"};

/// "a", "b" or "c"
template <std::size_t n>
std::string names_of(const char* const (&names)[n]) {
    std::string out;
    for (std::size_t i = 0; i < n; ++i)
        out += (i == 0 ? "\"" : i + 1 == n ? " or \"" : ", \"") + std::string(names[i]) + "\"";
    return out;
}

}  // namespace coldtally::entries
