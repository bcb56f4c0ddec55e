// bench_sqlite_rows import FOLDER DB | stays FOLDER DB: plain SQLite, one row a reading, prepared inserts in one
// transaction; the stays by reading each place once and by running sums.
#include <sqlite3.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <cstring>
#include <ctime>

#include "stays.hpp"

namespace {

void run(sqlite3* db, const char* sql) {
    if (sqlite3_exec(db, sql, nullptr, nullptr, nullptr) != SQLITE_OK) {
        std::fprintf(stderr, "%s: %s\n", sql, sqlite3_errmsg(db));
        std::exit(3);
    }
}

std::int64_t seconds_of(const char* p) {
    std::tm f{};
    f.tm_year = std::atoi(std::string(p, 4).c_str()) - 1900;
    f.tm_mon = std::atoi(std::string(p + 5, 2).c_str()) - 1;
    f.tm_mday = std::atoi(std::string(p + 8, 2).c_str());
    f.tm_hour = std::atoi(std::string(p + 11, 2).c_str());
    f.tm_min = std::atoi(std::string(p + 14, 2).c_str());
    f.tm_sec = std::atoi(std::string(p + 17, 2).c_str());
    return timegm(&f);
}

int import_all(sqlite3* db, const std::string& folder) {
    run(db, "PRAGMA synchronous = FULL");
    run(db, "CREATE TABLE reading (place INTEGER, at INTEGER, degrees REAL, PRIMARY KEY (place, at)) WITHOUT ROWID");
    run(db, "BEGIN");
    sqlite3_stmt* insert;
    sqlite3_prepare_v2(db, "INSERT INTO reading VALUES (?, ?, ?)", -1, &insert, nullptr);
    for (int place = 0; place < bench::places; ++place) {
        std::ifstream in(folder + "/probe-" + std::to_string(place) + ".csv");
        std::string line;
        std::getline(in, line);
        while (std::getline(in, line)) {
            sqlite3_bind_int(insert, 1, place);
            sqlite3_bind_int64(insert, 2, seconds_of(line.c_str()));
            sqlite3_bind_double(insert, 3, std::atof(line.c_str() + 21));
            sqlite3_step(insert);
            sqlite3_reset(insert);
        }
    }
    sqlite3_finalize(insert);
    run(db, "COMMIT");
    return 0;
}

double above(double v0, double v1, double c, double n) {
    if (v0 <= c && v1 <= c) return 0;
    if (v0 >= c && v1 >= c) return n;
    return n * (std::max(v0, v1) - c) / std::fabs(v1 - v0);
}

/// What the line from reading k to the next adds, up to `part` seconds of it.
bench::Sums line(const bench::Bounds& b, double p, double q, double n, double part) {
    bench::Sums s{};
    if (n > bench::max_gap_s) return s;
    const double lo = b.low / 1000.0, hi = b.high / 1000.0, f = b.freeze / 1000.0, u = bench::tolerance_C,
                 v1 = p + (q - p) * part / n;
    s[0] = p > hi + u && q > hi + u ? part : 0;
    s[1] = above(p, v1, hi, part);
    s[2] = p > hi - u || q > hi - u ? part : 0;
    s[3] = p < lo - u && q < lo - u ? part : 0;
    s[4] = above(-p, -v1, -lo, part);
    s[5] = p < lo + u || q < lo + u ? part : 0;
    if (b.has_freeze) {
        s[6] = p <= f - u && q <= f - u ? part : 0;
        s[7] = above(-p, -v1, -f, part);
        s[8] = p <= f + u || q <= f + u ? part : 0;
    }
    s[9] = part;
    return s;
}

int answer_stays(sqlite3* db, const std::string& folder) {
    const auto stays = bench::read_stays(folder + "/stays.csv");
    std::vector<bench::Sums> out(stays.size());
    sqlite3_stmt* select;
    sqlite3_prepare_v2(db, "SELECT at, degrees FROM reading WHERE place = ? ORDER BY at", -1, &select, nullptr);
    for (int place = 0; place < bench::places; ++place) {
        const auto bounds = bench::bounds_of(place);
        std::vector<std::int64_t> at;
        std::vector<double> degrees;
        std::vector<bench::Sums> before;  // of all lines before reading k
        sqlite3_bind_int(select, 1, place);
        while (sqlite3_step(select) == SQLITE_ROW) {
            at.push_back(sqlite3_column_int64(select, 0));
            degrees.push_back(sqlite3_column_double(select, 1));
            const std::size_t k = at.size() - 1;
            before.push_back(k ? before.back() : bench::Sums{});
            if (k) {
                const double n = static_cast<double>(at[k] - at[k - 1]);
                const auto s = line(bounds, degrees[k - 1], degrees[k], n, n);
                for (std::size_t i = 0; i < s.size(); ++i) before[k][i] += s[i];
            }
        }
        sqlite3_reset(select);
        const auto up_to = [&](std::int64_t t) {
            const auto k = static_cast<std::size_t>(std::upper_bound(at.begin(), at.end(), t) - at.begin());
            if (k == 0) return bench::Sums{};
            bench::Sums s = before[k - 1];
            if (k < at.size() && t > at[k - 1]) {
                const auto part = line(bounds, degrees[k - 1], degrees[k], static_cast<double>(at[k] - at[k - 1]),
                                       static_cast<double>(t - at[k - 1]));
                for (std::size_t i = 0; i < s.size(); ++i) s[i] += part[i];
            }
            return s;
        };
        for (std::size_t i = 0; i < stays.size(); ++i) {
            if (stays[i].place != place) continue;
            const auto a = up_to(stays[i].from), b = up_to(stays[i].until);
            for (std::size_t q = 0; q < a.size(); ++q) out[i][q] = b[q] - a[q];
        }
    }
    sqlite3_finalize(select);
    bench::print(out);
    return 0;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 4) return 2;
    sqlite3* db;
    if (sqlite3_open(argv[3], &db) != SQLITE_OK) return 3;
    const int status = std::strcmp(argv[1], "import") == 0 ? import_all(db, argv[2]) : answer_stays(db, argv[2]);
    sqlite3_close(db);
    return status;
}
