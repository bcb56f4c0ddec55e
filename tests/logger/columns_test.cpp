// Columns: degrees written in decimals or held as binary fractions, and rows of a local clock. What is rounded, and by
// how much, is worked out by hand beside each; local times were made instants with Python's zoneinfo (Python 3.11, IANA
// data 2025b).
#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>
#include <string>
#include <vector>

#include "coldtally/columns.hpp"
#include "coldtally/error.hpp"

using namespace coldtally;

namespace {

template <class F>
std::string refusal(Code code, F f) {
    try {
        f();
    } catch (const Error& error) {
        CHECK(code_name(error.code()) == code_name(code));
        return error.what();
    }
    FAIL("it was taken");
    return {};
}

DegreesColumn rounding_to(const char* resolution) { return DegreesColumn(TemperatureDifference::parse(resolution)); }

std::int64_t shown(int day_of_november_2025, int hour, int minute) {
    return 1'761'955'200 + (day_of_november_2025 - 1) * 86400 + hour * 3600 + minute * 60;  // 2025-11-01T00:00:00Z
}

std::vector<std::string> texts(const std::vector<Instant>& at) {
    std::vector<std::string> out;
    for (const Instant t : at) out.push_back(t.text());
    return out;
}

}  // namespace

TEST_CASE("degrees without a resolution are kept exactly, or refused", "[columns]") {
    DegreesColumn column(std::nullopt);
    CHECK(column.read("4.2") == 4200);
    CHECK(column.read("40") == 40000);
    CHECK(column.read("-0.001") == -1);
    CHECK(column.read("-0") == 0);
    CHECK(column.read("4.2000000000000000000000") == 4200);  // the same number
    CHECK(column.rounded() == 0);
    CHECK(column.largest_change() == Rational(0));
    for (const char* bad : {"", "-", ".5", "4.", "4,2", "+4.2", " 4.2", "4.2 ", "1e1", "4.2.1", "--4", "0x4", "4.2C"}) {
        CHECK(refusal(Code::bad_value, [&] { column.read(bad); }).find("must be degrees") != std::string::npos);
    }
    CHECK(refusal(Code::bad_value, [&] { column.read("4.2001"); }).find("resolution") != std::string::npos);
    CHECK(refusal(Code::bad_value, [&] { column.read("1000001"); }).find("that far from 0") != std::string::npos);
    CHECK(refusal(Code::bad_value, [&] { column.read(std::string(400, '9')); }).find("that far from 0") !=
          std::string::npos);
    CHECK(refusal(Code::bad_value, [&] { column.read(4.2); }).find("a float is not the number that was read") !=
          std::string::npos);
    CHECK(refusal(Code::bad_value, [&] { column.read(4.0F); }).find("a float is not the number that was read") !=
          std::string::npos);
}

TEST_CASE("halves are rounded away from zero, at every resolution", "[columns]") {
    struct Case {
        const char *resolution, *degrees;
        std::int32_t thousandths;
        Rational change;
    };
    const std::int64_t billion = 1'000'000'000;
    for (const auto& c : std::vector<Case>{
             {"0.1", "2.25", 2300, Rational(5, 100)},
             {"0.1", "-2.25", -2300, Rational(5, 100)},
             {"0.1", "2.2499999999", 2200, Rational(499'999'999, 10 * billion)},
             {"0.1", "18.600000381", 18600, Rational(381, billion)},
             {"0.1", "-0.04", 0, Rational(4, 100)},
             {"0.1", "99.95", 100000, Rational(5, 100)},
             {"1", "2.5", 3000, Rational(5, 10)},
             {"1", "-2.499", -2000, Rational(499, 1000)},
             {"0.01", "7.96875", 7970, Rational(125, 100'000)},
             {"0.001", "0.0005", 1, Rational(5, 10'000)},
             {"0.001", "0.00049", 0, Rational(49, 100'000)},
             {"0.001", "4.2", 4200, Rational(0)},
             {"1", "4", 4000, Rational(0)},
         }) {
        CAPTURE(c.resolution, c.degrees);
        auto column = rounding_to(c.resolution);
        CHECK(column.read(c.degrees) == c.thousandths);
        CHECK(column.rounded() == (c.change == Rational(0) ? 0 : 1));
        CHECK(column.largest_change() == c.change);
    }
    // what is finer than the 18th decimal is said as one of those too many, not too few
    auto fine = rounding_to("0.1");
    CHECK(fine.read("4.0000000000000000000001") == 4000);
    CHECK(fine.largest_change() == Rational(1, billion * billion));
    for (const char* bad : {"0.2", "0", "-0.1", "10", "0.5", "0.11"})
        CHECK(refusal(Code::bad_value, [&] { rounding_to(bad); }).find("resolution: ") == 0);
}

TEST_CASE("a binary fraction stands for the shortest decimal that means it", "[columns]") {
    auto column = rounding_to("0.01");
    // as a double 2.675 is below the half (2.67499999999999982236431605997495353221893310546875), and its text is not
    CHECK(column.read(2.675) == 2680);
    CHECK(column.read(2.675F) == 2680);
    CHECK(column.read(static_cast<double>(18.6F)) == 18600);  // 18.600000381469727
    CHECK(column.rounded() == 3);
    auto tenths = rounding_to("0.1");
    CHECK(tenths.read(18.6F) == 18600);
    CHECK(tenths.read(-18.6) == -18600);
    CHECK(tenths.read(-0.0) == 0);
    CHECK(tenths.read(5e-324) == 0);
    CHECK(tenths.rounded() == 1);
    CHECK(tenths.largest_change() == Rational(1, 1'000'000'000'000'000'000));
    for (const double bad : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity(),
                             -std::numeric_limits<double>::infinity()})
        CHECK(refusal(Code::bad_value, [&] { tenths.read(bad); }).find("is no temperature") != std::string::npos);
    CHECK(refusal(Code::bad_value, [&] { tenths.read(std::numeric_limits<double>::max()); }).find("that far from 0") !=
          std::string::npos);
    CHECK(refusal(Code::bad_value, [&] { tenths.read(-std::numeric_limits<float>::max()); }).find("that far from 0") !=
          std::string::npos);
    CHECK(tenths.rounded() == 1);
}

TEST_CASE("rows of a local clock are settled by their order, or refused", "[columns]") {
    const Zone chicago("America/Chicago");
    std::vector<std::int64_t> rows = {shown(2, 0, 40), shown(2, 1, 10), shown(2, 1, 40),
                                      shown(2, 1, 10), shown(2, 1, 40), shown(2, 2, 10)};
    const std::vector<std::string> wanted = {"2025-11-02T05:40:00Z", "2025-11-02T06:10:00Z", "2025-11-02T06:40:00Z",
                                             "2025-11-02T07:10:00Z", "2025-11-02T07:40:00Z", "2025-11-02T08:10:00Z"};
    auto settled = resolve_local_rows(rows, chicago);
    CHECK(texts(settled.at) == wanted);
    REQUIRE(settled.remarks.size() == 1);
    CHECK(english().say(settled.remarks[0]) ==
          "America/Chicago shows the hour of \"2025-11-02 01:10\" twice: rows[3] is the first row of its second pass");
    CHECK(settled.remarks[0].code() == "second-pass-from");

    std::reverse(rows.begin(), rows.end());
    settled = resolve_local_rows(rows, chicago);
    CHECK(texts(settled.at) == std::vector<std::string>(wanted.rbegin(), wanted.rend()));
    CHECK(settled.remarks[0].fields.back() == Field("rows[2]"));

    CHECK(resolve_local_rows({}, chicago).at.empty());
    // the clock of Lord Howe goes back by half an hour: 01:30 to 02:00 on 6 April 2025 are shown twice
    const std::int64_t april = 1'743'897'600;  // 2025-04-06T00:00:00Z
    const auto island =
        resolve_local_rows({april + 6300, april + 5400, april + 6300, april + 7200}, Zone("Australia/Lord_Howe"));
    CHECK(texts(island.at) == std::vector<std::string>{"2025-04-05T14:45:00Z", "2025-04-05T15:00:00Z",
                                                       "2025-04-05T15:15:00Z", "2025-04-05T15:30:00Z"});

    CHECK(refusal(Code::ambiguous, [&] {
              resolve_local_rows({shown(2, 1, 10)}, chicago);
          }).find("rows[0]: \"2025-11-02 01:10\": occurs twice") == 0);
    CHECK(refusal(Code::ambiguous, [&] {
              resolve_local_rows({shown(2, 0, 30), shown(2, 1, 0), shown(2, 1, 30), shown(2, 2, 0)}, chicago);
          }).find("rows[1]: ") == 0);
    CHECK(refusal(Code::ambiguous, [&] {
              resolve_local_rows({shown(3, 1, 0), shown(3, 2, 0), shown(3, 1, 30), shown(3, 3, 0)}, chicago);
          }).find("rows[2]: \"2025-11-03 01:30\": goes back from \"2025-11-03 02:00\" in rows[1]") == 0);
    const std::int64_t march = 1'741'478'400;  // 2025-03-09T00:00:00Z
    CHECK(refusal(Code::bad_value, [&] {
              resolve_local_rows({march + 3600, march + 7200}, chicago);
          }).find("rows[1]: \"2025-03-09 02:00\": does not exist in America/Chicago") == 0);
}
