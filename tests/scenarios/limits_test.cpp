// Tolerances and limits to the last thousandth: what counts as at least and at most where a value lies on the limit
// itself. Parts of 600 s each, the range 2 to 8 °C, the tolerance 0.5; worked by the table of lib/exposure/part.hpp.
#include <catch2/catch.hpp>

#include <string>

#include "site.hpp"

using scenarios::scenario;

namespace {

/// One question after a line of readings, or after two checks of which the second says minimum and maximum.
void asked(const std::string& events, const std::string& question, const std::string& expected) {
    scenario(
        "00:00  certificate p 2027-01-01 tolerance 0.5\n00:00  product pf 2 8 freeze 0\n00:00  lot pf A1 "
        "2026-12-31\n08:00  receive main pf A1 10\n" +
        events + "\n08:10  ? " + question + " main pf A1 = " + expected + "\n");
}

void line(const std::string& temperatures, const std::string& question, const std::string& expected) {
    asked("08:00  log p 600 " + temperatures, question, expected);
}

/// `check`: the temperature at 08:10 with the extremes since 08:00, which hold it.
void bounded(const std::string& check, const std::string& question, const std::string& expected) {
    asked("08:00  check main 5 probe p\n08:10  check main " + check + " probe p", question, expected);
}

}  // namespace

TEST_CASE("limits: bounded time, too warm", "[scenarios]") {
    bounded("8.8 min 8.5 max 9", "warm", "0 600 600, 600 Cs, open 600");        // the minimum is not above 8 + 0.5
    bounded("8.8 min 8.501 max 9", "warm", "600 600 600, 600 Cs, open 600");
    bounded("5 min 5 max 7.5", "warm", "0 0 0, 0 Cs, open 0");                // the maximum is not above 8 - 0.5
    bounded("5 min 5 max 7.501", "warm", "0 0 600, 0 Cs, open 0");
}

TEST_CASE("limits: bounded time, too cold", "[scenarios]") {
    bounded("1.2 min 1 max 1.5", "cold", "0 600 600, 600 Cs, open 600");        // the maximum is not below 2 - 0.5
    bounded("1.2 min 1 max 1.499", "cold", "600 600 600, 600 Cs, open 600");
    bounded("5 min 2.5 max 5", "cold", "0 0 0, 0 Cs, open 0");                // the minimum is not below 2 + 0.5
    bounded("5 min 2.499 max 5", "cold", "0 0 600, 0 Cs, open 0");
    bounded("5 min 2 max 5", "beyond", "warm 0, open 0; cold 0, open 0");     // the limit is in range
}

TEST_CASE("limits: bounded time, frozen: the limit itself is", "[scenarios]") {
    bounded("5 min 0 max 5", "frozen", "0 600 600, 0 Cs, open 600");
    bounded("5 min 0.5 max 5", "frozen", "0 0 600, 0 Cs, open 0");            // 0 + 0.5 may be
    bounded("5 min 0.501 max 5", "frozen", "0 0 0, 0 Cs, open 0");
    bounded("-0.7 min -1 max -0.5", "frozen", "600 600 600, 600 Cs, open 600");
    bounded("-0.7 min -1 max -0.499", "frozen", "0 600 600, 600 Cs, open 600");
}

TEST_CASE("limits: a line between readings", "[scenarios]") {
    line("5 7.5", "warm", "0 0 0, 0 Cs, open 0");
    line("1 7.5", "warm", "0 0 0, 0 Cs, open 0");  // nor by a line that is out on the other side
    line("5 7.501", "warm", "0 0 600, 0 Cs, open 0");
    line("7.5 5", "warm", "0 0 0, 0 Cs, open 0");
    line("1 1.5", "cold", "0 600 600, 450 Cs, open 600");  // 3/4 below on average; 1.5 is not below 2 - 0.5
    line("1 1.499", "cold", "600 600 600, 4503/10 Cs, open 600");           // (1 + 0.501)/2 * 600
    line("2.499 5", "cold", "0 0 600, 0 Cs, open 0");
    line("2.5 5", "cold", "0 0 0, 0 Cs, open 0");
    line("5 2.499", "cold", "0 0 600, 0 Cs, open 0");
    line("0 5", "frozen", "0 0 600, 0 Cs, open 0");                         // at the limit for an instant alone
    line("0 0", "frozen", "0 600 600, 0 Cs, open 600");                     // and for all of it
}

TEST_CASE("limits: where doses join others, the larger of each number stands, degrees and allowances too",
          "[scenarios]") {
    scenario(R"(
        00:00  product al 2 8 allow 8 10 1000
        00:00  lot al A1 2026-12-31
        08:00  receive main al A1 5
        08:00  receive spare al A1 5
        08:00  log p 600  9 9                   # 600 s, 1 degree above
        08:00  log q 600  5 5 5
        08:10  move al A1 2 main > spare
        08:20  ? warm spare al A1               = 600 600 600, 600 Cs, open 600
        08:20  ? allowances spare al A1         = 600 of 1000, open 600
    )");
}

TEST_CASE("limits: a single dose that is counted stays", "[scenarios]") {
    scenario(R"(
        08:00  receive main flu A1 1
        08:00  log p 600  5 5 5
        08:10  count main flu A1 1
        08:20  ? lists main flu A1              = keep
    )");
}
