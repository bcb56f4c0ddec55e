// What every way of answering the benchmark's stays is given, and what it prints.
#pragma once

#include <array>
#include <cstdint>
#include <cstdio>
#include <fstream>
#include <string>
#include <vector>

#include "site.hpp"

namespace bench {

/// Tolerance of the benchmark's certificates, °C.
inline constexpr double tolerance_C = 0.2;
/// Longest step between two readings that is still logged.
inline constexpr std::int64_t max_gap_s = 3600;

/// Seconds: warm, cold and frozen, each at least, estimate, at most; and logged.
using Sums = std::array<double, 10>;

inline std::vector<Stay> read_stays(const std::string& path) {
    std::vector<Stay> out;
    std::ifstream in(path);
    Stay s{};
    char comma;
    while (in >> s.place >> comma >> s.from >> comma >> s.until) out.push_back(s);
    return out;
}

inline void print(const std::vector<Sums>& all) {
    for (const Sums& s : all) {
        for (std::size_t i = 0; i < s.size(); ++i) std::printf("%s%.9f", i ? "," : "", s[i]);
        std::printf("\n");
    }
}

}  // namespace bench
