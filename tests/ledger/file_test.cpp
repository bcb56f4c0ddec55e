// The file: what is no ledger, or no whole one, is refused in one line; the database defends itself; verify finds what
// was changed behind its back, and says which.
#include <catch2/catch.hpp>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <new>
#include <optional>
#include <stdexcept>
#include <system_error>

#include "ledger/made_file.hpp"
#include "ledger/new_file.hpp"
#include "temporary.hpp"

using namespace coldtally;
using namespace tests;

namespace {

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
    for (const auto& f : found.findings) all += english().say(f) + "\n";
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
    for (const std::string& content : {std::string(), std::string("a,b\n1,2\n"), std::string(5000, '\0'),
                                       std::string("SQLite format 3") + std::string(200, 'x')}) {
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
    REQUIRE(run(file.path(), "PRAGMA user_version = 3").empty());
    check_opening(file.path(), Code::newer_format, "format 3");
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
    for (const char* table : {"entry", "reading_data", "knowledge", "lot", "lot_definition", "holding", "movement",
                              "probe", "batch", "reading_block"}) {
        INFO(table);
        CHECK(run(file.path(), std::string("DELETE FROM ") + table) ==
              "a ledger is append-only: nothing is removed; post a void with its reason");
        const char* column = std::string(table) == "lot"       ? "number"
                             : std::string(table) == "probe"   ? "name"
                             : std::string(table) == "holding" ? "mark"
                                                               : "entry";
        if (std::string(table) == "lot" || std::string(table) == "probe" || std::string(table) == "holding")
            CHECK(run(file.path(), std::string("UPDATE ") + table + " SET " + column + " = 'x'") ==
                  "a ledger is append-only: nothing is changed; post a void with its reason");
        else
            CHECK(run(file.path(), std::string("UPDATE ") + table + " SET " + column + " = 5") ==
                  "a ledger is append-only: nothing is changed; post a void with its reason");
    }
    CHECK(run(file.path(), "INSERT INTO entry VALUES (99, 1e10, 'x', '{}', zeroblob(32))").find("next number") !=
          std::string::npos);
    CHECK(run(file.path(), "INSERT INTO entry VALUES (8, 5, 'x', '{}', zeroblob(32))").find("not recorded before") !=
          std::string::npos);
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
    changed("UPDATE entry SET body = replace(body, '\"doses\":10', '\"doses\":12') WHERE entry = 7",
            "entry 7: altered");
    changed("UPDATE entry SET recorded = recorded + 1 WHERE entry = 7", "entry 7: altered");
    changed("UPDATE entry SET body = (SELECT body FROM entry WHERE entry = 4) WHERE entry = 3", "entry 3: altered");
    changed(
        "CREATE TEMP TABLE t AS SELECT * FROM entry WHERE entry IN (4, 5);"
        "UPDATE entry SET body = (SELECT body FROM t WHERE t.entry = 9 - entry.entry), link = (SELECT link FROM t "
        "WHERE t.entry = 9 - entry.entry) WHERE entry IN (4, 5)",
        "entry 4: altered");
    changed("PRAGMA foreign_keys = OFF; DELETE FROM entry WHERE entry = 4", "entry 4: missing");
    changed("PRAGMA foreign_keys = OFF; DELETE FROM entry WHERE entry = 7", "entry 7: missing");
    changed("PRAGMA foreign_keys = OFF; DELETE FROM entry WHERE entry = 7; UPDATE tip SET entry = 6",
            "tip: the last link");
    changed("UPDATE reading_data SET data = zeroblob(length(data)) WHERE block = 2",
            "entry 6: block 2 of its readings is altered");
    changed("DELETE FROM reading_block WHERE block = 2; DELETE FROM reading_data WHERE block = 2", "entry 6: altered");
    changed("UPDATE reading_block SET highest = 9000 WHERE block = 1", "reading_block: block 1 of entry 6");
    changed("UPDATE batch SET readings = 699", "batch: entry 6");
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
    Ledger(b.path(), Ledger::Mode::write).post(a_check, now);
    CHECK(Ledger(a.path()).verify().chain != Ledger(b.path()).verify().chain);
}

TEST_CASE("a writer waits for another, and then says so") {
    const tests::TemporaryFile file;
    make(file.path());
    Sql other(file.path());
    REQUIRE(other.run("BEGIN IMMEDIATE").empty());
    Ledger ledger(file.path(), Ledger::Mode::write, Duration(0));
    try {
        ledger.post(a_check, now);
        FAIL("was not refused");
    } catch (const Error& e) {
        CHECK(e.code() == Code::busy);
        CHECK(is_machine_failure(e.code()));
    }
    CHECK_NOTHROW(Ledger(file.path()).lists({}, now));  // others read meanwhile
    REQUIRE(other.run("ROLLBACK").empty());
    CHECK_NOTHROW(ledger.post(a_check, now));
}

TEST_CASE("a clock that went back does not stop the work: what is posted counts as recorded with the last entry") {
    const tests::TemporaryFile file;
    make(file.path());
    Ledger ledger(file.path(), Ledger::Mode::write);
    const auto numbers = ledger.post(
        R"({"kind":"check","at":"2026-03-01T08:00:00Z","place":"main","scale":"C","temperature":"5","by":"ab"})",
        now - Duration(3600));
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
    CHECK(ledger.post(a_check, now, true) == std::vector<EntryNumber>{8});
    CHECK_THROWS_AS(
        ledger.post(
            R"({"kind":"check","at":"2026-03-09T08:00:00Z","place":"none","scale":"C","temperature":"5","by":"ab"})",
            now, true),
        Error);
    CHECK(bytes_of(file.path()) == whole);
}

TEST_CASE("a clock before 1970 or after 2199 is refused before anything is written") {
    const tests::TemporaryFile file;
    for (const Instant wrong : {Instant(-1), Instant(7'258'118'400), Instant(INT64_MAX), Instant(INT64_MIN)}) {
        CHECK_THROWS_AS(Ledger(file.path(), Ledger::Mode::create)
                            .post(R"({"kind":"site","name":"Demo","zone":"UTC","by":"ab"})", wrong),
                        Error);
        CHECK_FALSE(std::filesystem::exists(file.path()));
    }
    make(file.path());
    const std::string whole = bytes_of(file.path());
    try {
        Ledger(file.path(), Ledger::Mode::write).post(a_check, Instant(7'258'118'400));
        FAIL("was not refused");
    } catch (const Error& e) {
        CHECK(e.code() == Code::bad_value);
        CHECK(std::string(e.what()).find("clock is wrong") != std::string::npos);
    }
    CHECK_THROWS_AS(Ledger(file.path(), Ledger::Mode::write).post(a_check, Instant(-1)),
                    Error);  // no clock that was set back
    CHECK(bytes_of(file.path()) == whole);
    // the last second that can be written can be read
    CHECK_NOTHROW(Ledger(file.path(), Ledger::Mode::write).post(a_check, Instant(7'258'118'399)));
    CHECK(Ledger(file.path()).verify().findings.empty());
}

TEST_CASE("a ledger is its owner's alone, whatever the umask, and of a killed creation nothing stays") {
    const tests::TemporaryFile file;
    const std::string left = file.path() + ".unfinished-coldtally-Ab3xYz",
                      held = file.path() + ".unfinished-coldtally-Cd4xYz";
    for (const auto& name : {left, left + "-journal", left + "-lock", held, held + "-lock"}) write(name, "x");
    // whatever else lies there is somebody's: a name of ours has six letters or digits, and a lock beside it
    std::vector<std::string> others = {
        file.path() + ".new-monday", file.path() + ".new-Ab3xYz", file.path() + ".unfinished-coldtally-NoLock",
        file.path() + "2.unfinished-coldtally-Ab3xYz", file.path() + "2.unfinished-coldtally-Ab3xYz-lock"};
    for (const std::string end : {"", "Ab3xY", "Ab3xYzz", "Ab3x.z", "Ab3x-z", "Ab3x z", "monday.txt"}) {
        others.push_back(file.path() + ".unfinished-coldtally-" + end);
        others.push_back(others.back() + "-lock");
    }
    others.push_back(file.path() + ".unfinished-coldtally-Ab3xYz-notes");
    others.push_back(file.path() + ".unfinished-coldtally-Ab3xYz-lock-");
    for (const auto& name : others) write(name, "x");
    const int holder = ::open((held + "-lock").c_str(), O_RDWR);
    REQUIRE(flock(holder, LOCK_EX) == 0);
    const mode_t before = umask(0);
    make(file.path());
    umask(before);
    struct stat about;
    REQUIRE(stat(file.path().c_str(), &about) == 0);
    CHECK((about.st_mode & 0777) == 0600);
    CHECK(about.st_nlink == 1);
    CHECK_FALSE(std::filesystem::exists(left));
    CHECK_FALSE(std::filesystem::exists(left + "-journal"));
    CHECK_FALSE(std::filesystem::exists(left + "-lock"));
    CHECK(std::filesystem::exists(held));  // another creation's, in work
    CHECK(std::filesystem::exists(held + "-lock"));
    for (const auto& name : others) {
        INFO(name);
        CHECK(bytes_of(name) == "x");
    }
    close(holder);
}

namespace {

/// Does another process find a lock of this one on the file? Those of SQLite are of fcntl.
bool locked(const std::string& path) {
    const pid_t child = fork();
    if (child == 0) {
        struct flock lock {};
        lock.l_type = F_WRLCK;
        lock.l_whence = SEEK_SET;
        const int file = ::open(path.c_str(), O_RDWR);
        _exit(file >= 0 && fcntl(file, F_GETLK, &lock) == 0 && lock.l_type == F_UNLCK ? 0 : 1);
    }
    int status = 0;
    REQUIRE(waitpid(child, &status, 0) == child);
    return status != 0;
}

/// What this process has open at a path.
int open_at(const std::string& path) {
    int out = 0;
    for (const auto& one : std::filesystem::directory_iterator("/proc/self/fd")) {
        std::error_code gone;
        out += std::filesystem::read_symlink(one.path(), gone) == path;
    }
    return out;
}

}  // namespace

TEST_CASE("whoever opens a new ledger at once keeps the locks that they take on it") {
    // to close any descriptor of a file ends all locks of fcntl that the process holds on it (fcntl(2); SQLite,
    // "How To Corrupt An SQLite Database File", 2.2): whatever keeps a file from being swept away must be no descriptor
    // of it, since another thread may open it the moment it is there
    const tests::TemporaryFile file;
    std::optional<ledger::NewFile> beside(file.path());
    CHECK(open_at(beside->name()) == 0);
    REQUIRE(run(beside->name(), "CREATE TABLE t (x)").empty());
    const std::string name = beside->name();
    beside->publish();
    CHECK_FALSE(std::filesystem::exists(name));
    CHECK_FALSE(std::filesystem::exists(name + "-lock"));
    Sql early(file.path());
    REQUIRE(early.run("BEGIN IMMEDIATE").empty());
    CHECK(locked(file.path()));
    beside.reset();
    CHECK(locked(file.path()));
    REQUIRE(early.run("ROLLBACK").empty());
    CHECK_FALSE(locked(file.path()));
}

TEST_CASE("what a killed creation left is found by the next one there") {
    const tests::TemporaryFile file;
    const auto folder = std::filesystem::path(file.path()).parent_path();
    const auto left = [&] {
        int out = 0;
        for (const auto& one : std::filesystem::directory_iterator(folder))
            out += one.path().string().starts_with(file.path() + ".unfinished-coldtally-");
        return out;
    };
    for (int i = 0; i < 5; ++i) {
        const pid_t child = fork();
        if (child == 0) {
            const ledger::NewFile beside(file.path());
            write(beside.name() + "-journal", "x");
            ::raise(SIGKILL);
        }
        REQUIRE(waitpid(child, nullptr, 0) == child);
        REQUIRE(left() == 3);  // of the one before nothing
    }
    make(file.path());
    CHECK(left() == 0);
}

TEST_CASE("of a creation that ends without a file nothing stays, and none of its names is taken from it in work") {
    const tests::TemporaryFile file;
    const auto folder = std::filesystem::path(file.path()).parent_path();
    const auto count = [&] {
        return std::distance(std::filesystem::directory_iterator(folder), std::filesystem::directory_iterator());
    };
    {
        const ledger::NewFile first(file.path());
        ledger::NewFile second(file.path());  // looks for what was left behind, and finds the first in work
        CHECK(std::filesystem::exists(first.name()));
        CHECK(first.name() != second.name());
        struct stat about;
        REQUIRE(stat(second.name().c_str(), &about) == 0);
        CHECK((about.st_mode & 0777) == 0600);
        write(file.path(), "mine");
        CHECK_THROWS_AS(second.publish(), Error);
        CHECK(std::filesystem::exists(second.name()));
    }
    CHECK(count() == 1);
    CHECK(bytes_of(file.path()) == "mine");
}

TEST_CASE("what a caller's own step throws in the midst of a call is not told as damage") {
    const tests::TemporaryFile file;
    make(file.path());
    const std::string whole = bytes_of(file.path());
    Ledger ledger(file.path(), Ledger::Mode::write);
    ImportRequest request;
    request.probe = "k";
    request.by = "ab";
    const auto next = [](auto error) { return [error]() -> std::optional<LoggerFile> { throw error; }; };
    CHECK_THROWS_AS(ledger.import_readings(request, next(std::invalid_argument("mine")), now), std::invalid_argument);
    CHECK_THROWS_AS(ledger.import_readings(request, next(std::length_error("mine")), now), std::length_error);
    CHECK_THROWS_AS(ledger.import_readings(request, next(std::bad_alloc()), now), std::bad_alloc);
    CHECK_THROWS_AS(ledger.import_readings(request, next(std::system_error(EIO, std::generic_category())), now),
                    std::system_error);
    CHECK(bytes_of(file.path()) == whole);
}

TEST_CASE("a name is a file's name, and what is no file is not waited for") {
    const tests::TemporaryFile file;
    const auto folder = std::filesystem::path(file.path()).parent_path();
    const auto before = std::filesystem::current_path();
    std::filesystem::current_path(folder);
    for (const std::string name : {":memory:", "file:x?mode=memory", "file:y", "a%20b", "-"}) {
        INFO(name);
        make(name);
        CHECK(std::filesystem::exists(folder / name));
        CHECK(Ledger(name).verify().findings.empty());
    }
    std::filesystem::current_path(before);
    REQUIRE(mkfifo(file.path().c_str(), 0600) == 0);
    check_opening(file.path(), Code::not_a_ledger, "a pipe");
    CHECK_THROWS_AS(Ledger(file.path(), Ledger::Mode::create), Error);
}

TEST_CASE("what a killed writer left is taken back, also where the ledger is reached through a link") {
    const tests::TemporaryFile file;
    make(file.path());
    const auto entries = Ledger(file.path()).verify();
    const std::string link = file.path() + "-elsewhere/link";
    std::filesystem::create_directory(file.path() + "-elsewhere");
    std::filesystem::create_symlink(file.path(), link);
    const pid_t child = fork();
    if (child == 0) {  // writes much, and is gone in the middle of it
        Sql db(file.path());
        db.run(
            "PRAGMA cache_size = 2; BEGIN IMMEDIATE; CREATE TABLE much AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL "
            "SELECT i + 1 FROM n WHERE i < 200)"
            " SELECT randomblob(3000) AS bytes FROM n; UPDATE tip SET entry = 99");
        _exit(0);
    }
    REQUIRE(waitpid(child, nullptr, 0) == child);
    REQUIRE(std::filesystem::exists(file.path() + "-journal"));
    CHECK_NOTHROW(Ledger(link).lists({}, now));
    CHECK(Ledger(file.path()).verify().chain == entries.chain);
    CHECK(Ledger(file.path()).verify().findings.empty());
    CHECK_FALSE(std::filesystem::exists(file.path() + "-journal"));
}

TEST_CASE("advice to restore says what to keep") {
    const tests::TemporaryFile file;
    make(file.path());
    const std::string whole = bytes_of(file.path());
    write(file.path(), whole.substr(0, whole.size() / 2));
    check_opening(file.path(), Code::damaged, "keep this file, and the -journal beside it");
}

TEST_CASE("whoever reads an export slowly keeps nobody from posting") {
    const tests::TemporaryFile file;
    make(file.path());
    Ledger reader(file.path());
    int read = 0;
    reader.for_each_entry([&](const Entry&) {
        if (++read == 1) CHECK_NOTHROW(Ledger(file.path(), Ledger::Mode::write, Duration(0)).post(a_check, now));
    });
    CHECK(read == 7);  // as far as there were entries when it began
}
