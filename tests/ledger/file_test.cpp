// The file: what is no ledger, or no whole one, is refused in one line; the database defends itself; verify finds what was
// changed behind its back, and says which.
#include <catch2/catch.hpp>

#include <sqlite3.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "coldtally/ledger.hpp"
#include "temporary.hpp"

using namespace coldtally;

namespace {

const Instant now = parse_instant("2026-03-10T12:00:00Z", Zone("UTC"));

std::string bytes_of(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

void write(const std::string& path, const std::string& bytes) { std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes; }

/// Seven entries; entry 6 has 700 readings, so two blocks.
void make(const std::string& path) {
    std::string rows;
    for (int i = 0; i < 700; ++i) rows += (i ? "," : "") + std::string("[\"") + (now - Duration(300 * (701 - i))).text() + "\",\"" + std::to_string(3 + i % 4) + "\"]";
    Ledger(path, Ledger::Mode::create).post(R"({"kind":"site","name":"Demo","zone":"UTC","by":"ab"}
{"kind":"product","product":"p","name":"P","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"lot","product":"p","lot":"L","expiry":"2027-05","by":"ab"}
{"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"probe","probe":"k","scale":"C","by":"ab"}
{"kind":"readings","probe":"k","scale":"C","by":"ab","rows":[)" + rows + R"(]}
{"kind":"receive","at":"2026-03-02T08:00:00Z","place":"main","product":"p","lot":"L","doses":10,"by":"ab"})", now);
}

/// Runs SQL as somebody who is not this program; the error's text, or nothing.
std::string run(const std::string& path, const std::string& sql) {
    sqlite3* db = nullptr;
    REQUIRE(sqlite3_open(path.c_str(), &db) == SQLITE_OK);
    char* message = nullptr;
    std::string out;
    if (sqlite3_exec(db, sql.c_str(), nullptr, nullptr, &message) != SQLITE_OK) out = message;
    sqlite3_free(message);
    sqlite3_close(db);
    return out;
}

/// Takes the triggers away, then runs SQL.
void tamper(const std::string& path, const std::string& sql) {
    sqlite3* db = nullptr;
    REQUIRE(sqlite3_open(path.c_str(), &db) == SQLITE_OK);
    std::vector<std::string> triggers;
    sqlite3_exec(db, "SELECT name FROM sqlite_schema WHERE type = 'trigger'", [](void* all, int, char** value, char**) {
        static_cast<std::vector<std::string>*>(all)->emplace_back(value[0]);
        return 0;
    }, &triggers, nullptr);
    REQUIRE(triggers.size() > 20);
    for (const auto& t : triggers) REQUIRE(sqlite3_exec(db, ("DROP TRIGGER " + t).c_str(), nullptr, nullptr, nullptr) == SQLITE_OK);
    INFO(sql << ": " << sqlite3_errmsg(db));
    REQUIRE(sqlite3_exec(db, sql.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK);
    sqlite3_close(db);
}

void check_opening(const std::string& path, Code code, const std::string& word) {
    INFO(path);
    try {
        Ledger(path).lists({}, now);
        FAIL("was not refused");
    } catch (const Error& e) {
        INFO(e.what());
        CHECK(code_name(e.code()) == code_name(code));
        CHECK(std::string(e.what()).find(word) != std::string::npos);
        CHECK(std::string(e.what()).find('\n') == std::string::npos);
    }
}

bool finds(const std::string& path, const std::string& word) {
    const auto found = Ledger(path).verify();
    std::string all;
    for (const auto& f : found.findings) all += f + "\n";
    INFO(all);
    CHECK_FALSE(found.findings.empty());
    const bool said = all.find(word) != std::string::npos;
    CHECK(said);
    return said;
}

}  // namespace

TEST_CASE("a file that is no ledger is refused, and stays what it is") {
    const tests::TemporaryFile file;
    check_opening(file.path(), Code::ledger_missing, "no such ledger");
    const std::string folder = std::filesystem::path(file.path()).parent_path().string();
    check_opening(folder, Code::not_a_ledger, "folder");
    for (const std::string& content : {std::string(), std::string("a,b\n1,2\n"), std::string(5000, '\0'), std::string("SQLite format 3") + std::string(200, 'x')}) {
        write(file.path(), content);
        check_opening(file.path(), Code::not_a_ledger, "not a ledger");
        CHECK(bytes_of(file.path()) == content);
    }
    std::filesystem::remove(file.path());
    REQUIRE(run(file.path(), "CREATE TABLE entry (x); PRAGMA application_id = 7").empty());
    const std::string other = bytes_of(file.path());
    check_opening(file.path(), Code::not_a_ledger, "not a ledger");
    CHECK_THROWS_AS(Ledger(file.path(), Ledger::Mode::create).post("{}", now), Error);
    CHECK(bytes_of(file.path()) == other);
}

TEST_CASE("a ledger of a newer format is refused") {
    const tests::TemporaryFile file;
    make(file.path());
    REQUIRE(run(file.path(), "PRAGMA user_version = 2").empty());
    check_opening(file.path(), Code::newer_format, "format 2");
}

TEST_CASE("a truncated ledger is refused") {
    const tests::TemporaryFile file;
    make(file.path());
    const std::string whole = bytes_of(file.path());
    for (std::size_t size = 100; size < whole.size(); size += 3571) {
        INFO(size);
        write(file.path(), whole.substr(0, size));
        check_opening(file.path(), Code::damaged, "truncated");
    }
}

TEST_CASE("a changed byte is refused or found, or was in no use") {
    const tests::TemporaryFile file;
    make(file.path());
    const std::string whole = bytes_of(file.path());
    const std::string answer = [&] {
        std::string all;
        Ledger(file.path()).for_each_entry([&](const Entry& e) { all += to_json(e) + "\n"; });
        return all;
    }();
    int found = 0, unused = 0;
    for (std::size_t i = 0; i < whole.size(); i += 509) {
        std::string changed = whole;
        changed[i] = static_cast<char>(changed[i] ^ 0x55);
        write(file.path(), changed);
        try {
            const Ledger ledger(file.path());
            if (!ledger.verify().findings.empty()) {
                ++found;
                continue;
            }
            std::string all;
            ledger.for_each_entry([&](const Entry& e) { all += to_json(e) + "\n"; });
            INFO("byte " << i);
            CHECK(all == answer);
            ++unused;
        } catch (const Error& e) {
            INFO(e.what());
            CHECK((e.code() == Code::damaged || e.code() == Code::not_a_ledger || e.code() == Code::newer_format));
            ++found;
        }
    }
    INFO(found << " found, " << unused << " in no use");
    CHECK(found > 20);
}

TEST_CASE("the database refuses to change or remove what was posted") {
    const tests::TemporaryFile file;
    make(file.path());
    const std::string whole = bytes_of(file.path());
    for (const char* table : {"entry", "reading_data", "knowledge", "lot", "lot_definition", "holding", "movement", "probe", "batch", "reading_block"}) {
        INFO(table);
        CHECK(run(file.path(), std::string("DELETE FROM ") + table) == "a ledger is append-only: nothing is removed; post a void with its reason");
        const char* column = std::string(table) == "lot" ? "number" : std::string(table) == "probe" ? "name" : std::string(table) == "holding" ? "mark" : "entry";
        if (std::string(table) == "lot" || std::string(table) == "probe" || std::string(table) == "holding")
            CHECK(run(file.path(), std::string("UPDATE ") + table + " SET " + column + " = 'x'") == "a ledger is append-only: nothing is changed; post a void with its reason");
        else
            CHECK(run(file.path(), std::string("UPDATE ") + table + " SET " + column + " = 5") == "a ledger is append-only: nothing is changed; post a void with its reason");
    }
    CHECK(run(file.path(), "INSERT INTO entry VALUES (99, 1e10, 'x', '{}', zeroblob(32))").find("next number") != std::string::npos);
    CHECK(run(file.path(), "INSERT INTO entry VALUES (8, 5, 'x', '{}', zeroblob(32))").find("not recorded before") != std::string::npos);
    CHECK(bytes_of(file.path()) == whole);
}

TEST_CASE("verify finds what was changed behind the ledger's back, and says which") {
    const tests::TemporaryFile file;
    make(file.path());
    REQUIRE(Ledger(file.path()).verify().findings.empty());
    CHECK(Ledger(file.path()).verify().readings == 700);
    const auto changed = [&](const std::string& sql, const std::string& word) {
        INFO(sql);
        const std::string whole = bytes_of(file.path());
        tamper(file.path(), sql);
        CHECK(finds(file.path(), word));
        write(file.path(), whole);
    };
    changed("UPDATE entry SET body = replace(body, '\"doses\":10', '\"doses\":12') WHERE entry = 7", "entry 7: altered");
    changed("UPDATE entry SET recorded = recorded + 1 WHERE entry = 7", "entry 7: altered");
    changed("UPDATE entry SET body = (SELECT body FROM entry WHERE entry = 4) WHERE entry = 3", "entry 3: altered");
    changed("CREATE TEMP TABLE t AS SELECT * FROM entry WHERE entry IN (4, 5);"
            "UPDATE entry SET body = (SELECT body FROM t WHERE t.entry = 9 - entry.entry), link = (SELECT link FROM t WHERE t.entry = 9 - entry.entry) WHERE entry IN (4, 5)",
            "entry 4: altered");
    changed("PRAGMA foreign_keys = OFF; DELETE FROM entry WHERE entry = 4", "entry 4: missing");
    changed("PRAGMA foreign_keys = OFF; DELETE FROM entry WHERE entry = 7", "entry 7: missing");
    changed("PRAGMA foreign_keys = OFF; DELETE FROM entry WHERE entry = 7; UPDATE tip SET entry = 6", "tip: the last link");
    changed("UPDATE reading_data SET data = zeroblob(length(data)) WHERE block = 2", "entry 6: block 2 of its readings is altered");
    changed("DELETE FROM reading_block WHERE block = 2; DELETE FROM reading_data WHERE block = 2", "entry 6: altered");
    changed("UPDATE reading_block SET highest = 9000 WHERE block = 1", "entry 6: block 1: its summary");
    changed("UPDATE batch SET readings = 699", "entry 6: its row in batch");
    changed("UPDATE movement SET doses = 11", "movement: ");
    changed("UPDATE balance SET doses = 11", "balance: ");
    changed("UPDATE lot_definition SET expiry = '2030-01'", "lot_definition: ");
    changed("DELETE FROM knowledge WHERE entry = 5", "knowledge: 5");
    changed("UPDATE probe_extent SET longest_block = 1", "probe_extent: ");
    CHECK(Ledger(file.path()).verify().findings.empty());
}

TEST_CASE("the chain of a ledger is that of its entries, and changes with each") {
    const tests::TemporaryFile a, b;
    make(a.path());
    make(b.path());
    CHECK(Ledger(a.path()).verify().chain == Ledger(b.path()).verify().chain);
    Ledger(b.path(), Ledger::Mode::write).post(R"({"kind":"check","at":"2026-03-09T08:00:00Z","place":"main","scale":"C","temperature":"5","by":"ab"})", now);
    CHECK(Ledger(a.path()).verify().chain != Ledger(b.path()).verify().chain);
}

TEST_CASE("a writer waits for another, and then says so") {
    const tests::TemporaryFile file;
    make(file.path());
    sqlite3* other = nullptr;
    REQUIRE(sqlite3_open(file.path().c_str(), &other) == SQLITE_OK);
    REQUIRE(sqlite3_exec(other, "BEGIN IMMEDIATE", nullptr, nullptr, nullptr) == SQLITE_OK);
    Ledger ledger(file.path(), Ledger::Mode::write, Duration(0));
    try {
        ledger.post(R"({"kind":"check","at":"2026-03-09T08:00:00Z","place":"main","scale":"C","temperature":"5","by":"ab"})", now);
        FAIL("was not refused");
    } catch (const Error& e) {
        CHECK(e.code() == Code::busy);
        CHECK(is_machine_failure(e.code()));
    }
    CHECK_NOTHROW(Ledger(file.path()).lists({}, now));  // others read meanwhile
    sqlite3_exec(other, "ROLLBACK", nullptr, nullptr, nullptr);
    sqlite3_close(other);
    CHECK_NOTHROW(ledger.post(R"({"kind":"check","at":"2026-03-09T08:00:00Z","place":"main","scale":"C","temperature":"5","by":"ab"})", now));
}

TEST_CASE("a clock that went back does not stop the work: what is posted counts as recorded with the last entry") {
    const tests::TemporaryFile file;
    make(file.path());
    Ledger ledger(file.path(), Ledger::Mode::write);
    const auto numbers = ledger.post(R"({"kind":"check","at":"2026-03-01T08:00:00Z","place":"main","scale":"C","temperature":"5","by":"ab"})", now - Duration(3600));
    CHECK(numbers == std::vector<EntryNumber>{8});
    Instant recorded;
    ledger.for_each_entry([&](const Entry& e) { recorded = *e.recorded; });
    CHECK(recorded == now);
}

TEST_CASE("a dry run checks everything and writes nothing") {
    const tests::TemporaryFile file;
    make(file.path());
    const std::string whole = bytes_of(file.path());
    Ledger ledger(file.path(), Ledger::Mode::write);
    CHECK(ledger.post(R"({"kind":"check","at":"2026-03-09T08:00:00Z","place":"main","scale":"C","temperature":"5","by":"ab"})", now, true) == std::vector<EntryNumber>{8});
    CHECK_THROWS_AS(ledger.post(R"({"kind":"check","at":"2026-03-09T08:00:00Z","place":"none","scale":"C","temperature":"5","by":"ab"})", now, true), Error);
    CHECK(bytes_of(file.path()) == whole);
}
