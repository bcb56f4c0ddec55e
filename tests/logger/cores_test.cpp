// On how many cores an import runs changes nothing of what it writes.
#include <catch2/catch.hpp>

#include <sched.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "coldtally/ledger.hpp"

using namespace coldtally;

namespace {

/// While it is there, this thread and those that it starts run on one core.
class OneCore {
public:
    OneCore() {
        REQUIRE(::sched_getaffinity(0, sizeof all_, &all_) == 0);
        cpu_set_t one;
        CPU_ZERO(&one);
        int core = 0;
        while (!CPU_ISSET(core, &all_)) ++core;
        CPU_SET(core, &one);
        REQUIRE(::sched_setaffinity(0, sizeof one, &one) == 0);
    }
    ~OneCore() { ::sched_setaffinity(0, sizeof all_, &all_); }

private:
    cpu_set_t all_;
};

std::string file_of(int year) {
    std::string out = "Time,Temp (C)\n";
    char line[64];
    for (int i = 0; i < 52'000; ++i) {
        std::snprintf(line, sizeof line, "%d-%02d-%02d %02d:%02d,%d.%d\n", year, 1 + i / 288 / 28, 1 + i / 288 % 28,
                      i / 12 % 24, i % 12 * 5, 3 + i % 4, i % 7 * 3 % 10);
        out += line;
    }
    return out;
}

/// The bytes of a ledger into which both files were imported: one held, the other asked for a part at a time.
std::string ledger_with(const std::string& held, const std::string& asked_for) {
    const auto path = std::filesystem::temp_directory_path() / ("coldtally-cores-" + std::to_string(::getpid()));
    std::filesystem::remove(path);
    {
        Ledger ledger(path.string(), Ledger::Mode::create);
        const Instant now(1772452800);  // 2026-03-02T12:00:00Z
        ledger.post(R"({"kind":"site","name":"Demo","zone":"America/Phoenix","by":"ab"}
{"kind":"probe","probe":"p","scale":"C","by":"ab"}
)",
                    now);
        ImportRequest request;
        request.probe = "p";
        request.by = "ab";
        LoggerFile second{"second.csv", {}};
        second.size = asked_for.size();
        second.read = [&asked_for](std::uint64_t at, char* into, std::size_t size) {
            return asked_for.copy(into, size, static_cast<std::size_t>(at));
        };
        const auto report = ledger.import_readings(request, {{"first.csv", held}, second}, now);
        REQUIRE(report.files.size() == 2);
        for (const auto& file : report.files) CHECK(file.rows_kept == 52'000);
        // there already, and read in vain where it is hashed on another core
        CHECK(ledger.import_readings(request, {second}, now).files[0].known_already);
    }
    std::ifstream in(path, std::ios::binary);
    std::string bytes{std::istreambuf_iterator<char>(in), {}};
    in.close();
    std::filesystem::remove(path);
    return bytes;
}

}  // namespace

TEST_CASE("an import writes the same bytes on one core and on several", "[logger][cores]") {
    const std::string first = file_of(2024), second = file_of(2025);
    REQUIRE(first.size() > 1u << 20);
    const std::string several = ledger_with(first, second);
    REQUIRE(several.size() > 100'000);
    const OneCore one;
    CHECK(ledger_with(first, second) == several);
}
