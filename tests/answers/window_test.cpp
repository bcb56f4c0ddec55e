// Windows as people type them: a day that is named is a whole day, and the window is said again in words.
#include <catch2/catch.hpp>

#include "answers/clinic.hpp"
#include "coldtally/drafts.hpp"
#include "coldtally/error.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const Zone chicago("America/Chicago");
const Instant some = at("2026-03-10T18:00:00Z");

}  // namespace

TEST_CASE("a date begins a window with its first instant, and ends it with its last", "[window]") {
    CHECK(typed_from("2026-03-02", chicago, some) == at("2026-03-02T06:00:00Z"));
    CHECK(typed_until("2026-03-02", chicago, some) == at("2026-03-03T06:00:00Z"));
    // 8 March 2026 has 23 hours in this zone, 1 November 25 (tz database, America/Chicago)
    CHECK(typed_until("2026-03-08", chicago, some) - typed_from("2026-03-08", chicago, some) == Duration(23 * 3600));
    CHECK(typed_until("2026-11-01", chicago, some) - typed_from("2026-11-01", chicago, some) == Duration(25 * 3600));
    // what states an hour means that hour
    CHECK(typed_until("2026-03-02 12:00", chicago, some) == at("2026-03-02T18:00:00Z"));
    CHECK(typed_until("2026-03-02T00:00:00", chicago, some) == at("2026-03-02T06:00:00Z"));
    CHECK(typed_until("2026-03-02T00:00:00Z", chicago, some) == at("2026-03-02T00:00:00Z"));
}

TEST_CASE("a day of which nothing lies in the window is refused", "[window]") {
    CHECK(typed_until("2026-03-02", chicago, some, at("2026-03-02T06:00:00Z")) == at("2026-03-03T06:00:00Z"));
    CHECK(typed_until("2026-03-02", chicago, some, at("2026-03-03T05:59:59Z")) == at("2026-03-03T06:00:00Z"));
    try {
        typed_until("2026-03-02", chicago, some, at("2026-03-03T06:00:00Z"));
        FAIL("taken");
    } catch (const Error& error) {
        CHECK(error.code() == Code::contradiction);
        CHECK(std::string(error.what()).find("2026-03-03 00:00") != std::string::npos);
    }
}

TEST_CASE("the words of a window say through which day it goes", "[window]") {
    const Instant from = at("2026-03-02T06:00:00Z"), end = at("2026-03-09T05:00:00Z");
    CHECK(window_words(from, end, end, chicago) == "from 2026-03-02 00:00 through the end of 2026-03-08");
    CHECK(window_words(from, end - Duration(3600), end, chicago) == "from 2026-03-02 00:00 until 2026-03-08 23:00");
    CHECK(window_words(from, end, at("2026-03-05T18:00:00Z"), chicago) ==
          "from 2026-03-02 00:00 through the end of 2026-03-08, seen up to 2026-03-05 12:00");
    CHECK(window_words(from, from, end, chicago) == "the instant 2026-03-02 00:00");
}
