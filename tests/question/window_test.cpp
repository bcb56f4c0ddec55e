// Windows as people type them: a day that is named is a whole day, and the window is said again in words.
#include <catch2/catch.hpp>

#include "clinic.hpp"
#include "coldtally/drafts.hpp"
#include "coldtally/error.hpp"
#include "words/general.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const Zone chicago("America/Chicago");
const Instant some = at("2026-03-10T18:00:00Z");

std::string window(Instant from, Instant until, Instant asked) {
    return english().say(window_words(from, until, asked, chicago));
}

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
    CHECK(window(from, end, end) == "from 2026-03-02 00:00 through the end of 2026-03-08");
    CHECK(window(from, end - Duration(3600), end) == "from 2026-03-02 00:00 until 2026-03-08 23:00");
    CHECK(window(from, end, at("2026-03-05T18:00:00Z")) ==
          "from 2026-03-02 00:00 through the end of 2026-03-08, seen up to 2026-03-05 12:00");
    CHECK(window(end, end, end) == "the instant 2026-03-09 00:00");  // that instant is looked at
    CHECK(window_words(from, end, end, chicago) == words::window_through("2026-03-02 00:00", "2026-03-08"));
}

TEST_CASE("a window that holds no time says so wherever it is answered, and does not read as nothing found",
          "[window]") {
    const Instant from = at("2026-03-02T06:00:00Z"), end = at("2026-03-09T05:00:00Z");
    CHECK(window(from, from, end) ==
          "the instant 2026-03-02 00:00, WHICH HOLDS NO TIME: nothing was looked at");
    CHECK(window(end, end + Duration(60), from) ==
          "from 2026-03-09 00:00, AFTER THE INSTANT ASKED ABOUT, 2026-03-02 00:00: nothing was looked at");
    Clinic c;
    c.post(
        {R"({"kind":"site","name":"Invented","zone":"America/Chicago"})",
         R"({"kind":"place","place":"main","name":"M","type":"refrigerator","range":{"low":{"C":"2"},)"
         R"("high":{"C":"8"}}})",
         R"({"kind":"check","at":"2026-03-02T05:30:00Z","place":"main","scale":"C","temperature":"16"})",
         R"({"kind":"check","at":"2026-03-02T06:30:00Z","place":"main","scale":"C","temperature":"16"})"});
    const Question asked{end, std::nullopt};
    const Instant now = at("2030-01-01T00:00:00Z");
    const TableStyle style{chicago};
    for (const auto& [a, b] : {std::pair(from, from), std::pair(end + Duration(60), end + Duration(3600))}) {
        const std::string what = "nothing was looked at";
        const auto excursions = c.ledger.excursions("main", a, b, asked, now);
        CHECK(excursions.excursions.empty());  // zeros and nulls, and the window in words
        REQUIRE(excursions.head.window);
        CHECK(english().say(*excursions.head.window).find(what) != std::string::npos);
        CHECK(to_json(excursions).find(what) != std::string::npos);
        const auto said = [&](std::string table) {
            for (auto& ch : table) ch = ch == '\n' ? ' ' : ch;
            while (table.find("  ") != std::string::npos) table.erase(table.find("  "), 1);
            return table.find(what) != std::string::npos;
        };
        CHECK(said(to_table(excursions, style)));
        CHECK(said(to_table(c.ledger.conditions("main", a, b, asked, now), style)));
        CHECK(said(to_table(c.ledger.unit("main", a, b, asked, now), style)));
        CHECK(said(to_table(c.ledger.accountability(a, b, asked, now), style)));
    }
    // one that holds a second is not such a window
    CHECK(c.ledger.excursions("main", from, from + Duration(1), asked, now).head.window ==
          words::window_until("2026-03-02 00:00", "2026-03-02 00:00:01"));
}
