// Logger files: what is read, settled, asked back and refused. The instants of local times were computed with Python's
// zoneinfo (Python 3.11, IANA data 2025b): datetime(..., tzinfo=ZoneInfo(name), fold=0 or 1).astimezone(timezone.utc).
#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <string>
#include <vector>

#include "coldtally/error.hpp"
#include "coldtally/logger.hpp"
#include "logger/reader.hpp"

using namespace coldtally;
using logger::read_logger_file;

namespace {

struct Question {
    std::string content;
    std::string layout = "{}";
    std::string zone = "America/New_York";
    Scale probe = Scale::C;
    bool accept = false;
};

logger::ReadFile read(const Question& q) {
    return read_logger_file({"download.csv", q.content}, LoggerLayout::parse(q.layout), Zone(q.zone), q.probe,
                            q.accept);
}

/// "2026-03-02T13:05:00Z 4200" of each row.
std::vector<std::string> rows_of(const logger::ReadFile& file) {
    std::vector<std::string> out;
    for (const auto& r : file.rows) out.push_back(r.at.text() + " " + std::to_string(r.thousandths));
    return out;
}

using Rows = std::vector<std::string>;

struct Good {
    const char* name;
    Question question;
    Rows rows;
    std::int64_t repeated = 0, without = 0, ignored = 0;
};

struct Bad {
    const char* name;
    Question question;
    Code code;
    std::vector<std::string> says;  ///< parts of the message
};

bool any_has(const std::vector<Remark>& remarks, const std::string& part) {
    return std::any_of(remarks.begin(), remarks.end(),
                       [&](const Remark& r) { return english().say(r).find(part) != std::string::npos; });
}
bool any_is(const std::vector<Remark>& remarks, std::string_view code) {
    return std::any_of(remarks.begin(), remarks.end(), [&](const Remark& r) { return r.code() == code; });
}

// 2026-03-02 08:05 in New York is 13:05 UTC
const Rows morning = {"2026-03-02T13:05:00Z 4200", "2026-03-02T13:15:00Z 4300"};

const std::vector<Good> files_to_read = {
    {"comma, ISO date", {"Time,Temp (°C)\n2026-03-02 08:05,4.2\n2026-03-02 08:15,4.3\n"}, morning, 0, 0, 1},
    {"semicolon and decimal comma",
     {"Zeit;Temp °C\n02.03.2026 08:05:00;4,2\n02.03.2026 08:15:00;4,3\n",
      R"({"instant_pattern":"%d.%m.%Y %H:%M:%S"})"},
     morning,
     0,
     0,
     1},
    {"tab", {"2026-03-02\t08:05\t4.2\n2026-03-02\t08:15\t4.3\n"}, morning},
    {"decimal comma in quotation marks",
     {"Date,Temp\n2026-03-02 08:05,\"4,2\"\n2026-03-02 08:15,\"4,3\"\n"},
     morning,
     0,
     0,
     1},
    {"quoted cells with the delimiter and a line end inside",
     {"\"Date\",\"Note, of the\nnurse\",\"Temp C\"\n\"2026-03-02 08:05\",\"door, open \"\"wide\"\"\nand "
      "shut\",\"4.2\"\n\"2026-03-02 08:15\",\"\",\"4.3\"\n"},
     morning,
     0,
     0,
     2},
    {"CR LF, byte order mark, empty lines, no last line end",
     {"\xEF\xBB\xBFTime,Temp\r\n\r\n2026-03-02 08:05,4.2\r\n \t\r\n,\r\n2026-03-02 08:15,4.3"},
     morning,
     0,
     0,
     4},
    {"CR alone", {"Time,Temp\r2026-03-02 08:05,4.2\r2026-03-02 08:15,4.3\r"}, morning, 0, 0, 1},
    {"Latin-1 degree sign",
     {"Time,Temp \xB0"
      "C\n2026-03-02 08:05,4.2 \xB0"
      "C\n2026-03-02 08:15,4.3 \xB0"
      "C\n"},
     morning,
     0,
     0,
     1},
    {"units in the cells", {"2026-03-02 08:05,4.2 °C\n2026-03-02 08:15,4.3C\n"}, morning},
    {"units in Fahrenheit",
     {"2026-03-02 08:05,39.6F\n2026-03-02 08:15,39.7 ℉\n", "{}", "America/New_York", Scale::F},
     {"2026-03-02T13:05:00Z 39600", "2026-03-02T13:15:00Z 39700"}},
    {"signs and zeros",
     {"Time,Temp C\n2026-03-02 08:05,+4.20000\n2026-03-02 08:15,-0.05\n2026-03-02 08:25,\xE2\x88\x92"
      "1\n"},
     {"2026-03-02T13:05:00Z 4200", "2026-03-02T13:15:00Z -50", "2026-03-02T13:25:00Z -1000"},
     0,
     0,
     1},
    {"rows without a reading",
     {"Time,Temp\n2026-03-02 08:00,---\n2026-03-02 08:05,4.2\n2026-03-02 08:10,\n2026-03-02 08:15,4.3\n",
      R"({"no_reading":["---"]})"},
     morning,
     0,
     2,
     1},
    {"lines to ignore",
     {"2026-03-02 08:05,4.2\n# battery changed\n2026-03-02 08:15,4.3\nEnd of data\n",
      R"({"ignore_rows":["^#","^End of data$"]})"},
     morning,
     0,
     0,
     2},
    {"equal rows count once", {"2026-03-02 08:05,4.2\n2026-03-02 08:05,4.20\n2026-03-02 08:15,4.3\n"}, morning, 1},
    {"newest first", {"Time,Temp\n2026-03-02 08:15,4.3\n2026-03-02 08:05,4.2\n"}, morning, 0, 0, 1},
    {"a memory written in a ring: the parts join",
     {"2026-03-02 08:25,4.4\n2026-03-02 08:35,4.5\n2026-03-02 08:05,4.2\n2026-03-02 08:15,4.3\n"},
     {"2026-03-02T13:05:00Z 4200", "2026-03-02T13:15:00Z 4300", "2026-03-02T13:25:00Z 4400",
      "2026-03-02T13:35:00Z 4500"}},
    {"a second download that repeats rows of the first",
     {"2026-03-02 07:55,4.1\n2026-03-02 08:05,4.2\n2026-03-02 08:15,4.3\n2026-03-02 08:05,4.2\n2026-03-02 "
      "08:15,4.3\n2026-03-02 08:25,4.4\n"},
     {"2026-03-02T12:55:00Z 4100", "2026-03-02T13:05:00Z 4200", "2026-03-02T13:15:00Z 4300",
      "2026-03-02T13:25:00Z 4400"},
     2},
    {"twelve hours",
     {"Date,Time,Temp\n03/13/2026,12:05:00 AM,4.2\n03/13/2026,12:05 PM,4.3\n",
      R"({"time_pattern":"%I:%M:%S %p","ignore_rows":["12:05 PM"]})"},
     {"2026-03-13T04:05:00Z 4200"},
     0,
     0,
     2},
    {"afternoon",
     {"2-Mar-26 8:05 PM,4.2\n2-Mar-26 8:15 p.m.,4.3\n", R"({"instant_pattern":"%d-%b-%y %I:%M %p"})"},
     {"2026-03-03T01:05:00Z 4200", "2026-03-03T01:15:00Z 4300"}},
    {"each row states its offset",
     {"2026-03-02T08:05:00-06:00,4.2\n2026-03-02T14:15:00Z,4.3\n"},
     {"2026-03-02T14:05:00Z 4200", "2026-03-02T14:15:00Z 4300"}},
    {"fraction of a second that is zero", {"2026-03-02 08:05:00.000,4.2\n2026-03-02 08:15:00.000,4.3\n"}, morning},
    {"digits alone", {"20260302 0805;4.2\n20260302 0815;4.3\n", R"({"instant_pattern":"%Y%m%d %H%M"})"}, morning},
    {"clock at an offset", {"2026-07-02 07:05,4.2\n", R"({"offset":"-06:00"})"}, {"2026-07-02T13:05:00Z 4200"}},
    {"clock in another zone",
     {"2026-03-02 08:05,4.2\n", R"({"zone":"Europe/Berlin"})"},
     {"2026-03-02T07:05:00Z 4200"}},
    {"offset in the title",
     {"\"Date Time, GMT-06:00\",\"Temp, °C\"\n2026-03-02 07:05,4.2\n2026-03-02 07:15,4.3\n"},
     morning,
     0,
     0,
     1},
    {"a column for the scale",
     {"Time,Temp,Unit\n2026-03-02 08:05,4.2,C\n2026-03-02 08:15,4.3,C\n"},
     morning,
     0,
     0,
     1},
    {"the probe's of two scales",
     {"Time,Temp °F,Temp °C\n2026-03-02 08:05,39.6,4.2\n2026-03-02 08:15,39.7,4.3\n"},
     morning,
     0,
     0,
     1},
    {"temperature among others, after lines about the logger",
     {"Serial,A-1007\nHigh alarm,8.0 °C\n\nNo.,Date,Time,Humidity (%),Temperature (°C),Battery (V)\n"
      "1,2026-03-02,08:05,41.5,4.2,3.1\n2,2026-03-02,08:15,41.0,4.3,3.1\n3,2026-03-02,08:25,41.0,4.4,3.1\n"},
     {"2026-03-02T13:05:00Z 4200", "2026-03-02T13:15:00Z 4300", "2026-03-02T13:25:00Z 4400"},
     0,
     0,
     4},
};

}  // namespace

TEST_CASE("files that are read", "[logger]") {
    for (const auto& c : files_to_read) {
        INFO(c.name);
        logger::ReadFile got;
        REQUIRE_NOTHROW(got = read(c.question));
        CHECK(rows_of(got) == c.rows);
        CHECK(got.report.rows_repeated == c.repeated);
        CHECK(got.report.rows_without_reading == c.without);
        CHECK(got.report.rows_ignored == c.ignored);
        CHECK(got.report.rows_kept == static_cast<std::int64_t>(c.rows.size()));
        CHECK(got.report.rows_read == got.report.rows_kept + got.report.rows_repeated);
        CHECK(got.report.ambiguous.empty());
        CHECK(got.report.name == "download.csv");
        CHECK(got.report.from->text() == c.rows.front().substr(0, 20));
        CHECK(got.report.until->text() == c.rows.back().substr(0, 20));

        // the layout that was used says all: with it nothing is left to guess
        Question again = c.question;
        again.layout = got.report.layout.text();
        const auto second = read(again);
        CHECK(rows_of(second) == c.rows);
        CHECK(second.report.guesses.empty());
        CHECK(second.report.layout.text() == got.report.layout.text());
    }
}

namespace {

const std::string one_row = "Time,Temp (°C)\n2026-03-02 08:05,4.2\n";

const std::vector<Bad> files_to_refuse = {
    {"no number",
     {one_row + "2026-03-02 08:15,4.2x\n"},
     Code::bad_row,
     {"download.csv: line 3: temperature: \"4.2x\": must be degrees"}},
    {"a text nobody declared",
     {one_row + "2026-03-02 08:15,N/A\n"},
     Code::bad_row,
     {"line 3: temperature: \"N/A\"", "no_reading"}},
    {"a footer", {one_row + "End of data\n"}, Code::bad_row, {"line 3", "ignore_rows"}},
    {"no such date",
     {one_row + "2026-02-29 08:15,4.3\n"},
     Code::bad_row,
     {"line 3: instant: \"2026-02-29 08:15\": is no date"}},
    {"no such date in the first row",
     {"Time,Temp (°C)\n2026-02-30 08:05,4.2\n2026-03-02 08:15,4.3\n2026-03-02 08:25,4.3\n2026-03-02 "
      "08:35,4.3\n2026-03-02 08:45,4.3\n"},
     Code::bad_row,
     {"line 2: instant: \"2026-02-30 08:05\""}},
    {"no such time", {one_row + "2026-03-02 24:00,4.3\n"}, Code::bad_row, {"line 3: instant", "no time of day"}},
    {"year before 1970", {one_row + "1969-12-31 08:15,4.3\n"}, Code::bad_row, {"line 3", "1970 to 2199"}},
    {"part of a second", {"2026-03-02 08:05:00.5,4.2\n"}, Code::bad_row, {"line 1", "whole seconds"}},
    {"finer than a thousandth",
     {one_row + "2026-03-02 08:15,4.2505\n"},
     Code::bad_row,
     {"line 3", "more than three fractional digits"}},
    {"below absolute zero",
     {one_row + "2026-03-02 08:15,-273.151\n"},
     Code::bad_row,
     {"line 3", "-273.15 to 1000 °C"}},
    {"below absolute zero in F",
     {"2026-03-02 08:05,39.6 F\n2026-03-02 08:15,-459.68 F\n", "{}", "America/New_York", Scale::F},
     Code::bad_row,
     {"line 2", "-459.67 to 1832 °F"}},
    {"separated thousands", {one_row + "2026-03-02 08:15,\"1,000.0\"\n"}, Code::bad_row, {"line 3", "'.'"}},
    {"decimal sign of the other kind",
     {one_row + "2026-03-02 08:15,\"4,3\"\n", R"({"decimal":"."})"},
     Code::bad_row,
     {"line 3: temperature: \"4,3\"", "decimal"}},
    {"a comma that takes the cell apart", {one_row + "2026-03-02 08:15,4,3\n"}, Code::bad_row, {"line 3", "3 cells"}},
    {"too few cells", {one_row + "2026-03-02 08:15\n"}, Code::bad_row, {"line 3", "column 2"}},
    {"quotation mark inside a cell",
     {one_row + "2026-03-02 08:15,4\"3\n"},
     Code::bad_row,
     {"line 3", "quotation mark"}},
    {"quotation mark never closed", {one_row + "2026-03-02 08:15,\"4.3\n"}, Code::bad_row, {"line 3", "not closed"}},
    {"one instant, two temperatures",
     {one_row + "2026-03-02 08:15,4.3\n2026-03-02 08:15,4.4\n"},
     Code::readings_differ,
     {"line 4", "line 3"}},
    {"clock set back",
     {one_row + "2026-03-02 08:15,4.3\n2026-03-02 08:25,4.4\n2026-03-02 08:08,4.4\n2026-03-02 08:18,4.4\n"},
     Code::ambiguous,
     {"line 5: time: \"2026-03-02 08:08\"", "in line 4", "set back", "\"clocks\":[{\"line\":5,"}},
    {"clock fallen back to another year",
     {one_row + "2026-03-02 08:15,4.3\n2000-01-01 00:00,4.3\n2000-01-01 00:10,4.4\n"},
     Code::ambiguous,
     {"line 4", "set back"}},
    {"an earlier part that does not join",
     {"2026-03-05 08:05,4.2\n2026-03-05 08:15,4.3\n2026-03-05 08:25,4.3\n2026-03-02 08:05,4.3\n2026-03-02 "
      "08:15,4.4\n"},
     Code::ambiguous,
     {"line 4", "set back"}},
    {"rows that repeat others in part",
     {"2026-03-02 08:05,4.2\n2026-03-02 08:15,4.2\n2026-03-02 08:25,4.2\n2026-03-02 08:05,4.2\n2026-03-02 "
      "08:25,4.2\n2026-03-02 08:35,4.2\n"},
     Code::ambiguous,
     {"line 4", "set back"}},
    {"clock set back, although guesses are accepted",
     {"2026-03-02 08:05,4.2\n2026-03-02 08:15,4.3\n2026-03-02 08:25,4.3\n2026-03-02 08:08,4.4\n", "{}",
      "America/New_York", Scale::C, true},
     Code::ambiguous,
     {"line 4", "set back"}},
    {"Fahrenheit in a title, probe in Celsius",
     {"Time,Temp °F\n2026-03-02 08:05,39.6\n"},
     Code::wrong_scale,
     {"°F", "title", "probe is in °C"}},
    {"Fahrenheit in a line before the rows",
     {"Unit: F\nTime,Temp\n2026-03-02 08:05,39.6\n"},
     Code::wrong_scale,
     {"line 1", "°F"}},
    {"Celsius in the cells, probe in Fahrenheit",
     {"2026-03-02 08:05,4.2°C\n", "{}", "America/New_York", Scale::F},
     Code::wrong_scale,
     {"°C", "cells"}},
    {"one cell in another unit",
     {"2026-03-02 08:05,4.2 C\n2026-03-02 08:15,39.6 F\n"},
     Code::wrong_scale,
     {"line 2: temperature: \"39.6 F\""}},
    {"scale column in another scale",
     {"Time,Temp,Unit\n2026-03-02 08:05,4.2,C\n2026-03-02 08:15,39.6,F\n"},
     Code::wrong_scale,
     {"line 3: scale: \"F\""}},
    {"scale column without a scale",
     {"Time,Temp,Unit\n2026-03-02 08:05,4.2,C\n2026-03-02 08:15,4.3,K\n", R"({"columns":{"scale":3}})"},
     Code::bad_row,
     {"line 3: scale: \"K\""}},
    {"layout in another scale",
     {"2026-03-02 08:05,39.6\n", R"({"scale":"F"})"},
     Code::wrong_scale,
     {"the layout", "°F"}},
    {"UTF-16 without a byte order mark", {std::string("2\0000\000", 4)}, Code::bad_text, {"UTF-16", "UTF-8"}},
    {"NUL", {std::string("Time,Temp\n2026-03-02 08:05,4\0", 29)}, Code::bad_text, {"NUL"}},
    {"nothing", {""}, Code::bad_text, {"empty"}},
    {"blank lines alone", {"\n \n"}, Code::bad_text, {"empty"}},
    {"titles alone", {"Time,Temp\n"}, Code::bad_row, {"none of 1 lines looks like a row", "layout"}},
    {"no reading at all",
     {"2026-03-02 08:05,\n2026-03-02 08:15,\n", R"({"columns":{"temperature":2}})"},
     Code::bad_row,
     {"none of its 2 rows has a reading"}},
    {"a line without end", {one_row + std::string(5000, 'x')}, Code::bad_row, {"line 3", "1024"}},
    {"fewer lines than are to be skipped", {one_row, R"({"skip_lines":9})"}, Code::bad_row, {"none of 0 lines"}},
};

}  // namespace

TEST_CASE("files that are refused, with what would be right", "[logger]") {
    for (const auto& c : files_to_refuse) {
        INFO(c.name);
        try {
            const auto got = read(c.question);
            FAIL_CHECK("was read: " << got.rows.size() << " rows, layout " << got.report.layout.text());
        } catch (const Error& e) {
            INFO(e.what());
            CHECK(code_name(e.code()) == code_name(c.code));
            CHECK(std::string(e.what()).find('\n') == std::string::npos);
            CHECK(std::string(e.what()).starts_with("download.csv: "));
            for (const auto& part : c.says) {
                INFO(part);
                CHECK(std::string(e.what()).find(part) != std::string::npos);
            }
        }
    }
}

namespace {

struct Otherwise {
    const char* name;
    Question question;
    std::string says, code;
    Rows accepted;
    std::string settles;  ///< a layout that leaves nothing open
    Rows settled;
};

const std::vector<Otherwise> files_of_two_meanings = {
    {"day and month of one day",
     {"Time,Temp C\n03/02/2026 08:05,4.2\n"},
     "could be \"%m/%d/%Y %H:%M\"",
     "date-could-be",
     {"2026-02-03T13:05:00Z 4200"},
     R"({"instant_pattern":"%m/%d/%Y %H:%M"})",
     {"2026-03-02T13:05:00Z 4200"}},
    {"year of two digits",
     {"Time,Temp C\n01-02-03 08:05,4.2\n"},
     "\"%y-%m-%d %H:%M\"",
     "date-could-be",
     {"2003-02-01T13:05:00Z 4200"},
     R"({"instant_pattern":"%y-%m-%d %H:%M"})",
     {"2001-02-03T13:05:00Z 4200"}},
    {"two temperatures",
     {"Time,Temp A,Temp B\n2026-03-02 08:05,4.2,5.2\n"},
     "could be column 3 (\"Temp B\")",
     "could-be",
     {"2026-03-02T13:05:00Z 4200"},
     R"({"columns":{"temperature":3}})",
     {"2026-03-02T13:05:00Z 5200"}},
    {"two columns of numbers without titles",
     {"2026-03-02 08:05,41,3.6\n"},
     "could be column 2",
     "could-be",
     {"2026-03-02T13:05:00Z 3600"},
     R"({"columns":{"temperature":2},"scale":"C"})",
     {"2026-03-02T13:05:00Z 41000"}},
    {"values of Fahrenheit for a probe in Celsius",
     {"Time,Temp\n2026-03-02 08:05,39.6\n2026-03-02 08:15,40.1\n"},
     "could be °F",
     "scale-could-be-other",
     {"2026-03-02T13:05:00Z 39600", "2026-03-02T13:15:00Z 40100"},
     R"({"scale":"C"})",
     {"2026-03-02T13:05:00Z 39600", "2026-03-02T13:15:00Z 40100"}},
    {"a freezer in Fahrenheit for a probe in Celsius",
     {"Time,Temp\n2026-03-02 08:05,-4.0\n"},
     "could be °F",
     "scale-could-be-other",
     {"2026-03-02T13:05:00Z -4000"},
     R"({"scale":"C"})",
     {"2026-03-02T13:05:00Z -4000"}},
    {"values of Celsius for a probe in Fahrenheit",
     {"Time,Temp\n2026-03-02 08:05,4.2\n", "{}", "America/New_York", Scale::F},
     "could be °C",
     "scale-could-be-other",
     {"2026-03-02T13:05:00Z 4200"},
     R"({"scale":"F"})",
     {"2026-03-02T13:05:00Z 4200"}},
    {"layout and title of different scales",
     {"Time,Temp °F\n2026-03-02 08:05,4.2\n", R"({"scale":"C"})"},
     "could be °F",
     "scale-could-be-titled",
     {"2026-03-02T13:05:00Z 4200"},
     "",
     {}},
    {"an offset named before the rows",
     {"Time zone: UTC-08:00\nTime,Temp C\n2026-03-02 08:05,4.2\n"},
     "could be at offset -08:00 (line 1",
     "clock-could-be",
     {"2026-03-02T13:05:00Z 4200"},
     R"({"offset":"-08:00"})",
     {"2026-03-02T16:05:00Z 4200"}},
    {"decimal commas without quotation marks",
     {"2026-03-02 08:05,4,2\n2026-03-02 08:15,4,3\n", R"({"columns":{"temperature":2}})"},
     "could be decimal commas",
     "could-be-decimal-commas",
     {"2026-03-02T13:05:00Z 4000", "2026-03-02T13:15:00Z 4000"},
     "",
     {}},
    {"one pass of the repeated hour, by the step alone",
     {"2025-11-02 00:30,4.0\n2025-11-02 00:45,4.1\n2025-11-02 01:00,4.2\n2025-11-02 01:15,4.3\n"},
     "by the usual step",
     "could-be-other-pass",
     {"2025-11-02T04:30:00Z 4000", "2025-11-02T04:45:00Z 4100", "2025-11-02T05:00:00Z 4200",
      "2025-11-02T05:15:00Z 4300"},
     R"({"offset":"-04:00"})",
     {"2025-11-02T04:30:00Z 4000", "2025-11-02T04:45:00Z 4100", "2025-11-02T05:00:00Z 4200",
      "2025-11-02T05:15:00Z 4300"}},
};

}  // namespace

TEST_CASE("what could be otherwise is refused, and read once it is accepted or stated", "[logger]") {
    for (const auto& c : files_of_two_meanings) {
        INFO(c.name);
        try {
            read(c.question);
            FAIL_CHECK("was read without being accepted");
        } catch (const Error& e) {
            INFO(e.what());
            CHECK(code_name(e.code()) == "ambiguous");
            CHECK(std::string(e.what()).find(c.says) != std::string::npos);
            CHECK(std::string(e.what()).find("accept the guess") != std::string::npos);
            CHECK(std::string(e.what()).find("layout") != std::string::npos);
        }
        Question accepted = c.question;
        accepted.accept = true;
        const auto got = read(accepted);
        CHECK(rows_of(got) == c.accepted);
        CHECK(any_has(got.report.ambiguous, c.says));
        CHECK(any_is(got.report.ambiguous, c.code));
        if (c.settles.empty()) continue;
        Question settled = c.question;
        settled.layout = c.settles;
        const auto sure = read(settled);
        CHECK(rows_of(sure) == c.settled);
        CHECK(sure.report.ambiguous.empty());
    }
}

TEST_CASE("what was guessed is said in sentences and in codes", "[logger]") {
    const auto got = read({"Logger 7; scale: \xB0" "C\nTime;Temp\n02.03.2026 08:05;4,2\n13.03.2026 08:05;4,3\n"});
    CHECK(english().say(got.report.guesses) ==
          std::vector<std::string>{"delimiter: \";\"", "date with time: column 1 (\"Time\")",
                                   "temperature: column 2 (\"Temp\")", "lines before the rows: 2",
                                   "instant_pattern: \"%d.%m.%Y %H:%M\" (line 4 can be nothing else)",
                                   "clock: in the site's zone, America/New_York", "decimal: \",\"",
                                   "scale: °C, from line 1"});
    std::vector<std::string> codes;
    for (const Remark& guess : got.report.guesses) codes.emplace_back(guess.code());
    CHECK(codes == std::vector<std::string>{"delimiter-is", "instant-column-is", "temperature-column-is",
                                            "lines-before-rows", "settled-by-line", "clock-of-site", "decimal-is",
                                            "scale-from"});
    CHECK(english().say(got.report.remarks) == std::vector<std::string>{"is not UTF-8; read as ISO 8859-1 (Latin-1)"});
    CHECK(any_is(got.report.remarks, "read-as-latin1"));
}

TEST_CASE("the order of day and month is settled by the rows", "[logger]") {
    SECTION("by a day above 12") {
        const auto got = read({"Time,Temp C\n02/03/2026 08:05,4.2\n13/03/2026 08:05,4.3\n"});
        CHECK(rows_of(got) == Rows{"2026-03-02T13:05:00Z 4200", "2026-03-13T12:05:00Z 4300"});
        CHECK(any_has(got.report.guesses, "(line 3 can be nothing else)"));
        CHECK(any_is(got.report.guesses, "settled-by-line"));
    }
    SECTION("by rows that follow one another") {
        const auto got = read({"Time,Temp C\n03/02/2026 16:05,4.2\n03/03/2026 04:05,4.3\n03/04/2026 08:05,4.4\n"});
        CHECK(rows_of(got) ==
              Rows{"2026-03-02T21:05:00Z 4200", "2026-03-03T09:05:00Z 4300", "2026-03-04T13:05:00Z 4400"});
        CHECK(any_has(got.report.guesses, "\"%m/%d/%Y %H:%M\" (only so"));
        CHECK(any_is(got.report.guesses, "settled-by-steps"));
    }
    SECTION("it does not matter") {
        CHECK(rows_of(read({"Time,Temp C\n03/03/2026 08:05,4.2\n"})) == Rows{"2026-03-03T13:05:00Z 4200"});
    }
    SECTION("in a column of its own") {
        const auto got = read({"Date,Time,Temp C\n02.03.2026,23:05,4.2\n03.03.2026,00:05,4.3\n"});
        CHECK(got.report.layout.date_pattern == "%d.%m.%Y");
        CHECK(rows_of(got) == Rows{"2026-03-03T04:05:00Z 4200", "2026-03-03T05:05:00Z 4300"});
    }
}

TEST_CASE("clock changes: the repeated hour", "[logger]") {
    SECTION("the repeated hour, ascending") {
        const auto got =
            read({"2025-11-02 00:45,1.0\n2025-11-02 01:00,2.0\n2025-11-02 01:30,3.0\n2025-11-02 01:00,4.0\n2025-11-02 "
                  "01:30,5.0\n2025-11-02 02:00,6.0\n"});
        // computed with Python zoneinfo, fold 0 and 1
        CHECK(rows_of(got) == Rows{"2025-11-02T04:45:00Z 1000", "2025-11-02T05:00:00Z 2000",
                                   "2025-11-02T05:30:00Z 3000", "2025-11-02T06:00:00Z 4000",
                                   "2025-11-02T06:30:00Z 5000", "2025-11-02T07:00:00Z 6000"});
        CHECK(any_has(got.report.remarks, "line 2: the clock of America/New_York shows this hour twice: lines 2 to 3 "
                                          "at -04:00, lines 4 to 5 at -05:00"));
        CHECK(any_is(got.report.remarks, "hour-shown-twice"));
        CHECK(got.report.longest_step == Duration(1800));
    }
    SECTION("the repeated hour, newest first") {
        const auto got =
            read({"2025-11-02 02:00,6.0\n2025-11-02 01:30,5.0\n2025-11-02 01:00,4.0\n2025-11-02 01:30,3.0\n2025-11-02 "
                  "01:00,2.0\n2025-11-02 00:45,1.0\n"});
        CHECK(rows_of(got) == Rows{"2025-11-02T04:45:00Z 1000", "2025-11-02T05:00:00Z 2000",
                                   "2025-11-02T05:30:00Z 3000", "2025-11-02T06:00:00Z 4000",
                                   "2025-11-02T06:30:00Z 5000", "2025-11-02T07:00:00Z 6000"});
    }
    SECTION("the repeated hour of an hourly logger: the same time twice") {
        const auto got =
            read({"2025-11-01 23:00,4.0\n2025-11-02 00:00,4.0\n2025-11-02 01:00,4.0\n2025-11-02 01:00,4.0\n2025-11-02 "
                  "02:00,4.0\n"});
        // computed with Python zoneinfo
        CHECK(rows_of(got) == Rows{"2025-11-02T03:00:00Z 4000", "2025-11-02T04:00:00Z 4000",
                                   "2025-11-02T05:00:00Z 4000", "2025-11-02T06:00:00Z 4000",
                                   "2025-11-02T07:00:00Z 4000"});
    }
    SECTION("a step back between rows without a reading settles it too") {
        const auto got = read({"2025-11-02 00:45,1.0\n2025-11-02 01:40,\n2025-11-02 01:10,\n2025-11-02 01:30,5.0\n",
                               R"({"columns":{"temperature":2}})"});
        CHECK(rows_of(got) == Rows{"2025-11-02T04:45:00Z 1000", "2025-11-02T06:30:00Z 5000"});
    }
    SECTION("a repeated hour that nothing settles") {
        // one pass alone, of a clock that does not change
        const std::string rows =
            "2025-11-02 00:30,4.0\n2025-11-02 01:00,4.1\n2025-11-02 01:30,4.2\n2025-11-02 02:00,4.3\n2025-11-02 "
            "02:30,4.3\n";
        for (const bool accept : {false, true})
            CHECK_THROWS_WITH(read({rows, "{}", "America/New_York", Scale::C, accept}),
                              Catch::Contains("line 2: time: \"2025-11-02 01:00\": occurs twice in America/New_York") &&
                                  Catch::Contains("-04:00") && Catch::Contains("-05:00"));
        // ... and with its offset
        CHECK(rows_of(read({rows, R"({"offset":"-05:00"})"})) ==
              Rows{"2025-11-02T05:30:00Z 4000", "2025-11-02T06:00:00Z 4100", "2025-11-02T06:30:00Z 4200",
                   "2025-11-02T07:00:00Z 4300", "2025-11-02T07:30:00Z 4300"});
    }
    SECTION("a repeated hour in which the rows go back twice") {
        CHECK_THROWS_WITH(read({"2025-11-02 01:00,1.0\n2025-11-02 01:30,2.0\n2025-11-02 01:00,3.0\n2025-11-02 "
                                "01:30,4.0\n2025-11-02 01:10,5.0\n"}),
                          Catch::Contains("line 5") && Catch::Contains("more than once"));
    }
}

TEST_CASE("clock changes: the missing hour, half an hour, and an offset for a clock that changes", "[logger]") {
    SECTION("the missing hour") {
        // computed with Python zoneinfo: 01:50 EST is 06:50Z, 03:00 EDT is 07:00Z
        CHECK(rows_of(read({"2026-03-08 01:50,4.0\n2026-03-08 03:00,4.1\n"})) ==
              Rows{"2026-03-08T06:50:00Z 4000", "2026-03-08T07:00:00Z 4100"});
        CHECK_THROWS_WITH(read({"2026-03-08 01:50,4.0\n2026-03-08 02:00,4.1\n"}),
                          Catch::Contains("line 2: time: \"2026-03-08 02:00\": does not exist in America/New_York") &&
                              Catch::Contains("offset"));
        CHECK(rows_of(read({"2026-03-08 01:50,4.0\n2026-03-08 02:00,4.1\n", R"({"offset":"-05:00"})"})) ==
              Rows{"2026-03-08T06:50:00Z 4000", "2026-03-08T07:00:00Z 4100"});
    }
    SECTION("half an hour, Lord Howe") {
        // computed with Python zoneinfo: the clock goes back from 02:00 +11:00 to 01:30 +10:30, and forward from 02:00
        // to 02:30
        const std::string zone = "Australia/Lord_Howe";
        CHECK(rows_of(read({"2026-04-05 01:15,1.0\n2026-04-05 01:45,2.0\n2026-04-05 01:30,3.0\n2026-04-05 "
                            "01:45,4.0\n2026-04-05 02:00,5.0\n",
                            "{}", zone})) == Rows{"2026-04-04T14:15:00Z 1000", "2026-04-04T14:45:00Z 2000",
                                                  "2026-04-04T15:00:00Z 3000", "2026-04-04T15:15:00Z 4000",
                                                  "2026-04-04T15:30:00Z 5000"});
        CHECK(rows_of(read({"2026-10-04 01:45,1.0\n2026-10-04 02:30,2.0\n2026-10-04 02:45,3.0\n", "{}", zone})) ==
              Rows{"2026-10-03T15:15:00Z 1000", "2026-10-03T15:30:00Z 2000", "2026-10-03T15:45:00Z 3000"});
        CHECK_THROWS_WITH(read({"2026-10-04 01:45,1.0\n2026-10-04 02:15,2.0\n", "{}", zone}),
                          Catch::Contains("line 2") && Catch::Contains("does not exist"));
    }
    SECTION("an offset for a clock that changes") {
        CHECK_THROWS_WITH(
            read({"2025-11-02 01:20,1.0\n2025-11-02 01:40,2.0\n2025-11-02 01:00,3.0\n2025-11-02 01:50,4.0\n",
                  R"({"offset":"-05:00"})"}),
            Catch::Contains("line 3") &&
                Catch::Contains("if the clock follows summer time, state in a layout {\"zone\":\"America/New_York\"}"));
    }
}

TEST_CASE("a long file is read whole, whatever the offset of its rows", "[logger]") {
    // The instants follow from their number, and the local times from the rule of the zone: UTC-5 before
    // 2026-03-08T07:00Z, UTC-4 from then on.
    const std::int64_t start = 1772427600;  // 2026-03-02T05:00:00Z, computed with Python
    std::string content = "Date,Time,Temp (°C)\r\n";
    const int n = 20000;
    for (int i = 0; i < n; ++i) {
        const std::int64_t t = start + 60 * i;
        const std::string local = Instant(t - (t < 1772953200 ? 5 : 4) * 3600).text();
        content += local.substr(0, 10) + "," + local.substr(11, 8) + "," + std::to_string(2 + i % 6) + "." +
                   std::to_string(i % 10) + "\r\n";
    }
    const auto got = read({content});
    REQUIRE(got.rows.size() == n);
    bool all = true;
    for (int i = 0; i < n; ++i)
        all = all && got.rows[i] == Reading{Instant(start + 60 * i), (2 + i % 6) * 1000 + (i % 10) * 100};
    CHECK(all);
    CHECK(got.report.longest_step == Duration(60));
}

TEST_CASE("a number that means that nothing was measured is no reading, in a large file either", "[logger]") {
    std::string content = "Time,Temp (°C)\n";
    for (int i = 0; i < 400; ++i) {
        char line[64];
        std::snprintf(line, sizeof line, "2026-03-%02dT%02d:%02d:00Z,%s\n", 2 + i / 144, i / 6 % 24, i % 6 * 10,
                      i % 100 == 7 ? "-99.9" : "4.2");
        content += line;
    }
    const auto got = read(
        {content,
         R"({"columns":{"instant":1,"temperature":2},"instant_pattern":"%Y-%m-%dT%H:%M:%S%z","scale":"C",)"
         R"("no_reading":["-99.9"]})"});
    CHECK(got.rows.size() == 396);
    CHECK(got.report.rows_without_reading == 4);
    CHECK(std::all_of(got.rows.begin(), got.rows.end(), [](const Reading& r) { return r.thousandths == 4200; }));
}

TEST_CASE("layouts", "[logger]") {
    SECTION("what is set comes back") {
        const std::string full =
            R"({"delimiter":";","decimal":",","skip_lines":3,"columns":{"date":1,"time":2,"temperature":4,"scale":5},)"
            R"("date_pattern":"%d/%m/%Y","time_pattern":"%H:%M","offset":"-06:30","no_reading":["---"],)"
            R"("ignore_rows":["^#"]})";
        CHECK(LoggerLayout::parse(full).text() == full);
        const std::string other =
            R"({"delimiter":"\t","columns":{"instant":1},"instant_pattern":"%Y-%m-%d %H:%M","zone":"Europe/Berlin",)"
            R"("scale":"F"})";
        CHECK(LoggerLayout::parse(other).text() == other);
        CHECK(LoggerLayout::parse("{}").text() == "{}");
        CHECK(LoggerLayout::parse(full).offset == Duration(-23400));
    }
    SECTION("refused, each with its field") {
        struct Refused {
            const char* json;
            Code code;
            const char* says;
        };
        for (const auto& c : std::vector<Refused>{
                 {"{", Code::bad_json, "layout: "},
                 {"[]", Code::bad_value, "layout: "},
                 {R"({"zone":"UTC","zone":"UTC"})", Code::bad_json, "zone"},
                 {R"({"separator":","})", Code::unknown_field, "separator"},
                 {R"({"columns":{"humidity":3}})", Code::unknown_field, "columns: \"humidity\""},
                 {R"({"columns":{"temperature":0}})", Code::bad_value, "columns: temperature"},
                 {R"({"columns":{"date":1,"time":1}})", Code::bad_value, "columns: time"},
                 {R"({"columns":{"instant":1,"date":2}})", Code::bad_value, "instant"},
                 {R"({"delimiter":"::"})", Code::bad_value, "delimiter"},
                 {R"({"delimiter":"7"})", Code::bad_value, "delimiter"},
                 {R"({"decimal":";"})", Code::bad_value, "decimal"},
                 {R"({"skip_lines":-1})", Code::bad_value, "skip_lines"},
                 {R"({"skip_lines":1.5})", Code::bad_value, "skip_lines"},
                 {R"({"date_pattern":"%d/%m"})", Code::bad_value, "date_pattern"},
                 {R"({"date_pattern":"%d/%m/%Y %H:%M"})", Code::bad_value, "date_pattern"},
                 {R"({"date_pattern":"%d/%d/%m/%Y"})", Code::bad_value, "once"},
                 {R"({"time_pattern":"%I:%M"})", Code::bad_value, "time_pattern"},
                 {R"({"time_pattern":"%H:%M %p"})", Code::bad_value, "time_pattern"},
                 {R"({"instant_pattern":"%Y-%m-%d %H:%M%"})", Code::bad_value, "instant_pattern"},
                 {R"({"instant_pattern":"%Y-%m-%d %H:%M%z","offset":"+01:00"})", Code::bad_value, "%z"},
                 {R"({"zone":"Mars/Olympus"})", Code::bad_value, "zone"},
                 {R"({"zone":"Europe/Berlin","offset":"+01:00"})", Code::bad_value, "offset"},
                 {R"({"offset":"+15:00"})", Code::bad_value, "offset"},
                 {R"({"offset":"-6"})", Code::bad_value, "offset"},
                 {R"({"scale":"K"})", Code::bad_value, "scale"},
                 {R"({"no_reading":[1]})", Code::bad_value, "no_reading"},
                 {R"({"ignore_rows":["("]})", Code::bad_value, "ignore_rows"},
                 {R"({"ignore_rows":[""]})", Code::bad_value, "ignore_rows"},
             }) {
            INFO(c.json);
            try {
                LoggerLayout::parse(c.json);
                FAIL_CHECK("was taken");
            } catch (const Error& e) {
                INFO(e.what());
                CHECK(code_name(e.code()) == code_name(c.code));
                CHECK(std::string(e.what()).find(c.says) != std::string::npos);
            }
        }
    }
    SECTION("one that was not parsed is checked as well") {
        LoggerLayout layout;
        layout.delimiter = '"';
        CHECK_THROWS_WITH(
            read_logger_file({"download.csv", "2026-03-02 08:05,4.2\n"}, layout, Zone("UTC"), Scale::C, false),
            Catch::Contains("download.csv: layout: delimiter"));
    }
}
