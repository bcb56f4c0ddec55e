// A definition that forbids less than the one that holds is asked about, whatever the lists show now; so is one by
// which a holding loses a reason or a give a finding. All data invented; conversions by hand (F = C * 9/5 + 32).
#include <catch2/catch.hpp>

#include "coldtally/definition_work.hpp"
#include "coldtally/forms.hpp"
#include "drafts/looser.hpp"
#include "said.hpp"
#include "temporary.hpp"

using namespace coldtally;

namespace {

using Words = std::vector<std::string>;

Words looser(const Fact& before, const Fact& after) { return english().say(answers::looser(before, after)); }

Limit limit(const char* C, const char* F) {
    Limit out;
    if (C) out.C = Temperature::parse(C, Scale::C);
    if (F) out.F = Temperature::parse(F, Scale::F);
    return out;
}
Allowance band(const char* low, const char* high, std::int64_t hours) {
    return {limit(low, nullptr), limit(high, nullptr), Duration(hours * 3600), "invented"};
}
Product product() {
    Product p;
    p.product = p.name = "elm";
    p.range = {limit("2", "36"), limit("8", "46")};
    return p;
}

Instant local(const char* text) { return parse_instant(text, Zone("Europe/Zurich")); }

struct Clinic {
    ::tests::TemporaryFile file;
    Ledger ledger{file.path(), Ledger::Mode::create};
    Instant now = local("2026-06-30T06:00:00");

    Clinic() {
        ledger.post(R"({"kind":"site","by":"ab","name":"Invented","zone":"Europe/Zurich"}
{"kind":"product","by":"ab","product":"elm","name":"Elm","range":{"low":{"C":"2","F":"36"},"high":{"C":"8","F":"46"}}}
{"kind":"place","by":"ab","place":"main","name":"M","type":"refrigerator","range":{"low":{"C":"2","F":"36"},)"
                    R"("high":{"C":"8","F":"46"}}}
{"kind":"probe","by":"ab","probe":"p","scale":"C"}
{"kind":"lot","by":"ab","product":"elm","lot":"L1","expiry":"2027-05"})",
                    now);
        now = local("2026-06-30T12:00:00");
    }
    void checks(const std::vector<std::pair<const char*, const char*>>& all) {
        for (const auto& [time, degrees] : all)
            ledger.post(R"({"kind":"check","by":"ab","place":"main","scale":"C","at":"2026-06-30T)" +
                            std::string(time) + R"(:00","temperature":")" + degrees + "\"}",
                        now);
    }
    DefinitionDraft draft(const std::string& fields) {
        return definition_draft(ledger, R"({"by":"ab",)" + fields + "}", now);
    }
    /// What is asked; nothing is written by that.
    std::string asked(const std::string& fields) {
        const DefinitionDraft d = draft(fields);
        CHECK_NOTHROW(ask_before_loosening(d, true));
        try {
            ask_before_loosening(d, false);
        } catch (const Refusal& e) {
            CHECK(e.code() == Code::missing_field);
            CHECK(e.said().code() == "loosening-not-meant");
            return e.what();
        }
        return {};
    }
};

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("a limit that reaches further, in either scale, or is gone is looser", "[looser]") {
    const Product before = product();
    const auto with = [&](const Range& range, std::optional<Limit> freeze = std::nullopt) {
        Product p = before;
        p.range = range;
        p.freeze_limit = freeze;
        return p;
    };
    CHECK(looser(before, before).empty());
    CHECK(answers::looser(before, with({limit("2", "36"), std::nullopt})).front().code() == "loosened");
    CHECK(looser(before, with({limit("2", "36"), limit("10", "50")})) == Words{"high 8 °C (46 °F) -> 10 °C (50 °F)"});
    CHECK(looser(before, with({limit("1", "33.8"), limit("8", "46")})) == Words{"low 2 °C (36 °F) -> 1 °C (33.8 °F)"});
    CHECK(looser(before, with({limit("2", "36"), std::nullopt})) == Words{"high 8 °C (46 °F) -> none"});
    // 8 °C alone is 46.4 °F for what is read in °F; the other way round it is tighter there
    const Product in_C = with({limit("2", "36"), limit("8", nullptr)});
    CHECK(looser(before, in_C) == Words{"high 8 °C (46 °F) -> 8 °C (= 46.4 °F)"});
    CHECK(looser(in_C, before).empty());
    CHECK(looser(before, with({limit("3", "37.4"), limit("7", "44.6")})).empty());
    const Product frozen = with(before.range, limit("0", "32"));
    CHECK(looser(frozen, with(before.range, limit("-1", "30.2"))) ==
          Words{"freeze limit 0 °C (32 °F) -> -1 °C (30.2 °F)"});
    CHECK(looser(frozen, before) == Words{"freeze limit 0 °C (32 °F) -> none"});
    CHECK(looser(before, frozen).empty());
}

TEST_CASE("an allowance that is new, longer or wider is looser, and one that yields to a longer one", "[looser]") {
    const auto with = [](std::vector<Allowance> all) {
        Product p = product();
        if (!all.empty()) p.allowances = std::move(all);
        return p;
    };
    const std::string hour = "1 h from 8 °C (= 46.4 °F) to 15 °C (= 59 °F)";
    CHECK(looser(with({}), with({band("8", "15", 1)})) == Words{"allowance none -> " + hour});
    CHECK(looser(with({band("8", "15", 1)}), with({})).empty());
    CHECK(looser(with({band("8", "15", 1)}), with({band("8", "15", 3)})) ==
          Words{"allowance " + hour + " -> 3 h from 8 °C (= 46.4 °F) to 15 °C (= 59 °F)"});
    CHECK(looser(with({band("8", "15", 1)}), with({band("8", "25", 1)})) ==
          Words{"allowance " + hour + " -> 1 h from 8 °C (= 46.4 °F) to 25 °C (= 77 °F)"});
    CHECK(looser(with({band("8", "15", 3)}), with({band("8", "12", 2)})).empty());
    // the first whose band holds a temperature takes its time: without it the other one does
    const Allowance wide = band("8", "25", 9);
    CHECK(looser(with({band("8", "15", 1), wide}), with({wide})) ==
          Words{"allowance " + hour + " -> none, where 9 h from 8 °C (= 46.4 °F) to 25 °C (= 77 °F) counts"});
    CHECK(looser(with({band("8", "15", 1), wide}), with({wide, band("8", "15", 1)})).size() == 1);
    CHECK(looser(with({band("8", "15", 1), wide}), with({band("8", "12", 1), wide})).size() == 1);
    CHECK(looser(with({wide, band("8", "15", 1)}), with({wide})).empty());
    CHECK(looser(with({band("8", "15", 1), wide}), with({band("8", "15", 1)})).empty());
    // one that is split is two
    CHECK(looser(with({band("8", "25", 1)}), with({band("8", "15", 1), band("15", "25", 1)})).size() == 1);
}

TEST_CASE("longer times and a later expiry are looser", "[looser]") {
    Product before = product(), after = product();
    before.beyond_use = std::map<std::string, Duration>{{"first puncture", Duration(2419200)},
                                                        {"mixed", Duration(3600)}};
    after.beyond_use = std::map<std::string, Duration>{{"mixed", Duration(5400)}};
    CHECK(looser(before, after) ==
          Words{"beyond-use after \"first puncture\" 28 d -> none", "beyond-use after \"mixed\" 1 h -> 1 h 30 min"});
    CHECK(looser(after, product()).size() == 1);
    CHECK(looser(product(), before).empty());

    CHECK(looser(Lot{"elm", "L1", "2027-05-30"}, Lot{"elm", "L1", "2027-05"}) ==
          Words{"expiry 2027-05-30 -> 2027-05-31"});
    CHECK(looser(Lot{"elm", "L1", "2027-05"}, Lot{"elm", "L1", "2027-05-31"}).empty());

    Place usual;
    usual.range = product().range;
    Place place = usual;
    place.max_gap = Duration(3601);
    place.max_check_gap = Duration(64801);
    place.near = Duration(1801);
    CHECK(looser(usual, place) == Words{"longest step between two readings 1 h -> 1 h 1 s",
                                        "longest step between two checks 18 h -> 18 h 1 s",
                                        "a reading speaks for the time around it up to 30 min -> 30 min 1 s"});
    CHECK(looser(place, usual).empty());
    Place no_high = usual;
    no_high.range.high.reset();
    CHECK(looser(usual, no_high) == Words{"high 8 °C (46 °F) -> none"});

    Site site{"S", "UTC", std::nullopt, std::nullopt}, later = site;
    later.unmonitored_limit = Duration(60);
    later.stale_after = Duration(86400 + 3600);
    CHECK(looser(site, later) == Words{"time not known without quarantine 0 s -> 1 min",
                                       "data that have not come count as not known after 24 h -> 25 h"});
    CHECK(looser(later, site).empty());
}

TEST_CASE("what is held is asked about when it loses another reason, and so are doses given", "[looser]") {
    Clinic c;
    c.ledger.post(
        R"({"kind":"receive","by":"ab","at":"2026-06-30T08:00:00","place":"main","product":"elm","lot":"L1",)"
        R"("doses":10})",
        c.now);
    c.checks({{"08:00", "4"}, {"08:30", "9.5"}, {"09:00", "4"}, {"11:45", "4"}});
    c.ledger.post(
        R"({"kind":"hold","by":"ab","at":"2026-06-30T09:10:00","reason":"invented","product":"elm","lot":"L1"}
{"kind":"give","by":"ab","at":"2026-06-30T09:30:00","place":"main","product":"elm","lot":"L1","patient":"t-1"})",
        c.now);
    const auto row = [&] { return c.ledger.lists({}, c.now).holdings.at(0); };
    CHECK(row().reasons == std::vector{Reason::warm, Reason::point, Reason::held});
    const std::string question = c.asked(R"("kind":"product","product":"elm","range":{"high":{"C":"10","F":"50"}})");
    // above 8 for 3/11 of the hour between the checks of 4: 981 9/11 s
    CHECK(question ==
          "yes: must be stated: LOOSER: high 8 °C (46 °F) -> 10 °C (50 °F); LOOSENS: 9 doses would lose a reason not "
          "to be used: \"elm\" lot \"L1\" in \"main\" (9, loses warm, point; on quarantine-pending-guidance for held); "
          "LOOSENS: less would have been out of range: \"elm\" lot \"L1\" in \"main\" (too warm 16 min 22 s, at most 1 "
          "h -> 0 s, at most 0 s); LOOSENS: 1 give would have a better finding, or fewer reasons: entry 12 (loses "
          "warm, point); LOOSENS: 1 give would have had less out of range before: entry 12 (too warm 16 min 22 s, at "
          "most 1 h -> 0 s, at most 0 s). NOT WRITTEN: read what it changes, and post it again with yes if that is "
          "meant");
    CHECK(row().reasons == std::vector{Reason::warm, Reason::point, Reason::held});

    // a tighter range, and words alone, are not asked about
    CHECK(c.asked(R"("kind":"product","product":"elm","range":{"high":{"C":"7","F":"44.6"}})").empty());
    CHECK(c.asked(R"("kind":"product","product":"elm","name":"Elm II")").empty());
}

TEST_CASE("what is looser is asked about where no list shows anything", "[looser]") {
    Clinic c;
    const auto asks = [&](const char* fields, const std::string& what) {
        const DefinitionDraft d = c.draft(fields);
        REQUIRE(d.changes);
        CHECK(d.changes->holdings.empty());
        REQUIRE(!d.drafted.warnings.empty());
        CHECK(d.drafted.warnings.front().code() == "looser-than-before");
        CHECK(english().say(d.drafted.warnings.front()) == "LOOSER: " + what);
        CHECK(has(c.asked(fields), "yes: must be stated: LOOSER: " + what));
    };
    asks(R"("kind":"product","product":"elm","range":{"high":{"C":"10","F":"50"}})",
         "high 8 °C (46 °F) -> 10 °C (50 °F)");
    asks(R"("kind":"lot","product":"elm","lot":"L1","expiry":"2027-06","note":"n")",
         "expiry 2027-05-31 -> 2027-06-30");
    asks(R"("kind":"place","place":"main","near_s":3600)",
         "a reading speaks for the time around it up to 30 min -> 1 h");
    asks(R"("kind":"site","unmonitored_limit_s":60)", "time not known without quarantine 0 s -> 1 min");
    // no longer than the usual
    CHECK(c.asked(R"("kind":"place","place":"main","near_s":1800,"max_gap_s":900)").empty());
    const Posted said{c.draft(R"("kind":"site","unmonitored_limit_s":60)").drafted, true};
    CHECK(has(to_table(said, *c.draft(R"("kind":"site","unmonitored_limit_s":60)").changes, TableStyle{Zone("UTC")}),
              "No holding changes its list now."));
}

TEST_CASE("a place's wider range says which excursions vanish, and which open incidents lose theirs", "[looser]") {
    Clinic c;
    // by hand: above 8 °C twice, of which 9 °C is within 10 °C, and 12 °C is shorter above it; a day apart is no matter
    c.checks({{"07:00", "4"}, {"07:30", "9"}, {"08:00", "4"}, {"09:00", "4"}, {"09:30", "12"}, {"10:00", "4"}});
    c.ledger.post(
        R"({"kind":"incident","by":"ab","at":"2026-06-30T10:30:00","incident":"2026-1","step":"noticed","text":"n",)"
        R"("place":"main"})",
        c.now);
    const std::string to_10 =
        c.asked(R"("kind":"place","place":"main","range":{"high":{"C":"10","F":"50"}},"note":"n")");
    CHECK(
        has(to_10,
            "LOOSER: high 8 °C (46 °F) -> 10 °C (50 °F); LOOSENS: of 2 excursions recorded in \"main\" 1 vanishes and "
            "1 is shortened; open incident \"2026-1\", noticed there, would have 2 -> 1 excursion there"));
    const std::string to_13 =
        c.asked(R"("kind":"place","place":"main","range":{"high":{"C":"13","F":"55.4"}},"note":"n")");
    CHECK(has(to_13,
              "of 2 excursions recorded in \"main\" 2 vanish and 0 are shortened; open incident \"2026-1\", noticed "
              "there, would find nothing out of range there: 2 excursions -> none"));
    CHECK(has(c.asked(R"("kind":"place","place":"main","near_s":3600)"),
              "of 2 excursions recorded in \"main\" none vanishes or is shortened"));
}

namespace {

const std::string duty_rules =
    R"({"kind":"rules","by":"ab","programme":"P","source":"invented","dated":"2026-01-01","report":[{"rule":"hour",)"
    R"("form":"run","temperature":{"is":"above","limit":{"C":"8","F":"46"}},"at_least_s":3600,)"
    R"("places":["refrigerator"]}],"duties":[{"step":"health department told","within_s":3600,"if_reportable":true}]})";

/// 11 °C from 03:00 to 05:00 by the logger, noticed at 06:00: must have been told by 07:00.
struct Warm : Clinic {
    Warm() {
        ledger.post(duty_rules, now);
        std::string rows;
        const std::vector<std::pair<const char*, const char*>> all{
            {"02:00", "5"}, {"03:00", "11"}, {"04:00", "11"}, {"05:00", "11"}, {"06:00", "5"}};
        for (const auto& [time, degrees] : all)
            rows += std::string(rows.empty() ? "" : ",") + R"(["2026-06-30T)" + time + R"(:00",")" + degrees + "\"]";
        ledger.post(R"({"kind":"assign","by":"ab","at":"2026-06-30T00:00:00","probe":"p","place":"main"}
{"kind":"readings","by":"ab","probe":"p","scale":"C","rows":[)" + rows + R"(]}
{"kind":"incident","by":"ab","at":"2026-06-30T06:00:00","incident":"i1","step":"noticed","text":"t","place":"main"})",
                    now);
    }
};

}  // namespace

TEST_CASE("another type of place takes away what the programme asks, and is asked about", "[looser]") {
    Warm c;
    const std::string asked = c.asked(R"("kind":"place","place":"main","type":"room")");
    CHECK(has(asked, R"(LOOSER: type refrigerator -> room, of which the programme no longer asks: condition "hour")"));
    CHECK(has(asked, R"(LOOSENS: of open incident "i1" the programme would ask less: condition "hour" in "main", )"
                     "met, would no longer be asked; health department told, OVERDUE since 2026-06-30 07:00, would no "
                     "longer be due"));
    // what is announced is what is
    const auto whole = [&] { return c.ledger.incident("i1", std::nullopt, {}, c.now); };
    CHECK(whole().findings.size() == 1);
    DefinitionDraft d = c.draft(R"("kind":"place","place":"main","type":"room")");
    c.ledger.post(d.drafted, c.now);
    CHECK(whole().findings.empty());
    for (const auto& duty : whole().duties) CHECK_FALSE(duty.due);
    CHECK(c.asked(R"("kind":"place","place":"main","type":"refrigerator")").empty());
}

TEST_CASE("rules that ask less are warned of, with what open incidents would no longer be asked", "[looser]") {
    Warm c;
    const auto posted = [&](std::string json) {
        std::vector<Remark> warnings;
        c.ledger.post(json, c.now, true, &warnings);
        return coldtally::tests::said_as_one(warnings, "\n");
    };
    const auto with = [](std::string json, const std::string& what, const std::string& in_place) {
        return json.replace(json.find(what), what.size(), in_place);
    };
    const std::string longer = posted(with(with(duty_rules, R"("at_least_s":3600)", R"("at_least_s":36000)"),
                                           R"("within_s":3600)", R"("within_s":864000)"));
    CHECK(has(longer, R"(LOOSER: condition "hour" at least 1 h -> at least 10 h)"));
    CHECK(has(longer, "LOOSER: health department told: due within 1 h -> 10 d"));
    CHECK(has(longer, R"(LOOSENS: of open incident "i1" the programme would ask less: condition "hour" in "main", )"
                      "met, would be not met; health department told, OVERDUE since 2026-06-30 07:00, would no longer "
                      "be due"));
    CHECK(has(posted(with(duty_rules, R"({"C":"8","F":"46"})", R"({"C":"10","F":"50"})")),
              R"(LOOSER: condition "hour" above 8 °C (46 °F) -> above 10 °C (50 °F))"));
    CHECK(has(posted(with(duty_rules, R"("refrigerator")", R"("freezer")")),
              R"(LOOSER: condition "hour" also of a refrigerator -> no longer)"));
    CHECK(has(posted(with(duty_rules, R"("rule":"hour")", R"("rule":"other")")),
              R"(LOOSER: condition "hour" above 8 °C (46 °F) -> none of this name)"));
    CHECK_FALSE(has(posted(duty_rules), "LOOS"));
    CHECK_FALSE(has(posted(with(duty_rules, R"("at_least_s":3600)", R"("at_least_s":1800)")), "LOOS"));
    // taken back there would be none at all
    const EntryNumber rules = *c.ledger.rules(std::nullopt, c.now, c.now, {}, c.now).entry;
    CHECK(has(c.asked(R"("kind":"void","voids":)" + std::to_string(rules) + R"(,"reason":"r")"),
              R"(condition "hour" in "main", met, would no longer be asked)"));
}

TEST_CASE("a definition that is taken back is asked about like one that is looser, and read back", "[looser]") {
    Clinic c;
    const auto number = [&](const char* fields) {
        DefinitionDraft d = c.draft(fields);
        c.ledger.post(d.drafted, c.now);
        return d.drafted.entries.back().number;
    };
    const auto freezes = number(R"("kind":"product","product":"elm","freeze_limit":{"C":"-1","F":"30.2"})");
    const auto narrow = number(R"("kind":"product","product":"elm","range":{"high":{"C":"7","F":"44.6"}})");
    const auto near = number(R"("kind":"place","place":"main","near_s":600)");
    const auto rules = c.ledger.post(duty_rules, c.now).front();
    const auto takeback = [&](EntryNumber n) {
        return R"("kind":"void","reason":"typed wrong","voids":)" + std::to_string(n);
    };
    CHECK(has(c.asked(takeback(narrow)), "LOOSER: high 7 °C (44.6 °F) -> 8 °C (46 °F)"));
    CHECK(has(c.asked(takeback(near)),
              "LOOSER: a reading speaks for the time around it up to 10 min -> 30 min"));
    CHECK(has(c.asked(takeback(rules)), "LOOSER: condition \"hour\" above 8 °C (46 °F) -> none of this name"));
    CHECK(has(c.asked(takeback(rules)), "health department told"));
    const auto said = coldtally::tests::said_as_one(c.draft(takeback(narrow)).drafted.read_back, "\n");
    CHECK(has(said, "range: 2 °C (36 °F) to 8 °C (46 °F)"));
    CHECK(has(coldtally::tests::said_as_one(c.draft(takeback(narrow)).drafted.warnings, "\n"),
              "asked: range: 2 °C (36 °F) to 7 °C (44.6 °F) -> 2 °C (36 °F) to 8 °C (46 °F)"));
    // one that does not hold any more takes nothing away
    CHECK(c.asked(takeback(freezes)).empty());
    // posted as JSON it is warned of
    std::vector<Remark> warned;
    c.ledger.post(R"({"kind":"void","at":"2026-06-30T11:00:00","by":"ab","reason":"r","voids":)" +
                      std::to_string(narrow) + "}",
                  c.now, true, &warned);
    CHECK(has(coldtally::tests::said_as_one(warned, "\n"), "LOOSER: high 7 °C (44.6 °F) -> 8 °C (46 °F)"));
}
