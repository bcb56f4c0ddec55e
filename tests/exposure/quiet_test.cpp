// Up to when nothing is added to a history but time and extremes. Worked by hand; the range is 2 to 8 °C, invented.
#include <catch2/catch.hpp>

#include <string>

#include "coldtally/ledger.hpp"
#include "exposure/engine.hpp"
#include "ledger/known.hpp"
#include "ledger/store.hpp"
#include "temporary.hpp"

using namespace coldtally;

namespace {

constexpr std::int64_t day = 1772409600;  // 2026-03-02T00:00:00Z
constexpr std::int64_t h = 3600;

std::string at(std::int64_t t) { return "\"at\":\"" + Instant(day + t).text() + "\",\"by\":\"ab\"}\n"; }

/// A refrigerator with a logger q and a certificate of 0.5 °C from 2026-01-01 on, gaps up to an hour.
class Fridge {
public:
    Fridge() {
        post(R"({"kind":"site","name":"Quiet","zone":"UTC","by":"ab"}
{"kind":"product","product":"p","name":"P","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"probe","probe":"q","scale":"C","by":"ab"}
{"kind":"assign","probe":"q","place":"main",)" + at(-48 * h));
    }

    void post(const std::string& lines) {
        Ledger(file_.path(), made_++ == 0 ? Ledger::Mode::create : Ledger::Mode::write)
            .post(lines, Instant(day + 48 * h));
    }
    void log(std::int64_t from, std::int64_t step, const std::string& degrees) {
        std::string csv = "instant,degrees\n", word;
        for (const char c : degrees + " ") {
            if (c != ' ') {
                word += c;
                continue;
            }
            csv += Instant(day + from).text() + "," + word + "\n";
            from += step;
            word.clear();
        }
        ImportRequest request;
        request.probe = "q";
        request.by = "ab";
        request.layout = LoggerLayout::parse(
            R"({"delimiter":",","decimal":".","skip_lines":1,"columns":{"instant":1,"temperature":2},)"
            R"("instant_pattern":"%Y-%m-%dT%H:%M:%S%z","scale":"C"})");
        Ledger(file_.path(), Ledger::Mode::write).import_readings(request, {{"q.csv", csv}}, Instant(day + 48 * h));
    }
    void check(std::int64_t t, const std::string& degrees) {
        post("{\"kind\":\"check\",\"place\":\"main\",\"scale\":\"C\",\"temperature\":\"" + degrees + "\"," + at(t));
    }
    void check(std::int64_t t, const std::string& degrees, const std::string& lowest, const std::string& highest) {
        post("{\"kind\":\"check\",\"place\":\"main\",\"scale\":\"C\",\"temperature\":\"" + degrees + "\",\"min\":\"" +
             lowest + "\",\"max\":\"" + highest + "\"," + at(t));
    }
    /// Of doses that are there from t on, asked about at `asked`; seconds of the day, or forever.
    std::int64_t quiet_until(std::int64_t t, std::int64_t asked) const {
        const auto store = ledger::Store::open(file_.path(), false, 1000);
        const ledger::Transaction read(store.database(), ledger::Transaction::Kind::read);
        const auto known = ledger::Known::load(store, store.tip().entry);
        exposure::Engine engine(store, known, day + asked);
        const auto u = engine.quiet_until(*known.product("p"), "main", day + t);
        return u == trace::forever ? u : u - day;
    }

private:
    tests::TemporaryFile file_;
    int made_ = 0;
};

}  // namespace

TEST_CASE("quiet: up to the batch that goes out of range, or from within it not at all", "[exposure]") {
    Fridge f;
    f.log(8 * h, 600, "5 5 5");
    f.log(8 * h + 1800, 600, "5 9 5");
    CHECK(f.quiet_until(8 * h, 9 * h) == 8 * h + 1800);
    CHECK(f.quiet_until(8 * h + 600, 9 * h) == 8 * h + 1800);
    CHECK(f.quiet_until(8 * h + 1800, 9 * h) == 8 * h + 1800);
    CHECK(f.quiet_until(8 * h + 2400, 9 * h) == 8 * h + 2400);
    // after it the last reading is awaited on: nothing more but time
    CHECK(f.quiet_until(8 * h + 3001, 9 * h) == trace::forever);
    // no reading is awaited for longer than a day: the time is unmonitored then
    // but what is near the last one, which is in range
    CHECK(f.quiet_until(8 * h + 3001, 40 * h) == 8 * h + 3000 + 1800);
    CHECK(f.quiet_until(7 * h, 9 * h) == 7 * h);
}

TEST_CASE("quiet: the line between two batches is asked about, too", "[exposure]") {
    Fridge f;
    f.post("{\"kind\":\"certificate\",\"probe\":\"q\",\"expires\":\"2027-01-01\",\"tolerance\":\"0.5\"," + at(7 * h));
    f.log(8 * h, 600, "5 5 7.5");
    f.log(8 * h + 1800, 600, "5 5 5");
    // 7.5 + 0.5 is no more than 8
    CHECK(f.quiet_until(8 * h, 9 * h) == trace::forever);
    f.post("{\"kind\":\"certificate\",\"probe\":\"q\",\"expires\":\"2027-01-01\",\"tolerance\":\"4\"," +
           at(8 * h + 1500));
    // the second batch: 5 + 4 is more than 8, and so is its end of the line before
    CHECK(f.quiet_until(8 * h, 9 * h) == 8 * h + 1200);
    CHECK(f.quiet_until(8 * h + 1500, 9 * h) == 8 * h + 1500);
}

TEST_CASE("quiet: checks, and what lies between them", "[exposure]") {
    Fridge f;
    f.check(8 * h, "5");
    f.check(10 * h, "5");
    f.check(12 * h, "5", "4", "7");
    CHECK(f.quiet_until(8 * h, 13 * h) == trace::forever);
    CHECK(f.quiet_until(7 * h, 13 * h) == 7 * h);
    f.check(14 * h, "5", "4", "9");
    CHECK(f.quiet_until(8 * h, 15 * h) == 12 * h);
    CHECK(f.quiet_until(13 * h, 15 * h) == 13 * h);
    CHECK(f.quiet_until(14 * h, 15 * h) == trace::forever);
    f.check(16 * h, "9");
    CHECK(f.quiet_until(14 * h, 17 * h) == 14 * h);
}

TEST_CASE("quiet: a reading that stands alone between checks", "[exposure]") {
    Fridge f;
    f.check(8 * h, "5");
    f.check(20 * h, "5");
    f.log(12 * h, 600, "9");
    CHECK(f.quiet_until(8 * h, 21 * h) == 12 * h);
    CHECK(f.quiet_until(12 * h, 21 * h) == 12 * h);
    CHECK(f.quiet_until(12 * h + 1, 21 * h) == trace::forever);
}

TEST_CASE("quiet: a check that is out of range among readings that are not", "[exposure]") {
    Fridge f;
    f.log(8 * h, 600, "5 5 5 5 5 5 5");
    f.check(8 * h + 900, "9");
    CHECK(f.quiet_until(8 * h, 9 * h) == 8 * h + 900);
    CHECK(f.quiet_until(8 * h + 900, 9 * h) == 8 * h + 900);
    CHECK(f.quiet_until(8 * h + 901, 9 * h) == trace::forever);
}
