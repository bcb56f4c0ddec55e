// What a question or a post costs, in counts that no clock and no other process disturbs.
#include <catch2/catch.hpp>

#include <cstdio>
#include <filesystem>
#include <string>
#include <unistd.h>

#include "coldtally/ledger.hpp"

using namespace coldtally;

namespace {

const Instant start(1767225600);  // 2026-01-01T00:00:00Z
const Instant now = start + Duration(400 * 86400);

std::string at(std::int64_t seconds) { return "\"at\":\"" + (start + Duration(seconds)).text() + "\""; }

/// A site with one refrigerator, a year of five-minute readings that are in range but for an afternoon a month, and
/// lots of which the last are still there.
class Year {
public:
    Year()
        : path_(std::filesystem::temp_directory_path() /
                ("coldtally-work-" + std::to_string(getpid()) + "-" + std::to_string(++made))) {
        std::filesystem::remove(path_);
        Ledger ledger = open(Ledger::Mode::create);
        ledger.post(R"({"kind":"site","name":"Work","zone":"UTC","by":"ab"}
{"kind":"product","product":"p","name":"P","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"probe","probe":"q","scale":"C","by":"ab"}
{"kind":"assign",)" + at(0) + R"(,"probe":"q","place":"main","by":"ab"})", now);
        std::string csv = "instant,degrees\n";
        for (std::int64_t t = 0; t < 365 * 86400; t += 300) {
            const bool out = t / 86400 % 30 == 7 && t % 86400 >= 50000 && t % 86400 < 60000;
            csv += (start + Duration(t)).text() + "," + (out ? "9.5" : t % 1200 < 600 ? "4.5" : "5.1") + "\n";
        }
        ImportRequest request;
        request.probe = "q";
        request.by = "ab";
        request.layout = LoggerLayout::parse(
            R"({"delimiter":",","decimal":".","skip_lines":1,"columns":{"instant":1,"temperature":2},)"
            R"("instant_pattern":"%Y-%m-%dT%H:%M:%S%z","scale":"C"})");
        const auto report = ledger.import_readings(request, {{"year.csv", csv}}, now);
        readings = report.files.at(0).rows_kept;
    }
    ~Year() { std::filesystem::remove(path_); }

    Ledger open(Ledger::Mode mode = Ledger::Mode::write) const { return Ledger(path_.string(), mode); }

    /// Lot number `n`: received on `day`, `gives` doses of it given, one an hour.
    void add_lot(int n, std::int64_t day, int gives) const {
        const std::string lot = "\"product\":\"p\",\"lot\":\"L" + std::to_string(n) + "\"";
        std::string lines = "{\"kind\":\"lot\"," + lot +
                            ",\"expiry\":\"2027-12\",\"by\":\"ab\"}\n{\"kind\":\"receive\"," + at(day * 86400) +
                            ",\"place\":\"main\"," + lot + ",\"doses\":1000,\"by\":\"ab\"}\n";
        for (int g = 0; g < gives; ++g)
            lines += "{\"kind\":\"give\"," + at(day * 86400 + 3600 * (g + 1)) + ",\"place\":\"main\"," + lot +
                     ",\"patient\":\"t\",\"by\":\"ab\"}\n";
        open().post(lines, now);
    }
    void empty_lot(int n, std::int64_t day) const {
        open().post("{\"kind\":\"count\"," + at(day * 86400) + ",\"place\":\"main\",\"product\":\"p\",\"lot\":\"L" +
                        std::to_string(n) + "\",\"doses\":0,\"by\":\"ab\"}",
                    now);
    }

    std::int64_t readings = 0;

private:
    static int made;
    std::filesystem::path path_;
};
int Year::made = 0;

}  // namespace

TEST_CASE("lists decode few of the readings") {
    const Year year;
    REQUIRE(year.readings == 105120);
    for (int n = 0; n < 12; ++n) {
        year.add_lot(n, 20 + n * 25, 20);
        if (n < 10) year.empty_lot(n, 60 + n * 25);
    }
    const Ledger ledger = year.open(Ledger::Mode::read);
    const auto answer = ledger.lists({}, now);
    REQUIRE(answer.holdings.size() == 2);
    // two holdings: the blocks at the two ends of each stay, and those of the afternoons out of range within
    CHECK(ledger.counters().readings_decoded * 100 <= year.readings * 6);
    CHECK(ledger.counters().blocks_decoded <= 12);
}

TEST_CASE("a review of doses given in quiet times decodes no block for each") {
    const Year year;
    year.add_lot(1, 10, 300);  // from day 10 on: the next afternoon out of range is on day 37
    const Ledger ledger = year.open(Ledger::Mode::read);
    CHECK(ledger.review({}, now).doses.empty());
    CHECK(ledger.counters().blocks_decoded == 0);
    CHECK(ledger.counters().movements_read == 301);
}

TEST_CASE("a second question reads nothing about what is known anew") {
    const Year year;
    year.add_lot(1, 10, 3);
    const Ledger ledger = year.open(Ledger::Mode::read);
    ledger.stock({}, now);
    const auto first = ledger.counters().statements;
    ledger.stock({}, now);
    CHECK(ledger.counters().statements - first < first);
}

TEST_CASE("opening and posting cost the same in a short ledger and in a long one") {
    const Year year;
    year.add_lot(1, 10, 5);
    const auto cost = [&] {
        Ledger ledger = year.open();
        const auto opened = ledger.counters().statements;
        ledger.post("{\"kind\":\"give\"," + at(300 * 86400) +
                        ",\"place\":\"main\",\"product\":\"p\",\"lot\":\"L1\",\"patient\":\"t\",\"by\":\"ab\"}",
                    now);
        const auto counted = ledger.counters();
        return std::tuple(opened, counted.statements - opened, counted.movements_read, counted.blocks_decoded);
    };
    const auto few = cost();
    for (int n = 2; n < 12; ++n) year.add_lot(n, 20, 200);
    CHECK(cost() == few);
    CHECK(std::get<2>(few) == 0);
    CHECK(std::get<3>(few) == 0);
}

TEST_CASE("the history of a unit decodes each reading once") {
    const Year year;
    const Ledger ledger = year.open(Ledger::Mode::read);
    const auto answer = ledger.unit("main", std::nullopt, std::nullopt, {}, now);
    CHECK(answer.whole.excursions == 12);  // an afternoon in thirty days: the 8th, 38th, ... 338th of 365
    CHECK(answer.months.size() == 14);
    CHECK(ledger.counters().readings_decoded == year.readings);
}

TEST_CASE("a late entry reads the movements of its lot alone") {
    const Year year;
    for (int n = 1; n < 8; ++n) year.add_lot(n, 20, 50);
    Ledger ledger = year.open();
    ledger.post("{\"kind\":\"give\"," + at(21 * 86400) +
                    ",\"place\":\"main\",\"product\":\"p\",\"lot\":\"L3\",\"patient\":\"t\",\"by\":\"ab\"}",
                now);
    CHECK(ledger.counters().movements_read == 51);
}

TEST_CASE("today reads no movement of lots that were gone before the day") {
    const Year year;
    year.add_lot(1, 300, 5);
    const auto cost = [&] {
        const Ledger ledger = year.open(Ledger::Mode::read);
        CHECK(ledger.today({}, now).doses.size() == 1);
        return ledger.counters().movements_read;
    };
    const auto few = cost();
    CHECK(few > 0);
    for (int n = 2; n < 8; ++n) {
        year.add_lot(n, 20, 50);
        year.empty_lot(n, 60);
    }
    CHECK(cost() == few);
}

TEST_CASE("guidance is compared with what was known then only where something out of range came later") {
    const Year year;
    year.add_lot(1, 20, 0);  // an afternoon out of range on day 37
    const auto post = [&](const std::string& line) { year.open().post(line, now); };
    const auto cost = [&] {
        const Ledger ledger = year.open(Ledger::Mode::read);
        const auto answer = ledger.lists({start + Duration(45 * 86400), std::nullopt}, now);
        REQUIRE(answer.holdings.size() == 1);
        return std::pair(ledger.counters().statements, answer.holdings[0].beside.size());
    };
    const auto check = [&](std::int64_t seconds, const char* degrees) {
        post("{\"kind\":\"check\"," + at(seconds) +
             ",\"place\":\"main\",\"scale\":\"C\",\"temperature\":\"" + degrees + "\",\"by\":\"ab\"}");
    };
    check(39 * 86400, "5");
    post("{\"kind\":\"guidance\"," + at(41 * 86400) +
         R"(,"product":"p","lot":"L1","verdict":"use","issuer":"M","reference":"r","through":")" +
         (start + Duration(40 * 86400)).text() + R"(","by":"ab"})");
    const auto known = cost();
    CHECK(known.second == 0);
    check(39 * 86400 + 60, "5");
    CHECK(cost() == known);
    check(39 * 86400 + 120, "9");
    const auto learnt = cost();
    CHECK(learnt.second == 1);
    CHECK(learnt.first > known.first);
}
