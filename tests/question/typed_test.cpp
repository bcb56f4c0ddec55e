// Dates, times and durations as people type them.
#include <catch2/catch.hpp>

#include <fstream>
#include <set>
#include <sstream>

#include "coldtally/drafts.hpp"
#include "coldtally/error.hpp"
#include "question/typed_clock.hpp"

using namespace coldtally;

namespace {

const Zone chicago("America/Chicago"), berlin("Europe/Berlin");
const Instant now = parse_instant("2026-11-27T15:00:00Z", chicago);  // 09:00 there

std::string local(const std::string& typed, const Zone& zone = chicago) {
    return zone.local_text(typed_instant(typed, zone, now));
}

std::string refused(const std::string& typed, const Zone& zone = chicago) {
    try {
        return "NOT REFUSED: " + local(typed, zone);
    } catch (const Error& error) {
        return std::string(code_name(error.code())) + ": " + error.what();
    }
}

}  // namespace

TEST_CASE("times of day as they are typed", "[typed]") {
    CHECK(local("08:05") == "2026-11-27 08:05");
    CHECK(local("8:05") == "2026-11-27 08:05");
    CHECK(local("8:05:30") == "2026-11-27 08:05:30");
    CHECK(local("1:30 PM") == "2026-11-27 13:30");
    CHECK(local("1:30PM") == "2026-11-27 13:30");
    CHECK(local("1:30 p.m.") == "2026-11-27 13:30");
    CHECK(local("7 AM") == "2026-11-27 07:00");
    CHECK(local("12 am") == "2026-11-27 00:00");
    CHECK(local("12:10 am") == "2026-11-27 00:10");
    CHECK(local("12 pm") == "2026-11-27 12:00");
    for (const char* no_time : {"1.2 pm", "1.1 pm", "1 2 pm", "7.30", "1:30 p. m.", "pm"})
        CHECK(refused(no_time).starts_with("bad-value: "));
    CHECK(refused("13:30 PM") == "bad-value: \"13:30 PM\": no clock shows this time; write 07:00");
    CHECK(refused("24:00") == "bad-value: \"24:00\": no clock shows this time; write 07:00");
    CHECK(refused("7") == "bad-value: \"7\": is no time of a day; write 2026-11-02 07:00, or 07:00 for today");
    CHECK(refused("soon") == "bad-value: \"soon\": is no time of a day; write 2026-11-02 07:00, or 07:00 for today");
}

TEST_CASE("dates as they are typed", "[typed]") {
    CHECK(local("2026-11-02 07:00") == "2026-11-02 07:00");
    CHECK(local("2026-11-02T07:00") == "2026-11-02 07:00");
    CHECK(local("2026-11-02 7:00") == "2026-11-02 07:00");
    CHECK(local("yesterday 16:20") == "2026-11-26 16:20");
    CHECK(local("Today 6 am") == "2026-11-27 06:00");
    CHECK(local("11/02/2026 7:00 AM") == "2026-11-02 07:00");
    CHECK(local("11/2/2026 07:00") == "2026-11-02 07:00");
    CHECK(local("11/27/2026 7:00", berlin) == "2026-11-27 07:00");  // no month 27
    CHECK(local("27/11/2026 7:00", berlin) == "2026-11-27 07:00");
    CHECK(local("27/11/2026 7:00") == "2026-11-27 07:00");
    CHECK(local("5/5/2026 7:00", berlin) == "2026-05-05 07:00");
    CHECK(local("2.11.2026 7:00", berlin) == "2026-11-02 07:00");
    CHECK(local("2.11.2026 7:00") == "2026-11-02 07:00");
    CHECK(refused("11/02/2026 7:00", berlin) ==
          "ambiguous: \"11/02/2026\": may be either of two days; write 2026-11-02 or 2026-02-11");
    CHECK(refused("31/02/2026 7:00", berlin) ==
          "bad-value: \"31/02/2026\": no calendar has this date; write 2026-11-02");
    CHECK(refused("2026-02-30 7:00") == "bad-value: \"2026-02-30\": no calendar has this date; write 2026-11-02");
    CHECK(refused("2026-11-02") ==
          "bad-value: \"2026-11-02\": is a day without a time; write 2026-11-02 07:00, or 07:00 for today");
    // a window's ends are days where no time stands
    CHECK(typed_from("11/02/2026", chicago, now) == typed_from("2026-11-02", chicago, now));
    CHECK(typed_until("yesterday", chicago, now) == typed_until("2026-11-26", chicago, now));
    // the clock goes back on 1 November: the hour that occurs twice is asked about, as ever
    CHECK(refused("11/01/2026 1:30 AM").starts_with("ambiguous: "));
}

TEST_CASE("where the month is first, by the zone database's own list of countries", "[typed]") {
    std::ifstream tab("/usr/share/zoneinfo/zone.tab");  // tzdata: country code, coordinates, zone
    REQUIRE(tab);
    const std::set<std::string> countries = {"US", "PR", "GU", "VI", "AS", "MP"};
    // these have links to a zone of their neighbour: what the table names for them is looked at
    int first = 0, other = 0;
    for (std::string line; std::getline(tab, line);) {
        if (line.empty() || line[0] == '#') continue;
        std::istringstream columns(line);
        std::string country, where, zone;
        columns >> country >> where >> zone;
        INFO(zone << " of " << country);
        CHECK((date_order(zone) == DateOrder::month_first) == countries.contains(country));
        ++(countries.contains(country) ? first : other);
    }
    CHECK(first >= 33);
    CHECK(other >= 300);
    CHECK(date_order("US/Central") == DateOrder::month_first);
}

TEST_CASE("durations as they are typed", "[typed]") {
    CHECK(typed_duration("28 days") == Duration(28 * 86400));
    CHECK(typed_duration("96 h") == Duration(96 * 3600));
    CHECK(typed_duration("30 min") == Duration(1800));
    CHECK(typed_duration("3d") == Duration(3 * 86400));
    CHECK(typed_duration("1 day") == Duration(86400));
    CHECK(typed_duration(" 2 Weeks ") == Duration(14 * 86400));
    CHECK(typed_duration("1 h 30 min") == Duration(5400));
    CHECK(typed_duration("1h30m") == Duration(5400));
    CHECK(typed_duration("90 sec") == Duration(90));
    CHECK(typed_duration("0 s") == Duration(0));
    const auto why = [](const char* text) -> std::string {
        try {
            typed_duration(text);
            return "NOT REFUSED";
        } catch (const Error& error) {
            const std::string said = error.what();
            CHECK(said.ends_with("; write 28 days, 96 h, 30 min or 1 h 30 min"));
            return said.substr(0, said.find(';'));
        }
    };
    CHECK(why("") == "\"\": no duration");
    CHECK(why("7200") == "\"7200\": does not say of what");
    CHECK(why("1 month") == "\"1 month\": must be of weeks, days, h, min or s");
    CHECK(why("1.5 h") == "\"1.5 h\": does not say of what");
    CHECK(why("h") == "\"h\": must be whole numbers, each with its unit");
    CHECK(why("-3 h") == "\"-3 h\": must be whole numbers, each with its unit");
    CHECK(why("30 min 1 h") == "\"30 min 1 h\": must begin with the largest unit, each once");
    CHECK(why("1 h 1 h") == "\"1 h 1 h\": must begin with the largest unit, each once");
    CHECK(why("99999999999999999999 s") == "\"99999999999999999999 s\": is longer than 1000 years");
    CHECK(why("400000 d") == "\"400000 d\": is longer than 1000 years");
}

TEST_CASE("a zone that nearly matches is offered", "[typed]") {
    const auto why = [](const char* name) -> std::string {
        try {
            Zone zone{name};
            return "NOT REFUSED";
        } catch (const Error& error) {
            return error.what();
        }
    };
    const std::string says = ": must be an IANA time zone such as \"Europe/Berlin\"";
    CHECK(why("Chicago") == "\"Chicago\"" + says + "; did you mean America/Chicago?");
    CHECK(why("America/Chicgo") == "\"America/Chicgo\"" + says + "; did you mean America/Chicago?");
    CHECK(why("america/los angeles") == "\"america/los angeles\"" + says + "; did you mean America/Los_Angeles?");
    CHECK(why("new york") == "\"new york\"" + says + "; did you mean America/New_York?");
    CHECK(why("nowhere at all") == "\"nowhere at all\"" + says);
}
