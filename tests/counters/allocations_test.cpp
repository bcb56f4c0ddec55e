// Allocations of an import, counted by an operator new of our own; a program apart, since it replaces that of all.
#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <new>
#include <string>
#include <unistd.h>

#include "coldtally/ledger.hpp"

static std::atomic<long> allocations{0};

void* operator new(std::size_t size) {
    ++allocations;
    if (void* p = std::malloc(size ? size : 1)) return p;
    throw std::bad_alloc();
}
void operator delete(void* p) noexcept { std::free(p); }
void operator delete(void* p, std::size_t) noexcept { std::free(p); }

int main() {
    using namespace coldtally;
    const auto path = std::filesystem::temp_directory_path() / ("coldtally-allocations-" + std::to_string(getpid()));
    std::filesystem::remove(path);
    const Instant start(1767225600), now = start + Duration(400 * 86400);
    const long rows = 50'000;
    long used = 0;
    {
        Ledger ledger(path.string(), Ledger::Mode::create);
        ledger.post(
            "{\"kind\":\"site\",\"name\":\"A\",\"zone\":\"UTC\",\"by\":\"ab\"}\n{\"kind\":\"probe\",\"probe\":\"q\","
            "\"scale\":\"C\",\"by\":\"ab\"}",
            now);
        std::string csv = "instant,degrees\n";
        for (long i = 0; i < rows; ++i) csv += (start + Duration(i * 300)).text() + (i % 2 ? ",4.5\n" : ",4.6\n");
        ImportRequest request;
        request.probe = "q";
        request.by = "ab";
        request.layout = LoggerLayout::parse(
            R"({"delimiter":",","decimal":".","skip_lines":1,"columns":{"instant":1,"temperature":2},)"
            R"("instant_pattern":"%Y-%m-%dT%H:%M:%S%z","scale":"C"})");
        const std::vector<LoggerFile> files{{"a.csv", csv}};
        const long before = allocations;
        const auto report = ledger.import_readings(request, files, now);
        used = allocations - before;
        if (report.files.at(0).rows_kept != rows) {
            std::printf("kept %lld rows of %ld\n", static_cast<long long>(report.files.at(0).rows_kept), rows);
            return 1;
        }
    }
    std::filesystem::remove(path);
    std::printf("%ld allocations for %ld readings\n", used, rows);
    // some for each block of 512 and for the head of the file; none for each reading
    return used * 10 <= rows ? 0 : 1;
}
