// Rows that cannot be read: all of them are said together, and what is named to let the others through lets exactly
// these through.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdio>
#include <string>
#include <vector>

#include "coldtally/error.hpp"
#include "coldtally/logger.hpp"
#include "logger/reader.hpp"

using namespace coldtally;

namespace {

logger::ReadFile read(const std::string& content, const LoggerLayout& layout) {
    return logger::read_logger_file({"download.csv", content}, layout, Zone("America/New_York"), Scale::C, false);
}

LoggerRefusal::Facts refused(const std::string& content, const LoggerLayout& layout = {}) {
    try {
        read(content, layout);
    } catch (const LoggerRefusal& e) {
        INFO(e.what());
        CHECK(e.code() == Code::bad_row);
        CHECK(std::string(e.what()).find('\n') == std::string::npos);
        return e.facts();
    }
    FAIL("was read");
    return {};
}

/// As somebody would who adds what a remedy states.
LoggerLayout with(LoggerLayout layout, const Remedy& remedy) {
    layout.no_reading.insert(layout.no_reading.end(), remedy.layout.no_reading.begin(), remedy.layout.no_reading.end());
    layout.ignore_rows.insert(layout.ignore_rows.end(), remedy.layout.ignore_rows.begin(),
                              remedy.layout.ignore_rows.end());
    if (remedy.layout.resolution) layout.resolution = remedy.layout.resolution;
    if (remedy.layout.offset) layout.offset = remedy.layout.offset;
    return LoggerLayout::parse(layout.text());
}

struct Numbers {
    std::uint64_t state;
    std::size_t below(std::size_t n) {
        state = (state * 0x5DEECE66D + 11) & 0xFFFFFFFFFFFF;
        return static_cast<std::size_t>(state >> 20) % n;
    }
};

const std::string head = "Time,Temp (°C)\n2026-03-02 08:05,4.2\n";

}  // namespace

TEST_CASE("all rows that cannot be read are said together, each with its line", "[logger][unreadable]") {
    const std::string content = head +
                                "2026-03-02 08:15,N/A\n"
                                "2026-03-02 08:25,4.3\n"
                                "# battery changed\n"
                                "2026-02-30 08:35,4.3\n"
                                "2026-03-02 08:45,4.2505\n"
                                "2026-03-02 08:55,\"4.3\n"
                                "2026-03-02 09:05,4.3\n"
                                "2026-03-02 09:15\n"
                                "Page 1 of 2,\n"
                                "Page 2 of 2,\n";
    const auto facts = refused(content);
    CHECK(facts.found == "download.csv: 8 rows cannot be read");
    CHECK(facts.unreadable == 8);
    std::vector<int> lines;
    for (const auto& row : facts.rows) {
        CHECK(row.file == "download.csv");
        lines.push_back(row.line);
    }
    CHECK(lines == std::vector<int>{3, 5, 6, 7, 8, 10, 11, 12});
    CHECK(facts.rows[0].what == "temperature: \"N/A\": must be degrees such as 4.2");
    CHECK(facts.rows[4].what == "opens a quotation mark that is not closed");
    CHECK(facts.without_remedy == 0);
    REQUIRE(facts.remedies.size() == 1);
    CHECK(facts.remedies[0].when.empty());
    const auto& remedy = facts.remedies[0].layout;
    CHECK(remedy.no_reading == std::vector<std::string>{"N/A"});
    CHECK(remedy.resolution->text() == "0.001");
    // an expression for a line and all that differ from it in numbers, unless a row that is read does
    CHECK(remedy.ignore_rows == std::vector<std::string>{"^# battery changed$", "^2026-02-30 08:35,4\\.3$",
                                                         "^[0-9]+-[0-9]+-[0-9]+ [0-9]+:[0-9]+,\"[0-9]+\\.[0-9]+$",
                                                         "^[0-9]+-[0-9]+-[0-9]+ [0-9]+:[0-9]+$",
                                                         "^Page [0-9]+ of [0-9]+,$"});
    const auto got = read(content, with({}, facts.remedies[0]));
    CHECK(got.rows.size() == 4);
    CHECK(got.report.rows_without_reading == 1);
    CHECK(got.report.rows_rounded == 1);
}

TEST_CASE("of many rows that cannot be read the first twenty are said, and how many there are",
          "[logger][unreadable]") {
    std::string content = head;
    for (int i = 0; i < 30; ++i)
        content += "2026-03-03 " + std::to_string(10 + i % 10) + ":00,off" +
                   std::string(static_cast<std::size_t>(i), '!') + "\n";
    for (int i = 10; i < 60; ++i) content += "2026-03-04 08:" + std::to_string(i) + ",4.2\n";
    const auto facts = refused(content);
    CHECK(facts.unreadable == 30);
    CHECK(facts.rows.size() == 20);
    CHECK(facts.rows.front().line == 3);
    CHECK(facts.rows.back().line == 22);
    CHECK(facts.found.find("30 rows cannot be read of 81 lines; so many may mean that the layout is wrong") !=
          std::string::npos);
    CHECK(facts.remedies.at(0).layout.no_reading.size() == 20);
    CHECK(facts.without_remedy == 10);  // texts that are too many to state
}

TEST_CASE("one row that cannot be read is said as it always was", "[logger][unreadable]") {
    const auto facts = refused(head + "2026-03-02 08:15,4.2x\n");
    CHECK(facts.found.starts_with("download.csv: line 3: temperature: \"4.2x\": must be degrees"));
    CHECK(facts.unreadable == 1);
    CHECK(facts.remedies.at(0).layout.ignore_rows.at(0) == "^[0-9]+-[0-9]+-[0-9]+ [0-9]+:[0-9]+,[0-9]+\\.[0-9]+x$");
    const auto longer = refused(head + std::string(1500, 'x') + "\n");
    CHECK(longer.remedies.empty());
    CHECK(longer.without_remedy == 1);
}

TEST_CASE("local times that do not exist are said together, with the offset of a clock that does not change",
          "[logger][unreadable]") {
    // in New York the clock goes from 02:00 EST to 03:00 EDT on 2026-03-08 (computed with Python zoneinfo)
    const std::string content =
        "Time,Temp (°C)\n2026-03-08 01:50,4.0\n2026-03-08 02:00,4.1\n2026-03-08 02:10,4.1\n2026-03-08 03:00,4.1\n";
    const auto facts = refused(content);
    CHECK(facts.unreadable == 2);
    CHECK(facts.rows.at(0).line == 3);
    CHECK(facts.rows.at(1).line == 4);
    REQUIRE(facts.remedies.size() == 1);
    CHECK(facts.remedies[0].when == "the logger's clock does not change between winter and summer");
    CHECK(facts.remedies[0].layout.text() == R"({"offset":"-05:00"})");
    CHECK(read(content, with({}, facts.remedies[0])).rows.size() == 4);
}

// Rows are damaged at random: what is named must let all others through as they are, and nothing else.
TEST_CASE("what is named lets exactly the rows through that can be read", "[logger][unreadable]") {
    Numbers numbers{1610};
    std::int64_t refusals = 0;
    for (int round = 0; round < 600; ++round) {
        std::vector<std::string> lines = {"Time,Temp (°C),Remark"};
        std::vector<std::pair<std::string, std::int32_t>> good;
        std::int64_t bad = 0;
        const std::size_t rows = 20 + numbers.below(60);
        for (std::size_t i = 0; i < rows; ++i) {
            char time[32], degrees[16];
            std::snprintf(time, sizeof time, "2026-03-%02d %02d:%02d", static_cast<int>(2 + i / 24),
                          static_cast<int>(i % 24), static_cast<int>(numbers.below(60)));
            const auto thousandths = static_cast<std::int32_t>(numbers.below(99)) * 100;
            std::snprintf(degrees, sizeof degrees, "%d.%d", thousandths / 1000, thousandths / 100 % 10);
            std::string line = std::string(time) + "," + degrees + ",ok";
            if (i < 12 || numbers.below(12) != 0) {
                good.emplace_back(time, thousandths);
                lines.push_back(line);
                continue;
            }
            ++bad;
            switch (numbers.below(9)) {
            case 0: line = std::string(time) + ",---,"; break;
            case 1: line = std::string(time) + ",sensor fault,x"; break;
            case 2: line = "End of part " + std::to_string(numbers.below(100)); break;
            case 3: line = std::string(time) + "," + degrees + "?,"; break;
            case 4: line = "2026-02-30" + line.substr(10); break;
            case 5: line = std::string(time).substr(0, 7); break;
            case 6:
                line = "(total)\t$" + std::string(numbers.below(300), '*') + std::to_string(round) + "," +
                       std::to_string(i);
                break;
            case 7: line = std::string(time) + "," + degrees + ",\"open"; break;
            default: line = std::string(time) + "," + degrees + ",a\"b"; break;
            }
            lines.push_back(line);
        }
        if (bad == 0) continue;
        ++refusals;
        std::string content;
        for (const auto& line : lines) content += line + "\n";
        INFO(content);
        const LoggerLayout layout =
            LoggerLayout::parse(R"({"columns":{"instant":1,"temperature":2},"offset":"-05:00"})");
        const auto facts = refused(content, layout);
        CHECK(facts.unreadable == bad);
        CHECK(facts.without_remedy == 0);
        REQUIRE(facts.remedies.size() == 1);
        const auto got = read(content, with(layout, facts.remedies[0]));
        REQUIRE(got.rows.size() == good.size());
        for (std::size_t i = 0; i < good.size(); ++i) {
            CHECK(got.rows[i].at.text() ==
                  (Instant(parse_instant(good[i].first.substr(0, 10) + "T" + good[i].first.substr(11) + ":00-05:00",
                                         Zone("UTC")))
                       .text()));
            CHECK(got.rows[i].thousandths == good[i].second);
        }
    }
    CHECK(refusals > 400);
}
