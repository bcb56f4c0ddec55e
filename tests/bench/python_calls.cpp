// What python_overhead.py compares Python with: the same calls in C++. Prints seconds, one a line.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "coldtally/ledger.hpp"

using namespace coldtally;

namespace {

double seconds_of(const auto& step) {
    const auto start = std::chrono::steady_clock::now();
    step();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

}  // namespace

// lists LEDGER AT RUNS: each run of the question, the first not counted
// import LEDGER ROWS FIRST: rows a minute apart from the second FIRST on, as arrays hold them, into a ledger with a
// probe p1
int main(int count, char** given) {
    const std::string what = count == 5 ? given[1] : "";
    const Zone utc("UTC");
    if (what == "lists") {
        const Ledger ledger(given[2]);
        const Question question{parse_instant(given[3], utc), {}};
        const Instant now = parse_instant("2199-01-01T00:00:00Z", utc);
        std::size_t doses = 0;
        for (int i = -1; i < std::atoi(given[4]); ++i) {
            const double s = seconds_of([&] { doses += ledger.lists(question, now).holdings.size(); });
            if (i >= 0) std::printf("%.9f\n", s);
        }
        return doses == 0;
    }
    if (what == "import") {
        const std::size_t rows = std::strtoull(given[3], nullptr, 10);
        const std::int64_t first = std::strtoll(given[4], nullptr, 10);
        std::vector<std::int64_t> at(rows);
        std::vector<std::int32_t> value(rows);
        for (std::size_t i = 0; i < rows; ++i) {
            at[i] = first + 60 * static_cast<std::int64_t>(i);
            value[i] = static_cast<std::int32_t>(4000 + i * 7 % 900);
        }
        Ledger ledger(given[2], Ledger::Mode::write);
        const auto post = [&](bool dry_run) {
            std::vector<Entry> entries;
            for (std::size_t from = 0; from < rows; from += 100'000) {
                const std::size_t until = std::min(rows, from + 100'000);
                Entry e;
                e.by = "ab";
                Readings r;
                r.probe = "p1";
                r.rows.reserve(until - from);
                for (std::size_t i = from; i < until; ++i) r.rows.push_back({Instant(at[i]), value[i]});
                e.fact = std::move(r);
                entries.push_back(std::move(e));
            }
            ledger.post(std::move(entries), parse_instant("2199-01-01T00:00:00Z", utc), dry_run);
        };
        post(true);  // both sides are timed with memory they have used before
        std::printf("%.9f\n", seconds_of([&] { post(false); }));
        return 0;
    }
    std::fprintf(stderr, "python_calls lists LEDGER AT RUNS | import LEDGER ROWS FIRST\n");
    return 2;
}
