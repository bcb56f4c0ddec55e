// Clinic: a ledger in a file of its own that goes when it goes, filled from lines of JSON.
#pragma once

#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include "coldtally/forms.hpp"
#include "coldtally/ledger.hpp"

namespace coldtally::tests {

inline Instant at(const std::string& text) { return parse_instant(text, Zone("UTC")); }

class Clinic {
public:
    Clinic() : folder_(make_folder()), ledger((folder_ / "clinic.ledger").string(), Ledger::Mode::create) {}
    ~Clinic() {
        std::error_code ignored;
        std::filesystem::remove_all(folder_, ignored);
    }
    Clinic(const Clinic&) = delete;
    Clinic& operator=(const Clinic&) = delete;

    /// Posts lines of which `by` is left out.
    std::vector<EntryNumber> post(const std::vector<std::string>& lines,
                                  const std::string& now = "2030-01-01T00:00:00Z") {
        std::string text;
        for (const auto& line : lines) text += line.substr(0, line.size() - 1) + R"(,"by":"QA"})" + "\n";
        return ledger.post(text, at(now));
    }

private:
    static std::filesystem::path make_folder() {
        std::string pattern = (std::filesystem::temp_directory_path() / "coldtally-clinic-XXXXXX").string();
        if (!mkdtemp(pattern.data())) throw std::runtime_error("no folder for a test");
        return pattern;
    }
    std::filesystem::path folder_;

public:
    Ledger ledger;
};

/// Readings of probe p in °C: (seconds after `start`, degrees).
inline std::string readings(const std::string& start, const std::vector<std::pair<std::int64_t, std::string>>& rows,
                            const std::string& probe = "p") {
    std::string out = R"({"kind":"readings","probe":")" + probe + R"(","scale":"C","rows":[)";
    for (std::size_t i = 0; i < rows.size(); ++i)
        out += std::string(i ? "," : "") + "[\"" + (at(start) + Duration(rows[i].first)).text() + "\",\"" +
               rows[i].second + "\"]";
    return out + "]}";
}

}  // namespace coldtally::tests
