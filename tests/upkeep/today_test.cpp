// Today: each section of the screen, by a site small enough to be reckoned by hand; and what it must never seem to say.
#include <catch2/catch.hpp>

#include <algorithm>

#include <nlohmann/json.hpp>

#include "clinic.hpp"
#include "forms/table_layout.hpp"
#include "said.hpp"

using namespace coldtally;
using tests::at;
using tests::Clinic;
using State = TodayAnswer::Checks::AskedCheck::State;
using Lines = std::vector<std::string>;

namespace {

const Instant noon = at("2026-06-10T12:00:00Z");  // a Wednesday

Lines joined(Lines a, const Lines& b) {
    a.insert(a.end(), b.begin(), b.end());
    return a;
}

std::string place(const std::string& id, const std::string& high = "8", const std::string& type = "refrigerator") {
    return R"({"kind":"place","place":")" + id + R"(","name":")" + id + R"(","type":")" + type +
           R"(","range":{"low":{"C":"2"},"high":{"C":")" + high + R"("}}})";
}

std::string check(const std::string& where, const std::string& when, const std::string& degrees = "5",
                  const std::string& more = R"(,"min":"4","max":"6")") {
    return R"({"kind":"check","at":")" + when + R"(","place":")" + where + R"(","scale":"C","temperature":")" +
           degrees + "\"" + more + "}";
}

std::string holding(const std::string& where, const std::string& lot, const std::string& product = "flu") {
    return R"("place":")" + where + R"(","product":")" + product + R"(","lot":")" + lot + "\"";
}

/// A lot and its delivery on 1 June.
Lines doses(const std::string& where, const std::string& lot, int number, const std::string& expiry = "2027-12-31",
            const std::string& product = "flu") {
    return {R"({"kind":"lot","product":")" + product + R"(","lot":")" + lot + R"(","expiry":")" + expiry + R"("})",
            R"({"kind":"receive","at":"2026-06-01T08:00:00Z",)" + holding(where, lot, product) + R"(,"doses":)" +
                std::to_string(number) + "}"};
}

/// A site with one refrigerator, read at eight o'clock on 1 and 10 June, with minimum and maximum.
Lines base(const std::string& zone = "UTC") {
    return joined({R"({"kind":"site","name":"June","zone":")" + zone + R"("})",
                   R"({"kind":"product","product":"flu","name":"Flu","range":{"low":{"C":"2"},"high":{"C":"8"}}})",
                   place("main"), check("main", "2026-06-01T08:00:00Z"), check("main", "2026-06-10T08:00:00Z")},
                  doses("main", "A1", 10));
}

/// Another refrigerator, read as the first.
Lines another(const std::string& id, const std::string& high = "8") {
    return {place(id, high), check(id, "2026-06-01T08:00:00Z"), check(id, "2026-06-10T08:00:00Z")};
}

std::string rules(const std::string& parts) {
    return R"({"kind":"rules","programme":"Invented Programme","source":"Handbook","dated":"2025-11-01","report":[],)" +
           parts + "}";
}

std::string checks_rule(const std::string& by = R"(,"by":["09:00","17:00"])", const std::string& min_max = "true") {
    return rules(R"("checks":[{"places":["refrigerator"],"weekdays":["Monday","Tuesday","Wednesday","Thursday",)"
                 R"("Friday"],"per_day":2)" +
                 by + R"(,"min_max":)" + min_max + "}]");
}

TodayAnswer ask(const Lines& lines, Instant when = noon) {
    Clinic c;
    c.post(lines, "2026-07-01T00:00:00Z");
    return c.ledger.today(Question{when, {}}, at("2026-07-01T12:00:00Z"));
}

std::string table_of(const TodayAnswer& a, int columns = 80) {
    TableStyle style{Zone("UTC")};
    style.columns = columns;
    return to_table(a, style);
}

/// Is it there, however the lines are broken?
bool shows(const TodayAnswer& a, const std::string& what) {
    std::string flat;
    for (const char c : table_of(a))
        if (const char one = c == '\n' ? ' ' : c; one != ' ' || flat.empty() || flat.back() != ' ') flat += one;
    INFO(table_of(a));
    return flat.find(what) != std::string::npos;
}

}  // namespace

TEST_CASE("doses are counted once, by place and by why they must not be used", "[today]") {
    Lines lines = joined(base(), doses("main", "OLD", 3, "2026-06-09"));
    lines = joined(lines, doses("main", "H1", 4));
    lines.push_back(R"({"kind":"hold","at":"2026-06-05T08:00:00Z","reason":"recall","product":"flu","lot":"H1"})");
    lines = joined(lines, another("annex"));
    lines.push_back(check("annex", "2026-06-02T12:00:00Z", "5", R"(,"min":"4","max":"12")"));
    lines = joined(lines, doses("annex", "W1", 5));
    lines = joined(lines, another("third"));
    lines = joined(lines, doses("third", "D1", 6));
    lines.push_back(R"({"kind":"incident","at":"2026-06-10T09:00:00Z","incident":"2026-1","step":"noticed",)"
                    R"("place":"third","text":"plug out"})");
    lines = joined(lines, another("wide", "10"));
    lines = joined(lines, doses("wide", "S1", 7));
    const auto a = ask(lines);
    REQUIRE(a.doses.size() == 4);
    const auto counts = [&](std::size_t i) {
        const auto& d = a.doses[i];
        return std::vector<std::int64_t>{d.discard.count(),  d.quarantine.count(), d.held.count(),
                                         d.in_doubt.count(), d.warned.count(),     d.nothing_found.count()};
    };
    using Numbers = std::vector<std::int64_t>;
    CHECK(a.doses[0].place == "annex");
    CHECK(counts(0) == Numbers{0, 5, 0, 0, 0, 0});
    CHECK(a.doses[1].place == "main");
    CHECK(counts(1) == Numbers{3, 0, 4, 0, 0, 10});
    CHECK(a.doses[2].place == "third");
    CHECK(counts(2) == Numbers{0, 0, 0, 6, 0, 0});
    CHECK(a.doses[3].place == "wide");  // its range is wider than the product's
    CHECK(counts(3) == Numbers{0, 0, 0, 0, 7, 0});
    CHECK(shows(a, "DO NOT USE 18 of 35 doses, 7 more WITH A WARNING: see `coldtally lists`"));
    // annex was too warm by a display, and nobody has opened an incident
    REQUIRE(a.without_incident.size() == 1);
    CHECK(a.without_incident.front().place == "annex");
    CHECK(shows(a, "EXCURSIONS that belong to NO INCIDENT: 1; `coldtally notice` opens one"));
}

TEST_CASE("a hold on doses that were too warm, too, is not a hold alone", "[today]") {
    Lines lines = joined(base(), another("annex"));
    lines.push_back(check("annex", "2026-06-02T12:00:00Z", "5", R"(,"min":"4","max":"12")"));
    lines = joined(lines, doses("annex", "W1", 5));
    lines.push_back(R"({"kind":"hold","at":"2026-06-05T08:00:00Z","reason":"recall","product":"flu","lot":"W1"})");
    const auto a = ask(lines);
    CHECK(a.doses.front().quarantine == Doses(5));
    CHECK(a.doses.front().held == Doses(0));
}

TEST_CASE("a quiet day never reads as if all were safe", "[today]") {
    const auto a = ask(base());
    CHECK(shows(a, "Not to be used: none of the 10 doses here is known to be for discard"));
    CHECK(shows(a, "Incidents: none is open."));
    CHECK(shows(a, "none is known since 2025-06-10 12:00, in what was recorded"));
    CHECK(shows(a, "NOT looked at: doses given (`coldtally review`, `coldtally follow-up`)"));
    CHECK(shows(a, "NOT JUDGED, for want of a rule or a record: logger readings, counts, training, loans."));
    CHECK(shows(a, "A quiet day says that nothing was found, not that doses may be used. "
                   "This supports and does not replace"));
    for (const char* never : {"safe", "all is well", "in order", "OK"}) CHECK_FALSE(shows(a, never));
    const auto table = table_of(a);
    CHECK(table.ends_with("revaccination.\n"));
    CHECK(std::ranges::count(table, '\n') <= 40);
    // and where there are no doses at all
    CHECK(shows(ask({base().front()}), "No doses are here, as far as is known."));
}

TEST_CASE("a unit is silent when nothing was read for longer than its gap", "[today]") {
    // between two checks 18 h may lie; the last was at eight
    CHECK_FALSE(ask(base(), at("2026-06-11T02:00:00Z")).units.front().silent);
    const auto a = ask(base(), at("2026-06-11T02:00:01Z"));
    REQUIRE(a.units.size() == 1);
    CHECK(a.units.front().silent);
    CHECK(a.units.front().last == at("2026-06-10T08:00:00Z"));
    CHECK(shows(a, "OUT OF RANGE OR SILENT: 1 of 1 place in use"));
    CHECK(shows(a, "main: NOTHING READ for 18 h 1 min, since 2026-06-10 08:00: NOT KNOWN how it is (in range then)"));
    CHECK_FALSE(shows(a, "in range when"));
    // the place says otherwise
    Lines lines = base();
    lines[2].insert(lines[2].size() - 1, R"(,"max_check_gap_s":14399)");
    CHECK(ask(lines).units.front().silent);
}

TEST_CASE("where no check was ever made, the gap is that of the logger's readings", "[today]") {
    const Lines lines = joined(
        base(), joined({place("logged"), R"({"kind":"probe","probe":"p","scale":"C"})",
                        R"({"kind":"assign","at":"2026-06-01T08:00:00Z","probe":"p","place":"logged"})",
                        tests::readings("2026-06-10T10:00:00Z", {{0, "5"}, {1800, "5"}, {3600, "5"}})},
                       doses("logged", "L1", 2)));
    const auto logged = [&](Instant when) {
        const auto a = ask(lines, when);
        return *std::ranges::find(a.units, "logged", &TodayAnswer::Unit::place);
    };
    CHECK(logged(noon).silent_after == Duration(3600));
    CHECK_FALSE(logged(noon).silent);  // the last was at eleven
    CHECK(logged(noon + Duration(1)).silent);
    CHECK(logged(noon).doses == Doses(2));
}

TEST_CASE("a unit out of range when last read comes first, and one that was never read is not known", "[today]") {
    Lines lines = joined(base(), another("annex"));
    lines.push_back(check("annex", "2026-06-10T11:00:00Z", "9.4", ""));
    lines = joined(lines, doses("annex", "B1", 1));
    lines.push_back(place("new"));
    lines = joined(lines, doses("new", "C1", 1));
    const auto a = ask(lines);
    REQUIRE(a.units.size() == 3);
    CHECK(a.units[0].place == "annex");
    CHECK(a.units[0].out == Side::warm);
    CHECK(a.units[0].last_C == Rational(94, 10));
    CHECK(a.units[1].place == "new");
    CHECK_FALSE(a.units[1].last);
    CHECK(a.units[1].silent);
    CHECK_FALSE(a.units[1].out);
    CHECK(a.units[2].place == "main");
    CHECK(shows(a, "OUT OF RANGE OR SILENT: 2 of 3 places in use"));
    CHECK(shows(a, "annex: too warm when last read, 9.4 °C, 1 h ago: read it now"));
    CHECK(shows(a, "new: NOTHING was ever READ there: NOT KNOWN how it is"));
    CHECK(shows(a, "In range when last read: main 5.0 °C 4 h ago"));
}

TEST_CASE("open incidents say what is overdue and what is due by when", "[today]") {
    const std::string notice = R"({"kind":"incident","at":"2026-06-10T10:00:00Z","incident":"2026-7","step":"noticed",)"
                               R"("place":"main","text":"door open"})";
    const std::string duties = rules(R"("duties":[{"step":"supervisor told","within_s":3600},)"
                                     R"({"step":"cause","within_s":604800}])");
    const auto a = ask(joined(base(), {duties, notice}));
    REQUIRE(a.incidents.size() == 1);
    const auto& i = a.incidents.front();
    CHECK(i.incident == "2026-7");
    CHECK(i.since == at("2026-06-10T10:00:00Z"));
    CHECK(i.places == std::vector<std::string>{"main"});
    CHECK_FALSE(i.counted);
    REQUIRE(i.duties.size() >= 2);
    CHECK(i.duties[0].step == DutyStep::supervisor_told);
    CHECK(i.duties[0].state == DutyClock::State::overdue);
    CHECK(i.duties[0].due == at("2026-06-10T11:00:00Z"));
    CHECK(i.duties[1].step == DutyStep::cause);
    CHECK(i.duties[1].due == at("2026-06-17T10:00:00Z"));
    CHECK(shows(a, "OPEN INCIDENTS: 1; what is due, and all of one: `coldtally incident ID`"));
    CHECK(shows(a, "2026-7: OVERDUE supervisor told since 2026-06-10 11:00; to be done: cause (due 2026-06-17 10:00)"));
    CHECK(shows(a, "manufacturer told; NOT counted"));
    // without rules nothing is overdue, and it is said that nobody knows by when
    const auto without = ask(joined(base(), {notice}));
    CHECK_FALSE(shows(without, "OVERDUE supervisor"));
    CHECK(shows(without, "to do, no rule says by when: supervisor told, health department told"));
    // one that is closed is not open
    const auto closed =
        ask(joined(base(), {notice, R"({"kind":"incident","at":"2026-06-10T11:00:00Z","incident":"2026-7",)"
                                    R"("step":"closed","text":"was shut"})"}));
    CHECK(closed.incidents.empty());
}

TEST_CASE("what has its last day soon is told, today's opened vials first", "[today]") {
    Lines lines = joined(
        base(), {R"({"kind":"product","product":"mdv","name":"Vials","range":{"low":{"C":"2"},"high":{"C":"8"}},)"
                 R"("doses_per_vial":10,"beyond_use":{"first puncture":86400}})"});
    lines = joined(lines, doses("main", "T1", 1, "2026-06-10"));  // today is its last day
    lines = joined(lines, doses("main", "E1", 2, "2026-07-09"));  // ends 12 h before 30 days are over
    lines = joined(lines, doses("main", "E2", 3, "2026-07-10"));  // and 12 h after
    lines = joined(lines, doses("main", "OLD", 4, "2026-06-09"));
    lines = joined(lines, doses("main", "V1", 10, "2027-12-31", "mdv"));
    lines.push_back(R"({"kind":"beyond-use","at":"2026-06-09T15:00:00Z",)" + holding("main", "V1", "mdv") +
                    R"(,"event":"first puncture"})");
    lines = joined(lines, doses("main", "V2", 7, "2027-12-31", "mdv"));  // one vial of them must be open
    const auto a = ask(lines);
    REQUIRE(a.use.size() == 3);
    CHECK(a.use[0].holding.lot == "V1");
    CHECK(a.use[0].opened);
    CHECK(a.use[0].last_use.until == at("2026-06-10T15:00:00Z"));
    CHECK(a.use[1].holding.lot == "T1");
    CHECK_FALSE(a.use[1].opened);
    CHECK(a.use[2].holding.lot == "E1");
    REQUIRE(a.vials.size() == 1);
    CHECK(a.vials[0].holding.lot == "V2");
    CHECK(shows(a, "USE SOON, the last day is by 2026-07-10: 3 holdings"));
    CHECK(shows(a, "until 2026-06-10 15:00: 10 doses, mdv lot V1 in main, opened vial"));
    CHECK(shows(a, "2026-06-10: 1 dose, flu lot T1 in main"));
    CHECK(shows(a, "LAST DAY NOT KNOWN: mdv lot V2 in main: 7 doses are in no whole vials of 10"));
    // it waits for nobody, and something must be known of it
    CHECK(a.doses.front().warned == Doses(7));
    CHECK(shows(ask(base()), "Use soon: no doses have their last day by 2026-07-10."));
}

TEST_CASE("doses that must not be used are marked where they end soon", "[today]") {
    Lines lines = joined(base(), doses("main", "H1", 4, "2026-06-20"));
    lines.push_back(R"({"kind":"hold","at":"2026-06-05T08:00:00Z","reason":"recall","product":"flu","lot":"H1"})");
    const auto a = ask(lines);
    REQUIRE(a.use.size() == 1);
    CHECK(a.use[0].list == List::quarantine);
    CHECK(shows(a, "2026-06-20: 4 doses, flu lot H1 in main, DO NOT USE (quarantine)"));
}

TEST_CASE("many holdings that end soon: those of today are all there, the others are counted", "[today]") {
    Lines lines = base();
    for (int i = 0; i < 8; ++i) lines = joined(lines, doses("main", "T" + std::to_string(i), 1, "2026-06-10"));
    for (int i = 0; i < 3; ++i) lines = joined(lines, doses("main", "S" + std::to_string(i), 1, "2026-06-20"));
    const auto a = ask(lines);
    CHECK(a.use.size() == 11);
    for (int i = 0; i < 8; ++i) CHECK(shows(a, "flu lot T" + std::to_string(i) + " in main"));
    CHECK_FALSE(shows(a, "flu lot S0"));
    CHECK(shows(a, "3 more by 2026-07-10: `coldtally dates`"));
}

TEST_CASE("checks still to make are those the rules ask for today", "[today]") {
    const Lines ruled = joined(base(), {checks_rule()});
    const auto a = ask(ruled);
    REQUIRE(a.checks.size() == 1);
    REQUIRE(a.checks[0].asked.size() == 2);
    CHECK(a.checks[0].asked[0].state == State::made);
    CHECK(a.checks[0].asked[1].state == State::to_make);
    CHECK(a.checks[0].asked[1].by == at("2026-06-10T17:00:00Z"));
    CHECK(shows(a, "CHECKS still to make today, or missed: 1"));
    CHECK(shows(a, "main: done 08:00; 1 still to make, by 17:00"));
    // at its time it is missed
    const auto evening = ask(ruled, at("2026-06-10T17:00:00Z"));
    CHECK(evening.checks[0].asked[1].state == State::missed);
    CHECK(shows(evening, "main: done 08:00; 1 MISSED, due by 17:00"));
    // or done
    const auto both = ask(joined(ruled, {check("main", "2026-06-10T16:00:00Z")}), at("2026-06-10T18:00:00Z"));
    CHECK(shows(both, "Checks: none is still to make today (main)"));
    CHECK(both.checks[0].made.size() == 2);
    // before the first
    CHECK(shows(ask(ruled, at("2026-06-10T07:00:00Z")), "main: none made today; 2 still to make, by 09:00, 17:00"));
    // Saturday
    const auto saturday = ask(ruled, at("2026-06-13T07:00:00Z"));
    CHECK(saturday.checks[0].judged);
    CHECK(saturday.checks[0].asked.empty());
    CHECK(shows(saturday, "Checks: the rules ask for none today"));
    CHECK(shows(saturday, "main: none made today; the rules ask for none today"));
}

TEST_CASE("a check without minimum and maximum is not the one that was asked for", "[today]") {
    Lines lines = joined(base(), {checks_rule()});
    lines[4] = check("main", "2026-06-10T08:00:00Z", "5", "");
    const auto a = ask(lines);
    REQUIRE(a.checks[0].asked.size() == 2);
    CHECK(a.checks[0].asked[0].state == State::missed);
    CHECK(a.checks[0].asked[0].unfinished);
    CHECK_FALSE(a.checks[0].asked[1].unfinished);
    CHECK(shows(a, "main: done 08:00; 1 MISSED, due by 09:00, WITHOUT minimum and maximum so far; 1 still to make, by "
                   "17:00"));
}

TEST_CASE("checks without times are so many in the site's day", "[today]") {
    // eight o'clock in UTC is four in New York; its day ends at four in UTC
    const auto a = ask(joined(base("America/New_York"), {checks_rule("")}));
    REQUIRE(a.checks[0].asked.size() == 2);
    CHECK(a.checks[0].asked[0].state == State::made);
    CHECK(a.checks[0].asked[1].state == State::to_make);
    CHECK(a.checks[0].asked[1].by == at("2026-06-11T04:00:00Z"));
    TableStyle style{Zone("America/New_York")};
    CHECK(to_table(a, style).find("main: done 04:00; 1 still to make, by the end of the day") != std::string::npos);
    CHECK(ask(base("America/New_York"), at("2026-06-11T03:59:59Z")).day == Date{2026, 6, 10});
    CHECK(ask(base("America/New_York"), at("2026-06-11T04:00:00Z")).day == Date{2026, 6, 11});
}

TEST_CASE("what no rule asks for is not judged, and what was checked is told all the same", "[today]") {
    const auto none = ask(base());
    REQUIRE(none.checks.size() == 1);
    CHECK_FALSE(none.checks[0].judged);
    CHECK(shows(none, "Checks: NOT JUDGED what is still to make"));
    CHECK(shows(none, "main: done 08:00; NOT JUDGED, no rule is known that asks for any there"));
    // of a freezer the rules of refrigerators say nothing
    Lines lines = joined(base(), {checks_rule(), place("cold", "8", "freezer")});
    lines = joined(lines, doses("cold", "F1", 1));
    CHECK(shows(ask(lines), "cold: none made today; NOT JUDGED"));
}

TEST_CASE("a place that came into use today missed no check before", "[today]") {
    Lines lines = joined(base(), {checks_rule(), place("annex"), check("annex", "2026-06-10T10:30:00Z"),
                                  R"({"kind":"lot","product":"flu","lot":"N1","expiry":"2027-12-31"})",
                                  R"({"kind":"receive","at":"2026-06-10T10:30:00Z",)" + holding("annex", "N1") +
                                      R"(,"doses":1})"});
    const auto a = ask(lines);
    REQUIRE(a.checks.size() == 2);
    REQUIRE(a.checks[0].place == "annex");
    REQUIRE(a.checks[0].asked.size() == 1);
    CHECK(a.checks[0].asked[0].state == State::made);  // half past ten is between nine and five
}

TEST_CASE("papers and devices are told as readiness has them, by topic", "[today]") {
    const Lines lines = joined(base(), {rules(R"("every_days":{"count":5,"logger reading":7,"service":365})"),
                                        R"({"kind":"probe","probe":"p","scale":"C"})",
                                        R"({"kind":"certificate","at":"2026-01-01T00:00:00Z","probe":"p",)"
                                        R"("expires":"2026-06-20","tolerance":"0.5"})",
                                        R"({"kind":"assign","at":"2026-06-01T08:00:00Z","probe":"p","place":"main"})"});
    const auto a = ask(lines);
    const auto has = [&](const std::string& topic, ReadinessAnswer::Urgency urgency) {
        return std::ranges::any_of(
            a.due, [&](const auto& f) { return matter_name(f.topic) == topic && f.urgency == urgency; });
    };
    CHECK(has("counts", ReadinessAnswer::Urgency::overdue));
    CHECK(has("logger readings", ReadinessAnswer::Urgency::overdue));
    CHECK(has("certificates", ReadinessAnswer::Urgency::soon));
    CHECK(has("plan", ReadinessAnswer::Urgency::overdue));
    CHECK(shows(a, "OVERDUE, or due by 2026-07-10; all of it: `coldtally readiness`"));
    CHECK(shows(a, "certificates: probe p: certificate expires on 2026-06-20, in main"));
    CHECK(shows(a, "counts: main: count overdue of 1 holding"));
    CHECK(shows(a, "NOT JUDGED, for want of a rule or a record: training, loans, service."));
    // each is one of readiness, word for word
    Clinic c;
    c.post(lines, "2026-07-01T00:00:00Z");
    const auto whole = c.ledger.readiness(noon - Duration(30 * 86400), Question{noon, {}}, at("2026-07-01T12:00:00Z"));
    for (const auto& f : a.due)
        CHECK(std::ranges::any_of(whole.findings, [&](const auto& g) {
            return g.topic == f.topic && g.where == f.where && g.text == f.text && g.since == f.since;
        }));
}

TEST_CASE("every table of today fits its width", "[today]") {
    Lines lines = base();
    for (int i = 0; i < 20; ++i) {
        const std::string id = "refrigerator of the long corridor number " + std::to_string(i);
        lines = joined(lines, another(id));
        lines = joined(lines, doses(id, "K" + std::to_string(i), 5, i < 10 ? "2026-06-09" : "2026-06-15"));
    }
    const auto a = ask(joined(lines, {checks_rule()}));
    for (const int columns : {60, 80, 100}) {
        std::size_t begin = 0;
        const auto table = table_of(a, columns);
        for (std::size_t end; (end = table.find('\n', begin)) != std::string::npos; begin = end + 1) {
            INFO(table.substr(begin, end - begin));
            CHECK(forms::display_width(table.substr(begin, end - begin)) <= columns);
        }
    }
    // nothing falls out unsaid: ten places have doses to discard, nine of them stand there, the rest is added up
    CHECK(shows(a, "DO NOT USE 50 of 110 doses: see"));
    CHECK(shows(a, "12 more places"));
    CHECK(shows(a, "13 more, none of them read longer ago"));
}

TEST_CASE("today as JSON has every number of the table", "[today]") {
    const auto json = nlohmann::json::parse(to_json(ask(joined(base(), {checks_rule()}))));
    CHECK(json["day"] == "2026-06-10");
    CHECK(json["doses"][0]["place"] == "main");
    CHECK(json["doses"][0]["nothing_found"] == 10);
    CHECK(json["units"][0]["last_C"] == "5");
    CHECK(json["units"][0]["out"] == nullptr);
    CHECK(json["units"][0]["silent"] == false);
    CHECK(json["units"][0]["silent_after_s"] == 64800);
    CHECK(json["checks"][0]["asked"][1]["state"] == "to make");
    CHECK(json["not_judged"].size() == 4);
    CHECK(json["not_looked_at_codes"][0]["code"] == "today-not-given");
    CHECK(json["caution"].get<std::string>().find("supports and does not replace") != std::string::npos);
}

TEST_CASE("excursions are the same however far back is looked", "[today][incidents]") {
    // a logger from 00:00 on 2 June, every half an hour, warm from 10:00 to 12:00; checks with extremes before and
    // after it; a reading alone out of range
    std::vector<std::pair<std::int64_t, std::string>> rows;
    for (int i = 0; i < 48; ++i) rows.emplace_back(i * 1800, i >= 20 && i <= 24 ? "11" : "5");
    const Lines lines = {R"({"kind":"site","name":"June","zone":"UTC"})",
                         place("main"),
                         R"({"kind":"probe","probe":"p","scale":"C"})",
                         R"({"kind":"assign","at":"2026-06-01T00:00:00Z","probe":"p","place":"main"})",
                         check("main", "2026-06-01T08:00:00Z"),
                         tests::readings("2026-06-02T00:00:00Z", rows),
                         check("main", "2026-06-03T08:00:00Z", "5", R"(,"min":"4","max":"12")"),
                         tests::readings("2026-06-04T08:00:00Z", {{0, "9"}}),
                         check("main", "2026-06-05T08:00:00Z", "9", ""),
                         check("main", "2026-06-05T14:00:00Z", "9", "")};
    Clinic c;
    c.post(lines, "2026-07-01T00:00:00Z");
    const Question question{at("2026-06-06T00:00:00Z"), {}};
    const auto json = [&](Instant from, bool others) {
        auto found = c.ledger.incidents({}, {}, from, *question.at, question, at("2026-07-01T12:00:00Z"), others);
        found.not_listed.clear();
        return to_json(found);
    };
    std::size_t seen = 0;
    for (Instant t = at("2026-06-01T00:00:00Z"); t < *question.at; t = t + Duration(600)) {
        INFO(t.text());
        const auto quick = json(t, false);
        CHECK(quick == json(t, true));
        seen += quick.find("\"side\"") != std::string::npos;
    }
    CHECK(seen > 500);
}
