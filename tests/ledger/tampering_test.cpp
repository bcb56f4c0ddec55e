// Tampering: rows and tables that no posting made are kept out, or found, or refused; a question sees what it reads.
#include "ledger/made_file.hpp"

#include "ledger/blocks.hpp"
#include "ledger/chain.hpp"
#include "temporary.hpp"

using namespace coldtally;
using namespace tests;

namespace {

std::string findings(const std::string& path) {
    std::string all;
    for (const auto& f : Ledger(path).verify().findings) all += english().say(f) + "\n";
    return all;
}

/// A second summary of the first block, beside its own, that says much warmer.
constexpr const char* second_summary =
    "INSERT INTO reading_block SELECT probe, first_at - 1, block, entry, readings, last_at, longest_step, first, "
    "30000, lowest, 30000 FROM reading_block WHERE block = 1;"
    "UPDATE probe_extent SET longest_block = longest_block + 1";

/// One row more in each table, as like one of its own as can be.
const std::vector<std::pair<std::string, std::string>> one_row_more = {
    {"entry", "INSERT INTO entry SELECT 8, recorded, kind, body, link FROM entry WHERE entry = 7"},
    {"reading_data", "INSERT INTO reading_data SELECT 3, entry, data, digest FROM reading_data WHERE block = 1"},
    {"knowledge", "INSERT INTO knowledge VALUES (7)"},
    {"lot", "INSERT INTO lot VALUES (2, 'p', 'M')"},
    {"lot_definition", "INSERT INTO lot_definition VALUES (1, 7, '2030-01')"},
    {"holding", "INSERT INTO holding VALUES (2, 1, 'main', 'x', '')"},
    {"movement", "INSERT INTO movement SELECT lot, at + 1, 6, op, source, target, doses, flag FROM movement"},
    {"balance", "PRAGMA foreign_keys = OFF; INSERT INTO balance VALUES (2, 10, 0)"},
    {"handover", "INSERT INTO handover VALUES (7, 1)"},
    {"temperature_check", "INSERT INTO temperature_check VALUES ('main', 1772000000, 7, 'C', 5000, NULL, NULL, NULL)"},
    {"incident", "INSERT INTO incident VALUES (7, 'i', 'main')"},
    {"probe", "INSERT INTO probe VALUES (2, 'm')"},
    {"probe_extent", "PRAGMA foreign_keys = OFF; INSERT INTO probe_extent VALUES (2, 1)"},
    {"batch", "INSERT INTO batch VALUES (7, 1, 1, 2, 700, NULL)"},
    {"reading_block", second_summary},
};

}  // namespace

TEST_CASE("whoever adds rows by SQL is kept out of every table") {
    const tests::TemporaryFile file;
    make(file.path());
    const std::string whole = bytes_of(file.path());
    const auto tables = Sql(file.path()).column("SELECT name FROM sqlite_schema WHERE type = 'table'");
    CHECK(tables.size() == one_row_more.size() + 1);  // and tip, of which there is one
    for (const auto& [table, sql] : one_row_more) {
        INFO(table);
        const std::string refused = run(file.path(), sql);
        if (table != "entry")
            CHECK(refused.find("a ledger is append-only: rows are added by posting an entry") != std::string::npos);
        write(file.path(), whole);
    }
    CHECK(run(file.path(), "INSERT OR REPLACE INTO tip VALUES (1, 7, zeroblob(32))").find("append-only") !=
          std::string::npos);
    CHECK(run(file.path(), "UPDATE tip SET entry = 6").find("append-only") != std::string::npos);
    CHECK(run(file.path(), "DELETE FROM tip").find("append-only") != std::string::npos);
    CHECK(run(file.path(), "UPDATE balance SET doses = 11").find("append-only") != std::string::npos);
    CHECK(run(file.path(), "DELETE FROM balance").find("append-only") != std::string::npos);
    CHECK(run(file.path(), "UPDATE probe_extent SET longest_block = 0").find("append-only") != std::string::npos);
    CHECK(run(file.path(), "INSERT OR REPLACE INTO lot VALUES (1, 'p', 'M')").find("append-only") != std::string::npos);
    CHECK(bytes_of(file.path()) == whole);
}

TEST_CASE("verify finds a row more in every table, and says which") {
    const tests::TemporaryFile file;
    make(file.path());
    const std::string whole = bytes_of(file.path());
    for (const auto& [table, sql] : one_row_more) {
        INFO(table);
        tamper(file.path(), sql);
        const std::string found = findings(file.path());
        INFO(found);
        const std::string says = table == "entry"          ? "entry 8: altered"
                                 : table == "reading_data" ? "block 3 of readings belongs to no entry"
                                                           : table + ": ";
        CHECK(found.find(says) != std::string::npos);
        if (table == "temperature_check" || table == "movement")
            CHECK(std::count(found.begin(), found.end(), '\n') <= 2);  // one row is one finding, or two
        write(file.path(), whole);
    }
}

TEST_CASE("a ledger whose tables, triggers or views are not those of the format is refused at its opening") {
    const tests::TemporaryFile file;
    make(file.path());
    const std::string whole = bytes_of(file.path());
    const std::vector<std::pair<std::string, std::string>> changes = {
        {"DROP TRIGGER movement_is_never_changed", "movement_is_never_changed"},
        {"DROP INDEX batch_by_file", "batch_by_file"},
        {"CREATE VIEW v AS SELECT * FROM entry", "view v"},
        {"CREATE TABLE more (x)", "table more"},
        {"CREATE INDEX i ON movement (doses)", "index i"},
        {"CREATE TRIGGER t AFTER INSERT ON entry BEGIN UPDATE balance SET doses = 0; END", "trigger t"},
        {"DROP TRIGGER probe_is_never_changed; CREATE TRIGGER probe_is_never_changed BEFORE UPDATE ON probe BEGIN "
         "SELECT 1; END",
         "probe_is_never_changed"},
        {"ALTER TABLE balance ADD COLUMN y INTEGER", "table balance"},
        {"DROP TRIGGER movement_is_never_changed; DROP TRIGGER movement_is_never_removed; DROP TRIGGER "
         "movement_is_added_with_its_entry;"
         "PRAGMA foreign_keys = OFF; ALTER TABLE movement RENAME TO old; CREATE TABLE movement AS SELECT * FROM old; "
         "DROP TABLE old",
         "movement"},
    };
    for (const auto& [sql, word] : changes) {
        INFO(sql);
        REQUIRE(run(file.path(), sql) == "");
        try {
            Ledger(file.path()).lists({}, now);
            FAIL("was not refused");
        } catch (const Error& e) {
            INFO(e.what());
            CHECK(e.code() == Code::damaged);
            CHECK(std::string(e.what()).find(word) != std::string::npos);
            CHECK(std::string(e.what()).find("changed by other means") != std::string::npos);
        }
        write(file.path(), whole);
    }
}

TEST_CASE("absurd numbers in the file end in a few findings, at once") {
    const tests::TemporaryFile file;
    make(file.path());
    const std::string whole = bytes_of(file.path());
    for (const char* sql :
         {"UPDATE tip SET entry = 4000000000000", "UPDATE tip SET entry = 9223372036854775807",
          "UPDATE batch SET blocks = 4000000000000", "UPDATE batch SET first_block = 9223372036854775807",
          "UPDATE batch SET first_block = -9223372036854775808, blocks = 9223372036854775807",
          "PRAGMA foreign_keys = OFF; UPDATE entry SET entry = 9223372036854775807 WHERE entry = 7",
          "PRAGMA ignore_check_constraints = ON; UPDATE movement SET doses = 9223372036854775807",
          "UPDATE movement SET op = 77", "UPDATE movement SET target = 4611686018427387904",
          "UPDATE movement SET target = NULL", "UPDATE reading_block SET readings = 4000000000000",
          "UPDATE reading_block SET first_at = -9223372036854775808, last_at = 9223372036854775807",
          "UPDATE probe_extent SET longest_block = -9223372036854775808"}) {
        INFO(sql);
        tamper(file.path(), sql);
        const auto found = Ledger(file.path()).verify();
        CHECK(found.findings_in_all > 0);
        CHECK(found.findings.size() <= 101);
        try {
            Ledger(file.path()).lists({}, now);
            Ledger(file.path()).readings("k", Instant(0), now, {}, now);
        } catch (const Error& e) {
            CHECK(e.code() == Code::damaged);
        }
        write(file.path(), whole);
    }
}

TEST_CASE("findings are counted, and the first hundred told") {
    const tests::TemporaryFile file;
    make(file.path());
    std::string checks;
    for (int i = 0; i < 150; ++i)
        checks += R"({"kind":"check","at":"2026-03-09T08:00:)" + std::to_string(10 + i % 50) +
                  R"(Z","place":"main","scale":"C","temperature":"5","by":"ab"})"
                  "\n";
    Ledger(file.path(), Ledger::Mode::write).post(checks, now);
    tamper(file.path(), "UPDATE temperature_check SET temperature = 6000");
    const auto found = Ledger(file.path()).verify();
    CHECK(found.findings_in_all == 300);  // each as it is, and as it should be
    REQUIRE(found.findings.size() == 101);
    CHECK(english().say(found.findings.back()) == "and 200 more");
    CHECK(found.findings.back().code() == "findings-more");
}

TEST_CASE("a question sees where a block or an entry that it reads is altered") {
    const tests::TemporaryFile file;
    make(file.path());
    const std::string whole = bytes_of(file.path());
    const auto refused = [&](const std::string& sql, const auto& question, const std::string& word) {
        INFO(sql);
        tamper(file.path(), sql);
        try {
            question(Ledger(file.path()));
            FAIL_CHECK("was answered");
        } catch (const Error& e) {
            INFO(e.what());
            CHECK(e.code() == Code::damaged);
            CHECK(std::string(e.what()).find(word) != std::string::npos);
        }
        write(file.path(), whole);
    };
    const auto lists = [](const Ledger& l) { l.lists({}, now); };
    const auto readings = [](const Ledger& l) { l.readings("k", Instant(0), now, {}, now); };
    refused("UPDATE reading_data SET data = CAST(substr(data, 1, length(data) - 1) || x'06' AS BLOB) WHERE block = 2",
            readings, "block 2 of readings is altered");
    refused(
        "DELETE FROM reading_block WHERE block = 2; DELETE FROM reading_data WHERE block = 2",
        [](const Ledger& l) { l.for_each_entry([](const Entry&) {}); }, "entry 6 is altered");
    refused("UPDATE entry SET body = replace(body, '\"8\"', '\"18\"') WHERE entry = 4", lists, "entry 4 is altered");
    refused("PRAGMA foreign_keys = OFF; DELETE FROM entry WHERE entry = 4", lists, "entry 4 is missing");
    refused("DELETE FROM knowledge WHERE entry = 1", lists, "the entry that names the site is missing");
    refused("PRAGMA foreign_keys = OFF; DELETE FROM entry WHERE entry = 7", lists, "the last entry is not the one");
}

TEST_CASE("a block of another hand, with its digest and every link made to fit, harms nothing") {
    using namespace coldtally::ledger;
    const auto number = [](std::uint64_t n) {
        Bytes out;
        for (; n >= 0x80; n >>= 7) out += static_cast<unsigned char>(n | 0x80);
        return out + Bytes(1, static_cast<unsigned char>(n));
    };
    const auto block = [&](std::initializer_list<std::uint64_t> numbers) {
        Bytes out;
        for (const auto n : numbers) out += number(n);
        return out;
    };
    const std::uint64_t at = 2 * 1'770'000'000ull;  // zigzag
    for (const Bytes& bytes : {
             block({2, at, 300, 8000, 1, 1, UINT64_MAX, 300, 2}),  // one step ahead of so many that the index wraps
             block({4, at, 300, 8000, 1, 2, 2, 300, UINT64_MAX - 1, 300, 0, 0, 0}),
             block({1'000'000, at, 300, 8000, 1, 0}),
             block({513, at, 300, 8000, 1, 0}),
             block({UINT64_MAX, at, 300, 8000, 1, 0}),
             block({0, at, 300, 8000, 1, 0}),
             block({2, UINT64_MAX, 300, 8000, 1, 0, 2}),  // instants out of all bounds
             block({2, at, UINT64_MAX, 8000, 1, 0, 2}),
             block({3, at, 300, 8000, 1, 1, 1, UINT64_MAX, 2, 2}),
             block({3, at, 0, 8000, 1, 0, 2, 2}),
             block({3, at, 300, 8000, 1, 1, 1, 0, 2, 2}),  // that do not ascend
             block({2, at, 300, UINT64_MAX, 1, 0, 2}),
             block({2, at, 300, 8000, 0, 0, 2}),
             block({2, at, 300, 8000, UINT64_MAX, 0, 2}),
             block({2, at, 300, 8000, 1, UINT64_MAX, 2}),
         }) {
        std::vector<Reading> out;
        const std::string_view view(reinterpret_cast<const char*>(bytes.data()), bytes.size());
        CHECK_THROWS_AS(decode_block(view, out), Error);
        CHECK_THROWS_AS(decode_block_over(view, out), Error);
    }
    // temperatures that add up beyond 32 bits are some temperature of 32 bits, and no overflow
    std::vector<Reading> out;
    const Bytes far = block({3, at, 300, 8000, 4'000'000'000, 0, UINT64_MAX, UINT64_MAX});
    CHECK_NOTHROW(decode_block({reinterpret_cast<const char*>(far.data()), far.size()}, out));
    CHECK(out.size() == 3);
}
