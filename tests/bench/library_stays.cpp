// bench_library_stays FOLDER LEDGER: the stays by the library, exactly; printed as doubles for comparison.
#include <algorithm>
#include <numeric>
#include <tuple>

#include "exposure/engine.hpp"
#include "ledger/known.hpp"
#include "ledger/store.hpp"
#include "stays.hpp"

int main(int argc, char** argv) {
    if (argc != 3) return 2;
    const auto stays = bench::read_stays(std::string(argv[1]) + "/stays.csv");
    const auto store = coldtally::ledger::Store::open(argv[2], false, 1000);
    const coldtally::ledger::Transaction read(store.database(), coldtally::ledger::Transaction::Kind::read);
    const auto known = coldtally::ledger::Known::load(store, store.tip().entry);
    coldtally::exposure::Engine engine(store, known, bench::end_of(4) + 365 * 86400);
    // place by place and in the order of time, so that neighbours share what is decoded
    std::vector<std::size_t> order(stays.size());
    std::iota(order.begin(), order.end(), 0);
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return std::tie(stays[a].place, stays[a].until) < std::tie(stays[b].place, stays[b].until);
    });
    std::vector<bench::Sums> out(stays.size());
    for (const std::size_t n : order) {
        const auto& s = stays[n];
        const auto& product = *known.product(bench::is_freezer(s.place) ? "product-3" : "product-0");
        const auto e = engine.over(product, "unit-" + std::to_string(s.place), s.from, s.until, false);
        bench::Sums sums{};
        std::size_t i = 0;
        for (const auto* side : {&e.warm, &e.cold, &e.frozen})
            for (const auto* r : {&side->at_least, &side->estimate, &side->at_most}) sums[i++] = r->to_double();
        sums[9] = e.seconds[0].to_double();
        out[n] = sums;
    }
    bench::print(out);
}
