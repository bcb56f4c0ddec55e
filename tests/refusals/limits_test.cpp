// Limits: to each limit, and one beyond, which is refused in the words of the page.
#include <catch2/catch.hpp>

#include <sys/mman.h>

#include <ctime>
#include <fstream>
#include <functional>
#include <sstream>

#include "coldtally/error.hpp"
#include "coldtally/ledger.hpp"
#include "logger/ignore_rows.hpp"
#include "temporary.hpp"
#include "text/limits.hpp"

using namespace coldtally;

namespace {

const Instant now = parse_instant("2026-04-01T12:00:00Z", Zone("UTC"));

const std::string& page() {
    static const std::string text = [] {
        std::ifstream in(COLDTALLY_LIMITS);
        std::ostringstream all;
        all << in.rdbuf();
        return all.str();
    }();
    return text;
}

std::string times(std::size_t n, const std::string& what) {
    std::string out;
    for (std::size_t i = 0; i < n; ++i) out += what;
    return out;
}

const std::string range = R"("range":{"low":{"C":"2"},"high":{"C":"8"}})";
const std::string base = R"({"kind":"site","name":"S","zone":"UTC","by":"QA"}
{"kind":"product","product":"mmr","name":"MMR",)" + range + R"(,"by":"QA"}
{"kind":"lot","product":"mmr","lot":"L1","expiry":"2026-12-31","by":"QA"}
{"kind":"place","place":"main","name":"Main","type":"refrigerator",)" + range + R"(,"by":"QA"}
{"kind":"probe","probe":"p","scale":"C","by":"QA"}
{"kind":"receive","at":"2026-03-02T09:00:00Z","place":"main","product":"mmr","lot":"L1","doses":1000000000,"by":"QA"}
)";

struct Clinic {
    tests::TemporaryFile file;
    Ledger ledger{file.path(), Ledger::Mode::create};
    Clinic() { ledger.post(base, now); }
};

std::string said(const std::function<void()>& what) {
    try {
        what();
    } catch (const Error& e) {
        return e.what();
    }
    return {};
}

/// `words`: of the refusal, and of the page.
void check(const std::string& what, const std::function<void()>& within, const std::function<void()>& beyond,
           const std::string& words) {
    INFO(what);
    CHECK(said(within).empty());
    const std::string refused = said(beyond);
    INFO(refused.substr(0, 400));
    CHECK(refused.find(words) != std::string::npos);
    CHECK(refused.size() < 1000);
    INFO(words);
    CHECK(page().find(words) != std::string::npos);
}

void check_entries(const std::string& what, const std::string& within, const std::string& beyond,
                   const std::string& words) {
    Clinic site;
    check(what, [&] { site.ledger.post(within, now, true); }, [&] { site.ledger.post(beyond, now, true); }, words);
}

std::string place(const std::string& id, const std::string& more = "") {
    return R"({"kind":"place","by":"QA","name":"X","type":"room","place":")" + id + "\"," + range + more + "}";
}
std::string count(const std::string& doses) {
    return R"({"kind":"waste","reason":"r","at":"2026-03-03T09:00:00Z","by":"QA","place":"main","product":"mmr",)"
           R"("lot":"L1","doses":)" +
           doses + "}";
}
std::string check_of(const std::string& scale, const std::string& temperature,
                     const std::string& at = "2026-03-03T09:00:00Z") {
    return R"({"kind":"check","by":"QA","place":"main","at":")" + at + R"(","scale":")" + scale +
           R"(","temperature":")" + temperature + "\"}";
}
std::string readings(std::size_t rows) {
    std::string out = R"({"kind":"readings","by":"QA","probe":"p","scale":"C","rows":[)";
    for (std::size_t i = 0; i < rows; ++i)
        out += (i == 0 ? "[\"" : ",[\"") +
               (parse_instant("2026-01-01T00:00:00Z", Zone("UTC")) + Duration(static_cast<std::int64_t>(i))).text() +
               "\",\"4\"]";
    return out + "]}";
}

}  // namespace

TEST_CASE("limits: text", "[refusals]") {
    check_entries("an id", place(times(64, "é")), place(times(65, "é")), "must be 1 to 64 characters");
    check_entries("an id without characters", place("a"), place(""), "must be 1 to 64 characters");
    check_entries("an id with a control character", place("a b"), place("a\\u0007b"), "must be printable characters");
    for (const char* mark : {"\\u061c", "\\u200e", "\\u200f", "\\u202a", "\\u202b", "\\u202c", "\\u202d", "\\u202e",
                             "\\u2066", "\\u2067", "\\u2068", "\\u2069"}) {
        const auto lot = [&](const std::string& number) {
            return R"({"kind":"lot","product":"mmr","expiry":"2026-12-31","by":"QA","lot":")" + number + "\"}";
        };
        check_entries(mark, lot("L\\u05d0B"), lot(std::string("L") + mark + "B"),
                      "must not hold marks that turn the direction of writing");
        Clinic site;
        CHECK(said([&] { site.ledger.post(lot(std::string("L") + mark + "B"), now, true); }).find(mark) !=
              std::string::npos);  // is shown, and turns nothing
    }
    check_entries("a note", place("a", R"(,"note":")" + times(4000, "é") + "\""),
                  place("a", R"(,"note":")" + times(4001, "é") + "\""), "must be at most 4000 characters");
    check_entries("a note may turn its direction", place("a", R"(,"note":"\u202eabc")"), place("a", R"(,"note":7)"),
                  "text");
    const std::string deep = times(31, "["), shut = times(31, "]");
    check_entries("nesting, told by what comes after it", place("a"), place("a", ",\"x\":[" + deep + shut + "]"),
                  "nested deeper than 32");
    {
        Clinic site;
        CHECK(said([&] { site.ledger.post(place("a", ",\"x\":" + deep + shut), now, true); }).find("is not a field") !=
              std::string::npos);
        const std::string frame = place("a", R"(,"note":"")");
        const auto line = [&](std::size_t size) {
            return place("a", R"(,"note":")" + std::string(size - frame.size(), 'x') + "\"");
        };
        CHECK(line(limits::line_bytes).size() == limits::line_bytes);
        CHECK(said([&] {
                  site.ledger.post(line(limits::line_bytes), now, true);
              }).find("must be at most 4000 characters") != std::string::npos);
        CHECK(said([&] {
                  site.ledger.post(line(limits::line_bytes + 1), now, true);
              }).find("longer than 16 MiB; split it") != std::string::npos);
        CHECK(page().find("longer than 16 MiB; split it") != std::string::npos);
    }
}

TEST_CASE("limits: a post", "[refusals]") {
    // addresses without memory behind them: that the limit itself is read would take longer than all other tests
    constexpr std::size_t size = limits::post_bytes + 1;
    void* const nothing = ::mmap(nullptr, size, PROT_READ, MAP_PRIVATE | MAP_ANONYMOUS | MAP_NORESERVE, -1, 0);
    REQUIRE(nothing != MAP_FAILED);
    const std::string_view text(static_cast<const char*>(nothing), size);
    Clinic site;
    CHECK(said([&] { site.ledger.post(text, now, true); }) == "longer than 4 GiB; post it in parts");
    CHECK(page().find("longer than 4 GiB; post it in parts") != std::string::npos);
    ::munmap(nothing, size);
}

TEST_CASE("limits: quantities", "[refusals]") {
    check_entries("doses", count("1000000000"), count("1000000001"), "must be a whole number from 1 to 1000000000");
    check_entries("no doses", count("1"), count("0"), "must be a whole number from 1 to 1000000000");
    check_entries("near", place("a", ",\"near_s\":7200"), place("a", ",\"near_s\":7201"),
                  "must be a whole number from");
    check_entries("a gap", place("a", ",\"max_gap_s\":1000000000"), place("a", ",\"max_gap_s\":1000000001"),
                  "must be a whole number from");
    check_entries("too cold", check_of("C", "-273.15"), check_of("C", "-273.151"), "must be from -273.15 to 1000 °C");
    check_entries("too warm", check_of("C", "1000"), check_of("C", "1000.001"), "must be from -273.15 to 1000 °C");
    check_entries("too cold in F", check_of("F", "-459.67"), check_of("F", "-459.671"), "-459.67 to 1832 °F");
    check_entries("too warm in F", check_of("F", "1832"), check_of("F", "1832.001"), "-459.67 to 1832 °F");
    check_entries("too early", check_of("C", "4", "1970-01-01T00:00:00Z"), check_of("C", "4", "1969-12-31T23:59:59Z"),
                  "1970 to 2199");
    check_entries(
        "too late",
        R"({"kind":"beyond-use","at":"2026-03-03T09:00:00Z","by":"QA","place":"main","product":"mmr","lot":"L1",)"
        R"("use_by":"2199-12-31T23:59:59Z"})",
        R"({"kind":"beyond-use","at":"2026-03-03T09:00:00Z","by":"QA","place":"main","product":"mmr","lot":"L1",)"
        R"("use_by":"2200-01-01T00:00:00Z"})",
        "1970 to 2199");
    check_entries("rows of an entry", readings(100'000), readings(100'001), "must be 1 to 100000");
    const auto digits = [](std::size_t n) { Rational::parse(std::string(n, '7')); };
    check("digits", [&] { digits(4000); }, [&] { digits(4001); }, "must be \"n\" or \"n/d\" in lowest terms");
    Clinic site;
    const auto conditions = [&](std::int64_t K) {
        site.ledger.conditions("main", now - Duration(60), now, {}, now, K);
    };
    check("activation", [&] { conditions(1'000'000); }, [&] { conditions(1'000'001); }, "must be 1 to 1000000 K");
    check("activation of nothing", [&] { conditions(1); }, [&] { conditions(0); }, "must be 1 to 1000000 K");
}

TEST_CASE("limits: layouts and logger files", "[refusals]") {
    const auto layout = [](const std::string& fields) { return [fields] { LoggerLayout::parse("{" + fields + "}"); }; };
    const auto list = [](std::size_t count, std::size_t size) {
        return "[" + times(count - 1, "\"" + std::string(size, 'x') + "\",") + "\"" + std::string(size, 'x') + "\"]";
    };
    for (const std::string field : {"\"no_reading\":", "\"ignore_rows\":"}) {
        check(field, layout(field + list(100, 200)), layout(field + list(101, 3)), "must be at most 100");
        check(field, layout(field + list(1, 200)), layout(field + list(1, 201)),
              "must be a list of texts of at most 200 bytes");
    }
    std::string clocks;
    for (int i = 1; i <= 100; ++i) clocks += R"({"line":)" + std::to_string(i) + R"(,"offset":"+01:00"},)";
    const std::string hundred = clocks.substr(0, clocks.size() - 1);
    check("clocks", layout("\"clocks\":[" + hundred + "]"),
          layout("\"clocks\":[" + clocks + R"({"line":101,"offset":"+01:00"}])"), "must be at most 100");
    check("lines before the rows", layout("\"skip_lines\":1000000"), layout("\"skip_lines\":1000001"),
          "must be a whole number from 0 to 1000000");
    check("columns", layout(R"("columns":{"temperature":1000})"), layout(R"("columns":{"temperature":1001})"),
          "must be a whole number from 1 to 1000");
    check("an expression", layout(R"("ignore_rows":["^(a{10}){10}$"])"),
          layout(R"re("ignore_rows":["((((x{100}){100}){100}){100})"])re"), "must be a regular expression");

    Clinic site;
    const auto import = [&](const std::string& content, const std::string& stated = "{}") {
        ImportRequest request;
        request.probe = "p";
        request.by = "QA";
        request.layout = LoggerLayout::parse(stated);
        return [&site, request, content] {
            site.ledger.import_readings(request, {LoggerFile{"x.csv", content}}, now, true);
        };
    };
    const std::string head = "Time,Temp (C),Note\n", row = "2026-03-02 08:05,4.2,", good = "2026-03-02 08:00,4.1,x\n";
    check("a row", import(head + row + std::string(1024 - row.size(), 'x') + "\n"),
          import(head + row + std::string(1025 - row.size(), 'x') + "\n2026-03-02 08:10,4.3,x\n"),
          "is longer than 1024 bytes; the rows of a logger are short");
    // what else is between the quotation marks are rows in themselves, so that the first is refused alone
    const auto lines = [&](std::size_t count) { return head + good + row + "\"" + times(count - 1, good) + "x\"\n"; };
    check("lines of a row", import(lines(20)), import(lines(21) + good), "opens a quotation mark that is not closed");
    LoggerFile large{"x.csv", ""};
    large.size = limits::logger_file_bytes + 1;
    std::size_t asked = 0;
    large.read = [&](std::uint64_t, char*, std::size_t) { return ++asked, std::size_t{0}; };
    ImportRequest request;
    request.probe = "p";
    request.by = "QA";
    CHECK(said([&] { site.ledger.import_readings(request, {large}, now, true); }) ==
          "x.csv: larger than 512 MiB; split it");
    CHECK(asked == 0);
    large.size = limits::logger_file_bytes;
    CHECK(said([&] { site.ledger.import_readings(request, {large}, now, true); }) == "x.csv: is empty");
    for (const char* words : {"larger than 512 MiB; split it", "has more than 2000000 rows; split it"})
        CHECK(page().find(words) != std::string::npos);
    CHECK(limits::logger_rows == 2'000'000);  // to it, and one beyond: tests/logger/size_test.py
}

TEST_CASE("an expression of a layout takes no more than linear time", "[logger]") {
    // each of these tries 2^n ways to fail in an engine that goes back
    for (const char* expression : {"^(a+)+$", "^(a|aa)+$", "^([a-z]+)*[A-Z]$", "(x+x+)+y"}) {
        const logger::IgnoreRows ignore({expression}, "layout");
        for (const char letter : {'a', 'x'}) {
            const std::clock_t from = std::clock();
            CHECK(!ignore.matches(std::string(1000, letter) + "!"));
            CHECK(std::clock() - from < CLOCKS_PER_SEC);
        }
    }
    const logger::IgnoreRows plain({"^#", "[0-9]{3}$", "\\bend\\b", "\\.\\/x"}, "layout");
    CHECK(plain.matches("# note"));
    CHECK(plain.matches("abc 123"));
    CHECK(plain.matches("the end."));
    CHECK(plain.matches("a./x"));
    CHECK(!plain.matches("trend 12"));
    for (const char* expression : {"(a)\\1", "a(?=b)", "a(?!b)", "(?<=a)b", "(", "[z-a]", "a{1001}"}) {
        const std::string why = said([&] { logger::IgnoreRows({expression}, "layout"); });
        INFO(why);
        CHECK(why.find("layout: ignore_rows: ") == 0);
        CHECK(why.find("must be a regular expression, without back-references and without looking ahead or behind") !=
              std::string::npos);
    }
}
