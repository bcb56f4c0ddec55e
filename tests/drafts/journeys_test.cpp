// A container packed, carried, used on the way and unpacked. All data invented; every number below is counted by hand.
#include <catch2/catch.hpp>

#include <algorithm>

#include "coldtally/forms.hpp"
#include "coldtally/ledger.hpp"
#include "said.hpp"
#include "temporary.hpp"

using namespace coldtally;
using namespace coldtally::tests;

namespace {

const char* const definitions = R"lines(
{"kind":"site","by":"ab","name":"Invented","zone":"UTC","stale_after_s":3600}
{"kind":"product","by":"ab","product":"elm","name":"Elm, invented","range":{"low":{"C":"2"},"high":{"C":"8"}}}
{"kind":"product","by":"ab","product":"fir","name":"Fir (invented), frozen","range":{"high":{"C":"-15"}}}
{"kind":"lot","by":"ab","product":"elm","lot":"A1","expiry":"2027-06"}
{"kind":"lot","by":"ab","product":"elm","lot":"B1","expiry":"2026-09"}
{"kind":"lot","by":"ab","product":"fir","lot":"F1","expiry":"2028-01"}
{"kind":"lot","by":"ab","product":"elm","lot":"E0","expiry":"2026-05"}
{"kind":"place","by":"ab","place":"main","name":"Main","type":"refrigerator","range":{"low":{"C":"2"},"high":{"C":"8"}}}
{"kind":"place","by":"ab","place":"annex","name":"Annex","type":"refrigerator","range":{"low":{"C":"2"},)lines"
                                R"lines("high":{"C":"8"}}}
{"kind":"place","by":"ab","place":"box","name":"Box","type":"transport container","range":{"low":{"C":"2"},)lines"
                                R"lines("high":{"C":"8"}}}
{"kind":"check","by":"ab","at":"2026-06-01T07:00:00Z","place":"main","scale":"C","temperature":"4"}
{"kind":"receive","by":"ab","at":"2026-06-01T08:00:00Z","place":"main","product":"elm","lot":"A1","doses":10}
{"kind":"receive","by":"ab","at":"2026-06-01T08:00:00Z","place":"main","product":"elm","lot":"A1","doses":2,)lines"
                                R"lines("mark":"bin 2"}
{"kind":"receive","by":"ab","at":"2026-06-01T08:00:00Z","place":"main","product":"elm","lot":"B1","doses":5}
{"kind":"receive","by":"ab","at":"2026-06-01T08:00:00Z","place":"main","product":"elm","lot":"E0","doses":1}
{"kind":"receive","by":"ab","at":"2026-06-01T08:00:00Z","place":"main","product":"fir","lot":"F1","doses":3}
{"kind":"check","by":"ab","at":"2026-06-01T12:00:00Z","place":"main","scale":"C","temperature":"4"}
{"kind":"incident","by":"ab","at":"2026-06-01T12:30:00Z","incident":"i1","step":"noticed","place":"main",)lines"
                                R"lines("text":"dark display"}
)lines";

Instant at(const char* text) { return parse_instant(text, Zone("UTC")); }

struct Clinic {
    ::tests::TemporaryFile file;
    Ledger ledger{file.path(), Ledger::Mode::create};
    Instant now = at("2026-06-01T18:00:00Z");

    Clinic() { ledger.post(definitions, now); }
    PackRequest request() const {
        PackRequest r;
        r.place = "main";
        r.container = "box";
        r.by = "cd";
        r.destination = "annex";
        r.at = "13:00";
        r.place_temperature = "9C";
        r.container_temperature = "5C";
        return r;
    }
    UnpackRequest back(const char* when, const char* place) const {
        UnpackRequest r;
        r.container = "box";
        r.place = place;
        r.by = "cd";
        r.at = when;
        r.container_temperature = "6C";
        r.as_listed = true;
        return r;
    }
    void post(const Drafted& d) { ledger.post(d.entries, now); }
    std::int64_t doses(const HoldingKey& key) const {
        for (const auto& row : ledger.stock({}, now).holdings)
            if (row.holding == key) return row.doses.count();
        return 0;
    }
};

template <class F>
Code refusal(F f, std::string part) {
    try {
        f();
    } catch (const Error& e) {
        CAPTURE(e.what());
        CHECK(std::string(e.what()).find(part) != std::string::npos);
        return e.code();
    }
    FAIL("accepted");
    return Code::machine;
}

}  // namespace

TEST_CASE("frozen first, then short-dated, what is to be discarded last", "[journeys]") {
    Clinic c;
    const auto list = c.ledger.move_list("main", "box", Question{at("2026-06-01T13:00:00Z"), {}}, c.now);
    std::vector<std::string> order;
    for (const auto& row : list.holdings) order.push_back(row.holding.lot + row.holding.mark);
    CHECK(order == std::vector<std::string>{"F1", "B1", "A1", "A1bin 2", "E0"});  // E0 ended with May
    CHECK(list.holdings[0].fit == Fit::unsuited);
    CHECK(list.holdings[1].fit == Fit::suited);
    CHECK(list.holdings[4].list == List::discard);
    CHECK(c.ledger.move_list("annex", std::nullopt, {}, c.now).holdings.empty());
    CHECK(refusal([&] { c.ledger.move_list("main", "nowhere", {}, c.now); }, "nowhere") == Code::not_known);
}

TEST_CASE("a move list of a place that is out of range now says so first, and which doses must go", "[journeys]") {
    Clinic c;
    const TableStyle style{Zone("UTC"), Scale::C, 200};
    const auto list = [&](const char* place, const char* when) {
        return c.ledger.move_list(place, std::nullopt, Question{at(when), {}}, c.now);
    };
    const auto marked = [](const MoveListAnswer& a) {
        std::vector<std::string> out;
        for (const auto& row : a.holdings)
            if (row.must_go) out.push_back(row.holding.lot + row.holding.mark);
        return out;
    };
    // at 4 °C what is kept frozen is out of its own range, though the place is not
    const auto before = list("main", "2026-06-01T13:00:00Z");
    CHECK_FALSE(before.out_of_range);
    CHECK(marked(before) == std::vector<std::string>{"F1"});
    CHECK(to_table(before, style).find("OUT OF RANGE NOW") == std::string::npos);
    CHECK(to_table(before, style).find("3 doses MUST GO NOW: what was read last there is out of the range of") !=
          std::string::npos);
    CHECK(to_table(before, style).find("DOES NOT SUIT: main is kept at") != std::string::npos);

    c.ledger.post(
        R"({"kind":"product","by":"ab","product":"oak","name":"Oak, invented","range":{"low":{"C":"2"},)"
        R"("high":{"C":"25"}}}
{"kind":"lot","by":"ab","product":"oak","lot":"O1","expiry":"2026-07"}
{"kind":"receive","by":"ab","at":"2026-06-01T13:10:00Z","place":"main","product":"oak","lot":"O1","doses":4}
{"kind":"check","by":"ab","at":"2026-06-01T13:30:00Z","place":"main","scale":"C","temperature":"16"})",
        c.now);
    const auto hot = list("main", "2026-06-01T14:00:00Z");
    REQUIRE(hot.out_of_range);
    CHECK(english().say(*hot.out_of_range) == "16 °C at 2026-06-01 13:30");
    // all but what its own range allows, and what is to be discarded; these go first
    std::vector<std::string> order;
    for (const auto& row : hot.holdings) order.push_back(row.holding.lot + row.holding.mark);
    CHECK(marked(hot) == std::vector<std::string>{"F1", "B1", "A1", "A1bin 2"});
    CHECK(order == std::vector<std::string>{"F1", "B1", "A1", "A1bin 2", "O1", "E0"});
    const std::string table = to_table(hot, style);
    const auto alarm = table.find("OUT OF RANGE NOW: the last that was read in main is 16 °C at 2026-06-01 13:30.");
    CHECK(alarm != std::string::npos);
    CHECK(alarm < table.find("F1"));
    CHECK(table.find("20 doses MUST GO NOW") != std::string::npos);
    CHECK(to_table(hot, TableStyle{Zone("UTC"), Scale::C, 400})
              .find("Move them to a unit that suits them (what has thawed is not frozen again), mark them DO NOT "
                    "USE") != std::string::npos);
    CHECK(to_json(hot).find(R"("out_of_range":"16 °C at 2026-06-01 13:30",)"
                            R"("out_of_range_code":{"code":"degrees-at",)") !=
          std::string::npos);
    CHECK(to_json(hot).find(R"("must_go":true)") != std::string::npos);

    c.ledger.post(
        R"({"kind":"check","by":"ab","at":"2026-06-01T14:30:00Z","place":"main","scale":"C","temperature":"5"})",
        c.now);
    const auto after = list("main", "2026-06-01T15:00:00Z");
    CHECK_FALSE(after.out_of_range);
    CHECK(marked(after) == std::vector<std::string>{"F1"});
    CHECK(to_json(after).find(R"("out_of_range":null)") != std::string::npos);
    CHECK(marked(list("annex", "2026-06-01T15:00:00Z")).empty());
}

TEST_CASE("a frozen product does not go into a refrigerated box without a word", "[journeys]") {
    Clinic c;
    auto r = c.request();
    CHECK(refusal([&] { c.ledger.pack(r, c.now); }, "\"fir\" lot \"F1\"") == Code::contradiction);
    r.leave_unsuited = true;
    const Drafted left = c.ledger.pack(r, c.now);
    CHECK(left.entries.size() == 7);  // the checks of the place and of the box, the departure, four holdings
    CHECK(says(left.warnings, "left in \"main\""));
    CHECK(says(left.warnings, "ACT NOW: temperature 9 °C"));
    r.leave_unsuited = false;
    r.take_unsuited = true;
    const Drafted taken = c.ledger.pack(r, c.now);
    CHECK(taken.entries.size() == 8);
    CHECK(says(taken.warnings, "does not suit \"fir\""));
    r.lots = {"B1"};
    CHECK(c.ledger.pack(r, c.now).entries.size() == 4);
    r.lots = {"Z9"};
    CHECK(refusal([&] { c.ledger.pack(r, c.now); }, "Z9") == Code::not_there);
}

TEST_CASE("a reading out of range at departure stays with the doses that leave", "[journeys]") {
    // Stays are half-open: at 13:00 the doses are the box's. Were the 9 °C only of 13:00, a logger's file that says 4
    // °C would leave none of it.
    Clinic c;
    auto r = c.request();
    r.leave_unsuited = true;
    const Drafted d = c.ledger.pack(r, c.now);
    REQUIRE(std::get_if<Check>(&d.entries[0].fact));
    CHECK(std::get<Check>(d.entries[0].fact).place == "main");
    CHECK(d.entries[0].at == at("2026-06-01T12:59:59Z"));
    CHECK(says(d.filled, "the temperature of \"main\" is noted a second before, at 2026-06-01 12:59:59"));
    CHECK(std::get<Check>(d.entries[1].fact).place == "box");  // noted once: doses that stay get one point, not two
    CHECK(d.entries[1].at == at("2026-06-01T13:00:00Z"));
    // what leaves is not to be moved again; what stays may have to be
    CHECK(says(d.next_steps, "Mark the doses DO NOT USE"));
    CHECK(says(d.next_steps, "move-list"));  // F1 is left
    auto whole = r;
    whole.leave_unsuited = false;
    whole.take_unsuited = true;
    const Drafted emptied = c.ledger.pack(whole, c.now);
    CHECK(says(emptied.next_steps, "Look at door"));
    CHECK(has_code(emptied.next_steps, "look-at-the-unit"));  // nothing is left to be moved
    CHECK(has_code(d.next_steps, "look-and-move"));
    CHECK(has_code(d.filled, "noted-a-second-before"));
    CHECK(has_code(d.warnings, "left-unsuited"));
    CHECK_FALSE(says(emptied.next_steps, "move-list"));
    c.post(d);
    std::string rows;
    for (int minute = 0; minute <= 6 * 60; minute += 30)
        rows += (rows.empty() ? "" : ",") + std::string("[\"2026-06-01T") + (minute < 180 ? "0" : "") +
                std::to_string(7 + minute / 60) + (minute % 60 ? ":30" : ":00") + ":00Z\",\"4\"]";
    c.ledger.post(R"({"kind":"probe","by":"ab","probe":"k","scale":"C"}
{"kind":"assign","by":"ab","at":"2026-06-01T07:00:00Z","probe":"k","place":"main"}
{"kind":"readings","by":"ab","probe":"k","scale":"C","rows":[)" + rows + "]}\n", c.now);
    for (const auto& row : c.ledger.lists(Question{at("2026-06-01T13:10:00Z"), {}}, c.now).holdings)
        if (row.holding.place == "box" && row.holding.lot == "B1") {
            CHECK(row.history.total.points == 1);
            CHECK(row.history.total.highest_C == Rational(9));
            CHECK(row.list == List::quarantine);
        }
    {  // those that stay have one point of it, not two
        Clinic other;
        auto part = other.request();
        part.lots = {"B1"};
        other.post(other.ledger.pack(part, other.now));
        for (const auto& row : other.ledger.lists(Question{at("2026-06-01T13:10:00Z"), {}}, other.now).holdings)
            if (row.holding.lot == "A1" || row.holding.lot == "B1") CHECK(row.history.total.points == 1);
    }
    r.container = "annex";
    CHECK(refusal([&] { c.ledger.pack(r, c.now); }, "must be a transport container, and is a refrigerator") ==
          Code::contradiction);
}

TEST_CASE("the list for the lid, before anything is written", "[journeys]") {
    Clinic c;
    auto r = c.request();
    r.leave_unsuited = true;
    const Drafted d = c.ledger.pack(r, c.now);
    const std::size_t before = c.ledger.move_list("main", std::nullopt, {}, c.now).holdings.size();
    const auto would_be = c.ledger.move_list_after(d.entries, "box", at("2026-06-01T13:00:00Z"), c.now);
    CHECK(c.ledger.move_list("main", std::nullopt, {}, c.now).holdings.size() == before);
    CHECK(c.ledger.move_list("box", std::nullopt, {}, c.now).holdings.empty());
    c.post(d);
    const auto is = c.ledger.move_list("box", std::nullopt, Question{at("2026-06-01T13:00:00Z"), {}}, c.now);
    CHECK(to_json(would_be) == to_json(is));
    CHECK(is.holdings.size() == 4);
    CHECK(refusal([&] { c.ledger.move_list_after(d.entries, "box", c.now, c.now); },
                  "must be at most the 0 that are there then") == Code::not_enough);
}

TEST_CASE("packed and unpacked: marks stay, differences are counts, the time is told", "[journeys]") {
    Clinic c;
    auto r = c.request();
    r.leave_unsuited = true;
    c.post(c.ledger.pack(r, c.now));
    CHECK(c.doses({"box", "elm", "A1", "", "bin 2"}) == 2);
    CHECK(c.doses({"main", "elm", "A1", "", ""}) == 0);
    CHECK(c.doses({"main", "fir", "F1", "", ""}) == 3);

    auto u = c.back("14:30", "annex");
    u.as_listed = false;
    u.counts = {{"B1", 4}};
    CHECK(refusal([&] { c.ledger.unpack(u, c.now); }, "not counted: \"elm\" lot \"A1\" (10 in the book)") ==
          Code::missing_field);
    u.as_listed = true;
    u.counts = {{"A1", 9}};
    CHECK(refusal([&] { c.ledger.unpack(u, c.now); }, "A1,,bin 2=DOSES") == Code::ambiguous);
    u.counts = {{"B1", 4}, {"A1,,bin 2", 2}, {"E0", 0}};
    CHECK(says(c.ledger.unpack(u, c.now).warnings, "the temperature of \"annex\" at arrival is not stated"));
    u.place_temperature = "4.5C";
    const Drafted d = c.ledger.unpack(u, c.now);
    CHECK(says(d.warnings, "1 missing"));
    CHECK_FALSE(says(d.warnings, "is not stated"));
    std::vector<std::string> counts;
    for (const auto& e : d.entries)
        if (const auto* count = std::get_if<Count>(&e.fact))
            counts.push_back(count->lot + count->mark + " " + std::to_string(count->doses.count()));
    CHECK(counts == std::vector<std::string>{"B1 4", "A1 10", "A1bin 2 2",
                                             "E0 0"});  // A1 without a mark as listed, and counted as the others
    c.post(d);
    CHECK(c.doses({"annex", "elm", "B1", "", ""}) == 4);
    CHECK(c.doses({"annex", "elm", "A1", "", "bin 2"}) == 2);
    CHECK(c.doses({"annex", "elm", "E0", "", ""}) == 0);
    CHECK(c.ledger.stock({}, c.now).accounts.variance == 2);  // one of B1, one of E0

    const TripAnswer trip = c.ledger.trip("box", Duration(3600), {}, c.now);
    CHECK(trip.lasted == Duration(5400));
    CHECK(*trip.arrived == at("2026-06-01T14:30:00Z"));
    CHECK(*trip.packed_by == "cd");
    std::vector<std::string> events;
    for (const auto& event : trip.events)
        events.push_back(event.at.text().substr(11, 5) + " " + english().say(event.what));
    CHECK(trip.events.front().what.code() == "last-good-reading");
    CHECK(events == std::vector<std::string>{"12:00 last good reading of \"main\": 4 °C",
                                             "12:30 noticed (incident i1): dark display",
                                             "12:59 check of \"main\": 9 °C", "13:00 departure to annex (emergency)",
                                             "13:00 check of \"box\": 5 °C", "14:30 check of \"annex\": 4.5 °C",
                                             "14:30 check of \"box\": 6 °C", "14:30 arrival"});
    REQUIRE(trip.holdings.size() == 4);
    const auto& b1 = trip.holdings[2];
    CHECK(b1.holding.lot == "B1");
    CHECK(b1.loaded == Doses(5));
    CHECK(b1.missing == Doses(1));
    CHECK(b1.unloaded == Doses(4));
    CHECK(b1.aboard == Doses(0));
    CHECK(b1.exposure.seconds[static_cast<int>(Class::checked)] == Rational(5400));
    CHECK(b1.exposure.warm.estimate == Rational(0));
    CHECK(*b1.exposure.highest_C == Rational(6));
}

TEST_CASE("what is unpacked late into a place of which an incident was noticed since is put on hold", "[journeys]") {
    Clinic c;
    auto r = c.request();
    r.leave_unsuited = true;
    c.post(c.ledger.pack(r, c.now));
    const std::string noticed =
        R"({"kind":"incident","by":"ab","incident":"i2","step":"noticed","place":"annex","text":"door","at":)";
    c.ledger.post(noticed + R"("2026-06-01T15:00:00Z"})", c.now);
    const Drafted d = c.ledger.unpack(c.back("14:30", "annex"), c.now);
    std::vector<std::string> held;
    for (const auto& e : d.entries)
        if (const auto* hold = std::get_if<Hold>(&e.fact)) {
            CHECK(e.at == at("2026-06-01T15:00:00Z"));
            held.push_back(*hold->lot + " in " + *hold->place);
        }
    std::ranges::sort(held);  // one a lot, though one of them is there under two marks
    CHECK(held == std::vector<std::string>{"A1 in annex", "B1 in annex", "E0 in annex"});
    const auto told = [&](const Remark& w) {
        return english().say(w).starts_with("DO NOT USE: incident i2 was noticed in \"annex\"");
    };
    CHECK(std::ranges::count_if(d.warnings, told) == 1);
    CHECK(std::ranges::count_if(c.ledger.unpack(c.back("15:10", "annex"), c.now).warnings, told) == 0);
}

TEST_CASE("what comes back from an off-site clinic stays apart from what never left", "[journeys]") {
    Clinic c;
    auto r = c.request();
    r.lots = {"A1"};
    r.reason = "off-site clinic";
    r.destination = "school";
    c.post(c.ledger.pack(r, c.now));
    c.ledger.post(
        R"({"kind":"receive","by":"ab","at":"2026-06-01T13:10:00Z","place":"main","product":"elm","lot":"A1","doses":4}
{"kind":"give","by":"cd","at":"2026-06-01T14:00:00Z","place":"box","product":"elm","lot":"A1","patient":"t-1"}
{"kind":"waste","by":"cd","at":"2026-06-01T14:10:00Z","place":"box","product":"elm","lot":"A1","doses":2,)"
        R"("reason":"dropped"}
{"kind":"check","by":"cd","at":"2026-06-01T14:20:00Z","place":"box","scale":"C","temperature":"11"})",
        c.now);
    const Drafted d = c.ledger.unpack(c.back("15:00", "main"), c.now);
    c.post(d);
    CHECK(c.doses({"main", "elm", "A1", "", ""}) == 4);
    CHECK(c.doses({"main", "elm", "A1", "", "trip 2026-06-01 13:00"}) == 7);
    CHECK(c.doses({"main", "elm", "A1", "", "bin 2, trip 2026-06-01 13:00"}) == 2);
    for (const auto& row : c.ledger.lists(Question{at("2026-06-01T15:00:00Z"), {}}, c.now).holdings) {
        const bool travelled = row.holding.mark.find("trip") != std::string::npos;
        if (row.holding.lot == "A1")
            CHECK((std::find(row.reasons.begin(), row.reasons.end(), Reason::point) != row.reasons.end()) == travelled);
    }
    const TripAnswer trip = c.ledger.trip("box", std::nullopt, {}, c.now);
    REQUIRE(trip.holdings.size() == 2);
    CHECK(trip.holdings[0].loaded == Doses(10));
    CHECK(trip.holdings[0].given == Doses(1));
    CHECK(trip.holdings[0].wasted == Doses(2));
    CHECK(trip.holdings[0].unloaded == Doses(7));
    // a line from 5 °C at 13:00 over 11 °C at 14:20 to 6 °C at 15:00: above 8 °C for 40 min up and 24 min down
    CHECK(trip.holdings[0].exposure.warm.estimate == Rational(40 * 60 + 24 * 60));
    CHECK_FALSE(trip.limit);
    c.ledger.post(
        R"({"kind":"rules","by":"ab","programme":"Invented programme","source":"invented handbook",)"
        R"("dated":"2026-01-01","longest_trip_s":7199})",
        c.now);
    const TripAnswer ruled = c.ledger.trip("box", std::nullopt, {}, c.now);
    CHECK(*ruled.limit == Duration(7199));
    CHECK(ruled.lasted > *ruled.limit);  // 13:00 to 15:00: a second over
    CHECK(*c.ledger.trip("box", Duration(28800), {}, c.now).limit == Duration(28800));
}

TEST_CASE("a container loaded twice before it arrives is on one journey, from its first departure", "[journeys]") {
    Clinic c;
    auto r = c.request();
    r.lots = {"B1"};
    c.post(c.ledger.pack(r, c.now));
    r.lots = {"A1"};
    r.at = "13:20";
    r.place_temperature = "5C";
    c.post(c.ledger.pack(r, c.now));
    c.ledger.post(
        R"({"kind":"receive","by":"ab","at":"2026-06-01T13:05:00Z","place":"annex","product":"elm","lot":"B1",)"
        R"("doses":3})",
        c.now);
    r.place = "annex";
    r.destination = "school";
    r.lots = {"B1"};
    r.at = "13:30";
    c.post(c.ledger.pack(r, c.now));
    const TripAnswer away = c.ledger.trip("box", Duration(3600), Question{at("2026-06-01T14:00:01Z"), {}}, c.now);
    CHECK(away.departed == at("2026-06-01T13:00:00Z"));
    CHECK(away.lasted == Duration(3601));  // the limit is that of the doses that have been in it longest
    CHECK(away.destination == "annex");
    std::vector<std::string> events;
    for (const auto& event : away.events)
        events.push_back(event.at.text().substr(11, 5) + " " + english().say(event.what));
    CHECK(std::count_if(events.begin(), events.end(),
                        [](const auto& e) { return e.find("departure to ") != std::string::npos; }) == 3);
    CHECK(says(events, "13:30 departure to school (emergency)"));
    CHECK(says(events, "13:20 check of \"main\": 5 °C"));
    CHECK(says(events, "13:30 check of \"annex\": 5 °C"));

    auto u = c.back("15:00", "annex");
    u.counts = {{"B1", 6}, {"A1,,", 11}};  // of 8 and 10
    c.post(c.ledger.unpack(u, c.now));
    const TripAnswer trip = c.ledger.trip("box", std::nullopt, {}, c.now);
    CHECK(trip.lasted == Duration(7200));
    REQUIRE(trip.holdings.size() == 3);
    CHECK(trip.holdings[0].loaded == Doses(10));
    CHECK(trip.holdings[0].missing == Doses(-1));
    CHECK(trip.holdings[0].unloaded == Doses(11));
    CHECK(trip.holdings[1].holding.mark == "bin 2");
    CHECK(trip.holdings[1].loaded == Doses(2));
    CHECK(trip.holdings[2].loaded == Doses(8));  // 5 and 3
    CHECK(trip.holdings[2].missing == Doses(2));
    CHECK(trip.holdings[2].unloaded == Doses(6));
    CHECK(trip.holdings[2].from == at("2026-06-01T13:00:00Z"));
    CHECK(trip.holdings[2].aboard == Doses(0));

    r.place = "annex";  // after the arrival: another journey
    r.lots = {"B1"};
    r.at = "16:00";
    c.post(c.ledger.pack(r, c.now));
    CHECK(c.ledger.trip("box", std::nullopt, {}, c.now).departed == at("2026-06-01T16:00:00Z"));
}

TEST_CASE("a container that was emptied by moves begins a new journey when it is packed again", "[journeys]") {
    Clinic c;
    auto r = c.request();
    r.lots = {"B1"};
    c.post(c.ledger.pack(r, c.now));
    const auto& b1 = c.ledger.stock({}, c.now).holdings;
    const auto aboard = std::find_if(b1.begin(), b1.end(), [](const auto& row) { return row.holding.place == "box"; });
    REQUIRE(aboard != b1.end());
    c.ledger.post(R"({"kind":"move","by":"ab","at":"2026-06-01T13:10:00Z","product":"elm","lot":"B1","doses":)" +
                      std::to_string(aboard->doses.count()) + R"(,"from":{"place":"box"},"to":{"place":"annex"}})",
                  c.now);
    r.lots = {"A1"};
    r.at = "13:20";
    c.post(c.ledger.pack(r, c.now));
    CHECK(c.ledger.trip("box", {}, Question{at("2026-06-01T14:00:00Z"), {}}, c.now).departed ==
          at("2026-06-01T13:20:00Z"));
}

TEST_CASE("a trip without logger and checks is time not known", "[journeys]") {
    Clinic c;
    auto r = c.request();
    r.lots = {"B1"};
    r.container_temperature.reset();
    const Drafted d = c.ledger.pack(r, c.now);
    CHECK(says(d.warnings, "no logger is in \"box\""));
    c.post(d);
    r.place_temperature.reset();
    r.lots = {"A1"};
    CHECK(says(c.ledger.pack(r, c.now).warnings, "the temperature of \"main\" at departure is not stated"));
    auto u = c.back("16:00", "annex");
    u.container_temperature.reset();
    CHECK(says(c.ledger.unpack(u, c.now).warnings, "the temperature of \"box\" at arrival is not stated"));
    c.post(c.ledger.unpack(u, c.now));
    for (const auto& row : c.ledger.lists({}, c.now).holdings)
        if (row.holding.lot == "B1") {
            CHECK(row.list == List::quarantine);
            CHECK(std::find(row.reasons.begin(), row.reasons.end(), Reason::unmonitored) != row.reasons.end());
        }
    CHECK(c.ledger.trip("box", std::nullopt, {}, c.now)
              .holdings[0]
              .exposure.seconds[static_cast<int>(Class::unmonitored)] == Rational(10800));

    // the place was a clerk's mistake: taken back and posted right, the same doses are judged by where they were
    const auto before = c.ledger.lists({}, c.now);
    std::vector<Entry> corrections;
    c.ledger.for_each_entry([&](const Entry& e) {
        if (!std::get_if<Move>(&e.fact) && !std::get_if<Count>(&e.fact)) return;
        Entry undo;
        undo.at = c.now;
        undo.by = "cd";
        undo.fact = Void{e.number, "the doses never left"};
        corrections.insert(corrections.begin(), undo);
    });
    REQUIRE(corrections.size() == 3);  // packed; counted and unpacked
    const Changes changes = c.ledger.changes(corrections, c.now);
    CHECK(changes.holdings.size() == 2);  // gone from the annex, and back in main
}
