// bench_limit_import FOLDER OUT: the logger files as fast as they can be read: a parser for this one form, arrays, one
// write and one sync a place.
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdint>
#include <string>
#include <vector>

#include "site.hpp"

namespace {

int two(const char* p) { return (p[0] - '0') * 10 + (p[1] - '0'); }

/// Days since 1970 of a Gregorian date.
std::int64_t days(int y, int m, int d) {
    y -= m <= 2;
    const int era = y / 400, yoe = y - era * 400, doy = (153 * (m + (m > 2 ? -3 : 9)) + 2) / 5 + d - 1;
    return std::int64_t{era} * 146097 + yoe * 365 + yoe / 4 - yoe / 100 + doy - 719468;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 3) return 2;
    const std::string folder = argv[1];
    std::vector<char> text;
    for (int place = 0; place < bench::places; ++place) {
        const int in = open((folder + "/probe-" + std::to_string(place) + ".csv").c_str(), O_RDONLY);
        struct stat st;
        if (in < 0 || fstat(in, &st) != 0) return 3;
        text.resize(static_cast<std::size_t>(st.st_size));
        if (read(in, text.data(), text.size()) != st.st_size) return 3;
        close(in);
        std::vector<std::int32_t> at, value;
        at.reserve(text.size() / 25);
        value.reserve(text.size() / 25);
        const char *p = text.data(), *end = p + text.size();
        while (*p++ != '\n') {
        }
        while (p < end) {  // 2015-01-01T00:00:00Z,4.2
            const std::int64_t t = days(two(p) * 100 + two(p + 2), two(p + 5), two(p + 8)) * 86400 +
                                   two(p + 11) * 3600 + two(p + 14) * 60 + two(p + 17);
            p += 21;
            const bool negative = *p == '-';
            p += negative;
            std::int32_t v = 0;
            for (; *p != '.'; ++p) v = v * 10 + (*p - '0');
            v *= 1000;
            ++p;
            for (std::int32_t unit = 100; *p != '\n'; ++p, unit /= 10) v += (*p - '0') * unit;
            ++p;
            at.push_back(static_cast<std::int32_t>(t));
            value.push_back(negative ? -v : v);
        }
        const int out =
            open((std::string(argv[2]) + "." + std::to_string(place)).c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0644);
        at.insert(at.end(), value.begin(), value.end());
        const auto bytes = static_cast<ssize_t>(at.size() * sizeof(std::int32_t));
        if (out < 0 || write(out, at.data(), static_cast<std::size_t>(bytes)) != bytes || fsync(out) != 0) return 3;
        close(out);
    }
}
