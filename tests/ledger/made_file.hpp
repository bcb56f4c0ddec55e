// Made file: a small ledger, and what somebody who is not this program does to its file.
#pragma once

#include <catch2/catch.hpp>

#include <sqlite3.h>

#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "coldtally/ledger.hpp"

namespace tests {

using namespace coldtally;

inline const Instant now = parse_instant("2026-03-10T12:00:00Z", Zone("UTC"));

inline std::string bytes_of(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

inline void write(const std::string& path, const std::string& bytes) {
    std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
}

/// Seven entries; entry 6 has 700 readings, so two blocks. All of it in range.
inline void make(const std::string& path) {
    std::string rows;
    for (int i = 0; i < 700; ++i)
        rows += (i ? "," : "") + std::string("[\"") + (now - Duration(300 * (701 - i))).text() + "\",\"" +
                std::to_string(3 + i % 4) + "\"]";
    Ledger(path, Ledger::Mode::create).post(R"({"kind":"site","name":"Demo","zone":"UTC","by":"ab"}
{"kind":"product","product":"p","name":"P","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"lot","product":"p","lot":"L","expiry":"2027-05","by":"ab"}
{"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"probe","probe":"k","scale":"C","by":"ab"}
{"kind":"readings","probe":"k","scale":"C","by":"ab","rows":[)" + rows + R"(]}
{"kind":"receive","at":"2026-03-02T08:00:00Z","place":"main","product":"p","lot":"L","doses":10,"by":"ab"})", now);
}

inline constexpr const char* a_check =
    R"({"kind":"check","at":"2026-03-09T08:00:00Z","place":"main","scale":"C","temperature":"5","by":"ab"})";

/// SQLite as anybody may use it.
class Sql {
public:
    explicit Sql(const std::string& path) { REQUIRE(sqlite3_open(path.c_str(), &db_) == SQLITE_OK); }
    ~Sql() { sqlite3_close(db_); }
    Sql(const Sql&) = delete;
    Sql& operator=(const Sql&) = delete;
    /// The error's text, or nothing.
    std::string run(const std::string& sql) {
        char* message = nullptr;
        std::string out;
        if (sqlite3_exec(db_, sql.c_str(), nullptr, nullptr, &message) != SQLITE_OK) out = message;
        sqlite3_free(message);
        return out;
    }
    std::vector<std::string> column(const std::string& sql) {
        std::vector<std::string> out;
        sqlite3_exec(db_, sql.c_str(), [](void* all, int, char** value, char**) {
            static_cast<std::vector<std::string>*>(all)->emplace_back(value[0]);
            return 0;
        }, &out, nullptr);
        return out;
    }

private:
    sqlite3* db_ = nullptr;
};

inline std::string run(const std::string& path, const std::string& sql) { return Sql(path).run(sql); }

/// Takes the triggers away, runs SQL, and puts them back as they were.
inline void tamper(const std::string& path, const std::string& sql) {
    Sql db(path);
    const auto triggers = db.column("SELECT name FROM sqlite_schema WHERE type = 'trigger'");
    const auto made_by = db.column("SELECT sql FROM sqlite_schema WHERE type = 'trigger'");
    REQUIRE(triggers.size() > 20);
    for (const auto& t : triggers) REQUIRE(db.run("DROP TRIGGER " + t).empty());
    INFO(sql);
    REQUIRE(db.run(sql) == "");
    for (const auto& m : made_by) REQUIRE(db.run(m).empty());
}

}  // namespace tests
