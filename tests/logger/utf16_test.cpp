// UTF-16: a file with its byte order mark is read as the same text in UTF-8; a damaged one is refused with its line.
// The texts are made by the machine's iconv.
#include <catch2/catch.hpp>

#include <iconv.h>

#include <cstdio>
#include <string>
#include <vector>

#include "coldtally/error.hpp"
#include "coldtally/logger.hpp"
#include "logger/reader.hpp"
#include "text/utf16.hpp"

using namespace coldtally;

namespace {

std::string as_utf16(const std::string& utf8, bool little) {
    const iconv_t to = iconv_open(little ? "UTF-16LE" : "UTF-16BE", "UTF-8");
    REQUIRE(to != reinterpret_cast<iconv_t>(-1));
    std::string in = utf8, out(2 * utf8.size() + 2, '\0');
    char *from = in.data(), *at = out.data();
    std::size_t left = in.size(), room = out.size();
    const std::size_t done = iconv(to, &from, &left, &at, &room);
    iconv_close(to);
    REQUIRE(done == 0);
    out.resize(out.size() - room);
    return (little ? "\xFF\xFE" : "\xFE\xFF") + out;
}

logger::ReadFile read(const std::string& content, const std::string& layout = "{}") {
    return logger::read_logger_file({"download.csv", content}, LoggerLayout::parse(layout), Zone("America/New_York"),
                                    Scale::C, false);
}

}  // namespace

TEST_CASE("UTF-16 with a byte order mark is read as UTF-8 is", "[logger][utf16]") {
    std::string rows;
    for (int i = 0; i < 400; ++i) {
        char line[64];
        std::snprintf(line, sizeof line, "2026-03-%02dT%02d:%02d:00Z,%d.%d\r\n", 2 + i / 144, i / 6 % 24, i % 6 * 10,
                      2 + i % 6, i % 10);
        rows += line;
    }
    const std::string content = "Ort: Kühlschrank Nr. 1, 冷蔵庫 \xF0\x9F\xA7\x8A\r\nTime,Temp (°C)\r\n" + rows;
    const std::string stated =
        R"({"delimiter":",","decimal":".","skip_lines":2,"columns":{"instant":1,"temperature":2},)"
        R"("instant_pattern":"%Y-%m-%dT%H:%M:%S%z","scale":"C"})";
    for (const std::string& layout :
         {std::string("{}"), stated}) {  // guessed by the reader of all forms; and the quick way
        const auto want = read(content, layout);
        REQUIRE(want.rows.size() == 400);
        for (const bool little : {true, false}) {
            const auto got = read(as_utf16(content, little), layout);
            CHECK(got.rows == want.rows);
            CHECK(got.report.layout.text() == want.report.layout.text());
            CHECK(got.report.guesses == want.report.guesses);
            CHECK(got.report.remarks == want.report.remarks);
        }
    }
}

TEST_CASE("every character comes through UTF-16 as iconv makes it", "[utf16]") {
    std::string all;
    for (std::uint32_t c = 1; c < 0x110000; c += c < 0x3000 ? 1 : 37) {
        if (c >= 0xD800 && c < 0xE000) continue;
        if (c < 0x80)
            all += static_cast<char>(c);
        else if (c < 0x800)
            (all += static_cast<char>(0xC0 | c >> 6)) += static_cast<char>(0x80 | (c & 0x3F));
        else if (c < 0x10000)
            ((all += static_cast<char>(0xE0 | c >> 12)) += static_cast<char>(0x80 | (c >> 6 & 0x3F))) +=
                static_cast<char>(0x80 | (c & 0x3F));
        else
            (((all += static_cast<char>(0xF0 | c >> 18)) += static_cast<char>(0x80 | (c >> 12 & 0x3F))) +=
             static_cast<char>(0x80 | (c >> 6 & 0x3F))) += static_cast<char>(0x80 | (c & 0x3F));
    }
    for (const bool little : {true, false}) {
        std::string back;
        CHECK(text::utf16_to_utf8(as_utf16(all, little).substr(2), little, back).empty());
        CHECK(back == all);
    }
}

TEST_CASE("damaged UTF-16 is refused with its line", "[logger][utf16]") {
    const std::string good = "Time,Temp (°C)\n2026-03-02 08:05,4.2\n2026-03-02 08:15,4.3\n";
    struct Case {
        const char* name;
        std::string bytes, says;
    };
    const std::string little = as_utf16(good, true), big = as_utf16(good, false);
    const auto with = [&](const std::string& in, std::size_t line,
                          const std::string& unit) {  // put before the last sign of a line
        std::size_t at = 2;
        for (std::size_t n = 0; n < line; at += 2)
            if (in[at] == '\n' || in[at + 1] == '\n') ++n;
        return in.substr(0, at - 4) + unit + in.substr(at - 4);
    };
    for (const auto& c : std::vector<Case>{
             {"a high surrogate alone", with(little, 2, std::string("\x00\xD8", 2)),
              "line 2: is damaged UTF-16: the first half of a character without its second"},
             {"a low surrogate alone", with(big, 3, std::string("\xDC\x00", 2)),
              "line 3: is damaged UTF-16: the second half"},
             {"a high surrogate at the end", little + std::string("\x00\xD8", 2),
              "line 4: is damaged UTF-16: the first half"},
             {"half a unit", big.substr(0, big.size() - 1), "line 3: is damaged UTF-16: a byte is left over"},
             {"UTF-32",
              std::string("\xFF\xFE\0\0"
                          "2\0\0\0",
                          8),
              "UTF-32"}}) {
        INFO(c.name);
        try {
            read(c.bytes);
            FAIL_CHECK("was read");
        } catch (const Error& e) {
            INFO(e.what());
            CHECK(e.code() == Code::bad_text);
            CHECK(std::string(e.what()).find("download.csv: ") == 0);
            CHECK(std::string(e.what()).find(c.says) != std::string::npos);
        }
    }
    // a NUL is none of a logger's characters, in UTF-16 either; and without the mark UTF-16 is not to be told from
    // damage
    CHECK_THROWS_WITH(read(with(little, 2, std::string(2, '\0'))), Catch::Contains("NUL"));
    CHECK_THROWS_WITH(read(little.substr(2)), Catch::Contains("byte order mark"));
}
