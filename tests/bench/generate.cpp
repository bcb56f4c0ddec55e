// bench_generate FOLDER QUARTERS DIGITS GIVES: the benchmark's logger files, entries, stays, and readings as plain
// arrays.
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>

#include "site.hpp"

int main(int argc, char** argv) {
    if (argc != 5) {
        std::cerr << "usage: bench_generate FOLDER QUARTERS DIGITS GIVES\n";
        return 2;
    }
    const std::string folder = argv[1];
    const int quarters = std::atoi(argv[2]), digits = std::atoi(argv[3]), gives = std::atoi(argv[4]);
    std::filesystem::create_directories(folder);
    std::ofstream binary(folder + "/readings.bin", std::ios::binary);
    for (int p = 0; p < bench::places; ++p) {
        const auto rows = bench::readings_of(p, quarters, digits);
        std::string csv = "Time,Temperature (C)\n";
        for (const auto& r : rows) {
            std::string t = bench::instant_text(r.at);
            csv += t + ',' + bench::decimal_text(r.thousandths, digits) + '\n';
        }
        std::ofstream(folder + "/probe-" + std::to_string(p) + ".csv", std::ios::binary) << csv;
        const std::int64_t count = static_cast<std::int64_t>(rows.size());
        binary.write(reinterpret_cast<const char*>(&count), sizeof count);
        std::vector<std::int64_t> at;
        std::vector<double> degrees;
        for (const auto& r : rows) at.push_back(r.at), degrees.push_back(r.thousandths / 1000.0);
        binary.write(reinterpret_cast<const char*>(at.data()),
                     static_cast<std::streamsize>(at.size() * sizeof(std::int64_t)));
        binary.write(reinterpret_cast<const char*>(degrees.data()),
                     static_cast<std::streamsize>(degrees.size() * sizeof(double)));
    }
    const auto book = bench::book_of(quarters, gives);
    std::ofstream(folder + "/definitions.jsonl", std::ios::binary) << book.definitions;
    std::ofstream(folder + "/events.jsonl", std::ios::binary) << book.events;
    std::ofstream stays(folder + "/stays.csv", std::ios::binary);
    for (const auto& s : book.stays) stays << s.place << ',' << s.from << ',' << s.until << '\n';
    std::ofstream(folder + "/layout.json")
        << R"({"delimiter":",","skip_lines":1,"columns":{"instant":1,"temperature":2},)"
           R"("instant_pattern":"%Y-%m-%dT%H:%M:%S%z","scale":"C"})";
}
