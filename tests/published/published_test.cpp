// Values that others published, each asked of the library; and the reader of their tables.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "evidence.hpp"
#include "published/questions.hpp"
#include "published/table.hpp"

using published::Block;
using published::Row;

namespace {

std::string content(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

struct Agreement {
    bool holds = false;
    double deviation = 0;
};

/// `expected` is an answer, or with a tolerance a number that may have one of > >= < <= before it.
Agreement compare(const std::string& answer, const std::string& expected, const std::string& tolerance) {
    if (tolerance == "none") return {answer == expected, 0};
    std::istringstream in(expected);
    std::string relation, number;
    in >> relation;
    if (!(in >> number)) std::swap(relation, number);
    const double a = std::stod(answer), e = std::stod(number), t = std::stod(tolerance);
    if (relation == ">") return {a > e - t, 0};
    if (relation == ">=") return {a >= e - t, 0};
    if (relation == "<") return {a < e + t, 0};
    if (relation == "<=") return {a <= e + t, 0};
    return {std::abs(a - e) <= t, std::abs(a - e)};
}

nlohmann::ordered_json line_of(const std::string& file, const Block& b, double largest) {
    const bool bounds = std::all_of(b.rows.begin(), b.rows.end(), [&](const Row& r) {
        return b.tolerance != "none" && (r.expected[0] == '<' || r.expected[0] == '>');
    });
    const auto disagreeing = std::count_if(b.rows.begin(), b.rows.end(), [](const Row& r) { return !r.here.empty(); });
    return {{"part", "published"},      {"file", file},
            {"what", b.question},       {"given", b.given},
            {"against", b.publication}, {"edition", b.edition},
            {"where", b.where},         {"seen", b.seen},
            {"unit", b.unit},           {"tolerance", b.tolerance},
            {"cases", b.rows.size()},   {"disagree", disagreeing},
            {"largest", largest},       {"bounds", bounds}};
}

}  // namespace

TEST_CASE("published values", "[published]") {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(COLDTALLY_PUBLISHED))
        if (entry.path().extension() == ".txt") files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    REQUIRE(files.size() >= 8);
    std::vector<nlohmann::ordered_json> lines;
    for (const auto& path : files) {
        INFO(path.filename().string());
        for (const Block& b : published::read(content(path))) {
            double largest = 0;
            for (const Row& row : b.rows) {
                INFO("line " << row.line << ", " << b.question << ", " << b.given << ": " << row.input);
                const std::string answer = published::answer(b.question, b.given, row.input);
                const Agreement with_source = compare(answer, row.expected, b.tolerance);
                if (row.here.empty()) {
                    INFO(answer << " where " << row.expected << " is published");
                    CHECK(with_source.holds);
                    largest = std::max(largest, with_source.deviation);
                } else {
                    CHECK_FALSE(with_source.holds);
                    CHECK(answer == row.here);
                }
            }
            lines.push_back(line_of(path.filename().string(), b, largest));
        }
    }
    tests::report("published", lines);
}

TEST_CASE("published values: a block without source or standing is refused", "[published]") {
    const std::vector<std::string> lines = {"question: temperature in °C",
                                            "publication: a book",
                                            "edition: 1",
                                            "where: page 3",
                                            "seen: read",
                                            "unit: °C",
                                            "tolerance: none",
                                            "  32 F => 0"};
    const auto text = [&](std::size_t left_out) {
        std::string out;
        for (std::size_t i = 0; i < lines.size(); ++i)
            if (i != left_out) out += lines[i] + "\n";
        return out;
    };
    const auto blocks = published::read(text(lines.size()));
    REQUIRE(blocks.size() == 1);
    CHECK(blocks[0].publication == "a book");
    CHECK(blocks[0].rows.at(0).expected == "0");
    for (std::size_t i = 0; i < lines.size(); ++i) {
        INFO("without: " << lines[i]);
        CHECK_THROWS_AS(published::read(text(i)), std::runtime_error);
    }
    const auto replaced = [&](const std::string& from, const std::string& to) {
        std::string out = text(lines.size());
        return out.replace(out.find(from), from.size(), to);
    };
    CHECK_THROWS_WITH(published::read(replaced("seen: read", "seen: somewhere")),
                      Catch::Contains("line 1") && Catch::Contains("somewhere"));
    CHECK_THROWS_WITH(published::read(replaced("publication: a book", "publication: none: by hand")),
                      Catch::Contains("what nobody published was not 'read'"));
    CHECK_THROWS_WITH(published::read(replaced("edition: 1", "publication: 1")),
                      Catch::Contains("line 3") && Catch::Contains("twice"));
    CHECK_THROWS_WITH(published::read(replaced("edition: 1", "issue: 1")), Catch::Contains("'issue' is no line"));
    CHECK_THROWS_WITH(published::read(replaced("32 F => 0", "32 F")), Catch::Contains("line 8"));
    CHECK_THROWS_WITH(published::read(replaced("32 F => 0", "32 F => 0 ! here 1")), Catch::Contains("': '"));
    CHECK_THROWS_WITH(published::read(replaced("32 F => 0", "32 F => 0 ! because")), Catch::Contains("here"));
    CHECK_THROWS_WITH(published::read("# nothing\n"), Catch::Contains("no blocks"));
    CHECK_THROWS_AS(published::answer("what is love", "", ""), std::invalid_argument);
    // a value that disagrees keeps both answers and the reason
    const Row row = published::read(replaced("32 F => 0", "32 F => 1 ! here 0: the page is wrong")).at(0).rows.at(0);
    CHECK(row.expected == "1");
    CHECK(row.here == "0");
    CHECK(row.because == "the page is wrong");
}
