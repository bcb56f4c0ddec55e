// The tables themselves: a wrong expectation is seen, whatever kind of row it stands in.
#include <catch2/catch.hpp>

#include <stdexcept>

#include "site.hpp"

using scenarios::run;

namespace {

int wrong(const char* table) {
    int out = 0;
    for (const auto& row : run(table)) out += row.answer != row.expected;
    return out;
}

}  // namespace

TEST_CASE("a scenario sees an answer that is not as expected", "[scenarios]") {
    CHECK(wrong("08:00 receive main flu A1 10\n 09:00 ? stock main flu A1 = 10") == 0);
    CHECK(wrong("08:00 receive main flu A1 10\n 09:00 ? stock main flu A1 = 9") == 1);
    CHECK(wrong("08:00 ? stock = none") == 0);
    // an answer that is longer, or shorter, than expected
    const std::string two = "08:00 receive main flu A1 10\n 08:00 receive main flu B2 5\n 09:00 ? lists = ";
    CHECK(wrong((two + "main flu A1: quarantine-pending-guidance: unmonitored\n = main flu B2: "
                       "quarantine-pending-guidance: unmonitored")
                    .c_str()) == 0);
    CHECK(wrong((two + "main flu A1: quarantine-pending-guidance: unmonitored").c_str()) == 1);
    CHECK(wrong("08:00 ? stock = none\n = main flu A1: 10") == 1);
    // a row that goes on in the next line: within an event, before the answer, within the answer
    CHECK(wrong("08:00 receive main \\\n   flu A1 10\n 09:00 ? stock main flu A1 \\ # so far\n = 10") == 0);
    CHECK(wrong("08:00 receive main \\\n   flu A1 10\n 09:00 ? stock main flu A1 \\ # so far\n = 9") == 1);
    CHECK(wrong("08:00 ? accounts = supplier \\\n    0") == 0);
    CHECK(wrong("08:00 ? accounts = supplier \\\n    1") == 1);
    // a refusal that is none, is another, or says something else
    CHECK(wrong("08:00 ! receive main flu A1 10 = not-enough: doses") == 1);
    CHECK(wrong("08:00 ! waste main flu A1 1 = not-there") == 1);
    CHECK(wrong("08:00 ! waste main flu A1 1 = not-enough: a pound of tea") == 1);
    CHECK(wrong("08:00 ! waste main flu A1 1 = not-enough: main") == 0);
}

TEST_CASE("a scenario refuses rows that it does not understand", "[scenarios]") {
    CHECK_THROWS_AS(run("08:00 receive main flu A1 10 please"), std::invalid_argument);
    CHECK_THROWS_AS(run("8:00 receive main flu A1 10"), std::invalid_argument);
    CHECK_THROWS_AS(run("08:00 receive main flu A1 10 = 10"), std::invalid_argument);
    CHECK_THROWS_AS(run("08:00 ? stock main flu A1 today = 10"), std::invalid_argument);
    CHECK_THROWS_AS(run("08:00 ? accounts = supplier 0 \\\n"), std::invalid_argument);
}

TEST_CASE("a scenario with a clock is worked row by row at its own time, and ... stands for any text", "[scenarios]") {
    const std::string begun = "08:00 clock\n 08:00 check main 5\n 08:00 receive main flu A1 10\n ";
    CHECK(wrong((begun + "09:00 ? fills give lot A1 patient P1 = at 2026-03-02 09:00\n = ...main...\n = product ...")
                    .c_str()) == 0);
    CHECK(wrong((begun + "09:00 ? fills give lot A1 patient P1 = at ...10:00\n = ...spare...\n = ...lot").c_str()) ==
          3);
    CHECK(wrong((begun + "09:00 do give lot A1 patient P1\n 09:00 ? stock main flu A1 = 9").c_str()) == 0);
    CHECK(wrong((begun + "09:00 ! do give lot B2 patient P1 = not-there").c_str()) == 0);
    CHECK(wrong((begun + "09:00 ! do give lot A1 patient P1 = not-there").c_str()) == 1);
    // what was recorded later is not known
    CHECK(wrong((begun + "10:00 hold flu lot A1\n 11:00 ? known 09:00 lists = main flu A1: keep").c_str()) == 0);
    CHECK_THROWS_AS(run("08:00 clock\n 08:00 ? ready\n"), std::invalid_argument);
    CHECK_THROWS_AS(run("07:00 lot flu X 2026-12-31\n 08:00 clock\n"), std::invalid_argument);
    CHECK_THROWS_AS(run("08:00 clock\n 08:00 notice main now\n"), std::invalid_argument);
}
