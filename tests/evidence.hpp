// Evidence: what a test compared with others, a JSON line each, for the page on validation.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace tests {

/// Into the folder that COLDTALLY_EVIDENCE names; nowhere where it names none.
inline void report(const std::string& part, const std::vector<nlohmann::ordered_json>& lines) {
    const char* folder = std::getenv("COLDTALLY_EVIDENCE");
    if (!folder) return;
    std::filesystem::create_directories(folder);
    std::ofstream out(std::filesystem::path(folder) / (part + ".jsonl"));
    for (const auto& line : lines) out << line.dump() << '\n';
}

}  // namespace tests
