// bench_pieces: the pieces that everything else is made of, with Google Benchmark.
#include <benchmark/benchmark.h>

#include "exposure/part.hpp"
#include "exposure/sum.hpp"
#include "ledger/blocks.hpp"
#include "site.hpp"

namespace {

std::vector<coldtally::Reading> block(int digits) {
    std::vector<coldtally::Reading> out;
    for (const auto& r : bench::readings_of(0, 1, digits)) {
        out.push_back({coldtally::Instant(r.at), r.thousandths});
        if (out.size() == coldtally::ledger::readings_per_block) break;
    }
    return out;
}

void encode(benchmark::State& state) {
    const auto rows = block(static_cast<int>(state.range(0)));
    std::size_t bytes = 0;
    for (auto _ : state) benchmark::DoNotOptimize(bytes = coldtally::ledger::encode_block(rows).size());
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(rows.size()));
    state.counters["bytes/reading"] = static_cast<double>(bytes) / static_cast<double>(rows.size());
}
BENCHMARK(encode)->Arg(1)->Arg(3);

void decode(benchmark::State& state) {
    const auto rows = block(static_cast<int>(state.range(0)));
    const auto data = coldtally::ledger::encode_block(rows);
    std::vector<coldtally::Reading> out;
    for (auto _ : state) {
        out.clear();
        coldtally::ledger::decode_block({reinterpret_cast<const char*>(data.data()), data.size()}, out);
        benchmark::DoNotOptimize(out.data());
    }
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(rows.size()));
}
BENCHMARK(decode)->Arg(1)->Arg(3);

/// A line that crosses the upper limit.
void crossing(benchmark::State& state) {
    using namespace coldtally;
    exposure::Limits limits;
    limits.low = exposure::ticks(2000);
    limits.high = exposure::ticks(8000);
    limits.bands = {{exposure::ticks(8000), exposure::ticks(25000)}};
    exposure::Sums sums(1);
    std::int32_t i = 0;
    for (auto _ : state) {
        const auto v0 = exposure::ticks(7000 + i % 900), v1 = exposure::ticks(9000 - i % 700);
        exposure::add_line<Wide>(sums, limits, Scale::C, {v0, 0}, {v1, 0}, {v0, v1, 1, 300, 1});
        i += 100;
    }
    benchmark::DoNotOptimize(sums.total());
}
BENCHMARK(crossing);

/// Sums of many denominators, joined at the end.
void join_sum(benchmark::State& state) {
    for (auto _ : state) {
        coldtally::exposure::Sum sum;
        for (std::int64_t d = 1; d <= state.range(0); ++d) sum.add(300 * d + 1, 2 * d + 1);
        benchmark::DoNotOptimize(sum.total());
    }
}
BENCHMARK(join_sum)->Arg(10)->Arg(1000);

}  // namespace

BENCHMARK_MAIN();
