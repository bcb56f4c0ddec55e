// A clock that was set inside a file: from which row on it is another is stated, and every way that a refusal names is
// one that works. The instants were computed with Python's zoneinfo.
#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

#include "coldtally/error.hpp"
#include "coldtally/logger.hpp"
#include "logger/reader.hpp"

using namespace coldtally;

namespace {

using Rows = std::vector<std::string>;

logger::ReadFile read(const std::string& content, const std::string& layout = "{}") {
    return logger::read_logger_file({"download.csv", content}, LoggerLayout::parse(layout), Zone("America/New_York"),
                                    Scale::C, false);
}

Rows rows_of(const logger::ReadFile& file) {
    Rows out;
    for (const auto& r : file.rows) out.push_back(r.at.text().substr(5, 11) + " " + std::to_string(r.thousandths));
    return out;
}

LoggerRefusal::Facts refused(const std::string& content, const std::string& layout = "{}",
                             Code code = Code::ambiguous) {
    try {
        read(content, layout);
    } catch (const LoggerRefusal& e) {
        INFO(e.what());
        CHECK(code_name(e.code()) == code_name(code));
        return e.facts();
    }
    FAIL("was read");
    return {};
}

std::vector<std::string> ways(const LoggerRefusal::Facts& facts) {
    std::vector<std::string> out;
    for (const auto& r : facts.remedies) out.push_back(r.when + " " + r.layout.text());
    return out;
}

/// From 08:05 every ten minutes; the clock is set back by 27 minutes before the fourth row.
const std::string set_back =
    "Time,Temp (°C)\n2026-03-02 08:05,4.1\n2026-03-02 08:15,4.2\n2026-03-02 08:25,4.3\n2026-03-02 "
    "08:08,4.4\n2026-03-02 08:18,4.5\n";
const std::string newest_first =
    "Time,Temp (°C)\n2026-03-02 08:18,4.5\n2026-03-02 08:08,4.4\n2026-03-02 08:25,4.3\n2026-03-02 "
    "08:15,4.2\n2026-03-02 08:05,4.1\n2026-03-02 07:55,4.0\n";

}  // namespace

TEST_CASE("a clock that was set back is refused with what may be stated", "[logger][clocks]") {
    const auto facts = refused(set_back);
    CHECK(facts.found ==
          "download.csv: line 5: time: \"2026-03-02 08:08\" (local time of the site) goes back from \"2026-03-02 "
          "08:25\" in line 4: was the clock set back?");
    CHECK(
        ways(facts) ==
        std::vector<std::string>{
            R"(the clock was right up to line 4 {"clocks":[{"line":5,"at":"2026-03-02T08:35:00"}]})",
            R"(it was right from line 5 on {"clocks":[{"line":2,"at":"2026-03-02T07:38:00"},)"
            R"({"line":5,"zone":"America/New_York"}]})"});
    // each as it says
    CHECK(rows_of(read(set_back, facts.remedies[0].layout.text())) ==
          Rows{"03-02T13:05 4100", "03-02T13:15 4200", "03-02T13:25 4300", "03-02T13:35 4400", "03-02T13:45 4500"});
    const auto right_after = read(set_back, facts.remedies[1].layout.text());
    CHECK(rows_of(right_after) ==
          Rows{"03-02T12:38 4100", "03-02T12:48 4200", "03-02T12:58 4300", "03-02T13:08 4400", "03-02T13:18 4500"});
    CHECK(right_after.report.layout.clocks.size() == 2);
    CHECK(LoggerLayout::parse(right_after.report.layout.text()).clocks == right_after.report.layout.clocks);
}

TEST_CASE("the same of a file with the newest row first", "[logger][clocks]") {
    const auto facts = refused(newest_first);
    CHECK(facts.found.find("line 3: time: \"2026-03-02 08:08\"") != std::string::npos);
    REQUIRE(facts.remedies.size() == 2);
    CHECK(facts.remedies[0].when == "the clock was right in line 4 and below");
    CHECK(rows_of(read(newest_first, facts.remedies[0].layout.text())) == Rows{"03-02T12:55 4000", "03-02T13:05 4100",
                                                                               "03-02T13:15 4200", "03-02T13:25 4300",
                                                                               "03-02T13:35 4400", "03-02T13:45 4500"});
    CHECK(facts.remedies[1].when == "it was right in line 3 and above");
    CHECK(rows_of(read(newest_first, facts.remedies[1].layout.text())) == Rows{"03-02T12:28 4000", "03-02T12:38 4100",
                                                                               "03-02T12:48 4200", "03-02T12:58 4300",
                                                                               "03-02T13:08 4400", "03-02T13:18 4500"});
}

TEST_CASE("a clock that fell back to another year, and one that was right all the time", "[logger][clocks]") {
    const std::string other_year =
        "Time,Temp (°C)\n2026-03-02 08:05,4.1\n2026-03-02 08:15,4.2\n2000-01-01 00:00,4.3\n2000-01-01 00:10,4.4\n";
    const auto facts = refused(other_year);
    REQUIRE(facts.remedies.size() == 3);
    CHECK(rows_of(read(other_year, facts.remedies[0].layout.text())) ==
          Rows{"03-02T13:05 4100", "03-02T13:15 4200", "03-02T13:25 4300", "03-02T13:35 4400"});
    // two downloads in one file, the later first: they do not join, and only the order is wrong
    CHECK(facts.remedies[2].when == "it was right all the time, and only the order of the rows is not");
    const std::string two =
        "Time,Temp (°C)\n2026-03-05 08:05,4.1\n2026-03-05 08:15,4.2\n2026-03-05 08:25,4.2\n2026-03-02 "
        "08:05,4.3\n2026-03-02 08:15,4.4\n";
    const auto apart = refused(two);
    REQUIRE(apart.remedies.size() == 3);
    CHECK(apart.remedies[2].layout.text() == R"({"clocks":[{"line":5,"zone":"America/New_York"}]})");
    const auto sorted = read(two, apart.remedies[2].layout.text());
    CHECK(rows_of(sorted) ==
          Rows{"03-02T13:05 4300", "03-02T13:15 4400", "03-05T13:05 4100", "03-05T13:15 4200", "03-05T13:25 4200"});
    CHECK(english().say(sorted.report.remarks) ==
          std::vector<std::string>{"line 5: goes back to 2026-03-02 08:05 (local time of the site); the clock is "
                                   "stated to be another there, and the rows were sorted"});
    CHECK(sorted.report.remarks.at(0).code() == "goes-back-by-clock");
}

TEST_CASE("a clock set back onto instants that are there", "[logger][clocks]") {
    const std::string content =
        "Time,Temp (°C)\n2026-03-02 08:05,4.1\n2026-03-02 08:15,4.2\n2026-03-02 08:25,4.3\n2026-03-02 "
        "08:15,4.4\n2026-03-02 08:25,4.5\n";
    const auto facts = refused(content, "{}", Code::readings_differ);
    CHECK(facts.found.find("line 5: temperature: \"4.4\": line 3 has \"4.2\"") != std::string::npos);
    REQUIRE(facts.remedies.size() == 2);
    CHECK(rows_of(read(content, facts.remedies[0].layout.text())) ==
          Rows{"03-02T13:05 4100", "03-02T13:15 4200", "03-02T13:25 4300", "03-02T13:35 4400", "03-02T13:45 4500"});
}

TEST_CASE("a clock set back twice is stated step by step", "[logger][clocks]") {
    const std::string content =
        "Time,Temp (°C)\n2026-03-02 08:00,1.0\n2026-03-02 08:10,2.0\n2026-03-02 08:04,3.0\n2026-03-02 "
        "08:14,4.0\n2026-03-02 "
        "08:07,5.0\n2026-03-02 08:17,6.0\n";
    const auto first = refused(content);
    const auto second = refused(content, first.remedies.at(0).layout.text());
    // what is stated of another line is stated besides
    LoggerLayout both = first.remedies[0].layout;
    both.clocks.insert(both.clocks.end(), second.remedies.at(0).layout.clocks.begin(),
                       second.remedies[0].layout.clocks.end());
    CHECK(rows_of(read(content, both.text())) == Rows{"03-02T13:00 1000", "03-02T13:10 2000", "03-02T13:20 3000",
                                                      "03-02T13:30 4000", "03-02T13:40 5000", "03-02T13:50 6000"});
}

TEST_CASE("what is stated of a clock holds from its line on", "[logger][clocks]") {
    const std::string rows =
        "Time,Temp (°C)\n2026-07-02 08:00,1.0\n2026-07-02 08:10,2.0\n2026-07-02 13:20,3.0\n2026-07-02 13:30,4.0\n";
    // 08:00 EDT is 12:00Z; 13:20 in Berlin (CEST) is 11:20Z
    CHECK(rows_of(read(rows, R"({"clocks":[{"line":4,"zone":"Europe/Berlin"}]})")) ==
          Rows{"07-02T11:20 3000", "07-02T11:30 4000", "07-02T12:00 1000", "07-02T12:10 2000"});
    CHECK(rows_of(read(rows, R"({"clocks":[{"line":4,"offset":"+01:00"}]})")) ==
          Rows{"07-02T12:00 1000", "07-02T12:10 2000", "07-02T12:20 3000", "07-02T12:30 4000"});
    CHECK(rows_of(read(rows, R"({"offset":"-04:00","clocks":[{"line":4,"offset":"+00:59:30"}]})")).at(2) ==
          "07-02T12:20 3000");
    CHECK(read(rows, R"({"offset":"-04:00","clocks":[{"line":4,"offset":"+00:59:30"}]})").rows.at(2).at.text() ==
          "2026-07-02T12:20:30Z");
    CHECK(rows_of(read(rows, R"({"clocks":[{"line":1,"offset":"-05:00"},{"line":4,"at":"2026-07-02 09:20"}]})")) ==
          Rows{"07-02T13:00 1000", "07-02T13:10 2000", "07-02T13:20 3000", "07-02T13:30 4000"});
    // rows that each state their offset
    const std::string offsets = "Time,Temp (°C)\n2026-07-02T08:00Z,1.0\n2026-07-02T08:10Z,2.0\n2026-07-02T07:20Z,3.0\n";
    CHECK(rows_of(read(offsets, refused(offsets).remedies.at(0).layout.text())) ==
          Rows{"07-02T08:00 1000", "07-02T08:10 2000", "07-02T08:20 3000"});
}

TEST_CASE("a clock stated wrongly is refused", "[logger][clocks]") {
    struct Case {
        const char *layout, *says;
    };
    for (const auto& c : std::vector<Case>{
             {R"({"clocks":[{"line":5}]})", "one of the three"},
             {R"({"clocks":[{"line":5,"zone":"UTC","offset":"+01:00"}]})", "one of the three"},
             {R"({"clocks":[{"line":0,"zone":"UTC"}]})", "line"},
             {R"({"clocks":[{"line":5,"zone":"UTC"},{"line":5,"zone":"UTC"}]})", "below that of the clock before"},
             {R"({"clocks":[{"line":5,"zone":"Mars/Olympus"}]})", "zone"},
             {R"({"clocks":[{"line":5,"offset":"+15:00"}]})", "offset"},
             {R"({"clocks":[{"line":5,"at":"yesterday"}]})", "at"},
             {R"({"clocks":[{"line":5,"clock":"UTC"}]})", "clock"},
             {R"({"clocks":[{"line":9,"zone":"UTC"}]})", "the last row is in line 6"},
             {R"({"clocks":[{"line":1,"at":"2026-03-02T08:00:00"}]})",
              "is no row; \"at\" is the right time of a row, the next one is in line 2"},
             {R"({"instant_pattern":"%Y-%m-%d %H:%M%z","clocks":[{"line":5,"zone":"UTC"}]})", "%z"},
             // rows that still lie among those before
             {R"({"clocks":[{"line":5,"zone":"America/New_York"}]})", "was the clock set back?"}}) {
        INFO(c.layout);
        CHECK_THROWS_WITH(read(set_back, c.layout), Catch::Contains(c.says));
    }
}

TEST_CASE("a repeated hour that the rows do not settle is stated by lines", "[logger][clocks]") {
    // In New York the clock shows 01:00 to 02:00 twice on 2025-11-02.
    const std::string rows =
        "Time,Temp (°C)\n2025-11-02 00:30,4.0\n2025-11-02 01:00,4.1\n2025-11-02 01:30,4.2\n2025-11-02 "
        "02:00,4.3\n2025-11-02 02:30,4.3\n";
    const auto facts = refused(rows);
    REQUIRE(facts.remedies.size() == 4);
    CHECK(facts.remedies[0].when == "lines 3 to 4 are of the hour before the clock goes back");
    CHECK(rows_of(read(rows, facts.remedies[0].layout.text())) ==
          Rows{"11-02T04:30 4000", "11-02T05:00 4100", "11-02T05:30 4200", "11-02T07:00 4300", "11-02T07:30 4300"});
    CHECK(rows_of(read(rows, facts.remedies[1].layout.text())) ==
          Rows{"11-02T04:30 4000", "11-02T06:00 4100", "11-02T06:30 4200", "11-02T07:00 4300", "11-02T07:30 4300"});
    CHECK(facts.remedies[3].layout.text() == R"({"offset":"-05:00"})");
    CHECK(rows_of(read(rows, facts.remedies[3].layout.text())) ==
          Rows{"11-02T05:30 4000", "11-02T06:00 4100", "11-02T06:30 4200", "11-02T07:00 4300", "11-02T07:30 4300"});
}
