// JSON text: what is refused, and that the time it takes grows as the text does.
#include <catch2/catch.hpp>

#include <algorithm>
#include <ctime>

#include "coldtally/error.hpp"
#include "text/json_text.hpp"
#include "text/limits.hpp"
#include "text/utf8.hpp"

using namespace coldtally;
using text::parse_json;

namespace {

std::string list_of(std::size_t count, const std::string& item) {
    std::string out = "[";
    for (std::size_t i = 0; i < count; ++i) out += (i == 0 ? "" : ",") + item;
    return out + "]";
}

/// Seconds of the processor for it, the least of some.
double seconds_of(const std::string& json) {
    double least = 1e9;
    for (int i = 0; i < 3; ++i) {
        const std::clock_t from = std::clock();
        const text::Json read = parse_json(json, "x");
        least = std::min(least, static_cast<double>(std::clock() - from) / CLOCKS_PER_SEC);
        REQUIRE(read.is_structured());
    }
    return std::max(least, 1e-4);
}

std::string refusal(const std::string& json) {
    try {
        parse_json(json, "line 3");
    } catch (const Error& e) {
        return std::string(code_name(e.code())) + ": " + e.what();
    }
    return {};
}

}  // namespace

TEST_CASE("a JSON list four times as long takes about four times as long to read", "[text]") {
    // as long a list in quadratic time takes sixteen times as long
    for (const std::string item : {"{}", "[]", "{\"a\":1}"}) {
        const double one = seconds_of(list_of(10'000, item)), four = seconds_of(list_of(40'000, item));
        INFO(item << ": " << one << " s, " << four << " s");
        CHECK(four < 9 * one);
    }
    const auto object_of = [](int count) {
        std::string out = "{";
        for (int i = 0; i < count; ++i) out += (i == 0 ? "\"" : ",\"") + std::to_string(i) + "\":{}";
        return out + "}";
    };
    CHECK(seconds_of(object_of(40'000)) < 9 * seconds_of(object_of(10'000)));
}

TEST_CASE("JSON is read as it stands, and what is no JSON is refused", "[text]") {
    CHECK(parse_json(R"({"b":[1,-2,2.5,true,null,{"x":{}}],"a":"é\u0041"})", "x").dump() ==
          R"({"a":"éA","b":[1,-2,2.5,true,null,{"x":{}}]})");
    CHECK(parse_json("7", "x") == 7);
    CHECK(parse_json("18446744073709551615", "x").is_number_unsigned());
    CHECK(refusal(R"({"a":1,"b":{"a":2},"a":3})") == "bad-json: line 3: key \"a\" twice in one object");
    CHECK(refusal(R"([{"a":1},{"a":1}])").empty());
    CHECK(refusal("[\"a\\u0000b\"]") == "bad-text: line 3: a text holds NUL");
    CHECK(refusal("{\"a\\u0000b\":1}") == "bad-text: line 3: a text holds NUL");
    CHECK(refusal("\"\\ud800\"").starts_with("bad-json: line 3: not JSON: "));
    CHECK(refusal("1e999").starts_with("bad-json: line 3: not JSON: "));
    for (const std::string broken :
         {"", "[", "[1,]", "{\"a\"}", "{\"a\":}", "01", "tru", "[1] 2", "nul", "\"a", "{a:1}"}) {
        INFO(broken);
        CHECK(refusal(broken).starts_with("bad-json: line 3: not JSON: parse error at line 1"));
    }
    // of what was read last nothing is said
    CHECK(refusal("{\"patient\":\"QZX-1\" \"QZX-2\"}").find("QZX") == std::string::npos);
    CHECK(refusal("{\"patient\":\"QZX-1").find("QZX") == std::string::npos);
    CHECK(refusal("{\"patient\":QZX-1}").find("QZX") == std::string::npos);
}

TEST_CASE("a message repeats no more of a text than its beginning, cut at a character", "[text]") {
    const std::string eighty(80, 'x');
    CHECK(text::quoted(eighty) == "\"" + eighty + "\"");
    CHECK(text::quoted(eighty + "x") == "\"" + std::string(79, 'x') + "…\" (81 characters)");
    std::string wide;
    for (int i = 0; i < 1000; ++i) wide += "é";
    CHECK(text::quoted(wide).ends_with("é…\" (1000 characters)"));
    CHECK(text::quoted(wide).size() == 2 + 79 * 2 + 3 + std::string(" (1000 characters)").size());
    CHECK(text::quoted(std::string(1 << 20, '\xFF')).size() < 400);
    CHECK(text::quoted("a\u202Eb") == "\"a\\u202eb\"");
}
