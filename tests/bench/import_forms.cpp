// bench_import_forms: what a row costs to read in each form that loggers write, with Google Benchmark; no layout is
// given. To be compared with the plain form, the first. The rows are of a year, made from integers alone.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <functional>
#include <string>
#include <vector>

#include "logger/reader.hpp"
#include "site.hpp"

namespace {

struct Row {
    std::tm clock;
    std::string degrees;
    std::int64_t number;
};

using Line = std::function<std::string(const Row&)>;

std::string printed(const char* form, auto... values) {
    char out[64];
    std::snprintf(out, sizeof out, form, values...);
    return out;
}

std::string date(const std::tm& t) { return printed("%04d-%02d-%02d", t.tm_year + 1900, t.tm_mon + 1, t.tm_mday); }
std::string time_of(const std::tm& t) { return printed("%02d:%02d:%02d", t.tm_hour, t.tm_min, t.tm_sec); }

std::string with_comma(std::string degrees) {
    std::replace(degrees.begin(), degrees.end(), '.', ',');
    return degrees;
}

enum class Order { oldest_first, newest_first, repeated };

/// Every tenth row of `repeated` is there twice.
std::string file_of(const char* title, const Line& line, const char* end, Order order) {
    std::vector<std::string> lines;
    std::int64_t number = 0;
    for (const auto& r : bench::readings_of(0, 1, 1)) {
        const std::time_t at = r.at;
        Row row{{}, bench::decimal_text(r.thousandths, 1), ++number};
        gmtime_r(&at, &row.clock);
        lines.push_back(line(row) + end);
        if (order == Order::repeated && number % 10 == 0) lines.push_back(lines.back());
    }
    if (order == Order::newest_first) std::reverse(lines.begin(), lines.end());
    std::string out = title + std::string(end);
    for (const auto& l : lines) out += l;
    return out;
}

void read(benchmark::State& state, const char* title, const Line& line, const char* end, Order order,
          coldtally::Scale scale, const char* zone) {
    const coldtally::LoggerFile file{"x.csv", file_of(title, line, end, order)};
    const coldtally::Zone site(zone);
    std::int64_t rows = 0;
    for (auto _ : state) {
        const auto out = coldtally::logger::read_logger_file(file, {}, site, scale, true);
        rows = out.report.rows_read;
        benchmark::DoNotOptimize(out.rows.data());
    }
    state.SetItemsProcessed(state.iterations() * rows);
}

}  // namespace

int main(int argc, char** argv) {
    const Line plain = [](const Row& r) { return date(r.clock) + "T" + time_of(r.clock) + "Z," + r.degrees; };
    const auto add = [](const char* name, const char* title, const Line& line, const char* end = "\n",
                        Order order = Order::oldest_first, coldtally::Scale scale = coldtally::Scale::C,
                        const char* zone = "UTC") {
        benchmark::RegisterBenchmark(name, [=](benchmark::State& state) {
            read(state, title, line, end, order, scale, zone);
        })->Unit(benchmark::kMillisecond);
    };
    add("plain", "Time,Temperature (C)", plain);
    add("cr_lf", "Time,Temperature (C)", plain, "\r\n");
    add("newest_first", "Time,Temperature (C)", plain, "\n", Order::newest_first);
    add("repeated_rows", "Time,Temperature (C)", plain, "\n", Order::repeated);
    add("two_columns", "Date,Time,Temperature (C)",
        [](const Row& r) { return date(r.clock) + "," + time_of(r.clock) + "," + r.degrees; });
    add(
        "local_clock", "Time,Temperature (C)",
        [](const Row& r) { return date(r.clock) + " " + time_of(r.clock) + "," + r.degrees; }, "\n",
        Order::oldest_first, coldtally::Scale::C, "America/Phoenix");
    add("decimal_commas", "Time;Temperature (C)", [](const Row& r) {
        return printed("%02d.%02d.%04d ", r.clock.tm_mday, r.clock.tm_mon + 1, r.clock.tm_year + 1900) +
               time_of(r.clock) + ";" + with_comma(r.degrees);
    });
    add("am_pm", "Time,Temperature (C)", [](const Row& r) {
        return printed("%d/%d/%04d %d:%02d:%02d %s,", r.clock.tm_mon + 1, r.clock.tm_mday, r.clock.tm_year + 1900,
                       r.clock.tm_hour % 12 == 0 ? 12 : r.clock.tm_hour % 12, r.clock.tm_min, r.clock.tm_sec,
                       r.clock.tm_hour < 12 ? "AM" : "PM") +
               r.degrees;
    });
    add(
        "signs_and_units", "Time,Temperature",
        [](const Row& r) {
            return date(r.clock) + " " + time_of(r.clock) + "," + (r.degrees[0] == '-' ? "" : "+") + r.degrees +
                   " \xC2\xB0"
                   "F";
        },
        "\n", Order::oldest_first, coldtally::Scale::F);
    add("quoted_cells", "\"Time\",\"Temperature (C)\"", [](const Row& r) {
        return "\"" + date(r.clock) + " " + time_of(r.clock) + "\",\"" + with_comma(r.degrees) + "\"";
    });
    add("other_columns", "No.,Time,Temperature (C),Humidity", [](const Row& r) {
        return std::to_string(r.number) + "," + date(r.clock) + " " + time_of(r.clock) + "," + r.degrees + "," +
               printed("%d.%d", static_cast<int>(30 + r.number % 17), static_cast<int>(r.number % 10));
    });
    add("temperature_first", "Temperature (C),Time",
        [](const Row& r) { return r.degrees + "," + date(r.clock) + " " + time_of(r.clock); });
    benchmark::Initialize(&argc, argv);
    benchmark::RunSpecifiedBenchmarks();
}
