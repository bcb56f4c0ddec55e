// Resolution: readings written with more digits than were measured are rounded to what is stated, exactly, halves away
// from zero.
#include <catch2/catch.hpp>

#include <boost/multiprecision/cpp_int.hpp>

#include <cstdio>
#include <string>
#include <vector>

#include "coldtally/error.hpp"
#include "coldtally/logger.hpp"
#include "logger/cell.hpp"
#include "logger/reader.hpp"

using namespace coldtally;
using logger::TemperatureCell;

namespace {

logger::ReadFile read(const std::string& content, const std::string& layout = "{}", bool accept = false) {
    return logger::read_logger_file({"download.csv", content}, LoggerLayout::parse(layout), Zone("America/New_York"),
                                    Scale::C, accept);
}

/// The cell as a whole number of 10^-digits, and the thousandths nearest to it of the resolution: with whole numbers of
/// any size.
struct Exact {
    boost::multiprecision::cpp_int value = 0, scale = 1;
    bool negative = false;

    explicit Exact(const std::string& text) {
        bool behind = false;
        for (const char c : text) {
            if (c == '-')
                negative = true;
            else if (c == '.')
                behind = true;
            else {
                value = value * 10 + (c - '0');
                if (behind) scale *= 10;
            }
        }
    }
    std::int64_t thousandths(int step) const {  // 1, 10 or 100
        const boost::multiprecision::cpp_int unit = scale * step, twice = value * 2 * 1000;
        const auto n = static_cast<std::int64_t>((twice + unit) / (2 * unit)) *
                       step;  // the half goes up, and the sign is put back
        return negative ? -n : n;
    }
    /// The change stated is |value - rounded|.
    bool changes_by(const std::string& change, std::int64_t rounded) const {
        const Exact c(change.empty() ? "0" : change);
        boost::multiprecision::cpp_int difference =
            value * 1000 - boost::multiprecision::cpp_int(rounded < 0 ? -rounded : rounded) * scale;
        if (difference < 0) difference = -difference;
        return difference * c.scale == c.value * scale * 1000;
    }
};

/// Numbers of our own, the same everywhere (the generator of POSIX's rand48 family).
struct Numbers {
    std::uint64_t state;
    std::size_t below(std::size_t n) {
        state = (state * 0x5DEECE66D + 11) & 0xFFFFFFFFFFFF;
        return static_cast<std::size_t>(state >> 20) % n;
    }
};

}  // namespace

// Computed with Python 3.11: Decimal(text).quantize(Decimal(resolution), ROUND_HALF_UP), which rounds halves away from
// zero.
TEST_CASE("a cell is rounded to a resolution, halves away from zero", "[logger][resolution]") {
    struct Case {
        const char* cell;
        int places;
        std::int32_t thousandths;
        const char* change;
    };
    for (const auto& c : std::vector<Case>{{"18.600000381", 1, 18600, "0.000000381"},
                                           {"18.599999619", 1, 18600, "0.000000381"},
                                           {"18.65", 1, 18700, "0.05"},
                                           {"-18.65", 1, -18700, "0.05"},
                                           {"18.649999999", 1, 18600, "0.049999999"},
                                           {"9.96", 1, 10000, "0.04"},
                                           {"-9.96", 1, -10000, "0.04"},
                                           {"99.999", 2, 100000, "0.001"},
                                           {"0.05", 1, 100, "0.05"},
                                           {"-0.04", 1, 0, "0.04"},
                                           {".05", 1, 100, "0.05"},
                                           {"4.2505", 3, 4251, "0.0005"},
                                           {"-4.2505", 3, -4251, "0.0005"},
                                           {"4.2504999", 3, 4250, "0.0004999"},
                                           {"4.2", 3, 4200, ""},
                                           {"4", 1, 4000, ""},
                                           {"4.2000000", 1, 4200, ""},
                                           {"4.20500", 2, 4210, "0.005"},
                                           {"18.600000000000001421", 3, 18600, "0.000000000000001421"}}) {
        INFO(c.cell);
        TemperatureCell t;
        CHECK(read_temperature(c.cell, '.', Scale::C, c.places, t).empty());
        CHECK(t.thousandths == c.thousandths);
        CHECK(t.change == c.change);
    }
    TemperatureCell t;
    CHECK(read_temperature("18.600000381", '.', Scale::C, std::nullopt, t).find("more than three fractional digits") !=
          std::string::npos);
    CHECK(read_temperature("18.6000", '.', Scale::C, std::nullopt, t).empty());
    CHECK(read_temperature("1000.05", '.', Scale::C, 1, t).find("1000") !=
          std::string::npos);  // rounded it is beyond what a ledger takes
}

TEST_CASE("rounding is that of whole numbers of any size", "[logger][resolution]") {
    Numbers numbers{28};
    std::int64_t changed = 0;
    std::string largest;
    for (int round = 0; round < 20000; ++round) {
        std::string text = numbers.below(2) ? "-" : "";
        for (std::size_t n = 1 + numbers.below(2); n > 0; --n)
            text += static_cast<char>('0' + (numbers.below(3) ? numbers.below(10) : 9));
        text += '.';
        for (std::size_t n = 1 + numbers.below(22); n > 0; --n) text += "0123456789999955000"[numbers.below(19)];
        for (int places = 1; places <= 3; ++places) {
            INFO(text << " to " << places);
            TemperatureCell t;
            REQUIRE(read_temperature(text, '.', Scale::C, places, t).empty());
            const Exact exact(text);
            CHECK(t.thousandths == exact.thousandths(places == 1 ? 100 : places == 2 ? 10 : 1));
            CHECK(exact.changes_by(t.change, t.thousandths));
            changed += !t.change.empty();
        }
    }
    CHECK(changed > 10000);
}

TEST_CASE("the layout's resolution is told in the report, with what it changed", "[logger][resolution]") {
    const std::string content =
        "Time,Temp (°C)\n2026-03-02 08:05,4.2\n2026-03-02 08:15,18.600000381\n2026-03-02 08:25,-18.65\n2026-03-02 "
        "08:35,18.64\n";
    const auto got = read(content, R"({"resolution":"0.1"})");
    REQUIRE(got.rows.size() == 4);
    CHECK(got.rows[1].thousandths == 18600);
    CHECK(got.rows[2].thousandths == -18700);
    CHECK(got.rows[3].thousandths == 18600);
    CHECK(got.report.rows_rounded == 3);
    CHECK(got.report.largest_change == "0.05");
    CHECK(got.report.ambiguous.empty());
    const auto none = read("Time,Temp (°C)\n2026-03-02 08:05,4.2\n", R"({"resolution":"0.1"})");
    CHECK(none.report.rows_rounded == 0);
    CHECK(!none.report.largest_change);
    // readings that are equal once rounded are one reading
    const auto twice =
        read("Time,Temp (°C)\n2026-03-02 08:05,4.2\n2026-03-02 08:05,4.200000286\n", R"({"resolution":"0.1"})");
    CHECK(twice.rows.size() == 1);
    CHECK(twice.report.rows_repeated == 1);
}

TEST_CASE("a resolution that the digits show is proposed and asked for", "[logger][resolution]") {
    const std::string head = "Time,Temp (°C)\n";
    struct Case {
        const char* name;
        const char *first, *second;
        const char* resolution;  ///< nothing: none is proposed
        std::vector<std::int32_t> thousandths;
    };
    // 18.600000381 is 18.6 as a binary fraction of four bytes, printed with nine places (C: printf("%.9f", 18.6f))
    for (const auto& c :
         std::vector<Case>{{"tenths", "18.600000381", "4.2", "0.1", {18600, 4200}},
                           {"tenths from below", "18.600000381", "4.199999809", "0.1", {18600, 4200}},
                           {"hundredths", "18.649999619", "4.2", "0.01", {18650, 4200}},
                           {"hundredths by another row", "18.600000381", "4.25", "0.01", {18600, 4250}},
                           {"thousandths", "18.625001", "4.2", "0.001", {18625, 4200}},
                           {"eight bytes", "18.600000000000001", "-3.3000000000000003", "0.1", {18600, -3300}},
                           {"no resolution is to be seen", "18.611111111", "4.2", nullptr, {}},
                           {"one more place", "18.6005", "4.2", nullptr, {}}}) {
        INFO(c.name);
        const std::string content = head + "2026-03-02 08:05," + c.first + "\n2026-03-02 08:15," + c.second + "\n";
        try {
            read(content);
            FAIL_CHECK("was read without being asked");
        } catch (const LoggerRefusal& e) {
            INFO(e.what());
            if (c.resolution) {
                CHECK(e.code() == Code::ambiguous);
                CHECK(e.facts().can_accept);
                CHECK(e.facts().remedies.at(0).layout.resolution->text() == c.resolution);
                CHECK(std::string(e.what()).find("line 2") != std::string::npos);
            } else {
                CHECK(e.code() == Code::bad_row);
                CHECK(e.facts().remedies.at(0).layout.text() == R"({"resolution":"0.001"})");
            }
        }
        if (!c.resolution) continue;
        const auto got = read(content, "{}", true);
        REQUIRE(got.rows.size() == 2);
        CHECK(got.rows[0].thousandths == c.thousandths[0]);
        CHECK(got.rows[1].thousandths == c.thousandths[1]);
        CHECK(got.report.layout.resolution->text() == c.resolution);
        CHECK(got.report.ambiguous.size() == 1);
        CHECK(read(content, got.report.layout.text()).report.guesses.empty());
    }
    // three places are no reason to round
    CHECK(!read(head + "2026-03-02 08:05,4.217\n").report.layout.resolution);
}

// The outside is the machine's own binary fraction of four bytes: every tenth of a degree that stands in one is shown
// to be a tenth.
TEST_CASE("tenths that were binary fractions come back as they were", "[logger][resolution]") {
    std::string content = "Time,Temp (°C)\n";
    std::vector<std::int32_t> want;
    for (int tenths = -2000; tenths <= 2000; ++tenths) {
        char line[64];
        const int minute = tenths + 2000;
        std::snprintf(line, sizeof line, "2026-03-%02d %02d:%02d,%.9f\n", 2 + minute / 1440, minute / 60 % 24,
                      minute % 60, static_cast<double>(static_cast<float>(tenths) / 10.0f));
        content += line;
        want.push_back(tenths * 100);
    }
    const auto got = read(content, R"({"offset":"-05:00"})", true);
    CHECK(got.report.layout.resolution->text() == "0.1");
    REQUIRE(got.rows.size() == want.size());
    bool all = true;
    for (std::size_t i = 0; i < want.size(); ++i) all = all && got.rows[i].thousandths == want[i];
    CHECK(all);
    CHECK(got.report.rows_rounded > 3000);
    CHECK(*got.report.largest_change < "0.00001");
}
