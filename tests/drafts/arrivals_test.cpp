// Doses that come in: as if never exposed though this ledger knows of exposed ones of their lot, and into a time that
// was out of range. All data invented.
#include <catch2/catch.hpp>

#include <algorithm>

#include "clinic.hpp"
#include "coldtally/entry_work.hpp"
#include "coldtally/error.hpp"
#include "said.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// "fridge" was at 11 °C on 2026-06-03 from 22:00 on, for five hours, and is read up to 06-05 12:00; "annex" is not.
struct Practice : Clinic {
    Practice() {
        const std::string range = R"("range":{"low":{"C":"2"},"high":{"C":"8"}})";
        post({R"({"kind":"site","name":"Invented","zone":"UTC"})",
              R"({"kind":"product","product":"alfa","name":"Alfa",)" + range + "}",
              R"({"kind":"lot","product":"alfa","lot":"A1","expiry":"2027-06-30"})",
              R"({"kind":"lot","product":"alfa","lot":"B1","expiry":"2027-06-30"})",
              R"({"kind":"place","place":"fridge","name":"F","type":"refrigerator",)" + range + "}",
              R"({"kind":"place","place":"annex","name":"A","type":"refrigerator",)" + range + "}",
              R"({"kind":"probe","probe":"p","scale":"C"})",
              R"({"kind":"certificate","at":"2026-01-01T00:00:00Z","probe":"p","expires":"2027-12-31"})",
              R"({"kind":"assign","at":"2026-01-01T00:00:00Z","probe":"p","place":"fridge"})"},
             "2026-06-01T07:00:00Z");
        std::vector<std::pair<std::int64_t, std::string>> rows;
        for (Instant t = at(start); t <= at("2026-06-05T12:00:00Z"); t = t + Duration(1800))
            rows.emplace_back((t - at(start)).seconds(),
                              t >= at("2026-06-03T22:00:00Z") && t <= at("2026-06-04T03:00:00Z") ? "11" : "5");
        post({readings(start, rows)}, "2026-06-05T12:00:00Z");
    }
    static constexpr const char* start = "2026-06-01T07:00:00Z";
    const Instant now = at("2026-06-05T12:00:00Z");

    static std::string receive(const std::string& lot, const std::string& place, const std::string& when,
                               const std::string& more = "") {
        return R"({"kind":"receive","by":"ab","doses":20,"product":"alfa","lot":")" + lot + R"(","place":")" + place +
               R"(","at":"2026-06-)" + when + ":00Z\"" + more + "}";
    }
    std::string refusal(const std::string& fields) {
        try {
            static_cast<void>(ledger.draft(fields, now));
        } catch (const Error& e) {
            CHECK(e.code() == Code::missing_field);
            return e.what();
        }
        return "accepted";
    }
    std::vector<Remark> warned(const std::string& fields) {
        return entry_draft(ledger, ledger.draft(fields, now), now).drafted.warnings;
    }
    void put(const std::string& fields) {
        Drafted drafted = ledger.draft(fields, now);
        ledger.post(drafted, now);
    }
};

}  // namespace

TEST_CASE("doses that come back without their history are asked about where theirs is not clean", "[arrivals]") {
    Practice c;
    c.put(Practice::receive("A1", "fridge", "01T08:00"));
    CHECK(c.refusal(Practice::receive("A1", "annex", "03T12:00")) == "accepted");  // before anything was warm
    c.put(R"({"kind":"transfer","by":"ab","at":"2026-06-04T11:00:00Z","place":"fridge","product":"alfa","lot":"A1",)"
          R"("doses":20,"to":"Harbour","reason":"r"})");
    const std::string back = c.refusal(Practice::receive("A1", "annex", "04T11:30"));
    CHECK(has(back, "note: must say why they are not these: 20 doses of alfa lot A1, sent from fridge to Harbour"));
    CHECK(has(back, "warm"));
    CHECK(c.refusal(Practice::receive("B1", "annex", "04T11:30")) == "accepted");
    CHECK(c.refusal(Practice::receive("A1", "annex", "04T10:30")) != "accepted");  // they were in the fridge then
    const std::string noted = Practice::receive("A1", "annex", "04T11:30", R"(,"note":"a new delivery, sealed")");
    CHECK(c.refusal(noted) == "accepted");
    CHECK(says(c.warned(noted), "THE SAME DOSES? 20 doses of alfa lot A1, sent from fridge to Harbour"));
}

TEST_CASE("doses found in another place are asked about where those in the book are exposed", "[arrivals]") {
    Practice c;
    c.put(Practice::receive("A1", "fridge", "01T08:00"));
    const std::string found = c.refusal(Practice::receive("A1", "annex", "05T11:00"));
    CHECK(has(found, R"(20 doses of lot "A1" in "fridge", warm, point)"));
    CHECK(has(found, "they are to be moved there"));
    // joined to those that are exposed, they count as these do
    CHECK(c.refusal(Practice::receive("A1", "fridge", "05T11:00")) == "accepted");
    CHECK(says(c.warned(Practice::receive("A1", "fridge", "05T11:00")), "DO NOT USE: by what is known now"));
}

TEST_CASE("a delivery noted late into a known excursion says which list it is on", "[arrivals]") {
    Practice c;
    const auto said = c.warned(Practice::receive("A1", "fridge", "01T08:00"));
    CHECK(says(said, R"(DO NOT USE: by what is known now lot "A1" in "fridge" is on the list )"
                     "quarantine-pending-guidance (warm, point)"));
    CHECK_FALSE(says(c.warned(Practice::receive("A1", "fridge", "04T12:00")), "DO NOT USE"));
    // of a place that nobody reads only that is said
    const auto unread = c.warned(Practice::receive("A1", "annex", "01T08:00"));
    CHECK(says(unread, "NOT KNOWN YET: by what is known now"));
    CHECK_FALSE(says(unread, "DO NOT USE"));
    // what was announced is what then is
    c.put(Practice::receive("A1", "fridge", "01T08:00"));
    const auto row = c.ledger.lists({}, c.now).holdings.at(0);
    CHECK(row.list == List::quarantine);
    CHECK(row.reasons == std::vector<Reason>{Reason::warm, Reason::point});
}

TEST_CASE("a move noted late into a known excursion says which list it puts the doses on", "[arrivals]") {
    Practice c;
    c.post({R"({"kind":"check","at":"2026-06-01T08:00:00Z","place":"annex","scale":"C","temperature":"5"})",
            R"({"kind":"check","at":"2026-06-05T12:00:00Z","place":"annex","scale":"C","temperature":"5","min":"4",)"
            R"("max":"6"})"},
           "2026-06-05T12:00:00Z");
    c.put(Practice::receive("A1", "annex", "01T08:00"));
    const auto move = [](const std::string& when) {
        return R"({"kind":"move","by":"ab","product":"alfa","lot":"A1","doses":20,"from":{"place":"annex"},)"
               R"("to":{"place":"fridge"},"at":"2026-06-)" +
               when + ":00Z\"}";
    };
    CHECK(says(c.warned(move("02T08:00")), R"(lot "A1" in "fridge" is on the list quarantine-pending-guidance)"));
    CHECK_FALSE(says(c.warned(move("05T08:00")), "DO NOT USE"));
}
