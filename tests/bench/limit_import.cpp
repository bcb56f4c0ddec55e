// bench_limit_import FOLDER OUT [PLACES]: the logger files as fast as they can be read: a parser of exactly this form
// and of no other, that looks at nothing twice and trusts every byte; arrays, one write and one sync a place.
#include <fcntl.h>
#include <sys/stat.h>
#include <sys/uio.h>
#include <unistd.h>

#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <string>
#include <vector>

#include "site.hpp"

namespace {

constexpr std::size_t shortest_row = sizeof "2015-01-01T00:00:00Z,4.2\n" - 1;

int two(const char* p) { return (p[0] - '0') * 10 + (p[1] - '0'); }

/// Days since 1970 of a Gregorian date.
std::int64_t days(int y, int m, int d) {
    y -= m <= 2;
    const int era = y / 400, yoe = y - era * 400, doy = (153 * (m + (m > 2 ? -3 : 9)) + 2) / 5 + d - 1;
    return std::int64_t{era} * 146097 + yoe * 365 + yoe / 4 - yoe / 100 + doy - 719468;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 3 && argc != 4) return 2;
    const int places = argc == 4 ? std::atoi(argv[3]) : bench::places;
    const std::string folder = argv[1];
    // what a place has need of is had once: buffers grow to the largest file, and stay
    std::vector<char> text;
    std::vector<std::int32_t> at, value;
    for (int place = 0; place < places; ++place) {
        const int in = open((folder + "/probe-" + std::to_string(place) + ".csv").c_str(), O_RDONLY);
        struct stat st;
        if (in < 0 || fstat(in, &st) != 0) return 3;
        const auto size = static_cast<std::size_t>(st.st_size);
        if (text.size() < size + 1) text.resize(size + 1);
        if (read(in, text.data(), size) != st.st_size) return 3;
        close(in);
        if (at.size() < size / shortest_row + 1) at.resize(size / shortest_row + 1), value.resize(at.size());
        const char *p = text.data(), *end = p + size;
        while (*p++ != '\n') {
        }
        std::size_t rows = 0;
        const char* day = nullptr;  // the row whose date was read last
        std::int32_t midnight = 0;
        for (; p < end; ++rows) {  // 2015-01-01T00:00:00Z,4.2
            if (!day || std::memcmp(p, day, 10) != 0) {
                day = p;
                midnight = static_cast<std::int32_t>(days(two(p) * 100 + two(p + 2), two(p + 5), two(p + 8)) * 86400);
            }
            at[rows] = midnight + two(p + 11) * 3600 + two(p + 14) * 60 + two(p + 17);
            p += 21;
            const bool negative = *p == '-';
            p += negative;
            std::int32_t v = 0;
            for (; *p != '.'; ++p) v = v * 10 + (*p - '0');
            v *= 1000;
            ++p;
            for (std::int32_t unit = 100; *p != '\n'; ++p, unit /= 10) v += (*p - '0') * unit;
            ++p;
            value[rows] = negative ? -v : v;
        }
        const int out =
            open((std::string(argv[2]) + "." + std::to_string(place)).c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0644);
        const auto bytes = rows * sizeof(std::int32_t);
        const iovec both[] = {{at.data(), bytes}, {value.data(), bytes}};
        if (out < 0 || writev(out, both, 2) != static_cast<ssize_t>(2 * bytes) || fsync(out) != 0) return 3;
        close(out);
    }
}
