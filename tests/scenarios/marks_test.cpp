// Marks of excursions: an excursion no further from the limit than the tolerance of the reading or check that it is
// judged by at its end.
#include <catch2/catch.hpp>

#include "site.hpp"

using scenarios::scenario;

TEST_CASE("marks: within the tolerance, the tolerance itself included", "[scenarios]") {
    scenario(R"(
        00:00  certificate p 2027-01-01 tolerance 0.5
        08:00  log p 600  5 8.5 5 8.501 5
        09:00  log p 600  5 1.5 5 1.499 5
        12:00  ? marks main 08:00 10:00     = warm line; within the probe's tolerance of the limit; \
                                              it began and ended on a straight line between values, and nobody read when
                                            = warm line; \
                                              it began and ended on a straight line between values, and nobody read when
                                            = cold line; within the probe's tolerance of the limit; \
                                              it began and ended on a straight line between values, and nobody read when
                                            = cold line; \
                                              it began and ended on a straight line between values, and nobody read when
    )");
}

TEST_CASE("marks: an excursion between checks is judged by the check, also between times with a logger",
          "[scenarios]") {
    scenario(R"(
        00:00  certificate p 2027-01-01 tolerance 0.5
        00:00  log p 600  5 5
        08:00  check main 8.3
        09:00  check main 8.3
        12:00  log p 600  5 5
        13:00  ? marks main 08:00 10:00     = warm line
    )");
}

TEST_CASE("marks: the smallest tolerance counts, and none does not", "[scenarios]") {
    scenario(R"(
        00:00  certificate p 2027-01-01 tolerance 0.001
        08:00  log p 600  8 8.001 8
        12:00  ? marks main 08:00 10:00     = warm line; within the probe's tolerance of the limit
    )");
    scenario(R"(
        00:00  certificate p 2027-01-01
        08:00  log p 600  8 8.001 8
        12:00  ? marks main 08:00 10:00     = warm line
    )");
}

TEST_CASE("marks: a probe in degrees Fahrenheit is compared in its own degrees", "[scenarios]") {
    scenario(R"(
        00:00  certificate f 2027-01-01 tolerance 0.5
        07:00  assign f main
        08:00  log f 600  46 46.5 46        # the limit is 46
        09:00  log f 600  46 46.6 46
        12:00  ? marks main 08:00 10:00     = warm line; within the probe's tolerance of the limit
                                            = warm line
    )");
}

TEST_CASE("marks: an excursion that ends between two certificates goes by the reading after it", "[scenarios]") {
    // 9 to 7 in 600 s: 1 above the limit, back at 08:05; the certificate of 08:05 holds for the reading of 08:10
    scenario(R"(
        00:00  certificate p 2027-01-01 tolerance 0.5
        08:05  certificate p 2027-01-01 tolerance 2
        08:00  log p 600  9 7
        12:00  ? marks main 08:00 09:00     = warm line; within the probe's tolerance of the limit; \
                                              it ended on a straight line between values, and nobody read when
    )");
    scenario(R"(
        00:00  certificate p 2027-01-01 tolerance 2
        08:05  certificate p 2027-01-01 tolerance 0.5
        08:00  log p 600  9 7
        12:00  ? marks main 08:00 09:00     = warm line; \
                                              it ended on a straight line between values, and nobody read when
    )");
}

TEST_CASE("marks: a check is judged by the tolerance of its own probe", "[scenarios]") {
    scenario(R"(
        00:00  certificate q 2027-01-01 tolerance 2
        00:00  certificate p 2027-01-01
        08:00  log p 600  5 5
        09:00  check main 9 probe q
        12:00  check main 5 min 1 max 7 probe q
        13:00  check main 9
        14:00  ? marks main 07:00 13:00  = cold bounded; within the probe's tolerance of the limit  # from 08:10 on
                                            = warm point; within the probe's tolerance of the limit
                                            = warm line; \          # 5 to 9, judged by a check that names no probe
                                              it began on a straight line between values, and nobody read when
    )");
}
