// Readings outside a certificate's validity, or within its tolerance of a limit, are marked wherever they are shown.
#include <catch2/catch.hpp>

#include <filesystem>
#include <unistd.h>

#include "coldtally/ledger.hpp"
#include "words/conditions.hpp"

using namespace coldtally;

namespace {

const Zone utc("UTC");
Instant t(const char* text) { return parse_instant(text, utc); }

class DemoSite {
public:
    explicit DemoSite(const std::string& more)
        : path_(std::filesystem::temp_directory_path() / ("coldtally-validity-" + std::to_string(getpid()))) {
        std::filesystem::remove(path_);
        Ledger(path_.string(), Ledger::Mode::create).post(R"({"kind":"site","name":"Demo","zone":"UTC","by":"ab"}
{"kind":"product","product":"p","name":"P","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"lot","product":"p","lot":"L","expiry":"2027-12","by":"ab"}
{"kind":"place","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}},"by":"ab"}
{"kind":"probe","probe":"q","scale":"C","by":"ab"}
{"kind":"assign","at":"2026-01-01T00:00:00Z","probe":"q","place":"main","by":"ab"}
{"kind":"certificate","at":"2026-01-02T00:00:00Z","probe":"q","expires":"2026-01-04","tolerance":"0.5","by":"ab"}
{"kind":"certificate","at":"2026-01-06T00:00:00Z","probe":"q","expires":"2026-12-31","tolerance":"0.5","by":"ab"}
{"kind":"receive","at":"2026-01-01T06:00:00Z","place":"main","product":"p","lot":"L","doses":10,"by":"ab"}
)" + more, t("2026-01-10T00:00:00Z"));
    }
    ~DemoSite() { std::filesystem::remove(path_); }
    Ledger ledger() const { return Ledger(path_.string()); }

private:
    std::filesystem::path path_;
};

const std::string readings =
    R"({"kind":"readings","probe":"q","scale":"C","by":"ab","rows":[)"
    R"(["2026-01-03T10:00:00Z","8.0"],["2026-01-03T10:30:00Z","8.4"],["2026-01-03T11:00:00Z","8.0"],)"
    R"(["2026-01-05T10:00:00Z","5"],["2026-01-05T10:30:00Z","10"],["2026-01-05T11:00:00Z","5"],)"
    R"(["2026-01-09T10:00:00Z","5"],["2026-01-09T10:30:00Z","10"],["2026-01-09T11:00:00Z","5"]]})";

}  // namespace

TEST_CASE("an excursion within the tolerance of the limit, or without a valid certificate, is marked") {
    const DemoSite site(readings);
    const auto answer = site.ledger().excursions("main", t("2026-01-01T00:00:00Z"), t("2026-01-10T00:00:00Z"), {},
                                                 t("2026-01-10T00:00:00Z"));
    REQUIRE(answer.excursions.size() == 3);
    CHECK(english().say(answer.excursions[0].marks) ==
          std::vector<std::string>{"within the probe's tolerance of the limit: it may not have been out of range"});
    // the first certificate ran out at the end of January 4, the next holds from January 6
    const auto line = [](const std::string& day) {
        return "it began and ended on a straight line between values, and nobody read when: out of range for at most "
               "1 h between 2026-01-" + day + " 10:00 and 2026-01-" + day + " 11:00";
    };
    CHECK(english().say(answer.excursions[1].marks) ==
          std::vector<std::string>{"readings without a valid certificate: probe q: certificate expired, 2026-01-05 "
                                   "10:18 to 2026-01-05 10:42:01",
                                   line("05")});
    CHECK(english().say(answer.excursions[2].marks) == std::vector<std::string>{line("09")});
    CHECK(answer.excursions[0].marks.front().is(words::peak_within_tolerance));
    CHECK(answer.excursions[1].marks.front().is(words::uncertified_readings));
    CHECK(answer.excursions[2].marks.front().is(words::end_unread));
}

TEST_CASE("conditions and lists say when the probe had no valid certificate") {
    const DemoSite site(readings);
    const Instant now = t("2026-01-10T00:00:00Z");
    const std::vector<std::string> lapses{"probe q: no certificate, 2026-01-01 00:00 to 2026-01-02 00:00",
                                          "probe q: certificate expired, 2026-01-05 00:00 to 2026-01-06 00:00"};
    const auto marks = site.ledger().conditions("main", t("2026-01-01T00:00:00Z"), now, {}, now).marks;
    CHECK(english().say(marks) == lapses);
    CHECK(marks.at(0).is(words::probe_uncertified));
    CHECK(marks.at(1).is(words::probe_certificate_expired));
    const auto lists = site.ledger().lists({}, now);
    REQUIRE(lists.holdings.size() == 1);
    std::vector<std::string> marked;
    for (const auto& note : english().say(lists.holdings[0].notes))
        if (note.find("valid certificate") != std::string::npos) marked.push_back(note);
    CHECK(marked == std::vector<std::string>{"readings of main without a valid certificate: probe q: no certificate, "
                                             "2026-01-01 06:00 to 2026-01-02 00:00",
                                             "readings of main without a valid certificate: probe q: certificate "
                                             "expired, 2026-01-05 00:00 to 2026-01-06 00:00"});
}

TEST_CASE(
    "a check with a thermometer whose certificate ran out that very instant is marked, and one a second before is "
    "not") {
    const DemoSite site(R"({"kind":"probe","probe":"hand","scale":"C","by":"ab"}
{"kind":"certificate","at":"2026-01-02T00:00:00Z","probe":"hand","expires":"2026-01-08","by":"ab"}
{"kind":"check","at":"2026-01-08T23:59:59Z","place":"main","probe":"hand","scale":"C","temperature":"5","by":"ab"}
{"kind":"check","at":"2026-01-09T00:00:00Z","place":"main","probe":"hand","scale":"C","temperature":"5","by":"ab"})");
    const Instant now = t("2026-01-10T00:00:00Z");
    CHECK(english().say(site.ledger().conditions("main", t("2026-01-07T00:00:00Z"), now, {}, now).marks) ==
          std::vector<std::string>{"probe hand: certificate expired, a check, 2026-01-09 00:00"});
}
