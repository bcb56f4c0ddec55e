// bench_limit_stays FOLDER: the stays as fast as they can be summed: arrays mapped into memory, one pass, doubles.
#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>

#include <algorithm>
#include <cmath>

#include "stays.hpp"

namespace {

/// What one line between two readings adds, up to `share` of its length.
struct Line {
    double v0, v1, n;
};

double above(double v0, double v1, double c, double n) {
    if (v0 <= c && v1 <= c) return 0;
    if (v0 >= c && v1 >= c) return n;
    return n * (std::max(v0, v1) - c) / std::fabs(v1 - v0);
}

/// `n` seconds from v0 to v1, judged by the readings p and q at the ends of the whole line.
void add(bench::Sums& s, const bench::Bounds& b, double p, double q, double v0, double v1, double n) {
    const double lo = b.low / 1000.0, hi = b.high / 1000.0, f = b.freeze / 1000.0, u = bench::tolerance_C;
    s[9] += n;
    if (std::max(p, q) > hi - u) {
        s[2] += n;
        s[1] += above(v0, v1, hi, n);
        if (std::min(p, q) > hi + u) s[0] += n;
    }
    if (std::min(p, q) < lo + u) {
        s[5] += n;
        s[4] += above(-v0, -v1, -lo, n);
        if (std::max(p, q) < lo - u) s[3] += n;
    }
    if (b.has_freeze && std::min(p, q) <= f + u) {
        s[8] += n;
        s[7] += v0 == f && v1 == f ? n : above(-v0, -v1, -f, n);
        if (std::max(p, q) <= f - u) s[6] += n;
    }
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 2) return 2;
    const std::string folder = argv[1];
    const auto stays = bench::read_stays(folder + "/stays.csv");
    const int fd = open((folder + "/readings.bin").c_str(), O_RDONLY);
    struct stat st;
    if (fd < 0 || fstat(fd, &st) != 0) return 3;
    const auto size = static_cast<std::size_t>(st.st_size);
    const char* p = static_cast<const char*>(mmap(nullptr, size, PROT_READ, MAP_PRIVATE | MAP_POPULATE, fd, 0));

    std::vector<bench::Sums> out(stays.size());
    for (int place = 0; place < bench::places; ++place) {
        const auto count = *reinterpret_cast<const std::int64_t*>(p);
        const auto* at = reinterpret_cast<const std::int64_t*>(p + 8);
        const auto* degrees = reinterpret_cast<const double*>(p + 8 + 8 * count);
        p += 8 + 16 * count;
        // where the running sums are read off: (instant, stay, is it the end)
        struct Mark {
            std::int64_t at;
            std::size_t stay;
            bool end;
        };
        std::vector<Mark> marks;
        for (std::size_t i = 0; i < stays.size(); ++i)
            if (stays[i].place == place)
                marks.push_back({stays[i].from, i, false}), marks.push_back({stays[i].until, i, true});
        std::sort(marks.begin(), marks.end(), [](const Mark& a, const Mark& b) { return a.at < b.at; });
        const auto bounds = bench::bounds_of(place);
        bench::Sums run{};
        std::size_t m = 0;
        const auto read_off = [&](const bench::Sums& sums) {
            for (std::size_t i = 0; i < sums.size(); ++i) out[marks[m].stay][i] += marks[m].end ? sums[i] : -sums[i];
            ++m;
        };
        for (std::int64_t k = 0; k + 1 < count; ++k) {
            const std::int64_t n = at[k + 1] - at[k];
            while (m < marks.size() && marks[m].at < at[k + 1]) {
                bench::Sums cut = run;
                const double part = static_cast<double>(marks[m].at - at[k]);
                if (n <= bench::max_gap_s && part > 0)
                    add(cut, bounds, degrees[k], degrees[k + 1], degrees[k],
                        degrees[k] + (degrees[k + 1] - degrees[k]) * part / static_cast<double>(n), part);
                read_off(cut);
            }
            if (n <= bench::max_gap_s)
                add(run, bounds, degrees[k], degrees[k + 1], degrees[k], degrees[k + 1], static_cast<double>(n));
        }
        while (m < marks.size()) read_off(run);
    }
    bench::print(out);
}
