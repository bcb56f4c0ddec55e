// Definitions as they hold, in words and both scales, with how they came to be so. All data invented.
#include <catch2/catch.hpp>

#include "clinic.hpp"
#include "said.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

struct Practice : Clinic {
    Practice() {
        post({R"({"kind":"site","name":"Invented","zone":"UTC"})",  // 1
              place("Main", "8"),  // 2
              R"({"kind":"product","product":"elm","name":"Elm","range":{"low":{"C":"2"},"high":{"C":"8"}}})",  // 3
              R"({"kind":"product","product":"oak","name":"Oak","range":{"low":{"C":"2"},"high":{"C":"8"}}})",  // 4
              R"({"kind":"lot","product":"elm","lot":"L1","expiry":"2027-06"})",  // 5
              R"({"kind":"lot","product":"oak","lot":"L1","expiry":"2028-01"})",  // 6
              R"({"kind":"probe","probe":"p","scale":"C"})",                      // 7
              certificate("2026-01-05T00:00:00Z", "2027-01-05", "N-1")},  // 8
             "2026-02-01T08:00:00Z");
        post({place("Main", "9", R"(,"max_gap_s":7200,"note":"by the maker's sheet")")},  // 9
             "2026-03-01T08:00:00Z");
        post({R"({"kind":"void","at":"2026-03-02T08:00:00Z","voids":9,"reason":"misread"})",  // 10
              place("Main door", "8"),                                                          // 11
              R"({"kind":"training","at":"2026-03-01T09:00:00Z","person":"A. Example","topic":"cold chain",)"
              R"("due":"2026-03-20"})",  // 12
              R"({"kind":"training","at":"2026-03-02T07:00:00Z","person":"A. Example","topic":"first aid"})",  // 13
              certificate("2026-03-02T07:30:00Z", "2028-01-05", "N-2")},  // 14
             "2026-03-02T09:00:00Z");
    }
    static std::string place(const std::string& name, const std::string& high, const std::string& more = {}) {
        return R"({"kind":"place","place":"main","name":")" + name +
               R"(","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":")" + high + "\"}}" + more + "}";
    }
    static std::string certificate(const std::string& when, const std::string& expires, const std::string& number) {
        return R"({"kind":"certificate","at":")" + when + R"(","probe":"p","expires":")" + expires +
               R"(","number":")" + number + "\"}";
    }
    ShownAnswer show(const ShowRequest& request, const std::string& when = "2026-03-04T12:00:00Z",
                     std::optional<std::string> known_on = std::nullopt) const {
        Question question;
        question.at = at(when);
        if (known_on) question.known_on = at(*known_on);
        return ledger.show(request, question, at("2026-03-05T12:00:00Z"));
    }
};

std::string lines_of(const ShownAnswer::Thing& thing) {
    std::string out;
    for (const auto& line : thing.lines)
        out += english().say(line.name) + ": " + english().say(line.value) + "\n";
    return out;
}

std::string changes_of(const ShownAnswer::Version& v) {
    std::string out;
    for (const auto& c : v.changes)
        out += english().say(c.name) + ": " + (c.before ? english().say(*c.before) : "-") + " -> " +
               (c.after ? english().say(*c.after) : "-") + "\n";
    return out;
}

}  // namespace

TEST_CASE("show: a place as it holds, and its versions", "[entered]") {
    Practice c;
    const auto things = c.show({"main", {}}).things;
    REQUIRE(things.size() == 1);
    const auto& place = things.front();
    CHECK(place.what == Defined::place);
    CHECK(lines_of(place).find("range: 2 °C (= 35.6 °F) to 8 °C (= 46.4 °F)\n") != std::string::npos);
    CHECK(lines_of(place).find("name: Main door\n") != std::string::npos);
    REQUIRE(place.history.size() == 3);
    CHECK(place.history[0].changes.empty());
    CHECK(changes_of(place.history[1]) ==
          "range: 2 °C (= 35.6 °F) to 8 °C (= 46.4 °F) -> 2 °C (= 35.6 °F) to 9 °C (= 48.2 °F)\n"
          "longest step between two readings: 1 h, the usual, since none is stated -> 2 h\n");
    CHECK(place.history[1].note == "by the maker's sheet");
    REQUIRE(place.history[1].taken_back);
    CHECK(place.history[1].taken_back->reason == "misread");
    // what was taken back before it is not what it changed
    CHECK(changes_of(place.history[2]) == "name: Main -> Main door\n");
    CHECK(place.history[2].holds);
    CHECK(!place.history[1].holds);

    // known on the day before the taking back: the wider range held, and nothing says it was taken back
    const auto then = c.show({"main", {}}, "2026-03-01T12:00:00Z", "2026-03-01T12:00:00Z").things.front();
    CHECK(lines_of(then).find("to 9 °C") != std::string::npos);
    CHECK(!then.history.back().taken_back);
}

TEST_CASE("show: all that goes by a name, a kind alone, and what is not known", "[entered]") {
    Practice c;
    const auto lots = c.show({"L1", {}}).things;
    REQUIRE(lots.size() == 2);
    CHECK(lots[0].product == "elm");
    CHECK(lots[1].product == "oak");
    CHECK(c.show({{}, "site"}).things.front().name == "site");
    CHECK(c.show({"Invented", {}}).things.front().what == Defined::site);
    const auto known = c.show({}).known;
    REQUIRE(known.size() == 6);  // site, products, lots, places, probes, people; a certificate has no name of its own
    CHECK(known[1].ids == std::vector<std::string>{"elm", "oak"});
    CHECK(known[2].ids == std::vector<std::string>{"L1"});
    CHECK(known[5].ids == std::vector<std::string>{"A. Example"});
    for (const ShowRequest& wrong : {ShowRequest{"mian", {}}, ShowRequest{"elm", "place"}, ShowRequest{{}, "rules"}})
        CHECK_THROWS_AS(c.show(wrong), Error);
    try {
        c.show({"mian", {}});
    } catch (const Error& e) {
        CHECK(e.code() == Code::not_known);
        CHECK(std::string(e.what()).find("did you mean main?") != std::string::npos);
    }
    CHECK_THROWS_AS(c.show({"main", "fridge"}), Error);
}

TEST_CASE("show: certificates and training hold at an instant", "[entered]") {
    Practice c;
    const auto certificate = [&](const std::string& when) {
        for (const auto& thing : c.show({"p", {}}, when).things)
            if (thing.what == Defined::certificate) return lines_of(thing);
        return std::string("none");
    };
    CHECK(certificate("2026-02-15T12:00:00Z").find("number: N-1") != std::string::npos);
    CHECK(certificate("2026-03-03T12:00:00Z").find("number: N-2") != std::string::npos);
    CHECK(certificate("2026-01-01T12:00:00Z").empty());

    const auto person = c.show({"A. Example", {}}, "2026-03-10T12:00:00Z").things.front();
    CHECK(person.what == Defined::person);
    CHECK(lines_of(person).find("cold chain: trained 2026-03-01, good") != std::string::npos);
    CHECK(lines_of(person).find("first aid: trained 2026-03-02, not said how long") != std::string::npos);
    CHECK(person.history.size() == 2);
    const auto late = c.ledger.show({"A. Example", {}}, {}, at("2026-04-01T12:00:00Z")).things.front();
    CHECK(lines_of(late).find("cold chain: trained 2026-03-01, LAPSED") != std::string::npos);
}

TEST_CASE("show: what was taken back as a whole holds no more", "[entered]") {
    Practice c;
    c.post({R"({"kind":"product","product":"fir","name":"Fir","range":{"low":{"C":"2"},"high":{"C":"8"}}})",  // 15
            R"({"kind":"void","at":"2026-03-03T08:00:00Z","voids":15,"reason":"never used"})"},
           "2026-03-03T09:00:00Z");
    const auto answer = c.show({"fir", {}});
    CHECK(answer.things.front().lines.empty());
    TableStyle style{Zone("UTC")};
    style.columns = 80;
    CHECK(to_table(answer, style).find("NOT DEFINED NOW") != std::string::npos);
}
